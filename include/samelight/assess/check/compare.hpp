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
    correct_first
};

/// "leave", "set_white", "read_again" or "correct_first".
inline const char* code_of(CompareVerdict verdict) {
    constexpr std::array<const char*, 4> codes = {"leave", "set_white", "read_again",
                                                  "correct_first"};
    return codes.at(static_cast<std::size_t>(verdict));
}

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
    CorrectionState correction = CorrectionState::none;
    /// From spectra: how far the middle of each emitter's light moved, nm.
    std::optional<std::array<double, 3>> moved_nm = {};
    std::vector<TodayStep> today = {};
    double today_min = 0.0;
};

/// Compares the visits and judges. A correction holds as long as the primaries' colours stand, since emitters that only lose light leave it exact;
/// white is judged by the range of its distance from the target.
/// Throws as ageing_between() and target_life(); Error (shape) for spectra on two samplings, Error (domain) for spectra on no common scale.
SAMELIGHT_API CompareAnswer answer_compare(const CompareRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/check/impl/compare.ipp"
#endif
