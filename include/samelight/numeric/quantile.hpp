#pragma once
// Quantiles of the normal distribution and of a sample.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include <boost/math/distributions/normal.hpp>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight {

namespace detail {

/// Throws Error (domain) unless 0 < probability < 1.
inline void require_probability(const char* where, double probability) {
    if (!(probability > 0.0) || !(probability < 1.0)) {
        throw Error(ErrorKind::domain, where, "probability " + to_text(probability),
                    "a probability above 0 and below 1");
    }
}

}  // namespace detail

/// The x below which a standard normal number (mean 0, standard deviation 1) lies with the given probability.
/// Range: 0 < probability < 1. Error: below 4e-16 relative or 1e-16. The same to the bit with g++ and clang++ at any optimisation
/// and -march on x86-64: computed in long double, which no vector or fused instruction touches, and rounded once. That is why
/// Boost's default policy must stay; without promotion it isn't so. Throws Error (domain).
inline double normal_quantile(double probability) {
    detail::require_probability("normal_quantile", probability);
    return boost::math::quantile(boost::math::normal_distribution<double>(), probability);
}

/// The probability that a standard normal number lies below x. Range: any x but NaN; Error: below 1e-15 relative, for x > -37.
/// The same to the bit as normal_quantile is. Throws Error (domain) for NaN.
inline double normal_probability(double x) {
    if (std::isnan(x)) {
        throw Error(ErrorKind::domain, "normal_probability", "nan", "a number");
    }
    return boost::math::cdf(boost::math::normal_distribution<double>(), x);
}

/// The value below which the share `probability` of a sample lies: linear between the order statistics, the k-th of n standing
/// for the share (k - 1) / (n - 1).
/// values: n >= 1 in any order, none NaN; they are copied and stay as they are. Range: 0 <= probability <= 1. Error: rounding.
/// Throws Error (shape) for no values and Error (domain) for a NaN or a probability out of range. Source: Hyndman & Fan 1996,
/// Sample quantiles in statistical packages, doi:10.1080/00031305.1996.10473566, definition 7 (from memory).
inline double sample_quantile(std::span<const double> values, double probability) {
    if (values.empty()) {
        throw Error(ErrorKind::shape, "sample_quantile", "no values", "at least one");
    }
    if (!(probability >= 0.0) || !(probability <= 1.0)) {
        throw Error(ErrorKind::domain, "sample_quantile", "probability " + to_text(probability),
                    "a probability from 0 to 1");
    }
    if (std::any_of(values.begin(), values.end(), [](double v) { return std::isnan(v); })) {
        throw Error(ErrorKind::domain, "sample_quantile", "a value that is nan", "numbers");
    }
    std::vector<double> sample(values.begin(), values.end());
    const double position = probability * static_cast<double>(sample.size() - 1);
    const double below = std::floor(position);
    const auto at = sample.begin() + static_cast<std::ptrdiff_t>(below);
    std::nth_element(sample.begin(), at, sample.end());
    if (position == below) {
        return *at;
    }
    const double above = *std::min_element(at + 1, sample.end());
    return *at + (position - below) * (above - *at);
}

}  // namespace samelight
