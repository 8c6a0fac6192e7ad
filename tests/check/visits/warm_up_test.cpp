// Whether a display has warmed up: whites that approach their end at a known pace.
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/visits/warm_up.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/propagation.hpp"
#include "samelight/numeric/pseudo_random.hpp"

namespace samelight::test {
namespace {

/// White that comes to its end with a time constant of 12 min, read each minute.
std::vector<WarmUpReading> warming(int from_min, int to_min, double noise, PseudoRandom& random) {
    std::vector<WarmUpReading> readings;
    for (int t = from_min; t <= to_min; ++t) {
        const double away = std::exp(-t / 12.0);
        readings.push_back(
            {60.0 * t, xyz_from_xyY(0.3127 + 0.006 * away + noise * draw_normal(random),
                                    0.3290 + 0.004 * away + noise * draw_normal(random),
                                    120.0 * (1.0 - 0.10 * away) *
                                        std::exp(10.0 * noise * draw_normal(random)))});
    }
    return readings;
}

/// Minute from which the limits hold: .006 e^(-t/12) (e^(10/12) - 1) = .0005, by hand.
const double steady_from = 12.0 * std::log(0.006 * (std::exp(10.0 / 12.0) - 1.0) / 0.0005);

TEST(WarmUp, SteadyMeansBegin) {
    PseudoRandom random(1);
    const WarmUp warm = judge_warm_up(warming(60, 72, 0.0001, random));
    EXPECT_EQ(warm.verdict, WarmUpVerdict::begin);
    EXPECT_LT(std::abs(warm.moves[0].change), 0.0005);
    EXPECT_FALSE(warm.wait);
}

TEST(WarmUp, AWhiteThatMovesIsWaitedFor) {
    PseudoRandom random(2);
    const WarmUp cold = judge_warm_up(warming(0, 15, 0.0, random));
    EXPECT_EQ(cold.verdict, WarmUpVerdict::wait);
    ASSERT_TRUE(cold.wait);
    EXPECT_NEAR(cold.wait->likely_min, steady_from - 15.0, 0.6) << "the grid of time constants";
}

TEST(WarmUp, ItsRangeHoldsTheTruth) {
    PseudoRandom random(3);
    int inside = 0;
    constexpr int tried = 1500;
    for (int i = 0; i < tried; ++i) {
        const WarmUp cold = judge_warm_up(warming(0, 15, 0.0001, random));
        ASSERT_EQ(cold.verdict, WarmUpVerdict::wait);
        inside += cold.wait && cold.wait->least_min <= steady_from - 15.0 &&
                          steady_from - 15.0 <= cold.wait->most_min
                      ? 1
                      : 0;
    }
    EXPECT_NEAR(inside / static_cast<double>(tried), 0.95, 3.0 * std::sqrt(0.95 * 0.05 / tried));
}

TEST(WarmUp, TheDoubtOfAMoveHoldsTheTruth) {
    PseudoRandom random(4);
    int inside = 0;
    constexpr int tried = 500;
    for (int i = 0; i < tried; ++i) {
        std::vector<WarmUpReading> readings;
        for (int t = 0; t <= 10; ++t) {
            readings.push_back(
                {60.0 * t,
                 xyz_from_xyY(0.3127 + 0.00003 * t + 0.0001 * draw_normal(random), 0.3290, 100.0)});
        }
        const WarmUpMove x = judge_warm_up(readings).moves[0];
        inside += std::abs(x.change - 0.0003) <= x.doubt ? 1 : 0;
    }
    EXPECT_NEAR(inside / static_cast<double>(tried), 0.95, 3.0 * std::sqrt(0.95 * 0.05 / tried));
}

TEST(WarmUp, TooShortOrTooNoisyIsSaid) {
    PseudoRandom random(5);
    EXPECT_EQ(judge_warm_up(warming(60, 65, 0.0001, random)).verdict, WarmUpVerdict::read_longer);
    EXPECT_EQ(judge_warm_up(warming(60, 72, 0.002, random)).verdict,
              WarmUpVerdict::read_more_often);
}

TEST(WarmUp, WhatIsNoWhiteIsRefused) {
    PseudoRandom random(6);
    std::vector<WarmUpReading> readings = warming(0, 12, 0.0, random);
    readings[3].xyz = {0.0, 0.0, 0.0};
    EXPECT_THROW(judge_warm_up(readings), Error);
    EXPECT_THROW(judge_warm_up(std::vector<WarmUpReading>(3, readings[0])), Error);
    readings[3] = readings[2];
    readings[3].time_s = std::nan("");
    EXPECT_THROW(judge_warm_up(readings), Error);
}

}  // namespace
}  // namespace samelight::test
