// What a saturated instrument leaves of a peak, and what only looks like it.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/test_random.hpp"
#include "samelight/spectrum/clipping.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "spectrum/line_spectra.hpp"

namespace samelight {
namespace {

using test::Line;
using test::lines_on;
using test::Random;

std::vector<double> values_of(const Spectrum& s) { return {s.values().begin(), s.values().end()}; }

/// Second route of these tests: the cut itself, at this share of the largest value.
std::vector<double> cut(const Spectrum& s, double share) {
    std::vector<double> values = values_of(s);
    for (double& value : values) {
        value = std::fmin(value, share * s.peak());
    }
    return values;
}

double to_digits(double value, int digits) {
    if (std::fabs(value) < 1e-30) {
        return 0.0;
    }
    const double unit = std::pow(10.0, std::floor(std::log10(std::fabs(value))) - digits + 1);
    return std::round(value / unit) * unit;
}

const Sampling by_1_nm(380.0, 1.0, 401);

Spectrum green() { return lines_on(by_1_nm, {{533.3, 40.0, 0.734}}); }

TEST(FlatTops, OfACutPeakAreFoundWithTheirSamples) {
    // A Gaussian of 40 nm is above 80 % of its top over 40 sqrt(log2(1.25)) = 22.7 nm: from 522.0 to 544.6.
    const std::vector<FlatTop> found = flat_tops(Spectrum(by_1_nm, cut(green(), 0.8)));
    ASSERT_EQ(found.size(), 1U);
    EXPECT_NEAR(by_1_nm.wavelength_nm(static_cast<int>(found[0].first)), 522.0, 1.01);
    EXPECT_NEAR(by_1_nm.wavelength_nm(static_cast<int>(found[0].last)), 544.6, 1.01);
    EXPECT_EQ(found[0].count(), found[0].last - found[0].first + 1);
}

TEST(FlatTops, NeedNotBeEqualToTheLastBit) {
    Random random(81);
    for (const double noise : {1e-6, 1e-5, 1e-4, 1e-3}) {
        for (int k = 0; k < 50; ++k) {
            std::vector<double> values = cut(green(), 0.8);
            for (double& value : values) {
                value *= 1.0 + noise * random.normal();
            }
            const std::vector<FlatTop> found = flat_tops(Spectrum(by_1_nm, values));
            ASSERT_EQ(found.size(), 1U) << noise;
            EXPECT_GE(found[0].count(), 20U) << noise;
        }
    }
}

TEST(FlatTops, ShowAtEachPeakThatWasCut) {
    const Spectrum three =
        lines_on(by_1_nm, {{450.2, 20.0, 1.0}, {533.7, 30.0, 0.9}, {629.1, 25.0, 0.5}});
    const std::vector<FlatTop> found = flat_tops(Spectrum(by_1_nm, cut(three, 0.6)));
    ASSERT_EQ(found.size(), 2U);
    EXPECT_NEAR(by_1_nm.wavelength_nm(static_cast<int>(found[0].first)), 441.0, 1.5);
    EXPECT_NEAR(by_1_nm.wavelength_nm(static_cast<int>(found[1].last)), 545.0, 1.5);
}

TEST(FlatTops, OutliveScalingRoundingAndAveraging) {
    for (const double share : {0.95, 0.8, 0.5}) {
        const std::vector<double> values = cut(green(), share);
        std::vector<double> scaled;
        std::vector<double> rounded;
        std::vector<double> mean;
        for (std::size_t i = 0; i < values.size(); ++i) {
            scaled.push_back(values[i] * 683.0 / 3.0);
            rounded.push_back(to_digits(values[i], 4));
            // Three readings whose ceilings lie 0.4 % apart.
            const double whole = green().values()[i];
            mean.push_back((std::fmin(whole, 0.996 * share * 0.734) +
                            std::fmin(whole, 1.004 * share * 0.734) + values[i]) /
                           3.0);
        }
        for (const std::vector<double>& v : {scaled, rounded, mean}) {
            EXPECT_EQ(flat_tops(Spectrum(by_1_nm, v)).size(), 1U) << share;
        }
    }
}

// The docstring's share: peaks of 20 to 80 nm, cut at 95 % of their height, four digits.
TEST(FlatTops, OfFivePercentAreMostlySeen) {
    Random random(82);
    int seen = 0;
    for (int k = 0; k < 200; ++k) {
        const Spectrum s = lines_on(
            by_1_nm,
            {{random.between(440.0, 640.0), random.between(20.0, 80.0), random.between(1.0, 9.0)}});
        std::vector<double> values = cut(s, 0.95);
        for (double& value : values) {
            value = to_digits(value, 4);
        }
        seen += flat_tops(Spectrum(by_1_nm, values)).empty() ? 0 : 1;
    }
    EXPECT_GE(seen, 190);
}

TEST(FlatTops, AreNoRoundedTops) {
    Random random(83);
    for (int k = 0; k < 2000; ++k) {
        const double step = std::vector<double>{1.0, 2.0, 5.0}[static_cast<std::size_t>(k % 3)];
        const Sampling grid(380.0, step, static_cast<int>(400.0 / step) + 1);
        const Spectrum s =
            lines_on(grid, {{random.between(440.0, 640.0), random.between(15.0, 150.0),
                             std::pow(10.0, random.between(-3.0, 3.0))}});
        std::vector<double> values = values_of(s);
        const int digits = random.whole(2, 4);
        for (double& value : values) {
            value = to_digits(value, digits);
        }
        EXPECT_TRUE(flat_tops(Spectrum(grid, values)).empty())
            << digits << " digits by " << step << " nm, " << s.peak();
        for (double& value : values) {
            value *= 1.0 / 3.0;  // no round numbers any more
        }
        EXPECT_TRUE(flat_tops(Spectrum(grid, values)).empty())
            << "scaled, " << digits << " digits by " << step << " nm, " << s.peak();
    }
}

TEST(FlatTops, AreNoFixedPointTops) {
    // As counts of a converter of few bits, and as decimals of a fixed number.
    Random random(84);
    for (int k = 0; k < 500; ++k) {
        std::vector<double> values =
            values_of(lines_on(by_1_nm, {{random.between(440.0, 640.0), random.between(15.0, 150.0),
                                          random.between(50.0, 1000.0)}}));
        for (double& value : values) {
            value = std::round(value);
        }
        EXPECT_TRUE(flat_tops(Spectrum(by_1_nm, values)).empty()) << k;
    }
}

TEST(FlatTops, AreNoLinesNorSmoothShoulders) {
    Random random(85);
    for (int k = 0; k < 2000; ++k) {
        const Line line{random.between(440.0, 660.0), random.between(0.3, 12.0), 1.0};
        EXPECT_TRUE(flat_tops(lines_on(by_1_nm, {line})).empty()) << line.width_nm;
        // Two peaks at all distances: where they just merge the top is flat to the third order.
        const double apart = random.between(0.0, 3.0) * 20.0;
        EXPECT_TRUE(flat_tops(lines_on(by_1_nm, {{500.0 + line.width_nm, 20.0, 1.0},
                                                 {500.0 + line.width_nm + apart, 20.0,
                                                  random.between(0.95, 1.05)}}))
                        .empty())
            << apart;
    }
    for (const Spectrum& light : {illuminant_a(), d_illuminant(6500.0), d_illuminant(5000.0)}) {
        EXPECT_TRUE(flat_tops(light).empty());
    }
}

TEST(FlatTops, AreNoneInNoiseNorBetweenInterpolatedSamples) {
    Random random(86);
    for (int k = 0; k < 300; ++k) {
        std::vector<double> noisy = values_of(green());
        std::vector<double> nothing;
        for (double& value : noisy) {
            value += 0.02 * random.normal();
            nothing.push_back(random.normal());
        }
        EXPECT_TRUE(flat_tops(Spectrum(by_1_nm, noisy)).empty());
        EXPECT_TRUE(flat_tops(Spectrum(by_1_nm, nothing)).empty());
        const Spectrum coarse =
            lines_on(Sampling(380.0, 5.0, 81),
                     {{random.between(440.0, 640.0), random.between(20.0, 80.0), 1.0}});
        std::vector<double> between;
        for (int nm = 380; nm <= 780; ++nm) {
            between.push_back(coarse.at(nm));
        }
        EXPECT_TRUE(flat_tops(Spectrum(by_1_nm, between)).empty());
    }
}

TEST(FlatTops, OfNarrowLinesArePairsAtOneCeiling) {
    std::vector<double> values(401, 0.0);
    const auto line = [&](std::size_t at, double before, double behind) {
        values[at - 1] = before;
        values[at] = values[at + 1] = 0.91744;
        values[at + 2] = behind;
    };
    line(70, 0.31622, 0.42712);
    EXPECT_TRUE(flat_tops(Spectrum(by_1_nm, values)).empty()) << "one pair may be chance";
    line(250, 0.56117, 0.11303);
    const std::vector<FlatTop> found = flat_tops(Spectrum(by_1_nm, values));
    ASSERT_EQ(found.size(), 2U);
    EXPECT_EQ(found[0], (FlatTop{70, 71}));
    EXPECT_EQ(found[1], (FlatTop{250, 251}));
}

TEST(FlatTops, OfWhatIsFlatThroughoutAreNone) {
    EXPECT_TRUE(flat_tops(Spectrum(by_1_nm, std::vector<double>(401, 1.0))).empty());
    EXPECT_TRUE(flat_tops(Spectrum(by_1_nm, std::vector<double>(401, 0.0))).empty());
    EXPECT_TRUE(flat_tops(Spectrum(by_1_nm, std::vector<double>(401, -1.0))).empty());
    EXPECT_TRUE(flat_tops(Spectrum(Sampling(400.0, 1.0, 2), {1.0, 1.0})).empty());
}

TEST(FlatTops, TakeNoLongerThanTheFileIsLong) {
    // What the reader accepts at most, in the worst orders: noise, one height, and a saw of ever higher teeth.
    Random random(87);
    const Sampling grid(400.0, 0.003, 100000);
    std::vector<double> noise;
    std::vector<double> saw;
    for (int i = 0; i < grid.count(); ++i) {
        noise.push_back(1.0 + 1e-3 * random.normal());
        saw.push_back(1.0 + 1e-6 * i - (i % 2 == 0 ? 0.0 : 1e-5));
    }
    for (const std::vector<double>& values : {noise, saw, std::vector<double>(noise.size(), 1.0)}) {
        EXPECT_TRUE(flat_tops(Spectrum(grid, values)).empty());
    }
}

}  // namespace
}  // namespace samelight
