// Ramps of displays with another curve, black or tint than intended: smooth, so no jump. Faults that were put into them are found; a step that was
// mended is none.
#include <array>
#include <cmath>
#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/gradients/measured_ramp.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/pseudo_random.hpp"

namespace samelight::test {
namespace {

constexpr double full_white = 120.0;

/// Of a normal distribution: Box and Muller, Annals of Mathematical Statistics 29 (1958).
double normal_of(PseudoRandom& draw) {
    const double radius = std::sqrt(-2.0 * std::log(draw.next_unit()));
    return radius * std::cos(2.0 * 3.14159265358979323846 * draw.next_unit());
}

/// Written out here, apart from the library: ITU-R BT.1886, annex 1.
double bt1886_light(double s, double black) {
    const double high = std::pow(full_white, 1.0 / 2.4);
    const double low = std::pow(black, 1.0 / 2.4);
    return std::pow((high - low) * s + low, 2.4);
}

using Curve = std::function<double(double)>;

struct NamedCurve {
    std::string name;
    Curve light;
};

std::vector<NamedCurve> other_curves(double black) {
    const double range = full_white - black;
    return {
        {"BT.1886", [=](double s) { return bt1886_light(s, black); }},
        {"power 1.8", [=](double s) { return black + range * std::pow(s, 1.8); }},
        {"power 2.2", [=](double s) { return black + range * std::pow(s, 2.2); }},
        {"power 2.6", [=](double s) { return black + range * std::pow(s, 2.6); }},
        // IEC 61966-2-1.
        {"sRGB",
         [=](double s) {
             return black + range * (s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4));
         }},
        {"rolled off",
         [=](double s) {
             return black + range * std::tanh(1.5 * std::pow(s, 2.2)) / std::tanh(1.5);
         }},
    };
}

IntendedDisplay bt1886_display(double black) {
    CurveOptions options;
    options.kind = CurveKind::bt1886;
    options.white_cd_m2 = full_white;
    options.black_cd_m2 = black;
    return {RgbEncoding::of<Bt709>(), SignalCurve(options)};
}

/// A grey ramp read four times with 0.05 % scatter; its black is bluer than its white.
std::vector<PatchReading> read_curve(std::size_t steps, double black, const Curve& light,
                                     const Curve& signal) {
    std::vector<PatchReading> readings;
    PseudoRandom draw(20261128);
    for (std::size_t k = 0; k <= steps; ++k) {
        const double s = static_cast<double>(k) / static_cast<double>(steps);
        for (int repeat = 0; repeat < 4; ++repeat) {
            const double luminance = light(signal(s));
            const double tint = 0.03 * black / luminance;
            const double x = 0.3127 - tint;
            const double y = 0.3290 - tint;
            PatchReading reading;
            reading.signal = std::array{s, s, s};
            reading.xyz = {luminance * x / y, luminance, luminance * (1.0 - x - y) / y};
            for (double& v : reading.xyz) {
                v *= 1.0 + 0.0005 * normal_of(draw);
            }
            readings.push_back(reading);
        }
    }
    return readings;
}

double plain_signal(double s) { return s; }
/// From the middle on brighter by .006 of the signal: about two visible steps.
double raised_half(double s) { return s > 0.501 ? std::min(1.0, s + 0.006) : s; }

MeasuredFindings judged_smooth(const std::vector<PatchReading>& after,
                               const std::vector<PatchReading>* before, double black) {
    const MeasuredRamps now = measured_ramps(after);
    if (before == nullptr) {
        return judge_measured_ramp(now.ramps.at(0), now.noise, nullptr, bt1886_display(black));
    }
    const MeasuredRamps was = measured_ramps(*before);
    return judge_measured_ramp(now.ramps.at(0), now.noise, &was.ramps.at(0), bt1886_display(black));
}

TEST(RampSmoothness, AnotherCurveIsNoJump) {
    for (const double black : {0.001, 0.05, 0.2}) {
        for (const NamedCurve& curve : other_curves(black)) {
            for (const std::size_t steps : {32U, 64U, 255U}) {
                const MeasuredFindings found = judged_smooth(
                    read_curve(steps, black, curve.light, plain_signal), nullptr, black);
                EXPECT_EQ(found.verdict, StepVerdict::does_not_show)
                    << curve.name << " " << black << " " << steps << " step " << found.worst << ": "
                    << found.steps[found.worst].jump << " +/- "
                    << found.steps[found.worst].expanded;
                // All but those beside black are judged: below a tenth of the signal, in coarse ramps a fifth.
                EXPECT_LT(found.unjudged, 2 + steps / 6) << curve.name << " " << black;
            }
        }
    }
}

TEST(RampSmoothness, AJumpIsFoundInAnyCurve) {
    for (const double black : {0.001, 0.05}) {
        for (const NamedCurve& curve : other_curves(black)) {
            for (const std::size_t steps : {32U, 64U, 255U}) {
                const MeasuredFindings found = judged_smooth(
                    read_curve(steps, black, curve.light, raised_half), nullptr, black);
                ASSERT_EQ(found.verdict, StepVerdict::shows) << curve.name << " " << steps;
                const MeasuredStep& step = found.steps[found.worst];
                EXPECT_LE(step.from.signal[0], 0.501);
                EXPECT_GT(step.to.signal[0], 0.501);
                // By hand: the light beyond the jump over that without it.
                const double from = curve.light(step.from.signal[0]);
                const double by_hand =
                    grey_visible_steps(from, curve.light(raised_half(step.to.signal[0]))) -
                    grey_visible_steps(from, curve.light(step.to.signal[0]));
                EXPECT_NEAR(step.jump, by_hand, 1.5 * step.expanded + 0.05) << curve.name;
            }
        }
    }
}

TEST(RampSmoothness, ChangingTheCurveMakesNoJump) {
    for (const double black : {0.001, 0.05}) {
        const auto before = read_curve(
            64, black, [black](double s) { return bt1886_light(s, black); }, plain_signal);
        for (const NamedCurve& curve : other_curves(black)) {
            const auto after = read_curve(64, black, curve.light, plain_signal);
            EXPECT_EQ(judged_smooth(after, &before, black).verdict, StepVerdict::does_not_show)
                << curve.name;
            EXPECT_EQ(judged_smooth(before, &after, black).verdict, StepVerdict::does_not_show)
                << curve.name;
            EXPECT_EQ(judged_smooth(read_curve(64, black, curve.light, raised_half), &before, black)
                          .verdict,
                      StepVerdict::shows)
                << curve.name;
        }
    }
}

TEST(RampSmoothness, WhatWasMendedIsNoJump) {
    const double black = 0.05;
    const Curve light = [black](double s) { return bt1886_light(s, black); };
    const auto plain = read_curve(64, black, light, plain_signal);
    const Curve reversed = [](double s) { return std::abs(s - 0.5) < 1e-9 ? s - 1.6 / 64.0 : s; };
    const Curve merged = [](double s) { return s > 0.5 && s < 0.5 + 2.5 / 64.0 ? 0.5 : s; };
    for (const Curve& fault : {Curve(raised_half), reversed, merged}) {
        const auto faulty = read_curve(64, black, light, fault);
        EXPECT_EQ(judged_smooth(plain, &faulty, black).verdict, StepVerdict::does_not_show);
        EXPECT_EQ(judged_smooth(faulty, &faulty, black).verdict, StepVerdict::does_not_show);
        EXPECT_EQ(judged_smooth(faulty, &plain, black).verdict, StepVerdict::shows);
    }
    EXPECT_EQ(judged_smooth(read_curve(64, black, light, reversed), &plain, black).reversals, 1U);
    EXPECT_EQ(judged_smooth(plain, &plain, black).reversals, 0U);
}

TEST(RampSmoothness, NothingIsSaidBesideBlack) {
    const MeasuredRamps ramps = measured_ramps(read_curve(
        64, 0.05, [](double s) { return bt1886_light(s, 0.05); }, plain_signal));
    const auto steps = smooth_steps(ramps.ramps.at(0), ramps.noise, bt1886_display(0.05));
    ASSERT_EQ(steps.size(), 64U);
    EXPECT_FALSE(steps[0].known);
    EXPECT_FALSE(steps[1].known);
    EXPECT_TRUE(steps[2].known);
    EXPECT_TRUE(steps[63].known);
    for (std::size_t i = 2; i < steps.size(); ++i) {
        EXPECT_NEAR(steps[i].beyond.luminance, 0.0, 5.0 * std::sqrt(steps[i].variance.luminance));
    }
    MeasuredRamp few = ramps.ramps[0];
    few.points.resize(least_ramp_points - 1);
    EXPECT_THROW(static_cast<void>(smooth_steps(few, 0.001, bt1886_display(0.05))), Error);
}

/// How often the figures hold what they state: of 60 smooth ramps, the true jump (none) is outside U in about one of twenty steps.
TEST(RampSmoothness, TheStatedDoubtHolds) {
    std::size_t outside = 0;
    std::size_t all = 0;
    PseudoRandom draw(5);
    const IntendedDisplay intended = bt1886_display(0.01);
    for (int ramp = 0; ramp < 60; ++ramp) {
        MeasuredRamp read{StepKind::grey, {}};
        for (std::size_t k = 0; k <= 64; ++k) {
            const double s = static_cast<double>(k) / 64.0;
            RampPoint point{{s, s, s}, intended.xyz({s, s, s}), 1};
            const double common = 1.0 + 0.003 * normal_of(draw);
            for (double& v : point.xyz) {
                v *= common;
            }
            read.points.push_back(point);
        }
        for (const SmoothStep& step : smooth_steps(read, 0.003, intended)) {
            if (!step.known) {
                continue;
            }
            ++all;
            outside += std::abs(step.beyond.luminance) > 2.0 * std::sqrt(step.variance.luminance)
                           ? 1U
                           : 0U;
        }
    }
    EXPECT_GT(all, 3000U);
    EXPECT_NEAR(static_cast<double>(outside) / static_cast<double>(all), 0.0455, 0.01);
}

}  // namespace
}  // namespace samelight::test
