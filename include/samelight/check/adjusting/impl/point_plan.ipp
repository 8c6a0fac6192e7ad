#pragma once
// The bodies of check/adjusting/point_plan.hpp.

#include <algorithm>
#include <cmath>
#include <string>

#include <Eigen/Core>

#include "samelight/check/adjusting/point_plan.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// A level's grey: read, or between those around it, in drives.
struct PointGrey {
    GreyLevel grey;
    std::array<double, 3> drives;
    bool interpolated;
};

inline std::optional<PointGrey> grey_at(const PlanRequest& base, double level) {
    std::vector<PointGrey> lit;
    for (const GreyLevel& grey : base.greys) {
        const auto drives = base.drives.drives(grey.xyz);
        if (drives && grey.level > 0.0) {
            lit.push_back({grey, *drives, false});
        }
    }
    for (std::size_t i = 0; i < lit.size(); ++i) {
        if (std::abs(lit[i].grey.level - level) < 1e-9) {
            return lit[i];
        }
        if (i > 0 && lit[i - 1].grey.level < level && level < lit[i].grey.level) {
            const PointGrey& a = lit[i - 1];
            const PointGrey& b = lit[i];
            const double t = (level - a.grey.level) / (b.grey.level - a.grey.level);
            PointGrey between{{level, {}, std::min(a.grey.readings, b.grey.readings)}, {}, true};
            for (std::size_t k = 0; k < 3; ++k) {
                between.drives[k] = a.drives[k] + t * (b.drives[k] - a.drives[k]);
            }
            between.grey.xyz = base.drives.xyz(between.drives);
            return between;
        }
    }
    return {};
}

/// The reply of a channel's point that is nearest to a level; absent where none was read that answers.
inline const ControlReply* nearest_point(const std::vector<ControlReply>& replies,
                                         std::size_t channel, double level) {
    const ControlReply* nearest = nullptr;
    for (const ControlReply& reply : replies) {
        if (reply.control.kind == ControlKind::point && reply.answers &&
            static_cast<std::size_t>(reply.control.channel) == channel &&
            (nearest == nullptr ||
             std::abs(reply.control.level - level) < std::abs(nearest->control.level - level))) {
            nearest = &reply;
        }
    }
    return nearest;
}

/// Per step of red, green and blue: what it adds to the drives, and the menu's ends.
struct PointSteps {
    Matrix3 drives_from_steps{};
    std::array<int, 3> least{}, most{};
    /// This level's own point of a channel doesn't answer, and stays.
    std::array<bool, 3> dead{};
};

/// This level's own point was read, and doesn't answer.
inline bool point_is_dead(const std::vector<ControlReply>& replies, std::size_t channel,
                          double level) {
    return std::any_of(replies.begin(), replies.end(), [channel, level](const ControlReply& r) {
        return r.control.kind == ControlKind::point && !r.answers &&
               static_cast<std::size_t>(r.control.channel) == channel &&
               std::abs(r.control.level - level) < 1e-9;
    });
}

inline PointSteps steps_at(const std::vector<ControlReply>& replies, double level,
                           const std::array<double, 3>& drives) {
    constexpr double default_step = 0.002;
    constexpr int unknown_limit = 50;
    PointSteps steps;
    for (std::size_t j = 0; j < 3; ++j) {
        const ControlReply* reply = nearest_point(replies, j, level);
        std::array<double, 3> change{};
        change[j] = default_step;
        if (reply != nullptr) {
            change = reply->change(drives);
        }
        for (std::size_t k = 0; k < 3; ++k) {
            steps.drives_from_steps[k][j] = change[k];
        }
        // Limits of another level's point are counted from where that one stands.
        const bool own = reply != nullptr && std::abs(reply->control.level - level) < 1e-9;
        steps.least[j] = own && reply->least ? *reply->least : -unknown_limit;
        steps.most[j] = own && reply->most ? *reply->most : unknown_limit;
        steps.dead[j] = point_is_dead(replies, j, level);
        if (steps.dead[j]) {
            steps.least[j] = steps.most[j] = 0;
        }
    }
    return steps;
}

