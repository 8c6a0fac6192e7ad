#pragma once
// What all files of readings begin with: bytes, text, lines, heading.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/io/readings_csv.hpp"
#include "samelight/io/text_decoding.hpp"

#include "io/exchange/cgats_readings.hpp"
#include "io/readings/readings_columns.hpp"
#include "io/readings/readings_row.hpp"
#include "io/text/original.hpp"
#include "io/text/sheet.hpp"

namespace samelight::io::detail {

/// The lines of a file of readings, of which later its layout. Stays where it was made: lines are views into its text.
class ReadingsText {
  public:
    /// @param holds  for people: "a file of readings"
    /// @param cgats_as  what CGATS.17 text is understood as; none: as any other text
    /// Throws Error (input) for a file that is too large, has too many lines or is no text.
    ReadingsText(std::string_view bytes, const std::string& source, const std::string& holds,
                 std::optional<CgatsPatches> cgats_as = {});
    ReadingsText(const ReadingsText&) = delete;
    ReadingsText& operator=(const ReadingsText&) = delete;

    [[nodiscard]] const Sheet& sheet() const { return sheet_; }
    /// Throws Error (input) as find_readings_layout(). Sentences on how the file was read follow those on its text.
    [[nodiscard]] ReadingsLayout layout(ReadingsKind kind,
                                        std::vector<std::string>& understood) const;

  private:
    DecodedText decoded_;
    Original original_;
    /// Of CGATS.17 text.
    std::optional<ExchangeReadings> made_;
    Sheet sheet_;
};

/// Calls f with each row below the heading that is no comment. Throws Error (input) for more than largest_readings_rows of them.
template <class F>
void for_each_row(const Sheet& sheet, const ReadingsLayout& layout, F&& f) {
    std::size_t rows = 0;
    for (std::size_t i = layout.heading + 1; i < sheet.lines().size(); ++i) {
        if (sheet.lines()[i].comment) continue;
        if (++rows > largest_readings_rows) {
            sheet.refuse_line(i, "more than " + std::to_string(largest_readings_rows) + " rows",
                              "a file of " + std::to_string(largest_readings_rows) + " at most");
        }
        f(ReadingsRow(sheet, layout, i));
    }
}

}  // namespace samelight::io::detail
