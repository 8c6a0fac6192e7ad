#pragma once
// The bodies of meter/correction/fit_least_squares.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_four_colour.hpp"
#include "samelight/meter/correction/fit_least_squares.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/small_algebra.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE Eigen::Matrix3d xyz_by_xyY(const std::array<double, 3>& v) {
    const double x = v[0];
    const double y = v[1];
    const double Y = v[2];
    Eigen::Matrix3d d;
    d << Y / y, -x * Y / (y * y), x * Y / y,                      //
        0.0, 0.0, Y,                                              //
        -Y / y, -(1.0 - x) * Y / (y * y), (1.0 - x - y) * Y / y;  //
    return d;
}

SAMELIGHT_INLINE LeastSquaresSystem equations(const std::vector<TristimulusPair>& pairs,
                                              const TristimulusPair* exact) {
    const std::size_t size = exact != nullptr ? 12 : 9;
    LeastSquaresSystem s{size, std::vector<double>(size * size, 0.0), {}};
    const auto index = [](std::size_t i) { return static_cast<Eigen::Index>(i); };
    for (const TristimulusPair& p : pairs) {
        for (std::size_t i = 0; i < 9; ++i) {
            for (std::size_t k = 0; k < 9; ++k) {
                s.at(i, k) += p.weight(index(i / 3), index(k / 3)) *
                              (p.meter[index(i % 3)] * p.meter[index(k % 3)]);
            }
            for (std::size_t k = 0; k < 3; ++k) {
                s.right.at(i) += p.weight(index(i / 3), index(k)) * p.reference[index(k)] *
                                 p.meter[index(i % 3)];
            }
        }
    }
    for (std::size_t i = 0; exact != nullptr && i < 3; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            s.at(9 + i, 3 * i + k) = s.at(3 * i + k, 9 + i) = exact->meter[index(k)];
        }
        s.right.at(9 + i) = exact->reference[index(i)];
    }
    return s;
}

/// The unknowns: nine elements, and three multipliers where white is exact.
using Unknowns = std::array<double, 12>;

inline Eigen::Matrix3d as_matrix(const Unknowns& elements) {
    return Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(elements.data());
}

/// Change of the right-hand side less change of the matrix times the solution, for a change of one pair's m and r.
inline Unknowns moved_right(const TristimulusPair& p, const Eigen::Matrix3d& m,
                            const Eigen::Vector3d* multipliers, const Eigen::Vector3d& meter_moved,
                            const Eigen::Vector3d& reference_moved) {
    Eigen::Matrix3d change = dense::product(
        p.weight,
        dense::product_transposed(reference_moved, p.meter) +
            dense::product_transposed(p.reference - dense::times_3x3(m, p.meter), meter_moved) -
            dense::product_transposed(dense::times_3x3(m, meter_moved), p.meter));
    Unknowns right{};
    if (multipliers != nullptr) {
        change -= dense::product_transposed(*multipliers, meter_moved);
        const Eigen::Vector3d missing = reference_moved - m * meter_moved;
        std::copy(missing.begin(), missing.end(), right.begin() + 9);
    }
    Eigen::Map<Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(right.data()) = change;
    return right;
}

/// Splits M into the matrix that keeps the sum of `white` (x, y, 1 - x - y) and the factor: their derivatives by those of M.
inline Eigen::Matrix<double, 10, 1> split_derivative(const Eigen::Matrix3d& m,
                                                     const Eigen::Vector3d& white,
                                                     const Eigen::Matrix3d& moved) {
    const double factor = (m * white).sum();
    const double relative = (moved * white).sum() / factor;
    Eigen::Matrix<double, 10, 1> result;
    result.head<9>() = row_after_row((moved - relative * m) / factor);
    result[9] = relative;
    return result;
}

SAMELIGHT_INLINE Eigen::Matrix3d residual_covariance(const TristimulusPair& p,
                                                     const Eigen::Matrix3d& m,
                                                     const ReadingNoise& noise, double count) {
    using Rows = Eigen::Matrix<double, 3, 6, Eigen::RowMajor>;
    Rows by_reading;
    by_reading.leftCols<3>() = -m * p.meter_by_xyY;
    by_reading.rightCols<3>() = p.reference_by_xyY;
    const std::span<const double> numbers(by_reading.data(), 18);
    std::array<double, 9> result{};
    add_carried(numbers, noise.covariance, numbers, 1.0 / count, result);
    return Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(result.data());
}

