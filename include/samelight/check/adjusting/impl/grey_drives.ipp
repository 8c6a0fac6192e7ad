#pragma once
// The bodies of check/adjusting/grey_drives.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>

#include "samelight/check/adjusting/grey_drives.hpp"
#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/check/readings/measured_ends.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// `m` times a column.
inline std::array<double, 3> column_through(const Matrix3& m, const std::array<double, 3>& v) {
    std::array<double, 3> result{};
    for (std::size_t i = 0; i < 3; ++i) {
        result[i] = m[i][0] * v[0] + m[i][1] * v[1] + m[i][2] * v[2];
    }
    return result;
}

/// The level that a patch's signals or its name (signal_named()) say.
inline std::optional<double> grey_level_of(const PatchReading& reading) {
    if (const auto signal = reading.signal ? reading.signal : signal_named(reading.patch)) {
        const auto& s = *signal;
        const bool grey = s[0] == s[1] && s[1] == s[2] && s[0] >= 0.0 && s[0] <= 1.09;
        return grey ? std::optional(s[0]) : std::nullopt;
    }
    return {};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<GreyLevel> grey_levels(std::span<const PatchReading> readings) {
    require_readings("grey_levels", readings);
    std::vector<GreyLevel> each;
    for (const PatchReading& reading : readings) {
        if (const auto level = detail::grey_level_of(reading)) {
            each.push_back({*level, reading.xyz, 1});
        }
    }
    std::stable_sort(each.begin(), each.end(),
                     [](const GreyLevel& a, const GreyLevel& b) { return a.level < b.level; });
    std::vector<GreyLevel> levels;
    for (const GreyLevel& grey : each) {
        if (levels.empty() || grey.level - levels.back().level > 1e-9) {
            levels.push_back(grey);
            continue;
        }
        GreyLevel& mean = levels.back();
        ++mean.readings;
        for (std::size_t k = 0; k < 3; ++k) {
            mean.xyz[k] += (grey.xyz[k] - mean.xyz[k]) / mean.readings;
        }
    }
    return levels;
}

SAMELIGHT_INLINE double GreyNoise::of(double light_cd_m2, int readings) const {
    return std::hypot(relative * light_cd_m2, floor_cd_m2) / std::sqrt(std::max(1, readings));
}

SAMELIGHT_INLINE GreyDrives::GreyDrives(const IntendedDisplay& intended,
                                        const std::array<double, 3>& white,
                                        const std::array<double, 3>& black)
    : black_(black) {
    const std::array<double, 3> lit = {white[0] - black[0], white[1] - black[1],
                                       white[2] - black[2]};
    const Matrix3& rgb_from_xyz = intended.encoding().rgb_from_xyz();
    const std::array<double, 3> weights = detail::column_through(rgb_from_xyz, lit);
    // A black may lie below 0 by its noise.
    const bool bright =
        white[1] >= least_white_cd_m2 && white[1] <= most_white_cd_m2 &&
        std::all_of(black.begin(), black.end(), [&](double b) { return std::abs(b) < white[1]; });
    if (!bright || !std::all_of(weights.begin(), weights.end(),
                                [](double w) { return w > 0.0 && std::isfinite(w); })) {
        throw Error(
            ErrorKind::domain, "GreyDrives",
            "a white of X, Y, Z " + to_text(white[0], 3) + ", " + to_text(white[1], 3) + ", " +
                to_text(white[2], 3) + " cd/m2",
            "one of 0.1 to 100000 cd/m2, brighter than black and within the triangle of the "
            "primaries");
    }
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            xyz_from_light_[i][k] = intended.encoding().xyz_from_rgb()[i][k] * weights[k];
            light_from_xyz_[k][i] = rgb_from_xyz[k][i] / weights[k];
        }
    }
}

SAMELIGHT_INLINE std::optional<std::array<double, 3>> GreyDrives::drives(
    const std::array<double, 3>& xyz) const {
    std::array<double, 3> light = detail::column_through(
        light_from_xyz_, {xyz[0] - black_[0], xyz[1] - black_[1], xyz[2] - black_[2]});
    for (double& l : light) {
        if (!(l > 0.0)) {
            return {};
        }
        l = std::pow(l, 1.0 / exponent);
    }
    return light;
}

