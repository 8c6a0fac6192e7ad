#pragma once
// Least squares of a function that isn't linear, in values that stand between limits.
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The values that are sought, each between limits; steps are judged in units of `high - low`.
struct BoundedValues {
    std::vector<double> low, high;

    [[nodiscard]] double range(std::size_t i) const { return high[i] - low[i]; }
    [[nodiscard]] double clamped(std::size_t i, double value) const;
};

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

/// Damped least squares from `values`, ten rounds at most: until near_enough(residuals), or a round takes less than 2 % off the sum of
/// squares. residuals(values): n numbers, all of one unit. Finds a minimum near the start. Throws what `residuals` throws.
template <class Residuals, class NearEnough>
std::vector<double> damped_least_squares(const BoundedValues& bounds, std::vector<double> values,
                                         const Residuals& residuals,
                                         const NearEnough& near_enough) {
    Eigen::VectorXd here = residuals(values);
    double damping = 1e-3;
    for (int round = 0; round < 10 && !near_enough(here); ++round) {
        const double before = here.squaredNorm();
        const Eigen::MatrixXd d = derivatives_in_ranges(bounds, values, here, residuals);
        bool better = false;
        for (int attempt = 0; attempt < 6 && !better; ++attempt) {
            const Eigen::VectorXd step = damped_step(bounds, values, d, here, damping);
            std::vector<double> tried = values;
            for (std::size_t i = 0; i < values.size(); ++i) {
                tried[i] = bounds.clamped(
                    i, values[i] + step[static_cast<Eigen::Index>(i)] * bounds.range(i));
            }
            const Eigen::VectorXd there = residuals(tried);
            better = there.squaredNorm() < before;
            if (better) {
                values = std::move(tried);
                here = there;
            }
            damping = better ? 0.1 * damping : 10.0 * damping;
        }
        if (!better || here.squaredNorm() > 0.98 * before) {
            break;
        }
    }
    return values;
}

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/numeric/impl/damped_least_squares.ipp"
#endif
