// Names of the lights, and what heads the wavelengths.
#include "io/layout/headings.hpp"

#include <algorithm>
#include <array>

#include "io/layout/roles.hpp"
#include "io/text/numbers.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

constexpr std::size_t longest_name = 1000;  // bytes

/// True for a row such as "nm;W/(sr m2 nm);W/(sr m2 nm)" below the names.
bool is_units_row(const std::vector<Cell>& cells) {
    constexpr std::array<std::string_view, 9> others = {"nm", "a.u.", "au",       "arb.", "arb. u.",
                                                        "-",  "1",    "relative", "rel."};
    bool units = false;
    for (const Cell& cell : cells) {
        if (cell.text.empty()) continue;
        std::string_view text = cell.text;
        const bool bracketed = (text.starts_with('[') && text.ends_with(']')) ||
                               (text.starts_with('(') && text.ends_with(')'));
        if (bracketed && text.size() > 2) text = trimmed(text.substr(1, text.size() - 2));
        const bool word = std::find(others.begin(), others.end(), lowered(text)) != others.end();
        const bool unit =
            find_unit(text) && without_units(std::string(text.substr(0, longest_name))).empty();
        const AxisUnit axis = axis_unit(text);
        const bool along =
            &cell == &cells.front() && axis != AxisUnit::unsaid && axis != AxisUnit::nanometre;
        if (!word && !unit && !along) return false;
        units = units || unit || along || text == "nm";
    }
    return units;
}

/// Finds the line that names the columns of a table that runs down.
class NamesLine {
  public:
    NamesLine(const Sheet& sheet, const Layout& layout) : sheet_(sheet), layout_(layout) {}

    /// True where there is one; then its number is `line` and its cells are `cells`. `units_line` is a row of
    /// units that was passed on the way up.
    bool find() { return find_headed() || find_above() || find_comment(); }

    std::size_t line = 0;
    std::vector<Cell> cells;
    std::optional<std::size_t> units_line;

  private:
    /// A line that begins with "wavelength" or the like and has a cell for each column.
    bool find_headed() {
        std::optional<std::size_t> other_length;
        for (line = layout_.first_line; line-- > 0;) {
            if (sheet_.lines()[line].comment) continue;
            sheet_.split(line, layout_.separator, cells);
            const std::size_t count = filled_count(cells);
            if (count >= 2 && count == layout_.columns && is_units_row(cells)) {
                if (!units_line) units_line = line;
                continue;
            }
            if (count < 2 || !is_wavelength_heading(cells.front().text)) continue;
            if (count == layout_.columns) return true;
            if (!other_length) other_length = line;
        }
        if (other_length) refuse_length(*other_length);
        return false;
    }

    [[noreturn]] void refuse_length(std::size_t other) {
        sheet_.split(other, layout_.separator, cells);
        std::string found = counted(filled_count(cells), "cell") + " in the heading, " +
                            std::to_string(layout_.columns) + " in the rows below";
        if (layout_.separator == ',') {
            found += " (commas may stand between columns, mark decimals or group thousands)";
        }
        sheet_.refuse_line(other, found, "a name for each column and no more");
    }

    /// Whatever has a cell for each column, directly above the table (or above a row of units).
    bool find_above() {
        line = layout_.first_line;
        do {
            if (line-- == 0) return false;
        } while (sheet_.lines()[line].comment || (units_line && line >= *units_line));
        sheet_.split(line, layout_.separator, cells);
        if (filled_count(cells) != layout_.columns || cells.size() < 2) return false;
        // With two columns it may be any pair of a key and a value.
        const bool telling = layout_.columns > 2 || cells.front().text.empty() ||
                             !role_of(cells[1].text).empty() ||
                             axis_unit(cells.front().text) != AxisUnit::unsaid;
        return telling && std::any_of(cells.begin() + 1, cells.end(), [](const Cell& cell) {
                   return !cell.text.empty() && !looks_numeric(cell.text);
               });
    }

    /// A heading that was made a comment: "# wavelength,red,green".
    bool find_comment() {
        if (layout_.first_line == 0 || !sheet_.lines()[layout_.first_line - 1].comment)
            return false;
        line = layout_.first_line - 1;
        const std::string_view text = sheet_.lines()[line].text;
        sheet_.split(line, layout_.separator, cells, text.find('#') + 1);
        return filled_count(cells) == layout_.columns && is_wavelength_heading(cells.front().text);
    }

    const Sheet& sheet_;
    const Layout& layout_;
};

std::string read_name(const Sheet& sheet, std::size_t line, const Cell& cell) {
    if (cell.text.size() > longest_name) {
        sheet.refuse(line, cell.text, "a name of " + std::to_string(cell.text.size()) + " bytes",
                     "at most " + std::to_string(longest_name));
    }
    return without_units(as_name(unquoted(cell)));
}

std::optional<UnitStatement> unit_of(std::size_t line, const Cell& cell) {
    std::vector<UnitStatement> statements;
    collect_units(line, cell.text, as_name(unquoted(cell)), statements);
    if (statements.empty()) return std::nullopt;
    return statements.front();
}

