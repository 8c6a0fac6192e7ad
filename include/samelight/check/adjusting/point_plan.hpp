#pragma once
// The points of a multi-point balance: which levels need one, and by how many steps.
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/check/adjusting/control_plan.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Whether a level needs its point.
enum class PointNeed {
    /// Further off in x, y than 0.0015.
    needed,
    /// Within it, and so without the point.
    not_needed,
    /// The doubt of its reading reaches across 0.0015: read again first.
    unsure,
    /// Too dark to be told.
    too_dark,
    /// No greys around it were read.
    not_read
};

/// "needed", "not_needed", "unsure", "too_dark" or "not_read".
inline const char* code_of(PointNeed need) {
    constexpr std::array<const char*, 5> codes = {"needed", "not_needed", "unsure", "too_dark",
                                                  "not_read"};
    return codes.at(static_cast<std::size_t>(need));
}

/// One level of the list.
struct PlannedPoint {
    /// 0 to 1 of the signal.
    double level;
    PointNeed need = PointNeed::not_needed;
    /// Distance in x, y from what is intended: as read, after the two-point balance, after the point's own steps.
    double off_read = 0.0, off_without = 0.0, off_with = 0.0;
    /// Of off_without (expanded, coverage 95 %).
    double doubt = 0.0;
    /// Red, green, blue; 0 where the point isn't needed.
    std::array<int, 3> steps{};
    /// A channel would need more steps than the menu has.
    bool at_end = false;
    /// No grey was read there: between its neighbours.
    bool interpolated = false;
};

/// What the points rest on.
struct PointRequest {
    /// The same as the two-point balance was planned with, points' replies among `replies`.
    PlanRequest base;
    /// Of the two-point balance; without one all 0.
    std::vector<PlannedStep> moved = {};
    /// 0 to 1 of the signal, ascending; one at least.
    std::vector<double> levels = {};
};

/// The points, in the order of the levels. A point moves red, green and blue of its own level, its neighbours' points nothing; a level that
/// was not read lies between its neighbours in drives. Steps aim at the intended chromaticity and, with a tenth of the weight, at the curve.
/// Replies of a point hold for its level, and for levels that have none of their own the nearest level's; where no point was read, a step is
/// taken to move its channel's drive by 0.2 % of the full drive. A point that was read and doesn't answer is not moved, its level's other channels do what they can.
/// Throws Error (domain) for no levels, levels outside 0 to 1.09, and as plan_controls(). Source: own rule.
SAMELIGHT_API std::vector<PlannedPoint> plan_points(const PointRequest& request);

/// `count` levels as menus have them, equally apart up to 1: 10 are 0.1, 0.2, ..., 1. Throws Error (domain) unless 2 to 100.
SAMELIGHT_API std::vector<double> equal_levels(int count);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/adjusting/impl/point_plan.ipp"
#endif
