#pragma once
// The bodies of meter/correction/fit_four_colour.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_four_colour.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE Eigen::Matrix<double, 9, 1> row_after_row(const Eigen::Matrix3d& m) {
    Eigen::Matrix<double, 9, 1> result;
    for (Eigen::Index i = 0; i < 9; ++i) {
        result[i] = m(i / 3, i % 3);
    }
    return result;
}

SAMELIGHT_INLINE ColourTriangle colour_triangle(const Eigen::Matrix3d& primaries,
                                                const Eigen::Vector3d& white) {
    const Eigen::Matrix3d inverse = dense::inverse_3x3(primaries);
    return {primaries, inverse, dense::times_3x3(inverse, white)};
}

/// primaries diag(amount) of the reference times the inverse of the meter's.
inline Eigen::Matrix3d four_colour_matrix(const ColourTriangle& reference,
                                          const ColourTriangle& meter) {
    const Eigen::Vector3d ratio = reference.amount.cwiseQuotient(meter.amount);
    return reference.primaries * ratio.asDiagonal() * meter.inverse;
}

/// Derivative of the matrix by one chromaticity of one side. `column` 0 to 2 is a primary, 3 white; `moved` the column's change.
inline Eigen::Matrix3d four_colour_derivative(const ColourTriangle& reference,
                                              const ColourTriangle& meter,
                                              const Eigen::Matrix3d& matrix, Instrument side,
                                              Eigen::Index column, const Eigen::Vector3d& moved) {
    const ColourTriangle& t = side == Instrument::meter ? meter : reference;
    // amount = primaries^-1 white, so its change is primaries^-1 (change of white - change of primaries * amount).
    const Eigen::Vector3d amount_moved =
        t.inverse * moved * (column == 3 ? 1.0 : -t.amount[column]);
    Eigen::Vector3d ratio_moved = amount_moved.cwiseQuotient(meter.amount);
    if (side == Instrument::meter) {
        ratio_moved = -ratio_moved.cwiseProduct(reference.amount.cwiseQuotient(meter.amount));
    }
    Eigen::Matrix3d result = reference.primaries * ratio_moved.asDiagonal() * meter.inverse;
    if (column < 3 && side == Instrument::meter) {
        result -= matrix * moved * meter.inverse.row(column);
    } else if (column < 3) {
        const double ratio = reference.amount[column] / meter.amount[column];
        result += ratio * moved * meter.inverse.row(column);
    }
    return result;
}

/// Sum X + Y + Z of the reference over that of the meter: what a matrix that keeps the sum of white must be multiplied by.
inline double white_sum_ratio(const Patch& white) {
    return (white.reference[2] / white.reference[1]) / (white.meter[2] / white.meter[1]);
}

/// Derivatives of the relative luminance factor by the white's means; columns as in ReadingNoise.
inline Eigen::Matrix<double, 1, 6> white_sum_derivative(const Patch& white) {
    Eigen::Matrix<double, 1, 6> d;
    d << 0.0, 1.0 / white.meter[1], -1.0, 0.0, -1.0 / white.reference[1], 1.0;
    return d;
}

inline void require_inside(const ColourTriangle& triangle, Instrument instrument) {
    if (!(triangle.amount.minCoeff() > 0.001)) {
        throw Error(ErrorKind::singular, "four-colour fit",
                    "a white that, by the " + std::string(code_of(instrument)) +
                        ", is not inside the triangle of red, green and blue (least share " +
                        to_text(triangle.amount.minCoeff(), 4) + ")",
                    "red, green, blue and white of one display, under their names");
    }
}

SAMELIGHT_INLINE MatrixFit fit_four_colour(const std::vector<const Patch*>& rgbw,
                                           Derivatives derivatives) {
    std::array<ColourTriangle, 2> side;
    for (const Instrument instrument : {Instrument::reference, Instrument::meter}) {
        Eigen::Matrix3d primaries;
        for (Eigen::Index k = 0; k < 3; ++k) {
            primaries.col(k) =
                chromaticity_column(rgbw[static_cast<std::size_t>(k)]->of(instrument));
        }
        ColourTriangle& t = side.at(instrument == Instrument::meter ? 1 : 0);
        t = colour_triangle(primaries, chromaticity_column(rgbw[3]->of(instrument)));
        require_inside(t, instrument);
    }
    MatrixFit fit;
    fit.reference_from_meter = four_colour_matrix(side[0], side[1]);
    fit.luminance_factor = white_sum_ratio(*rgbw[3]);
    if (derivatives == Derivatives::no) {
        return fit;
    }
    const std::array<Eigen::Vector3d, 2> moved = {Eigen::Vector3d(1, 0, -1),
                                                  Eigen::Vector3d(0, 1, -1)};
    for (Eigen::Index column = 0; column < 4; ++column) {
        NoiseTerm::Matrix by_reading = NoiseTerm::Matrix::Zero();
        for (Eigen::Index k = 0; k < 2; ++k) {
            const auto derivative = [&](Instrument instrument) {
                return row_after_row(
                    four_colour_derivative(side[0], side[1], fit.reference_from_meter, instrument,
                                           column, moved[static_cast<std::size_t>(k)]));
            };
            by_reading.col(k).head<9>() = derivative(Instrument::meter);
            by_reading.col(3 + k).head<9>() = derivative(Instrument::reference);
        }
        if (column == 3) {
            by_reading.row(9) = white_sum_derivative(*rgbw[3]);
        }
        fit.by_patch.push_back(by_reading);
    }
    return fit;
}

SAMELIGHT_INLINE MatrixFit fit_white_only(const Patch& white) {
    const Eigen::Vector3d d =
        chromaticity_column(white.reference) - chromaticity_column(white.meter);
    MatrixFit fit;
    fit.reference_from_meter = Eigen::Matrix3d::Identity() + d * Eigen::RowVector3d::Ones();
    fit.luminance_factor = white_sum_ratio(white);
    NoiseTerm::Matrix by_reading = NoiseTerm::Matrix::Zero();
    const std::array<Eigen::Vector3d, 2> moved = {Eigen::Vector3d(1, 0, -1),
                                                  Eigen::Vector3d(0, 1, -1)};
    for (Eigen::Index k = 0; k < 2; ++k) {
        const auto derivative =
            row_after_row(moved[static_cast<std::size_t>(k)] * Eigen::RowVector3d::Ones());
        by_reading.col(k).head<9>() = -derivative;
        by_reading.col(3 + k).head<9>() = derivative;
    }
    by_reading.row(9) = white_sum_derivative(white);
    fit.by_patch.push_back(by_reading);
    return fit;
}

}  // namespace samelight::detail
