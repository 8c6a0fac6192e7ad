#pragma once
// Corrections from chromaticities alone: the four-colour method, and one white.
#include <array>
#include <vector>

#include <Eigen/Core>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// What a method makes of the patches' means: the matrix, the luminance factor, and how both move with the mean of each patch used.
struct MatrixFit {
    Eigen::Matrix3d reference_from_meter;
    double luminance_factor = 1.0;
    /// In the order of the patches used.
    std::vector<NoiseTerm::Matrix> by_patch;
    bool converged = true;
};

/// Whether a fit also works out how the matrix moves with the readings.
enum class Derivatives { yes, no };

/// x, y, 1 - x - y.
inline Eigen::Vector3d chromaticity_column(const std::array<double, 3>& xyY) {
    return {xyY[0], xyY[1], 1.0 - xyY[0] - xyY[1]};
}

/// The nine elements row after row.
Eigen::Matrix<double, 9, 1> row_after_row(const Eigen::Matrix3d& m);

/// One instrument's side of the four-colour method: chromaticities of red, green, blue and the amounts of each that make white's.
struct ColourTriangle {
    /// Columns x, y, 1 - x - y.
    Eigen::Matrix3d primaries;
    Eigen::Matrix3d inverse;
    /// Inverse times white: shares of the sum X + Y + Z.
    Eigen::Vector3d amount;
};

ColourTriangle colour_triangle(const Eigen::Matrix3d& primaries, const Eigen::Vector3d& white);

/// Red, green, blue and white in this order.
SAMELIGHT_API MatrixFit fit_four_colour(const std::vector<const Patch*>& rgbw,
                                        Derivatives derivatives);

/// One white: x and y moved by the difference of the instruments there. In X, Y, Z that is the matrix 1 + d (1 1 1), d the
/// difference of the chromaticity columns, which sums to 0.
MatrixFit fit_white_only(const Patch& white);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/correction/impl/fit_four_colour.ipp"
#endif
