#pragma once
// The bodies of assess/check/hdr.hpp.

#include <algorithm>
#include <cmath>
#include <string>

#include "samelight/assess/check/hdr.hpp"
#include "samelight/check/adjusting/grey_drives.hpp"
#include "samelight/check/readings/measured_ends.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline void require_hdr_sizes(std::size_t windows, std::size_t levels) {
    constexpr std::size_t most = 1100;
    if (windows > most || levels > most) {
        throw Error(ErrorKind::input, "answer_hdr", "more than 1100 windows or levels of grey",
                    "1100 at most");
    }
}

inline assess::HdrVerdict hdr_verdict(const assess::HdrAnswer& answer) {
    using assess::HdrAnswer;
    using assess::HdrVerdict;
    const bool windows = answer.whites.size() > 1;
    if (!answer.whites.empty() &&
        answer.whites[answer.reference].off_chosen_xy.value_or(0.0) > HdrAnswer::white_off_xy) {
        return HdrVerdict::white_off;
    }
    if (answer.tracking && answer.tracking->tracking_itp > HdrAnswer::tracks_itp) {
        return HdrVerdict::pq_off;
    }
    if (windows && answer.most_moved().drift_uv > HdrAnswer::white_moves_uv) {
        return HdrVerdict::white_moves;
    }
    if (answer.missing.empty()) {
        return HdrVerdict::holds;
    }
    return windows || answer.tracking ? HdrVerdict::holds_in_part : HdrVerdict::cannot_tell;
}

/// Readings of white, colours and greys without a window.
inline std::size_t windows_supposed(const std::vector<PatchReading>& readings) {
    return static_cast<std::size_t>(
        std::count_if(readings.begin(), readings.end(),
                      [](const PatchReading& r) { return !r.window_pct.has_value(); }));
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE const HdrWhite& HdrAnswer::most_moved() const {
    return *std::max_element(
        whites.begin(), whites.end(),
        [](const HdrWhite& a, const HdrWhite& b) { return a.drift_uv < b.drift_uv; });
}

SAMELIGHT_INLINE const HdrWhite* HdrAnswer::least_sum() const {
    const HdrWhite* least = nullptr;
    for (const HdrWhite& white : whites) {
        if (white.sum_over_white &&
            (least == nullptr || *white.sum_over_white < *least->sum_over_white)) {
            least = &white;
        }
    }
    return least;
}

SAMELIGHT_INLINE const HdrWhite* HdrAnswer::fading() const {
    const HdrWhite* most = nullptr;
    for (const HdrWhite& white : whites) {
        if (white.fade && *white.fade < -fades && (most == nullptr || *white.fade < *most->fade)) {
            most = &white;
        }
    }
    return most;
}

SAMELIGHT_INLINE HdrAnswer answer_hdr(const HdrRequest& request) {
    HdrAnswer answer;
    const std::vector<WindowWhite> whites = whites_by_window(request.readings);
    const std::vector<GreyLevel> greys = grey_levels(request.readings);
    detail::require_hdr_sizes(whites.size(), greys.size());
    for (const WindowWhite& white : whites) {
        require_display_white(white.xyz[1], to_text(white.window_pct) + " %");
        HdrWhite own{white, {}};
        if (request.white) {
            const auto at = xyY_from_xyz(white.xyz);
            own.off_chosen_xy =
                std::hypot(at[0] - (*request.white)[0], at[1] - (*request.white)[1]);
        }
        answer.whites.push_back(own);
    }
    answer.reference = reference_window(whites);
    if (whites.size() > 1) {
        answer.limiter = limiter_onset(whites);
    }
    answer.ladder = pq_ladder(request.readings);
    if (!answer.ladder.obstacle) {
        answer.tracking = pq_tracking(request.readings);
    }
    if (whites.empty() && !answer.tracking) {
        throw Error(ErrorKind::input, "answer_hdr",
                    "no full white, and " + std::to_string(answer.ladder.greys.size()) +
                        " greys of 0.05 cd/m2 or more",
                    "white (level_pct 100) by window_pct, or " + std::to_string(fewest_pq_greys) +
                        " greys and more");
    }
    answer.windows_supposed = detail::windows_supposed(request.readings);
    if (whites.size() < 2) {
        answer.missing.push_back(HdrMissing::windows);
    }
    if (!answer.tracking) {
        answer.missing.push_back(HdrMissing::greys);
    }
    answer.verdict = detail::hdr_verdict(answer);
    return answer;
}

}  // namespace samelight::assess
