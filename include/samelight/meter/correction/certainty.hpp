#pragma once
// How sure a corrected reading is: the covariance of the correction carried to any colour, and the regions that follow.
#include <array>
#include <cstddef>
#include <vector>

#include <Eigen/Core>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The factor by which a standard uncertainty grows to the half-width that holds the truth with probability `coverage`: Student's t,
/// the normal distribution's where the degrees of freedom are infinite. Range and exceptions as student_quantile.
/// Source: JCGM 100:2008, G.3.
SAMELIGHT_API double student_factor(double coverage, double degrees_of_freedom);

/// The same for x and y together: the ellipse of one standard uncertainty times this holds the truth with probability `coverage`.
/// The root of Hotelling's T squared, 2 n / (n - 1) F(2, n - 1) with n degrees of freedom; of chi squared where they are infinite.
/// Infinite for one degree of freedom or fewer: no ellipse will do. Throws Error (domain) for a coverage outside 0 to 1 or degrees of freedom
/// not above 0. Source: Hotelling 1931, The generalization of Student's ratio, Ann. Math. Stat. 2:360, eq. 25 (from memory).
SAMELIGHT_API double hotelling_factor(double coverage, double degrees_of_freedom);

/// How sure a corrected reading is.
struct SAMELIGHT_API Certainty {
    /// Corrected x, y.
    std::array<double, 2> xy{};
    /// Corrected Y, cd/m2.
    double luminance = 0.0;
    /// 3 x 3, row after row: of x, y and Y, Y relative; the variance of Y infinite where nobody said how Y scatters
    CovarianceMatrix<3> covariance{};
    /// Behind the covariance of x and y together.
    double xy_degrees_of_freedom = 0.0;
    double x_degrees_of_freedom = 0.0, y_degrees_of_freedom = 0.0,
           luminance_degrees_of_freedom = 0.0;

    /// The covariance of x and y, 2 x 2; a view of this, of a temporary a copy.
    [[nodiscard]] auto xy_covariance() const& {
        return Eigen::Map<const Eigen::Matrix2d, 0, Eigen::OuterStride<3>>(covariance.data());
    }
    [[nodiscard]] Eigen::Matrix2d xy_covariance() const&& {
        return static_cast<const Certainty&>(*this).xy_covariance();
    }
    /// Where the truth lies, x and y together, with probability `coverage`. Infinite axes where there are too few repeats to say.
    [[nodiscard]] Ellipse region(double coverage = 0.95) const;
    /// Whether the region holds this chromaticity.
    [[nodiscard]] bool region_contains(double x, double y, double coverage = 0.95) const;
    /// Half-widths of x, of y and of Y (relative), each by itself, with probability `coverage`; that of Y infinite where nobody said how Y scatters.
    [[nodiscard]] std::array<double, 3> half_widths(double coverage = 0.95) const;
};

namespace detail {

using Parameters3 = Eigen::Matrix<double, 3, 10, Eigen::RowMajor>;
using Readings3 = Eigen::Matrix<double, 3, 6, Eigen::RowMajor>;

/// Corrected x, y and ln Y of a meter reading, and how they move with the correction's ten parameters and with the reading itself.
struct CorrectedPoint {
    Eigen::Vector3d xy_ln_luminance;
    Parameters3 by_parameters;
    Readings3 by_reading;
};

CorrectedPoint corrected_point(const Correction& correction, const std::array<double, 3>& meter);

/// One part of an uncertainty: how the result moves with a reading of noise group `group`, over the root of the pairs averaged.
struct CarriedTerm {
    Readings3 by_reading;
    std::size_t group = 0;
};

/// The terms of a correction carried to a point; with `readings_averaged` above 0 also the noise of the reading that is corrected.
std::vector<CarriedTerm> carried_terms(const Correction& correction, const CorrectedPoint& point,
                                       double readings_averaged);

/// Degrees of freedom of a covariance that is a sum of parts with covariances estimated from few readings: those of the Wishart distribution
/// with the same total variance, for the rows `first` to `first + size - 1` of the result. For one independent quantity a part this is
/// Welch's and Satterthwaite's formula.
/// Source: Krishnamoorthy & Yu 2004, Modified Nel and Van der Merwe test for the multivariate Behrens-Fisher problem, Stat. Probab. Lett. 66:161,
/// eq. 8-9 (from memory), with the covariances between terms that share one estimate added.
/// @param size  1 or 2 rows
double effective_degrees_of_freedom(const std::vector<CarriedTerm>& terms,
                                    const std::vector<ReadingNoise>& noise,
                                    const Eigen::Matrix3d& total, Eigen::Index first,
                                    Eigen::Index size);

Eigen::Matrix3d total_covariance(const std::vector<CarriedTerm>& terms,
                                 const std::vector<ReadingNoise>& noise);

}  // namespace detail

/// How sure the corrected reading is where the meter reads `meter` (X, Y, Z, cd/m2), as far as the scatter of the readings and the rounding
/// of their digits go: what a matrix cannot correct, the reference's own error and drift are not in it.
///
/// It is the certainty of a later reading that says `meter` and is put through the matrix, not of the readings that the matrix is made from: where their
/// mean white is corrected exactly, white is still no surer than the means of both instruments there. In it are the scatter of those readings,
/// both instruments', less for every repeat, as x, y and Y of the repeats are averaged (Patch), and their rounding, which no repeat lessens. Not in it
/// is the scatter of the later reading itself, unless `readings_averaged` asks for it.
///
/// @param readings_averaged  0: the correction's uncertainty alone; n: also the scatter of the reading corrected, a mean of n
/// By first derivatives (JCGM 100:2008, 5.2), with the degrees of freedom that the repeats give. Error: second-order terms, below 1 % of the
/// standard uncertainty for noise up to .002 in x and y. For a correction from a file, which has no terms, the degrees of freedom are the
/// fewest of any part: on the safe side.
/// Throws Error (domain) where nothing is known about noise, or for a reading without light.
SAMELIGHT_API Certainty certainty(const Correction& correction, const std::array<double, 3>& meter,
                                  double readings_averaged = 0.0);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/correction/impl/certainty.ipp"
#endif
