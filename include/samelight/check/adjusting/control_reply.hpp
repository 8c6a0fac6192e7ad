#pragma once
// How a control answers: what one step of it does to the three channels, from readings, with its doubt.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "samelight/check/adjusting/control.hpp"
#include "samelight/check/adjusting/grey_drives.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What one step of a control does: channel k's drive u moves by top[k] u + bottom[k] (1 - u), as GreyDrives has drives.
///
/// A pure gain has a top alone, a pure offset that is added at every level has both alike. Controls couple, so all three channels have
/// both. A point moves its own level so and the levels beside it less, down to nothing at the neighbouring points. Source: own rule.
struct SAMELIGHT_API ControlReply {
    Control control;
    std::array<double, 3> top{}, bottom{};
    /// Of each channel's top and bottom: variance of the top, covariance, variance of the bottom.
    std::array<std::array<double, 3>, 3> covariance{};
    /// Of the greys at which it was read, 0 to 1, ascending; empty: the default is taken, it wasn't read.
    std::vector<double> levels = {};
    /// What one step moves x and y by, at `step_level`.
    std::array<double, 2> step_xy{};
    double step_level = 1.0;
    /// The menu's limits, in steps from where the greys are read now; absent: unknown.
    std::optional<int> least = {}, most = {};
    /// What was read of it, in its own channel, is told from nothing: it is more than three standard deviations at one of its levels. Else nobody knows what
    /// a step does, and it is not to be moved.
    bool answers = true;

    /// It was read, and isn't the default.
    [[nodiscard]] bool measured() const { return !levels.empty(); }
    /// What one step adds to the drives. Drives: 0 to about 1.1, no unit.
    [[nodiscard]] std::array<double, 3> change(const std::array<double, 3>& drives) const;
    /// Variances of the same.
    [[nodiscard]] std::array<double, 3> variance(const std::array<double, 3>& drives) const;
};

/// What a reply's fit rests on.
struct ReplyGreys {
    /// Where no row with 0 steps is, these are what a control was moved from.
    std::vector<GreyLevel> levels;
    GreyDrives drives;
    GreyNoise noise;
};

/// The replies of all controls that were read, in the order of their first reading. Weighted least squares, each channel by itself, of the
/// differences from the grey of 0 steps; what the levels read don't tell has the default's value and doubt (a gain: no bottom, give or
/// take a tenth of its top; an offset: a top of half its bottom, give or take 0.3 of it). Where readings scatter more than their
/// noise the doubt grows with them. An interval of 95 % held 98 of 100 true steps of simulated displays read with the default's noise: scatter that is
/// smaller than the noise doesn't make the doubt smaller, and of the channels the one with least noise is given as much as the others.
/// Steps: whole; X, Y, Z in cd/m2. Throws Error (input), with the line, for a control that was read at a level of which there is no grey, a level
/// that is missing or too dark, limits that contradict each other. A control that doesn't answer is no error: ControlReply::answers says so.
/// Source: JCGM 100:2008, H.3, and Bayes' theorem for what isn't told; the defaults are our own rule.
SAMELIGHT_API std::vector<ControlReply> fit_replies(std::span<const ControlReading> readings,
                                                    const ReplyGreys& greys);

/// The six controls of a two-point balance as they are taken to be where none was read: a step of gain moves its own channel's drive by 0.5 %, one
/// of offset by 0.2 % of the full drive at the bottom and half of that at the top, each give or take 60 %. Source: own choice.
SAMELIGHT_API std::vector<ControlReply> default_replies(const GreyDrives& drives);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/adjusting/impl/control_reply.ipp"
#endif
