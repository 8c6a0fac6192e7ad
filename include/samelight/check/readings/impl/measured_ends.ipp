#pragma once
// The bodies of check/readings/measured_ends.hpp.

#include <algorithm>
#include <cstddef>
#include <map>
#include <string>
#include <utility>

#include "samelight/check/readings/measured_ends.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// All three signals at one level, or by its names where it has none.
inline bool is_end(const PatchReading& reading, double level, const char* name,
                   const char* grey_name) {
    if (reading.signal) {
        return std::all_of(reading.signal->begin(), reading.signal->end(),
                           [level](double s) { return s == level; });
    }
    return is_called(reading.patch, name) || reading.patch == grey_name;
}

inline bool in_the_middle(const PatchReading& reading) {
    return reading.position.empty() || is_called(reading.position, "centre") ||
           is_called(reading.position, "center");
}

/// One picture as it is read: mode and window.
using ReadPicture = std::pair<std::string, std::optional<double>>;

/// That of most readings in the middle of the screen.
inline ReadPicture usual_picture(std::span<const PatchReading> readings) {
    std::map<ReadPicture, std::size_t> counts;
    for (const PatchReading& reading : readings) {
        counts[{reading.mode, reading.window_pct}] += in_the_middle(reading) ? 1 : 0;
    }
    const auto most =
        std::max_element(counts.begin(), counts.end(),
                         [](const auto& a, const auto& b) { return a.second < b.second; });
    return most == counts.end() ? ReadPicture{} : most->first;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE MeasuredEnds measured_ends(std::span<const PatchReading> readings) {
    const detail::ReadPicture usual = detail::usual_picture(readings);
    const auto mean = [&](double level, const char* name,
                          const char* grey_name) -> std::optional<double> {
        double sum = 0.0;
        double count = 0.0;
        for (const PatchReading& reading : readings) {
            const bool in_usual = detail::in_the_middle(reading) && reading.mode == usual.first &&
                                  reading.window_pct == usual.second;
            if (in_usual && detail::is_end(reading, level, name, grey_name)) {
                sum += reading.xyz[1];
                count += 1.0;
            }
        }
        return count > 0.0 ? std::optional(sum / count) : std::nullopt;
    };
    return {mean(1.0, "white", "grey-100"), mean(0.0, "black", "grey-0")};
}

SAMELIGHT_INLINE void require_display_white(double cd_m2, const std::string& which) {
    if (!(cd_m2 >= least_white_cd_m2 && cd_m2 <= most_white_cd_m2)) {
        throw Error(ErrorKind::input, "require_display_white",
                    "a full white of " + to_text(cd_m2) + " cd/m2" +
                        (which.empty() ? "" : " (" + which + ")"),
                    "a display's: " + to_text(least_white_cd_m2) + " to 100,000 cd/m2");
    }
}

}  // namespace samelight
