#pragma once
// The error of a corrected reading against the reference's, in the measures that the trade uses.
#include <array>
#include <optional>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How far `corrected` is from `reference`, both X, Y, Z in cd/m2 with a luminance above 0.
/// @param white  the reference's white, X, Y, Z: for CIEDE2000, which is left out without it
/// Throws Error (domain) for a light without luminance. Source: x, y and u', v' as chromaticity.hpp (CIE 15:2018); CIEDE2000 as
/// difference.hpp (ISO/CIE 11664-6).
SAMELIGHT_API ColourError colour_error(const std::array<double, 3>& corrected,
                                       const std::array<double, 3>& reference,
                                       const std::optional<std::array<double, 3>>& white);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/correction/impl/colour_error.ipp"
#endif
