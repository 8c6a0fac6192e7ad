#pragma once
// Spectra in the forms of standards, made tables of the plain form: what reads those then reads and judges these as well.
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "io/layout/layout.hpp"
#include "io/text/original.hpp"

namespace samelight::io::detail {

/// How a text is written.
enum class TextForm {
    /// Anything that isn't one of the others.
    table,
    /// XML, in which only TM-27 is understood.
    xml,
    /// The text form of CGATS.17 (ISO 28178).
    cgats
};

/// The form of a text by its content: XML begins with its declaration, a comment or TM-27's root; CGATS has a line that begins with a keyword of its data format.
TextForm form_of(std::string_view text);

/// The spectra of such a file.
struct ExchangeSpectra {
    /// Tabs between cells: comments, the heading wavelength_nm and names, the numbers.
    MadeText made{'\t'};
    /// How the file was written: whole sentences.
    std::vector<std::string> understood;
    char mark = '.';
    /// Of all values: -2 for per cent.
    int power_of_ten = 0;

    /// Where the numbers lie in `made`.
    [[nodiscard]] Layout layout() const;
    /// How many lines of `made` stand above the numbers, and how many columns it has.
    std::size_t heading_lines = 0, columns = 0;
};

/// Understands a file of that form, which isn't `table`.
/// Throws Error (input), file:line:column, what was found, what was wanted.
ExchangeSpectra exchange_spectra(TextForm form, const Original& file);

/// TM-27 XML: one light. In tm27.cpp.
ExchangeSpectra tm27_spectra(const Original& file);

/// CGATS.17 text: the sets of all sections with SPECTRAL_NM. In cgats_spectra.cpp.
ExchangeSpectra cgats_spectra(const Original& file);

}  // namespace samelight::io::detail
