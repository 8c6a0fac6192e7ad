#pragma once
// Whether to use a correction, from what its readings prove and what they leave open. Own rules.
#include <cstddef>
#include <optional>
#include <string>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/readings/outliers.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Why the verdict is what it is. Each says which members of FitJudgement hold its facts; report/fit_words.hpp has it in English.
enum class FitReason {
    /// use: colours that it was not made from prove it: `proof_count`, `proof_before`, `proof_after`, `near_one_white`, `raw_channels`.
    proven,
    /// use_unproven: no such colour was read: `near_one_white`.
    unproven,
    /// not_needed: on such colours the meter is as good without it, as far as anything can be read: as `proven`.
    same_either_way,
    /// not_needed: without it the meter agrees with the reference on every colour, as well as these readings can tell.
    agrees_within_noise,
    /// do_not_use: on such colours it is no better than none, or leaves more than a usual meter without one: as `proven`.
    no_better_than_none,
    /// read_again: columns look exchanged in both instruments' readings; FitQuality::exchanged and a warning say which.
    columns_exchanged,
    /// Likewise, in a part of the readings.
    columns_exchanged_in_part,
    /// read_again: white is no display's (FitQuality::odd_white, and a warning).
    odd_white,
    /// read_again: Y of `again_patch` can't be what was shown, in `again_round` or, 0, in all (FitQuality::odd_luminances, and a warning).
    odd_luminance,
    /// read_again: one reading does not go with the others: `odd_reading`, `again_patch`, `again_round`.
    odd_reading,
    /// read_again: a patch does not go with the others: `again_patch`.
    odd_patch,
    /// read_again: white drifted the same way while most of the rounds were read.
    steady_drift,
    /// read_again: white drifted while `again_round` was read.
    drift,
    /// read_again: each colour was read once and none left out, so nothing says how good it is.
    read_once,
    /// read_again: too few repeats to tell the meter's error from noise.
    too_few_repeats,
    /// read_again: the readings scatter too much for that: `known_to`.
    too_noisy_to_tell,
    /// read_again, of judge_enough(): the readings scatter too much for what was wanted: `not_sure_to`.
    too_noisy_to_use
};

/// "proven", "unproven", "same_either_way", ...: the enumerator's name.
SAMELIGHT_API const char* code_of(FitReason reason);

/// Whether what is amiss is mended otherwise than by reading one patch or one round again.
SAMELIGHT_API bool is_mended_otherwise(FitReason reason);

/// A verdict, its reason, and the facts behind it.
struct FitJudgement {
    FitVerdict verdict = FitVerdict::use;
    FitReason reason = FitReason::proven;
    /// What must be read again, where it is one patch.
    std::string again_patch = {};
    /// Likewise one round; 0: all of them.
    int again_round = 0;
    /// judge_enough(): the half-width of white's x or y, where that is too much; else 0
    double not_sure_to = 0.0;
    /// Root mean square of x, y over the colours left out, uncorrected.
    double proof_before = 0.0;
    /// Corrected; both 0 without such colours.
    double proof_after = 0.0;
    /// How many such colours there are.
    std::size_t proof_count = 0;
    /// The correction holds near one white alone.
    bool near_one_white = false;
    /// It corrects raw channels, which are no colours without it.
    bool raw_channels = false;
    /// With FitReason::too_noisy_to_tell: the longest semi-axis of the corrected colours' regions in x, y.
    double known_to = 0.0;
    /// With FitReason::odd_reading: that reading.
    std::optional<OddReading> odd_reading = {};
};

namespace detail {

/// Regions wider than this to either side can't tell a right meter from a wrong one: filter meters are .003 to .01 off (common practice,
/// no source).
inline constexpr double widest_telling_region = 0.003;

/// What the readings say of the meter without the correction.
struct AgainstNone {
    /// Every patch's uncorrected reading lies within the region of its corrected one, and the regions tell.
    bool within_noise = false;
    /// It does, but some region is so wide that this says nothing.
    bool cannot_tell = false;
    /// The longest semi-axis of all regions; infinite where there are too few repeats.
    double widest = 0.0;
};

AgainstNone against_none(const ReadingSet& set, const Correction& correction);

}  // namespace detail

/// The verdict on a correction from the readings that it was made from and what judge_fit() said about it. The first of these that holds: readings that
/// can't have been written down right; a meter that leaves nothing to be read without it either; no better than none on the colours left out, by
/// readable_difference or more; something to be read again; so much noise that nothing can be told; nothing that the readings can
/// tell from no correction; proven, or not. Raw channels are no colours without the correction, so nothing is compared with none there.
SAMELIGHT_API FitJudgement judge_use(const ReadingSet& readings, const Correction& correction,
                                     const FitQuality& quality);

/// Whether a correction made on one display serves on another.
enum class OtherVerdict {
    /// As well as on its own.
    use,
    /// Better than none, worse than one made there.
    better_own,
    /// No better than none.
    do_not_use
};

/// "use", "better_own" or "do_not_use".
SAMELIGHT_API const char* code_of(OtherVerdict verdict);

/// What a correction does on another display whose readings are known.
struct OnAnotherDisplay {
    OtherVerdict verdict = OtherVerdict::do_not_use;
    ErrorSummary before, after;
};

/// What a correction of one display type leaves in x, y, as published: up to this it serves on another unit as on its own.
/// Source: Ohno & Hardis 1997, Four-color matrix method for correction of tristimulus colorimeters, IS&T CIC5, 301-305 (abstract).
inline constexpr double same_type_residual = 0.001;

/// Reads another display with a correction: all its patches but black, the mean of their repeats. `readings` must be of the same two instruments.
/// @param values  what the meter's three values are: X, Y, Z are refused where they can't be that
/// Throws Error (input) for such readings.
SAMELIGHT_API OnAnotherDisplay judge_elsewhere(const Correction& correction,
                                               const ReadingSet& readings,
                                               MeterValues values = MeterValues::tristimulus);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/correction/impl/fit_verdict.ipp"
#endif
