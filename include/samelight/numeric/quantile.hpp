#pragma once
// Quantiles of the normal distribution and of a sample.
#include <span>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// Throws Error (domain) unless 0 < probability < 1.
SAMELIGHT_API void require_probability(const char* where, double probability);

}  // namespace detail

/// The x below which a standard normal number (mean 0, standard deviation 1) lies with the given probability.
/// Range: 0 < probability < 1. Error: below 4e-16 relative or 1e-16. The same to the bit with g++ and clang++ at any optimisation
/// and -march on x86-64: computed in long double, which no vector or fused instruction touches, and rounded once. That is why
/// Boost's default policy must stay; without promotion it isn't so. No unit. Throws Error (domain). Source: the distribution's definition.
SAMELIGHT_API double normal_quantile(double probability);

/// The probability that a standard normal number lies below x. Range: any x but NaN; Error: below 1e-15 relative, for x > -37.
/// The same to the bit as normal_quantile is. No unit. Throws Error (domain) for NaN. Source: as normal_quantile.
SAMELIGHT_API double normal_probability(double x);

/// The value below which the share `probability` of a sample lies: linear between the order statistics, the k-th of n standing
/// for the share (k - 1) / (n - 1).
/// values: n >= 1 in any order, none NaN; they are copied and stay as they are. Range: 0 <= probability <= 1. Error: rounding.
/// Throws Error (shape) for no values and Error (domain) for a NaN or a probability out of range. Source: Hyndman & Fan 1996,
/// Sample quantiles in statistical packages, doi:10.1080/00031305.1996.10473566, definition 7 (from memory).
SAMELIGHT_API double sample_quantile(std::span<const double> values, double probability);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/numeric/impl/quantile.ipp"
#endif
