#include "io/readings/readings_columns.hpp"

#include <algorithm>
#include <optional>
#include <string_view>
#include <utility>

#include "io/layout/roles.hpp"
#include "io/layout/table.hpp"
#include "io/text/numbers.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

constexpr std::array<const char*, reading_columns> column_names = {
    "patch",      "instrument", "repeat", "X",         "Y",        "Z",       "x",
    "y",          "r",          "g",      "b",         "bits",     "range",   "time_s",
    "window_pct", "mode",       "flag",   "level_pct", "position", "control", "steps",
    "least",      "most",       "date",   "r_pct",     "g_pct",    "b_pct"};

/// What a heading row must name, and how that is said.
struct HeadingWords {
    std::string found, wanted;
};

HeadingWords heading_words(ReadingsKind kind) {
    switch (kind) {
        case ReadingsKind::patches:
            return {"patches (patch, r, g, b or level_pct) and values",
                    "a heading row with patch, r, g, b or level_pct, and X, Y, Z (or x, y, Y)"};
        case ReadingsKind::signals:
            return {"patches (patch, r, g, b or level_pct)",
                    "a heading row with patch and r, g, b or level_pct, or spectra"};
        case ReadingsKind::controls:
            return {"control and steps",
                    "a heading row with control, steps and X, Y, Z (or x, y, Y)"};
        case ReadingsKind::paired:
            break;
    }
    return {"patch and instrument",
            "a heading row with patch, instrument and X, Y, Z (or x, y, Y)"};
}

/// A heading without the unit in brackets behind it, and that unit.
struct NameAndUnit {
    std::string name;
    std::string unit;
};

NameAndUnit split_unit(std::string_view cell) {
    const std::size_t open = cell.find_first_of("([");
    if (open == std::string_view::npos || !(cell.ends_with(')') || cell.ends_with(']'))) {
        return {std::string(trimmed(cell)), {}};
    }
    return {std::string(trimmed(cell.substr(0, open))),
            lowered(trimmed(cell.substr(open + 1, cell.size() - open - 2)))};
}

/// The tristimulus columns are told apart by their capitals; of all others those don't matter.
std::optional<ReadingColumn> column_named(const std::string& name) {
    for (std::size_t i = 0; i < column_names.size(); ++i) {
        const auto column = static_cast<ReadingColumn>(i);
        const bool exact = column >= ReadingColumn::X && column <= ReadingColumn::y;
        if ((exact ? name : lowered(name)) == column_names.at(i)) {
            return column;
        }
    }
    return {};
}

/// What people write in the place of a column's own name, where there is one unit only.
std::optional<ReadingColumn> column_meant(const std::string& name) {
    const std::string word = lowered(name);
    if (heads_names(word)) {
        return ReadingColumn::patch;
    }
    if (heads_luminance(word)) {
        return ReadingColumn::Y;
    }
    return word == "time"                               ? std::optional(ReadingColumn::time_s)
           : word == "level" || word == "level_percent" ? std::optional(ReadingColumn::level_pct)
           : word == "window"                           ? std::optional(ReadingColumn::window_pct)
                                                        : std::nullopt;
}

bool is_heading(const std::vector<Cell>& cells, ReadingsKind kind) {
    std::array<bool, reading_columns> has{};
    for (const Cell& cell : cells) {
        const std::string name = split_unit(cell.text).name;
        const auto named = column_named(name);
        if (const auto column = named ? named : column_meant(name)) {
            has.at(static_cast<std::size_t>(*column)) = true;
        }
    }
    const auto names = [&has](ReadingColumn column) {
        return has.at(static_cast<std::size_t>(column));
    };
    switch (kind) {
        case ReadingsKind::patches:
            return (names(ReadingColumn::patch) || names(ReadingColumn::r) ||
                    names(ReadingColumn::r_pct) || names(ReadingColumn::level_pct)) &&
                   (names(ReadingColumn::Y) || names(ReadingColumn::X) || names(ReadingColumn::x));
        case ReadingsKind::signals:
            return names(ReadingColumn::r) || names(ReadingColumn::r_pct) ||
                   names(ReadingColumn::level_pct);
        case ReadingsKind::controls:
            return names(ReadingColumn::control) && names(ReadingColumn::steps);
        case ReadingsKind::paired:
            break;
    }
    return names(ReadingColumn::patch) && names(ReadingColumn::instrument);
}

