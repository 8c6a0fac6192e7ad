// Plans of visits: counts and minutes by hand, what is left out and in which order.
#include <algorithm>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/visits/visit_plan.hpp"
#include "samelight/check/visits/visit_steps.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::test {
namespace {

VisitRequest two_displays(double minutes) {
    VisitRequest request;
    request.displays = {{"lounge", {{"cinema"}, {"hdr", true}}}, {"hall", {{"cinema"}}}};
    request.minutes = minutes;
    return request;
}

std::vector<VisitStep> kinds(const VisitPlan& plan, std::size_t display, std::size_t mode) {
    std::vector<VisitStep> result;
    for (const VisitPlanStep& step : plan.steps) {
        if (step.display == display && step.mode == mode) {
            result.push_back(step.step);
        }
    }
    return result;
}

TEST(VisitSteps, CountsAreThoseOfTheProof) {
    const Quantisation q(10, SignalRange::full);
    const auto count = [&](VisitStep step, StepExtent extent) {
        return step_readings(step, extent, VisitInstruments::both, q).patches.size();
    };
    EXPECT_EQ(count(VisitStep::greys, StepExtent::full), 13U);
    EXPECT_EQ(count(VisitStep::greys, StepExtent::part), 7U);
    EXPECT_EQ(count(VisitStep::proof, StepExtent::full), 120U);
    EXPECT_EQ(count(VisitStep::proof, StepExtent::part), 32U);
    EXPECT_EQ(count(VisitStep::windows, StepExtent::full), 8U);
    EXPECT_EQ(count(VisitStep::windows, StepExtent::part), 4U);
    EXPECT_EQ(count(VisitStep::primaries, StepExtent::full), 7U);
}

TEST(VisitSteps, MinutesAreReadingsTimesTheirSeconds) {
    const Quantisation q(10, SignalRange::full);
    const VisitTimes t;
    const StepReadings white =
        step_readings(VisitStep::white_first, StepExtent::full, VisitInstruments::both, q);
    // Three rounds: pattern and meter, pattern and reference, one exchange.
    EXPECT_NEAR(step_minutes(VisitStep::white_first, white, t),
                3.0 * (2.0 + 1.5 + 2.0 + 6.0 + 30.0) / 60.0, 1e-12);
    const StepReadings black =
        step_readings(VisitStep::black, StepExtent::full, VisitInstruments::meter, q);
    EXPECT_NEAR(step_minutes(VisitStep::black, black, t), 3.0 * (2.0 + 8.0) / 60.0, 1e-12);
    const StepReadings windows =
        step_readings(VisitStep::windows, StepExtent::full, VisitInstruments::both, q);
    EXPECT_NEAR(step_minutes(VisitStep::windows, windows, t), 8.0 * (2.0 + 1.5 + 5.0) / 60.0,
                1e-12);
    EXPECT_EQ(black.reference_readings(), 0U);
    EXPECT_EQ(white.reference_readings(), 3U);
}

TEST(VisitPlan, StepsStandInTheirOrderAndNothingOverlaps) {
    const VisitPlan plan = plan_visit(two_displays(1000.0));
    EXPECT_TRUE(plan.left_out.empty());
    EXPECT_EQ(plan.missing_min, 0.0);
    using enum VisitStep;
    EXPECT_EQ(kinds(plan, 0, 0),
              (std::vector<VisitStep>{warm_up, white_first, set_white, white_again, primaries,
                                      black, greys, proof}));
    EXPECT_EQ(kinds(plan, 0, 1), (std::vector<VisitStep>{white_first, set_white, white_again,
                                                         primaries, black, greys, windows, proof}));
    double end = 0.0;
    for (const VisitPlanStep& step : plan.steps) {
        EXPECT_GE(step.start_min, end - 1e-9);
        end = step.start_min + step.minutes;
    }
    EXPECT_NEAR(plan.total_min, end, 1e-9);
}

TEST(VisitPlan, OneDisplayWarmsUpWhileAnotherIsMeasured) {
    const VisitPlan both = plan_visit(two_displays(1000.0));
    // All were switched on at the beginning: who is second needn't be waited for.
    EXPECT_NEAR(both.waiting_min, 45.0 - 5.0, 1e-9);
    VisitRequest request = two_displays(1000.0);
    request.displays[1].steady_in_min = 0.0;
    const VisitPlan plan = plan_visit(request);
    EXPECT_EQ(plan.steps.front().display, 1U) << "the steady one first";
    EXPECT_LT(plan.waiting_min, both.waiting_min);
    request = two_displays(1000.0);
    request.on_for_min = 60.0;
    EXPECT_EQ(plan_visit(request).waiting_min, 0.0);
}

TEST(VisitPlan, AFurtherModeNeedsTheReferenceForWhiteAlone) {
    const VisitPlan plan = plan_visit(two_displays(1000.0));
    for (const VisitPlanStep& step : plan.steps) {
        if (step.step == VisitStep::primaries) {
            EXPECT_EQ(step.readings.reference_readings() > 0, step.mode == 0);
        }
    }
}

TEST(VisitPlan, ItFitsOrSaysHowMuchIsMissingAndNothingMoreWouldFit) {
    const VisitPlan whole = plan_visit(two_displays(1000.0));
    double last_read = 0.0;
    for (double minutes = 20.0; minutes < whole.total_min + 10.0; minutes += 3.0) {
        const VisitPlan plan = plan_visit(two_displays(minutes));
        // Of what is left out as a whole no part is told.
        for (const VisitLeftOut& part : plan.left_out) {
            for (const VisitLeftOut& all : plan.left_out) {
                const bool alike = part.display == all.display && part.mode == all.mode;
                EXPECT_FALSE(alike && part.what == VisitOmission::proof_few &&
                             all.what == VisitOmission::proof)
                    << minutes;
                EXPECT_FALSE(alike && part.what == VisitOmission::windows_few &&
                             all.what == VisitOmission::windows)
                    << minutes;
            }
        }
        if (plan.missing_min > 0.0) {
            EXPECT_NEAR(plan.total_min - minutes, plan.missing_min, 1e-9);
            continue;
        }
        EXPECT_LE(plan.total_min, minutes);
        for (const VisitLeftOut& left : plan.left_out) {
            EXPECT_GT(plan.total_min + left.minutes, minutes) << code_of(left.what) << minutes;
        }
        last_read = plan.total_min;
    }
    EXPECT_NEAR(last_read, whole.total_min, 1e-9);
}

TEST(VisitPlan, WhatTellsLeastGoesFirst) {
    const VisitPlan whole = plan_visit(two_displays(1000.0));
    const VisitPlan plan = plan_visit(two_displays(whole.total_min - 0.1));
    ASSERT_EQ(plan.left_out.size(), 1U);
    EXPECT_EQ(plan.left_out[0].what, VisitOmission::windows_few);
    const VisitPlan least = plan_visit(two_displays(1.0));
    using enum VisitStep;
    EXPECT_EQ(kinds(least, 0, 0), (std::vector<VisitStep>{warm_up, white_first, set_white,
                                                          white_again, primaries, black, greys}));
    EXPECT_TRUE(kinds(least, 1, 0).empty());
    EXPECT_GT(least.missing_min, 0.0);
}

TEST(VisitPlan, WhatIsNoVisitIsRefused) {
    VisitRequest request;
    request.minutes = 60.0;
    EXPECT_THROW(plan_visit(request), Error);
    request = two_displays(0.0);
    EXPECT_THROW(plan_visit(request), Error);
    request = two_displays(60.0);
    request.times.pattern_s = -1.0;
    EXPECT_THROW(plan_visit(request), Error);
    request = two_displays(60.0);
    request.displays[0].modes.clear();
    EXPECT_THROW(plan_visit(request), Error);
}

}  // namespace
}  // namespace samelight::test
