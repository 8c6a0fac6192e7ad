// A coarse spectrum spread over its own step: sums as by CIE 15:2018, 7.1, and what lies between.
#include "samelight/spectrum/between_samples.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/spectrum.hpp"

#include <cmath>
#include <cstddef>
#include <numeric>
#include <vector>

#include <gtest/gtest.h>

namespace samelight {
namespace {

Spectrum bump(double first, double step, int count, double centre, double width) {
    std::vector<double> nm;
    std::vector<double> values;
    for (int i = 0; i < count; ++i) {
        nm.push_back(first + step * i);
        values.push_back(std::exp(-std::pow((nm.back() - centre) / width, 2.0)));
    }
    return {nm, values};
}

double total(const std::vector<double>& v) { return std::accumulate(v.begin(), v.end(), 0.0); }

TEST(BetweenSamples, KeepsThePlainSum) {
    for (const double step : {2.0, 4.0, 5.0, 10.0, 3.3, 3.5}) {
        for (const double width : {40.0, 15.0, 2.0}) {
            const Spectrum light = bump(420.0, step, static_cast<int>(300.0 / step), 560.3, width);
            double plain = 0.0;
            for (std::size_t i = 0; i < light.size(); ++i) {
                plain += light.values()[i] * light.band_nm(i);
            }
            EXPECT_NEAR(total(between_samples(light, {})), plain, 1e-12 * plain + 1e-15)
                << step << " " << width;
        }
    }
}

TEST(BetweenSamples, GoesThroughTheSamplesOfWhatTheyResolve) {
    const Spectrum light = bump(380.0, 5.0, 81, 560.0, 30.0);
    const std::vector<double> fine = between_samples(light, {});
    for (std::size_t i = 2; i + 2 < light.size(); ++i) {
        EXPECT_NEAR(fine[5 * i], light.values()[i], 1e-12);
    }
    // Between them, the Gaussian itself: cubic convolution errs by the third power of the step (Keys 1981), here by some 1e-4.
    for (int i = 400; i < 740; ++i) {
        EXPECT_NEAR(fine[static_cast<std::size_t>(i - 380)],
                    std::exp(-std::pow((i - 560.0) / 30.0, 2.0)), 5e-4)
            << i;
    }
}

// A line between two samples keeps its light and its centre, and no more than a third of a step of width.
TEST(BetweenSamples, MakesALineOfWhatTheyDoNot) {
    std::vector<double> nm;
    std::vector<double> values(41, 0.0);
    for (int i = 0; i < 41; ++i) {
        nm.push_back(380.0 + 10.0 * i);
    }
    values[20] = 0.7;  // 580 nm
    values[21] = 0.3;
    const std::vector<double> fine = between_samples({nm, values}, {});
    double moment = 0.0;
    double within = 0.0;
    for (std::size_t i = 0; i < fine.size(); ++i) {
        moment += fine[i] * (380.0 + static_cast<double>(i));
        within += std::abs(380.0 + static_cast<double>(i) - 583.0) <= 4.0 ? fine[i] : 0.0;
    }
    EXPECT_NEAR(total(fine), 10.0, 1e-12);
    EXPECT_NEAR(moment / 10.0, 583.0, 0.05);
    EXPECT_NEAR(within, 10.0, 1e-12);
}

TEST(BetweenSamples, UnevenSamplesAreJoinedLinearly) {
    const std::vector<double> nm = {400.0, 410.0, 411.0, 411.5, 420.0, 440.0, 450.0};
    const std::vector<double> ones(nm.size(), 1.0);
    const std::vector<double> fine = between_samples({nm, ones}, {});
    for (int i = 380; i <= 780; ++i) {
        EXPECT_EQ(fine[static_cast<std::size_t>(i - 380)], i >= 400 && i <= 450 ? 1.0 : 0.0);
    }
}

// Far outside everything, and as wide as a number can be: no light, and an end.
TEST(BetweenSamples, EndsForWavelengthsThatAreNone) {
    for (const Spectrum& odd :
         {Spectrum({500.0, 1e300}, {1.0, 1.0}), Spectrum({100.0, 100.0 + 4294967296.0}, {1.0, 1.0}),
          Spectrum(std::vector<double>{1e299, 2e299, 3e299}, std::vector<double>(3, 1.0))}) {
        const SampledLight light = rebin(odd, {});
        EXPECT_EQ(light.spread.size(), 401U);
        for (const double v : light.spread) {
            EXPECT_TRUE(std::isfinite(v));
        }
    }
}

TEST(Rebinning, SaysWhereTheSpectrumsOwnSamplesLie) {
    const auto grid = [](double first, double step, int count) {
        return rebin(bump(first, step, count, 560.0, 40.0), {}).grid;
    };
    EXPECT_EQ(grid(380.0, 1.0, 401), (OwnGrid{}));
    EXPECT_EQ(grid(380.0, 0.5, 801), (OwnGrid{}));
    EXPECT_EQ(grid(380.0, 5.0, 81), (OwnGrid{5.0, 0, 5}));
    EXPECT_EQ(grid(360.0, 10.0, 43), (OwnGrid{10.0, 0, 10}));
    EXPECT_EQ(grid(375.0, 4.0, 100), (OwnGrid{4.0, 3, 4}));
    EXPECT_EQ(grid(390.0, 4.0, 90), (OwnGrid{4.0, 10, 4}));
    EXPECT_EQ(grid(380.5, 5.0, 80), (OwnGrid{5.0, 0, 0}));
    EXPECT_EQ(grid(380.0, 3.5, 115), (OwnGrid{3.5, 0, 0}));
    EXPECT_EQ(grid(380.5, 1.0, 400), (OwnGrid{1.0, 0, 0}));
    EXPECT_EQ(grid(380.0, 0.75, 533), (OwnGrid{1.0, 0, 0}));
    EXPECT_TRUE(rebin(bump(380.0, 1.0, 401, 560.0, 40.0), {}).spread.empty());
    const SampledLight coarse = rebin(bump(380.0, 5.0, 81, 560.0, 40.0), {});
    EXPECT_EQ(coarse.spread, between_samples(bump(380.0, 5.0, 81, 560.0, 40.0), {}));
    EXPECT_EQ(coarse.values[1], 0.0);
    EXPECT_GT(coarse.spread_column()[1], 0.0);
}

}  // namespace
}  // namespace samelight
