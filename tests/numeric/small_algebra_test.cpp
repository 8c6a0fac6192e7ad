// Products and solutions of small matrices, against a general library's.
#include <array>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Core>
#include <Eigen/LU>

#include "numeric/test_random.hpp"
#include "samelight/numeric/small_algebra.hpp"

namespace samelight {
namespace {

using RowMajorMatrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

RowMajorMatrix drawn_matrix(Eigen::Index rows, Eigen::Index columns, test::Random& random) {
    RowMajorMatrix m(rows, columns);
    for (Eigen::Index i = 0; i < m.size(); ++i) {
        m.data()[i] = random.normal();
    }
    return m;
}

std::span<const double> all_of(const RowMajorMatrix& m) {
    return {m.data(), static_cast<std::size_t>(m.size())};
}

// Second route: Eigen's products of matrices whose size is not known beforehand.
TEST(SmallAlgebra, CarriesACovarianceAsTheGeneralLibraryDoes) {
    test::Random random(21);
    for (const auto& [p, n] : {std::array<Eigen::Index, 2>{3, 6}, {3, 10}, {10, 6}, {1, 1}}) {
        const RowMajorMatrix j = drawn_matrix(p, n, random);
        const RowMajorMatrix k = drawn_matrix(p, n, random);
        const RowMajorMatrix c = drawn_matrix(n, n, random);
        RowMajorMatrix sum = drawn_matrix(p, p, random);
        const RowMajorMatrix expected = sum + 0.3 * j * c * k.transpose();
        detail::add_carried(all_of(j), all_of(c), all_of(k), 0.3,
                            {sum.data(), static_cast<std::size_t>(sum.size())});
        EXPECT_LT((sum - expected).cwiseAbs().maxCoeff(), 1e-13);
        const RowMajorMatrix right = drawn_matrix(n, 4, random);
        RowMajorMatrix product(p, 4);
        detail::multiply(all_of(j), all_of(right), static_cast<std::size_t>(n), 4,
                         {product.data(), static_cast<std::size_t>(product.size())});
        EXPECT_LT((product - j * right).cwiseAbs().maxCoeff(), 1e-13);
    }
}

TEST(SmallAlgebra, SolvesAsTheGeneralLibraryDoes) {
    test::Random random(22);
    for (const Eigen::Index n : {1, 4, 9, 12}) {
        RowMajorMatrix m = drawn_matrix(n, n, random);
        m(0, 0) = 0.0;  // no pivot where it stands, but for n = 1
        if (n == 1) {
            m(0, 0) = 0.25;
        }
        const detail::SmallSolver solver(all_of(m), static_cast<std::size_t>(n));
        for (int i = 0; i < 3; ++i) {
            const Eigen::VectorXd right = drawn_matrix(n, 1, random);
            Eigen::VectorXd x = right;
            solver.solve({x.data(), static_cast<std::size_t>(n)});
            EXPECT_LT((x - m.partialPivLu().solve(right)).norm(), 1e-11 * (1.0 + x.norm()));
        }
    }
    const std::array<double, 4> singular = {1.0, 2.0, 2.0, 4.0};
    std::array<double, 2> x = {1.0, 1.0};
    detail::SmallSolver(singular, 2).solve(x);
    EXPECT_FALSE(std::isfinite(x[0]) && std::isfinite(x[1]));
}

}  // namespace
}  // namespace samelight
