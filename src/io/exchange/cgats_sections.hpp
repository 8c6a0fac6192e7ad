#pragma once
// The text form of CGATS.17 (ISO 28178): a preamble of keywords, then sections of data, each value under a field of its section's format.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "io/exchange/cgats_words.hpp"
#include "io/text/original.hpp"

namespace samelight::io::detail {

/// One section: the names of its fields and its sets, which have a value for each.
struct CgatsSection {
    std::vector<CgatsWord> fields;
    /// At least one: the lines of the sets, each of which has a value for each field. See values_of(); kept as they
    /// stand, since words take many times their bytes.
    std::vector<std::string_view> sets;
    /// Where it begins.
    std::size_t offset = 0;

    /// The place of the field of that name; none where there is none.
    [[nodiscard]] std::optional<std::size_t> field(std::string_view name) const;
    /// The field that names the sets: SAMPLE_NAME, else SAMPLE_ID.
    [[nodiscard]] std::optional<std::size_t> naming_field() const;
};

/// A file's sections and what its preamble says.
struct CgatsFile {
    /// At least one.
    std::vector<CgatsSection> sections;
    /// The value of DESCRIPTOR and what comment lines say, with where they stand.
    std::vector<CgatsWord> remarks;
    /// How it was written: whole sentences.
    std::vector<std::string> understood;
};

/// Reads the sections. Words stand between blanks or tabs, those with blanks in them in quotation marks; where a line's words don't fit its
/// fields but its parts between tabs do, these are meant. A field stands twice only where it is spectral.
/// Throws Error (input), file:line:column, for sections that don't end, for numbers of fields or sets that differ from what is there, for
/// sets with too few or too many values, and for more than 200,000 lines.
CgatsFile cgats_file(const Original& file);

/// Finds the mark of decimals in numbers: the point, unless they hold commas that can't group thousands.
class DecimalMark {
  public:
    explicit DecimalMark(const Original& file) : file_(file) {}

    /// `number` is a view into the file.
    void look_at(std::string_view number);
    /// Throws Error (input) for both marks, and for commas that may group thousands throughout.
    [[nodiscard]] char mark() const;

  private:
    const Original& file_;
    std::string_view point_, comma_;
    bool decided_ = false;
};

/// The spectral fields come once a wavelength.
bool is_spectral_field(std::string_view name);

}  // namespace samelight::io::detail
