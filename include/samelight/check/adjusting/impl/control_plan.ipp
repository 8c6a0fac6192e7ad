#pragma once
// The bodies of check/adjusting/control_plan.hpp.

#include <algorithm>
#include <cmath>
#include <utility>

#include <Eigen/Core>

#include "samelight/check/adjusting/control_plan.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/minimum/damped_least_squares.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// One grey that has a say.
struct PlanGrey {
    GreyLevel read;
    std::array<double, 3> drives;
    /// Chromaticity meant, and luminance relative to white's.
    std::array<double, 3> target;
    /// What a distance in x, y is judged by, and what it is when whole steps are chosen.
    double scale_xy, scale_of_steps;
    bool white;
};

/// 95 % half-width of x and y of a light whose drives have these standard deviations.
inline std::array<double, 2> xy_half_width(const GreyDrives& all,
                                           const std::array<double, 3>& drives,
                                           const std::array<double, 3>& deviation) {
    constexpr double coverage_95 = 1.96;
    const auto by_drives = all.xy_by_drives(drives);
    std::array<double, 2> result{};
    for (std::size_t i = 0; i < 2; ++i) {
        double sum = 0.0;
        for (std::size_t k = 0; k < 3; ++k) {
            const double part = by_drives[i][k] * deviation[k];
            sum += part * part;
        }
        result[i] = coverage_95 * std::sqrt(sum);
    }
    return result;
}

inline std::array<double, 3> target_of(const IntendedDisplay& intended, double level) {
    const std::array<double, 3> white = xyY_from_xyz(intended.white());
    const double full = white[2];
    const double luminance = intended.xyz({level, level, level})[1];
    return {white[0], white[1], luminance / full};
}

inline std::vector<PlanGrey> greys_with_a_say(const PlanRequest& request) {
    constexpr double unit_xy = 0.001;
    // White comes first: greys that no gain and offset bring right must not draw it away.
    constexpr double white_xy = 0.00005;
    constexpr double white_of_steps_xy = 0.0003;
    std::vector<PlanGrey> greys;
    for (const GreyLevel& level : request.greys) {
        const auto drives = request.drives.drives(level.xyz);
        if (!drives || level.level <= 0.0) {
            continue;
        }
        const auto width = xy_half_width(
            request.drives, *drives, request.drives.noise(*drives, request.noise, level.readings));
        const bool white = &level == &request.greys.back();
        const double scale = std::hypot(unit_xy, width[0], width[1]);
        greys.push_back({level, *drives, target_of(request.intended, level.level),
                         white ? white_xy : scale, white ? white_of_steps_xy : scale, white});
    }
    if (greys.empty() || !greys.back().white) {
        throw Error(ErrorKind::domain, "plan_controls", "no white above black",
                    "greys up to a white that is brighter than black");
    }
    return greys;
}

/// What is to be made small: distances in x, y, changes of light, and moves for nothing.
inline Eigen::VectorXd plan_residuals(const PlanRequest& request,
                                      const std::vector<PlanGrey>& greys,
                                      const std::vector<double>& steps) {
    constexpr double grey_light_scale = 0.1;
    constexpr double light_scale = 0.02;
    constexpr double move_scale = 0.2;
    const auto count = static_cast<Eigen::Index>(3 * greys.size() + steps.size());
    Eigen::VectorXd result(count);
    const auto lit = [&](const PlanGrey& grey) {
        return request.drives.xyz(moved_drives(request.replies, steps, grey.drives));
    };
    const double white_ratio = lit(greys.back())[1] / greys.back().read.xyz[1];
    Eigen::Index at = 0;
    for (const PlanGrey& grey : greys) {
        const std::array<double, 3> xyz = lit(grey);
        const double sum = xyz[0] + xyz[1] + xyz[2];
        result[at++] = (xyz[0] / sum - grey.target[0]) / grey.scale_xy;
        result[at++] = (xyz[1] / sum - grey.target[1]) / grey.scale_xy;
        const double meant = grey.read.xyz[1] * (grey.white ? 1.0 : white_ratio);
        const double off = std::log(std::max(1e-9, xyz[1]) / std::max(1e-9, meant));
        result[at++] = grey.white ? off / light_scale
                                  : off / grey_light_scale * std::min(1.0, 0.001 / grey.scale_xy);
    }
    for (std::size_t j = 0; j < steps.size(); ++j) {
        const ControlReply& reply = request.replies[j];
        const auto k = static_cast<std::size_t>(reply.control.channel);
        result[at++] =
            steps[j] * std::max(std::abs(reply.top[k]), std::abs(reply.bottom[k])) / move_scale;
    }
    return result;
}

