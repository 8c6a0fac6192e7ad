#pragma once
// A small table of nothing but numbers, with or without a heading.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "io/text/sheet.hpp"

namespace samelight::io::detail {

/// How numbers are written in a file.
struct Habits {
    char separator;
    char mark;  ///< of decimals
};

/// Commas, semicolons or tabs between numbers; decimal commas only beside one of the latter two.
Habits habits_of(const Sheet& sheet);

/// One row: its numbers, and where they stand for messages.
struct NumberRow {
    std::size_t line;  ///< index into Sheet::lines()
    std::vector<double> values;
    std::vector<std::string_view> cells;
};

/// A heading: its words, and where it stands.
struct NumberHeading {
    std::size_t line;  ///< index into Sheet::lines()
    std::vector<std::string_view> cells;
};

/// What such a file holds.
struct NumberTable {
    std::optional<NumberHeading> heading;  ///< the last line of words before the numbers
    std::vector<NumberRow> rows;
};

/// All rows of `columns` numbers; a heading before them must have as many cells. Throws Error (input) for anything else.
/// @param wanted what the columns are, for messages: "two columns: age_years and count"
NumberTable number_table(const Sheet& sheet, std::size_t columns, const std::string& wanted);

}  // namespace samelight::io::detail
