// Noise and clipping of a measured spectrum.
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/test_random.hpp"
#include "samelight/spectrum/doubts.hpp"

namespace samelight {
namespace {

using test::Random;

std::vector<double> smooth() {
    std::vector<double> values;
    for (int i = 0; i < 401; ++i) {
        values.push_back(1.0 + 0.5 * std::sin(i / 40.0));
    }
    return values;
}

TEST(Noise, IsEstimatedWithAStandardErrorOf8PercentAndNoBias) {
    // Second route: noise of a known standard deviation. Bounds: the docstring's.
    Random random(71);
    constexpr int trials = 3000;
    double sum = 0.0;
    double squares = 0.0;
    for (int k = 0; k < trials; ++k) {
        std::vector<double> values = smooth();
        for (double& value : values) {
            value += 0.01 * random.normal();
        }
        const Spectrum s(Sampling(), values);
        const double ratio = relative_noise(s) * s.peak() / 0.01;
        sum += ratio;
        squares += ratio * ratio;
    }
    const double mean = sum / trials;
    const double deviation = std::sqrt(squares / trials - mean * mean);
    EXPECT_NEAR(mean, 1.0, 0.01);
    EXPECT_NEAR(deviation, 0.08, 0.005);
}

TEST(Noise, IsRelativeToThePeakAndDoesNotSeeStrength) {
    Random random(72);
    std::vector<double> values = smooth();
    for (double& value : values) {
        value += 0.01 * random.normal();
    }
    const Spectrum s(Sampling(), values);
    EXPECT_NEAR(relative_noise(s.scaled(1000.0)), relative_noise(s), 1e-12);
}

TEST(Noise, OfASmoothSpectrumIsNearlyNothing) {
    EXPECT_LT(relative_noise(Spectrum(Sampling(), smooth())), 1e-6);
}

TEST(Noise, LinesAndFlanksHardlyMoveIt) {
    Random random(73);
    std::vector<double> values = smooth();
    for (double& value : values) {
        value += 0.01 * random.normal();
    }
    const Spectrum without(Sampling(), values);
    for (const std::size_t line : {100U, 200U, 210U, 300U}) {
        values[line] += 1.0;
    }
    for (std::size_t i = 350; i < values.size(); ++i) {
        values[i] += 1.0;
    }
    const Spectrum with(Sampling(), values);
    EXPECT_NEAR(relative_noise(with) * with.peak() / (relative_noise(without) * without.peak()),
                1.0, 0.15);
}

TEST(Noise, NeedsFiveSamplesAndLight) {
    EXPECT_EQ(relative_noise(Spectrum(Sampling(400.0, 1.0, 4), {1.0, 3.0, 1.0, 3.0})), 0.0);
    EXPECT_GT(relative_noise(Spectrum(Sampling(400.0, 1.0, 5), {1.0, 3.0, 1.0, 3.0, 1.0})), 0.0);
    EXPECT_EQ(relative_noise(Spectrum(Sampling(), std::vector<double>(401, 0.0))), 0.0);
    EXPECT_EQ(relative_noise(Spectrum(Sampling(), std::vector<double>(401, -1.0))), 0.0);
}

TEST(Clipping, ThreeNeighboursOfTheLargestValue) {
    const Sampling grid(400.0, 1.0, 7);
    EXPECT_EQ(clipped_samples(Spectrum(grid, {0, 1, 2, 2, 2, 1, 0})), 3U);
    EXPECT_EQ(clipped_samples(Spectrum(grid, {0, 2, 2, 2, 2, 2, 0})), 5U);
    EXPECT_EQ(clipped_samples(Spectrum(grid, {0, 1, 2, 2, 1, 1, 1})), 0U);
    EXPECT_EQ(clipped_samples(Spectrum(grid, {2, 2, 1, 2, 2, 1, 2})), 0U) << "two, two and one";
    EXPECT_EQ(clipped_samples(Spectrum(grid, {2, 2, 2, 1, 2, 2, 0})), 3U) << "the longest counts";
    EXPECT_EQ(clipped_samples(Spectrum(grid, {1, 1, 1, 1, 1, 1, 1})), 0U) << "no peak to clip";
}

TEST(Clipping, ValuesThatOnlyLookEqualAreNotClipped) {
    const double largest = 2.0;
    const double less = std::nextafter(largest, 0.0);
    EXPECT_EQ(clipped_samples(Spectrum(Sampling(400.0, 1.0, 5), {0, less, largest, less, 0})), 0U);
}

}  // namespace
}  // namespace samelight
