#pragma once
// The bodies of check/gradients/visible_step.hpp.

#include <cmath>
#include <numbers>

#include "samelight/check/gradients/visible_step.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/colour/spaces/ictcp.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline constexpr double darkest_seen_cd_m2 = 1e-6;
inline constexpr double brightest_seen_cd_m2 = 1e5;

/// What Barten's formula has of the luminance alone.
struct EyeInLight {
    /// Of the eye's optics and receptors, degrees.
    double blur_deg;
    /// Of photons.
    double noise;
};

inline EyeInLight eye_in_light(double luminance) {
    const double field = gradient_field_deg;
    const double pupil =
        5.0 - 3.0 * std::tanh(0.4 * std::log10(luminance * field * field / 1600.0));
    const double p1 = pupil / 9.7;
    const double p2 = pupil / 12.4;
    const double trolands =
        std::numbers::pi / 4.0 * pupil * pupil * luminance * (1.0 - p1 * p1 + p2 * p2 * p2 * p2);
    return {std::sqrt(0.25 + 0.0064 * pupil * pupil) / 60.0, 1.0 / (0.03 * 1.2e6 * trolands)};
}

inline double sensitivity_of(const EyeInLight& eye, double u) {
    const double field = gradient_field_deg;
    const double blur = std::numbers::pi * eye.blur_deg * u;
    const double area = 1.0 / (field * field) + 1.0 / 144.0 + u * u / 225.0;
    const double neural = 3e-8 / -std::expm1(-(u / 7.0) * (u / 7.0));
    return std::exp(-2.0 * blur * blur) / 3.0 / std::sqrt(20.0 * area * (eye.noise + neural));
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double contrast_sensitivity(double cycles_per_degree, double luminance_cd_m2) {
    if (!(cycles_per_degree >= 0.01 && cycles_per_degree <= 60.0)) {
        throw Error(ErrorKind::domain, "contrast_sensitivity", to_text(cycles_per_degree),
                    "0.01 to 60 cycles per degree");
    }
    if (!(luminance_cd_m2 >= detail::darkest_seen_cd_m2 &&
          luminance_cd_m2 <= detail::brightest_seen_cd_m2)) {
        throw Error(ErrorKind::domain, "contrast_sensitivity", to_text(luminance_cd_m2),
                    "1e-6 to 1e5 cd/m2");
    }
    return detail::sensitivity_of(detail::eye_in_light(luminance_cd_m2), cycles_per_degree);
}

/// By golden section over the logarithm of the frequency: there is one top.
SAMELIGHT_INLINE double best_contrast_sensitivity(double luminance_cd_m2) {
    if (std::isnan(luminance_cd_m2)) {
        throw Error(ErrorKind::domain, "best_contrast_sensitivity", to_text(luminance_cd_m2),
                    "a luminance in cd/m2");
    }
    const detail::EyeInLight eye = detail::eye_in_light(
        std::clamp(luminance_cd_m2, detail::darkest_seen_cd_m2, detail::brightest_seen_cd_m2));
    const double golden = 0.5 * (std::sqrt(5.0) - 1.0);
    double low = std::log(0.01);
    double high = std::log(20.0);
    const auto at = [&eye](double log_u) { return detail::sensitivity_of(eye, std::exp(log_u)); };
    double left = high - golden * (high - low);
    double right = low + golden * (high - low);
    double at_left = at(left);
    double at_right = at(right);
    while (high - low > 1e-3) {
        if (at_left > at_right) {
            high = right;
            right = left;
            at_right = at_left;
            left = high - golden * (high - low);
            at_left = at(left);
        } else {
            low = left;
            left = right;
            at_left = at_right;
            right = low + golden * (high - low);
            at_right = at(right);
        }
    }
    return std::max(at_left, at_right);
}

SAMELIGHT_INLINE double grey_visible_steps(double luminance_cd_m2, double other_luminance_cd_m2) {
    for (const double value : {luminance_cd_m2, other_luminance_cd_m2}) {
        if (!(value >= 0.0 && std::isfinite(value))) {
            throw Error(ErrorKind::domain, "grey_visible_steps", to_text(value),
                        "a luminance of 0 or more");
        }
    }
    const double sum = luminance_cd_m2 + other_luminance_cd_m2;
    const double apart = std::abs(luminance_cd_m2 - other_luminance_cd_m2);
    return apart > 0.0 ? apart / sum * best_contrast_sensitivity(0.5 * sum) : 0.0;
}

SAMELIGHT_INLINE SteppedColour stepped_colour(const std::array<double, 3>& xyz) {
    const Tristimulus<Cie1931_2deg> light(xyz[0], xyz[1], xyz[2]);
    return {xyz, ictcp<PqIctcp>(linear_rgb<Bt2020>(light)).values()};
}

SAMELIGHT_INLINE VisibleStep visible_step(const SteppedColour& a, const SteppedColour& b,
                                          StepKind kind) {
    using Colour = Ictcp<PqIctcp>;
    const Colour second(b.ictcp[0], b.ictcp[1], b.ictcp[2]);
    if (kind == StepKind::colour) {
        return {0.0, delta_e_itp(Colour(a.ictcp[0], a.ictcp[1], a.ictcp[2]), second)};
    }
    return {grey_visible_steps(std::max(0.0, a.xyz[1]), std::max(0.0, b.xyz[1])),
            delta_e_itp(Colour(b.ictcp[0], a.ictcp[1], a.ictcp[2]), second)};
}

}  // namespace samelight
