#pragma once
// One row of a table of readings, cell by cell.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/io/text_for_people.hpp"

#include "io/readings/readings_columns.hpp"
#include "io/text/sheet.hpp"

namespace samelight::io::detail {

/// A row on its way to a value. What it refuses it refuses with line and column.
class ReadingsRow {
  public:
    /// Throws Error (input) for more cells than headings.
    ReadingsRow(const Sheet& sheet, const ReadingsLayout& layout, std::size_t line);

    /// The cell of a column; empty where there is no such column.
    [[nodiscard]] std::string_view cell(ReadingColumn column) const {
        return layout_->has(column) ? cells_[layout_->at(column)].text : std::string_view{};
    }
    [[nodiscard]] bool has(ReadingColumn column) const { return !cell(column).empty(); }
    [[noreturn]] void refuse(ReadingColumn column, const std::string& found,
                             const std::string& wanted) const;
    [[nodiscard]] std::string text(ReadingColumn column) const;
    [[nodiscard]] std::string need_text(ReadingColumn column, const std::string& wanted) const;
    [[nodiscard]] double need(ReadingColumn column, const std::string& wanted) const;
    [[nodiscard]] std::optional<double> maybe(ReadingColumn column,
                                              const std::string& wanted) const;
    [[nodiscard]] int need_whole(ReadingColumn column, int least, int most,
                                 const std::string& wanted) const;

    /// X, Y, Z in cd/m2 of whichever columns there are; x, y, Y all 0, or a Y of 0 without x, y, are a black that the instrument
    /// couldn't read.
    [[nodiscard]] std::array<double, 3> tristimulus() const;
    /// No value stands in any of the columns for it: a row that is still to be read.
    [[nodiscard]] bool is_unread() const;
    /// 8 to 16, where the file says.
    [[nodiscard]] std::optional<int> bits() const;
    /// "full", "limited" or empty.
    [[nodiscard]] std::string range() const;
    /// r, g, b from 0 to the largest of `bits`, where the row has them.
    [[nodiscard]] std::optional<std::array<int, 3>> code_values(std::optional<int> bits) const;
    /// Above 0 and up to 100, where the row has it.
    [[nodiscard]] std::optional<double> window_pct() const;
    /// Seconds; of a date or a time of day (written_time()) those from 1970, or from midnight.
    [[nodiscard]] std::optional<double> time_s() const;
    /// Of the column date, or of a time with a date. Days from 1970-01-01.
    [[nodiscard]] std::optional<int> day() const;
    /// The fewest digits that count among the values; of 0 none.
    [[nodiscard]] std::size_t value_digits() const;

    [[nodiscard]] std::size_t line() const { return line_; }
    [[nodiscard]] const ReadingsLayout& layout() const { return *layout_; }

  private:
    /// A Y of 0 beside no x, y (nothing, dashes, NaN): light without a colour.
    [[nodiscard]] bool is_without_light() const;

    const Sheet* sheet_;
    const ReadingsLayout* layout_;
    std::size_t line_;
    std::vector<Cell> cells_;
};

/// Sentences on separators, decimal mark, heading lines and columns left alone.
std::vector<std::string> how_readings_were_read(const Sheet& sheet, const ReadingsLayout& layout);

}  // namespace samelight::io::detail
