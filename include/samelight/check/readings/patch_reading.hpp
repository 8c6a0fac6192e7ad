#pragma once
// One reading of a patch by one instrument, as a visit's file holds it.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>

#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What was shown, and what the instrument read.
struct PatchReading {
    /// Name of the patch; empty where the file has signals alone.
    std::string patch = {};
    /// X, Y, Z of CIE 1931, cd/m2
    std::array<double, 3> xyz{};
    /// R', G', B' that were shown: of code values with their bits and range, or of the level. Absent: the name must say it.
    std::optional<std::array<double, 3>> signal = {};
    /// The codes themselves, where the file has them, and their depth and range.
    std::optional<std::array<int, 3>> codes = {};
    std::optional<Quantisation> quantisation = {};
    /// Share of the screen's area, above 0 to 100.
    std::optional<double> window_pct = {};
    /// Picture mode; may be empty.
    std::string mode = {};
    /// Which time around, from 1, where the file says.
    std::optional<int> repeat = {};
    /// Seconds from any start.
    std::optional<double> time_s = {};
    /// The day it was read, days from 1970-01-01.
    std::optional<int> day = {};
    /// Where on the screen ("centre", "top left", ...); may be empty.
    std::string position = {};
    /// What whoever measured noted; may be empty.
    std::string flag = {};
    /// Line of the file, from 1; 0: none.
    std::size_t line = 0;
};

/// Throws Error (domain) in the name of `where` unless each reading is one: X, Y, Z (below 0, too, as noise has it), signals and times finite, windows
/// above 0 to 100 %. What reads files says so with a line's number beforehand. Source: own rule.
SAMELIGHT_API void require_readings(const char* where, std::span<const PatchReading> readings);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/readings/impl/patch_reading.ipp"
#endif
