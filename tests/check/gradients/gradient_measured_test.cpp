// Measured ramps: jumps that were put in are found, smooth changes are none.
#include <array>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/gradients/measured_ramp.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/pseudo_random.hpp"

namespace samelight::test {
namespace {

IntendedDisplay power_display() {
    CurveOptions options;
    options.kind = CurveKind::power;
    return {RgbEncoding::of<Bt709>(), SignalCurve(options)};
}

/// Noise without a generator: equally far to both sides of the mean, in turn.
double alternating(std::size_t i, double noise) { return 1.0 + (i % 2 == 0 ? noise : -noise); }

template <class Change>
std::vector<PatchReading> read_greys(std::size_t steps, std::size_t repeats, double noise,
                                     const Change& change) {
    std::vector<PatchReading> readings;
    for (std::size_t k = 0; k <= steps; ++k) {
        const double s = static_cast<double>(k) / static_cast<double>(steps);
        for (std::size_t i = 0; i < repeats; ++i) {
            PatchReading reading;
            reading.signal = std::array{s, s, s};
            reading.xyz = power_display().xyz({change(s), change(s), change(s)});
            for (double& v : reading.xyz) {
                v *= alternating(i + k, noise);
            }
            readings.push_back(reading);
        }
    }
    return readings;
}

double same(double s) { return s; }
double smooth(double s) { return 0.96 * s + 0.01 * s * (1.0 - s); }
double jumping(double s) { return s > 0.601 ? s + 0.004 : s; }

MeasuredFindings judged(const std::vector<PatchReading>& after,
                        const std::vector<PatchReading>& before) {
    const MeasuredRamps now = measured_ramps(after);
    const MeasuredRamps was = measured_ramps(before);
    return judge_measured_ramp(now.ramps.at(0), now.noise, &was.ramps.at(0), power_display());
}

TEST(GradientMeasured, RepeatsAreMeansAndTellTheScatter) {
    const MeasuredRamps ramps = measured_ramps(read_greys(32, 4, 0.01, same));
    ASSERT_EQ(ramps.ramps.size(), 1U);
    EXPECT_EQ(ramps.ramps[0].points.size(), 33U);
    EXPECT_EQ(ramps.ramps[0].points[5].readings, 4U);
    EXPECT_TRUE(ramps.noise_known);
    // Squares of .01 with three of four free.
    EXPECT_NEAR(ramps.noise, 0.01 * std::sqrt(4.0 / 3.0), 1e-9);
    const MeasuredRamps once = measured_ramps(read_greys(32, 1, 0.0, same));
    EXPECT_FALSE(once.noise_known);
    EXPECT_EQ(once.noise, assumed_ramp_noise);
}

TEST(GradientMeasured, AJumpThatWasPutInIsFoundWhereItIs) {
    const auto before = read_greys(64, 4, 1e-5, same);
    const MeasuredFindings found = judged(read_greys(64, 4, 1e-5, jumping), before);
    EXPECT_EQ(found.verdict, StepVerdict::shows);
    const MeasuredStep& step = found.steps[found.worst];
    EXPECT_NEAR(step.from.signal[0], 0.594, 0.001);
    EXPECT_NEAR(step.to.signal[0], 0.609, 0.001);
    // The jump by hand: the step's own change in visible steps.
    const auto grey = [](double s) { return 100.0 * std::pow(s, 2.4); };
    const double by_hand = grey_visible_steps(grey(38 / 64.0), grey(39 / 64.0 + 0.004)) -
                           grey_visible_steps(grey(38 / 64.0), grey(39 / 64.0));
    EXPECT_NEAR(step.jump, by_hand, 0.25 + 2.0 * step.expanded);
}

TEST(GradientMeasured, SmoothChangesAreNoJumps) {
    const auto before = read_greys(64, 4, 1e-5, same);
    EXPECT_EQ(judged(read_greys(64, 4, 1e-5, smooth), before).verdict, StepVerdict::does_not_show);
    EXPECT_EQ(judged(before, before).verdict, StepVerdict::does_not_show);
}

TEST(GradientMeasured, NoiseMakesItUncertain) {
    const auto before = read_greys(64, 2, 0.02, same);
    const MeasuredFindings found = judged(read_greys(64, 2, 0.02, same), before);
    EXPECT_EQ(found.verdict, StepVerdict::cannot_tell);
    EXPECT_GT(found.steps[found.worst].expanded, 1.0);
}

TEST(GradientMeasured, FlatAndReversedStepsAreCounted) {
    const auto folded = [](double s) {
        return s > 0.49 && s < 0.56 ? 0.5 : (s > 0.78 && s < 0.79 ? s - 0.05 : s);
    };
    const MeasuredFindings found =
        judged(read_greys(32, 2, 1e-5, folded), read_greys(32, 2, 1e-5, same));
    EXPECT_EQ(found.flat, 1U);
    EXPECT_EQ(found.longest_flat, 1U);
    EXPECT_EQ(found.reversals, 1U);
    // From 24 to 25 of 32 it grows darker by less than it should grow brighter, which is no smaller step than it should be but one back.
    EXPECT_EQ(found.steps[24].verdict, StepVerdict::shows);
    EXPECT_GT(found.steps[24].jump, 1.0);
}

TEST(GradientMeasured, ColoursAreRampsOfTheirOwn) {
    std::vector<PatchReading> readings;
    const auto add = [&readings](double r, double g, double b) {
        PatchReading reading;
        reading.signal = std::array{r, g, b};
        reading.xyz = power_display().xyz({r, g, b});
        readings.push_back(reading);
    };
    for (int k = 1; k <= 16; ++k) {
        add(k / 16.0, 0.0, 0.0);
    }
    for (int k = 1; k <= 20; ++k) {
        add(0.0, k / 20.0, 0.0);
    }
    const MeasuredRamps ramps = measured_ramps(readings);
    ASSERT_EQ(ramps.ramps.size(), 2U);
    EXPECT_EQ(ramps.ramps[0].points.size(), 16U);
    EXPECT_EQ(ramps.ramps[1].points.size(), 20U);
    EXPECT_EQ(ramps.ramps[1].kind, StepKind::colour);
    for (const MeasuredRamp& ramp : ramps.ramps) {
        const MeasuredFindings found = judge_measured_ramp(ramp, 1e-5, nullptr, power_display());
        EXPECT_EQ(found.verdict, StepVerdict::does_not_show);
        ASSERT_EQ(found.steps.size(), ramp.points.size() - 1);
        for (const MeasuredStep& step : found.steps) {
            const auto& a = step.from.xyz;
            const auto& b = step.to.xyz;
            const double of_a = a[0] + a[1] + a[2];
            const double of_b = b[0] + b[1] + b[2];
            EXPECT_NEAR(step.xy_jump,
                        std::hypot(a[0] / of_a - b[0] / of_b, a[1] / of_a - b[1] / of_b), 1e-12);
        }
    }
}

TEST(GradientMeasured, RefusesWhatIsNoRamp) {
    EXPECT_THROW(static_cast<void>(measured_ramps({})), Error);
    EXPECT_THROW(static_cast<void>(measured_ramps(read_greys(3, 1, 0.0, same))), Error);
    std::vector<PatchReading> nameless(6);
    EXPECT_THROW(static_cast<void>(measured_ramps(nameless)), Error);
    EXPECT_THROW(judged(read_greys(32, 2, 0.01, same), read_greys(64, 2, 0.01, same)), Error);
}

}  // namespace
}  // namespace samelight::test
