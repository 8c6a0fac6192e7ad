#pragma once
// The bodies of check/hdr/window_whites.hpp.

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "samelight/check/hdr/window_whites.hpp"
#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/check/readings/measured_ends.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Whether a patch has these signals, or with none a name that stands for them.
inline bool shows_light(const PatchReading& reading, const std::array<double, 3>& signal) {
    return (reading.signal ? reading.signal : signal_named(reading.patch)) == signal;
}

inline double window_of(const PatchReading& reading) {
    constexpr double usual_pct = 10.0;
    return reading.window_pct.value_or(usual_pct);
}

/// Mean luminance of a light by window.
inline std::map<double, double> luminances_by_window(std::span<const PatchReading> readings,
                                                     const std::array<double, 3>& signal) {
    std::map<double, std::array<double, 2>> sums;
    for (const PatchReading& reading : readings) {
        if (shows_light(reading, signal)) {
            auto& sum = sums[window_of(reading)];
            sum[0] += reading.xyz[1];
            sum[1] += 1.0;
        }
    }
    std::map<double, double> means;
    for (const auto& entry : sums) {
        means[entry.first] = entry.second[0] / entry.second[1];
    }
    return means;
}

inline double mean_black(std::span<const PatchReading> readings) {
    const auto blacks = luminances_by_window(readings, {0.0, 0.0, 0.0});
    double sum = 0.0;
    for (const auto& black : blacks) {
        sum += black.second;
    }
    return blacks.empty() ? 0.0 : std::max(0.0, sum / static_cast<double>(blacks.size()));
}

inline std::array<double, 2> uv_of_xyz(const std::array<double, 3>& xyz) {
    const double sum = xyz[0] + 15.0 * xyz[1] + 3.0 * xyz[2];
    return {4.0 * xyz[0] / sum, 9.0 * xyz[1] / sum};
}

inline WindowWhite white_of_window(double window_pct,
                                   const std::vector<const PatchReading*>& readings) {
    const double count = static_cast<double>(readings.size());
    WindowWhite white{window_pct, {}, static_cast<int>(readings.size())};
    for (const PatchReading* reading : readings) {
        for (std::size_t k = 0; k < 3; ++k) {
            white.xyz[k] += reading->xyz[k] / count;
        }
    }
    if (!(white.xyz[1] >= least_white_cd_m2 && white.xyz[1] <= most_white_cd_m2)) {
        throw Error(ErrorKind::domain, "whites_by_window",
                    "a white of " + to_text(white.xyz[1]) + " cd/m2 in the window of " +
                        to_text(window_pct) + " %",
                    "one of 0.1 to 100000 cd/m2");
    }
    double squares = 0.0;
    for (const PatchReading* reading : readings) {
        const double off = reading->xyz[1] / white.xyz[1] - 1.0;
        squares += off * off;
    }
    white.spread = count > 1.0 ? std::sqrt(squares / (count - 1.0)) : 0.0;
    const auto timed = [](const PatchReading* a, const PatchReading* b) {
        return a->time_s.value_or(0.0) < b->time_s.value_or(0.0);
    };
    const bool all_timed = std::all_of(readings.begin(), readings.end(),
                                       [](const PatchReading* r) { return r->time_s.has_value(); });
    if (all_timed && readings.size() > 1) {
        const PatchReading& first = **std::min_element(readings.begin(), readings.end(), timed);
        const PatchReading& last = **std::max_element(readings.begin(), readings.end(), timed);
        if (*last.time_s > *first.time_s && first.xyz[1] > 0.0) {
            white.fade = last.xyz[1] / first.xyz[1] - 1.0;
            white.fade_s = *last.time_s - *first.time_s;
        }
    }
    return white;
}

inline void add_sums(std::span<const PatchReading> readings, std::vector<WindowWhite>& whites) {
    const std::array<std::map<double, double>, 3> primaries = {
        luminances_by_window(readings, {1.0, 0.0, 0.0}),
        luminances_by_window(readings, {0.0, 1.0, 0.0}),
        luminances_by_window(readings, {0.0, 0.0, 1.0})};
    const double black = mean_black(readings);
    for (WindowWhite& white : whites) {
        double sum = 0.0;
        bool all = true;
        for (const auto& primary : primaries) {
            const auto at = primary.find(white.window_pct);
            all = all && at != primary.end();
            sum += all ? at->second - black : 0.0;
        }
        if (all && white.xyz[1] > black) {
            white.sum_over_white = sum / (white.xyz[1] - black);
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<WindowWhite> whites_by_window(std::span<const PatchReading> readings) {
    require_readings("whites_by_window", readings);
    std::map<double, std::vector<const PatchReading*>> windows;
    for (const PatchReading& reading : readings) {
        if (detail::shows_light(reading, {1.0, 1.0, 1.0})) {
            windows[detail::window_of(reading)].push_back(&reading);
        }
    }
    std::vector<WindowWhite> whites;
    for (const auto& window : windows) {
        whites.push_back(detail::white_of_window(window.first, window.second));
    }
    if (whites.empty()) {
        return whites;
    }
    const auto reference = detail::uv_of_xyz(whites[reference_window(whites)].xyz);
    for (WindowWhite& white : whites) {
        const auto uv = detail::uv_of_xyz(white.xyz);
        white.drift_uv = std::hypot(uv[0] - reference[0], uv[1] - reference[1]);
    }
    detail::add_sums(readings, whites);
    return whites;
}

SAMELIGHT_INLINE std::size_t reference_window(std::span<const WindowWhite> whites) {
    constexpr double usual_pct = 10.0;
    std::size_t nearest = 0;
    for (std::size_t i = 1; i < whites.size(); ++i) {
        if (std::abs(std::log(whites[i].window_pct / usual_pct)) <
            std::abs(std::log(whites[nearest].window_pct / usual_pct))) {
            nearest = i;
        }
    }
    return nearest;
}

SAMELIGHT_INLINE LimiterOnset limiter_onset(std::span<const WindowWhite> whites) {
    constexpr double least_fall = 0.02;
    if (whites.empty()) {
        throw Error(ErrorKind::domain, "limiter_onset", "no windows", "one at least");
    }
    LimiterOnset onset;
    double squares = 0.0;
    double freedom = 0.0;
    double fewest = whites[0].readings;
    for (const WindowWhite& white : whites) {
        squares += white.spread * white.spread * (white.readings - 1);
        freedom += white.readings - 1;
        fewest = std::min(fewest, static_cast<double>(white.readings));
        if (white.xyz[1] > onset.peak_cd_m2) {
            onset.peak_cd_m2 = white.xyz[1];
            onset.peak_window_pct = white.window_pct;
        }
    }
    onset.noise = freedom > 0.0 ? std::sqrt(squares / freedom / fewest) : 0.0;
    onset.fall = std::max(least_fall, 2.0 * onset.noise);
    onset.largest_over_peak = whites.back().xyz[1] / onset.peak_cd_m2;
    std::size_t fallen = whites.size();
    while (fallen > 0 && whites[fallen - 1].xyz[1] < (1.0 - onset.fall) * onset.peak_cd_m2) {
        --fallen;
    }
    if (fallen < whites.size()) {
        onset.holds_to_pct = whites[fallen - 1].window_pct;
        onset.falls_at_pct = whites[fallen].window_pct;
    }
    return onset;
}

}  // namespace samelight
