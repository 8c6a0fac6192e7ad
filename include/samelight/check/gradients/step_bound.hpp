#pragma once
// How large a step can be at most, without the powers that it takes to know it.
#include <array>
#include <vector>

#include "samelight/check/gradients/visible_step.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/colour/signals/rgb.hpp"
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
/// Never below the step; how far above isn't bounded. Own rule.
class SAMELIGHT_API StepBound {
  public:
    /// For lights of an encoding.
    explicit StepBound(const RgbEncoding& encoding);

    /// Of the encoding's linear R, G, B in cd/m2.
    [[nodiscard]] BoundedLight light(const std::array<double, 3>& rgb) const {
        const auto row = [&rgb](const std::array<double, 3>& m) {
            return m[0] * rgb[0] + m[1] * rgb[1] + m[2] * rgb[2];
        };
        return {{row(lms_from_rgb_[0]), row(lms_from_rgb_[1]), row(lms_from_rgb_[2])},
                row(luminance_)};
    }
    /// No part of visible_step() between the two is above that of this, visible steps; infinite where light is too small or too much to tell.
    [[nodiscard]] VisibleStep most(const BoundedLight& a, const BoundedLight& b,
                                   StepKind kind) const;

  private:
    [[nodiscard]] double sensitivity_above(double luminance) const;

    Matrix3 lms_from_rgb_{};
    std::array<double, 3> luminance_{};
    /// At the lower edges of equal parts of each octave.
    std::vector<double> slopes_;
    /// At the edges of octaves' quarters.
    std::vector<double> sensitivities_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/gradients/impl/step_bound.ipp"
#endif