/// Steps anywhere between limits; controls that can't move stay.
inline std::vector<double> best_steps(const PlanRequest& request,
                                      const std::vector<PlanGrey>& greys,
                                      const BoundedValues& limits) {
    std::vector<std::size_t> free;
    BoundedValues bounds;
    for (std::size_t j = 0; j < limits.low.size(); ++j) {
        if (limits.range(j) > 0.0) {
            free.push_back(j);
            bounds.low.push_back(limits.low[j]);
            bounds.high.push_back(limits.high[j]);
        }
    }
    std::vector<double> steps(limits.low.size(), 0.0);
    const auto spread = [&](const std::vector<double>& values) {
        for (std::size_t i = 0; i < free.size(); ++i) {
            steps[free[i]] = values[i];
        }
        return steps;
    };
    if (free.empty()) {
        return steps;
    }
    const auto residuals = [&](const std::vector<double>& at) {
        return plan_residuals(request, greys, spread(at));
    };
    DampedSearch at{std::vector<double>(free.size(), 0.0), {}};
    at.here = residuals(at.values);
    // Nearly linear, and white weighs so much more than greys that any usual damping would stop what only greys feel.
    at.damping = 1e-12;
    constexpr double damped_out = 10.0;
    for (int round = 0; round < 40 && at.damping < damped_out; ++round) {
        const double before = at.here.squaredNorm();
        if (damped_round(bounds, at, residuals) && at.here.squaredNorm() > (1.0 - 1e-9) * before) {
            break;
        }
    }
    return spread(at.values);
}

/// The whole steps whose greys are nearest to those of `steps`: all neighbours, then single moves and moves of two as long as they help.
inline std::vector<double> whole_steps(const PlanRequest& request,
                                       const std::vector<PlanGrey>& greys,
                                       const BoundedValues& limits,
                                       const std::vector<double>& steps) {
    const Eigen::VectorXd aim = plan_residuals(request, greys, steps);
    const auto cost = [&](const std::vector<double>& at) {
        Eigen::VectorXd off = plan_residuals(request, greys, at) - aim;
        for (std::size_t i = 0; i < greys.size(); ++i) {
            off.segment(static_cast<Eigen::Index>(3 * i), 2) *=
                greys[i].scale_xy / greys[i].scale_of_steps;
        }
        return off.squaredNorm();
    };
    const std::size_t n = steps.size();
    std::vector<double> best;
    double least = 0.0;
    const auto take = [&](const std::vector<double>& at) {
        for (std::size_t j = 0; j < n; ++j) {
            if (at[j] < limits.low[j] || at[j] > limits.high[j]) {
                return false;
            }
        }
        const double own = cost(at);
        if (!best.empty() && !(own < least)) {
            return false;
        }
        best = at;
        least = own;
        return true;
    };
    for (std::size_t corner = 0; corner < (std::size_t{1} << n); ++corner) {
        std::vector<double> at(n);
        for (std::size_t j = 0; j < n; ++j) {
            at[j] = std::clamp(std::floor(steps[j]) + static_cast<double>((corner >> j) & 1U),
                               limits.low[j], limits.high[j]);
        }
        take(at);
    }
    bool moved = true;
    for (int round = 0; round < 50 && moved; ++round) {
        moved = false;
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = i; j < n; ++j) {
                for (const double a : {-1.0, 1.0}) {
                    for (const double b : {-1.0, 1.0}) {
                        std::vector<double> at = best;
                        at[i] += a;
                        at[j] += i == j ? 0.0 : b;
                        moved = take(at) || moved;
                    }
                }
            }
        }
    }
    return best;
}