void generate_names(std::size_t count, Headings& headings) {
    headings.generated = true;
    headings.names.clear();
    for (std::size_t i = 1; i <= count; ++i) {
        headings.names.push_back(count == 1 ? "light" : "light " + std::to_string(i));
    }
}

using ColumnUnits = std::vector<std::optional<UnitStatement>>;

ColumnUnits read_names_down(const Sheet& sheet, const Layout& layout, Headings& headings) {
    NamesLine names(sheet, layout);
    ColumnUnits units(layout.columns - 1);
    headings.found = names.find();
    if (names.units_line) {
        std::vector<Cell> cells;
        sheet.split(*names.units_line, layout.separator, cells);
        headings.wavelength_cells.push_back(cells.front().text);
        headings.wavelength_lines.push_back(*names.units_line);
        ++headings.read_lines;
    }
    if (!headings.found) {
        generate_names(layout.columns - 1, headings);
        return units;
    }
    headings.names_line = names.line;
    headings.wavelength_cells.push_back(names.cells.front().text);
    headings.wavelength_lines.push_back(names.line);
    if (!sheet.lines()[names.line].comment) ++headings.read_lines;
    for (std::size_t i = 1; i < layout.columns; ++i) {
        headings.names.push_back(read_name(sheet, names.line, names.cells[i]));
        headings.name_cells.push_back(names.cells[i].text);
        units[i - 1] = unit_of(names.line, names.cells[i]);
    }
    const auto nameless = std::find_if(headings.names.begin(), headings.names.end(),
                                       [](const std::string& name) { return name.empty(); });
    if (nameless == headings.names.end()) return units;
    const bool all = std::all_of(headings.names.begin(), headings.names.end(),
                                 [](const std::string& name) { return name.empty(); });
    if (!all) {
        const auto light = static_cast<std::size_t>(nameless - headings.names.begin());
        refuse_light(sheet, layout, headings, light, "a column without a name",
                     "a name for each column, or none at all");
    }
    generate_names(layout.columns - 1, headings);
    return units;
}

ColumnUnits read_names_across(const Sheet& sheet, const Layout& layout, Headings& headings) {
    ColumnUnits units;
    std::vector<Cell> cells;
    for (const std::size_t line : layout.rows) {
        sheet.split(line, layout.separator, cells);
        const Cell& cell = cells[std::min(layout.name_cell, cells.size() - 1)];
        std::string name = read_name(sheet, line, cell);
        const bool value = layout.shift == 1 && filled_count(cells) <= layout.wavelengths.end;
        if (name.empty() || value) {
            sheet.refuse(line, cell.text, "a row of values without a name",
                         "the name of a light in front of its values");
        }
        headings.names.push_back(std::move(name));
        headings.name_cells.push_back(cell.text);
        units.push_back(unit_of(line, cell));
    }
    sheet.split(layout.first_line, layout.separator, cells);
    if (layout.wavelengths.begin > 0) {
        headings.wavelength_cells.push_back(cells[layout.wavelengths.begin - 1].text);
        headings.wavelength_lines.push_back(layout.first_line);
    }
    headings.found = true;
    return units;
}

}  // namespace

Headings read_headings(const Sheet& sheet, const Layout& layout) {
    Headings headings;
    const ColumnUnits units = layout.across ? read_names_across(sheet, layout, headings)
                                            : read_names_down(sheet, layout, headings);
    for (const std::string_view cell : headings.wavelength_cells) {
        const AxisUnit said = axis_unit(cell);
        if (said != AxisUnit::unsaid) headings.axis = said;
    }
    std::vector<UnitStatement> statements;
    std::vector<Cell> cells;
    for (std::size_t line = 0; line < sheet.lines().size(); ++line) {
        const bool names = !layout.across && headings.found && line == headings.names_line;
        const bool corner = layout.across && line == layout.first_line;
        if (sheet.lines()[line].comment && !names) {
            const std::string_view text = sheet.lines()[line].text;
            collect_units(line, text, as_name(text), statements);
        } else if ((line < layout.first_line && !names) || corner) {
            sheet.split(line, layout.separator, cells);
            const std::size_t end = corner ? layout.wavelengths.begin : cells.size();
            for (std::size_t i = 0; i < end; ++i) {
                collect_units(line, cells[i].text, as_name(unquoted(cells[i])), statements);
            }
        }
    }
    headings.unit = agreed_unit(sheet, std::move(statements), units, headings, layout);
    return headings;
}

void refuse_light(const Sheet& sheet, const Layout& layout, const Headings& headings,
                  std::size_t light, const std::string& found, const std::string& wanted) {
    if (headings.name_cells.empty()) sheet.refuse_line(layout.rows.front(), found, wanted);
    const std::size_t line = layout.across ? layout.rows[light] : headings.names_line;
    sheet.refuse(line, headings.name_cells[light], found, wanted);
}

}  // namespace samelight::io::detail
