#pragma once
// Files of an adjustment: controls and how far they are turned, or a table of colours.
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/check/gradients/adjustment.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// An adjustment as read, and what was understood on the way.
struct AdjustmentFile {
    /// The file's name as it was given.
    std::string source;
    Adjustment adjustment;
    /// Whole sentences for people.
    std::vector<std::string> understood;
};

/// Reads a file of an adjustment. As parse_adjustment_csv(), and throws Error (system) for what can't be opened or read, Error (input) for what is
/// no regular file or too large.
[[nodiscard]] SAMELIGHT_API AdjustmentFile read_adjustment_csv(
    const std::filesystem::path& file, TableReading reading = TableReading::tetrahedral);

/// Understands the text of a file of an adjustment: a heading line, then a row each of up to 200 controls, columns in any order:
/// - control: gain, offset, point, saturation, hue or lightness; amount: per cent, of hue degrees (see AdjustmentMove)
/// - channel: red, green, blue or all (gain, offset, point; empty: all)
/// - level_pct: of point, 0 to 100
/// - hue: of saturation, hue and lightness: red, yellow, green, cyan, blue, magenta, or degrees of -360 to 360
/// - half_width_deg: of these, where the control ends; empty: 60
/// or of a table: columns r_in, g_in, b_in, r_out, g_out, b_out, rows in any order: all nodes of a grid of 2 to 58 on a side, evenly spread. Values
/// of up to 1 are signals; larger ones are codes, whose full signal is the largest in.
/// Commas, semicolons or tabs; decimal commas beside the latter two; lines that begin with # are comments. Own format.
/// Throws Error (input), one line: file:line:column, what was found, what was wanted.
[[nodiscard]] SAMELIGHT_API AdjustmentFile
parse_adjustment_csv(std::string_view bytes, const std::string& source,
                     TableReading reading = TableReading::tetrahedral);

}  // namespace samelight::io
