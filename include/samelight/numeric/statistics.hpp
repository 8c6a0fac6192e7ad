#pragma once
// Mean and covariance of samples, and the ellipse of a covariance.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <span>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight {

/// The radius, in standard deviations, of the circle around the mean that holds the share `coverage` of a normal distribution in a
/// plane with the same spread in every direction: the root of chi squared with two degrees of freedom, sqrt(-2 ln(1 - coverage)).
/// Range: 0 < coverage < 1. Error: below 1e-15 relative. Throws Error (domain). Source: JCGM 102:2011, 6.5.2.4 (from memory).
inline double plane_radius(double coverage) {
    detail::require_probability("plane_radius", coverage);
    return std::sqrt(-2.0 * std::log1p(-coverage));
}

/// sample_quantile for a percentage, 0 to 100: percentile(values, 50) is the median.
inline double percentile(std::span<const double> values, double percent) {
    return sample_quantile(values, percent / 100.0);
}

/// The arithmetic mean of n >= 1 values. Error: rounding, below n times 1e-16 of the largest. Throws Error (shape) for none.
inline double mean(std::span<const double> values) {
    if (values.empty()) {
        throw Error(ErrorKind::shape, "mean", "no values", "at least one");
    }
    double sum = 0.0;
    for (const double value : values) {
        sum += value;
    }
    return sum / static_cast<double>(values.size());
}

/// Variances and covariances of k quantities: a symmetric k x k matrix in the squared units of the quantities.
class Covariance {
  public:
    using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

    /// Takes a k x k matrix, k >= 1: finite, no negative variance, symmetric to 1e-12 of the root of the product of the two
    /// variances; what little asymmetry there is is averaged out. Throws Error (shape or domain).
    explicit Covariance(const Eigen::Ref<const Eigen::MatrixXd>& matrix)
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

    [[nodiscard]] int size() const noexcept { return size_; }
    /// k x k. Valid as long as this object is.
    [[nodiscard]] Eigen::Map<const Matrix> matrix() const { return {values_.data(), size_, size_}; }
    /// One entry; 0 <= i, j < size().
    [[nodiscard]] double operator()(int i, int j) const {
        return values_.at(static_cast<std::size_t>(i * size_ + j));
    }
    /// The root of a variance: a standard deviation, or a standard uncertainty; 0 <= i < size().
    [[nodiscard]] double standard(int i) const { return std::sqrt((*this)(i, i)); }
    /// The correlation of two quantities, -1 to 1; NaN where one of them doesn't vary.
    [[nodiscard]] double correlation(int i, int j) const {
        return (*this)(i, j) / (standard(i) * standard(j));
    }
    /// `factor` (>= 0) times this: 1/n makes the covariance of means of n readings. Throws Error (domain) as the constructor.
    [[nodiscard]] Covariance scaled(double factor) const { return Covariance(factor * matrix()); }

    friend bool operator==(const Covariance&, const Covariance&) = default;

  private:
    int size_;
    std::vector<double> values_;
};

/// Mean and covariance of k quantities that were observed together.
struct Moments {
    std::size_t count;         ///< observations
    std::vector<double> mean;  ///< k
    Covariance covariance;     ///< k x k, of a single observation
};

/// Mean and covariance of a sample. rows: N x k, an observation a row, N >= 2, k >= 1. The sums of products of the deviations
/// from the mean are divided by N - 1. Error: below N times 1e-15 of the variances. Throws Error (shape) for too few rows or no
/// column and Error (domain) for values that are not finite. Source: JCGM 100:2008, 4.2.2 and 5.2.3 (there for means: divided
/// by N again).
inline Moments moments(const Eigen::Ref<const Eigen::MatrixXd>& rows) {
    if (rows.rows() < 2 || rows.cols() < 1) {
        throw Error(ErrorKind::shape, "moments",
                    std::to_string(rows.rows()) + " observations of " +
                        std::to_string(rows.cols()) + " quantities",
                    "at least two observations of one quantity");
    }
    const Eigen::RowVectorXd means = rows.colwise().mean();
    const Eigen::MatrixXd deviations = rows.rowwise() - means;
    const Eigen::MatrixXd products =
        deviations.transpose() * deviations / static_cast<double>(rows.rows() - 1);
    return {
        static_cast<std::size_t>(rows.rows()), {means.begin(), means.end()}, Covariance(products)};
}

/// The same for two quantities, n values each. Throws as above, and Error (shape) for different lengths.
inline Moments moments(std::span<const double> first, std::span<const double> second) {
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

/// An ellipse in the plane of two quantities of one unit.
struct Ellipse {
    std::array<double, 2> centre;
    double semi_major;  ///< unit of the quantities
    double semi_minor;
    double
        angle_deg;  ///< of the major axis from the first quantity's axis towards the second's, above -90 to 90
    double coverage;  ///< share of a normal distribution that lies inside

    [[nodiscard]] double area() const { return std::numbers::pi * semi_major * semi_minor; }

    /// True where the point lies inside or on the ellipse; for one of no width, where it is the centre or on the line.
    [[nodiscard]] bool contains(double first, double second) const {
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
};

/// The ellipse that holds the share `coverage` of a normal distribution with this centre and covariance, both known.
/// covariance: 2 x 2, positive semi-definite to 1e-12. Range: 0 < coverage < 1. Error: below 1e-12 of the major axis; the angle
/// of a circle is 0. Throws Error (shape or domain). The axes are the roots of the eigenvalues times the root of chi squared
/// with 2 degrees of freedom. Source: JCGM 102:2011, 6.5.2 and 7.7.2 (from memory).
inline Ellipse coverage_ellipse(const std::array<double, 2>& centre, const Covariance& covariance,
                                double coverage) {
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