SAMELIGHT_INLINE std::array<double, 3> GreyDrives::xyz(const std::array<double, 3>& drives) const {
    std::array<double, 3> light{};
    for (std::size_t k = 0; k < 3; ++k) {
        light[k] = std::pow(std::max(0.0, drives[k]), exponent);
    }
    std::array<double, 3> result = detail::column_through(xyz_from_light_, light);
    for (std::size_t i = 0; i < 3; ++i) {
        result[i] += black_[i];
    }
    return result;
}

SAMELIGHT_INLINE std::array<double, 3> GreyDrives::noise(const std::array<double, 3>& drives,
                                                         const GreyNoise& noise,
                                                         int readings) const {
    const std::array<double, 3> y = luminances();
    const double white = y[0] + y[1] + y[2];
    std::array<double, 3> result{};
    for (std::size_t k = 0; k < 3; ++k) {
        const double light = std::pow(std::max(1e-6, drives[k]), exponent);
        result[k] = noise.of(light * white, readings) / white * drives[k] / (exponent * light);
    }
    return result;
}

SAMELIGHT_INLINE std::array<std::array<double, 3>, 2> GreyDrives::xy_by_drives(
    const std::array<double, 3>& drives) const {
    const std::array<double, 3> at = xyz(drives);
    const double sum = at[0] + at[1] + at[2];
    std::array<std::array<double, 3>, 2> result{};
    for (std::size_t k = 0; k < 3; ++k) {
        const double slope = exponent * std::pow(std::max(0.0, drives[k]), exponent - 1.0);
        const double dX = xyz_from_light_[0][k] * slope;
        const double dY = xyz_from_light_[1][k] * slope;
        const double dSum = dX + dY + xyz_from_light_[2][k] * slope;
        result[0][k] = (dX - at[0] / sum * dSum) / sum;
        result[1][k] = (dY - at[1] / sum * dSum) / sum;
    }
    return result;
}

SAMELIGHT_INLINE std::array<double, 3> GreyDrives::luminances() const { return xyz_from_light_[1]; }

SAMELIGHT_INLINE GreyNoise grey_noise(std::span<const PatchReading> readings,
                                      const GreyDrives& drives) {
    constexpr double bright_cd_m2 = 5.0;
    constexpr int enough = 3;
    constexpr double least_relative = 0.0003;
    const std::vector<GreyLevel> levels = grey_levels(readings);
    double own_squares = 0.0;
    double common_squares = 0.0;
    double beyond_first = 0.0;
    for (const PatchReading& reading : readings) {
        const auto own = detail::grey_level_of(reading);
        const auto level = std::lower_bound(
            levels.begin(), levels.end(), own.value_or(2.0) - 1e-9,
            [](const GreyLevel& grey, double wanted) { return grey.level < wanted; });
        if (!own || level == levels.end() || level->readings < 2 || level->xyz[1] < bright_cd_m2) {
            continue;
        }
        const auto mean = drives.drives(level->xyz);
        const auto one = drives.drives(reading.xyz);
        if (mean && one) {
            std::array<double, 3> off{};
            for (std::size_t k = 0; k < 3; ++k) {
                off[k] = GreyDrives::exponent * std::log((*one)[k] / (*mean)[k]);
            }
            const double common = (off[0] + off[1] + off[2]) / 3.0;
            common_squares += common * common;
            for (const double o : off) {
                own_squares += (o - common) * (o - common) / 2.0;
            }
            // Each reading's share of its level's degrees of freedom.
            beyond_first += 1.0 - 1.0 / level->readings;
        }
    }
    GreyNoise noise;
    if (beyond_first > enough - 0.5) {
        noise.relative = std::max(least_relative, std::sqrt(own_squares / beyond_first));
        noise.luminance = std::max(least_relative, std::sqrt(common_squares / beyond_first));
        noise.repeats = static_cast<int>(std::lround(beyond_first));
    }
    return noise;
}

}  // namespace samelight
