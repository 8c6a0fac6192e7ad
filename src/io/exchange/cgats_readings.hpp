#pragma once
// Readings of patches in CGATS.17 text, made a table as readings have it: what reads those then reads and judges these as well.
#include <string>
#include <string_view>
#include <vector>

#include "io/text/original.hpp"

namespace samelight::io::detail {

/// What is taken of the sets.
enum class CgatsPatches {
    /// Readings, and signals where they are there.
    readings,
    signals
};

struct ExchangeReadings {
    MadeText made{','};
    /// How the file was written: whole sentences.
    std::vector<std::string> understood;
};

/// The sets of the first section that has what this kind of file needs: XYZ_X, XYZ_Y, XYZ_Z (cd/m2) for readings, RGB_R, RGB_G, RGB_B (code
/// values) for signals; SAMPLE_NAME, else SAMPLE_ID, names the patches.
/// Throws Error (input) where no section has them, and for cells that are no numbers.
ExchangeReadings cgats_readings(const Original& file, CgatsPatches kind);

/// Whether these are the bytes of CGATS.17 text of which a section has spectra. False for what is too large for a file of readings.
/// Throws Error (input) for CGATS.17 text that can't be understood, and for what is no text.
bool holds_cgats_spectra(std::string_view bytes, const std::string& source);

}  // namespace samelight::io::detail
