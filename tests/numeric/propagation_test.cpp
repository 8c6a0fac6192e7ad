// Propagation of uncertainty: the worked examples of the guides.
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

#include <gtest/gtest.h>
#include <Eigen/Core>

#include "numeric/refusals.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/propagation.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

// Source: JCGM 100:2008, H.2, Tables H.2 to H.4: five joint readings of voltage, current and phase; resistance, reactance and
// impedance of a circuit element from their means.
TEST(Propagation, TheGuidesResistanceReactanceAndImpedance) {
    Eigen::MatrixXd readings(5, 3);
    readings << 5.007, 19.663e-3, 1.0456,  //
        4.994, 19.639e-3, 1.0438,          //
        5.005, 19.640e-3, 1.0468,          //
        4.990, 19.685e-3, 1.0428,          //
        4.999, 19.678e-3, 1.0433;
    const Moments m = moments(readings);
    const Covariance of_means = m.covariance.scaled(1.0 / 5.0);
    EXPECT_NEAR(of_means.standard(0), 0.0032, 5e-5);
    EXPECT_NEAR(of_means.standard(1), 0.0095e-3, 5e-8);
    EXPECT_NEAR(of_means.standard(2), 0.00075, 5e-6);
    EXPECT_NEAR(of_means.correlation(0, 1), -0.36, 5e-3);
    EXPECT_NEAR(of_means.correlation(0, 2), 0.86, 5e-3);
    EXPECT_NEAR(of_means.correlation(1, 2), -0.65, 5e-3);

    const double V = m.mean[0];
    const double I = m.mean[1];
    const double Z = V / I;
    const double cosine = std::cos(m.mean[2]);
    const double sine = std::sin(m.mean[2]);
    EXPECT_NEAR(Z * cosine, 127.732, 5e-4);
    EXPECT_NEAR(Z * sine, 219.847, 5.1e-4);
    EXPECT_NEAR(Z, 254.260, 5e-4);
    Eigen::Matrix3d jacobian;
    jacobian << cosine / I, -Z * cosine / I, -Z * sine,  //
        sine / I, -Z * sine / I, Z * cosine,             //
        1.0 / I, -Z / I, 0.0;
    const Covariance result = propagate(jacobian, of_means);
    EXPECT_NEAR(result.standard(0), 0.071071, 5e-7);
    EXPECT_NEAR(result.standard(1), 0.295582, 5e-7);
    EXPECT_NEAR(result.standard(2), 0.236336, 5e-7);
    EXPECT_NEAR(result.correlation(0, 1), -0.588, 5e-4);
    EXPECT_NEAR(result.correlation(0, 2), -0.485, 5e-4);
    EXPECT_NEAR(result.correlation(1, 2), 0.993, 5e-4);
}

constexpr std::array<double, 3> white = {95.04, 100.0, 108.88};

/// Derivatives of x, y by X, Y, Z.
Eigen::MatrixXd xy_jacobian() {
    const double sum = white[0] + white[1] + white[2];
    Eigen::MatrixXd j(2, 3);
    j << sum - white[0], -white[0], -white[0], -white[1], sum - white[1], -white[1];
    return j / (sum * sum);
}

/// One percent of each, with one correlation between any two.
Covariance one_percent(double correlation) {
    Eigen::MatrixXd result(3, 3);
    for (Eigen::Index i = 0; i < 3; ++i) {
        for (Eigen::Index j = 0; j < 3; ++j) {
            result(i, j) = 1e-4 * white[static_cast<std::size_t>(i)] *
                           white[static_cast<std::size_t>(j)] * (i == j ? 1.0 : correlation);
        }
    }
    return Covariance(result);
}

// No published source: figures computed apart from this code, for independent tristimulus values of D65 with 1 % each.
TEST(Propagation, OnePercentOfTristimulusValuesInChromaticity) {
    const Covariance xy = propagate(xy_jacobian(), one_percent(0.0));
    EXPECT_NEAR(xy.standard(0), 0.00263306, 5e-9);
    EXPECT_NEAR(xy.standard(1), 0.00270595, 5e-9);
    EXPECT_NEAR(xy.correlation(0, 1), -0.443854, 5e-7);

    // u', v' = 4X/D, 9Y/D with D = X + 15 Y + 3 Z.
    const double d = white[0] + 15.0 * white[1] + 3.0 * white[2];
    Eigen::MatrixXd j(2, 3);
    j << 4.0 * (d - white[0]), -60.0 * white[0], -12.0 * white[0], -9.0 * white[1],
        9.0 * (d - 15.0 * white[1]), -27.0 * white[1];
    const Covariance uv = propagate(j / (d * d), one_percent(0.0));
    EXPECT_NEAR(uv.standard(0), 0.00245633, 5e-9);
    EXPECT_NEAR(uv.standard(1), 0.00132043, 5e-9);
    EXPECT_NEAR(uv.correlation(0, 1), -0.541039, 5e-7);
}

// Law: what the three have in common does not reach the chromaticity, so a correlation r leaves the share sqrt(1 - r).
TEST(Propagation, ACommonErrorOfTristimulusValuesCancels) {
    const Covariance none = propagate(xy_jacobian(), one_percent(0.0));
    const Covariance half = propagate(xy_jacobian(), one_percent(0.5));
    EXPECT_NEAR(half.standard(0) / none.standard(0), std::sqrt(0.5), 1e-12);
    EXPECT_NEAR(half.standard(1) / none.standard(1), std::sqrt(0.5), 1e-12);
    const Covariance all = propagate(xy_jacobian(), one_percent(1.0));
    EXPECT_LT(all.standard(0), 1e-9);
    EXPECT_LT(all.standard(1), 1e-9);
}

