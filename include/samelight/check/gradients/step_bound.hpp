#pragma once
// How large a step can be at most, without the powers that it takes to know it.
#include <array>
#include <vector>

#include "samelight/check/gradients/coded_display.hpp"
#include "samelight/check/gradients/visible_step.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The light of a colour as the bound takes it: L, M, S of ICtCp and the luminance, cd/m2.
struct BoundedLight {
    std::array<double, 3> lms{};
    double luminance = 0.0;
};

/// Bounds of visible_step() by the mean value theorem: the slope of PQ falls with light, so a difference of PQ lies between the slopes at both ends
/// times the difference of light. Slopes, and the best contrast sensitivity, which rises with light, come from tables.
///
/// Within 2 % of the step, from above. Own rule.
class SAMELIGHT_API StepBound {
  public:
    /// For lights of up to the range of PQ (26,557 cd/m2).
    StepBound();

    /// Of X, Y, Z in cd/m2.
    [[nodiscard]] static BoundedLight light(const std::array<double, 3>& xyz);
    /// No part of visible_step() between the two is above that of this, visible steps; infinite where light is too small or too much to tell.
    [[nodiscard]] VisibleStep most(const BoundedLight& a, const BoundedLight& b,
                                   StepKind kind) const;

  private:
    [[nodiscard]] double sensitivity_above(double luminance) const;

    /// At the lower edges of equal parts of each octave.
    std::vector<double> slopes_;
    /// At the edges of octaves' quarters.
    std::vector<double> sensitivities_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/gradients/impl/step_bound.ipp"
#endif
