#pragma once
// The bodies of numeric/quantile.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include <boost/math/constants/constants.hpp>
#include <boost/math/special_functions/erf.hpp>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/impl/overflow_policy.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE void require_probability(const char* where, double probability) {
    if (!(probability > 0.0) || !(probability < 1.0)) {
        throw Error(ErrorKind::domain, where, "probability " + to_text(probability),
                    "a probability above 0 and below 1");
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double normal_quantile(double probability) {
    detail::require_probability("normal_quantile", probability);
    // What Boost's normal distribution does, without the headers of all distributions.
    return -boost::math::erfc_inv(2.0 * probability, detail::InfiniteOverflow{}) *
           boost::math::constants::root_two<double>();
}

SAMELIGHT_INLINE double normal_probability(double x) {
    if (std::isnan(x)) {
        throw Error(ErrorKind::domain, "normal_probability", "nan", "a number");
    }
    return boost::math::erfc(-x / boost::math::constants::root_two<double>()) / 2.0;
}

SAMELIGHT_INLINE double sample_quantile(std::span<const double> values, double probability) {
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
