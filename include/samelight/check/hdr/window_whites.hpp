#pragma once
// White by the size of its window: how bright, how steady, of what colour, and whether red, green and blue add up to it.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Full white in one window.
struct WindowWhite {
    /// Share of the screen's area, per cent.
    double window_pct;
    /// Mean X, Y, Z of CIE 1931, cd/m2.
    std::array<double, 3> xyz;
    int readings;
    /// Standard deviation of Y over the readings, relative; 0 for a single one.
    double spread = 0.0;
    /// Of Y from the first reading to the last by their times, relative, and the seconds between; absent without two times.
    std::optional<double> fade = {}, fade_s = {};
    /// Distance in u', v' from white in the reference window.
    double drift_uv = 0.0;
    /// Red, green and blue of that window together over its white, in luminance without black; absent where one wasn't read.
    std::optional<double> sum_over_white = {};
};

/// The windows of full white (signals of 1, or patches named white), ascending. Readings without a window count as of 10 %. Black (signals of 0, or
/// named so; the mean of all windows) is taken off for sums. drift_uv is from the window of 10 %, or the nearest to it in ratio.
/// X, Y, Z in cd/m2. Throws Error (domain) for a white that is none of a display
/// (least_white_cd_m2, most_white_cd_m2), and as require_readings(). Source: u', v' of CIE 1976 (CIE 15:2018); the rest is our own rule.
SAMELIGHT_API std::vector<WindowWhite> whites_by_window(std::span<const PatchReading> readings);

/// Which of them is the reference: the index of 10 %, or of the nearest to it in ratio. `whites`: one at least, else 0.
SAMELIGHT_API std::size_t reference_window(std::span<const WindowWhite> whites);

/// Where the light of large windows is held back.
struct LimiterOnset {
    /// Brightest mean of all windows, cd/m2, and where.
    double peak_cd_m2 = 0.0, peak_window_pct = 0.0;
    /// The largest window that still has the peak, and the next, which has not; absent where none falls.
    std::optional<double> holds_to_pct = {}, falls_at_pct = {};
    /// The largest window's luminance over the peak.
    double largest_over_peak = 1.0;
    /// One standard deviation of a window's mean, relative, and what counts as a fall: more than twice that, and 2 % at least.
    double noise = 0.0, fall = 0.0;
};

/// The onset from windows, ascending. A window counts as fallen where it and all larger ones lie below the brightest by more than `fall`.
/// Throws Error (domain) for none. Source: own rule; the 2 % are common practice, no source.
SAMELIGHT_API LimiterOnset limiter_onset(std::span<const WindowWhite> whites);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/hdr/impl/window_whites.ipp"
#endif
