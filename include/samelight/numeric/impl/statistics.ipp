#pragma once
// The bodies of numeric/statistics.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <span>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double plane_radius(double coverage) {
    detail::require_probability("plane_radius", coverage);
    return std::sqrt(-2.0 * std::log1p(-coverage));
}

SAMELIGHT_INLINE double mean(std::span<const double> values) {
    if (values.empty()) {
        throw Error(ErrorKind::shape, "mean", "no values", "at least one");
    }
    double sum = 0.0;
    for (const double value : values) {
        sum += value;
    }
    return sum / static_cast<double>(values.size());
}

SAMELIGHT_INLINE Covariance::Covariance(const Eigen::Ref<const Eigen::MatrixXd>& matrix)
    : size_(static_cast<int>(matrix.rows())) {
    if (matrix.rows() != matrix.cols() || matrix.rows() < 1) {
        throw Error(
            ErrorKind::shape, "Covariance",
            std::to_string(matrix.rows()) + " x " + std::to_string(matrix.cols()) + " numbers",
            "a square matrix");
    }
    values_.reserve(static_cast<std::size_t>(matrix.size()));
    for (Eigen::Index i = 0; i < matrix.rows(); ++i) {
        for (Eigen::Index j = 0; j < matrix.cols(); ++j) {
            const double scale = std::sqrt(matrix(i, i) * matrix(j, j));
            if (!std::isfinite(matrix(i, j)) || !(matrix(i, i) >= 0.0) ||
                !(std::abs(matrix(i, j) - matrix(j, i)) <= 1e-12 * scale)) {
                throw Error(ErrorKind::domain, "Covariance",
                            "entry " + std::to_string(i + 1) + ", " + std::to_string(j + 1) +
                                " is " + to_text(matrix(i, j)),
                            "finite, symmetric entries and no negative variance");
            }
            values_.push_back(0.5 * (matrix(i, j) + matrix(j, i)));
        }
    }
}

SAMELIGHT_INLINE Moments moments(const Eigen::Ref<const Eigen::MatrixXd>& rows) {
    if (rows.rows() < 2 || rows.cols() < 1) {
        throw Error(ErrorKind::shape, "moments",
                    std::to_string(rows.rows()) + " observations of " +
                        std::to_string(rows.cols()) + " quantities",
                    "at least two observations of one quantity");
    }
    const Eigen::RowVectorXd means = rows.colwise().mean();
    const Eigen::MatrixXd deviations = rows.rowwise() - means;
    const Eigen::MatrixXd products =
        dense::transposed_product(deviations, deviations) / static_cast<double>(rows.rows() - 1);
    return {
        static_cast<std::size_t>(rows.rows()), {means.begin(), means.end()}, Covariance(products)};
}

SAMELIGHT_INLINE Moments moments(std::span<const double> first, std::span<const double> second) {
    if (first.size() != second.size()) {
        throw Error(
            ErrorKind::shape, "moments",
            std::to_string(first.size()) + " and " + std::to_string(second.size()) + " values",
            "equal counts");
    }
    const auto n = static_cast<Eigen::Index>(first.size());
    Eigen::MatrixXd rows(n, 2);
    rows.col(0) = Eigen::Map<const Eigen::VectorXd>(first.data(), n);
    rows.col(1) = Eigen::Map<const Eigen::VectorXd>(second.data(), n);
    return moments(rows);
}

SAMELIGHT_INLINE bool Ellipse::contains(double first, double second) const {
    const double angle = angle_deg * (std::numbers::pi / 180.0);
    const double dx = first - centre[0];
    const double dy = second - centre[1];
    const double along = std::cos(angle) * dx + std::sin(angle) * dy;
    const double across = std::cos(angle) * dy - std::sin(angle) * dx;
    const double a = along * semi_minor;
    const double b = across * semi_major;
    const double c = semi_major * semi_minor;
    return a * a + b * b <= c * c && std::abs(along) <= semi_major &&
           std::abs(across) <= semi_minor;
}

SAMELIGHT_INLINE Ellipse coverage_ellipse(const std::array<double, 2>& centre,
                                          const Covariance& covariance, double coverage) {
    if (covariance.size() != 2) {
        throw Error(ErrorKind::shape, "coverage_ellipse",
                    "a covariance of " + std::to_string(covariance.size()) + " quantities", "two");
    }
    const double sum = 0.5 * (covariance(0, 0) + covariance(1, 1));
    const double difference = 0.5 * (covariance(0, 0) - covariance(1, 1));
    const double product = covariance(0, 1);
    const double radius = std::hypot(difference, product);
    if (!(radius <= sum * (1.0 + 1e-12))) {
        throw Error(ErrorKind::domain, "coverage_ellipse",
                    "covariance " + to_text(product) + " of variances " +
                        to_text(covariance(0, 0)) + " and " + to_text(covariance(1, 1)),
                    "a covariance no larger than the root of their product");
    }
    // The lesser eigenvalue by the determinant: sum - radius would cancel for a narrow ellipse.
    const double major = sum + radius;
    const double determinant = covariance(0, 0) * covariance(1, 1) - product * product;
    const double minor = major > 0.0 ? std::max(determinant, 0.0) / major : 0.0;
    const double factor = plane_radius(coverage);
    const double angle = 0.5 * std::atan2(product, difference) * (180.0 / std::numbers::pi);
    return {centre, factor * std::sqrt(major), factor * std::sqrt(minor), angle, coverage};
}

}  // namespace samelight
