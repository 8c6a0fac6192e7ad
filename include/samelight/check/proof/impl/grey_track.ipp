#pragma once
// The bodies of check/proof/grey_track.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

#include "samelight/check/proof/grey_track.hpp"
#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/check/readings/light_places.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Root of the mean of the two variances of u', v', by the noise.
SAMELIGHT_INLINE double uv_spread(const std::array<double, 3>& xyz, const ProofNoise& noise,
                                  std::size_t count) {
    const double sum = xyz[0] + 15.0 * xyz[1] + 3.0 * xyz[2];
    if (!(sum > 0.0)) {
        return std::numeric_limits<double>::infinity();
    }
    const double u = 4.0 * xyz[0] / sum;
    const double v = 9.0 * xyz[1] / sum;
    const std::array<double, 3> du = {(4.0 - u) / sum, -15.0 * u / sum, -3.0 * u / sum};
    const std::array<double, 3> dv = {-v / sum, (9.0 - 15.0 * v) / sum, -3.0 * v / sum};
    double variance = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        const double sd = noise.standard_deviation(xyz[k]);
        variance += 0.5 * sd * sd * (du[k] * du[k] + dv[k] * dv[k]);
    }
    return std::sqrt(variance / static_cast<double>(count));
}

/// ln L / ln V of light without black.
inline std::optional<double> point_gamma(double signal, double light, double white, double black) {
    if (signal < 0.03 || signal > 0.97 || !(light > black) || !(white > black)) {
        return {};
    }
    return std::log((light - black) / (white - black)) / std::log(signal);
}

/// Slope through the levels of 10 to 90 %.
inline std::optional<double> gamma_slope(const std::vector<ProvenGrey>& levels,
                                         double ProvenGrey::*luminance) {
    double black = 0.0;
    if (!levels.empty() && levels.front().signal < 0.005) {
        black = std::max(0.0, levels.front().*luminance);
    }
    double n = 0.0;
    double sx = 0.0;
    double sy = 0.0;
    double sxx = 0.0;
    double sxy = 0.0;
    for (const ProvenGrey& level : levels) {
        const double light = level.*luminance - black;
        if (level.signal >= 0.095 && level.signal <= 0.905 && light > 0.0) {
            const double x = std::log(level.signal);
            const double y = std::log(light);
            n += 1.0;
            sx += x;
            sy += y;
            sxx += x * x;
            sxy += x * y;
        }
    }
    const double spread = n * sxx - sx * sx;
    if (n < 3.0 || !(spread > 1e-6)) {
        return {};
    }
    return (n * sxy - sx * sy) / spread;
}

inline ProvenGrey grey_level(const ProofReadings& readings, std::size_t i,
                             const IntendedDisplay& intended) {
    const ProofPoint& point = readings.points[i];
    const std::array<double, 3> target = intended.xyz(point.shown.signal);
    ProvenGrey level{
        i,   point.shown.name, point.shown.signal[0], point.xyz[1], target[1], {}, {}, {}, {}, {},
        true};
    const auto uv = uv_of_light(point.xyz);
    const auto xy = xy_of_light(point.xyz);
    const auto uv_meant = uv_of_light(target);
    const auto xy_meant = xy_of_light(target);
    if (uv && xy && uv_meant && xy_meant) {
        level.uv = std::array<double, 2>{(*uv)[0] - (*uv_meant)[0], (*uv)[1] - (*uv_meant)[1]};
        level.xy = std::array<double, 2>{(*xy)[0] - (*xy_meant)[0], (*xy)[1] - (*xy_meant)[1]};
    }
    if (point.xyz[1] > 0.0) {
        const auto light = times(intended.encoding().rgb_from_xyz(), point.xyz);
        for (std::size_t k = 0; k < 3; ++k) {
            level.balance[k] = light[k] / point.xyz[1] - 1.0;
        }
    }
    level.measurable =
        plane_radius(0.95) * uv_spread(point.xyz, readings.noise, point.count) < chromaticity_gate;
    return level;
}

inline void add_point_gammas(GreyTrack& track) {
    if (track.levels.empty() || track.levels.back().signal < 0.995) {
        return;
    }
    const ProvenGrey& top = track.levels.back();
    const bool has_black = track.levels.front().signal < 0.005;
    const double black = has_black ? std::max(0.0, track.levels.front().measured_cd_m2) : 0.0;
    const double meant_black = has_black ? track.levels.front().intended_cd_m2 : 0.0;
    for (ProvenGrey& level : track.levels) {
        level.gamma = point_gamma(level.signal, level.measured_cd_m2, top.measured_cd_m2, black);
        level.intended_gamma =
            point_gamma(level.signal, level.intended_cd_m2, top.intended_cd_m2, meant_black);
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double least_measurable_luminance(const std::array<double, 3>& white,
                                                   const ProofNoise& noise, double gate,
                                                   std::size_t count) {
    const double radius = plane_radius(0.95);
    const auto half_width = [&](double luminance) {
        const double k = luminance / white[1];
        return radius * detail::uv_spread({k * white[0], luminance, k * white[2]}, noise, count);
    };
    double low = 1e-7;
    double high = 1e6;
    if (!(half_width(high) < gate)) {
        return std::numeric_limits<double>::infinity();
    }
    for (int i = 0; i < 80; ++i) {
        const double middle = std::sqrt(low * high);
        (half_width(middle) < gate ? high : low) = middle;
    }
    return high;
}

SAMELIGHT_INLINE GreyTrack grey_track(const ProofReadings& readings,
                                      const IntendedDisplay& intended) {
    GreyTrack track;
    for (std::size_t i = 0; i < readings.points.size(); ++i) {
        if (readings.points[i].shown.group == SignalGroup::grey) {
            track.levels.push_back(detail::grey_level(readings, i, intended));
        }
    }
    std::stable_sort(track.levels.begin(), track.levels.end(),
                     [](const ProvenGrey& a, const ProvenGrey& b) { return a.signal < b.signal; });
    detail::add_point_gammas(track);
    track.gamma = detail::gamma_slope(track.levels, &ProvenGrey::measured_cd_m2);
    track.intended_gamma = detail::gamma_slope(track.levels, &ProvenGrey::intended_cd_m2);
    track.least_measurable_cd_m2 =
        least_measurable_luminance(intended.white(), readings.noise, chromaticity_gate);
    for (std::size_t i = 0; i < track.levels.size(); ++i) {
        const ProvenGrey& level = track.levels[i];
        if (level.measurable && level.uv &&
            std::hypot((*level.uv)[0], (*level.uv)[1]) > track.largest_duv) {
            track.largest_duv = std::hypot((*level.uv)[0], (*level.uv)[1]);
            track.at = i;
        }
    }
    return track;
}

}  // namespace samelight
