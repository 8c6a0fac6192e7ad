#pragma once
// Where the table lies in a sheet, which way it runs, and what stands between its cells.
#include <cstddef>
#include <string>
#include <vector>

#include "io/layout/survey.hpp"
#include "io/text/sheet.hpp"

namespace samelight::io::detail {

/// Down: each row of the table is a wavelength, its first cell. Across: each row is a light, and a line above the
/// table holds the wavelengths.
struct Layout {
    char separator = ',';
    bool across = false;
    std::vector<std::size_t> rows;  ///< lines of the table, without the heading rows
    std::size_t first_line =
        0;  ///< where the headings of the file end: the first of rows, or the row of wavelengths
    std::vector<std::size_t> summary;  ///< lines behind the table that are left out

    std::size_t columns = 0;  ///< down: cells in each row, the wavelength among them

    WavelengthRow wavelengths;  ///< across: where they stand
    std::size_t shift = 0;  ///< across: 1 where the row of wavelengths has no cell above the names
    std::size_t name_cell = 0;  ///< across
    std::size_t summary_columns =
        0;  ///< across: columns behind the last wavelength that are left out
};

/// What the refusal of a sheet without a table begins with.
inline constexpr const char* no_table = "no table of wavelengths";

/// Finds the separator, the direction and the extent of the table.
/// Throws Error (input), with line and column, where there is no table, or where it can be read in two ways.
Layout find_layout(const Sheet& sheet);

/// The extent of a table whose direction is known. They throw as find_layout().
Layout layout_down(const Sheet& sheet, const Survey& found);
Layout layout_across(const Sheet& sheet, const Survey& found);

/// The separator's name for people, singular or plural: "comma", "semicolons".
std::string separator_name(char separator, bool plural);

}  // namespace samelight::io::detail
