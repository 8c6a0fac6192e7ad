#pragma once
// Whether to use a correction, from what its readings prove and what they leave open.
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "samelight/meter/certainty.hpp"
#include "samelight/meter/colour_error.hpp"
#include "samelight/meter/correction.hpp"
#include "samelight/meter/fit_quality.hpp"
#include "samelight/meter/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight {

/// What to do with a correction on the display that it was made on.
enum class FitVerdict {
    use,           ///< colours that it was not made from prove it
    use_unproven,  ///< nothing speaks against it, no colour proves it
    not_needed,    ///< the readings can't tell the uncorrected meter from the reference
    read_again,    ///< an odd reading, a drifting white, or no word on noise and no proof either
    do_not_use     ///< on colours that it was not made from it is no better than none
};

/// "use", "use_unproven", "not_needed", "read_again" or "do_not_use".
inline const char* code_of(FitVerdict verdict) {
    constexpr std::array<const char*, 5> codes = {"use", "use_unproven", "not_needed", "read_again",
                                                  "do_not_use"};
    return codes.at(static_cast<std::size_t>(verdict));
}

/// A verdict and its reason, a whole sentence for people.
struct FitJudgement {
    FitVerdict verdict = FitVerdict::use;
    std::string reason = {};
    double proof_before = 0.0;  ///< root mean square of x, y over the colours left out, uncorrected
    double proof_after = 0.0;   ///< corrected; both 0 without such colours
};

namespace detail {

/// True where every patch's uncorrected reading lies within the region of its corrected one: the correction does nothing that is known.
inline bool within_noise(const ReadingSet& set, const Correction& correction) {
    if (!correction.covariance || correction.valid_near) {
        return false;
    }
    return std::all_of(set.patches().begin(), set.patches().end(), [&](const Patch& patch) {
        const auto& m = patch.meter;
        return certainty(correction, xyz_from_xyY(m[0], m[1], m[2])).region_contains(m[0], m[1]);
    });
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

/// What must be read again first; empty where nothing must. Oddity and drift in luminance alone don't count for methods on chromaticities, which
/// don't feel them; they stay warnings.
inline std::string why_again(const Correction& correction, const FitQuality& quality) {
    const bool blind = correction.method == CorrectionMethod::four_colour ||
                       correction.method == CorrectionMethod::white_only;
    const auto counts = [&](const OddReading& o) { return !blind || o.quantity != "Y"; };
    const auto odd = std::find_if(quality.odd_readings.begin(), quality.odd_readings.end(), counts);
    if (odd != quality.odd_readings.end()) {
        return "The reading of " + odd->patch + " in round " + std::to_string(odd->round) +
               " does not go with the others.";
    }
    if (!quality.odd_patches.empty()) {
        return "The patch " + quality.odd_patches.front().patch + " does not go with the others.";
    }
    const auto drifting =
        std::find_if(quality.drift.begin(), quality.drift.end(), [&](const WhiteDrift& d) {
            return blind ? d.xy_marked() && d.xy_beyond_noise : d.beyond_noise();
        });
    if (drifting != quality.drift.end()) {
        return "White drifted while round " + std::to_string(drifting->round) + " was read.";
    }
    if (!correction.covariance && quality.left_out.empty()) {
        return "Each colour was read once and none was left out, so nothing says how good it is.";
    }
    return {};
}

}  // namespace detail

/// The verdict on a correction from the readings that it was made from and what judge_fit() said about it. The first of these that holds: no better
/// than none on the colours left out; something to be read again; nothing that the readings can tell from no correction; proven, or
/// not.
inline FitJudgement judge_use(const ReadingSet& readings, const Correction& correction,
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
        " that it was not made from it leaves " + to_text(result.proof_after, 4) +
        " in x, y; without it the meter is off by " + to_text(result.proof_before, 4) + ".";
    const bool noise = detail::within_noise(set, correction);
    const std::string again = detail::why_again(correction, quality);
    if (!left_out.empty() && !noise && !(result.proof_after < result.proof_before)) {
        result.verdict = FitVerdict::do_not_use;
        result.reason = proof;
    } else if (!again.empty()) {
        result.verdict = FitVerdict::read_again;
        result.reason = again;
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

/// Whether a correction made on one display serves on another.
enum class OtherVerdict {
    use,         ///< as well as on its own
    better_own,  ///< better than none, worse than one made there
    do_not_use   ///< no better than none
};

/// "use", "better_own" or "do_not_use".
inline const char* code_of(OtherVerdict verdict) {
    constexpr std::array<const char*, 3> codes = {"use", "better_own", "do_not_use"};
    return codes.at(static_cast<std::size_t>(verdict));
}

/// What a correction does on another display whose readings are known.
struct OnAnotherDisplay {
    OtherVerdict verdict = OtherVerdict::do_not_use;
    ErrorSummary before, after;
};

/// What a correction of one display type leaves in x, y, as published: up to this it serves on another unit as on its own.
/// Source: Ohno & Hardis 1997, Four-color matrix method for correction of tristimulus colorimeters, IS&T CIC5, 301-305 (abstract).
inline constexpr double same_type_residual = 0.001;

/// Reads another display with a correction: all its patches but black, the mean of their repeats. `readings` must be of the same two instruments.
/// Throws Error (input) for readings that can't be what they are said to be.
inline OnAnotherDisplay judge_elsewhere(const Correction& correction, const ReadingSet& readings) {
    static_cast<void>(check_readings(readings));
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
    if (left < result.before.xy.root_mean_square) {
        result.verdict = left <= same_type_residual ? OtherVerdict::use : OtherVerdict::better_own;
    }
    return result;
}

}  // namespace samelight
