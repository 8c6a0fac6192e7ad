#pragma once
// What a display does in HDR: its peak by window, its white there, whether colours keep up with white, and how it follows PQ.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/hdr/pq_tracking.hpp"
#include "samelight/check/hdr/window_whites.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// What is asked for.
struct HdrRequest {
    std::vector<PatchReading> readings;
    /// x, y of the white that was chosen, in SDR or for both; absent: none.
    std::optional<std::array<double, 2>> white = {};
};

/// Full white of one window.
struct HdrWhite : WindowWhite {
    /// Distance in x, y from the white that was chosen.
    std::optional<double> off_chosen_xy = {};
};

/// The whole answer. Windows or greys may be missing, not both.
struct HdrAnswer {
    /// By window, ascending.
    std::vector<HdrWhite> whites = {};
    /// Of `whites`, the one of 10 % or nearest to it.
    std::size_t reference = 0;
    /// With two windows or more.
    std::optional<LimiterOnset> limiter = {};
    /// With a ladder of greys.
    std::optional<PqTracking> tracking = {};
    /// Why there is none, where there were greys: an error's words.
    std::string no_tracking = {};
    /// Red, green and blue add up to less than this share of white: a white emitter.
    static constexpr double adds_up = 0.95;

    /// The window whose white has moved most. There is one.
    [[nodiscard]] const HdrWhite& most_moved() const;
    /// The window where red, green and blue add up to least; null where none was read.
    [[nodiscard]] const HdrWhite* least_sum() const;
};

/// Works all out that the readings are enough for. Throws Error (input) for neither a full white nor six greys, and more than 1100 windows or levels
/// of grey; as whites_by_window(). Source: own rule.
SAMELIGHT_API HdrAnswer answer_hdr(const HdrRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/check/impl/hdr.ipp"
#endif
