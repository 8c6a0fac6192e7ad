// The share of pairs that lie apart: against counting every pair, and against what is known of normal sets of points.
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/colour/differences/pair_share.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/low_discrepancy.hpp"
#include "samelight/numeric/quantile.hpp"

namespace samelight {
namespace {

using test::refusal;

struct Points {
    std::vector<double> u, v;
};

/// A normal set of points of two independent coordinates.
Points normal_sample(std::size_t n, double sd_u, double sd_v) {
    const LowDiscrepancy points(7);
    Points points_of_plane;
    for (std::size_t i = 0; i < n; ++i) {
        points_of_plane.u.push_back(0.2 + sd_u * normal_quantile(points.unit(i, 0)));
        points_of_plane.v.push_back(0.5 + sd_v * normal_quantile(points.unit(i, 1)));
    }
    return points_of_plane;
}

/// Second route: every pair, one after the other.
double by_counting(const Points& points_of_plane, double threshold) {
    std::size_t apart = 0;
    std::size_t all = 0;
    for (std::size_t i = 0; i < points_of_plane.u.size(); ++i) {
        for (std::size_t j = i + 1; j < points_of_plane.u.size(); ++j, ++all) {
            const double du = points_of_plane.u[i] - points_of_plane.u[j];
            const double dv = points_of_plane.v[i] - points_of_plane.v[j];
            apart += du * du + dv * dv > threshold * threshold ? 1U : 0U;
        }
    }
    return static_cast<double>(apart) / static_cast<double>(all);
}

TEST(PairShare, IsTheCountOfEveryPair) {
    for (const std::size_t n : {2U, 3U, 31U, 33U, 64U, 65U, 257U, 1500U}) {
        for (const double flatness : {1.0, 0.1, 0.0}) {
            const Points points_of_plane = normal_sample(n, 0.003, 0.003 * flatness);
            for (const double t : {0.0, 1e-5, 0.001, 0.004, 0.01, 0.1}) {
                EXPECT_EQ(pair_share(points_of_plane.u, points_of_plane.v, t),
                          by_counting(points_of_plane, t))
                    << n << " points, flatness " << flatness << ", threshold " << t;
            }
        }
    }
}

// The difference of two normal points has twice their variance, so its squared length is exponential: the share is exp(-t^2 / 4 s^2).
// Second route: that formula, for 16,384 points of low discrepancy.
TEST(PairShare, OfARoundNormalCloudIsKnown) {
    constexpr double sd = 0.002;
    const Points points_of_plane = normal_sample(16384, sd, sd);
    for (const double t : {0.001, 0.002, 0.004, 0.008}) {
        EXPECT_NEAR(pair_share(points_of_plane.u, points_of_plane.v, t),
                    std::exp(-t * t / (4.0 * sd * sd)), 1e-3);
    }
}

TEST(PairShare, FallsWithTheThresholdAndDoesNotDependOnOrderOrPlace) {
    Points points_of_plane = normal_sample(500, 0.004, 0.001);
    double before = 1.0;
    for (const double t : {0.0, 0.001, 0.003, 0.005, 0.02}) {
        const double share = pair_share(points_of_plane.u, points_of_plane.v, t);
        EXPECT_LE(share, before);
        before = share;
    }
    EXPECT_EQ(pair_share(points_of_plane.u, points_of_plane.v, 0.0), 1.0);
    EXPECT_EQ(before, by_counting(points_of_plane, 0.02));
    const double share = pair_share(points_of_plane.u, points_of_plane.v, 0.004);
    EXPECT_EQ(pair_share(points_of_plane.v, points_of_plane.u, 0.004), share);
    std::swap(points_of_plane.u[3], points_of_plane.u[400]);
    std::swap(points_of_plane.v[3], points_of_plane.v[400]);
    EXPECT_EQ(pair_share(points_of_plane.u, points_of_plane.v, 0.004), share);
}

TEST(PairShare, PointsOnOneSpotAgree) {
    const std::vector<double> same(100, 0.25);
    EXPECT_EQ(pair_share(same, same, 0.0), 0.0);
    std::vector<double> two = same;
    two[17] = 0.26;
    EXPECT_DOUBLE_EQ(pair_share(two, same, 0.004), 99.0 / 4950.0);
}

TEST(PairShare, RefusesWhatCannotBe) {
    const std::vector<double> one = {0.2};
    const std::vector<double> two = {0.2, 0.3};
    const std::vector<double> broken = {0.2, std::numeric_limits<double>::quiet_NaN()};
    refusal(ErrorKind::shape, [&] { static_cast<void>(pair_share(one, one, 0.004)); });
    refusal(ErrorKind::shape, [&] { static_cast<void>(pair_share(one, two, 0.004)); });
    refusal(ErrorKind::domain, [&] { static_cast<void>(pair_share(two, two, -0.004)); });
    refusal(ErrorKind::domain, [&] { static_cast<void>(pair_share(two, broken, 0.004)); });
    refusal(ErrorKind::domain, [&] {
        static_cast<void>(pair_share(two, two, std::numeric_limits<double>::infinity()));
    });
}

}  // namespace
}  // namespace samelight
