#pragma once
// Whether the lights of a display can be on one scale.
#include <span>

#include "samelight/io/spectral_csv.hpp"

namespace samelight::io::detail {

/// Warns of lights that each reach the same peak (scale_unknown), and of red, green, blue and white of which one holds a thousandth of
/// the light of another, or less (scales_differ).
/// @param peaks  the largest value of each light of the file, repeats one by one
void warn_scales(SpectralFile& file, std::span<const double> peaks);

}  // namespace samelight::io::detail
