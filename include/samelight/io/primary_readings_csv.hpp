#pragma once
// A display's red, green, blue and white in numbers, from a small file.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/display/types/primary_readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// A display as read, and what was understood of the file.
struct NamedPrimaryReadings {
    /// Black taken off where the file has it.
    PrimaryReadings readings;
    /// Whole sentences.
    std::vector<std::string> understood;
};

/// Readings of a display from a table with a heading: a column of names (`name`, `light`, `colour` or `patch`) and `x`, `y` and perhaps `Y` (or
/// `L`, `Lv`, `luminance`), or `X`, `Y`, `Z`; rows red, green, blue, white and perhaps black, in any order and any language of light_named().
/// Behind a heading may stand a unit of luminance, or the observer, which is CIE 1931, 2 degrees. Where x, y stand beside X, Y, Z they must
/// agree to .002 (own rule). A black of 0, or around it by less than a thousandth of white (own rule), is one too dark to be read. Commas,
/// semicolons or tabs; decimal commas beside the latter two. Lines that start with # are comments. None where the text has no such heading:
/// it holds something else then.
/// @param source the file's name, for messages
/// Throws Error (input), with line and column, for rows that are missing, doubled or unknown, cells that are no numbers, columns of a kind twice
/// or of another observer, a black without luminances or below zero, a light no brighter than black, and as require_readings().
SAMELIGHT_API std::optional<NamedPrimaryReadings> parse_primary_readings(std::string_view bytes,
                                                                         const std::string& source);

/// The same of a file, or of standard input (-). Throws Error (system), too.
SAMELIGHT_API std::optional<NamedPrimaryReadings> open_primary_readings(const std::string& file);

}  // namespace samelight::io
