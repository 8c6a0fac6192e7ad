// The minimisers, on problems whose answers are known.
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/numeric/minimum/damped_least_squares.hpp"
#include "samelight/numeric/minimum/least_value.hpp"

namespace samelight {
namespace {

TEST(SimplexMinimum, FindsTheEndOfRosenbrocksValley) {
    // Source: Rosenbrock 1960, Comput. J. 3:175: 100 (y - x^2)^2 + (1 - x)^2 is least at 1, 1; begun at -1.2, 1, as there and in Nelder & Mead.
    int calls = 0;
    const auto at = detail::simplex_minimum<2>(
        {{-1.2, 1.0}, 0.5, 1e-10, 400}, [&](const std::array<double, 2>& p) {
            ++calls;
            return 100.0 * std::pow(p[1] - p[0] * p[0], 2) + std::pow(1.0 - p[0], 2);
        });
    EXPECT_NEAR(at[0], 1.0, 1e-4);
    EXPECT_NEAR(at[1], 1.0, 2e-4);
    EXPECT_LT(calls, 405);
}

TEST(SimplexMinimum, SumOfAbsoluteValuesHasAKinkAtItsMinimum) {
    const auto at = detail::simplex_minimum<3>(
        {{0.0, 0.0, 0.0}, 0.1, 1e-9, 2000}, [](const std::array<double, 3>& p) {
            return 1.0 + std::abs(p[0] - 0.3) + 2.0 * std::abs(p[1] + 0.2) + std::abs(p[2] - p[0]);
        });
    EXPECT_NEAR(at[0], 0.3, 1e-3);
    EXPECT_NEAR(at[1], -0.2, 1e-3);
    EXPECT_NEAR(at[2], 0.3, 1e-3);
}

TEST(DampedLeastSquares, MonomolecularAdsorptionOfTheStatisticalReferenceDatasets) {
    // Source: NIST Statistical Reference Datasets, Misra1a (Misra 1978), y = b1 (1 - exp(-b2 x)): b1 238.94212918, b2 5.5015643181e-4,
    // residual sum of squares .12455138894 (from memory). From the second of its starts, 250 and 5e-4.
    const std::vector<double> x = {77.6,  114.9, 141.1, 190.8, 239.9, 289.0, 332.8,
                                   378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0};
    const std::vector<double> y = {10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02,
                                   44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78};
    const auto residuals = [&](const std::vector<double>& b) {
        Eigen::VectorXd r(14);
        for (std::size_t i = 0; i < x.size(); ++i) {
            r[static_cast<Eigen::Index>(i)] = b[0] * (1.0 - std::exp(-b[1] * x[i])) - y[i];
        }
        return r;
    };
    const BoundedValues bounds{{200.0, 4e-4}, {300.0, 7e-4}};
    const auto never = [](const Eigen::VectorXd&) { return false; };
    const auto b = damped_least_squares(bounds, {250.0, 5e-4}, residuals, never);
    // It ends where a round gains less than 2 %, and takes its slopes over 2 % of a range.
    EXPECT_NEAR(residuals(b).squaredNorm() / 0.12455138894, 1.0, 0.02);
    EXPECT_NEAR(b[0], 238.94212918, 1.5);
    EXPECT_NEAR(b[1], 5.5015643181e-4, 0.04e-4);
    const auto content = [](const Eigen::VectorXd& r) { return r.squaredNorm() < 100.0; };
    EXPECT_EQ(damped_least_squares(bounds, {238.9, 5.5e-4}, residuals, content),
              (std::vector<double>{238.9, 5.5e-4}));
}

TEST(DampedLeastSquares, ALimitThatLiesBeforeTheMinimumIsKept) {
    // (a - 3)^2 + (a + b - 4)^2 with a <= 2: a = 2, b = 2 by setting the derivative by b to nothing.
    const auto residuals = [](const std::vector<double>& v) {
        return Eigen::VectorXd(Eigen::Vector2d(v[0] - 3.0, v[0] + v[1] - 4.0));
    };
    const auto never = [](const Eigen::VectorXd&) { return false; };
    const auto v = damped_least_squares({{0.0, 0.0}, {2.0, 5.0}}, {0.5, 0.5}, residuals, never);
    EXPECT_EQ(v[0], 2.0);
    EXPECT_NEAR(v[1], 2.0, 1e-3);
}

TEST(DampedLeastSquares, SlopesAreByRangesAndNothingIsAskedBeyondThem) {
    // Of 3 a + 5 b the slopes in units of the ranges, 2 and 0.5 wide, are 6 and 2.5 wherever they are taken; at both ends of both ranges.
    const BoundedValues bounds{{4.0, -1.0}, {6.0, -0.5}};
    for (const double a : {4.0, 5.0, 6.0}) {
        for (const double b : {-1.0, -0.5}) {
            bool beyond = false;
            const auto residuals = [&](const std::vector<double>& v) {
                beyond = beyond || v[0] < 4.0 || v[0] > 6.0 || v[1] < -1.0 || v[1] > -0.5;
                return Eigen::VectorXd(Eigen::Matrix<double, 1, 1>(3.0 * v[0] + 5.0 * v[1] - 12.0));
            };
            DampedSearch at{{a, b}, residuals({a, b})};
            damped_round(bounds, at, residuals);
            EXPECT_NEAR(at.derivatives(0, 0), 6.0, 1e-11);
            EXPECT_NEAR(at.derivatives(0, 1), 2.5, 1e-11);
            EXPECT_FALSE(beyond) << a << ' ' << b;
        }
    }
}

}  // namespace
}  // namespace samelight