inline std::array<double, 3> stepped(const PointSteps& steps, const std::array<double, 3>& drives,
                                     const std::array<int, 3>& n) {
    const auto change = column_through(
        steps.drives_from_steps,
        {static_cast<double>(n[0]), static_cast<double>(n[1]), static_cast<double>(n[2])});
    return {drives[0] + change[0], drives[1] + change[1], drives[2] + change[2]};
}

/// Steps that needn't be whole, from drives to others; not finite where two channels answer alike.
inline std::array<double, 3> steps_between(const PointSteps& steps,
                                           const std::array<double, 3>& from,
                                           const std::array<double, 3>& to) {
    Eigen::Matrix3d m;
    for (Eigen::Index i = 0; i < 3; ++i) {
        for (Eigen::Index k = 0; k < 3; ++k) {
            m(i, k) =
                steps.drives_from_steps[static_cast<std::size_t>(i)][static_cast<std::size_t>(k)];
        }
    }
    const Eigen::Vector3d x = dense::times_3x3(
        dense::inverse_3x3(m), Eigen::Vector3d(to[0] - from[0], to[1] - from[1], to[2] - from[2]));
    return {x[0], x[1], x[2]};
}

/// Distance in x, y and from the curve, squared, of drives at a level.
inline double point_cost(const PlanRequest& base, const std::array<double, 3>& drives,
                         const std::array<double, 3>& target) {
    constexpr double unit_xy = 0.001;
    constexpr double curve_scale = 0.05;
    const auto at = xyY_from_xyz(base.drives.xyz(drives));
    const double x = (at[0] - target[0]) / unit_xy;
    const double y = (at[1] - target[1]) / unit_xy;
    const double l = std::log(std::max(1e-9, at[2]) / std::max(1e-9, target[2])) / curve_scale;
    return x * x + y * y + l * l;
}

/// The whole steps nearest to a target within the menu's ends: from the exact ones on, all within two of the best so far until none is better. Where a channel can't
/// move, what the other two do best isn't near the exact steps.
inline std::array<int, 3> point_steps(const PlanRequest& base, const PointSteps& steps,
                                      const std::array<double, 3>& drives,
                                      const std::array<double, 3>& target, PlannedPoint& point) {
    const auto aim = base.drives.drives(xyz_from_xyY(target[0], target[1], target[2]));
    std::array<int, 3> centre{};
    const std::array<double, 3> exact =
        aim ? steps_between(steps, drives, *aim) : std::array<double, 3>{};
    if (std::all_of(exact.begin(), exact.end(), [](double e) { return std::isfinite(e); })) {
        for (std::size_t k = 0; k < 3; ++k) {
            const double least = steps.least[k];
            const double most = steps.most[k];
            point.at_end = point.at_end ||
                           (!steps.dead[k] && (exact[k] < least - 0.5 || exact[k] > most + 0.5));
            centre[k] = static_cast<int>(std::lround(std::clamp(exact[k], least, most)));
        }
    }
    std::array<int, 3> best{};
    double least_cost = point_cost(base, drives, target);
    const auto take_nearer = [&](const std::array<int, 3>& about) {
        const std::array<int, 3> before = best;
        for (int code = 0; code < 125; ++code) {
            const std::array<int, 3> n = {about[0] + code % 5 - 2, about[1] + code / 5 % 5 - 2,
                                          about[2] + code / 25 - 2};
            bool within = true;
            for (std::size_t k = 0; k < 3; ++k) {
                within = within && n[k] >= steps.least[k] && n[k] <= steps.most[k];
            }
            const double cost = within ? point_cost(base, stepped(steps, drives, n), target) : 0.0;
            if (within && cost < least_cost) {
                best = n;
                least_cost = cost;
            }
        }
        return best != before;
    };
    constexpr int rounds = 100;
    bool nearer = take_nearer(centre);
    for (int round = 0; round < rounds && nearer; ++round) {
        nearer = take_nearer(best);
    }
    return best;
}

