#pragma once
// What to read next, as part of the answer about a fit: plan_readings() of assess/meter_fit.hpp.

#include <algorithm>
#include <limits>
#include <utility>

#include "samelight/assess/meter_fit.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_enough.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/selection/plan.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline void plan_by_noise(const assess::MeterFitOptions& options, assess::MeterFitAnswer& answer) {
    const Correction& correction = answer.stored.correction;
    if (!answer.white || correction.noise_terms.empty()) {
        return;
    }
    // Colours left out tell what no reading improves, but only where they were not proven by chance: two or more of them.
    double floor = options.reference_uncertainty_xy;
    if (answer.quality.left_out.size() > 1 && correction.method != CorrectionMethod::white_only) {
        floor = std::max(floor, answer.judgement.proof_after);
    }
    answer.advice =
        advise_stop(correction, answer.white->meter, {options.wanted_half_width, floor});
    answer.judgement =
        judge_enough(std::move(answer.judgement), *answer.advice, options.wanted_half_width);
    answer.next = next_patches(correction, {answer.white->meter});
    answer.next.erase(std::remove_if(answer.next.begin(), answer.next.end(),
                                     [](const NextPatch& n) { return !(n.reduction > 1e-9); }),
                      answer.next.end());
}

/// What the verdict has to say of the next reading: no plan may call enough what must not be used.
inline void plan_by_verdict(assess::MeterFitAnswer& answer) {
    const FitJudgement& judged = answer.judgement;
    StopAdvice advice;
    advice.half_width = std::numeric_limits<double>::infinity();
    advice.wanted = answer.wanted_half_width;
    advice = answer.advice.value_or(advice);
    advice.stop = false;
    if (judged.verdict == FitVerdict::do_not_use) {
        advice.reason = StopReason::do_not_use;
    } else if (judged.verdict == FitVerdict::read_again) {
        const bool says_what = is_mended_otherwise(judged.reason) || !judged.again_patch.empty() ||
                               judged.again_round > 0;
        if (!says_what && answer.advice && !answer.advice->stop) {
            return;
        }
        advice.reason = StopReason::read_again;
    } else {
        return;
    }
    advice.more_rounds = {};
    answer.advice = advice;
    answer.next.clear();
}

inline bool fit_is_used(const FitJudgement& judged) {
    return judged.verdict == FitVerdict::use || judged.verdict == FitVerdict::use_unproven;
}

SAMELIGHT_INLINE void plan_readings(const assess::MeterFitOptions& options,
                                    assess::MeterFitAnswer& answer) {
    plan_by_noise(options, answer);
    plan_by_verdict(answer);
    answer.read_on = fit_is_used(answer.judgement) && answer.advice && !answer.advice->stop &&
                     answer.advice->half_width > answer.wanted_half_width;
}

}  // namespace samelight::detail
