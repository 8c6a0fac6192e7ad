#pragma once
// The bodies of colour/appearance/ciecam16_formulas.hpp.

#include <array>
#include <cstddef>
#include <limits>

#include "samelight/colour/appearance/ciecam16_formulas.hpp"
#include "samelight/colour/appearance/ciecam16_viewing.hpp"
#include "samelight/colour/appearance/hue.hpp"
#include "samelight/numeric/math.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE double cam_hue_angle(double composition) {
    constexpr std::array<double, 5> hue{20.14, 90.0, 164.25, 237.53, 380.14};
    constexpr std::array<double, 5> eccentricity{0.8, 0.7, 1.0, 1.2, 0.8};
    const std::size_t i = composition < 100.0   ? 0
                          : composition < 200.0 ? 1
                          : composition < 300.0 ? 2
                                                : 3;
    const double part = composition - 100.0 * static_cast<double>(i);
    const double e1 = eccentricity[i];
    const double e2 = eccentricity[i + 1];
    const double h = (part * (e2 * hue[i] - e1 * hue[i + 1]) - 100.0 * hue[i] * e2) /
                     (part * (e2 - e1) - 100.0 * e2);
    return h >= 360.0 ? h - 360.0 : h;
}

}  // namespace samelight::detail
