#pragma once
// The numbers of a table.
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "io/layout/headings.hpp"
#include "io/layout/layout.hpp"
#include "io/text/numbers.hpp"
#include "io/text/sheet.hpp"

#include "samelight/meter/model/mismatch.hpp"

namespace samelight::io::detail {

/// The numbers of a file, ascending in wavelength.
struct Table {
    std::vector<double> wavelengths_nm;
    std::vector<std::vector<double>>
        values;  ///< one vector for each column (or row) of values; empty where it is left out
    bool descending = false;                     ///< in the file
    AxisUnit converted_from = AxisUnit::unsaid;  ///< where the file's wavelengths aren't in nm
};

/// Which mark is the decimal one: '.' or ','. In decimal_mark.cpp.
/// Throws Error (input), naming both readings, where marks may separate thousands or columns.
char find_decimal_mark(const Sheet& sheet, const Layout& layout, const Headings& headings);

/// All numbers, as they are in the file but for the unit of the wavelengths, which become nm. These may be in disorder.
/// Throws Error (input), with line and column, for a cell that is empty, too much or no number.
Table read_numbers(const Sheet& sheet, const Layout& layout, const Headings& headings, char mark);

/// A cell of the table, and the line it stands in.
struct Spot {
    std::size_t line = 0;
    std::string_view text;
};
Spot wavelength_spot(const Sheet& sheet, const Layout& layout, std::size_t index_in_file);
Spot value_spot(const Sheet& sheet, const Layout& layout, std::size_t index_in_file,
                std::size_t light);

/// Calls f(cell, is_wavelength, line) for each cell that should be a number, line by line.
template <class F>
void for_each_number(const Sheet& sheet, const Layout& layout, F&& f) {
    std::vector<Cell> cells;
    const auto pass = [&](std::size_t line, std::size_t begin, std::size_t end,
                          auto is_wavelength) {
        sheet.split(line, layout.separator, cells);
        for (std::size_t i = begin; i < end && i < cells.size(); ++i) {
            f(cells[i], is_wavelength(i), line);
        }
    };
    if (layout.across) {
        const WavelengthRow& row = layout.wavelengths;
        pass(row.line, row.begin, row.end, [](std::size_t) { return true; });
        for (const std::size_t line : layout.rows) {
            pass(line, row.begin + layout.shift, row.end + layout.shift,
                 [](std::size_t) { return false; });
        }
    } else {
        for (const std::size_t line : layout.rows) {
            pass(line, 0, layout.columns, [](std::size_t i) { return i == 0; });
        }
    }
}

/// The number within a cell: without "nm" where it is a wavelength.
inline std::string_view number_text(const Cell& cell, bool is_wavelength) {
    if (!is_wavelength) return cell.text;
    const std::optional<WavelengthText> wavelength = wavelength_text(cell.text);
    return wavelength ? wavelength->number : cell.text;
}

}  // namespace samelight::io::detail
