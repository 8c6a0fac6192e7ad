#pragma once
// A ramp as it was measured: where neighbours jump apart by more than those beside them.
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/check/gradients/ramp_smoothness.hpp"
#include "samelight/check/gradients/visible_step.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

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
/// Ramps of fewer than `least_ramp_points` points are left out. Throws Error (input) where a reading has no signal or none of 0 to 1, and where no ramp is left;
/// as require_readings().
/// Own rule.
SAMELIGHT_API MeasuredRamps measured_ramps(const std::vector<PatchReading>& readings);

/// What a step of a measured ramp says.
enum class StepVerdict {
    /// It goes beyond what its neighbours make expected by over one visible step, for sure.
    shows,
    /// It doesn't, for sure; or nothing is known of it (MeasuredStep::judged).
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
    /// Before: of the ramp before; where there is none, what the colours around it make expected.
    VisibleStep before{}, after{};
    /// Visible steps beyond what the colours around it make expected, less what was beyond it before; and its expanded uncertainty (coverage 95 %).
    double jump = 0.0, expanded = 0.0;
    /// Whether a jump can be told from the curve's bend there: not beside black.
    bool judged = false;
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
    /// Steps of which nothing is known.
    std::size_t unjudged = 0;
    StepVerdict verdict = StepVerdict::does_not_show;
};

/// Judges each step by how the ramp goes on around it (smooth_steps()); where there was a ramp before, less what the same step jumped by then, so that
/// neither another curve nor a step that was mended is a jump. It shows where jump - U is over 1 visible step, doesn't where jump + U is not. U has two
/// parts, their squares added: twice the scatter of both ramps, carried through the visible steps to first order; and how far the jump differs between
/// narrower and wider surroundings. Where the second, if over 1 or the larger part, leaves it open whether it shows, the step isn't judged. A reversed step goes against the ramp before, or
/// against the intended display. Throws Error (input) for fewer than `least_ramp_points` points, or where `before` has other signals. Own rule.
SAMELIGHT_API MeasuredFindings judge_measured_ramp(const MeasuredRamp& ramp, double noise,
                                                   const MeasuredRamp* before,
                                                   const IntendedDisplay& intended);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/gradients/impl/measured_ramp.ipp"
#endif
