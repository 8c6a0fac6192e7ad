// A table with a wavelength in front of each row: where it begins and ends.
#include <algorithm>
#include <map>
#include <string>

#include "io/layout/layout.hpp"
#include "io/text/numbers.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

constexpr std::size_t none = static_cast<std::size_t>(-1);

/// A line that belongs to the table, be it with its values missing.
bool is_row(const LineFacts& facts) {
    return is_data(facts.kind) || (facts.kind == LineKind::lone && facts.separators);
}

/// The number of cells that most lines of data have, the larger where two are as frequent.
std::size_t usual_cells(const Survey& found) {
    std::map<std::size_t, std::size_t> counts;
    for (const LineFacts& facts : found.lines) {
        if (is_data(facts.kind)) ++counts[facts.cells];
    }
    std::size_t best = 0;
    for (const auto& [cells, lines] : counts) {
        if (best == 0 || lines >= counts[best]) best = cells;
    }
    return best;
}

/// The last line that heads a column of wavelengths and has data behind it; none if there is none.
std::size_t last_wavelength_heading(const Survey& found) {
    std::size_t heading = none;
    std::size_t last = none;
    for (std::size_t line = 0; line < found.lines.size(); ++line) {
        if (found.lines[line].wavelength_heading) last = line;
        if (is_data(found.lines[line].kind) && last != none) heading = last;
    }
    return heading;
}

std::size_t next_row(const Survey& found, std::size_t line) {
    while (line < found.lines.size() && !is_row(found.lines[line])) {
        ++line;
    }
    return line;
}

/// The first line from `line` on that begins with a number; below a heading that is a row, complete or not.
std::size_t first_number(const Survey& found, std::size_t line) {
    while (!is_data(found.lines[line].kind) && found.lines[line].kind != LineKind::lone) {
        ++line;
    }
    return line;
}

/// The wavelengths of the data in lines before `end`.
std::vector<double> wavelengths_before(const Survey& found, std::size_t end) {
    std::vector<double> result;
    for (std::size_t line = 0; line < end; ++line) {
        if (is_data(found.lines[line].kind)) result.push_back(found.lines[line].wavelength);
    }
    return result;
}

/// Without a heading to go by: the first two neighbouring rows of the usual length, with the rows directly above
/// them and with any earlier one whose wavelength fits in front (behind a damaged one, say).
std::size_t first_row_without_heading(const Survey& found, std::size_t columns) {
    std::size_t first = none;
    std::size_t previous = none;
    for (std::size_t line = 0; line < found.lines.size(); ++line) {
        const LineFacts& facts = found.lines[line];
        if (facts.kind == LineKind::comment) continue;
        const bool usual = is_data(facts.kind) && facts.cells == columns;
        if (usual && first == none) first = line;
        if (usual && previous != none) {
            first = previous;
            break;
        }
        previous = usual ? line : none;
    }
    while (first > 0 &&
           (is_row(found.lines[first - 1]) || found.lines[first - 1].kind == LineKind::comment)) {
        --first;
    }
    first = next_row(found, first);
    const std::size_t second = next_row(found, first + 1);
    if (second == found.lines.size()) return first;
    const double from = found.lines[first].wavelength;
    const bool ascending = from < found.lines[second].wavelength;
    for (std::size_t line = 0; line < first; ++line) {
        const LineFacts& facts = found.lines[line];
        const double nm = facts.wavelength;
        const bool fits = ascending ? nm >= 100.0 && nm <= from : nm >= from && nm <= 1500.0;
        if ((is_data(facts.kind) || facts.kind == LineKind::lone) && fits) return line;
    }
    return first;
}

constexpr const char* wanted_wavelength = "a wavelength at the head of each row";

/// Text between the heading and the first row must not be a damaged row: it would be lost.
void check_above_rows(const Sheet& sheet, const Survey& found, std::size_t begin, std::size_t end) {
    std::vector<Cell> cells;
    for (std::size_t line = begin; line < end; ++line) {
        if (found.lines[line].kind != LineKind::text || found.lines[line].cells < 2) continue;
        sheet.split(line, found.separator, cells);
        const std::string_view first = cells.front().text;
        const bool numbers = std::any_of(cells.begin() + 1, cells.end(),
                                         [](const Cell& cell) { return looks_numeric(cell.text); });
        if (numbers && (first.empty() || looks_damaged(first) ||
                        number_of(first, '.').fault == Fault::not_finite)) {
            sheet.refuse(line, first,
                         (first.empty() ? "nothing" : shown(first)) +
                             std::string(" where a wavelength should stand"),
                         wanted_wavelength);
        }
    }
}

/// A line amid or behind the rows that begins with no wavelength: damage, or a summary?
void check_text_row(const Sheet& sheet, std::size_t line, std::size_t last_data,
                    const std::vector<Cell>& cells, std::size_t filled) {
    const std::string_view first = cells.front().text;
    const std::string at_head = " where a wavelength should stand";
    if (first.empty()) sheet.refuse(line, first, "nothing" + at_head, wanted_wavelength);
    // A cell alone may be words that begin with a number ("2 degree observer"), or a date.
    const bool damaged = filled > 1 ? looks_damaged(first) : begins_with_wavelength(first);
    if (line < last_data || damaged || number_of(first, '.').fault == Fault::not_finite) {
        sheet.refuse(line, first, shown(first) + at_head, wanted_wavelength);
    }
}

}  // namespace

Layout layout_down(const Sheet& sheet, const Survey& found) {
    Layout layout;
    layout.separator = found.separator;
    layout.columns = usual_cells(found);
    const std::size_t heading = last_wavelength_heading(found);
    layout.first_line = heading == none ? first_row_without_heading(found, layout.columns)
                                        : first_number(found, heading);
    if (heading != none && wavelength_like(wavelengths_before(found, heading))) {
        sheet.refuse_line(heading, "a second table begins", "one table in a file");
    }
    const std::size_t above = layout.first_line > 0 ? layout.first_line - 1 : 0;
    check_above_rows(sheet, found, heading == none ? above : heading + 1, layout.first_line);
    std::size_t last_data = 0;
    for (std::size_t line = layout.first_line; line < found.lines.size(); ++line) {
        if (is_data(found.lines[line].kind)) last_data = line;
    }
    std::vector<Cell> cells;
    for (std::size_t line = layout.first_line; line < found.lines.size(); ++line) {
        const LineFacts& facts = found.lines[line];
        if (facts.kind == LineKind::comment) continue;
        if (facts.kind == LineKind::text) {
            sheet.split(line, layout.separator, cells);
            check_text_row(sheet, line, last_data, cells, facts.cells);
            layout.summary.push_back(line);
        } else if (layout.summary.empty()) {
            layout.rows.push_back(line);
        } else {
            // A number alone behind the table: no row of it, and no summary that says what it is.
            sheet.refuse_line(line, "a number without a name behind the table",
                              "nothing, or lines that begin with words");
        }
    }
    return layout;
}

}  // namespace samelight::io::detail
