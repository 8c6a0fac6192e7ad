#pragma once
// The bodies of meter/correction/fit_verdict.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <vector>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/colour_error.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/column_checks.hpp"
#include "samelight/meter/readings/drift.hpp"
#include "samelight/meter/readings/odd_luminances.hpp"
#include "samelight/meter/readings/outliers.hpp"
#include "samelight/meter/readings/reading_checks.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Raw channels that a correction leaves further off than this are worse than any filter meter without a correction (common practice, no source).
inline constexpr double usual_filter_error = 0.01;

SAMELIGHT_INLINE AgainstNone against_none(const ReadingSet& set, const Correction& correction) {
    AgainstNone result;
    if (!correction.covariance || correction.valid_near || correction.raw_channels) {
        return result;
    }
    for (const Patch& patch : set.patches()) {
        const auto& m = patch.meter;
        const Certainty c = certainty(correction, xyz_from_xyY(m[0], m[1], m[2]));
        if (!c.region_contains(m[0], m[1])) {
            return {};
        }
        const double semi_major = c.region().semi_major;
        result.widest =
            std::max(result.widest,
                     std::isnan(semi_major) ? std::numeric_limits<double>::infinity() : semi_major);
    }
    result.cannot_tell = result.widest > widest_telling_region;
    result.within_noise = !result.cannot_tell;
    return result;
}

/// Root mean square in x, y of the uncorrected meter over the patches that `left_out` names.
inline double uncorrected_error(const ReadingSet& set, const std::vector<ProvenError>& left_out) {
    double sum = 0.0;
    for (const ProvenError& e : left_out) {
        const Patch& patch = set.patches()[set.require("judgement", e.patch)];
        const double d =
            std::hypot(patch.meter[0] - patch.reference[0], patch.meter[1] - patch.reference[1]);
        sum += d * d / static_cast<double>(left_out.size());
    }
    return std::sqrt(sum);
}

/// The errors of those colours for which the correction is meant: for one white's, of colours within its disc.
inline std::vector<ProvenError> within_validity(const ReadingSet& set, const Correction& correction,
                                                const std::vector<ProvenError>& left_out) {
    std::vector<ProvenError> result;
    for (const ProvenError& e : left_out) {
        const auto& meter = set.patches()[set.require("judgement", e.patch)].meter;
        if (!correction.valid_near || correction.valid_near->contains(meter[0], meter[1])) {
            result.push_back(e);
        }
    }
    return result;
}

/// What must be read again first, and why; an empty reason where nothing must.
struct ReadAgain {
    std::string reason = {}, patch = {};
    int round = 0;
    std::string how = {};
};

/// Readings that can't have been written down right, which outweighs anything they prove; an empty reason where there are none.
inline ReadAgain why_written_wrong(const FitQuality& quality) {
    if (quality.exchanged) {
        return {
            quality.exchanged->instruments == ExchangedIn::both
                ? "The columns look exchanged in both instruments' readings (see below)."
                : "Columns look exchanged in a part of the readings (see below).",
            {},
            0,
            "Look at the head of the file and at the rows in doubt: once the columns are named "
            "right, no colour need be read again. Where they are right, read all colours again."};
    }
    if (quality.odd_white) {
        return {
            "White is no display's white (see below).",
            {},
            0,
            "Look at the head of the file: each of X, Y and Z must be in cd/m2 and under its own "
            "name. Where they are, see what was shown as white, and read all colours again."};
    }
    if (!quality.odd_luminances.empty()) {
        const OddLuminance& odd = quality.odd_luminances.front();
        return {"Y of " + odd.patch + " can't be what was shown (see below).", odd.patch, odd.round,
                "Look at Y of " + odd.patch +
                    " in the file: where it was written down wrong, mend it there; else read " +
                    odd.patch + " again with both instruments, at the drive of the others."};
    }
    return {};
}

