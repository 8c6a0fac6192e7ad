// Trials in many strengths, and the bound of a step, against working all of it out.
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/gradients/coded_ramp.hpp"
#include "samelight/check/gradients/ramp_trials.hpp"
#include "samelight/check/gradients/step_bound.hpp"
#include "samelight/numeric/pseudo_random.hpp"

namespace samelight::test {
namespace {

AdjustmentMove tried_move(MoveKind kind, double amount, double hue = 0.0) {
    AdjustmentMove move;
    move.kind = kind;
    move.amount = amount;
    move.hue_deg = hue;
    move.level_pct = 30.0;
    move.half_width_deg = 25.0;
    return move;
}

/// A table that mixes the channels a little.
SignalTable tried_table(TableReading reading) {
    SignalTable table{5, {}, reading};
    for (std::size_t i = 0; i < 125; ++i) {
        const double r = static_cast<double>(i / 25) / 4.0;
        const double g = static_cast<double>(i / 5 % 5) / 4.0;
        const double b = static_cast<double>(i % 5) / 4.0;
        table.out.push_back({0.9 * r + 0.1 * g, 0.95 * g + 0.05 * b * b, b});
    }
    return table;
}

std::vector<Adjustment> tried() {
    AdjustmentMove red_gain = tried_move(MoveKind::gain, -8.0);
    red_gain.channel = MoveChannel::red;
    AdjustmentMove blue_point = tried_move(MoveKind::point, 4.0);
    blue_point.channel = MoveChannel::blue;
    const std::vector<AdjustmentMove> hues = {tried_move(MoveKind::saturation, 90.0, 10.0),
                                              tried_move(MoveKind::hue, -60.0, 100.0),
                                              tried_move(MoveKind::lightness, 30.0, 300.0)};
    std::vector<AdjustmentMove> all = hues;
    all.push_back(red_gain);
    all.push_back(blue_point);
    return {Adjustment({red_gain}),
            Adjustment({blue_point, tried_move(MoveKind::offset, 2.0)}),
            Adjustment(hues),
            Adjustment(all),
            Adjustment({}, tried_table(TableReading::tetrahedral)),
            Adjustment(all, tried_table(TableReading::trilinear))};
}

std::vector<IntendedDisplay> tried_displays() {
    CurveOptions hlg;
    hlg.kind = CurveKind::hlg;
    hlg.white_cd_m2 = 1000.0;
    CurveOptions pq;
    pq.kind = CurveKind::pq;
    pq.white_cd_m2 = 600.0;
    CurveOptions lifted;
    lifted.black_cd_m2 = 0.05;
    return {{RgbEncoding::of<Bt709>(), SignalCurve(lifted)},
            {RgbEncoding::of<Bt2020>(), SignalCurve(hlg)},
            {RgbEncoding::of<P3D65>(), SignalCurve(pq)}};
}

void expect_same_step(const WorstStep& a, const WorstStep& b, const std::string& what) {
    EXPECT_EQ(a.ramp, b.ramp) << what;
    EXPECT_EQ(a.step.index, b.step.index) << what;
    EXPECT_EQ(a.step.out, b.step.out) << what;
    EXPECT_EQ(a.step.excess, b.step.excess) << what;
    EXPECT_EQ(a.step.made, b.step.made) << what;
    EXPECT_EQ(a.step.after.luminance, b.step.after.luminance) << what;
    EXPECT_EQ(a.step.after.colour, b.step.after.colour) << what;
    EXPECT_EQ(a.step.before.luminance, b.step.before.luminance) << what;
    EXPECT_EQ(a.step.before.colour, b.step.before.colour) << what;
    EXPECT_EQ(a.step.xyz, b.step.xyz) << what;
}

TEST(RampTrials, AreTheWorstStepToTheBitInWhateverOrder) {
    for (const IntendedDisplay& display : tried_displays()) {
        const RampSet set(CodedDisplay(display, 8));
        const std::vector<Adjustment> adjustments = tried();
        for (std::size_t a = 0; a < adjustments.size(); ++a) {
            RampTrials trials(set, adjustments[a]);
            for (const double share : {1.0, 0.0, 0.013, 0.02, 0.5, 0.51, 0.49, 1.0, 0.0}) {
                const Adjustment now = adjustments[a].scaled(share);
                expect_same_step(trials.worst(now), set.worst(now),
                                 std::to_string(a) + " by " + std::to_string(share));
            }
        }
    }
}

TEST(RampTrials, RefuseAnotherAdjustment) {
    const RampSet set(CodedDisplay(tried_displays()[0], 8));
    RampTrials trials(set, tried()[0]);
    EXPECT_THROW(static_cast<void>(trials.worst(tried()[1])), Error);
}

TEST(StepBound, IsAboveTheStepAndNear) {
    const RgbEncoding encoding = RgbEncoding::of<P3D65>();
    const StepBound bound(encoding);
    PseudoRandom random(11);
    std::size_t known = 0;
    for (int i = 0; i < 20000; ++i) {
        std::array<double, 3> a{};
        std::array<double, 3> b{};
        const double scale = std::pow(10.0, -3.0 + 6.5 * random.next_unit());
        const double apart = std::pow(10.0, -5.0 * random.next_unit());
        for (std::size_t k = 0; k < 3; ++k) {
            a[k] = scale * random.next_unit();
            b[k] = a[k] * (1.0 + apart * (random.next_unit() - 0.5));
        }
        const SteppedColour first = stepped_colour(encoding.tristimulus(a).values());
        const SteppedColour second = stepped_colour(encoding.tristimulus(b).values());
        for (const StepKind kind : {StepKind::grey, StepKind::colour}) {
            const VisibleStep step = visible_step(first, second, kind);
            const VisibleStep most = bound.most(bound.light(a), bound.light(b), kind);
            EXPECT_GE(most.colour, step.colour);
            EXPECT_GE(most.luminance, step.luminance);
            known += std::isfinite(most.colour) ? 1 : 0;
        }
    }
    EXPECT_GT(known, 39000U);
}

TEST(StepBound, KnowsNothingOfNoLight) {
    const StepBound bound(RgbEncoding::of<Bt709>());
    const BoundedLight none = bound.light({0.0, 0.0, 0.0});
    EXPECT_TRUE(std::isinf(bound.most(none, none, StepKind::colour).colour));
}

}  // namespace
}  // namespace samelight::test
