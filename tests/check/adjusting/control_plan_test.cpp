// Gains and offsets planned from greys and replies, on displays that the plan's own model doesn't describe (steered_display.hpp). The second route
// throughout is the display itself, which is asked for its light without noise.
#include "samelight/check/adjusting/control_plan.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <vector>

#include <gtest/gtest.h>

#include "check/adjusting/steered_display.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::test {
namespace {

constexpr std::array<double, 2> d65 = {0.3127, 0.3290};

IntendedDisplay meant_for(const std::vector<GreyLevel>& greys) {
    CurveOptions options;
    options.white_cd_m2 = greys.back().xyz[1];
    return {RgbEncoding::of<Bt709>(), SignalCurve(options)};
}

/// One pass: greys read, steps planned, and set.
ControlPlan pass_on(SteeredDisplay& display, const std::vector<ControlReading>& controls) {
    const std::vector<GreyLevel> greys = display.read_greys();
    const IntendedDisplay intended = meant_for(greys);
    const GreyDrives drives(intended, greys.back().xyz, display.black());
    PlanRequest request{greys, intended, drives, {}, fit_replies(controls, {greys, drives, {}})};
    for (std::size_t j = 0; j < SteeredDisplay::controls; ++j) {
        request.replies[j].least = display.least[j] - display.set[j];
        request.replies[j].most = display.most[j] - display.set[j];
    }
    ControlPlan plan = plan_controls(request);
    for (std::size_t j = 0; j < SteeredDisplay::controls; ++j) {
        display.set[j] += plan.steps[j].steps;
    }
    return plan;
}

double true_white_off(const SteeredDisplay& display) {
    const auto white = xyY_from_xyz(display.truth(1.0));
    return std::hypot(white[0] - d65[0], white[1] - d65[1]);
}

/// Counts the greys whose true x, y and Y lie within the doubt; how many there are is returned.
int count_within(const SteeredDisplay& display, const ControlPlan& plan,
                 std::array<int, 3>& within) {
    for (const PlannedGrey& grey : plan.greys) {
        const auto truth = xyY_from_xyz(display.truth(grey.level));
        within[0] += std::abs(truth[0] - grey.after[0]) <= grey.doubt[0] ? 1 : 0;
        within[1] += std::abs(truth[1] - grey.after[1]) <= grey.doubt[1] ? 1 : 0;
        within[2] += std::abs(truth[2] / grey.after[2] - 1.0) <= grey.doubt[2] ? 1 : 0;
    }
    return static_cast<int>(plan.greys.size());
}

TEST(ControlPlan, LandsInTwoPasses) {
    const int displays = std::getenv("SAMELIGHT_ALL_DISPLAYS") != nullptr ? 5000 : 200;
    std::array<std::array<int, 3>, 2> within{};
    int greys = 0;
    int nearer = 0;
    int beyond = 0;
    for (int d = 0; d < displays; ++d) {
        SteeredDisplay display(static_cast<std::uint64_t>(1000 + d));
        const double off_before = true_white_off(display);
        const auto controls = display.read_controls();
        count_within(display, pass_on(display, controls), within[0]);
        const ControlPlan second = pass_on(display, controls);
        greys += count_within(display, second, within[1]);
        beyond += true_white_off(display) > second.largest_step_xy ? 1 : 0;
        EXPECT_FALSE(second.out_of_reach_xy) << "display " << d;
        nearer += true_white_off(display) < off_before ? 1 : 0;
    }
    // None of 200; of 5000 eight, where the noise of two passes adds up.
    EXPECT_LE(beyond, displays == 200 ? 0 : displays / 500) << beyond << " of " << displays;
    // Stated: 95 % at least; by how much more it holds, and why, stands with PlannedGrey::doubt. Of x, y and Y, first and second pass.
    constexpr std::array<std::array<double, 3>, 2> held = {
        {{0.991, 0.998, 0.999}, {0.966, 0.995, 0.999}}};
    for (std::size_t pass = 0; pass < 2; ++pass) {
        for (std::size_t i = 0; i < 3; ++i) {
            const double share = within.at(pass).at(i) / static_cast<double>(greys);
            EXPECT_GE(share, 0.95) << "pass " << pass << ", " << i;
            // Three standard deviations of the count, the greys of a display half for themselves.
            EXPECT_NEAR(share, held.at(pass).at(i), 0.012) << "pass " << pass << ", " << i;
        }
    }
    EXPECT_GE(nearer, 0.95 * displays);
}

TEST(ControlPlan, NamesWhatTheMenuDoesNotReach) {
    int out_of_reach = 0;
    for (int d = 0; d < 40; ++d) {
        SteeredDisplay display(static_cast<std::uint64_t>(7000 + d));
        const auto controls = display.read_controls();
        display.least = {-1, -1, -1, -1, -1, -1};
        display.most = {1, 1, 1, 1, 1, 1};
        const ControlPlan plan = pass_on(display, controls);
        for (std::size_t j = 0; j < SteeredDisplay::controls; ++j) {
            EXPECT_LE(std::abs(display.set[j]), 1);
        }
        if (plan.out_of_reach_xy) {
            ++out_of_reach;
            EXPECT_TRUE(std::any_of(plan.steps.begin(), plan.steps.end(),
                                    [](const PlannedStep& s) { return s.at_end; }));
            // No other of the menu's settings brings white there: all of the three gains and offsets asked for their true light.
            double nearest = 1.0;
            for (int code = 0; code < 729; ++code) {
                for (int j = 0, rest = code; j < 6; ++j, rest /= 3) {
                    display.set[static_cast<std::size_t>(j)] = rest % 3 - 1;
                }
                nearest = std::min(nearest, true_white_off(display));
            }
            // Whole steps, and the doubt of where white will be.
            const auto& doubt = plan.greys.back().doubt;
            EXPECT_NEAR(nearest, *plan.out_of_reach_xy,
                        0.5 * plan.largest_step_xy + std::hypot(doubt[0], doubt[1]));
        }
    }
    EXPECT_GE(out_of_reach, 25);
}

TEST(ControlPlan, MovesNoControlThatDoesNotAnswer) {
    for (int d = 0; d < 24; ++d) {
        SteeredDisplay display(static_cast<std::uint64_t>(8000 + d));
        const std::size_t dead = static_cast<std::size_t>(d) % SteeredDisplay::controls;
        display.dead[dead] = true;
        const auto controls = display.read_controls();
        const std::vector<GreyLevel> greys = display.read_greys();
        const IntendedDisplay intended = meant_for(greys);
        const GreyDrives drives(intended, greys.back().xyz, display.black());
        const ControlPlan plan = plan_controls(
            {greys, intended, drives, {}, fit_replies(controls, {greys, drives, {}})});
        EXPECT_EQ(plan.steps.size(), SteeredDisplay::controls - 1) << "display " << d;
        const double before = true_white_off(display);
        for (const PlannedStep& step : plan.steps) {
            EXPECT_FALSE(step.control == SteeredDisplay::control(dead));
            for (std::size_t j = 0; j < SteeredDisplay::controls; ++j) {
                display.set[j] += step.control == SteeredDisplay::control(j) ? step.steps : 0;
            }
        }
        EXPECT_LE(true_white_off(display), before + plan.largest_step_xy) << "display " << d;
    }
}

TEST(ControlPlan, LeavesAloneWhatIsRight) {
    SteeredDisplay display(1003);
    const auto controls = display.read_controls();
    for (int pass = 0; pass < 3; ++pass) {
        pass_on(display, controls);
    }
    // Greys exactly as meant, whatever the controls could do.
    std::vector<GreyLevel> greys = display.read_greys();
    const IntendedDisplay intended = meant_for(greys);
    for (GreyLevel& grey : greys) {
        grey.xyz = intended.xyz({grey.level, grey.level, grey.level});
    }
    const GreyDrives drives(intended, greys.back().xyz, {0.0, 0.0, 0.0});
    const ControlPlan plan = plan_controls({greys, intended, drives, {}, default_replies(drives)});
    for (const PlannedStep& step : plan.steps) {
        EXPECT_EQ(step.steps, 0);
    }
    EXPECT_DOUBLE_EQ(plan.luminance_ratio, 1.0);
    EXPECT_LT(plan.greys.back().off_after, 1e-12);
}

TEST(ControlPlan, MovesNothingForLessThanTheDoubtOfIt) {
    // Blue a step of its offset too strong in a dark grey, white right. A step that nobody has read is doubted by 60 % (default_replies), which at
    // 95 % is 1.18 of the step: more than it can bring the grey nearer. Known exactly, it is taken.
    const IntendedDisplay intended(RgbEncoding::of<Bt709>(), SignalCurve(CurveOptions{}));
    const GreyDrives drives(intended, intended.white(), {0.0, 0.0, 0.0});
    std::vector<GreyLevel> greys;
    for (const double level : {0.3, 0.6, 1.0}) {
        greys.push_back({level, intended.xyz({level, level, level}), 1});
    }
    std::array<double, 3> dark = *drives.drives(greys[0].xyz);
    dark[2] += 0.002;
    greys[0].xyz = drives.xyz(dark);
    PlanRequest request{greys, intended, drives, {}, default_replies(drives)};
    request.noise.relative = 0.001;
    const auto steps = [](const ControlPlan& plan) {
        std::vector<int> result;
        for (const PlannedStep& step : plan.steps) {
            result.push_back(step.steps);
        }
        return result;
    };
    EXPECT_EQ(steps(plan_controls(request)), (std::vector<int>{0, 0, 0, 0, 0, 0}));
    for (ControlReply& reply : request.replies) {
        reply.covariance = {};
    }
    EXPECT_EQ(steps(plan_controls(request)), (std::vector<int>{0, 0, 0, 0, 0, -1}));
}

TEST(ControlPlan, TellsWhatItCostsInLight) {
    // Blue 30 % too strong and gains that go down only: red and green can't follow, blue must go.
    const IntendedDisplay intended(RgbEncoding::of<Bt709>(), SignalCurve(CurveOptions{}));
    const Matrix3& m = intended.encoding().xyz_from_rgb();
    std::vector<GreyLevel> greys;
    for (const double level : {0.3, 0.6, 1.0}) {
        const double light = intended.curve().grey(level);
        greys.push_back({level, detail::times(m, {light, light, 1.3 * light}), 1});
    }
    const GreyDrives drives(intended, greys.back().xyz, {0.0, 0.0, 0.0});
    PlanRequest request{greys, intended, drives, {}, default_replies(drives)};
    for (ControlReply& reply : request.replies) {
        reply.most = 0;
    }
    const ControlPlan plan = plan_controls(request);
    EXPECT_LT(plan.greys.back().off_after, 0.5 * plan.largest_step_xy);
    EXPECT_LT(plan.steps[2].steps, -15);
    // Blue's share of luminance is m[1][2] (BT.709: 0.0722): taking its 30 % away costs 0.3 m12 / (1 + 0.3 m12).
    EXPECT_NEAR(plan.luminance_ratio, 1.0 / (1.0 + 0.3 * m[1][2]), 0.004);
}

TEST(ControlPlan, RefusesWhatNobodyCanPlan) {
    const IntendedDisplay intended(RgbEncoding::of<Bt709>(), SignalCurve(CurveOptions{}));
    const std::vector<GreyLevel> greys = {{1.0, intended.white(), 1}};
    const GreyDrives drives(intended, intended.white(), {0.0, 0.0, 0.0});
    EXPECT_TRUE(plan_controls({greys, intended, drives, {}, {}}).steps.empty());
    EXPECT_THROW(GreyDrives(intended, {0.0, 1.0, 0.0}, {0.0, 0.0, 0.0}), Error);
    EXPECT_THROW(GreyDrives(intended, intended.white(), intended.white()), Error);
    // A white that is no display's, and blacks that leave nothing of the digits of what was read.
    const std::array<double, 3> white = intended.white();
    EXPECT_THROW(GreyDrives(intended, {1e-4 * white[0], 1e-4 * white[1], 1e-4 * white[2]}, {}),
                 Error);
    EXPECT_THROW(GreyDrives(intended, {1e5 * white[0], 1e5 * white[1], 1e5 * white[2]}, {}), Error);
    EXPECT_THROW(GreyDrives(intended, white, {-1e9, -1e9, -1e9}), Error);
    EXPECT_THROW(GreyDrives(intended, white, {0.0, std::nan(""), 0.0}), Error);
    EXPECT_NO_THROW(GreyDrives(intended, white, {-0.001, -0.001, -0.001}));
    EXPECT_THROW(
        plan_controls({{{1.0, {0.0, 0.0, 0.0}, 1}}, intended, drives, {}, default_replies(drives)}),
        Error);
}

}  // namespace
}  // namespace samelight::test
