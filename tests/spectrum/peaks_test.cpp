// Which local maxima of a spectrum count, and how wide they are.
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/test_random.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "spectrum/line_spectra.hpp"

namespace samelight {
namespace {

using test::Line;
using test::lines_on;
using test::Random;

std::vector<double> with_noise(const Spectrum& s, Random& random, double amplitude) {
    std::vector<double> values(s.values().begin(), s.values().end());
    for (double& value : values) {
        value += random.between(-amplitude, amplitude);
    }
    return values;
}

std::vector<double> backwards(const Spectrum& s) {
    return {s.values().rbegin(), s.values().rend()};
}

TEST(Peaks, WidthAndTopOfALineAloneAreRecoveredAtEveryPhase) {
    // Second route: the line itself. From lines far too narrow for the step to smooth ones.
    for (const double step : {0.5, 1.0, 5.0, 10.0}) {
        for (double in_steps = 0.3; in_steps < 8.0; in_steps *= 1.1) {
            for (double phase = 0.0; phase < 1.0; phase += 0.05) {
                const Sampling grid(400.0, step, 101);
                const Line line{400.0 + step * (50.0 + phase), in_steps * step, 3.0};
                const std::vector<Peak> found = peaks(lines_on(grid, {line}));
                ASSERT_EQ(found.size(), 1U) << in_steps << " steps, phase " << phase;
                EXPECT_NEAR(found[0].width_nm, line.width_nm, 1e-9 * line.width_nm);
                EXPECT_NEAR(found[0].nm, line.nm, 1e-9 * step);
                EXPECT_EQ(found[0].height, 1.0);
                EXPECT_NEAR(found[0].step_nm, step, 1e-12);
            }
        }
    }
}

TEST(Peaks, WidthAndTopAreRecoveredOnUnevenWavelengths) {
    Random random(61);
    for (int k = 0; k < 500; ++k) {
        const std::vector<double> nm = random.uneven(400.0, 700.0, 4.0);
        const Line line{random.between(450.0, 650.0), random.between(5.0, 40.0), 1.0};
        std::vector<double> values;
        for (const double x : nm) {
            values.push_back(gaussian(line, x));
        }
        const std::vector<Peak> found = peaks(Spectrum(nm, values));
        ASSERT_EQ(found.size(), 1U);
        EXPECT_NEAR(found[0].width_nm, line.width_nm, 1e-9 * line.width_nm);
        EXPECT_NEAR(found[0].nm, line.nm, 1e-9 * line.width_nm);
        const std::size_t i = found[0].index;
        EXPECT_EQ(found[0].step_nm, std::fmax(nm[i] - nm[i - 1], nm[i + 1] - nm[i]));
    }
}

TEST(Peaks, AreListedByWavelengthWithHeightAndShare) {
    const Sampling grid(400.0, 1.0, 301);
    const std::vector<Peak> found =
        peaks(lines_on(grid, {{450.0, 20.0, 0.5}, {530.0, 30.0, 1.0}, {630.0, 10.0, 0.2}}));
    ASSERT_EQ(found.size(), 3U);
    EXPECT_NEAR(found[0].nm, 450.0, 0.1);
    EXPECT_NEAR(found[1].nm, 530.0, 0.1);
    EXPECT_NEAR(found[2].nm, 630.0, 0.1);
    EXPECT_NEAR(found[0].height, 0.5, 1e-3);
    EXPECT_EQ(found[1].height, 1.0);
    EXPECT_NEAR(found[2].height, 0.2, 1e-3);
    // Second route: by hand. The three highest samples of the middle line over all light: 3 of 50 nm x 1.0645.
    EXPECT_NEAR(found[1].share, 3.0 / (1.0645 * (20.0 * 0.5 + 30.0 + 10.0 * 0.2)), 1e-3);
}

TEST(Peaks, OneTooLowOrTooShallowDoesNotCount) {
    const Sampling grid(400.0, 1.0, 301);
    EXPECT_EQ(peaks(lines_on(grid, {{450.0, 20.0, 0.049}, {550.0, 20.0, 1.0}})).size(), 1U);
    EXPECT_EQ(peaks(lines_on(grid, {{450.0, 20.0, 0.051}, {550.0, 20.0, 1.0}})).size(), 2U);
    // Two lines so close that the valley between them is 3 % deep; and 20 %.
    EXPECT_EQ(peaks(lines_on(grid, {{540.0, 20.0, 1.0}, {558.7, 20.0, 1.0}})).size(), 1U);
    EXPECT_EQ(peaks(lines_on(grid, {{540.0, 20.0, 1.0}, {564.0, 20.0, 1.0}})).size(), 2U);
    // The height that counts is the caller's.
    EXPECT_EQ(peaks(lines_on(grid, {{450.0, 20.0, 0.2}, {550.0, 20.0, 1.0}}), 0.3).size(), 1U);
}

TEST(Peaks, ALeastHeightOfNoneFindsEveryMaximum) {
    const Spectrum s(Sampling(400.0, 1.0, 8), {0.0, 1.0, 0.999, 1.0, 0.5, 0.5001, 0.1, 0.2});
    const std::vector<Peak> found = peaks(s, 0.0);
    ASSERT_EQ(found.size(), 3U);
    EXPECT_EQ(found[0].index, 1U);
    EXPECT_EQ(found[1].index, 3U);
    EXPECT_EQ(found[2].index, 5U);
}

TEST(Peaks, NoiseBelowTheHeightMakesNone) {
    // 2 % of the largest value either way, so neighbours differ by 4 % at most: less than the 5 % that counts.
    Random random(62);
    const Sampling grid(380.0, 5.0, 81);
    const Line broad{560.0, 120.0, 1.0};
    for (int k = 0; k < 300; ++k) {
        const Spectrum s(grid, with_noise(lines_on(grid, {broad}), random, 0.02));
        ASSERT_EQ(peaks(s).size(), 1U);
    }
}

TEST(Peaks, NoiseAtTheEndsOfTheRangeMakesNone) {
    // A light that rises to the end of the range, and one that falls from its beginning.
    Random random(63);
    const Sampling grid(380.0, 5.0, 81);
    const Spectrum a = illuminant_a(grid);
    for (int k = 0; k < 300; ++k) {
        EXPECT_TRUE(peaks(Spectrum(grid, with_noise(a, random, 0.02 * a.peak()))).empty());
        const Spectrum falling(grid, backwards(a));
        EXPECT_TRUE(peaks(Spectrum(grid, with_noise(falling, random, 0.02 * a.peak()))).empty());
    }
}

TEST(Peaks, AMaximumAtTheEdgeOfTheRangeIsNone) {
    const Sampling grid(400.0, 1.0, 101);
    EXPECT_TRUE(peaks(lines_on(grid, {{400.0, 20.0, 1.0}})).empty());
    EXPECT_TRUE(peaks(lines_on(grid, {{500.0, 20.0, 1.0}})).empty());
    EXPECT_TRUE(peaks(lines_on(grid, {{499.0, 20.0, 1.0}})).empty());  // has fallen by 0.7 % only
    EXPECT_EQ(peaks(lines_on(grid, {{490.0, 20.0, 1.0}})).size(), 1U);
}

TEST(Peaks, BackwardsTheSameAreFound) {
    Random random(64);
    const Sampling grid(400.0, 1.0, 301);
    for (int k = 0; k < 100; ++k) {
        std::vector<Line> lines(4);
        for (Line& line : lines) {
            line = {random.between(390.0, 710.0), random.between(2.0, 40.0),
                    random.between(0.0, 1.0)};
        }
        const Spectrum s = lines_on(grid, lines);
        const auto forwards = peaks(s);
        const auto mirrored = peaks(Spectrum(grid, backwards(s)));
        ASSERT_EQ(forwards.size(), mirrored.size());
        for (std::size_t i = 0; i < forwards.size(); ++i) {
            const Peak& other = mirrored[mirrored.size() - 1 - i];
            EXPECT_EQ(forwards[i].index, 300 - other.index);
            EXPECT_NEAR(forwards[i].width_nm, other.width_nm, 1e-9);
            EXPECT_NEAR(forwards[i].share, other.share, 1e-12);
        }
    }
}

TEST(Peaks, ALineInOneSampleHasNoWidth) {
    const Spectrum s(Sampling(400.0, 10.0, 5), {0.0, 0.0, 1.0, 0.0, 0.0});
    const std::vector<Peak> found = peaks(s);
    ASSERT_EQ(found.size(), 1U);
    EXPECT_EQ(found[0].width_nm, 0.0);
    EXPECT_EQ(found[0].nm, 420.0);
    EXPECT_EQ(found[0].share, 1.0);
    EXPECT_FALSE(found[0].resolved());
}

// Second route: noise of a known standard deviation, in which there is no peak by construction.
TEST(Peaks, OfNoiseHaveNoHeightBelowNothingAndStandOutOfNoColumn) {
    Random random(65);
    int columns_with_peaks = 0;
    int columns_full = 0;
    for (int k = 0; k < 1000; ++k) {
        std::vector<double> values;
        for (int i = 0; i < 401; ++i) {
            values.push_back(random.normal());
        }
        const Spectrum s(Sampling(), values);
        const std::vector<Peak> all = peaks(s);
        columns_full += all.size() > 20 ? 1 : 0;
        for (const Peak& peak : all) {
            EXPECT_GE(peak.height, 0.05);
        }
        columns_with_peaks += peaks(s, least_peak_height(s)).empty() ? 0 : 1;
    }
    EXPECT_GT(columns_full, 300) << "a sum below nothing has no peaks";
    EXPECT_LT(columns_with_peaks, 5);
}

TEST(Peaks, ThatStandOutOfTheNoiseAreFoundAlone) {
    // A line of 30 nm with noise of 4 % of its height: by 5 % of the largest value dozens of maxima count.
    Random random(66);
    int alone = 0;
    for (int k = 0; k < 200; ++k) {
        const Sampling grid(380.0, 1.0, 401);
        const Spectrum clean = lines_on(grid, {{460.0, 30.0, 1.0}});
        std::vector<double> values(clean.values().begin(), clean.values().end());
        for (double& value : values) {
            value += 0.04 * random.normal();
        }
        const Spectrum s(grid, values);
        EXPECT_GT(peaks(s).size(), 5U);
        const std::vector<Peak> found = peaks(s, least_peak_height(s));
        alone += found.size() == 1 && std::fabs(found[0].nm - 460.0) < 15.0 ? 1 : 0;
    }
    EXPECT_GE(alone, 198);
}

TEST(Peaks, OfACleanColumnNeedNoMoreThanTheyDid) {
    for (const double step : {1.0, 5.0, 10.0}) {
        const Sampling grid(380.0, step, static_cast<int>(400.0 / step) + 1);
        for (const Line& line : {Line{451.0, 20.0, 1.0}, Line{633.0, 2.0, 1.0}}) {
            EXPECT_EQ(least_peak_height(lines_on(grid, {line})), 0.05) << step << " " << line.nm;
        }
    }
}

TEST(Peaks, WithoutLightThereAreNone) {
    EXPECT_TRUE(peaks(Spectrum(Sampling(), std::vector<double>(401, 0.0))).empty());
    EXPECT_TRUE(peaks(Spectrum(Sampling(), std::vector<double>(401, -1.0))).empty());
    EXPECT_TRUE(peaks(Spectrum(Sampling(), std::vector<double>(401, 1.0))).empty());
}

}  // namespace
}  // namespace samelight
