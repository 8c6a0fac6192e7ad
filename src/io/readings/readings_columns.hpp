#pragma once
// Where the columns of a file of readings stand, and how its numbers are written.
#include <array>
#include <cstddef>
#include <limits>
#include <string>
#include <vector>

#include "io/text/sheet.hpp"

namespace samelight::io::detail {

enum class ReadingColumn : std::size_t {
    patch,
    instrument,
    repeat,
    X,
    Y,
    Z,
    x,
    y,
    r,
    g,
    b,
    bits,
    range,
    time_s,
    window_pct,
    mode,
    flag,
    level_pct,
    position,
    control,
    steps,
    least,
    most,
    date,
    r_pct,
    g_pct,
    b_pct
};
inline constexpr std::size_t reading_columns = 27;

/// What a row of the file is, and so what its heading must name.
enum class ReadingsKind {
    /// patch and instrument
    paired,
    /// patch, r, g, b or level_pct, beside values
    patches,
    /// patch, and r, g, b or level_pct; values are left alone
    signals,
    /// control and steps
    controls
};

struct ReadingsLayout {
    static constexpr std::size_t nowhere = std::numeric_limits<std::size_t>::max();

    char separator = ',';
    char mark = '.';          ///< the decimal one
    std::size_t heading = 0;  ///< index in sheet.lines()
    std::size_t columns = 0;
    std::array<std::size_t, reading_columns> place{};  ///< of each column, or `nowhere`
    std::vector<std::string> unused;                   ///< headings that mean nothing here

    [[nodiscard]] std::size_t at(ReadingColumn column) const {
        return place.at(static_cast<std::size_t>(column));
    }
    [[nodiscard]] bool has(ReadingColumn column) const { return at(column) != nowhere; }
    [[nodiscard]] bool has_xyz() const {
        return has(ReadingColumn::X) && has(ReadingColumn::Y) && has(ReadingColumn::Z);
    }
    [[nodiscard]] bool has_xyY() const {
        return has(ReadingColumn::x) && has(ReadingColumn::y) && has(ReadingColumn::Y);
    }
};

/// Finds the heading row, the separator and the decimal mark. A column goes by its own name, or where none has that by another one that people write:
/// name, sample, colour, ... for patch, Lv or luminance for Y, level, window and time for those with a unit.
/// Throws Error (input) where there is no heading of that kind, for a column named twice or missing, for other units
/// than cd/m2, and where a mark may separate thousands.
ReadingsLayout find_readings_layout(const Sheet& sheet, ReadingsKind kind);

/// True for cd/m2 as people write it, in small letters.
bool is_luminance_unit(const std::string& unit);

/// True for a column whose cells are numbers.
bool is_numeric(ReadingColumn column);

}  // namespace samelight::io::detail
