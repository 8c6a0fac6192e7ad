#pragma once
// One step of damped least squares over values that each have a range.
#include <algorithm>
#include <cstddef>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/small_algebra.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// A step's start: where it begins, its slopes in units of the ranges, and what is to become small.
struct DampedStart {
    const std::vector<double>& values;
    const Eigen::MatrixXd& derivatives;
    const Eigen::VectorXd& here;
};

/// The step of damped least squares (Levenberg 1944, Marquardt 1963), in units of the ranges. Values that stand at an end of their range
/// and would leave it stay out of the sums.
/// @param ranges  has range(i), a value's, and clamped(i, value)
template <class Ranges>
Eigen::VectorXd damped_step(const Ranges& ranges, const DampedStart& at, double damping) {
    Eigen::MatrixXd free = at.derivatives;
    Eigen::VectorXd slope = dense::transposed_product(at.derivatives, at.here);
    for (Eigen::Index i = 0; i < slope.size(); ++i) {
        const auto k = static_cast<std::size_t>(i);
        const double outward = at.values[k] - ranges.range(k) * (slope[i] > 0.0 ? 1e-9 : -1e-9);
        if (ranges.clamped(k, outward) == at.values[k]) {
            free.col(i).setZero();
            slope[i] = 0.0;
        }
    }
    const Eigen::Index n = slope.size();
    std::vector<double> gram(static_cast<std::size_t>(n * n));
    double largest = 0.0;
    for (Eigen::Index i = 0; i < n; ++i) {
        for (Eigen::Index k = 0; k < n; ++k) {
            gram[static_cast<std::size_t>(n * i + k)] = free.col(i).dot(free.col(k));
        }
        largest = std::max(largest, free.col(i).squaredNorm());
    }
    for (Eigen::Index i = 0; i < n; ++i) {
        gram[static_cast<std::size_t>((n + 1) * i)] += damping * largest + 1e-300;
    }
    slope = -slope;
    SmallSolver(gram, static_cast<std::size_t>(n)).solve({slope.data(), slope.data() + n});
    return slope;
}

}  // namespace samelight::detail
