#pragma once
// Mean and covariance of samples, and the ellipse of a covariance.
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/quantile.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The radius, in standard deviations, of the circle around the mean that holds the share `coverage` of a normal distribution in a
/// plane with the same spread in every direction: the root of chi squared with two degrees of freedom, sqrt(-2 ln(1 - coverage)).
/// Range: 0 < coverage < 1. Error: below 1e-15 relative. Throws Error (domain). Source: JCGM 102:2011, 6.5.2.4 (from memory).
SAMELIGHT_API double plane_radius(double coverage);

/// sample_quantile for a percentage, 0 to 100: percentile(values, 50) is the median. In the unit of the values. Range and
/// exceptions as there. Source: as sample_quantile.
inline double percentile(std::span<const double> values, double percent) {
    return sample_quantile(values, percent / 100.0);
}

/// The arithmetic mean of n >= 1 values. Error: rounding, below n times 1e-16 of the largest. Throws Error (shape) for none. Unit: the
/// values'. Source: JCGM 100:2008, 4.2.1 (from memory).
SAMELIGHT_API double mean(std::span<const double> values);

/// Variances and covariances of k quantities: a symmetric k x k matrix in the squared units of the quantities.
class SAMELIGHT_API Covariance {
  public:
    using Matrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

    /// Takes a k x k matrix, k >= 1: finite, no negative variance, symmetric to 1e-12 of the root of the product of the two
    /// variances; what little asymmetry there is is averaged out. Throws Error (shape or domain).
    explicit Covariance(const Eigen::Ref<const Eigen::MatrixXd>& matrix);

    /// How many quantities there are.
    [[nodiscard]] int size() const noexcept { return size_; }
    /// k x k. Valid as long as this object is.
    [[nodiscard]] Matrix matrix() const&& { return static_cast<const Covariance&>(*this).matrix(); }
    [[nodiscard]] Eigen::Map<const Matrix> matrix() const& {
        return {values_.data(), size_, size_};
    }
    /// One entry; 0 <= i, j < size(). Unit: the product of the two quantities'. Throws std::out_of_range beyond the last entry.
    [[nodiscard]] double operator()(int i, int j) const {
        return values_.at(static_cast<std::size_t>(i * size_ + j));
    }
    /// The root of a variance: a standard deviation, or a standard uncertainty; 0 <= i < size().
    [[nodiscard]] double standard(int i) const { return std::sqrt((*this)(i, i)); }
    /// The correlation of two quantities, -1 to 1; NaN where one of them doesn't vary. No unit.
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
    /// Observations.
    std::size_t count;
    /// k
    std::vector<double> mean;
    /// k x k, of a single observation
    Covariance covariance;
};

/// Mean and covariance of a sample. rows: N x k, an observation a row, N >= 2, k >= 1. The sums of products of the deviations
/// from the mean are divided by N - 1. Error: below N times 1e-15 of the variances. Throws Error (shape) for too few rows or no
/// column and Error (domain) for values that are not finite. Source: JCGM 100:2008, 4.2.2 and 5.2.3 (there for means: divided
/// by N again).
SAMELIGHT_API Moments moments(const Eigen::Ref<const Eigen::MatrixXd>& rows);

/// The same for two quantities, n values each. Throws as above, and Error (shape) for different lengths. Source: as above.
SAMELIGHT_API Moments moments(std::span<const double> first, std::span<const double> second);

/// An ellipse in the plane of two quantities of one unit.
struct SAMELIGHT_API Ellipse {
    std::array<double, 2> centre;
    /// Unit of the quantities.
    double semi_major;
    double semi_minor;
    /// Of the major axis from the first quantity's axis towards the second's, above -90 to 90.
    double angle_deg;
    /// Share of a normal distribution that lies inside.
    double coverage;

    /// In the squared unit of the quantities.
    [[nodiscard]] double area() const { return std::numbers::pi * semi_major * semi_minor; }

    /// True where the point lies inside or on the ellipse; for one of no width, where it is the centre or on the line. In their unit.
    [[nodiscard]] bool contains(double first, double second) const;
};

/// The ellipse that holds the share `coverage` of a normal distribution with this centre and covariance, both known.
/// covariance: 2 x 2, positive semi-definite to 1e-12. Range: 0 < coverage < 1. Error: below 1e-12 of the major axis; the angle
/// of a circle is 0. Throws Error (shape or domain). The axes are the roots of the eigenvalues times the root of chi squared
/// with 2 degrees of freedom. Source: JCGM 102:2011, 6.5.2 and 7.7.2 (from memory).
SAMELIGHT_API Ellipse coverage_ellipse(const std::array<double, 2>& centre,
                                       const Covariance& covariance, double coverage);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/numeric/impl/statistics.ipp"
#endif
