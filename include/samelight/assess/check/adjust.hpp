#pragma once
// What to set on a display: from its greys and from how its controls answer.
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/check/adjusting/control.hpp"
#include "samelight/check/adjusting/control_plan.hpp"
#include "samelight/check/adjusting/control_reply.hpp"
#include "samelight/check/adjusting/grey_drives.hpp"
#include "samelight/check/adjusting/point_plan.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// A control that was set since the controls were read, and by how many steps.
struct MovedControl {
    Control control;
    int steps = 0;
};

/// What is asked for.
struct AdjustRequest {
    /// Greys, white among them; other patches are left out.
    std::vector<PatchReading> readings;
    IntendedDisplay intended;
    /// Empty: a usual control is assumed (default_replies()).
    std::vector<ControlReading> controls = {};
    /// Levels of a multi-point balance, 0 to 1 of the signal, ascending; empty: none.
    std::vector<double> points = {};
    /// The menu's limits are counted from where the controls were read, less these.
    std::vector<MovedControl> moved = {};
};

/// What to do.
enum class AdjustVerdict {
    /// The steps, then read again.
    set,
    /// The same, as a first try: how the controls answer was not read.
    set_roughly,
    /// No step brings the greys nearer by more than the doubt.
    leave,
    /// The steps; the white that was chosen lies beyond the menu's end.
    out_of_reach,
    /// None of the controls that were read answers, so that nothing can be set by them.
    no_answer
};

/// "set", "set_roughly", "leave", "out_of_reach" or "no_answer".
inline const char* code_of(AdjustVerdict verdict) {
    constexpr std::array<const char*, 5> codes = {"set", "set_roughly", "leave", "out_of_reach",
                                                  "no_answer"};
    return codes.at(static_cast<std::size_t>(verdict));
}

/// The whole answer.
struct AdjustAnswer {
    AdjustVerdict verdict = AdjustVerdict::set;
    ControlPlan plan = {};
    /// Two-point controls and points; where none was read, as they are taken to be.
    std::vector<ControlReply> replies = {};
    std::vector<PlannedPoint> points = {};
    /// Controls that were read and whose answer isn't told from nothing: they aren't moved.
    std::vector<Control> no_answer = {};
    GreyNoise noise = {};
    /// Replies were read, of gains or offsets, and of points.
    bool controls_read = false, point_controls_read = false;
    /// Replies without a row of 0 steps, counted from the greys themselves: good for this pass alone.
    bool counted_from_greys = false;
    /// Signal 0 was read, and taken off.
    bool black_read = false;
    /// Readings that are no greys.
    std::size_t left_out = 0;

    /// White, the last of the plan's greys. There is one.
    [[nodiscard]] const PlannedGrey& white() const { return plan.greys.back(); }
};

/// Most levels of grey, and points, that are taken.
inline constexpr std::size_t most_grey_levels = 1100;

/// Works the steps out. Greys above full signal are left out. Throws Error (input) for readings without a white of full signal, a white that is
/// none of a display's (require_display_white()), outside the primaries or no brighter than black, more than 1100 levels, controls moved beyond their
/// limits; as fit_replies(), plan_controls() and plan_points(). The verdict is our own rule.
SAMELIGHT_API AdjustAnswer answer_adjust(const AdjustRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/check/impl/adjust.ipp"
#endif
