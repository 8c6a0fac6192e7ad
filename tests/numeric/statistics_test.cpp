// Means, covariances, ellipses, and the quantiles that belong to them.
#include <array>
#include <cmath>
#include <numbers>
#include <type_traits>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Core>

#include "numeric/refusals.hpp"
#include "numeric/test_random.hpp"
#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight {
namespace {

// What a temporary lends would be gone: it gives copies.
static_assert(std::is_same_v<decltype(std::declval<Covariance>().matrix()), Covariance::Matrix>);

using test::contains;
using test::Random;
using test::refusal;

// Source: JCGM 100:2008, Table G.2, 95 % and 99 % columns, to its two decimals.
TEST(Quantiles, StudentsTIsTheTableOfTheGuide) {
    constexpr std::array<std::array<double, 3>, 5> table = {
        {{1, 12.71, 63.66}, {4, 2.78, 4.60}, {5, 2.57, 4.03}, {10, 2.23, 3.17}, {50, 2.01, 2.68}}};
    for (const auto& [freedom, t95, t99] : table) {
        EXPECT_NEAR(student_quantile(0.975, freedom), t95, 0.0051);
        EXPECT_NEAR(student_quantile(0.995, freedom), t99, 0.0051);
    }
}

// Second route: closed forms that exist for 2 degrees of freedom.
TEST(Quantiles, AgreeWithTheirClosedForms) {
    for (const double p : {1e-6, 0.05, 0.39, 0.5, 0.95, 0.997, 0.999999}) {
        const double chi = -2.0 * std::log1p(-p);
        EXPECT_NEAR(chi_squared_quantile(p, 2.0), chi, 1e-12 * chi) << p;
        const double radius = std::sqrt(chi_squared_quantile(p, 2.0));
        EXPECT_NEAR(plane_radius(p), radius, 1e-12 * radius) << p;
        const double t = (2.0 * p - 1.0) / std::sqrt(2.0 * p * (1.0 - p));
        EXPECT_NEAR(student_quantile(p, 2.0), t, 1e-12 * std::abs(t) + 1e-15) << p;
        for (const double n : {3.0, 10.0, 57.5}) {
            const double f = 0.5 * n * std::expm1(-2.0 / n * std::log1p(-p));
            EXPECT_NEAR(fisher_quantile(p, 2.0, n), f, 1e-12 * f) << p << ", " << n;
        }
    }
}

// Second route: the square of t with n degrees of freedom is F with 1 and n; the square of a normal number is chi squared with 1.
TEST(Quantiles, AgreeWithEachOther) {
    for (const double p : {0.1, 0.5, 0.9, 0.99}) {
        const double z = normal_quantile(0.5 + 0.5 * p);
        EXPECT_NEAR(chi_squared_quantile(p, 1.0) / (z * z), 1.0, 1e-12);
        for (const double n : {1.0, 4.0, 30.0}) {
            const double t = student_quantile(0.5 + 0.5 * p, n);
            EXPECT_NEAR(fisher_quantile(p, 1.0, n) / (t * t), 1.0, 1e-12);
        }
    }
}

TEST(Quantiles, RefuseWhatIsOutOfRange) {
    EXPECT_TRUE(contains(refusal(ErrorKind::domain, [] { (void)student_quantile(1.0, 3.0); }),
                         "probability 1"));
    EXPECT_TRUE(contains(refusal(ErrorKind::domain, [] { (void)chi_squared_quantile(0.5, 0.0); }),
                         "0 degrees of freedom"));
    EXPECT_TRUE(contains(refusal(ErrorKind::domain, [] { (void)fisher_quantile(0.5, 2.0, -1.0); }),
                         "-1 degrees"));
}

// Worked by hand: deviations -3 -1 1 3 and -1 1 -3 3, sums of products 20, 20 and 8, divided by 3.
TEST(Moments, OfFourPairs) {
    const std::vector<double> x = {1, 3, 5, 7};
    const std::vector<double> y = {11, 13, 9, 15};
    const Moments m = moments(x, y);
    EXPECT_EQ(m.count, 4u);
    EXPECT_EQ(m.mean, (std::vector<double>{4.0, 12.0}));
    EXPECT_DOUBLE_EQ(m.covariance(0, 0), 20.0 / 3.0);
    EXPECT_DOUBLE_EQ(m.covariance(1, 1), 20.0 / 3.0);
    EXPECT_DOUBLE_EQ(m.covariance(0, 1), 8.0 / 3.0);
    EXPECT_DOUBLE_EQ(m.covariance.standard(0), std::sqrt(20.0 / 3.0));
    EXPECT_DOUBLE_EQ(m.covariance.correlation(1, 0), 0.4);
    EXPECT_EQ(mean(x), 4.0);
    EXPECT_EQ(percentile(x, 50.0), 4.0);
    EXPECT_DOUBLE_EQ(percentile(x, 97.5), 6.85);
}

// Law: moving everything changes no covariance (to the rounding of the large numbers), a linear map L makes L C L^T of it.
TEST(Moments, FollowLinearMaps) {
    Random random(11);
    Eigen::MatrixXd rows(200, 3);
    for (double& value : rows.reshaped()) {
        value = random.normal();
    }
    Eigen::Matrix3d map;
    map << 1, 2, 3, 0, -1, 1, 2, 0, 5;
    const Moments before = moments(rows);
    const Moments after = moments((rows * map.transpose()).array() + 1e6);
    const Eigen::Matrix3d expected = map * before.covariance.matrix() * map.transpose();
    EXPECT_LT((after.covariance.matrix() - expected).cwiseAbs().maxCoeff(), 1e-7);
    EXPECT_LT(
        (moments(rows * map.transpose()).covariance.matrix() - expected).cwiseAbs().maxCoeff(),
        1e-12);
}

TEST(Moments, Refuse) {
    const std::vector<double> three = {1, 2, 3};
    const std::vector<double> two = {1, 2};
    const std::vector<double> bad = {1, std::nan(""), 3};
    EXPECT_TRUE(contains(refusal(ErrorKind::shape, [&] { (void)moments(three, two); }), "3 and 2"));
    EXPECT_TRUE(contains(
        refusal(ErrorKind::shape, [&] { (void)moments(Eigen::MatrixXd::Ones(1, 2)); }), "1 obs"));
    refusal(ErrorKind::domain, [&] { (void)moments(three, bad); });
    refusal(ErrorKind::shape, [] { (void)mean({}); });
}

TEST(Covariance, RefusesWhatIsNone) {
    Eigen::Matrix2d m;
    m << 1, 0.5, 0.4, 1;
    EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { (void)Covariance(m); }), "entry 1, 2"));
    m << -1, 0, 0, 1;
    EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { (void)Covariance(m); }), "entry 1, 1"));
    EXPECT_TRUE(contains(
        refusal(ErrorKind::shape, [] { (void)Covariance(Eigen::MatrixXd::Ones(2, 3)); }), "2 x 3"));
}

