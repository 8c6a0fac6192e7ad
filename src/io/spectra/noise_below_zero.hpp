#pragma once
// Whether values below zero in a light are its own noise.
#include <optional>
#include <span>

#include "io/spectra/noise_around_zero.hpp"

namespace samelight::io::detail {

/// Standard deviation of the noise of a light where it is dark, in its values' unit: of one value, and of the sum of n values over sqrt n,
/// which is larger where an instrument smooths, so that neighbours share their noise.
struct DarkNoise {
    double of_value = 0.0;
    double of_sum = 0.0;
};

/// From neighbouring second differences (of values, and of means of 2, 4, ... values) about the darkest quarter of the light, by their
/// medians, which lines and single slips hardly move; of several distances the largest. A light's own curvature there counts as noise. 0 for
/// fewer than 8 values.
DarkNoise dark_noise(std::span<const double> values);

/// Values below zero that the light's own noise doesn't explain, if there are any: one value 6 standard deviations below zero, or a stretch of
/// values whose sum lies 4.8 standard deviations of such a sum below zero, both with 36 / n more where the noise is known from n places. No
/// value above -0.5 % of `brightest` is asked about, nor a stretch with a mean above -0.25 % of it.
///
/// Of columns of white noise of .1 to 3 % of the peak on the built-in panels' shapes, by 1 to 10 nm, fewer than 1 in 1000 are found to be
/// none; a running mean of 5 samples by 1 nm makes it 2 in 1000. A constant -1 % is found in 9 columns of 10 under noise of .3 % (the rest
/// are nowhere that dark), in 8 by 1 nm under 1 %, in hardly one under 3 %, but a black beside it tells up to 2 %; a value of at least 2 %
/// of the peak and 10 standard deviations with the wrong sign is found in 19 cases of 20, by 10 nm in 17 (tested).
/// @param brightest  largest value of the file's lights, above 0
std::optional<BelowZero> below_noise(std::span<const double> values, double brightest);

}  // namespace samelight::io::detail
