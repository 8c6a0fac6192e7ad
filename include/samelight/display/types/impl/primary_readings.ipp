#pragma once
// The bodies of display/types/primary_readings.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline Eigen::Vector3d direction_of(const LightReading& light) {
    return {light.xy.x(), light.xy.y(), 1.0 - light.xy.x() - light.xy.y()};
}

inline void require_light(const LightReading& light, const char* name, const std::string& where) {
    if (!(light.xy.x() > 0.0 && light.xy.y() > 0.0 &&
          light.xy.x() + light.xy.y() < largest_xy_sum_read)) {
        throw Error(
            ErrorKind::input, where,
            std::string(name) + " at x " + to_text(light.xy.x()) + ", y " + to_text(light.xy.y()),
            "a CIE 1931 chromaticity, x and y above 0 and together 1 at most");
    }
    if (light.luminance && !(*light.luminance > 0.0 && *light.luminance < 1e9)) {
        throw Error(ErrorKind::input, where,
                    std::string(name) + " with Y " + to_text(*light.luminance),
                    "a luminance above 0");
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::optional<LightReading> above_black(const Tristimulus<Cie1931_2deg>& light,
                                                         const Tristimulus<Cie1931_2deg>& black) {
    const Tristimulus<Cie1931_2deg> left = light - black;
    if (!(left.Y() > 0.0) || !(left.X() + left.Y() + left.Z() > 0.0)) {
        return {};
    }
    return LightReading{chromaticity(left), left.Y()};
}

SAMELIGHT_INLINE void require_readings(const PrimaryReadings& readings, const std::string& where) {
    constexpr std::array<const char*, 3> names = {"red", "green", "blue"};
    const auto& p = readings.primaries;
    for (std::size_t k = 0; k < 3; ++k) {
        detail::require_light(p.at(k), names.at(k), where);
    }
    detail::require_light(readings.white, "white", where);
    const auto with_luminance =
        std::count_if(p.begin(), p.end(),
                      [](const LightReading& light) { return light.luminance.has_value(); }) +
        (readings.white.luminance ? 1 : 0);
    if (with_luminance != 0 && with_luminance != 4) {
        throw Error(ErrorKind::input, where, "a luminance (Y) of some lights and not of others",
                    "Y of red, green, blue and white, or of none");
    }
    const bool named_right = p[0].xy.x() > p[1].xy.x() && p[0].xy.x() > p[2].xy.x() &&
                             p[1].xy.y() > p[0].xy.y() && p[1].xy.y() > p[2].xy.y() &&
                             p[2].xy.y() < p[0].xy.y();
    if (!named_right) {
        throw Error(ErrorKind::input, where, "primaries under each other's names",
                    "red with the largest x, green with the largest y, blue with the smallest y");
    }
    Eigen::Matrix3d columns;
    for (Eigen::Index k = 0; k < 3; ++k) {
        columns.col(k) = detail::direction_of(p.at(static_cast<std::size_t>(k)));
    }
    const Eigen::Vector3d amounts =
        dense::times_3x3(dense::inverse_3x3(columns), detail::direction_of(readings.white));
    if (!(amounts.minCoeff() > 0.0)) {
        throw Error(ErrorKind::input, where, "a white that red, green and blue can't make",
                    "a white inside their triangle");
    }
    if (!(readings.noise_xy > 0.0 && readings.noise_xy < 0.1)) {
        throw Error(ErrorKind::input, where, "a reading noise of " + to_text(readings.noise_xy),
                    "a standard deviation of x and y above 0 and below 0.1");
    }
}

}  // namespace samelight
