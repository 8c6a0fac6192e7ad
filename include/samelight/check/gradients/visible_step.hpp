#pragma once
// How many steps that an eye just sees lie between two neighbouring colours.
#include <algorithm>
#include <array>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The width of the picture, seen from where one sits, degrees: what ITU-R BT.2246 takes for its thresholds.
inline constexpr double gradient_field_deg = 40.0;

/// How well a grating is seen: 1 over the modulation, (Lmax - Lmin) / (Lmax + Lmin), at which a standard viewer just sees it.
/// @param cycles_per_degree  0.01 to 60
/// @param luminance_cd_m2    mean luminance, 1e-6 to 1e5
/// Field of 40 by 40 degrees, pupil as the luminance has it. Error: 1e-12 of the formula.
/// Throws Error (domain) outside these ranges.
/// Source: Barten, Contrast Sensitivity of the Human Eye, 1999, chapter 3 (from memory: k 3, T .1 s, eta .03, sigma0 .5', Cab .08'/mm, Xmax 12
/// degrees, Nmax 15, Phi0 3e-8, u0 7, p 1.2e6). From 1 cd/m2 up its best sensitivity is that of his simpler formula of 2003 to 0.5 %; in darker
/// pictures that one is the more sensitive, by 41 % at .001 cd/m2.
SAMELIGHT_API double contrast_sensitivity(double cycles_per_degree, double luminance_cd_m2);

/// The largest contrast_sensitivity() of any frequency, without unit. Luminances below 1e-6 cd/m2 and above 1e5 are taken as these.
/// Error: 1e-6 relative. Throws Error (domain) for what is no number.
SAMELIGHT_API double best_contrast_sensitivity(double luminance_cd_m2);

/// How many visible steps lie between two greys, each 0 or more, cd/m2: the modulation |L2 - L1| / (L2 + L1) over the threshold 1 / S of the best
/// frequency at the mean luminance. Symmetric; 0 between equal greys.
///
/// Its ground: what is seen of a step is its fundamental wave. A square wave of modulation m has one of 4 m / pi, and would be seen from
/// (pi / 4) / S; an even staircase is a smooth ramp and a sawtooth with a fundamental of 2 m / pi, and is seen from (pi / 2) / S. 1 / S lies
/// between the two; PQ was laid out with it (0.9 of it at 12 bits), and so are the steps of DICOM's grey scale. With it 12 bit PQ lies below one
/// step from .00007 cd/m2 up, and 10 bit power 2.4 to 100 cd/m2 above one step up to 62 cd/m2, as ITU-R BT.2246 shows (from memory).
/// Throws Error (domain) for what is below 0 or no number.
SAMELIGHT_API double grey_visible_steps(double luminance_cd_m2, double other_luminance_cd_m2);

/// A step between two neighbours in visible steps.
struct VisibleStep {
    /// Of luminance, between greys: grey_visible_steps(); 0 between colours, where `colour` holds it all.
    double luminance = 0.0;
    /// Delta E ITP, of which 1 is meant to be just seen: between greys of Ct and Cp alone.
    double colour = 0.0;

    /// The larger of both, a number of steps without unit.
    [[nodiscard]] double largest() const { return std::max(luminance, colour); }
};

/// A colour made ready for visible_step().
struct SteppedColour {
    /// CIE 1931, cd/m2
    std::array<double, 3> xyz{};
    /// I, Ct, Cp of PQ.
    std::array<double, 3> ictcp{};
};

/// From X, Y, Z in cd/m2. Throws Error (domain) for lights beyond the range of PQ (26,557 cd/m2) or no numbers.
SAMELIGHT_API SteppedColour stepped_colour(const std::array<double, 3>& xyz);

/// What a pair of neighbours is.
enum class StepKind {
    /// Meant to be greys.
    grey,
    /// Meant to be colours.
    colour
};

/// The step between two neighbours. Error: 1e-6 relative of the greys, 1e-9 of colours. Throws nothing for colours of stepped_colour().
/// Source: grey_visible_steps(); ITU-R BT.2124-0. That greys are judged by both: own rule.
SAMELIGHT_API VisibleStep visible_step(const SteppedColour& a, const SteppedColour& b,
                                       StepKind kind);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/gradients/impl/visible_step.ipp"
#endif
