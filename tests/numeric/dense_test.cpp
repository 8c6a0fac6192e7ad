#include "samelight/numeric/dense.hpp"

#include <cmath>
#include <cstdint>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Dense>

#include "samelight/numeric/pseudo_random.hpp"

// Eigen's own factorisations are the second route to each.

namespace samelight {
namespace {

Eigen::MatrixXd drawn(Eigen::Index rows, Eigen::Index columns, std::uint64_t seed) {
    PseudoRandom random(seed);
    Eigen::MatrixXd result(rows, columns);
    for (Eigen::Index j = 0; j < columns; ++j) {
        for (Eigen::Index i = 0; i < rows; ++i) {
            result(i, j) = 2.0 * random.next_unit() - 1.0;
        }
    }
    return result;
}

double furthest(const Eigen::MatrixXd& a, const Eigen::MatrixXd& b) {
    return (a - b).cwiseAbs().maxCoeff();
}

TEST(Dense, ProductsAreEigens) {
    for (const Eigen::Index n : {1, 2, 3, 7, 40}) {
        const Eigen::MatrixXd a = drawn(n + 1, n, 1);
        const Eigen::MatrixXd b = drawn(n, n + 2, 2);
        EXPECT_LE(furthest(dense::product(a, b), a * b), 1e-14);
        EXPECT_LE(furthest(dense::transposed_product(a, drawn(n + 1, 3, 3)),
                           a.transpose() * drawn(n + 1, 3, 3)),
                  1e-14);
        EXPECT_LE(
            furthest(dense::product_transposed(a, drawn(4, n, 4)), a * drawn(4, n, 4).transpose()),
            1e-14);
        EXPECT_LE(furthest(dense::times(a, b.col(0)), a * b.col(0)), 1e-14);
        const Eigen::MatrixXd c = b * b.transpose();
        EXPECT_LE(furthest(dense::carried(a, c), a * c * a.transpose()), 1e-12);
    }
}

// The same numbers at other addresses have the same digits: every function that is given a place in memory, and nothing of it.
TEST(Dense, DigitsAreNotThoseOfAnAddress) {
    for (const Eigen::Index n : {5, 31, 401, 441}) {
        const Eigen::MatrixXd values = drawn(n, 3, 21);
        const Eigen::VectorXd wanted = drawn(n, 1, 22);
        const Eigen::Matrix<double, 3, Eigen::Dynamic, Eigen::RowMajor> rows = values.transpose();
        const double sum = dense::sum(wanted);
        EXPECT_NEAR(sum, wanted.sum(), 1e-13);
        const auto weights = dense::least_squares(values, wanted).weights;
        const Eigen::VectorXd mixed = dense::times(rows.transpose(), weights);
        for (std::size_t shift = 0; shift < 8; ++shift) {
            std::vector<double> memory(static_cast<std::size_t>(n) * 4 + 16);
            const auto at = (64 - reinterpret_cast<std::uintptr_t>(memory.data()) % 64) % 64 / 8;
            double* const first = memory.data() + at + shift;
            Eigen::Map<Eigen::VectorXd> column(first, n);
            Eigen::Map<Eigen::MatrixXd> columns(first + n, n, 3);
            column = wanted;
            columns = values;
            EXPECT_EQ(dense::sum(column), sum) << shift;
            EXPECT_EQ(dense::response(rows, column), dense::response(rows, wanted)) << shift;
            EXPECT_EQ(dense::responses(rows, columns), dense::responses(rows, values)) << shift;
            EXPECT_EQ(dense::transposed_product(columns, columns),
                      dense::transposed_product(values, values))
                << shift;
            EXPECT_EQ(dense::times(columns, weights), mixed) << shift;
            EXPECT_EQ(dense::least_squares(columns, column).weights, weights) << shift;
        }
    }
}

TEST(Dense, ResponsesAreRowsTimesColumns) {
    const Eigen::Matrix<double, 3, Eigen::Dynamic, Eigen::RowMajor> rows = drawn(3, 401, 5);
    const Eigen::MatrixXd columns = drawn(401, 4, 6);
    EXPECT_LE(furthest(dense::responses(rows, columns), rows * columns), 1e-13);
    EXPECT_LE(furthest(dense::responses_of_three(rows, columns), rows * columns.leftCols(3)),
              1e-13);
    EXPECT_LE(furthest(dense::response(rows, columns.col(3)), rows * columns.col(3)), 1e-13);
}

TEST(Dense, SolvesPositiveEquations) {
    for (const Eigen::Index n : {1, 2, 5, 12}) {
        const Eigen::MatrixXd root = drawn(n + 3, n, 7);
        const Eigen::MatrixXd a = root.transpose() * root;
        const Eigen::MatrixXd b = drawn(n, 2, 8);
        EXPECT_LE(furthest(dense::solve_positive(a, b), a.ldlt().solve(b)), 1e-9);
    }
    // Equal columns: the first takes all.
    const Eigen::MatrixXd twice = Eigen::MatrixXd::Ones(2, 2);
    EXPECT_LE(furthest(dense::solve_positive(twice, Eigen::Vector2d(3.0, 3.0)),
                       Eigen::Vector2d(3.0, 0.0)),
              1e-15);
    EXPECT_FALSE(dense::solve_positive(-Eigen::MatrixXd::Identity(2, 2), Eigen::Vector2d(1.0, 1.0))
                     .allFinite());
}

TEST(Dense, InvertsWhatCanBeInverted) {
    for (const Eigen::Index n : {1, 2, 3, 8}) {
        const Eigen::MatrixXd a = drawn(n, n, 9);
        EXPECT_LE(furthest(dense::inverse(a) * a, Eigen::MatrixXd::Identity(n, n)), 1e-12);
    }
    Eigen::Matrix3d swapped = Eigen::Matrix3d::Zero();  // no pivot on the diagonal
    swapped(0, 1) = swapped(1, 2) = swapped(2, 0) = 2.0;
    EXPECT_LE(furthest(dense::inverse(swapped), swapped.inverse()), 1e-16);
    EXPECT_LE(furthest(dense::inverse_3x3(swapped), swapped.inverse()), 1e-16);
    const Eigen::Matrix2d small = drawn(2, 2, 10);
    EXPECT_LE(furthest(dense::inverse_2x2(small), small.inverse()), 1e-14);
    EXPECT_FALSE(dense::inverse(Eigen::MatrixXd::Ones(3, 3)).allFinite());
}

TEST(Dense, FindsEigenvaluesAndVectors) {
    for (const Eigen::Index n : {1, 2, 3, 8, 20}) {
        const Eigen::MatrixXd half = drawn(n, n, 11);
        const Eigen::MatrixXd a = half + half.transpose();
        const dense::SymmetricEigen found = dense::symmetric_eigen(a);
        const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> expected(a);
        EXPECT_LE(furthest(found.values, expected.eigenvalues()), 1e-14 * static_cast<double>(n));
        EXPECT_LE(furthest(a * found.vectors, found.vectors * found.values.asDiagonal()),
                  1e-14 * static_cast<double>(n));
        EXPECT_LE(
            furthest(found.vectors.transpose() * found.vectors, Eigen::MatrixXd::Identity(n, n)),
            1e-14 * static_cast<double>(n));
    }
    const dense::SymmetricEigen none = dense::symmetric_eigen(Eigen::MatrixXd::Zero(3, 3));
    EXPECT_EQ(none.values.cwiseAbs().maxCoeff(), 0.0);
}

TEST(Dense, LeastSquaresAreThoseOfAnOrthogonalDecomposition) {
    for (const Eigen::Index k : {1, 3, 6}) {
        const Eigen::MatrixXd columns = drawn(20, k, 12);
        const Eigen::VectorXd values = drawn(20, 1, 13);
        const auto found = dense::least_squares(columns, values);
        EXPECT_EQ(found.rank, k);
        EXPECT_LE(furthest(found.weights, columns.completeOrthogonalDecomposition().solve(values)),
                  1e-13);
    }
}

TEST(Dense, LeastSquaresOfDependentColumnsAreTheShortest) {
    Eigen::MatrixXd columns = drawn(12, 4, 14);
    columns.col(3) = 2.0 * columns.col(0) - columns.col(1);
    const Eigen::VectorXd values = drawn(12, 1, 15);
    const auto found = dense::least_squares(columns, values);
    EXPECT_EQ(found.rank, 3);
    EXPECT_LE(furthest(found.weights, columns.completeOrthogonalDecomposition().solve(values)),
              1e-13);
    // More unknowns than values, and a column of nothing.
    Eigen::MatrixXd wide = drawn(3, 5, 16);
    wide.col(2).setZero();
    const auto shortest = dense::least_squares(wide, values.head(3));
    EXPECT_LE(
        furthest(shortest.weights, wide.completeOrthogonalDecomposition().solve(values.head(3))),
        1e-13);
    EXPECT_EQ(dense::least_squares(Eigen::MatrixXd::Zero(3, 2), values.head(3)).rank, 0);
}

}  // namespace
}  // namespace samelight