inline BoundedValues limits_of(const std::vector<ControlReply>& replies, double unknown) {
    BoundedValues limits;
    for (const ControlReply& reply : replies) {
        limits.low.push_back(reply.least ? static_cast<double>(*reply.least) : -unknown);
        limits.high.push_back(reply.most ? static_cast<double>(*reply.most) : unknown);
    }
    return limits;
}

inline PlannedGrey planned_grey(const PlanRequest& request, const GreyLevel& grey,
                                const std::vector<double>& steps, double white_after) {
    constexpr double coverage_95 = 1.96;
    PlannedGrey result{grey.level, xyY_from_xyz(grey.xyz), {}, {}};
    const auto target = target_of(request.intended, grey.level);
    result.intended = {target[0], target[1], target[2] * white_after};
    const auto drives = request.drives.drives(grey.xyz);
    if (!drives || grey.level <= 0.0) {
        result.after = result.read;
        result.too_dark = true;
        return result;
    }
    const auto after = moved_drives(request.replies, steps, *drives);
    const auto deviation = moved_doubt(request, steps, grey);
    const auto width = xy_half_width(request.drives, after, deviation);
    const auto luminances = request.drives.luminances();
    result.after = xyY_from_xyz(request.drives.xyz(after));
    double variance = 0.0;
    for (std::size_t k = 0; k < 3; ++k) {
        const double part = luminances[k] * GreyDrives::exponent *
                            std::pow(std::max(0.0, after[k]), GreyDrives::exponent - 1.0) *
                            deviation[k] / result.after[2];
        variance += part * part;
    }
    // Replies are the less sure in light, which all channels have in common, the more readings scatter in it.
    const double in_common = request.noise.luminance / request.noise.relative;
    variance *= 1.0 + in_common * in_common;
    result.doubt = {width[0], width[1], coverage_95 * std::sqrt(variance)};
    result.off_read = std::hypot(result.read[0] - target[0], result.read[1] - target[1]);
    result.off_after = std::hypot(result.after[0] - target[0], result.after[1] - target[1]);
    const auto reading = xy_half_width(request.drives, *drives,
                                       request.drives.noise(*drives, request.noise, grey.readings));
    result.too_dark = std::max(reading[0], reading[1]) > ControlPlan::near_enough_xy;
    return result;
}

/// White is near, and no grey that can be read would come nearer by more than the doubt of where it will be.
inline bool moves_for_nothing(const PlanRequest& request, const std::vector<double>& steps) {
    for (const GreyLevel& grey : request.greys) {
        const PlannedGrey planned = planned_grey(request, grey, steps, 1.0);
        const double doubt = std::hypot(planned.doubt[0], planned.doubt[1]);
        const bool white = &grey == &request.greys.back();
        const double gain = planned.off_read - planned.off_after;
        if (white ? planned.off_read > ControlPlan::white_gate_xy && gain > 0.0
                  : !planned.too_dark && gain > std::max(doubt, ControlPlan::white_gate_xy)) {
            return false;
        }
    }
    return true;
}

/// The distance of white in x, y after steps that need not be whole.
inline double white_off(const PlanRequest& request, const PlanGrey& white,
                        const std::vector<double>& steps) {
    const auto after =
        xyY_from_xyz(request.drives.xyz(moved_drives(request.replies, steps, white.drives)));
    return std::hypot(after[0] - white.target[0], after[1] - white.target[1]);
}