void find_heading(const Sheet& sheet, ReadingsKind kind, ReadingsLayout& layout) {
    std::vector<Cell> cells;
    for (std::size_t i = 0; i < sheet.lines().size(); ++i) {
        for (const char separator : {',', ';', '\t'}) {
            if (sheet.lines()[i].comment) {
                continue;
            }
            sheet.split(i, separator, cells);
            if (is_heading(cells, kind)) {
                layout.separator = separator;
                layout.heading = i;
                return;
            }
        }
    }
    const HeadingWords words = heading_words(kind);
    sheet.refuse_file("no heading row that names " + words.found, words.wanted);
}

void take_heading(const Sheet& sheet, ReadingsLayout& layout) {
    std::vector<Cell> cells;
    sheet.split(layout.heading, layout.separator, cells);
    layout.columns = filled_count(cells);
    layout.place.fill(ReadingsLayout::nowhere);
    // Own names first: a column `name` is the patch's where there is no column `patch`.
    std::vector<std::optional<ReadingColumn>> columns;
    std::array<bool, reading_columns> taken{};
    for (std::size_t i = 0; i < layout.columns; ++i) {
        columns.push_back(column_named(split_unit(cells[i].text).name));
        if (columns.back()) {
            taken.at(static_cast<std::size_t>(*columns.back())) = true;
        }
    }
    for (std::size_t i = 0; i < layout.columns; ++i) {
        const NameAndUnit heading = split_unit(cells[i].text);
        if (!columns[i]) {
            const auto meant = column_meant(heading.name);
            // A luminance is that of x, y; beside nothing else it may be CIELAB's L.
            const bool alone = meant == ReadingColumn::Y &&
                               !(taken.at(static_cast<std::size_t>(ReadingColumn::x)) &&
                                 taken.at(static_cast<std::size_t>(ReadingColumn::y)));
            if (meant && !alone && !taken.at(static_cast<std::size_t>(*meant))) {
                taken.at(static_cast<std::size_t>(*meant)) = true;
                columns[i] = meant;
            }
        }
        const auto column = columns[i];
        if (!column) {
            if (!cells[i].text.empty()) {
                layout.unused.push_back(shown(cells[i].text));
            }
            continue;
        }
        std::size_t& place = layout.place.at(static_cast<std::size_t>(*column));
        if (place != ReadingsLayout::nowhere) {
            sheet.refuse(layout.heading, cells[i].text,
                         "a second column " + shown(cells[i].text) + ", beside column " +
                             std::to_string(place + 1),
                         "each column once");
        }
        place = i;
        const bool tristimulus = *column >= ReadingColumn::X && *column <= ReadingColumn::Z;
        if (tristimulus && !heading.unit.empty() && !is_luminance_unit(heading.unit)) {
            sheet.refuse(layout.heading, cells[i].text, "the unit " + shown(heading.unit), "cd/m2");
        }
    }
}

void require_columns(const Sheet& sheet, ReadingsKind kind, const ReadingsLayout& layout) {
    if (kind != ReadingsKind::signals && !layout.has_xyz() && !layout.has_xyY()) {
        std::string there;
        for (const ReadingColumn column : {ReadingColumn::X, ReadingColumn::Y, ReadingColumn::Z,
                                           ReadingColumn::x, ReadingColumn::y}) {
            if (layout.has(column)) {
                there += (there.empty() ? "" : ", ") +
                         std::string(column_names.at(static_cast<std::size_t>(column)));
            }
        }
        sheet.refuse_line(layout.heading,
                          there.empty() ? "no columns X, Y, Z or x, y, Y"
                                        : "of X, Y, Z and x, y, Y only " + there,
                          "columns X, Y, Z or x, y, Y (capitals count)");
    }
    const bool r = layout.has(ReadingColumn::r);
    if (r != layout.has(ReadingColumn::g) || r != layout.has(ReadingColumn::b)) {
        sheet.refuse_line(layout.heading, "not all of the columns r, g, b", "all three or none");
    }
    const bool r_pct = layout.has(ReadingColumn::r_pct);
    if (r_pct != layout.has(ReadingColumn::g_pct) || r_pct != layout.has(ReadingColumn::b_pct)) {
        sheet.refuse_line(layout.heading, "not all of the columns r_pct, g_pct, b_pct",
                          "all three or none");
    }
}