Covariance plane(double first, double second, double correlation) {
    Eigen::Matrix2d m;
    const double product = correlation * first * second;
    m << first * first, product, product, second * second;
    return Covariance(m);
}

// Worked by hand: independent quantities have axes along the quantities, as long as their standard deviations times 2.4477, the
// root of -2 ln(0.05); variances 2 and covariance 1 have eigenvalues 3 and 1 along the diagonals.
TEST(Ellipse, OfSimpleCovariances) {
    const double factor = std::sqrt(-2.0 * std::log(0.05));
    const Ellipse flat = coverage_ellipse({1.0, 2.0}, plane(3.0, 0.5, 0.0), 0.95);
    EXPECT_NEAR(flat.semi_major, 3.0 * factor, 1e-12);
    EXPECT_NEAR(flat.semi_minor, 0.5 * factor, 1e-12);
    EXPECT_EQ(flat.angle_deg, 0.0);
    const Ellipse upright = coverage_ellipse({0.0, 0.0}, plane(0.5, 3.0, 0.0), 0.95);
    EXPECT_NEAR(upright.angle_deg, 90.0, 1e-12);
    const double root2 = std::sqrt(2.0);
    const Ellipse rising = coverage_ellipse({0.0, 0.0}, plane(root2, root2, 0.5), 0.95);
    EXPECT_NEAR(rising.semi_major, std::sqrt(3.0) * factor, 1e-12);
    EXPECT_NEAR(rising.semi_minor, factor, 1e-12);
    EXPECT_NEAR(rising.angle_deg, 45.0, 1e-12);
    EXPECT_NEAR(coverage_ellipse({0, 0}, plane(root2, root2, -0.5), 0.95).angle_deg, -45.0, 1e-12);
    EXPECT_NEAR(rising.area(), std::numbers::pi * rising.semi_major * rising.semi_minor, 1e-12);
}

