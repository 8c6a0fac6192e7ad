#pragma once
// Whether to use a correction, from what its readings prove and what they leave open. Own rules.
#include <string>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A verdict and its reason, a whole sentence for people.
struct FitJudgement {
    FitVerdict verdict = FitVerdict::use;
    std::string reason = {};
    /// What must be read again, where it is one patch.
    std::string again_patch = {};
    /// Likewise one round; 0: all of them.
    int again_round = 0;
    /// What to do, a whole sentence, where it is more than that.
    std::string again_how = {};
    /// judge_enough(): the half-width of white's x or y, where that is too much; else 0
    double not_sure_to = 0.0;
    /// Root mean square of x, y over the colours left out, uncorrected.
    double proof_before = 0.0;
    /// Corrected; both 0 without such colours.
    double proof_after = 0.0;
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
