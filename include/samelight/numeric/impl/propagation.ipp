#pragma once
// The bodies of numeric/propagation.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/propagation.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Covariance propagate(const Eigen::Ref<const Eigen::MatrixXd>& jacobian,
                                      const Covariance& covariance) {
    if (jacobian.cols() != covariance.size() || jacobian.rows() < 1) {
        throw Error(ErrorKind::shape, "propagate",
                    std::to_string(jacobian.rows()) + " x " + std::to_string(jacobian.cols()) +
                        " derivatives for " + std::to_string(covariance.size()) + " quantities",
                    "a row of derivatives for each result, one for each quantity");
    }
    Eigen::MatrixXd symmetric = dense::carried(jacobian, covariance.matrix());
    const Eigen::VectorXd largest =
        dense::carried(jacobian.cwiseAbs(), covariance.matrix().cwiseAbs()).diagonal();
    // Rounding can leave a variance that should be 0 a little below.
    for (Eigen::Index i = 0; i < symmetric.rows(); ++i) {
        if (symmetric(i, i) < 0.0 && symmetric(i, i) >= -1e-13 * largest[i]) {
            symmetric(i, i) = 0.0;
        }
    }
    return Covariance(symmetric);
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE SimulatedOutput simulated_output(std::vector<double> values, double mean_value,
                                                  double standard, double coverage) {
    std::sort(values.begin(), values.end());
    const std::size_t n = values.size();
    const auto q = std::min(
        static_cast<std::size_t>(std::floor(coverage * static_cast<double>(n) + 0.5)), n - 1);
    const std::size_t middle = (n - q) / 2;
    std::size_t best = 0;
    for (std::size_t r = 1; r + q < n; ++r) {
        if (values[r + q] - values[r] < values[best + q] - values[best]) {
            best = r;
        }
    }
    return {mean_value,
            standard,
            {values[std::min(middle, n - 1 - q)], values[std::min(middle + q, n - 1)]},
            {values[best], values[best + q]}};
}

}  // namespace samelight::detail
