// Points or commas: which of them marks the decimals.
#include <algorithm>
#include <string>
#include <utility>

#include "io/layout/table.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

constexpr const char* wanted_plain =
    "numbers without marks between thousands, and one decimal mark";

/// What the marks in all numbers of a table amount to.
struct MarkSurvey {
    std::size_t points = 0;      ///< numbers with a point
    std::size_t commas = 0;      ///< numbers with a comma
    bool point_decides = false;  ///< one of them can't be grouped in thousands
    bool comma_decides = false;
    bool comma_may_separate =
        true;  ///< what follows a comma always looks like an integer of its own
    Spot first_point;
    Spot first_comma;
};

/// "380,000" as a wavelength is no thousand.
bool is_wavelength_with_decimals(std::string_view number) {
    return number.find_first_of(".,") >= 3;
}

bool integer_behind_comma(std::string_view number) {
    const std::string_view behind = number.substr(number.find(',') + 1);
    const bool digits = !behind.empty() && std::all_of(behind.begin(), behind.end(), is_digit);
    return digits && (behind.size() == 1 || behind.front() != '0');
}

MarkSurvey survey_marks(const Sheet& sheet, const Layout& layout) {
    MarkSurvey found;
    for_each_number(sheet, layout, [&](const Cell& cell, bool is_wavelength, std::size_t line) {
        const std::string_view number = number_text(cell, is_wavelength);
        if (number.find_first_of(".,") == std::string_view::npos || !looks_numeric(number)) return;
        const Marks marks = marks_of(number);
        if (marks.points > 0 && marks.commas > 0) {
            sheet.refuse(line, cell.text,
                         shown(number) +
                             " holds a comma and a point: one may group thousands, or the "
                             "comma stand between columns",
                         wanted_plain);
        }
        const bool decides =
            !marks.thousands || (is_wavelength && is_wavelength_with_decimals(number));
        if (marks.points > 0) {
            if (++found.points == 1) found.first_point = {line, cell.text};
            found.point_decides = found.point_decides || decides;
        } else {
            if (++found.commas == 1) found.first_comma = {line, cell.text};
            found.comma_decides = found.comma_decides || decides;
            found.comma_may_separate = found.comma_may_separate && integer_behind_comma(number);
        }
    });
    return found;
}

void refuse_both_marks(const Sheet& sheet, const MarkSurvey& found) {
    const Spot& point = found.first_point;
    const Spot& comma = found.first_comma;
    const bool point_first =
        std::pair(point.line, point.text.data()) < std::pair(comma.line, comma.text.data());
    const Spot& first = point_first ? point : comma;
    const Spot& second = point_first ? comma : point;
    sheet.refuse(second.line, second.text,
                 shown(second.text) + " here, but " + shown(first.text) + " in line " +
                     std::to_string(sheet.lines()[first.line].number) +
                     ": a decimal point, or a decimal comma",
                 wanted_plain);
}

void refuse_thousands(const Sheet& sheet, const Spot& spot, bool comma) {
    const std::string_view text = spot.text;
    sheet.refuse(spot.line, text,
                 "the " + std::string(comma ? "comma" : "point") + " in " + shown(text) +
                     " may mark decimals or group thousands, and no other number tells",
                 wanted_plain);
}

/// Decimal commas between semicolons or tabs, though the heading has commas between names as well.
void check_heading_commas(const Sheet& sheet, const Layout& layout, const Headings& headings,
                          const MarkSurvey& found) {
    if (layout.across || !headings.found || !found.comma_may_separate) return;
    const auto cells_at_both = [&](std::size_t line) {
        const std::string_view text = sheet.lines()[line].text;
        return 1 + std::count(text.begin(), text.end(), ',') +
               std::count(text.begin(), text.end(), layout.separator);
    };
    const auto in_heading = cells_at_both(headings.names_line);
    if (in_heading <= static_cast<std::ptrdiff_t>(layout.columns)) return;
    const bool fits = std::all_of(layout.rows.begin(), layout.rows.end(), [&](std::size_t line) {
        return cells_at_both(line) == in_heading;
    });
    if (fits) {
        sheet.refuse(found.first_comma.line, found.first_comma.text,
                     "the comma in " + shown(found.first_comma.text) +
                         " may mark decimals or, as in the heading, stand between columns",
                     "one separator throughout");
    }
}

bool all_digits(std::string_view text) {
    return !text.empty() && std::all_of(text.begin(), text.end(), is_digit);
}

/// Two cells that would be one number if the comma between them grouped thousands: "1,234", "1,234.5".
bool like_thousands(std::string_view head, std::string_view tail) {
    const std::string_view whole = tail.substr(0, tail.find('.'));
    return all_digits(head) && head.size() <= 3 && head.front() != '0' && whole.size() == 3 &&
           all_digits(whole);
}

/// The first column that in every complete row is like thousands together with the next; 0 if there is none.
std::size_t column_like_thousands(const Sheet& sheet, const Layout& layout) {
    std::vector<char> like(layout.columns, 1);
    bool any_row = false;
    std::vector<Cell> cells;
    for (const std::size_t line : layout.rows) {
        sheet.split(line, layout.separator, cells);
        if (filled_count(cells) != layout.columns) continue;  // that is another mistake
        any_row = true;
        for (std::size_t i = 1; i + 1 < layout.columns; ++i) {
            if (!like_thousands(cells[i].text, cells[i + 1].text)) like[i] = 0;
        }
    }
    for (std::size_t i = 1; any_row && i + 1 < layout.columns; ++i) {
        if (like[i] != 0) return i;
    }
    return 0;
}

/// Commas between cells, and no heading to say how many columns there are.
void check_bare_commas(const Sheet& sheet, const Layout& layout, const MarkSurvey& found) {
    constexpr const char* wanted =
        "a heading over the columns (wavelength_nm,red) or another separator";
    if (found.points == 0) {
        const std::size_t line = layout.rows.front();
        sheet.refuse_line(line,
                          "the comma in " + shown(sheet.lines()[line].text) +
                              " may stand between two columns or mark the decimals of one number",
                          wanted);
    }
    const std::size_t column = column_like_thousands(sheet, layout);
    if (column == 0) return;
    std::vector<Cell> cells;
    for (const std::size_t line : layout.rows) {
        sheet.split(line, layout.separator, cells);
        if (filled_count(cells) != layout.columns) continue;
        const std::string_view head = cells[column].text;
        sheet.refuse(line, head,
                     '"' + std::string(head) + ',' + std::string(cells[column + 1].text) +
                         "\" may be two columns or one number with its thousands grouped",
                     wanted);
    }
}

}  // namespace

char find_decimal_mark(const Sheet& sheet, const Layout& layout, const Headings& headings) {
    const MarkSurvey found = survey_marks(sheet, layout);
    if (found.points > 0 && found.commas > 0) refuse_both_marks(sheet, found);
    if (found.commas > 0) {
        if (!found.comma_decides) refuse_thousands(sheet, found.first_comma, true);
        if (layout.separator != ',') check_heading_commas(sheet, layout, headings, found);
        return ',';
    }
    if (layout.separator == ',') {
        if (!layout.across && !headings.found) check_bare_commas(sheet, layout, found);
    } else if (found.points > 0 && !found.point_decides) {
        refuse_thousands(sheet, found.first_point, false);
    }
    return '.';
}

}  // namespace samelight::io::detail
