#pragma once
// The bodies of numeric/minimum/damped_least_squares.hpp.

#include <algorithm>
#include <cstddef>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/minimum/damped_least_squares.hpp"
#include "samelight/numeric/small_algebra.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE Eigen::VectorXd damped_step(const BoundedValues& bounds,
                                             const std::vector<double>& values,
                                             const Eigen::MatrixXd& derivatives,
                                             const Eigen::VectorXd& residuals, double damping) {
    Eigen::MatrixXd free = derivatives;
    Eigen::VectorXd slope = dense::transposed_product(derivatives, residuals);
    for (Eigen::Index i = 0; i < slope.size(); ++i) {
        const auto at = static_cast<std::size_t>(i);
        const double outward = values[at] - bounds.range(at) * (slope[i] > 0.0 ? 1e-9 : -1e-9);
        if (bounds.clamped(at, outward) == values[at]) {
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
