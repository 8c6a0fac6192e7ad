#pragma once
// How a measured ramp goes on where it is smooth: each step beside what the colours around it make expected.
#include <array>
#include <cstddef>
#include <vector>

#include "samelight/check/gradients/visible_step.hpp"
#include "samelight/check/intent/intended_display.hpp"
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

/// Fewer points say nothing of what is smooth.
inline constexpr std::size_t least_ramp_points = 10;

/// A step beside the one that the colours around it make expected.
struct SmoothStep {
    /// The expected step, and the one that was read, in visible steps.
    VisibleStep expected{}, read{};
    /// Visible steps by which the one that was read is larger than the expected one, of both parts; below 0 where it is smaller. Of a step back
    /// what leads back counts whole. By the narrower and by the wider surroundings.
    VisibleStep beyond{}, beyond_wider{};
    /// Of `beyond`, from the readings' scatter, to first order.
    VisibleStep variance{};
    /// Enough was read around it.
    bool known = false;
};

/// Each step of a ramp beside its surroundings. What X, Y, Z have above black is divided by what the intended display has there; its logarithm is taken
/// to be a smooth curve of the signal's logarithm (along ramps that don't rise from black: of the way in signals) with one jump between the step's
/// two ends: by three colours on each side and a parabola, and by four and a cubic. So another exponent, black or tint is none. Where the logarithm
/// isn't known, above black by less than four times the scatter, and for the two steps nearest to black, nothing is.
/// @param noise  relative scatter of one reading of X, Y, Z
/// Throws Error (input) for fewer than `least_ramp_points` points. Own rule.
SAMELIGHT_API std::vector<SmoothStep> smooth_steps(const MeasuredRamp& ramp, double noise,
                                                   const IntendedDisplay& intended);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/gradients/impl/ramp_smoothness.ipp"
#endif
