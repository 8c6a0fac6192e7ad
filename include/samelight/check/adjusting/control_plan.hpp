#pragma once
// The steps of a two-point balance: gains and offsets, set together from greys and replies.
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/check/adjusting/control_reply.hpp"
#include "samelight/check/adjusting/grey_drives.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What is to be adjusted, and by what.
struct PlanRequest {
    /// Ascending; the last is the white that is set.
    std::vector<GreyLevel> greys;
    IntendedDisplay intended;
    GreyDrives drives;
    GreyNoise noise = {};
    /// Gains and offsets; points, and controls that don't answer, are left alone here.
    std::vector<ControlReply> replies = {};
};

/// How far to turn one control.
struct PlannedStep {
    Control control;
    int steps = 0;
    /// What it would take if the menu had no end.
    double wanted = 0.0;
    /// It stands at the menu's end and would go on.
    bool at_end = false;
};

/// One grey, before and after.
struct PlannedGrey {
    double level;
    /// x, y and Y (cd/m2) as read, as intended at the white's luminance then, and as they will be; x and y are NaN where a grey was read without light.
    std::array<double, 3> read, intended, after;
    /// Of x, y (expanded, coverage 95 % at least) and of Y (relative) after. On simulated displays that steer otherwise than the plan's model, read with
    /// the default's noise, it held x in 97, y and Y in 99 of 100 and more: noise is taken as alike and independent in the three channels, whereas
    /// an instrument's
    /// scatter in X, Y and Z is partly common to them and moves y less; and a twentieth of each move is more than their curves bend.
    std::array<double, 3> doubt{};
    /// Distance in x, y from what is intended, as read and after.
    double off_read = 0.0, off_after = 0.0;
    /// Too dark for its x, y to be read to 0.0015; it had little or no say.
    bool too_dark = false;
};

/// The whole plan.
struct ControlPlan {
    std::vector<PlannedStep> steps;
    std::vector<PlannedGrey> greys;
    /// Of white after, relative to white as read.
    double luminance_ratio = 1.0;
    /// Distance in x, y of white that no setting within the menu's limits takes away; present where a control is at its end and it is above
    /// `white_gate_xy`.
    std::optional<double> out_of_reach_xy = {};
    /// Largest step of a gain in x, y, and smallest: white can be set about half a step near.
    double largest_step_xy = 0.0, smallest_step_xy = 0.0;

    /// Of a grey's or a point's distance in x, y: within it nothing needs be done.
    static constexpr double near_enough_xy = 0.0015;
    /// A white further off than this at the menu's end is out of reach.
    static constexpr double white_gate_xy = 0.0005;
};

/// The drives of a grey after `steps`, in the order of `replies`. No unit; throws nothing.
SAMELIGHT_API std::array<double, 3> moved_drives(const std::vector<ControlReply>& replies,
                                                 const std::vector<double>& steps,
                                                 const std::array<double, 3>& drives);

/// Standard deviations of the drives of a grey after `steps` of the request's replies, in the unit of drives (none): of the replies, of the
/// steps that were worked out from them (a twentieth of each move), of the reading.
/// Source: JCGM 100:2008, eq. 10 (from memory); the twentieth is our own rule.
SAMELIGHT_API std::array<double, 3> moved_doubt(const PlanRequest& request,
                                                const std::vector<double>& steps,
                                                const GreyLevel& grey);

/// The steps within the limits that bring white to the intended chromaticity and then all greys as near as can be, greys the less the less
/// sure their reading is, with as little change of light as can be: two points set colour, not the curve. Least squares between
/// the limits (50 steps where none are known), then the best whole steps among the neighbours.
/// Error: see PlannedGrey::doubt. Without gains and offsets the greys stay as they are. Throws Error (domain) without a white above
/// black.
/// Source: own rule; least squares as damped_least_squares.
SAMELIGHT_API ControlPlan plan_controls(const PlanRequest& request);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/adjusting/impl/control_plan.ipp"
#endif
