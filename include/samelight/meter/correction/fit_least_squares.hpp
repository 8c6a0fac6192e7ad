#pragma once
// Corrections by least squares on tristimulus values: ordinary, weighted, with white exact; three colours are the exact case.
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include <Eigen/Core>

#include "samelight/meter/correction/fit_four_colour.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// Derivatives of X, Y, Z by x, y and relative Y: 3 x 3.
Eigen::Matrix3d xyz_by_xyY(const std::array<double, 3>& v);

inline Eigen::Vector3d xyz_column(const std::array<double, 3>& xyY) {
    return chromaticity_column(xyY) * (xyY[2] / xyY[1]);
}

/// One patch as least squares sees it: r should be M m.
struct TristimulusPair {
    Eigen::Vector3d meter, reference;
    Eigen::Matrix3d meter_by_xyY, reference_by_xyY;
    Eigen::Matrix3d weight = Eigen::Matrix3d::Identity();
};

/// The linear equations for the nine elements of M, row after row, and where white is exact for the three multipliers of that condition:
/// sum of W (r - M m) m^T = multipliers white^T, M white = white of the reference.
struct LeastSquaresSystem {
    /// 9 or 12
    std::size_t size;
    /// Size x size, row after row.
    std::vector<double> matrix;
    std::array<double, 12> right{};

    double& at(std::size_t row, std::size_t column) { return matrix[row * size + column]; }
};

LeastSquaresSystem equations(const std::vector<TristimulusPair>& pairs,
                             const TristimulusPair* exact);

/// Covariance of the residual r - M m of one pair of readings, in X, Y, Z, divided by the pairs averaged.
Eigen::Matrix3d residual_covariance(const TristimulusPair& p, const Eigen::Matrix3d& m,
                                    const ReadingNoise& noise, double count);

/// The noise that weights are made of: for each instrument one variance for x and y and one for relative Y, without covariances. Few repeats settle
/// these; weights from the whole matrix would follow its chance, and the fit would look surer than it is.
ReadingNoise for_weights(const ReadingNoise& noise);

/// Makes each pair's weight the inverse of its residual's covariance.
void weigh(std::vector<TristimulusPair>& pairs, const Eigen::Matrix3d& m,
           const std::vector<const Patch*>& patches, const std::vector<ReadingNoise>& noise);

/// The weights depend on the matrix, a little: a few rounds settle it, and no more than this are tried.
inline constexpr int most_weighting_rounds = 50;

struct LeastSquaresWishes {
    /// One a patch; empty: all patches alike.
    std::vector<ReadingNoise> weights_from = {};
    /// Index of the patch that must be exact.
    std::optional<std::size_t> exact = {};
    /// Chromaticity that scales the matrix.
    Eigen::Vector3d keep_sum_of = {1.0 / 3, 1.0 / 3, 1.0 / 3};
    Derivatives derivatives = Derivatives::yes;
};

SAMELIGHT_API MatrixFit fit_least_squares(const std::vector<const Patch*>& patches,
                                          const LeastSquaresWishes& wishes);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/correction/impl/fit_least_squares.ipp"
#endif