inline double point_off(const PlanRequest& base, const std::array<double, 3>& drives,
                        const std::array<double, 3>& target) {
    const auto at = xyY_from_xyz(base.drives.xyz(drives));
    return std::hypot(at[0] - target[0], at[1] - target[1]);
}

inline PointNeed need_of(const PlannedPoint& point, double reading) {
    constexpr double gate = ControlPlan::near_enough_xy;
    if (reading > gate) {
        return PointNeed::too_dark;
    }
    if (point.off_without - point.doubt > gate) {
        return PointNeed::needed;
    }
    return point.off_without + point.doubt <= gate ? PointNeed::not_needed : PointNeed::unsure;
}

/// The two-point balance's moves, in the order of its replies.
struct PointMoves {
    /// With the replies of what is moved alone.
    PlanRequest base;
    std::vector<double> steps = {};
    double white_after = 0.0;
};

inline PointMoves moves_of(const PointRequest& request) {
    PointMoves moves{request.base};
    moves.base.replies.clear();
    for (const PlannedStep& step : request.moved) {
        for (const ControlReply& reply : request.base.replies) {
            if (reply.control == step.control) {
                moves.base.replies.push_back(reply);
                moves.steps.push_back(step.steps);
            }
        }
    }
    const auto white = grey_at(request.base, request.base.greys.back().level);
    if (!white) {
        throw Error(ErrorKind::domain, "plan_points", "no white above black",
                    "greys up to a white that is brighter than black");
    }
    moves.white_after =
        request.base.drives.xyz(moved_drives(moves.base.replies, moves.steps, white->drives))[1];
    return moves;
}

inline PlannedPoint planned_point(const PlanRequest& base, const PointMoves& moves, double level) {
    PlannedPoint point{level};
    const auto grey = grey_at(base, level);
    if (!grey) {
        point.need = PointNeed::not_read;
        return point;
    }
    std::array<double, 3> target = target_of(base.intended, level);
    target[2] *= moves.white_after;
    const auto drives = moved_drives(moves.base.replies, moves.steps, grey->drives);
    const auto deviation = moved_doubt(moves.base, moves.steps, grey->grey);
    const auto width = xy_half_width(base.drives, drives, deviation);
    const auto reading =
        xy_half_width(base.drives, grey->drives,
                      base.drives.noise(grey->drives, base.noise, grey->grey.readings));
    point.interpolated = grey->interpolated;
    point.off_read = point_off(base, grey->drives, target);
    point.off_without = point_off(base, drives, target);
    point.off_with = point.off_without;
    point.doubt = std::max(width[0], width[1]);
    point.need = need_of(point, std::max(reading[0], reading[1]));
    if (point.need == PointNeed::needed) {
        const PointSteps steps = steps_at(base.replies, level, drives);
        point.steps = point_steps(base, steps, drives, target, point);
        point.off_with = point_off(base, stepped(steps, drives, point.steps), target);
    }
    return point;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<PlannedPoint> plan_points(const PointRequest& request) {
    if (request.levels.empty()) {
        throw Error(ErrorKind::domain, "plan_points", "no levels", "one at least");
    }
    const detail::PointMoves moves = detail::moves_of(request);
    std::vector<PlannedPoint> points;
    for (const double level : request.levels) {
        if (!(level >= 0.0 && level <= 1.09)) {
            throw Error(ErrorKind::domain, "plan_points", "a level of " + to_text(level),
                        "0 to 1.09 of the signal");
        }
        points.push_back(detail::planned_point(request.base, moves, level));
    }
    return points;
}

SAMELIGHT_INLINE std::vector<double> equal_levels(int count) {
    if (count < 2 || count > 100) {
        throw Error(ErrorKind::domain, "equal_levels", std::to_string(count) + " points",
                    "2 to 100");
    }
    std::vector<double> levels;
    for (int i = 1; i <= count; ++i) {
        levels.push_back(static_cast<double>(i) / count);
    }
    return levels;
}

}  // namespace samelight
