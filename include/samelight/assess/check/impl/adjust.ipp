#pragma once
// The bodies of assess/check/adjust.hpp.

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "samelight/assess/check/adjust.hpp"
#include "samelight/check/readings/measured_ends.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Greys up to full signal.
inline std::vector<GreyLevel> greys_to_white(const std::vector<PatchReading>& readings) {
    constexpr double near = 1e-9;
    std::vector<GreyLevel> greys = grey_levels(readings);
    std::erase_if(greys, [](const GreyLevel& g) { return g.level > 1.0 + near; });
    if (greys.empty() || greys.back().level < 1.0 - near) {
        throw Error(ErrorKind::input, "answer_adjust", "no reading of white",
                    "greys, and white (patch white, or level_pct 100) among them");
    }
    require_display_white(greys.back().xyz[1]);
    if (greys.size() > assess::most_grey_levels) {
        throw Error(ErrorKind::input, "answer_adjust",
                    std::to_string(greys.size()) + " levels of grey",
                    std::to_string(assess::most_grey_levels) + " at most");
    }
    return greys;
}

inline std::size_t greys_among(const std::vector<PatchReading>& readings) {
    std::size_t count = 0;
    for (const GreyLevel& grey : grey_levels(readings)) {
        count += static_cast<std::size_t>(grey.readings);
    }
    return count;
}

/// What the menu still has, behind what was set since.
inline void take_moves(const std::vector<assess::MovedControl>& moved,
                       std::vector<ControlReply>& replies) {
    for (const assess::MovedControl& move : moved) {
        const auto reply =
            std::find_if(replies.begin(), replies.end(),
                         [&move](const ControlReply& r) { return r.control == move.control; });
        if (reply == replies.end()) {
            throw Error(ErrorKind::input, name_of(move.control), "moved, but not read",
                        "a control that was read");
        }
        if ((reply->least && move.steps < *reply->least) ||
            (reply->most && move.steps > *reply->most)) {
            throw Error(ErrorKind::input, name_of(move.control),
                        "moved by " + std::to_string(move.steps) + " steps",
                        "steps within its limits");
        }
        for (std::optional<int>* limit : {&reply->least, &reply->most}) {
            if (*limit) {
                **limit -= move.steps;
            }
        }
    }
}

inline bool of_points(const ControlReply& reply) {
    return reply.control.kind == ControlKind::point;
}

/// Moves say that greys were read later than the controls: then those can't be counted from these.
inline void require_own_zero(const assess::AdjustRequest& request,
                             const assess::AdjustAnswer& answer) {
    if (answer.counted_from_greys && !request.moved.empty()) {
        throw Error(ErrorKind::input, "controls", "no row with 0 steps, and controls set since",
                    "a row with 0 steps of each level read");
    }
}

inline std::vector<ControlReply> replies_of(const assess::AdjustRequest& request,
                                            const ReplyGreys& greys, assess::AdjustAnswer& answer) {
    if (request.controls.empty()) {
        return default_replies(greys.drives);
    }
    std::vector<ControlReply> replies = fit_replies(request.controls, greys);
    answer.point_controls_read = std::any_of(replies.begin(), replies.end(), of_points);
    answer.controls_read = !std::all_of(replies.begin(), replies.end(), of_points);
    answer.counted_from_greys = std::none_of(request.controls.begin(), request.controls.end(),
                                             [](const ControlReading& r) { return r.steps == 0; });
    require_own_zero(request, answer);
    return replies;
}

inline assess::AdjustVerdict adjust_verdict(const assess::AdjustRequest& request,
                                            const assess::AdjustAnswer& answer) {
    const bool nothing =
        std::all_of(answer.plan.steps.begin(), answer.plan.steps.end(),
                    [](const PlannedStep& s) { return s.steps == 0; }) &&
        std::all_of(answer.points.begin(), answer.points.end(),
                    [](const PlannedPoint& p) { return p.steps == std::array<int, 3>{}; });
    if (answer.plan.out_of_reach_xy) {
        return assess::AdjustVerdict::out_of_reach;
    }
    const bool white_near = answer.white().off_read <= ControlPlan::white_gate_xy;
    if (nothing && answer.plan.steps.empty() && !answer.no_answer.empty() && !white_near) {
        return assess::AdjustVerdict::no_answer;
    }
    if (nothing) {
        return assess::AdjustVerdict::leave;
    }
    return request.controls.empty() ? assess::AdjustVerdict::set_roughly
                                    : assess::AdjustVerdict::set;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE AdjustAnswer answer_adjust(const AdjustRequest& request) {
    const std::vector<GreyLevel> greys = detail::greys_to_white(request.readings);
    AdjustAnswer answer;
    answer.left_out = request.readings.size() - detail::greys_among(request.readings);
    answer.black_read = greys.front().level <= 0.0;
    const std::array<double, 3> black =
        answer.black_read ? greys.front().xyz : std::array<double, 3>{};
    const GreyDrives drives(request.intended, greys.back().xyz, black);
    answer.noise = grey_noise(request.readings, drives);
    PlanRequest plan{greys, request.intended, drives, answer.noise, {}};
    plan.replies = detail::replies_of(request, {greys, drives, answer.noise}, answer);
    detail::take_moves(request.moved, plan.replies);
    answer.plan = plan_controls(plan);
    answer.replies = plan.replies;
    for (const ControlReply& reply : answer.replies) {
        if (!reply.answers) {
            answer.no_answer.push_back(reply.control);
        }
    }
    if (request.points.size() > most_grey_levels) {
        throw Error(ErrorKind::input, "answer_adjust", "too many points",
                    std::to_string(most_grey_levels) + " at most");
    }
    if (!request.points.empty()) {
        answer.points = plan_points({std::move(plan), answer.plan.steps, request.points});
    }
    answer.verdict = detail::adjust_verdict(request, answer);
    return answer;
}

}  // namespace samelight::assess
