#pragma once
// The body of check/readings/patch_reading.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <span>
#include <string>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline bool are_finite(const std::array<double, 3>& numbers) {
    return std::all_of(numbers.begin(), numbers.end(), [](double n) { return std::isfinite(n); });
}

/// The reading in words: its patch, its line or its place among the others.
inline std::string name_of_reading(std::span<const PatchReading> readings,
                                   const PatchReading& reading) {
    if (!reading.patch.empty()) return "patch " + reading.patch;
    if (reading.line > 0) return "line " + std::to_string(reading.line);
    return "reading " + std::to_string(&reading - readings.data() + 1);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE void require_readings(const char* where, std::span<const PatchReading> readings) {
    for (const PatchReading& reading : readings) {
        const auto& [X, Y, Z] = reading.xyz;
        if (!detail::are_finite(reading.xyz)) {
            throw Error(ErrorKind::domain, where,
                        detail::name_of_reading(readings, reading) + " with X, Y, Z of " +
                            to_text(X) + ", " + to_text(Y) + ", " + to_text(Z),
                        "finite numbers, cd/m2");
        }
        const auto& [r, g, b] = reading.signal.value_or(std::array<double, 3>{});
        if (!detail::are_finite({r, g, b})) {
            throw Error(ErrorKind::domain, where,
                        detail::name_of_reading(readings, reading) + " with signals of " +
                            to_text(r) + ", " + to_text(g) + ", " + to_text(b),
                        "finite numbers, 1 at the full signal");
        }
        const double window = reading.window_pct.value_or(100.0);
        if (!(window > 0.0 && window <= 100.0)) {
            throw Error(ErrorKind::domain, where,
                        detail::name_of_reading(readings, reading) + " with a window of " +
                            to_text(window) + " %",
                        "above 0 to 100 %");
        }
        const double time = reading.time_s.value_or(0.0);
        if (!std::isfinite(time)) {
            throw Error(
                ErrorKind::domain, where,
                detail::name_of_reading(readings, reading) + " with a time of " + to_text(time),
                "seconds");
        }
    }
}

}  // namespace samelight
