// Any greys and any replies of controls: refused in one line, or a plan of whole steps within the menu's limits, with finite figures, the same twice.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "doors/calculators.hpp"
#include "samelight/check/adjusting/control_plan.hpp"
#include "samelight/check/adjusting/point_plan.hpp"

namespace {

using namespace samelight;
using fuzz::demand;
using fuzz::Drawn;

std::vector<ControlReading> drawn_controls(Drawn& drawn, const IntendedDisplay& display) {
    std::vector<ControlReading> all(drawn.count(16));
    for (ControlReading& reading : all) {
        if (!drawn.one_in(5)) {
            Control control;
            control.channel = static_cast<ControlChannel>(drawn.count(2));
            control.kind = static_cast<ControlKind>(drawn.count(2));
            control.level = control.kind == ControlKind::point ? drawn.number(0.0, 1.0) : 0.0;
            reading.control = control;
            reading.steps = static_cast<int>(drawn.byte()) - 128;
            if (drawn.one_in(20)) reading.steps *= 10'000'000;
        }
        if (drawn.one_in(2)) reading.level = drawn.number(0.05, 1.0);
        const double signal = reading.level.value_or(1.0);
        const auto light = fuzz::or_refused([&] { return display.xyz({signal, signal, signal}); });
        for (std::size_t k = 0; k < 3; ++k) {
            reading.xyz[k] = (light ? (*light)[k] : 10.0) * (0.9 + drawn.byte() / 1280.0);
        }
        if (drawn.one_in(20)) reading.xyz[drawn.count(2)] = drawn.number(-1.0, 500.0);
        if (drawn.one_in(6)) reading.least = -static_cast<int>(drawn.byte());
        if (drawn.one_in(6)) reading.most = static_cast<int>(drawn.byte());
    }
    return all;
}

void demand_plan(const PlanRequest& request, const ControlPlan& plan) {
    fuzz::demand_numbers(
        std::array{plan.luminance_ratio, plan.largest_step_xy, plan.smallest_step_xy}, "a plan");
    for (const PlannedStep& step : plan.steps) {
        fuzz::demand_number(step.wanted, "steps that are wanted");
        for (const ControlReply& reply : request.replies) {
            if (!(reply.control == step.control)) continue;
            demand(!reply.least || step.steps >= *reply.least,
                   "no further down than the menu goes");
            demand(!reply.most || step.steps <= *reply.most, "no further up than the menu goes");
            demand(reply.answers || step.steps == 0, "what doesn't answer isn't moved");
        }
    }
    for (const PlannedGrey& grey : plan.greys) {
        // A grey without light has no chromaticity (xyY_from_xyz()).
        if (grey.read[2] == 0.0 && std::isnan(grey.read[0])) continue;
        fuzz::demand_numbers(grey.after, "a grey after");
        fuzz::demand_numbers(grey.doubt, "a grey's doubt");
        fuzz::demand_numbers(std::array{grey.off_read, grey.off_after}, "a grey's distance");
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Drawn drawn(data, size);
    const auto display = fuzz::drawn_display(drawn);
    if (!display) return 0;
    const std::vector<PatchReading> readings = fuzz::drawn_readings(drawn, *display, false);
    const auto greys = fuzz::or_refused([&] { return grey_levels(readings); });
    if (!greys || greys->empty()) return 0;
    const std::array<double, 3> black = {drawn.number(0.0, 0.1), drawn.number(0.0, 0.1),
                                         drawn.number(0.0, 0.1)};
    const auto drives =
        fuzz::or_refused([&] { return GreyDrives(*display, greys->back().xyz, black); });
    if (!drives) return 0;
    const GreyNoise noise = grey_noise(readings, *drives);
    const std::vector<ControlReading> controls = drawn_controls(drawn, *display);
    auto replies = fuzz::or_refused([&] {
        return drawn.one_in(3) ? default_replies(*drives)
                               : fit_replies(controls, {*greys, *drives, noise});
    });
    if (!replies) return 0;
    const PlanRequest request{*greys, *display, *drives, noise, *replies};
    const auto plans = fuzz::twice_or_refused([&] { return plan_controls(request); });
    const auto& plan = plans.first;
    if (!plan) return 0;
    demand_plan(request, *plan);
    for (std::size_t i = 0; i < plan->steps.size(); ++i) {
        demand(plan->steps[i].steps == plans.second->steps[i].steps, "the same steps twice");
    }
    const auto levels =
        fuzz::or_refused([&] { return equal_levels(static_cast<int>(drawn.count(22))); });
    if (!levels) return 0;
    const auto points = fuzz::or_refused([&] {
        return plan_points({request, plan->steps, *levels});
    });
    if (!points) return 0;
    demand(points->size() == levels->size(), "a point for each level");
    for (const PlannedPoint& point : *points) {
        fuzz::demand_numbers(
            std::array{point.off_read, point.off_without, point.off_with, point.doubt}, "a point");
    }
    return 0;
}
