#pragma once
// Two visits to one display compared: what moved, whether correction and target still hold and how long, what to do today.
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/check/visits/ageing.hpp"
#include "samelight/check/visits/target_life.hpp"
#include "samelight/check/visits/visit_lights.hpp"
#include "samelight/check/visits/visit_steps.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// The display's spectra at both visits, on one sampling, on an absolute scale.
struct VisitSpectra {
    Panel then, now;
};

/// What is asked for.
struct CompareRequest {
    /// Corrected already where a correction is named.
    VisitLights then, now;
    std::optional<Correction> then_correction = {}, now_correction = {};
    /// then_correction corrected both.
    bool one_correction = false;
    std::optional<VisitSpectra> spectra = {};
    /// CIE x, y white was to have; absent: what it had then.
    std::optional<std::array<double, 2>> target = {};
    /// Between the visits.
    std::optional<double> months = {};
    /// Distance in u', v' beyond which white is set again.
    double limit_uv = 0.003;
    VisitTimes times = {};
};

/// What to do about the display.
enum class CompareVerdict {
    /// White is where it was to be.
    leave,
    /// White is beyond the limit.
    set_white,
    /// So near the limit that these readings can't tell.
    read_again,
    /// The correction doesn't hold any longer: what the meter says of white can't be judged before it is made anew.
    correct_first,
    /// White's colour asks for nothing, or can't be told yet, and its light isn't what it was: that comes first.
    see_to_light
};

/// "leave", "set_white", "read_again", "correct_first" or "see_to_light".
inline const char* code_of(CompareVerdict verdict) {
    constexpr std::array<const char*, 5> codes = {"leave", "set_white", "read_again",
                                                  "correct_first", "see_to_light"};
    return codes.at(static_cast<std::size_t>(verdict));
}

/// Whose a change of white's light is.
enum class LightOwner {
    /// Readings can't tell a meter that lost gain from a display that lost light.
    either,
    /// Spectra, or a correction of each visit, show that it is the display's.
    display
};

/// "either" or "display".
inline const char* code_of(LightOwner owner) {
    return owner == LightOwner::display ? "display" : "either";
}

/// White's light, then and now.
struct WhiteLight {
    /// ln of now over then: the display's own where it is known, else as read.
    Change log_luminance;
    LightOwner owner = LightOwner::either;
    /// It fell or rose by more than `limit`, told from noise.
    bool changed = false;

    /// Share of its light beyond which a change of white's light is to be seen to. Own choice: a level is set to about that by eye.
    static constexpr double limit = 0.1;
};

/// Whether the meter's correction still holds.
enum class CorrectionState {
    /// None was named, so nothing is known of one.
    none,
    /// The primaries' colours stand where they stood.
    holds,
    /// They moved, or spectra show that the meter did.
    make_again,
    /// Each visit has its own, and the first would do as well today.
    both_hold,
    /// Each visit has its own, and the first would be off today.
    first_expired
};

/// "none", "holds", "make_again", "both_hold" or "first_expired".
inline const char* code_of(CorrectionState state) {
    constexpr std::array<const char*, 5> codes = {"none", "holds", "make_again", "both_hold",
                                                  "first_expired"};
    return codes.at(static_cast<std::size_t>(state));
}

/// How long the correction of the earlier visit, or where each visit has its own today's, will do if the meter goes on as between the visits.
struct CorrectionLife {
    /// Spans as long as that between the visits, and months where these are known.
    Horizon spans = {};
    std::optional<Horizon> months = {};
    /// It is today's correction that is meant.
    bool of_now = false;

    /// What a meter may move white by, in x or in y, before its correction is to be made again. Own choice.
    static constexpr double limit_xy = 0.0005;
};

/// One step of today's work.
struct TodayStep {
    VisitStep step;
    StepReadings readings;
    double minutes;
};

/// The whole answer.
struct CompareAnswer {
    Ageing ageing;
    /// CIE x, y of white then and now, and of its target.
    std::array<double, 2> white_then{}, white_now{}, target{};
    /// The target was named, and isn't what white had then.
    bool target_named = false;
    TargetLife life;
    CompareVerdict verdict = CompareVerdict::leave;
    WhiteLight light = {};
    CorrectionState correction = CorrectionState::none;
    /// Absent: no correction was named, or it doesn't hold any longer.
    std::optional<CorrectionLife> correction_life = {};
    /// From spectra: how far the middle of each emitter's light moved, nm.
    std::optional<std::array<double, 3>> moved_nm = {};
    std::vector<TodayStep> today = {};
    double today_min = 0.0;
};

/// Compares the visits and judges. A correction holds as long as the primaries' colours stand, since emitters that only lose light leave it exact; white is judged
/// by the range of its distance from the target, its light by WhiteLight::limit. A correction's life goes from the meter's part of white's move, as it is taken for
/// CorrectionState: each of x and y with its range, and of the two whichever ends first.
/// Throws as ageing_between(), target_life() and require_display_white(); Error (shape) for spectra on two samplings, Error (domain) for spectra on no common scale.
SAMELIGHT_API CompareAnswer answer_compare(const CompareRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/check/impl/compare.ipp"
#endif
