#pragma once
// The bodies of meter/correction/fit_enough.hpp.

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_enough.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/selection/plan.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE FitJudgement judge_enough(FitJudgement judged, const StopAdvice& advice,
                                           double wanted) {
    const bool told = judged.verdict == FitVerdict::use ||
                      judged.verdict == FitVerdict::use_unproven ||
                      (judged.verdict == FitVerdict::do_not_use &&
                       judged.proof_after - judged.proof_before < advice.half_width);
    if (!told || advice.stop || !(advice.half_width > wanted)) {
        return judged;
    }
    if (advice.reason != StopReason::out_of_reach) {
        return judged;
    }
    judged.verdict = FitVerdict::read_again;
    judged.not_sure_to = advice.half_width;
    judged.reason = FitReason::too_noisy_to_use;
    return judged;
}

}  // namespace samelight
