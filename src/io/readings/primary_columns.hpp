#pragma once
// Which columns of a table of readings of a display's lights hold what.
#include <array>
#include <cstddef>
#include <limits>
#include <optional>

#include "io/text/sheet.hpp"

namespace samelight::io::detail {

/// Where the columns stand.
struct PrimaryColumns {
    static constexpr std::size_t nowhere = std::numeric_limits<std::size_t>::max();

    /// Of the heading, an index into Sheet::lines().
    std::size_t line = 0;
    std::size_t name = nowhere;
    /// x, y; beside X, Y, Z they must say the same.
    std::array<std::size_t, 2> xy = {nowhere, nowhere};
    std::array<std::size_t, 3> xyz = {nowhere, nowhere, nowhere};
    /// A luminance by its name, not as Y.
    std::size_t luminance = nowhere;

    [[nodiscard]] bool has_xy() const { return xy[0] != nowhere && xy[1] != nowhere; }
    [[nodiscard]] bool has_xyz() const {
        return xyz[0] != nowhere && xyz[1] != nowhere && xyz[2] != nowhere;
    }
    /// Y, or else the luminance by its name.
    [[nodiscard]] std::size_t Y() const { return xyz[1] != nowhere ? xyz[1] : luminance; }
};

/// The columns by a heading among the first lines: one of names, and x, y or X, Y, Z. None where there is no such heading.
/// Throws Error (input), with the place, for one that has a column of a kind twice, values of another observer than CIE 1931, 2 degrees, or a
/// unit that is none of theirs.
std::optional<PrimaryColumns> find_primary_columns(const Sheet& sheet, char separator);

}  // namespace samelight::io::detail
