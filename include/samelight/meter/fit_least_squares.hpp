#pragma once
// Corrections by least squares on tristimulus values: ordinary, weighted, with white exact; three colours are the exact case.
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/LU>

#include "samelight/meter/fit_four_colour.hpp"
#include "samelight/meter/noise.hpp"
#include "samelight/meter/readings.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {

namespace detail {

/// Derivatives of X, Y, Z by x, y and relative Y: 3 x 3.
inline Eigen::Matrix3d xyz_by_xyY(const std::array<double, 3>& v) {
    const double x = v[0];
    const double y = v[1];
    const double Y = v[2];
    Eigen::Matrix3d d;
    d << Y / y, -x * Y / (y * y), x * Y / y,                      //
        0.0, 0.0, Y,                                              //
        -Y / y, -(1.0 - x) * Y / (y * y), (1.0 - x - y) * Y / y;  //
    return d;
}

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
    Eigen::MatrixXd matrix;
    Eigen::VectorXd right;
};

inline LeastSquaresSystem equations(const std::vector<TristimulusPair>& pairs,
                                    const TristimulusPair* exact) {
    const Eigen::Index size = exact != nullptr ? 12 : 9;
    LeastSquaresSystem s{Eigen::MatrixXd::Zero(size, size), Eigen::VectorXd::Zero(size)};
    for (const TristimulusPair& p : pairs) {
        const Eigen::Matrix3d products = p.meter * p.meter.transpose();
        const Eigen::Vector3d wr = p.weight * p.reference;
        for (Eigen::Index i = 0; i < 3; ++i) {
            for (Eigen::Index k = 0; k < 3; ++k) {
                s.matrix.block<3, 3>(3 * i, 3 * k) += p.weight(i, k) * products;
            }
            s.right.segment<3>(3 * i) += wr[i] * p.meter;
        }
    }
    if (exact != nullptr) {
        for (Eigen::Index i = 0; i < 3; ++i) {
            s.matrix.block<1, 3>(9 + i, 3 * i) = exact->meter.transpose();
            s.matrix.block<3, 1>(3 * i, 9 + i) = exact->meter;
            s.right[9 + i] = exact->reference[i];
        }
    }
    return s;
}

inline Eigen::Matrix3d as_matrix(const Eigen::Ref<const Eigen::VectorXd>& elements) {
    Eigen::Matrix3d m;
    for (Eigen::Index i = 0; i < 9; ++i) {
        m(i / 3, i % 3) = elements[i];
    }
    return m;
}

/// Change of the right-hand side less change of the matrix times the solution, for a change of one pair's m and r.
inline Eigen::VectorXd moved_right(const TristimulusPair& p, const Eigen::Matrix3d& m,
                                   const Eigen::Vector3d* multipliers,
                                   const Eigen::Vector3d& meter_moved,
                                   const Eigen::Vector3d& reference_moved) {
    const Eigen::Matrix3d change =
        p.weight * (reference_moved * p.meter.transpose() +
                    (p.reference - m * p.meter) * meter_moved.transpose() -
                    m * meter_moved * p.meter.transpose());
    Eigen::VectorXd right = Eigen::VectorXd::Zero(multipliers != nullptr ? 12 : 9);
    right.head<9>() = row_after_row(change);
    if (multipliers != nullptr) {
        right.head<9>() -= row_after_row(*multipliers * meter_moved.transpose());
        right.tail<3>() = reference_moved - m * meter_moved;
    }
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

/// Covariance of the residual r - M m of one pair of readings, in X, Y, Z, divided by the pairs averaged.
inline Eigen::Matrix3d residual_covariance(const TristimulusPair& p, const Eigen::Matrix3d& m,
                                           const ReadingNoise& noise, double count) {
    Eigen::Matrix<double, 3, 6> by_reading;
    by_reading.leftCols<3>() = -m * p.meter_by_xyY;
    by_reading.rightCols<3>() = p.reference_by_xyY;
    return by_reading * noise.matrix() * by_reading.transpose() / count;
}

/// The noise that weights are made of: for each instrument one variance for x and y and one for relative Y, without covariances. Few repeats settle
/// these; weights from the whole matrix would follow its chance, and the fit would look surer than it is.
inline ReadingNoise for_weights(const ReadingNoise& noise) {
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

/// Makes each pair's weight the inverse of its residual's covariance.
inline void weigh(std::vector<TristimulusPair>& pairs, const Eigen::Matrix3d& m,
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
        pairs[i].weight = c.inverse();
    }
}

struct LeastSquaresWishes {
    std::vector<ReadingNoise> weights_from = {};  ///< one a patch; empty: all patches alike
    std::optional<std::size_t> exact = {};        ///< index of the patch that must be exact
    Eigen::Vector3d keep_sum_of = {1.0 / 3, 1.0 / 3,
                                   1.0 / 3};  ///< chromaticity that scales the matrix
    Derivatives derivatives = Derivatives::yes;
};

inline MatrixFit fit_least_squares(const std::vector<const Patch*>& patches,
                                   const LeastSquaresWishes& wishes) {
    std::vector<TristimulusPair> pairs;
    for (const Patch* patch : patches) {
        pairs.push_back({xyz_column(patch->meter), xyz_column(patch->reference),
                         xyz_by_xyY(patch->meter), xyz_by_xyY(patch->reference)});
    }
    const TristimulusPair* exact = wishes.exact ? &pairs[*wishes.exact] : nullptr;
    MatrixFit fit;
    LeastSquaresSystem system = equations(pairs, exact);
    Eigen::PartialPivLU<Eigen::MatrixXd> solver(system.matrix);
    Eigen::VectorXd solution = solver.solve(system.right);
    // The weights depend on the matrix, a little: a few rounds settle it.
    constexpr int most_rounds = 50;
    for (int round = 0; !wishes.weights_from.empty() && round < most_rounds; ++round) {
        const Eigen::VectorXd before = solution;
        weigh(pairs, as_matrix(solution), patches, wishes.weights_from);
        system = equations(pairs, exact);
        solver.compute(system.matrix);
        solution = solver.solve(system.right);
        fit.converged =
            (solution.head<9>() - before.head<9>()).norm() <= 1e-12 * solution.head<9>().norm();
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
    const Eigen::Vector3d multipliers =
        exact != nullptr ? Eigen::Vector3d(solution.tail<3>()) : Eigen::Vector3d::Zero();
    for (const TristimulusPair& p : pairs) {
        NoiseTerm::Matrix by_reading;
        for (Eigen::Index k = 0; k < 6; ++k) {
            const Eigen::Vector3d moved =
                k < 3 ? p.meter_by_xyY.col(k) : p.reference_by_xyY.col(k - 3);
            const Eigen::Vector3d none = Eigen::Vector3d::Zero();
            Eigen::VectorXd right = moved_right(p, m, &p == exact ? &multipliers : nullptr,
                                                k < 3 ? moved : none, k < 3 ? none : moved);
            right.conservativeResizeLike(Eigen::VectorXd::Zero(system.right.size()));
            by_reading.col(k) =
                split_derivative(m, wishes.keep_sum_of, as_matrix(solver.solve(right).head<9>()));
        }
        fit.by_patch.push_back(by_reading);
    }
    return fit;
}

}  // namespace detail

}  // namespace samelight
