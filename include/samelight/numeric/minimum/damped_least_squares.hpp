#pragma once
// Least squares of a function that isn't linear, in values that stand between limits.
#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The values that are sought, each between limits in a unit of its own; steps are judged in units of `high - low`.
struct BoundedValues {
    std::vector<double> low, high;

    /// The width of a value's range, in its unit; i < low.size().
    [[nodiscard]] double range(std::size_t i) const { return high[i] - low[i]; }
    /// `value` within its range, in its unit; i < low.size().
    [[nodiscard]] double clamped(std::size_t i, double value) const {
        return std::clamp(value, low[i], high[i]);
    }
};

/// Where a search by damped least squares stands.
struct DampedSearch {
    /// Each in its own unit.
    std::vector<double> values;
    /// The residuals there: n numbers, all of one unit.
    Eigen::VectorXd here;
    /// Of the residuals by the values in units of their ranges, where the last round began: n x values.
    Eigen::MatrixXd derivatives = {};
    /// Relative to the largest of the squared derivatives.
    double damping = 1e-3;
};

namespace detail {

/// The step from `values` that lessens the residuals, in units of the ranges. residuals: n; derivatives: n x values, by the ranges.
/// Values that stand at an end of their range and would leave it stay out of the sums.
/// Source: Levenberg 1944, Q. Appl. Math. 2:164; Marquardt 1963, J. SIAM 11:431; the damping relative to the largest derivative is ours.
Eigen::VectorXd damped_step(const BoundedValues& bounds, const std::vector<double>& values,
                            const Eigen::MatrixXd& derivatives, const Eigen::VectorXd& residuals,
                            double damping);

/// Differences of `residuals` over steps of 2 % of a range, in units of the ranges: n x values. `here`: the residuals at `at`.
template <class Residuals>
Eigen::MatrixXd derivatives_in_ranges(const BoundedValues& bounds, const std::vector<double>& at,
                                      const Eigen::VectorXd& here, const Residuals& residuals) {
    Eigen::MatrixXd result(here.size(), static_cast<Eigen::Index>(at.size()));
    for (std::size_t i = 0; i < at.size(); ++i) {
        constexpr double step = 0.02;
        std::vector<double> moved = at;
        moved[i] = bounds.clamped(i, at[i] + step * bounds.range(i));
        if (moved[i] - at[i] < 0.5 * step * bounds.range(i)) {
            moved[i] = at[i] - step * bounds.range(i);
        }
        result.col(static_cast<Eigen::Index>(i)) =
            (residuals(moved) - here) * (bounds.range(i) / (moved[i] - at[i]));
    }
    return result;
}

}  // namespace detail

/// One round from where the search stands: the first of six dampings, each ten times the one before, that lessens the sum of squares.
/// residuals(values): n numbers, all of one unit. False, and nothing moved but the damping, where none does. Throws what `residuals` throws.
/// Source: Levenberg 1944, Q. Appl. Math. 2:164; Marquardt 1963, J. SIAM 11:431; the damping relative to the largest derivative is ours.
template <class Residuals>
bool damped_round(const BoundedValues& bounds, DampedSearch& at, const Residuals& residuals) {
    const double before = at.here.squaredNorm();
    at.derivatives = detail::derivatives_in_ranges(bounds, at.values, at.here, residuals);
    for (int attempt = 0; attempt < 6; ++attempt) {
        const Eigen::VectorXd step =
            detail::damped_step(bounds, at.values, at.derivatives, at.here, at.damping);
        std::vector<double> tried = at.values;
        for (std::size_t i = 0; i < tried.size(); ++i) {
            tried[i] =
                bounds.clamped(i, tried[i] + step[static_cast<Eigen::Index>(i)] * bounds.range(i));
        }
        Eigen::VectorXd there = residuals(tried);
        if (there.squaredNorm() < before) {
            at.damping *= 0.1;
            at.values = std::move(tried);
            at.here = std::move(there);
            return true;
        }
        at.damping *= 10.0;
    }
    return false;
}

/// Damped least squares from `values`, ten rounds at most: until near_enough(residuals), or a round takes less than 2 % off the sum of
/// squares. residuals(values): n numbers, all of one unit. Finds a minimum near the start. Throws what `residuals` throws.
/// Source: as damped_round; where it ends is our own rule.
template <class Residuals, class NearEnough>
std::vector<double> damped_least_squares(const BoundedValues& bounds, std::vector<double> values,
                                         const Residuals& residuals,
                                         const NearEnough& near_enough) {
    DampedSearch at{std::move(values), {}};
    at.here = residuals(at.values);
    for (int round = 0; round < 10 && !near_enough(at.here); ++round) {
        const double before = at.here.squaredNorm();
        if (!damped_round(bounds, at, residuals) || at.here.squaredNorm() > 0.98 * before) {
            break;
        }
    }
    return std::move(at.values);
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/numeric/minimum/impl/damped_least_squares.ipp"
#endif
