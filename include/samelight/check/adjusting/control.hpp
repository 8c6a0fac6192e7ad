#pragma once
// The controls of a display's white balance, and readings of how they answer.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Which of the three channels a control is named after.
enum class ControlChannel { red, green, blue };

/// "red", "green" or "blue".
inline const char* code_of(ControlChannel channel) {
    constexpr std::array<const char*, 3> codes = {"red", "green", "blue"};
    return codes.at(static_cast<std::size_t>(channel));
}

/// Where along the greys a control acts.
enum class ControlKind {
    /// Most at the top: two-point, the high one.
    gain,
    /// Most at the bottom: two-point, the low one.
    offset,
    /// About one level of a list: multi-point.
    point
};

/// "gain", "offset" or "point".
inline const char* code_of(ControlKind kind) {
    constexpr std::array<const char*, 3> codes = {"gain", "offset", "point"};
    return codes.at(static_cast<std::size_t>(kind));
}

/// One control of a menu.
struct Control {
    ControlChannel channel = ControlChannel::red;
    ControlKind kind = ControlKind::gain;
    /// Of a point: its level, 0 to 1 of the signal. Of others 0.
    double level = 0.0;

    friend bool operator==(const Control&, const Control&) = default;
};

/// "red gain", "blue offset", "green point 50" (per cent of the signal).
SAMELIGHT_API std::string name_of(const Control& control);

/// The control of such a name: capitals, hyphens and underscores don't matter, the channel's first letter is enough, "high" and "low" stand for gain
/// and offset, a point's level may have a % behind it. Nothing for any other text. Source: own rule.
SAMELIGHT_API std::optional<Control> control_named(std::string_view name);

/// A grey, read with one control moved.
struct ControlReading {
    /// Absent: nothing was moved.
    std::optional<Control> control = {};
    /// How far from where all others were read; 0: nothing moved.
    int steps = 0;
    /// Of the grey, 0 to 1 of the signal. Absent: the whole signal for a gain, its own level for a point.
    std::optional<double> level = {};
    /// X, Y, Z of CIE 1931, cd/m2
    std::array<double, 3> xyz{};
    /// The menu's limits: furthest down (0 or less) and up (0 or more) from there, in steps.
    std::optional<int> least = {}, most = {};
    /// Line of the file, from 1; 0: none.
    std::size_t line = 0;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/adjusting/impl/control.ipp"
#endif