// A narrow ellipse keeps its width: standard deviations 1 with a correlation of 1 - 1e-10 have eigenvalues 2 and 1e-10.
TEST(Ellipse, KeepsANarrowWidth) {
    const Ellipse e = coverage_ellipse({0.0, 0.0}, plane(1.0, 1.0, 1.0 - 1e-10), 0.5);
    EXPECT_NEAR(e.semi_minor / e.semi_major, std::sqrt(0.5e-10), 1e-4 * std::sqrt(0.5e-10));
    const Ellipse line = coverage_ellipse({0.0, 0.0}, plane(1.0, 2.0, 1.0), 0.5);
    EXPECT_LT(line.semi_minor, 1e-7);
}

// Second route: counting. Of 100,000 draws the share inside is the coverage, within five standard errors.
TEST(Ellipse, HoldsItsShareOfANormalDistribution) {
    constexpr int n = 100000;
    for (const double coverage : {0.39, 0.95}) {
        Random random(5);
        const Ellipse e = coverage_ellipse({0.3, -1.0}, plane(2.0, 0.7, -0.8), coverage);
        int inside = 0;
        for (int i = 0; i < n; ++i) {
            const double a = random.normal();
            const double b = -0.8 * a + 0.6 * random.normal();
            inside += e.contains(0.3 + 2.0 * a, -1.0 + 0.7 * b) ? 1 : 0;
        }
        EXPECT_NEAR(static_cast<double>(inside) / n, coverage,
                    5.0 * std::sqrt(coverage * (1.0 - coverage) / n));
    }
}

TEST(Ellipse, OfNoSpreadIsItsCentre) {
    const Ellipse e = coverage_ellipse({1.0, 2.0}, Covariance(Eigen::Matrix2d::Zero()), 0.95);
    EXPECT_EQ(e.semi_major, 0.0);
    EXPECT_TRUE(e.contains(1.0, 2.0));
    EXPECT_FALSE(e.contains(1.0, 2.0 + 1e-12));
}

TEST(Ellipse, Refuses) {
    Eigen::Matrix2d m;
    m << 1, 1.5, 1.5, 1;
    EXPECT_TRUE(contains(refusal(ErrorKind::domain,
                                 [&] {
                                     (void)coverage_ellipse({0, 0}, Covariance(m), 0.95);
                                 }),
                         "covariance 1.5"));
    refusal(ErrorKind::shape, [] {
        (void)coverage_ellipse({0, 0}, Covariance(Eigen::Matrix3d::Identity()), 0.95);
    });
    refusal(ErrorKind::domain, [] { (void)coverage_ellipse({0, 0}, plane(1, 1, 0), 1.0); });
}

// Of so few degrees of freedom the quantile is past what a double holds: refused as everything else is.
TEST(Quantiles, OfNextToNoDegreesOfFreedomAreRefusedAsErrors) {
    EXPECT_THROW((void)student_quantile(0.975, 0.001), Error);
    EXPECT_THROW((void)fisher_quantile(0.95, 2.0, 0.001), Error);
    EXPECT_NO_THROW((void)student_quantile(0.975, 0.1));
}

}  // namespace
}  // namespace samelight
