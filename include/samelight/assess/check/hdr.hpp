#pragma once
// What a display does in HDR: its peak by window, its white there, whether colours keep up with white, and how it follows PQ.
#include <array>
#include <cstddef>
#include <optional>
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

/// What to think of the display. The first that holds.
enum class HdrVerdict {
    /// White of the reference window is further from the chosen one than HdrAnswer::white_off_xy.
    white_off,
    /// Greys below the knee are further off PQ than HdrAnswer::tracks_itp.
    pq_off,
    /// White moves with the window by more than HdrAnswer::white_moves_uv.
    white_moves,
    /// White in two windows or more and greys of PQ were read, and nothing is wrong.
    holds,
    /// Nothing is wrong with what was read, but not all was.
    holds_in_part,
    /// Neither two windows nor enough greys: nothing can be said.
    cannot_tell
};

/// "white_off", "pq_off", "white_moves", "holds", "holds_in_part" or "cannot_tell".
inline const char* code_of(HdrVerdict verdict) {
    constexpr std::array<const char*, 6> codes = {"white_off", "pq_off",        "white_moves",
                                                  "holds",     "holds_in_part", "cannot_tell"};
    return codes.at(static_cast<std::size_t>(verdict));
}

/// What was not read, and would tell more.
enum class HdrMissing {
    /// Full white in two windows or more.
    windows,
    /// Greys of PQ: enough of them, see NoPqTracking.
    greys
};

/// "windows" or "greys".
inline const char* code_of(HdrMissing missing) {
    return missing == HdrMissing::windows ? "windows" : "greys";
}

/// The whole answer. Windows or greys may be missing, not both.
struct HdrAnswer {
    HdrVerdict verdict = HdrVerdict::cannot_tell;
    std::vector<HdrMissing> missing = {};
    /// By window, ascending.
    std::vector<HdrWhite> whites = {};
    /// Of `whites`, the one of 10 % or nearest to it.
    std::size_t reference = 0;
    /// With two windows or more.
    std::optional<LimiterOnset> limiter = {};
    /// The greys of PQ that were read, and why they tell nothing, where they don't.
    PqLadder ladder = {};
    /// Where they do.
    std::optional<PqTracking> tracking = {};
    /// Readings that name no window, and are taken to be of 10 %.
    std::size_t windows_supposed = 0;

    /// Red, green and blue add up to less than this share of white: a white emitter. This and the next ones: common practice, no source.
    static constexpr double adds_up = 0.95;
    /// From where on a white has moved with the window, u', v'.
    static constexpr double white_moves_uv = 0.002;
    /// From where on it is off the one that was chosen, x, y.
    static constexpr double white_off_xy = 0.003;
    /// From where on a window fades while it is shown, relative.
    static constexpr double fades = 0.02;
    /// Up to where greys follow PQ, root mean square below the knee, DE ITP.
    static constexpr double tracks_itp = 3.0;

    /// The window whose white has moved most. There is one.
    [[nodiscard]] const HdrWhite& most_moved() const;
    /// The window where red, green and blue add up to least; null where none was read.
    [[nodiscard]] const HdrWhite* least_sum() const;
    /// The window that loses most light while it is shown, of those that lose more than `fades`; null: none.
    [[nodiscard]] const HdrWhite* fading() const;
};

/// Works all out that the readings are enough for. Throws Error (input) for neither a full white nor fewest_pq_greys, and more than 1100 windows or levels
/// of grey, a white that is none of a display's (require_display_white()); as whites_by_window(). Source: own rule.
SAMELIGHT_API HdrAnswer answer_hdr(const HdrRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/check/impl/hdr.ipp"
#endif
