#pragma once
// Whether the lights of a display can be on one scale.
#include <span>

#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

/// Finds, and warns of, lights that each reach the same peak (scale_unknown), and of red, green, blue and white of which one holds a thousandth of
/// the light of another, or less (scales_differ).
/// @param peaks  the largest value of each light of the file, repeats one by one
void warn_scales(SpectralFile& file, std::span<const double> peaks);

/// Whether it is the warning that the file's lights reach one peak.
bool says_equal_peak(const SpectralFile& file, const Warning& warning);

/// Whether it is one of those that warn_scales() made of the file.
bool says_scale(const SpectralFile& file, const Warning& warning);

}  // namespace samelight::io::detail
