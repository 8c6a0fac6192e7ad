#pragma once
// Taking an instrument's bandwidth out of a spectrum whose readings are one bandwidth apart.
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The share of each neighbour that stearns_bandpass() takes off: 1/12 to the three places that were published.
inline constexpr double stearns_alpha = 0.083;

/// Root of the sum of squares of the weights of an inner sample: how much larger the noise of a sample is after stearns_bandpass().
inline constexpr double stearns_noise_gain = 1.1719;

/// What a spectrum would have been without the instrument's triangular passband, whose width at half maximum is the step.
///
/// measured: an even grid of 2 samples or more, as the instrument read them, in any unit. Inside, S_i = -a M_(i-1) + (1 + 2 a) M_i - a
/// M_(i+1); the first and last sample, which have one neighbour, S_1 = (1 + a) M_1 - a M_2; a = stearns_alpha. All corrected values come
/// from the measured ones: none is made from a neighbour that has already been corrected. The sum over the samples doesn't change.
/// Beside a narrow line values fall below 0, by up to 8.3 % of the line; they are left so, for to clip them would add light.
/// Error: for a spectrum quadratic over three steps 0.0034 of the change that the passband made; for narrow lines see the tests (0.0003
/// in x, y on display primaries whose lines are no narrower than 3 nm, by steps of 5 nm). Throws Error (shape) for an uneven grid.
/// Source: Stearns & Stearns 1988, An example of a method for correcting radiance data for bandpass error, Color Res. Appl. 13:257-259
/// (three-point form).
SAMELIGHT_API Spectrum stearns_bandpass(const Spectrum& measured);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/bandpass.ipp"
#endif