SAMELIGHT_INLINE ReadingNoise for_weights(const ReadingNoise& noise) {
    ReadingNoise simple;
    simple.degrees_of_freedom = noise.degrees_of_freedom;
    const auto c = noise.matrix();
    for (Eigen::Index k = 0; k < 6; k += 3) {
        const auto at = [](Eigen::Index i) { return static_cast<std::size_t>(7 * i); };
        const double chromaticity = 0.5 * (c(k, k) + c(k + 1, k + 1));
        simple.covariance[at(k)] = simple.covariance[at(k + 1)] = chromaticity;
        simple.covariance[at(k + 2)] = c(k + 2, k + 2);
    }
    return simple;
}

SAMELIGHT_INLINE void weigh(std::vector<TristimulusPair>& pairs, const Eigen::Matrix3d& m,
                            const std::vector<const Patch*>& patches,
                            const std::vector<ReadingNoise>& noise) {
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        const Eigen::Matrix3d c =
            residual_covariance(pairs[i], m, noise[i], static_cast<double>(patches[i]->count()));
        const Eigen::Vector3d sd = c.diagonal().cwiseSqrt();
        const Eigen::Matrix3d correlation =
            sd.cwiseInverse().asDiagonal() * c * sd.cwiseInverse().asDiagonal();
        if (!(sd.minCoeff() > 0.0) || !(correlation.determinant() > 1e-12)) {
            throw Error(ErrorKind::singular, "weighted fit",
                        "patch " + patches[i]->name +
                            ", whose readings' scatter does not fill three dimensions",
                        "repeats that differ, or stated noise above 0 in x, y and Y");
        }
        pairs[i].weight = dense::inverse_3x3(c);
    }
}

SAMELIGHT_INLINE MatrixFit fit_least_squares(const std::vector<const Patch*>& patches,
                                             const LeastSquaresWishes& wishes) {
    std::vector<TristimulusPair> pairs;
    for (const Patch* patch : patches) {
        pairs.push_back({xyz_column(patch->meter), xyz_column(patch->reference),
                         xyz_by_xyY(patch->meter), xyz_by_xyY(patch->reference)});
    }
    const TristimulusPair* exact = wishes.exact ? &pairs[*wishes.exact] : nullptr;
    MatrixFit fit;
    LeastSquaresSystem system = equations(pairs, exact);
    SmallSolver solver(system.matrix, system.size);
    Unknowns solution = system.right;
    solver.solve(std::span(solution).first(system.size));
    for (int round = 0; !wishes.weights_from.empty() && round < most_weighting_rounds; ++round) {
        const Eigen::Matrix3d before = as_matrix(solution);
        weigh(pairs, before, patches, wishes.weights_from);
        system = equations(pairs, exact);
        solver = SmallSolver(system.matrix, system.size);
        solution = system.right;
        solver.solve(std::span(solution).first(system.size));
        const Eigen::Matrix3d now = as_matrix(solution);
        fit.converged = (now - before).norm() <= 1e-12 * now.norm();
        if (fit.converged) {
            break;
        }
    }
    const Eigen::Matrix3d m = as_matrix(solution);
    fit.luminance_factor = (m * wishes.keep_sum_of).sum();
    fit.reference_from_meter = m / fit.luminance_factor;
    if (wishes.derivatives == Derivatives::no) {
        return fit;
    }
    const Eigen::Vector3d multipliers(solution[9], solution[10], solution[11]);
    for (const TristimulusPair& p : pairs) {
        NoiseTerm::Matrix by_reading;
        for (Eigen::Index k = 0; k < 6; ++k) {
            const Eigen::Vector3d moved =
                k < 3 ? p.meter_by_xyY.col(k) : p.reference_by_xyY.col(k - 3);
            const Eigen::Vector3d none = Eigen::Vector3d::Zero();
            Unknowns change = moved_right(p, m, &p == exact ? &multipliers : nullptr,
                                          k < 3 ? moved : none, k < 3 ? none : moved);
            solver.solve(std::span(change).first(system.size));
            by_reading.col(k) = split_derivative(m, wishes.keep_sum_of, as_matrix(change));
        }
        fit.by_patch.push_back(by_reading);
    }
    return fit;
}

}  // namespace samelight::detail
