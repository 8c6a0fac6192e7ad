#include "samelight/report/fit_words.hpp"

#include <string>

#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/selection/plan.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

constexpr const char* noise_must_come_down =
    "More rounds alone won't do, the noise must come down first: let the meter measure longer or "
    "average, let meter and display warm up, keep stray light out, and write down all digits.";

/// What the colours left out say.
std::string proof_text(const FitJudgement& judged) {
    return "On the " +
           (judged.proof_count == 1 ? "colour" : std::to_string(judged.proof_count) + " colours") +
           (judged.near_one_white ? " near that white" : "") +
           " that it was not made from it leaves " + to_text(judged.proof_after, 4) + " in x, y" +
           (judged.raw_channels
                ? "; without it the meter's raw channels are no colours."
                : "; without it the meter is off by " + to_text(judged.proof_before, 4) + ".");
}

/// What must be read again, by its reason.
std::string again_text(const FitJudgement& judged) {
    switch (judged.reason) {
        case FitReason::columns_exchanged:
            return "The columns look exchanged in both instruments' readings (see below).";
        case FitReason::columns_exchanged_in_part:
            return "Columns look exchanged in a part of the readings (see below).";
        case FitReason::odd_white:
            return "White is no display's white (see below).";
        case FitReason::odd_luminance:
            return "Y of " + judged.again_patch + " can't be what was shown (see below).";
        case FitReason::odd_reading:
            return "The reading of " +
                   (judged.odd_reading ? judged.odd_reading->named() : judged.again_patch) +
                   " in round " + std::to_string(judged.again_round) +
                   " does not go with the others.";
        case FitReason::odd_patch:
            return "The patch " + judged.again_patch + " does not go with the others.";
        case FitReason::steady_drift:
            return "White drifted the same way while most of the rounds were read.";
        case FitReason::drift:
            return "White drifted while round " + std::to_string(judged.again_round) + " was read.";
        default:
            return "Each colour was read once and none was left out, so nothing says how good it is.";
    }
}

/// What to do where more is amiss than one reading or round; else empty.
std::string mending_text(const FitJudgement& judged) {
    switch (judged.reason) {
        case FitReason::columns_exchanged:
        case FitReason::columns_exchanged_in_part:
            return "Look at the head of the file and at the rows in doubt: once the columns are named "
                   "right, no colour need be read again. Where they are right, read all colours again.";
        case FitReason::odd_white:
            return "Look at the head of the file: each of X, Y and Z must be in cd/m2 and under its own "
                   "name. Where they are, see what was shown as white, and read all colours again.";
        case FitReason::odd_luminance:
            return "Look at Y of " + judged.again_patch +
                   " in the file: where it was written down wrong, mend it there; else read " +
                   judged.again_patch + " again with both instruments, at the drive of the others.";
        case FitReason::steady_drift:
            return "Let the display warm up until white holds still, then read all rounds again.";
        default:
            return "";
    }
}

std::string read_again_text(const FitJudgement& judged) {
    const std::string mending = mending_text(judged);
    if (!mending.empty()) {
        return mending;
    }
    const std::string round = std::to_string(judged.again_round);
    if (!judged.again_patch.empty()) {
        return "Read " + judged.again_patch + (judged.again_round > 0 ? " of round " + round : "") +
               " again, with both instruments, and put it in the place of the odd reading.";
    }
    if (judged.again_round > 0) {
        return "Read the whole of round " + round +
               " again, once the display holds still, and put it in the place of this one.";
    }
    return "Read every colour again, three times or more.";
}

}  // namespace

std::string sentence(const FitJudgement& judged) {
    switch (judged.reason) {
        case FitReason::proven:
        case FitReason::no_better_than_none:
            return proof_text(judged);
        case FitReason::same_either_way:
            return proof_text(judged) + " That is the same, as far as anything can be read.";
        case FitReason::too_few_repeats:
            return "Too few repeats: nothing can be told, neither that the meter is right nor that it is wrong.";
        case FitReason::too_noisy_to_tell:
            return "Nothing can be told: these readings scatter so much that the corrected colours "
                   "are known to " +
                   to_text(judged.known_to, 4) +
                   " in x, y at best, and the meter without it is no further off.";
        case FitReason::too_noisy_to_use:
            return noise_must_come_down;
        case FitReason::agrees_within_noise:
            return "On every colour the meter agrees with the reference as well as these readings can tell.";
        case FitReason::unproven:
            return judged.near_one_white
                       ? "No other colour near that white was read to prove it: read a mid grey."
                       : "No colour was left over to prove it: read two more, such as yellow and a mid grey.";
        default:
            return again_text(judged);
    }
}

std::string sentence(const StopAdvice& advice, const FitJudgement& judged) {
    const std::string now =
        "Corrected x and y are sure to " +
        (advice.half_width < 5e-6 ? "0.00001 or less" : to_text(advice.half_width, 5));
    switch (advice.reason) {
        case StopReason::reached:
            return now + ": enough.";
        case StopReason::below_floor:
            return now + ", less than a third of the " + to_text(advice.floor_xy, 5) +
                   " that no reading improves: more readings are not worth it.";
        case StopReason::too_few:
            return "Read every patch " + std::to_string(fewest_rounds) + " times or more.";
        case StopReason::go_on:
            return now + ": about " + std::to_string(advice.more_rounds.value_or(0)) +
                   " more rounds for " + to_text(advice.wanted, 5) + ".";
        case StopReason::out_of_reach:
            return now + ", not to " + to_text(advice.wanted, 5) + ". " + noise_must_come_down;
        case StopReason::read_again:
            return read_again_text(judged);
        case StopReason::do_not_use:
            break;
    }
    return "More readings of these colours won't mend this: the colours left out say that the "
           "correction is wrong for them. See that every reading stands under its colour's name, X, "
           "Y and Z in their columns, and that the display did not change between colours, or try another method.";
}

}  // namespace samelight::report
