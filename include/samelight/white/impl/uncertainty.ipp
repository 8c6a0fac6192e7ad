#pragma once
// The bodies of white/uncertainty.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <optional>
#include <string>
#include <vector>

#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The probability that |u + n| < h, where u is spread evenly from 0 to d > 0 and n is normal about 0 with standard deviation s > 0.
inline double within_even_and_normal(double h, double d, double s) {
    // The integral of the normal distribution function.
    const auto area = [](double z) {
        return z * 0.5 * std::erfc(-z * std::numbers::sqrt2 / 2.0) +
               std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi);
    };
    return s / d * (area(h / s) - area((h - d) / s) - area(-h / s) + area((-h - d) / s));
}

SAMELIGHT_INLINE double half_width(double even, double normal) {
    const double s = std::sqrt(std::max(0.0, normal));
    const double d = std::sqrt(3.0 * std::max(0.0, even));
    if (d <= 1e-9 * s) {
        return 2.0 * s;
    }
    if (s <= 1e-9 * d) {
        return covered * d;
    }
    double low = 0.0;
    double high = d + 8.0 * s;
    for (int k = 0; k < 60; ++k) {
        const double middle = 0.5 * (low + high);
        (within_even_and_normal(middle, d, s) < covered ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE const char* code_of(BudgetRemedy remedy) {
    constexpr std::array<const char*, 15> codes = {
        "finer_step",      "check_wavelength_scale", "narrower_bandwidth", "less_stray_light",
        "average_spectra", "average_white",          "match_by_viewer",    "match_once_more",
        "name_viewer",     "measure_white",          "only_by_eye",        "measure_spectra",
        "measure_unit",    "name_viewers",           "none_viewers_named"};
    return codes.at(static_cast<std::size_t>(remedy));
}

SAMELIGHT_INLINE double BudgetPart::half_width(double variance) const {
    return evenly_from_zero ? detail::half_width(variance, 0.0) : detail::half_width(0.0, variance);
}

SAMELIGHT_INLINE CovarianceMatrix<2> TargetBudget::covariance_of_light() const {
    CovarianceMatrix<2> sum{};
    for (const BudgetPart& part : parts) {
        if (!part.of_the_eye) {
            sum += part.covariance;
        }
    }
    return sum;
}

SAMELIGHT_INLINE const BudgetPart& TargetBudget::dominant() const {
    return *std::max_element(
        parts.begin(), parts.end(),
        [](const BudgetPart& a, const BudgetPart& b) { return a.size() < b.size(); });
}

SAMELIGHT_INLINE double TargetBudget::dominant_share() const {
    const double all = covariance[0] + covariance[3];
    return all > 0.0 ? dominant().size() * dominant().size() / all : 1.0;
}

SAMELIGHT_INLINE double TargetBudget::half_width(std::size_t at) const {
    double even = 0.0;
    for (const BudgetPart& part : parts) {
        even = part.evenly_from_zero ? std::max(even, part.covariance[at]) : even;
    }
    return detail::half_width(even, covariance[at] - even);
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE void require_limits(const InstrumentLimits& limits) {
    const auto require = [](const char* what, double value, double most) {
        if (!(value >= 0.0) || !(value <= most)) {
            throw Error(ErrorKind::domain, "instrument", std::string(what) + " " + to_text(value),
                        "0 to " + to_text(most));
        }
    };
    require("wavelength shift (nm)", limits.wavelength_shift_nm, 20.0);
    require("bandwidth (nm)", limits.bandwidth_nm, 50.0);
    require("stray light (of the peak)", limits.stray_light, 0.1);
    require("noise (of the peak)", limits.noise, 0.1);
    require("step (nm)", limits.step_nm, 50.0);
    require("reading noise (x and y)", limits.reading_noise_xy, 0.1);
}

}  // namespace samelight::detail
