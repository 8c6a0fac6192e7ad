#include "io/layout/survey.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "io/text/numbers.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

/// The facts about one line, but for a row of wavelengths.
LineFacts facts_of(const std::vector<Cell>& cells) {
    LineFacts facts;
    facts.cells = filled_count(cells);
    facts.separators = cells.size() > 1;
    const std::optional<double> wavelength = loose_wavelength(cells.front().text);
    if (!wavelength) {
        facts.kind = LineKind::text;
        facts.wavelength_heading = facts.cells >= 2 && is_wavelength_heading(cells.front().text);
        return facts;
    }
    facts.wavelength = *wavelength;
    if (facts.cells < 2) {
        facts.kind = LineKind::lone;
        return facts;
    }
    const bool numbers = std::all_of(cells.begin() + 1, cells.end(), [](const Cell& cell) {
        return cell.text.empty() || looks_numeric(cell.text);
    });
    facts.kind = numbers ? LineKind::strong : LineKind::weak;
    return facts;
}

bool evenly_ascending(const std::vector<double>& numbers) {
    const double step =
        (numbers.back() - numbers.front()) / static_cast<double>(numbers.size() - 1);
    for (std::size_t i = 1; i < numbers.size(); ++i) {
        if (!(std::abs(numbers[i] - numbers[i - 1] - step) <= 0.01 * std::abs(step))) return false;
    }
    return step != 0.0;
}

/// A row of wavelengths in a line that begins with a number like data: only an even grid is believed.
std::optional<WavelengthRow> bare_wavelength_row(const std::vector<Cell>& cells, std::size_t line) {
    std::vector<double> numbers;
    for (std::size_t i = 0; i < filled_count(cells); ++i) {
        const std::optional<double> number = loose_wavelength(cells[i].text);
        if (!number) return std::nullopt;
        numbers.push_back(*number);
    }
    for (const std::size_t begin : {std::size_t{0}, std::size_t{1}}) {
        const std::vector<double> part(numbers.begin() + static_cast<std::ptrdiff_t>(begin),
                                       numbers.end());
        if (part.size() >= 5 && evenly_ascending(part) && wavelength_like(part)) {
            return WavelengthRow{line, begin, numbers.size()};
        }
    }
    return std::nullopt;
}

/// How many lines below a row of wavelengths hold a number in most of its columns.
std::size_t count_lights(const Sheet& sheet, const Survey& found) {
    std::size_t lights = 0;
    std::vector<Cell> cells;
    const std::size_t shift = found.row->begin == 0 ? 1 : 0;
    for (std::size_t line = found.row->line + 1; line < sheet.lines().size(); ++line) {
        if (found.lines[line].kind == LineKind::comment) continue;
        sheet.split(line, found.separator, cells);
        std::size_t numbers = 0;
        const std::size_t begin = found.row->begin + shift;
        for (std::size_t i = begin; i < std::min(found.row->end + shift, cells.size()); ++i) {
            if (looks_numeric(cells[i].text)) ++numbers;
        }
        if (2 * numbers > found.row->end - found.row->begin) ++lights;
    }
    return lights;
}

}  // namespace

bool is_wavelength_heading(std::string_view cell) {
    // As folded() leaves them.
    constexpr std::array<std::string_view, 18> headings = {"wavelength",
                                                           "wavelengths",
                                                           "wave length",
                                                           "wave",
                                                           "lambda",
                                                           "λ",
                                                           "wl",
                                                           "wellenlange",
                                                           "wellenlaenge",
                                                           "longitud de onda",
                                                           "longueur d onde",
                                                           "lunghezza d onda",
                                                           "comprimento de onda",
                                                           "golflengte",
                                                           "vaglangd",
                                                           "dlugosc fali",
                                                           "波长",
                                                           "波長"};
    constexpr std::size_t longest = 80;
    if (cell.empty() || cell.size() > longest) return false;
    const std::string looked_up = folded(cell);
    std::string words;
    std::string word;
    bool nanometres = false;
    int depth = 0;
    const auto end_word = [&] {
        const bool unit = word == "nm" || word == "in" || word == "en";
        nanometres = nanometres || word == "nm";
        if (!word.empty() && !unit) words += words.empty() ? word : ' ' + word;
        word.clear();
    };
    for (const char c : looked_up) {
        if (c == '(' || c == '[') ++depth;
        if (depth == 0 && is_letter(c)) {
            word += c;
        } else {
            end_word();
        }
        if ((c == ')' || c == ']') && depth > 0) --depth;
        if (is_digit(c)) return false;
    }
    end_word();
    if (words.empty()) return nanometres || looked_up == "(nm)" || looked_up == "[nm]";
    return std::find(headings.begin(), headings.end(), words) != headings.end();
}

std::optional<WavelengthRow> wavelength_row(const std::vector<Cell>& cells, std::size_t line) {
    WavelengthRow best{line, 0, 0};
    std::vector<double> numbers;
    std::vector<double> best_numbers;
    const auto keep_longest = [&](std::size_t end) {
        if (numbers.size() > best_numbers.size()) {
            best.begin = end - numbers.size();
            best.end = end;
            best_numbers = numbers;
        }
        numbers.clear();
    };
    for (std::size_t i = 1; i < cells.size(); ++i) {
        if (const std::optional<double> number = loose_wavelength(cells[i].text)) {
            numbers.push_back(*number);
        } else {
            keep_longest(i);
        }
    }
    keep_longest(cells.size());
    if (!wavelength_like(best_numbers)) return std::nullopt;
    return best;
}

namespace {

/// True where one of the cells below a row of wavelengths is a number.
bool stands_above(const WavelengthRow& row, const std::vector<Cell>& cells) {
    const std::size_t shift = row.begin == 0 ? 1 : 0;
    for (std::size_t i = row.begin + shift; i < std::min(row.end + shift, cells.size()); ++i) {
        if (looks_numeric(cells[i].text)) return true;
    }
    return false;
}

/// Below a row of wavelengths, the values of a light may ascend as well: the first row counts, unless it is short
/// beside another one.
void keep_row(const WavelengthRow& row, std::optional<WavelengthRow>& kept) {
    const auto length = [](const WavelengthRow& r) { return r.end - r.begin; };
    if (!kept || length(row) > 2 * length(*kept)) kept = row;
}

}  // namespace

Survey survey(const Sheet& sheet, char separator) {
    Survey found;
    found.separator = separator;
    found.lines.resize(sheet.lines().size());
    std::vector<Cell> cells;
    bool data_seen = false;
    // A row of wavelengths, until the line below shows it to be one, and not a heading line like "Range,380,780".
    std::optional<WavelengthRow> row;
    for (std::size_t line = 0; line < sheet.lines().size(); ++line) {
        if (sheet.lines()[line].comment) continue;
        sheet.split(line, separator, cells);
        LineFacts& facts = found.lines[line];
        facts = facts_of(cells);
        if (row && stands_above(*row, cells)) keep_row(*row, found.row);
        row.reset();
        if (facts.kind == LineKind::text) {
            row = wavelength_row(cells, line);
        } else if (is_data(facts.kind)) {
            if (!data_seen) row = bare_wavelength_row(cells, line);
            ++(facts.kind == LineKind::strong ? found.strong : found.weak);
            data_seen = true;
        }
    }
    if (found.row) found.lights = count_lights(sheet, found);
    return found;
}

}  // namespace samelight::io::detail
