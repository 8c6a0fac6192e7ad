// Noise of a measured spectrum.
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/test_random.hpp"
#include "samelight/spectrum/noise.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

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

// Second route for the columns of noise: noise of a known standard deviation. Bounds: the docstring's.
TEST(HeightOfNoise, IsEightDeviationsOfASample) {
    Random random(74);
    double sum = 0.0;
    for (int k = 0; k < 300; ++k) {
        std::vector<double> values = smooth();
        for (double& value : values) {
            value += 0.01 * random.normal();
        }
        const Spectrum s(Sampling(), values);
        sum += height_of_noise(s) * s.peak() / 0.08;
    }
    // The larger of two estimates lies somewhat above either.
    EXPECT_NEAR(sum / 300.0, 1.0, 0.1);
    EXPECT_EQ(height_of_noise(Spectrum(Sampling(400.0, 1.0, 4), {1.0, 3.0, 1.0, 3.0})), 0.0);
    EXPECT_EQ(height_of_noise(Spectrum(Sampling(), std::vector<double>(401, -1.0))), 0.0);
}

TEST(HeightOfNoise, SeesNoiseThatComesWithTheLight) {
    // 4 % of each sample: nothing in the dark three quarters of the range.
    Random random(75);
    const Sampling grid(380.0, 1.0, 401);
    double sum = 0.0;
    for (int k = 0; k < 100; ++k) {
        std::vector<double> values;
        for (int nm = 380; nm <= 780; ++nm) {
            const double t = (nm - 540) / 40.0;
            values.push_back(std::exp(-t * t) * (1.0 + 0.04 * random.normal()));
        }
        sum += height_of_noise(Spectrum(grid, values)) / 0.04;
    }
    // Where half of the light or more is, the noise is 2 to 4 % of the top.
    EXPECT_GT(sum / 100.0, 4.0);
    EXPECT_LT(sum / 100.0, 8.0);
}

TEST(HeightOfNoise, IsNotMadeOfLines) {
    // Eight lines of two samples' width on a coarse grid, all over it: more than half of all fourth differences are theirs.
    std::vector<double> values(101, 0.0);
    for (std::size_t i = 6; i < 94; i += 12) {
        values[i - 1] = 0.5;
        values[i] = 1.0;
        values[i + 1] = 0.4;
    }
    const Spectrum lines(Sampling(300.0, 5.0, 101), values);
    EXPECT_GT(relative_noise(lines), 0.01);
    EXPECT_LT(height_of_noise(lines), 0.05);
}

TEST(SumsToNoise, CountsInStandardErrorsWhateverTheStep) {
    // The standard error of a mean of n samples is their deviation by the root of n (JCGM 100:2008, 4.2.3), however wide the samples are.
    constexpr int n = 81;
    for (const double step : {0.5, 1.0, 5.0, 10.0}) {
        for (const double errors : {2.0, 8.0}) {
            Random random(79);
            std::vector<double> values;
            double mean = 0.0;
            for (int i = 0; i < n; ++i) {
                values.push_back(0.01 * random.normal());
                mean += values.back() / n;
            }
            for (double& value : values) {
                value += errors * 0.01 / std::sqrt(n) - mean;
            }
            const Spectrum s(Sampling(200.0, step, n), values);
            const auto all = [](double) { return true; };
            EXPECT_EQ(sums_to_noise(s, all), errors < 4.0) << errors << " by " << step << " nm";
        }
    }
}

TEST(SumsToNoise, TellsLightFromNoise) {
    Random random(76);
    int light = 0;
    int noise = 0;
    for (int k = 0; k < 300; ++k) {
        std::vector<double> values;
        std::vector<double> dim;
        for (int i = 0; i < 401; ++i) {
            values.push_back(random.normal());
            dim.push_back(random.normal() + 0.5);  // a sum 10 standard errors from nothing
        }
        noise += sums_to_noise(Spectrum(Sampling(), values)) ? 1 : 0;
        light += sums_to_noise(Spectrum(Sampling(), dim)) ? 0 : 1;
    }
    EXPECT_GE(noise, 299);
    EXPECT_EQ(light, 300);
    EXPECT_FALSE(sums_to_noise(Spectrum(Sampling(), smooth())));
}

}  // namespace
}  // namespace samelight
