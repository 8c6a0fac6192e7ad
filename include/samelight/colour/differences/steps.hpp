#pragma once
// How far apart two chromaticities are: plain distances, and steps of the size that lighting standards count in.
#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Distance in the x, y diagram, without unit. It says how two readings differ, not how much of it is seen: in x, y one step of
/// an eye is 27 times as long in one place as in another (MacAdam 1942, 0.00035 to 0.0096).
/// Throws Error (observer) where the two belong to different observers. Own name for plain geometry.
template <class O>
double xy_distance(const Chromaticity<O>& a, const Chromaticity<O>& b) {
    return (a - b).distance();
}

/// Distance in the u', v' diagram, without unit. Throws Error (observer) where the two belong to different observers, Error
/// (domain) as uv1976. Source: CIE 15:2018, 8.1.
template <class O>
double uv_distance(const Uv1976<O>& a, const Uv1976<O>& b) {
    return (a - b).distance();
}
template <class O>
double uv_distance(const Chromaticity<O>& a, const Chromaticity<O>& b) {
    return uv_distance(uv1976(a), uv1976(b));
}

/// The radius of the one-step circle in u', v', without unit: what a good eye just sees between two whites side by side.
///
/// Its ground, computed by the tests: the geometric mean of the semi-axes of MacAdam's ellipses (1942, one standard deviation) about the three
/// whites and yellowish whites near the locus of Planck's radiators is .00095, .00140 and .00123, together .0012; CIEDE2000 of two whites at
/// L* 100 about D65 is 1 at .00073 to .00135 by direction, .00095 on average. The figure lies between them. CIE TN 001:2014 takes the same
/// one for its circles (from memory).
inline constexpr double uv_step_radius = 0.0011;

/// How many steps two chromaticities are apart: their distance in u', v' over the radius of the one-step circle.
///
/// Valid near the locus of Planck's radiators, where the circle stands for the 1-step ellipse; elsewhere the ellipses measured
/// in 1942 have mean radii from 0.0009 to 0.0023 in u', v'. The observer is CIE 1931's, as in the note.
/// Source: CIE TN 001:2014 (see uv_step_radius).
inline double uv_steps(const Uv1976<Cie1931_2deg>& a, const Uv1976<Cie1931_2deg>& b) {
    return uv_distance(a, b) / uv_step_radius;
}
inline double uv_steps(const Chromaticity<Cie1931_2deg>& a, const Chromaticity<Cie1931_2deg>& b) {
    return uv_steps(uv1976(a), uv1976(b));
}

/// Whether `c` lies in the n-step circle about `centre`, its rim included. Range: steps >= 0 and finite, else Error (domain).
/// A number of steps, without unit. Source: CIE TN 001:2014 (see uv_step_radius).
SAMELIGHT_API bool within_uv_steps(const Chromaticity<Cie1931_2deg>& c,
                                   const Chromaticity<Cie1931_2deg>& centre, double steps);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/differences/impl/steps.ipp"
#endif
