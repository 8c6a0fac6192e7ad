#pragma once
// Whether a correction is known well enough, by the half-width that was asked for.
#include <string>

#include "samelight/meter/fit_verdict.hpp"
#include "samelight/meter/plan.hpp"

namespace samelight {

/// Takes back the verdict to use a correction (FitVerdict::read_again, with not_sure_to) whose white is not known to `wanted` and can't be with
/// most_sensible_rounds more: such readings scatter too much. So it does with the verdict not to use one that is worse on the colours left out by less than
/// white is known. What more rounds within reason mend, or what lies below the floor of other errors, is left alone, and so are the other
/// verdicts.
/// @param advice  advise_stop() with the same `wanted`, for white
inline FitJudgement judge_enough(FitJudgement judged, const StopAdvice& advice, double wanted) {
    const bool told = judged.verdict == FitVerdict::use ||
                      judged.verdict == FitVerdict::use_unproven ||
                      (judged.verdict == FitVerdict::do_not_use &&
                       judged.proof_after - judged.proof_before < advice.half_width);
    if (!told || advice.stop || !(advice.half_width > wanted)) {
        return judged;
    }
    if (advice.code != "out_of_reach") {
        return judged;
    }
    judged.verdict = FitVerdict::read_again;
    judged.not_sure_to = advice.half_width;
    judged.reason = noise_must_come_down;
    return judged;
}

}  // namespace samelight