inline void tell_steps_size(const std::vector<ControlReply>& replies, ControlPlan& plan) {
    for (const ControlReply& reply : replies) {
        if (reply.control.kind == ControlKind::gain) {
            const double size = std::hypot(reply.step_xy[0], reply.step_xy[1]);
            plan.largest_step_xy = std::max(plan.largest_step_xy, size);
            plan.smallest_step_xy =
                plan.smallest_step_xy > 0.0 ? std::min(plan.smallest_step_xy, size) : size;
        }
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::array<double, 3> moved_drives(const std::vector<ControlReply>& replies,
                                                    const std::vector<double>& steps,
                                                    const std::array<double, 3>& drives) {
    std::array<double, 3> result = drives;
    for (std::size_t j = 0; j < replies.size(); ++j) {
        const auto change = replies[j].change(drives);
        for (std::size_t k = 0; k < 3; ++k) {
            result[k] += steps[j] * change[k];
        }
    }
    for (double& u : result) {
        u = std::max(0.0, u);
    }
    return result;
}

SAMELIGHT_INLINE std::array<double, 3> moved_doubt(const PlanRequest& request,
                                                   const std::vector<double>& steps,
                                                   const GreyLevel& grey) {
    constexpr double of_each_move = 0.05;
    const std::array<double, 3> drives =
        request.drives.drives(grey.xyz).value_or(std::array<double, 3>{0.0, 0.0, 0.0});
    std::array<double, 3> result = request.drives.noise(drives, request.noise, grey.readings);
    for (double& r : result) {
        r *= r;
    }
    for (std::size_t j = 0; j < request.replies.size(); ++j) {
        const auto variance = request.replies[j].variance(drives);
        const auto change = request.replies[j].change(drives);
        for (std::size_t k = 0; k < 3; ++k) {
            const double model = of_each_move * change[k];
            result[k] += steps[j] * steps[j] * (variance[k] + model * model);
        }
    }
    for (double& r : result) {
        r = std::sqrt(r);
    }
    return result;
}

SAMELIGHT_INLINE ControlPlan plan_controls(const PlanRequest& request) {
    constexpr double unknown_limit = 50.0;
    constexpr double no_limit = 150.0;
    PlanRequest asked = request;
    std::erase_if(asked.replies, [](const ControlReply& r) {
        return r.control.kind == ControlKind::point || !r.answers;
    });
    const std::vector<detail::PlanGrey> greys = detail::greys_with_a_say(asked);
    const BoundedValues limits = detail::limits_of(asked.replies, unknown_limit);
    const std::vector<double> best = detail::best_steps(asked, greys, limits);
    std::vector<double> whole = detail::whole_steps(asked, greys, limits, best);
    if (detail::moves_for_nothing(asked, whole)) {
        std::fill(whole.begin(), whole.end(), 0.0);
    }
    BoundedValues open = limits;
    std::fill(open.low.begin(), open.low.end(), -no_limit);
    std::fill(open.high.begin(), open.high.end(), no_limit);
    const std::vector<double> wanted = detail::best_steps(asked, greys, open);
    ControlPlan plan;
    bool ends = false;
    for (std::size_t j = 0; j < whole.size(); ++j) {
        const bool at_end = (whole[j] >= limits.high[j] && wanted[j] > limits.high[j] + 0.5) ||
                            (whole[j] <= limits.low[j] && wanted[j] < limits.low[j] - 0.5);
        ends = ends || at_end;
        plan.steps.push_back(
            {asked.replies[j].control, static_cast<int>(whole[j]), wanted[j], at_end});
    }
    const double left = detail::white_off(asked, greys.back(), best);
    if (ends && left > ControlPlan::white_gate_xy) {
        plan.out_of_reach_xy = left;
    }
    const auto white = moved_drives(asked.replies, whole, greys.back().drives);
    const double white_after = asked.drives.xyz(white)[1];
    for (const GreyLevel& grey : asked.greys) {
        plan.greys.push_back(detail::planned_grey(asked, grey, whole, white_after));
    }
    plan.luminance_ratio = white_after / greys.back().read.xyz[1];
    detail::tell_steps_size(asked.replies, plan);
    return plan;
}

}  // namespace samelight
