#pragma once
// The bodies of meter/correction/fit_verdict.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
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

/// What must be read again first, and why.
struct ReadAgain {
    FitReason reason;
    std::string patch = {};
    int round = 0;
    std::optional<OddReading> reading = {};
};

/// Readings that can't have been written down right, which outweighs anything they prove.
inline std::optional<ReadAgain> why_written_wrong(const FitQuality& quality) {
    if (quality.exchanged) {
        return ReadAgain{quality.exchanged->instruments == ExchangedIn::both
                             ? FitReason::columns_exchanged
                             : FitReason::columns_exchanged_in_part};
    }
    if (quality.odd_white) {
        return ReadAgain{FitReason::odd_white};
    }
    if (!quality.odd_luminances.empty()) {
        const OddLuminance& odd = quality.odd_luminances.front();
        return ReadAgain{FitReason::odd_luminance, odd.patch, odd.round};
    }
    return {};
}

/// What must be read again first. Oddity and drift in luminance alone don't count for methods on chromaticities, which
/// don't feel them; they stay warnings.
inline std::optional<ReadAgain> why_again(const Correction& correction, const FitQuality& quality) {
    const bool blind = is_blind_to_luminance(correction.method);
    const auto counts = [&](const OddReading& o) { return !blind || o.quantity != "Y"; };
    const auto odd = std::find_if(quality.odd_readings.begin(), quality.odd_readings.end(), counts);
    if (odd != quality.odd_readings.end()) {
        return ReadAgain{FitReason::odd_reading, odd->patch, odd->round, *odd};
    }
    if (!quality.odd_patches.empty()) {
        return ReadAgain{FitReason::odd_patch, quality.odd_patches.front().patch};
    }
    const auto felt = [&](const WhiteDrift& d) {
        return blind ? d.xy_marked() && d.xy_beyond_noise : d.beyond_noise();
    };
    if (std::any_of(quality.steady_drift.begin(), quality.steady_drift.end(),
                    [&](const SteadyDrift& steady) { return felt(steady.middle); })) {
        return ReadAgain{FitReason::steady_drift};
    }
    const auto drifting = std::find_if(quality.drift.begin(), quality.drift.end(), felt);
    if (drifting != quality.drift.end()) {
        return ReadAgain{FitReason::drift, {}, drifting->round};
    }
    if (!correction.covariance && quality.left_out.empty()) {
        return ReadAgain{FitReason::read_once};
    }
    return {};
}

/// Takes the verdict and its reason, and what must be read again.
inline void read_first(const ReadAgain& again, FitJudgement& result) {
    result.verdict = FitVerdict::read_again;
    result.reason = again.reason;
    result.again_patch = again.patch;
    result.again_round = again.round;
    result.odd_reading = again.reading;
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
    result.proof_count = left_out.size();
    result.near_one_white = correction.valid_near.has_value();
    result.raw_channels = correction.raw_channels;
    const auto say = [&](FitVerdict verdict, FitReason reason) {
        result.verdict = verdict;
        result.reason = reason;
    };
    const detail::AgainstNone none = detail::against_none(set, correction);
    const bool noise = none.within_noise || none.cannot_tell;
    const bool compared = !left_out.empty() && !noise && !correction.raw_channels;
    const auto wrong = detail::why_written_wrong(quality);
    const auto again = wrong ? wrong : detail::why_again(correction, quality);
    if (!wrong && compared &&
        std::max(result.proof_before, result.proof_after) < readable_difference) {
        say(FitVerdict::not_needed, FitReason::same_either_way);
    } else if (!wrong &&
               ((compared && !readably_less(result.proof_after, result.proof_before)) ||
                (correction.raw_channels && result.proof_after > detail::usual_filter_error))) {
        say(FitVerdict::do_not_use, FitReason::no_better_than_none);
    } else if (again) {
        detail::read_first(*again, result);
    } else if (none.cannot_tell) {
        result.known_to = std::isinf(none.widest) ? 0.0 : none.widest;
        say(FitVerdict::read_again,
            std::isinf(none.widest) ? FitReason::too_few_repeats : FitReason::too_noisy_to_tell);
    } else if (noise) {
        say(FitVerdict::not_needed, FitReason::agrees_within_noise);
    } else if (left_out.empty()) {
        say(FitVerdict::use_unproven, FitReason::unproven);
    }
    return result;
}

SAMELIGHT_INLINE const char* code_of(FitReason reason) {
    constexpr std::array<const char*, 17> codes = {"proven",
                                                   "unproven",
                                                   "same_either_way",
                                                   "agrees_within_noise",
                                                   "no_better_than_none",
                                                   "columns_exchanged",
                                                   "columns_exchanged_in_part",
                                                   "odd_white",
                                                   "odd_luminance",
                                                   "odd_reading",
                                                   "odd_patch",
                                                   "steady_drift",
                                                   "drift",
                                                   "read_once",
                                                   "too_few_repeats",
                                                   "too_noisy_to_tell",
                                                   "too_noisy_to_use"};
    return codes.at(static_cast<std::size_t>(reason));
}

SAMELIGHT_INLINE bool is_mended_otherwise(FitReason reason) {
    switch (reason) {
        case FitReason::columns_exchanged:
        case FitReason::columns_exchanged_in_part:
        case FitReason::odd_white:
        case FitReason::odd_luminance:
        case FitReason::steady_drift:
            return true;
        default:
            return false;
    }
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
