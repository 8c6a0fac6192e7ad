#pragma once
// What stands above a table and beside it: names and units.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "io/layout/axis.hpp"
#include "io/layout/layout.hpp"
#include "io/layout/units.hpp"
#include "io/text/sheet.hpp"

namespace samelight::io::detail {

/// A unit, and where it stands.
struct UnitStatement {
    PowerUnit unit;
    std::string text;
    std::size_t line = 0;
    std::string_view cell;
};

struct Headings {
    [[nodiscard]] bool wants(std::size_t light) const {
        return left_out.empty() || left_out[light] == 0;
    }

    std::vector<std::string> names;  ///< one for each column (or row) of values, without units
    std::vector<std::string_view>
        name_cells;              ///< where they stand; down: in names_line, across: in the rows
    bool found = false;          ///< down: a line of the file names the columns (if only by unit)
    bool generated = false;      ///< "light", "light 1", ...: the file names none
    std::size_t names_line = 0;  ///< down, where found
    std::vector<std::string_view>
        wavelength_cells;  ///< what heads the wavelengths, in these lines:
    std::vector<std::size_t> wavelength_lines;
    AxisUnit axis = AxisUnit::unsaid;  ///< what these cells say; the last word where they differ
    std::vector<char>
        left_out;  ///< 1 for each light that wasn't asked for, whose cells aren't read; empty: all were
    std::size_t read_lines = 0;  ///< heading lines that told names or units of the columns
    std::optional<UnitStatement>
        unit;  ///< the one spectral unit of the file, or else another unit of power
};

/// Reads the names and the units of a table.
/// Throws Error (input), with line and column, for columns without a name, for names and columns that don't go
/// together, for units that differ or that some columns lack.
Headings read_headings(const Sheet& sheet, const Layout& layout);

/// The unit that all statements agree on, spectral ones before others. In headings_units.cpp.
/// @param statements those of heading lines and comments
/// @param of_columns those of the names, one place for each; all, none, or else statements above them
std::optional<UnitStatement> agreed_unit(
    const Sheet& sheet, std::vector<UnitStatement> statements,
    const std::vector<std::optional<UnitStatement>>& of_columns, const Headings& headings,
    const Layout& layout);

/// All units in a cell of a line, whose text as a name is `text`.
void collect_units(std::size_t line, std::string_view cell, const std::string& text,
                   std::vector<UnitStatement>& statements);

/// Throws Error (input) about the name of column (or row) `light`.
[[noreturn]] void refuse_light(const Sheet& sheet, const Layout& layout, const Headings& headings,
                               std::size_t light, const std::string& found,
                               const std::string& wanted);

}  // namespace samelight::io::detail
