// Quantiles of the normal distribution and of samples.
#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

// Source: JCGM 100:2008, Table G.1: the coverage factors of a normal distribution, to its three decimals.
TEST(NormalQuantile, GivesThePublishedCoverageFactors) {
    constexpr std::array<std::array<double, 2>, 6> published = {
        {{68.27, 1.0}, {90.0, 1.645}, {95.0, 1.960}, {95.45, 2.0}, {99.0, 2.576}, {99.73, 3.0}}};
    for (const auto& [percent, factor] : published) {
        EXPECT_NEAR(normal_quantile(0.5 + percent / 200.0), factor, 6e-4) << percent;
    }
    EXPECT_EQ(normal_quantile(0.5), 0.0);
}

// Second route: the standard library's complementary error function, whose own error is some units in the last place, and which
// magnifies those of x by x^2.
TEST(NormalQuantile, IsTheInverseOfTheProbability) {
    for (double p = 1e-300; p < 0.5; p *= 1.7) {
        const double x = normal_quantile(p);
        EXPECT_NEAR(0.5 * std::erfc(-x / std::numbers::sqrt2) / p, 1.0, 1e-15 * (4.0 + x * x)) << p;
        EXPECT_NEAR(normal_probability(x) / p, 1.0, 1e-15 * (4.0 + x * x)) << p;
    }
    for (double p = 0x1p-50; p < 0.5; p *= 2.0) {
        EXPECT_NEAR(normal_quantile(1.0 - p), -normal_quantile(p), 4e-16 * 8.0);
    }
}

TEST(NormalQuantile, RefusesWhatIsNoProbability) {
    for (const double p : {0.0, 1.0, -0.1, 1.5, std::numeric_limits<double>::quiet_NaN()}) {
        EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { (void)normal_quantile(p); }),
                             "probability " + to_text(p)));
    }
    EXPECT_TRUE(contains(refusal(ErrorKind::domain, [] { (void)normal_probability(std::nan("")); }),
                         "nan"));
}

// Source: Hyndman & Fan 1996, definition 7: with n values, share (k - 1) / (n - 1) is the k-th and the line between them.
// Worked by hand.
TEST(SampleQuantile, IsLinearBetweenTheOrderStatistics) {
    const std::vector<double> values = {9, 1, 4, 16};
    EXPECT_EQ(sample_quantile(values, 0.0), 1.0);
    EXPECT_EQ(sample_quantile(values, 1.0), 16.0);
    EXPECT_DOUBLE_EQ(sample_quantile(values, 0.5), 6.5);
    EXPECT_DOUBLE_EQ(sample_quantile(values, 0.25), 3.25);  // 1 + 0.75 x 3
    EXPECT_DOUBLE_EQ(sample_quantile(values, 0.9), 13.9);   // 9 + 0.7 x 7
    EXPECT_EQ(sample_quantile(std::vector<double>{3.0}, 0.3), 3.0);
}

TEST(SampleQuantile, LeavesTheSampleAsItWas) {
    const std::vector<double> values = {5, 3, 8, 1, 9, 2};
    const std::vector<double> before = values;
    (void)sample_quantile(values, 0.3);
    EXPECT_EQ(values, before);
}

TEST(SampleQuantile, Refuses) {
    const std::vector<double> none;
    const std::vector<double> holed = {1.0, std::nan(""), 2.0};
    const std::vector<double> fine = {1.0, 2.0};
    EXPECT_TRUE(contains(refusal(ErrorKind::shape, [&] { (void)sample_quantile(none, 0.5); }),
                         "no values"));
    EXPECT_TRUE(
        contains(refusal(ErrorKind::domain, [&] { (void)sample_quantile(holed, 0.5); }), "nan"));
    for (const double p : {-0.1, 1.1, std::nan("")}) {
        EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { (void)sample_quantile(fine, p); }),
                             "probability"));
    }
}

}  // namespace
}  // namespace samelight
