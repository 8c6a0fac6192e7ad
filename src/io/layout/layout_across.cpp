// A table with a row of wavelengths and a light in each row below: where it begins and ends.
#include <algorithm>
#include <array>
#include <string>

#include "io/layout/layout.hpp"
#include "io/layout/roles.hpp"
#include "io/text/numbers.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

/// Cells beside the wavelengths must not be numbers: one of the row would be damaged, and part of it lost.
void check_beside(const Sheet& sheet, const WavelengthRow& row, const std::vector<Cell>& cells) {
    const auto damaged = [&](std::size_t i) {
        sheet.refuse(row.line, cells[i].text,
                     (cells[i].text.empty() ? std::string("an empty cell") : shown(cells[i].text)) +
                         " in the row of wavelengths",
                     "a number in nm in each cell of it");
    };
    for (std::size_t i = 1; i < row.begin; ++i) {
        if (loose_wavelength(cells[i].text)) damaged(row.begin - 1);
        if (looks_damaged(cells[i].text)) damaged(i);
    }
    for (std::size_t i = row.end; i < filled_count(cells); ++i) {
        if (loose_wavelength(cells[i].text)) damaged(row.end);
        if (looks_damaged(cells[i].text)) damaged(i);
    }
}

/// The cell in front of the values that names a light.
std::size_t find_name_cell(const Sheet& sheet, const WavelengthRow& row,
                           const std::vector<Cell>& cells) {
    if (row.begin <= 1) return 0;
    std::vector<std::size_t> named;
    for (std::size_t i = 0; i < row.begin; ++i) {
        if (heads_names(cells[i].text)) {
            named.push_back(i);
        }
    }
    if (named.size() != 1) {
        sheet.refuse_line(
            row.line,
            std::to_string(row.begin) +
                " columns in front of the wavelengths, any of which may hold the names",
            "one column of names, or one that is headed \"name\"");
    }
    return named.front();
}

/// Lines with next to nothing below the wavelengths, from here to the end, are a summary.
std::size_t end_of_lights(const Sheet& sheet, const Survey& found, const Layout& layout) {
    const std::size_t wavelengths = layout.wavelengths.end - layout.wavelengths.begin;
    std::vector<Cell> cells;
    std::size_t end = found.lines.size();
    for (; end > layout.wavelengths.line + 1; --end) {
        const std::size_t line = end - 1;
        if (found.lines[line].kind == LineKind::comment) continue;
        sheet.split(line, layout.separator, cells);
        std::size_t filled = 0;
        const std::size_t begin = layout.wavelengths.begin + layout.shift;
        for (std::size_t i = begin; i < std::min(begin + wavelengths, cells.size()); ++i) {
            if (!cells[i].text.empty()) ++filled;
        }
        const bool summary = filled == 0 || (filled <= 2 && wavelengths >= 5);
        const std::string_view first = cells.front().text;
        if (!summary || first.empty() || loose_wavelength(first) || !role_of(first).empty()) break;
    }
    return end;
}

}  // namespace

Layout layout_across(const Sheet& sheet, const Survey& found) {
    Layout layout;
    layout.separator = found.separator;
    layout.across = true;
    layout.wavelengths = *found.row;
    layout.first_line = found.row->line;
    layout.shift = found.row->begin == 0 ? 1 : 0;
    std::vector<Cell> cells;
    sheet.split(layout.first_line, layout.separator, cells);
    check_beside(sheet, layout.wavelengths, cells);
    layout.name_cell = find_name_cell(sheet, layout.wavelengths, cells);
    layout.summary_columns = filled_count(cells) - layout.wavelengths.end;
    const std::size_t end = end_of_lights(sheet, found, layout);
    for (std::size_t line = layout.first_line + 1; line < found.lines.size(); ++line) {
        if (found.lines[line].kind == LineKind::comment) continue;
        (line < end ? layout.rows : layout.summary).push_back(line);
    }
    return layout;
}

}  // namespace samelight::io::detail
