#pragma once
// Files of how a display's controls answer: greys read with one control moved.
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/check/adjusting/control.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// What a file of control readings holds, and what was understood on the way.
struct ControlReadingsFile {
    /// The file's name as it was given.
    std::string source;
    /// In the file's order; at least one with a control that was moved.
    std::vector<ControlReading> rows;
    /// How the file was read: whole sentences for people.
    std::vector<std::string> understood;
};

/// Reads a file of control readings. As parse_control_readings_csv(), and throws Error (system) for what can't be opened or read, Error (input)
/// for what is no regular file or too large.
[[nodiscard]] SAMELIGHT_API ControlReadingsFile
read_control_readings_csv(const std::filesystem::path& file);

/// Understands the text of a file of control readings: one row a reading, columns in any order, read with the same tolerance as
/// parse_readings_csv() (encodings, separators, decimal commas, heading lines, comments):
/// - control: see control_named(); may be empty where steps is 0
/// - steps: how far it was moved, a whole number from -1000 to 1000; 0: nothing was moved
/// - X, Y, Z in cd/m2, or x, y, Y
/// - level_pct: of the grey, above 0 up to 109 per cent of the signal; or patch: white or grey-N. Without: see ControlReading::level
/// - least, most: how many steps the menu still has down (0 or less) and up, from where nothing was moved; cells may be empty
/// Throws Error (input), one line: file:line:column, what was found, what was wanted.
[[nodiscard]] SAMELIGHT_API ControlReadingsFile
parse_control_readings_csv(std::string_view bytes, const std::string& source);

}  // namespace samelight::io
