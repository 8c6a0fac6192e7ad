#pragma once
// The bodies of assess/check/hdr.hpp.

#include <algorithm>
#include <cmath>

#include "samelight/assess/check/hdr.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/check/adjusting/grey_drives.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline void require_hdr_sizes(std::size_t windows, std::size_t levels) {
    constexpr std::size_t most = 1100;
    if (windows > most || levels > most) {
        throw Error(ErrorKind::input, "answer_hdr", "more than 1100 windows or levels of grey",
                    "1100 at most");
    }
}

inline void take_tracking(const assess::HdrRequest& request, assess::HdrAnswer& answer) {
    try {
        answer.tracking = pq_tracking(request.readings);
    } catch (const Error& error) {
        answer.no_tracking = assess::reason_of(error);
    }
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

SAMELIGHT_INLINE HdrAnswer answer_hdr(const HdrRequest& request) {
    HdrAnswer answer;
    const std::vector<WindowWhite> whites = whites_by_window(request.readings);
    const std::vector<GreyLevel> greys = grey_levels(request.readings);
    detail::require_hdr_sizes(whites.size(), greys.size());
    for (const WindowWhite& white : whites) {
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
    if (greys.size() > 2) {
        detail::take_tracking(request, answer);
    }
    if (whites.empty() && !answer.tracking) {
        throw Error(ErrorKind::input, "answer_hdr",
                    answer.no_tracking.empty() ? "no full white, and no greys"
                                               : "no full white; greys: " + answer.no_tracking,
                    "white (level_pct 100) by window_pct, or six greys and more");
    }
    return answer;
}

}  // namespace samelight::assess
