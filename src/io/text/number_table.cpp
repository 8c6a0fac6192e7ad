#include "io/text/number_table.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "io/text/numbers.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

Habits habits_of(const Sheet& sheet) {
    std::array<std::size_t, 2> found{};
    constexpr std::array<char, 2> other_separators = {';', '\t'};
    for (const Line& line : sheet.lines()) {
        for (std::size_t k = 0; k < other_separators.size() && !line.comment; ++k) {
            found[k] += line.text.find(other_separators[k]) != std::string_view::npos ? 1U : 0U;
        }
    }
    if (found[0] == 0 && found[1] == 0) {
        return {',', '.'};
    }
    const char separator = found[0] >= found[1] ? ';' : '\t';
    bool commas = false;
    std::vector<Cell> cells;
    for (std::size_t i = 0; i < sheet.lines().size(); ++i) {
        if (!sheet.lines()[i].comment) {
            sheet.split(i, separator, cells);
            commas = commas || std::any_of(cells.begin(), cells.end(), [](const Cell& cell) {
                         return cell.text.find(',') != std::string_view::npos &&
                                number_of(cell.text, ',').fault == Fault::none;
                     });
        }
    }
    return {separator, commas ? ',' : '.'};
}

NumberTable number_table(const Sheet& sheet, std::size_t columns, const std::string& wanted) {
    const Habits habits = habits_of(sheet);
    NumberTable table;
    std::vector<Cell> cells;
    for (std::size_t i = 0; i < sheet.lines().size(); ++i) {
        if (sheet.lines()[i].comment) {
            continue;
        }
        sheet.split(i, habits.separator, cells);
        const std::size_t filled = filled_count(cells);
        if (filled != columns) {
            sheet.refuse_line(i, counted(filled, "column"), wanted);
        }
        if (table.rows.empty() && number_of(cells[0].text, habits.mark).fault != Fault::none) {
            table.heading = {i, {}};
            for (std::size_t k = 0; k < columns; ++k) {
                table.heading->cells.push_back(cells[k].text);
            }
            continue;
        }
        NumberRow row{i, {}, {}};
        for (std::size_t k = 0; k < columns; ++k) {
            const Number number = number_of(cells[k].text, habits.mark);
            if (number.fault != Fault::none) {
                sheet.refuse(i, cells[k].text, shown(cells[k].text), "a number");
            }
            row.values.push_back(number.value);
            row.cells.push_back(cells[k].text);
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

}  // namespace samelight::io::detail