/// The decimal mark from the numbers themselves, as for spectra: what may group thousands throughout is refused.
void find_mark(const Sheet& sheet, ReadingsLayout& layout) {
    Spot point;
    Spot comma;
    bool decided = false;
    std::vector<Cell> cells;
    for (std::size_t i = layout.heading + 1; i < sheet.lines().size(); ++i) {
        if (sheet.lines()[i].comment) {
            continue;
        }
        sheet.split(i, layout.separator, cells);
        for (std::size_t k = 0; k < reading_columns; ++k) {
            const std::size_t at = layout.place.at(k);
            if (!is_numeric(static_cast<ReadingColumn>(k)) || at >= cells.size() ||
                !looks_numeric(cells[at].text)) {
                continue;
            }
            const Marks marks = marks_of(cells[at].text);
            if (marks.points > 0 && point.text.empty()) {
                point = {i, cells[at].text};
            }
            if (marks.commas > 0 && comma.text.empty()) {
                comma = {i, cells[at].text};
            }
            decided = decided || (marks.points + marks.commas > 0 && !marks.thousands);
        }
    }
    const bool both = !point.text.empty() && !comma.text.empty();
    if (both) {
        const bool point_later =
            std::pair(point.line, point.text.data()) > std::pair(comma.line, comma.text.data());
        const Spot& first = point_later ? comma : point;
        const Spot& second = point_later ? point : comma;
        sheet.refuse(second.line, second.text,
                     shown(second.text) + " here, but " + shown(first.text) + " in line " +
                         std::to_string(sheet.lines()[first.line].number) +
                         ": a decimal point, or a decimal comma",
                     "one decimal mark, and none between thousands");
    }
    layout.mark = comma.text.empty() ? '.' : ',';
    const Spot& spot = comma.text.empty() ? point : comma;
    const bool plain = layout.separator == ',' && comma.text.empty();
    if (!spot.text.empty() && !decided && !plain) {
        sheet.refuse(spot.line, spot.text,
                     "the " + std::string(layout.mark == ',' ? "comma" : "point") + " in " +
                         shown(spot.text) +
                         " may mark decimals or group thousands, and no other number tells",
                     "one decimal mark, and none between thousands");
    }
}

}  // namespace

bool is_luminance_unit(const std::string& unit) {
    constexpr std::array<std::string_view, 7> known = {"cd/m2",  "cd/m^2", "cd/m²", "cd m-2",
                                                       "cd·m⁻²", "nit",    "nits"};
    return std::find(known.begin(), known.end(), unit) != known.end();
}

bool is_numeric(ReadingColumn column) {
    switch (column) {
        case ReadingColumn::patch:
        case ReadingColumn::instrument:
        case ReadingColumn::range:
        case ReadingColumn::mode:
        case ReadingColumn::flag:
        case ReadingColumn::position:
        case ReadingColumn::control:
        case ReadingColumn::date:
            return false;
        default:
            return true;
    }
}

ReadingsLayout find_readings_layout(const Sheet& sheet, ReadingsKind kind) {
    ReadingsLayout layout;
    find_heading(sheet, kind, layout);
    take_heading(sheet, layout);
    require_columns(sheet, kind, layout);
    find_mark(sheet, layout);
    return layout;
}

}  // namespace samelight::io::detail
