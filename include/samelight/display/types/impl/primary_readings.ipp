#pragma once
// The bodies of display/types/primary_readings.hpp.

#include <array>
#include <cstddef>
#include <string>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline Eigen::Vector3d direction_of(const LightReading& light) {
    return {light.xy.x(), light.xy.y(), 1.0 - light.xy.x() - light.xy.y()};
}

inline void require_light(const LightReading& light, const char* name, const std::string& where) {
    // A laser's red lies so near to x + y = 1 that a reading's noise carries it beyond.
    constexpr double noisy_one = 1.01;
    if (!(light.xy.x() > 0.0 && light.xy.y() > 0.0 && light.xy.x() + light.xy.y() < noisy_one)) {
        throw Error(
            ErrorKind::input, where,
            std::string(name) + " at x " + to_text(light.xy.x()) + ", y " + to_text(light.xy.y()),
            "a CIE 1931 chromaticity, x and y above 0 and together below 1");
    }
    if (light.luminance && !(*light.luminance > 0.0 && *light.luminance < 1e9)) {
        throw Error(ErrorKind::input, where,
                    std::string(name) + " with Y " + to_text(*light.luminance),
                    "a luminance above 0");
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE void require_readings(const PrimaryReadings& readings, const std::string& where) {
    constexpr std::array<const char*, 3> names = {"red", "green", "blue"};
    const auto& p = readings.primaries;
    for (std::size_t k = 0; k < 3; ++k) {
        detail::require_light(p.at(k), names.at(k), where);
    }
    detail::require_light(readings.white, "white", where);
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
