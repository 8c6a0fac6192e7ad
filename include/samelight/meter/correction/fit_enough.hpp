#pragma once
// Whether a correction is known well enough, by the half-width that was asked for.
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/selection/plan.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Takes back the verdict to use a correction (FitVerdict::read_again, with not_sure_to) whose white is not known to `wanted` and can't be with
/// most_sensible_rounds more: such readings scatter too much. So it does with the verdict not to use one that is worse on the colours left out by less than
/// white is known. What more rounds within reason mend, or what lies below the floor of other errors, is left alone, and so are the other
/// verdicts.
/// Own rule.
/// @param advice  advise_stop() with the same `wanted`, for white
/// @param wanted  half-width of x and y, without unit
SAMELIGHT_API FitJudgement judge_enough(FitJudgement judged, const StopAdvice& advice,
                                        double wanted);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/correction/impl/fit_enough.ipp"
#endif
