#pragma once
// What to read next, as part of the answer about a fit: plan_readings() of assess/meter_fit.hpp.

#include <algorithm>
#include <limits>
#include <string>
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
    StopAdvice advice = answer.advice.value_or(
        StopAdvice{false, {}, {}, std::numeric_limits<double>::infinity(), {}});
    advice.stop = false;
    if (judged.verdict == FitVerdict::do_not_use) {
        advice.reason = StopReason::do_not_use;
        advice.message =
            "More readings of these colours won't mend this: the colours left out say that the "
            "correction is wrong for them. See that every reading stands under its colour's name, X, "
            "Y and Z in their columns, and that the display did not change between colours, or try another method.";
    } else if (judged.verdict == FitVerdict::read_again) {
        const std::string round = std::to_string(judged.again_round);
        if (!judged.again_how.empty()) {
            advice.message = judged.again_how;
        } else if (!judged.again_patch.empty()) {
            advice.message = "Read " + judged.again_patch +
                             (judged.again_round > 0 ? " of round " + round : "") +
                             " again, with both instruments, and put it in the place of the odd "
                             "reading.";
        } else if (judged.again_round > 0) {
            advice.message = "Read the whole of round " + round +
                             " again, once the display holds still, and put it in the place of "
                             "this one.";
        } else if (answer.advice && !answer.advice->stop) {
            return;
        } else {
            advice.message = "Read every colour again, three times or more.";
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
