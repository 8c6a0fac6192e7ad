#pragma once
// Spectra written in the exchange forms of standards; read_spectral_csv() reads them back.
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// How spectra are written.
enum class SpectraForm {
    /// The plain form of spectral_csv_text().
    csv,
    /// IES TM-27 XML: one light a file.
    tm_27,
    /// The text form of CGATS.17, also ISO 28178: a set for each light.
    cgats_17
};

/// "csv", "tm-27" or "cgats.17".
[[nodiscard]] SAMELIGHT_API std::string code_of(SpectraForm form);

/// The form of that code, in capitals or not; none for any other text.
[[nodiscard]] SAMELIGHT_API std::optional<SpectraForm> spectra_form_named(std::string_view code);

/// What is said of a file's spectra.
struct SpectraDocument {
    /// Written with the spectra; one line each.
    std::vector<std::string> comments = {};
    /// When the document was made, YYYY-MM-DD; from the caller, since a library that asks the clock writes another file each day.
    std::string date;
    /// Who made it; empty: this library and its version.
    std::string creator = {};
};

/// Lights as a TM-27 document: Description (the light's name), DocumentCreator, DocumentCreationDate, SpectralQuantity and SpectralData,
/// which the form requires, and Comments, where the unit W/(sr m2 nm) is stated if the values have it. The quantity is "radiance" or
/// "relative". Every number is the shortest text that reads back to the bit.
///
/// @param lights one light; values up to 1e30 in magnitude; a name as spectral_csv_text() wants it
/// Throws Error (shape) for more or fewer lights, Error (domain) for a date that is none, for texts of several lines, and as
/// spectral_csv_text().
/// Source: IES TM-27-14, elements and namespace; the names of the two quantities from memory.
[[nodiscard]] SAMELIGHT_API std::string tm27_text(const SpectraDocument& document,
                                                  std::span<const LightColumn> lights,
                                                  LightUnit unit = LightUnit::relative);

/// Lights as CGATS.17 text: one section, in which each light is a set with SAMPLE_ID, SAMPLE_NAME and a pair SPECTRAL_NM, SPECTRAL_DEC for
/// each wavelength. Comments, and the unit W/(sr m2 nm) if the values have it, stand in DESCRIPTOR. Every number is the shortest text that
/// reads back to the bit.
///
/// @param lights as spectral_csv_text() wants them
/// Throws Error as tm27_text(), but for the number of lights, of which there may be any but none.
/// Source: CGATS.17-2009, ISO 28178: sections; keywords from memory. SPECTRAL_DEC for values in a unit, not shares: own rule.
[[nodiscard]] SAMELIGHT_API std::string cgats_text(const SpectraDocument& document,
                                                   std::span<const LightColumn> lights,
                                                   LightUnit unit = LightUnit::relative);

/// Lights in that form; csv: spectral_csv_text() with the document's comments, whose date and creator aren't written.
/// Throws Error as the function of that form.
[[nodiscard]] SAMELIGHT_API std::string spectra_text(SpectraForm form,
                                                     const SpectraDocument& document,
                                                     std::span<const LightColumn> lights,
                                                     LightUnit unit = LightUnit::relative);

}  // namespace samelight::io
