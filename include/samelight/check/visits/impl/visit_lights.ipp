#pragma once
// The bodies of check/visits/visit_lights.hpp.

#include <algorithm>
#include <cmath>
#include <limits>

#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/check/visits/visit_lights.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline std::optional<VisitLight> light_of_signal(const std::array<double, 3>& signal) {
    constexpr std::array<std::array<double, 3>, 5> signals{
        {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {1, 1, 1}, {0, 0, 0}}};
    for (std::size_t i = 0; i < signals.size(); ++i) {
        if (signal == signals[i]) {
            return static_cast<VisitLight>(i);
        }
    }
    return {};
}

inline bool at_centre(const PatchReading& reading) {
    return reading.position.empty() || reading.position == "centre" || reading.position == "center";
}

inline std::array<double, 3> xy_and_log(const std::array<double, 3>& xyz) {
    const double sum = xyz[0] + xyz[1] + xyz[2];
    return {xyz[0] / sum, xyz[1] / sum, std::log(xyz[1])};
}

/// Sums of products of the deviations of one light's readings from their mean; what it adds to the degrees of freedom is returned.
inline double add_scatter(const std::vector<std::array<double, 3>>& readings,
                          CovarianceMatrix<3>& sums) {
    if (readings.size() < 2) {
        return 0.0;
    }
    const auto n = static_cast<double>(readings.size());
    std::array<double, 3> mean{};
    for (const auto& xyz : readings) {
        const auto value = xy_and_log(xyz);
        for (std::size_t i = 0; i < 3; ++i) {
            mean[i] += value[i] / n;
        }
    }
    for (const auto& xyz : readings) {
        const auto value = xy_and_log(xyz);
        for (std::size_t i = 0; i < 9; ++i) {
            sums[i] += (value[i / 3] - mean[i / 3]) * (value[i % 3] - mean[i % 3]);
        }
    }
    return n - 1.0;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::optional<VisitLight> visit_light_of(const PatchReading& reading) {
    if (reading.signal) {
        return detail::light_of_signal(*reading.signal);
    }
    if (const auto signal = signal_named(reading.patch)) {
        return detail::light_of_signal(*signal);
    }
    constexpr std::array<const char*, 3> full{"red-100-100", "green-100-100", "blue-100-100"};
    const auto* const found = std::find(full.begin(), full.end(), detail::patch_key(reading.patch));
    return found == full.end() ? std::nullopt
                               : std::optional(static_cast<VisitLight>(found - full.begin()));
}

SAMELIGHT_INLINE std::array<double, 3> VisitLights::mean(VisitLight light) const {
    std::array<double, 3> sum{};
    const auto& all = of(light);
    for (const auto& xyz : all) {
        for (std::size_t i = 0; i < 3; ++i) {
            sum[i] += xyz[i] / static_cast<double>(all.size());
        }
    }
    return sum;
}

SAMELIGHT_INLINE VisitLights visit_lights(const std::vector<PatchReading>& readings,
                                          const LightsPlace& place) {
    VisitLights lights{{}, place};
    for (const PatchReading& reading : readings) {
        const auto light = visit_light_of(reading);
        if (light && detail::at_centre(reading) && reading.mode == place.mode &&
            reading.window_pct == place.window_pct) {
            lights.readings[static_cast<std::size_t>(*light)].push_back(reading.xyz);
        }
    }
    return lights;
}

SAMELIGHT_INLINE std::vector<LightsPlace> lights_places(const std::vector<PatchReading>& readings) {
    std::vector<LightsPlace> places;
    for (const PatchReading& reading : readings) {
        const LightsPlace place{reading.mode, reading.window_pct};
        if (std::find(places.begin(), places.end(), place) == places.end()) {
            places.push_back(place);
        }
    }
    std::erase_if(places, [&](const LightsPlace& place) {
        const VisitLights lights = visit_lights(readings, place);
        return std::any_of(lights.readings.begin(), lights.readings.begin() + 4,
                           [](const auto& one) { return one.empty(); });
    });
    return places;
}

SAMELIGHT_INLINE LightScatter light_scatter(const VisitLights& then, const VisitLights& now) {
    constexpr double fewest = 4.0;
    LightScatter scatter;
    for (std::size_t i = 0; i < 4; ++i) {
        scatter.degrees_of_freedom += detail::add_scatter(then.readings[i], scatter.covariance);
        scatter.degrees_of_freedom += detail::add_scatter(now.readings[i], scatter.covariance);
    }
    if (scatter.degrees_of_freedom >= fewest) {
        for (double& value : scatter.covariance) {
            value /= scatter.degrees_of_freedom;
        }
        return scatter;
    }
    constexpr double xy = 0.0003;
    constexpr double luminance = 0.005;
    return {{xy * xy, 0, 0, 0, xy * xy, 0, 0, 0, luminance * luminance},
            std::numeric_limits<double>::infinity(),
            true};
}

}  // namespace samelight