TEST(Propagation, Refuses) {
    EXPECT_TRUE(
        contains(refusal(ErrorKind::shape,
                         [] { (void)propagate(Eigen::MatrixXd::Ones(2, 2), one_percent(0.0)); }),
                 "2 x 2 derivatives for 3"));
    refusal(ErrorKind::domain, [] {
        (void)propagate(Eigen::MatrixXd::Constant(1, 3, std::nan("")), one_percent(0.0));
    });
}

/// Five standard errors of a sample quantile: the root of p (1 - p) / n over the density there.
double five_errors(double p, double n, double density) {
    return 5.0 * std::sqrt(p * (1.0 - p) / n) / density;
}

// Source: JCGM 101:2008, 9.2.2: the sum of four standard normal quantities has u = 2.0 and the 95 % interval +-3.92.
TEST(Simulation, FourNormalQuantities) {
    constexpr std::size_t n = 200000;
    const Simulation s = simulate(n, 0.95, 1, [](PseudoRandom& random) {
        return std::array<double, 1>{draw_normal(random) + draw_normal(random) +
                                     draw_normal(random) + draw_normal(random)};
    });
    ASSERT_EQ(s.outputs.size(), 1u);
    EXPECT_NEAR(s.outputs[0].mean, 0.0, 5.0 * 2.0 / std::sqrt(n));
    EXPECT_NEAR(s.outputs[0].standard_uncertainty, 2.0, 5.0 * 2.0 / std::sqrt(2.0 * n));
    const double density = std::exp(-0.5 * 1.96 * 1.96) / (2.0 * std::sqrt(2.0 * std::numbers::pi));
    const double bound = five_errors(0.975, n, density);
    EXPECT_NEAR(s.outputs[0].symmetric.low, -3.92, bound);
    EXPECT_NEAR(s.outputs[0].symmetric.high, 3.92, bound);
    const CoverageInterval& shortest = s.outputs[0].shortest;
    EXPECT_LE(shortest.high - shortest.low,
              s.outputs[0].symmetric.high - s.outputs[0].symmetric.low);
    EXPECT_NEAR(shortest.high - shortest.low, 7.84, 2.0 * bound);
}

// Source: JCGM 101:2008, 9.2.3: four rectangular quantities of the same mean and variance; the exact 95 % interval is
// +-2 sqrt(3) (2 - (3/5)^(1/4)) = +-3.88.
TEST(Simulation, FourRectangularQuantities) {
    constexpr std::size_t n = 1000000;
    const double half_width = std::sqrt(3.0);
    const Simulation s = simulate(n, 0.95, 2, [=](PseudoRandom& random) {
        double sum = 0.0;
        for (int i = 0; i < 4; ++i) {
            sum += half_width * (2.0 * random.next_unit() - 1.0);
        }
        return std::array<double, 1>{sum};
    });
    const double exact = 2.0 * half_width * (2.0 - std::pow(0.6, 0.25));
    EXPECT_NEAR(exact, 3.8794, 5e-5);
    EXPECT_NEAR(s.outputs[0].standard_uncertainty, 2.0, 5.0 * 2.0 / std::sqrt(2.0 * n));
    // The tail beyond x is (4 - x/sqrt(3))^4 / 384, so the density is (4 - x/sqrt(3))^3 / (96 sqrt(3)).
    const double density = std::pow(4.0 - exact / half_width, 3.0) / (96.0 * half_width);
    const double bound = five_errors(0.975, n, density);
    EXPECT_LT(bound, 0.04);
    EXPECT_NEAR(s.outputs[0].symmetric.low, -exact, bound);
    EXPECT_NEAR(s.outputs[0].symmetric.high, exact, bound);
}

// Worked by hand: of a triangle rising from 0 to 1 (the root of an even number) the shortest interval that holds the share p
// lies at its upper end, sqrt(1 - p) to 1; the symmetric one doesn't.
TEST(Simulation, TheShortestIntervalOfALopsidedDistribution) {
    const Simulation s = simulate(200000, 0.75, 3, [](PseudoRandom& random) {
        const double u = random.next_unit();
        return std::array<double, 2>{std::sqrt(u), 1.0 - std::sqrt(u)};
    });
    EXPECT_NEAR(s.outputs[0].shortest.low, 0.5, 0.005);
    EXPECT_NEAR(s.outputs[0].shortest.high, 1.0, 1e-4);
    EXPECT_NEAR(s.outputs[0].symmetric.low, std::sqrt(0.125), 0.01);
    EXPECT_NEAR(s.outputs[0].symmetric.high, std::sqrt(0.875), 0.005);
    EXPECT_NEAR(s.outputs[1].shortest.low, 0.0, 1e-4);
    EXPECT_NEAR(s.covariance.correlation(0, 1), -1.0, 1e-12);
}

TEST(Simulation, TheSameSeedDrawsTheSame) {
    const auto draw = [](PseudoRandom& random) {
        return std::array<double, 1>{draw_normal(random)};
    };
    const Simulation a = simulate(500, 0.95, 9, draw);
    const Simulation b = simulate(500, 0.95, 9, draw);
    EXPECT_EQ(a.outputs[0].shortest, b.outputs[0].shortest);
    EXPECT_NE(a.outputs[0].shortest, simulate(500, 0.95, 10, draw).outputs[0].shortest);
}

TEST(Simulation, Refuses) {
    const auto draw = [](PseudoRandom&) { return std::array<double, 1>{std::nan("")}; };
    EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { (void)simulate(99, 0.95, 1, draw); }),
                         "99 trials"));
    refusal(ErrorKind::domain, [&] { (void)simulate(100, 1.0, 1, draw); });
    EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { (void)simulate(100, 0.95, 1, draw); }),
                         "not finite"));
}

}  // namespace
}  // namespace samelight
