#pragma once
// Readings of patches in CGATS.17 text, made a table as readings have it: what reads those then reads and judges these as well.
#include <string>
#include <vector>

#include "io/readings/readings_columns.hpp"
#include "io/text/original.hpp"

namespace samelight::io::detail {

struct ExchangeReadings {
    MadeText made{','};
    /// How the file was written: whole sentences.
    std::vector<std::string> understood;
};

/// The sets of the first section that has what this kind of file needs: XYZ_X, XYZ_Y, XYZ_Z (cd/m2) for readings, RGB_R, RGB_G, RGB_B (code
/// values) for signals; SAMPLE_NAME, else SAMPLE_ID, names the patches.
/// @param kind patches or signals
/// Throws Error (input) where no section has them, and for cells that are no numbers.
ExchangeReadings cgats_readings(const Original& file, ReadingsKind kind);

/// Whether a section of the file has spectra.
bool holds_cgats_spectra(const Original& file);

}  // namespace samelight::io::detail
