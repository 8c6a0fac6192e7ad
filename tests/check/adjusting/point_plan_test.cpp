// Which points of a list are needed. The second route is arithmetic on greys that were made to be off where they are.
#include "samelight/check/adjusting/point_plan.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/adjusting/control_plan.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::test {
namespace {

/// Greys every tenth, as meant, but blue's drive off by a share at 30 % and a little at 60 %.
PlanRequest greys_off_at_30() {
    const IntendedDisplay intended(RgbEncoding::of<Bt709>(), SignalCurve(CurveOptions{}));
    const GreyDrives drives(intended, intended.white(), {0.0, 0.0, 0.0});
    std::vector<GreyLevel> greys;
    for (int i = 0; i <= 10; ++i) {
        const double level = i / 10.0;
        std::array<double, 3> xyz = intended.xyz({level, level, level});
        if (i == 3 || i == 6) {
            auto u = *drives.drives(xyz);
            u[2] += i == 3 ? 0.010 : 0.0005;
            xyz = drives.xyz(u);
        }
        greys.push_back({level, xyz, 3});
    }
    return {greys, intended, drives, {0.002, 0.003, 0.0005, 10}, {}};
}

TEST(PointPlan, NamesTheNeededAndTheOthers) {
    const auto points = plan_points({greys_off_at_30(), {}, equal_levels(10)});
    ASSERT_EQ(points.size(), 10U);
    for (const PlannedPoint& point : points) {
        const bool off = std::abs(point.level - 0.3) < 1e-9;
        if (point.level > 0.15) {
            EXPECT_EQ(point.need, off ? PointNeed::needed : PointNeed::not_needed) << point.level;
        }
        EXPECT_EQ(point.interpolated, false);
        if (!off) {
            EXPECT_EQ(point.steps, (std::array<int, 3>{})) << point.level;
        }
    }
    // 0.010 of drive in steps of 0.002: five down, blue alone.
    EXPECT_EQ(points[2].steps, (std::array<int, 3>{0, 0, -5}));
    EXPECT_LT(points[2].off_with, 1e-6);
    EXPECT_GT(points[2].off_without, ControlPlan::near_enough_xy);
}

TEST(PointPlan, TakesRepliesOfTheNearestPointAndItsOwnLimits) {
    PlanRequest base = greys_off_at_30();
    ControlReply reply{Control{ControlChannel::blue, ControlKind::point, 0.3}};
    reply.top = reply.bottom = {0.0, 0.0, 0.005};
    reply.levels = {0.3};
    base.replies = {reply};
    EXPECT_EQ(plan_points({base, {}, {0.3}})[0].steps, (std::array<int, 3>{0, 0, -2}));
    base.replies[0].least = -1;
    const PlannedPoint ended = plan_points({base, {}, {0.3}})[0];
    EXPECT_GE(ended.steps[2], -1);
    EXPECT_TRUE(ended.at_end);
    EXPECT_GT(ended.off_with, 1e-4);
}

TEST(PointPlan, LeavesAPointThatDoesNotAnswerAndMovesTheOthers) {
    PlanRequest base = greys_off_at_30();
    ControlReply reply{Control{ControlChannel::blue, ControlKind::point, 0.3}};
    reply.top = reply.bottom = {0.0, 0.0, 1e-5};
    reply.levels = {0.3};
    reply.answers = false;
    base.replies = {reply};
    const PlannedPoint point = plan_points({base, {}, {0.3}})[0];
    EXPECT_EQ(point.steps[2], 0);
    EXPECT_FALSE(point.at_end);
    // Blue's drive is 0.010 too high: red and green up by the same, in steps of 0.002, give the same colour, 2 % brighter.
    EXPECT_NEAR(point.steps[0], 5, 1);
    EXPECT_NEAR(point.steps[1], 5, 1);
    EXPECT_LT(point.off_with, 0.3 * point.off_without);
    // Another level isn't moved by what a dead point of this one would do: a usual step is taken.
    reply.control.level = 0.5;
    base.replies = {reply};
    EXPECT_EQ(plan_points({base, {}, {0.3}})[0].steps, (std::array<int, 3>{0, 0, -5}));
}

TEST(PointPlan, SeesBetweenLevelsAndNotInTheDark) {
    PlanRequest noisy = greys_off_at_30();
    noisy.noise.floor_cd_m2 = 0.05;
    EXPECT_EQ(plan_points({noisy, {}, {0.1}})[0].need, PointNeed::too_dark);
    const auto points = plan_points({greys_off_at_30(), {}, {0.01, 0.35}});
    EXPECT_EQ(points[0].need, PointNeed::not_read);
    EXPECT_TRUE(points[1].interpolated);
    EXPECT_GT(points[1].off_without, ControlPlan::near_enough_xy);
}

TEST(PointPlan, IsWorkedOutBehindTheTwoPointBalance) {
    // An offset of blue that lifts every level alike, and points asked for: after the two-point balance none is needed.
    PlanRequest base = greys_off_at_30();
    for (GreyLevel& grey : base.greys) {
        grey.xyz = base.intended.xyz({grey.level, grey.level, grey.level});
        if (grey.level > 0.0) {
            auto u = *base.drives.drives(grey.xyz);
            u[2] += 0.02 * (1.0 - 0.5 * u[2]);
            grey.xyz = base.drives.xyz(u);
        }
    }
    base.drives = GreyDrives(base.intended, base.greys.back().xyz, {0.0, 0.0, 0.0});
    base.replies = default_replies(base.drives);
    for (ControlReply& r : base.replies) {
        r.levels = {0.3, 1.0};
        r.covariance = {};
    }
    const ControlPlan plan = plan_controls(base);
    const auto without = plan_points({base, {}, {0.3, 0.5, 1.0}});
    const auto behind = plan_points({base, plan.steps, {0.3, 0.5, 1.0}});
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_EQ(without[i].need, PointNeed::needed);
        EXPECT_NE(behind[i].need, PointNeed::needed) << behind[i].level;
        EXPECT_LT(behind[i].off_without, ControlPlan::near_enough_xy);
    }
}

TEST(PointPlan, RefusesListsThatAreNone) {
    EXPECT_THROW(plan_points({greys_off_at_30(), {}, {}}), Error);
    EXPECT_THROW(plan_points({greys_off_at_30(), {}, {1.5}}), Error);
    EXPECT_THROW(equal_levels(1), Error);
    EXPECT_EQ(equal_levels(20)[0], 0.05);
    EXPECT_EQ(equal_levels(20)[19], 1.0);
}

}  // namespace
}  // namespace samelight::test