/// What must be read again first. Oddity and drift in luminance alone don't count for methods on chromaticities, which
/// don't feel them; they stay warnings.
inline ReadAgain why_again(const Correction& correction, const FitQuality& quality) {
    const bool blind = is_blind_to_luminance(correction.method);
    const auto counts = [&](const OddReading& o) { return !blind || o.quantity != "Y"; };
    const auto odd = std::find_if(quality.odd_readings.begin(), quality.odd_readings.end(), counts);
    if (odd != quality.odd_readings.end()) {
        return {"The reading of " + odd->named() + " in round " + std::to_string(odd->round) +
                    " does not go with the others.",
                odd->patch, odd->round};
    }
    if (!quality.odd_patches.empty()) {
        const std::string& patch = quality.odd_patches.front().patch;
        return {"The patch " + patch + " does not go with the others.", patch, 0};
    }
    const auto felt = [&](const WhiteDrift& d) {
        return blind ? d.xy_marked() && d.xy_beyond_noise : d.beyond_noise();
    };
    if (std::any_of(quality.steady_drift.begin(), quality.steady_drift.end(),
                    [&](const SteadyDrift& steady) { return felt(steady.middle); })) {
        return {"White drifted the same way while most of the rounds were read.",
                {},
                0,
                "Let the display warm up until white holds still, then read all rounds again."};
    }
    const auto drifting = std::find_if(quality.drift.begin(), quality.drift.end(), felt);
    if (drifting != quality.drift.end()) {
        return {"White drifted while round " + std::to_string(drifting->round) + " was read.",
                {},
                drifting->round};
    }
    if (!correction.covariance && quality.left_out.empty()) {
        return {"Each colour was read once and none was left out, so nothing says how good it is."};
    }
    return {};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE FitJudgement judge_use(const ReadingSet& readings, const Correction& correction,
                                        const FitQuality& quality) {
    const ReadingSet set = subtract_black(readings).set;
    FitJudgement result;
    const std::vector<ProvenError> left_out =
        detail::within_validity(set, correction, quality.left_out);
    if (!left_out.empty()) {
        result.proof_before = detail::uncorrected_error(set, left_out);
        result.proof_after = summarise(left_out).xy.root_mean_square;
    }
    const std::string proof =
        "On the " +
        (left_out.size() == 1 ? "colour" : std::to_string(left_out.size()) + " colours") +
        (correction.valid_near ? " near that white" : "") +
        " that it was not made from it leaves " + to_text(result.proof_after, 4) + " in x, y" +
        (correction.raw_channels
             ? "; without it the meter's raw channels are no colours."
             : "; without it the meter is off by " + to_text(result.proof_before, 4) + ".");
    const detail::AgainstNone none = detail::against_none(set, correction);
    const bool noise = none.within_noise || none.cannot_tell;
    const bool compared = !left_out.empty() && !noise && !correction.raw_channels;
    const detail::ReadAgain wrong = detail::why_written_wrong(quality);
    const detail::ReadAgain again =
        wrong.reason.empty() ? detail::why_again(correction, quality) : wrong;
    if (wrong.reason.empty() && compared &&
        std::max(result.proof_before, result.proof_after) < readable_difference) {
        result.verdict = FitVerdict::not_needed;
        result.reason = proof + " That is the same, as far as anything can be read.";
    } else if (wrong.reason.empty() &&
               ((compared && !readably_less(result.proof_after, result.proof_before)) ||
                (correction.raw_channels && result.proof_after > detail::usual_filter_error))) {
        result.verdict = FitVerdict::do_not_use;
        result.reason = proof;
    } else if (!again.reason.empty()) {
        result.verdict = FitVerdict::read_again;
        result.reason = again.reason;
        result.again_patch = again.patch;
        result.again_round = again.round;
        result.again_how = again.how;
    } else if (none.cannot_tell) {
        result.verdict = FitVerdict::read_again;
        result.reason =
            std::isinf(none.widest)
                ? "Too few repeats: nothing can be told, neither that the meter is right nor that "
                  "it is wrong."
                : "Nothing can be told: these readings scatter so much that the corrected colours "
                  "are known to " +
                      to_text(none.widest, 4) +
                      " in x, y at best, and the meter without it is no further off.";
    } else if (noise) {
        result.verdict = FitVerdict::not_needed;
        result.reason =
            "On every colour the meter agrees with the reference as well as these readings can "
            "tell.";
    } else if (left_out.empty()) {
        result.verdict = FitVerdict::use_unproven;
        result.reason =
            correction.valid_near
                ? "No other colour near that white was read to prove it: read a mid grey."
                : "No colour was left over to prove it: read two more, such as yellow and a mid "
                  "grey.";
    } else {
        result.reason = proof;
    }
    return result;
}

SAMELIGHT_INLINE const char* code_of(OtherVerdict verdict) {
    constexpr std::array<const char*, 3> codes = {"use", "better_own", "do_not_use"};
    return codes.at(static_cast<std::size_t>(verdict));
}

SAMELIGHT_INLINE OnAnotherDisplay judge_elsewhere(const Correction& correction,
                                                  const ReadingSet& readings, MeterValues values) {
    if (values == MeterValues::tristimulus) {
        static_cast<void>(check_readings(readings));
    }
    const ReadingSet set = subtract_black(readings).set;
    const auto white = detail::white_of(set);
    std::vector<ProvenError> before;
    std::vector<ProvenError> after;
    for (const Patch& patch : set.patches()) {
        const auto meter = xyz_from_xyY(patch.meter[0], patch.meter[1], patch.meter[2]);
        const auto reference =
            xyz_from_xyY(patch.reference[0], patch.reference[1], patch.reference[2]);
        before.push_back({patch.name, 0, colour_error(meter, reference, white)});
        after.push_back(
            {patch.name, 0, colour_error(correction.corrected_xyz(meter), reference, white)});
    }
    OnAnotherDisplay result{OtherVerdict::do_not_use, summarise(before), summarise(after)};
    const double left = result.after.xy.root_mean_square;
    const double none = result.before.xy.root_mean_square;
    if (left <= same_type_residual && !readably_less(none, left)) {
        result.verdict = OtherVerdict::use;
    } else if (readably_less(left, none)) {
        result.verdict = OtherVerdict::better_own;
    }
    return result;
}

}  // namespace samelight
