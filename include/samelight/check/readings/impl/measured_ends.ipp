#pragma once
// The bodies of check/readings/measured_ends.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/check/readings/measured_ends.hpp"
#include "samelight/check/readings/one_picture.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// All three signals at one level, or by its name where it has none.
inline bool is_end(const PatchReading& reading, double level) {
    return (reading.signal ? reading.signal : signal_named(reading.patch)) ==
           std::array{level, level, level};
}

/// The mean luminance of what counts; absent where nothing does.
template <class Counts>
std::optional<double> mean_luminance(const std::vector<PatchReading>& readings,
                                     const Counts& counts) {
    double sum = 0.0;
    double count = 0.0;
    for (const PatchReading& reading : readings) {
        if (counts(reading)) {
            sum += reading.xyz[1];
            count += 1.0;
        }
    }
    return count > 0.0 ? std::optional(sum / count) : std::nullopt;
}

}  // namespace samelight::inline SAMELIGHT_FORM::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE MeasuredEnds measured_ends(std::span<const PatchReading> readings) {
    const std::vector<PatchReading> all(readings.begin(), readings.end());
    const OnePicture in_all_windows = one_picture(all, PictureWindows::all);
    const OnePicture usual = one_picture(in_all_windows.readings, PictureWindows::one);
    const auto end = [&](double level) {
        const auto counts = [level](const PatchReading& r) { return detail::is_end(r, level); };
        const auto mean = detail::mean_luminance(usual.readings, counts);
        return mean ? mean : detail::mean_luminance(in_all_windows.readings, counts);
    };
    return {end(1.0), end(0.0)};
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
