#pragma once
// A ramp as it was measured: where neighbours jump apart by more than those beside them.
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/check/gradients/visible_step.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// One colour of a ramp: the mean of its readings.
struct RampPoint {
    /// R', G', B', 0 to 1.
    std::array<double, 3> signal{};
    /// CIE 1931, cd/m2
    std::array<double, 3> xyz{};
    std::size_t readings = 1;
};

/// A ramp in the order in which it rises.
struct MeasuredRamp {
    /// All signals are equal in each point.
    StepKind kind = StepKind::grey;
    std::vector<RampPoint> points;
};

/// Readings as ramps, and how they scatter.
struct MeasuredRamps {
    std::vector<MeasuredRamp> ramps;
    /// Of one reading of X, Y, Z, relative: from readings of one colour, else `assumed_ramp_noise`.
    double noise = 0.0;
    /// It is from readings.
    bool noise_known = false;
};

/// Relative scatter of one reading where none was repeated. Own rule: what an instrument in good order does on a steady display.
inline constexpr double assumed_ramp_noise = 0.002;

/// Sorts readings into ramps: greys by their level, repeats as one; others as they follow each other, a new ramp where a channel turns round.
/// Ramps of fewer than five points are left out. Throws Error (input) where a reading has no signal or none of 0 to 1, and where no ramp is left.
/// Own rule.
SAMELIGHT_API MeasuredRamps measured_ramps(const std::vector<PatchReading>& readings);

/// What a step of a measured ramp says.
enum class StepVerdict {
    /// It jumps by over one visible step more than its neighbours, for sure.
    shows,
    /// It doesn't, for sure.
    does_not_show,
    /// The readings scatter too much for either.
    cannot_tell
};

/// "shows", "does_not_show" or "cannot_tell".
inline const char* code_of(StepVerdict verdict) {
    constexpr std::array<const char*, 3> codes = {"shows", "does_not_show", "cannot_tell"};
    return codes.at(static_cast<std::size_t>(verdict));
}

/// Two neighbours of a measured ramp.
struct MeasuredStep {
    RampPoint from{}, to{};
    /// Before: of the ramp before, or of the display as it is meant to be.
    VisibleStep before{}, after{};
    /// Visible steps beyond what the neighbours' change from before to after makes expected, and its expanded uncertainty (coverage 95 %).
    double jump = 0.0, expanded = 0.0;
    StepVerdict verdict = StepVerdict::does_not_show;
    /// It got darker where it was to get brighter, by more than the scatter.
    bool reversed = false;
    /// Less than a quarter is left of a step that was to be seen.
    bool flat = false;
    double xy_jump = 0.0;
};

/// What a measured ramp says.
struct MeasuredFindings {
    StepKind kind = StepKind::grey;
    std::vector<MeasuredStep> steps;
    /// The steps of the largest jump; what can't be told counts where nothing shows.
    std::size_t worst = 0;
    std::size_t reversals = 0, flat = 0, longest_flat = 0;
    StepVerdict verdict = StepVerdict::does_not_show;
};

/// Judges a ramp against what was before: a ramp of the same signals, or, where there is none, the display as it is meant to be.
/// A step's change from before to after, for each unit of signal, is compared with the mean of the two neighbours on each side: what changes
/// smoothly is no jump. It shows where jump - U is over 1 visible step, doesn't where jump + U is not. U is twice the scatter of both ramps, carried
/// through the visible steps to first order. Throws Error (input) for fewer than five points, or where `before` has other signals. Own rule.
SAMELIGHT_API MeasuredFindings judge_measured_ramp(const MeasuredRamp& ramp, double noise,
                                                   const MeasuredRamp* before,
                                                   const IntendedDisplay& intended);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/gradients/impl/measured_ramp.ipp"
#endif
