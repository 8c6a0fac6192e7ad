#pragma once
// The bodies of meter/readings/light_columns.hpp.

#include <algorithm>
#include <cmath>

#include "samelight/colour/xyY.hpp"
#include "samelight/meter/readings/light_columns.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// How far red, green and blue together are from white in x, y.
SAMELIGHT_INLINE double apart_from_white(const FourLights& lights) {
    std::array<double, 3> sum{};
    for (std::size_t k = 0; k < 3; ++k) {
        sum.at(k) = lights[0].at(k) + lights[1].at(k) + lights[2].at(k);
    }
    const auto together = xyY_from_xyz(sum);
    const auto white = xyY_from_xyz(lights[3]);
    return std::hypot(together[0] - white[0], together[1] - white[1]);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::array<double, 3> with_xy_exchanged(const std::array<double, 3>& xyz) {
    const auto v = xyY_from_xyz(xyz);
    return v[0] > 0.0 ? xyz_from_xyY(v[1], v[0], v[2]) : xyz;
}

SAMELIGHT_INLINE FourLights with_xy_exchanged(const FourLights& lights) {
    FourLights exchanged{};
    std::transform(lights.begin(), lights.end(), exchanged.begin(),
                   [](const std::array<double, 3>& xyz) { return with_xy_exchanged(xyz); });
    return exchanged;
}

SAMELIGHT_INLINE std::optional<XyExchange> xy_exchange_by_adding(const FourLights& given,
                                                                 const FourLights& exchanged) {
    constexpr double suspicious = 0.02;
    const XyExchange found{detail::apart_from_white(given), detail::apart_from_white(exchanged)};
    if (!(found.given_xy > suspicious) || !(found.mended_xy < found.given_xy / 3.0)) {
        return {};
    }
    return found;
}

SAMELIGHT_INLINE double apart_from_daylight(const std::array<double, 2>& xy) {
    const double x = std::clamp(xy[0], 0.2, 0.5);
    return std::hypot(xy[0] - x, xy[1] - (-3.0 * x * x + 2.87 * x - 0.275));
}

SAMELIGHT_INLINE std::optional<XyExchange> xy_exchange_of_white(
    const std::array<double, 2>& given, const std::array<double, 2>& exchanged) {
    constexpr double suspicious = 0.02;
    constexpr double near = 0.01;
    const XyExchange found{apart_from_daylight(given), apart_from_daylight(exchanged)};
    if (!(found.given_xy > suspicious) ||
        !(found.mended_xy < std::max(near, found.given_xy / 3.0))) {
        return {};
    }
    return found;
}

}  // namespace samelight
