// The separator and the direction.
#include "io/layout/layout.hpp"

#include <algorithm>
#include <array>
#include <string>

#include "io/text/numbers.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

constexpr std::array<char, 3> separators = {',', ';', '\t'};
constexpr const char* wanted_table =
    "a table: wavelengths in nm in the first column (or across), with commas, semicolons or tabs "
    "between the cells";

/// How many lines make sense as lines of a table.
std::size_t evidence(const Survey& found) {
    return std::max(found.strong, found.lights > 0 ? found.lights + 1 : 0);
}

/// Lines of data before and behind the row of wavelengths.
struct Neighbours {
    std::vector<double> before;
    std::vector<double> behind;
};

Neighbours neighbours_of(const Survey& found) {
    Neighbours result;
    for (std::size_t line = 0; line < found.lines.size(); ++line) {
        if (line == found.row->line || !is_data(found.lines[line].kind)) continue;
        (line < found.row->line ? result.before : result.behind)
            .push_back(found.lines[line].wavelength);
    }
    return result;
}

bool runs_across(const Sheet& sheet, const Survey& found) {
    if (!found.row || found.lights == 0) return false;
    const Neighbours data = neighbours_of(found);
    if (wavelength_like(data.before)) return false;  // what was found is a line below a table
    if (wavelength_like(data.behind)) {
        std::vector<Cell> cells;
        sheet.split(found.row->line, found.separator, cells);
        sheet.refuse(
            found.row->line, cells[found.row->begin].text,
            "both this row and the first column look like wavelengths: they may run across "
            "or down",
            "one row or one column of wavelengths");
    }
    return true;
}

/// The first line that is data with this separator.
std::size_t first_data(const Survey& found) {
    const auto first =
        std::find_if(found.lines.begin(), found.lines.end(),
                     [](const LineFacts& facts) { return facts.kind == LineKind::strong; });
    if (first == found.lines.end() && found.row) return found.row->line;
    return static_cast<std::size_t>(first - found.lines.begin());
}

[[noreturn]] void refuse_two_separators(const Sheet& sheet, const Survey& one,
                                        const Survey& other) {
    constexpr const char* wanted = "one separator throughout";
    const std::size_t a = std::min(first_data(one), first_data(other));
    const std::size_t b = std::max(first_data(one), first_data(other));
    if (a == b) {
        sheet.refuse_line(a,
                          "cells may lie between " + separator_name(one.separator, true) +
                              " or between " + separator_name(other.separator, true),
                          wanted);
    }
    const bool one_first = first_data(one) == a;
    const char first = one_first ? one.separator : other.separator;
    const char second = one_first ? other.separator : one.separator;
    sheet.refuse_line(b,
                      "cells lie between " + separator_name(second, true) + " here, between " +
                          separator_name(first, true) + " in line " +
                          std::to_string(sheet.lines()[a].number),
                      wanted);
}

/// No separator gives a table. Says the most that can be said.
[[noreturn]] void refuse_no_table(const Sheet& sheet) {
    if (sheet.lines().empty()) sheet.refuse_file("an empty file", wanted_table);
    for (std::size_t line = 0; line < sheet.lines().size(); ++line) {
        const std::string_view text = trimmed(sheet.lines()[line].text);
        const std::size_t blank = text.find_first_of(" \t");
        if (sheet.lines()[line].comment || blank == std::string_view::npos) continue;
        const std::string_view rest = trimmed(text.substr(blank));
        if (loose_wavelength(text.substr(0, blank)) &&
            looks_numeric(rest.substr(0, rest.find_first_of(" \t")))) {
            sheet.refuse_line(line, "numbers with only spaces between them", wanted_table);
        }
    }
    sheet.refuse_line(0, std::string(no_table) + " in " + counted(sheet.lines().size(), "line"),
                      wanted_table);
}

}  // namespace

std::string separator_name(char separator, bool plural) {
    const std::string name = separator == ',' ? "comma" : separator == ';' ? "semicolon" : "tab";
    return plural ? name + 's' : name;
}

Layout find_layout(const Sheet& sheet) {
    std::vector<Survey> found;
    for (const char separator : separators) {
        if (sheet.has(separator)) found.push_back(survey(sheet, separator));
    }
    std::stable_sort(found.begin(), found.end(), [](const Survey& a, const Survey& b) {
        return evidence(a) != evidence(b) ? evidence(a) > evidence(b) : a.weak > b.weak;
    });
    if (found.empty()) refuse_no_table(sheet);
    if (found.size() > 1 && evidence(found[1]) >= 2) {
        refuse_two_separators(sheet, found[0], found[1]);
    }
    const Survey& best = found.front();
    if (runs_across(sheet, best)) return layout_across(sheet, best);
    if (best.strong == 0 && best.weak == 0) refuse_no_table(sheet);
    return layout_down(sheet, best);
}

}  // namespace samelight::io::detail
