#include "samelight/io/primary_readings_csv.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "io/files/file_bytes.hpp"
#include "io/text/number_table.hpp"
#include "io/text/numbers.hpp"
#include "io/text/sheet.hpp"
#include "io/text/words.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/io/text_decoding.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::io {
namespace {

constexpr std::array<const char*, 5> light_names = {"red", "green", "blue", "white", "black"};
constexpr std::size_t nowhere = static_cast<std::size_t>(-1);

/// Where the columns stand.
struct PrimaryColumns {
    /// Of the heading.
    std::size_t line = 0;
    std::size_t name = nowhere;
    /// x, y, Y or X, Y, Z
    std::array<std::size_t, 3> number = {nowhere, nowhere, nowhere};
    bool xyz = false;
};

/// What one row says, as X, Y, Z; without a luminance Y is 1.
struct LightRow {
    std::array<double, 3> xyz;
    bool luminance;
};

std::optional<PrimaryColumns> columns_in(const std::vector<detail::Cell>& cells) {
    PrimaryColumns found;
    std::array<std::size_t, 5> at = {nowhere, nowhere, nowhere, nowhere, nowhere};
    constexpr std::array<std::string_view, 5> symbols = {"x", "y", "X", "Y", "Z"};
    for (std::size_t k = 0; k < cells.size(); ++k) {
        const std::string_view text = cells[k].text.substr(0, cells[k].text.find_first_of(" (["));
        for (std::size_t s = 0; s < symbols.size(); ++s) {
            if (text == symbols.at(s)) {
                at.at(s) = k;
            }
        }
        const std::string word = detail::lowered(text);
        const bool names = word == "name" || word == "light" || word == "colour" || word == "patch";
        if (names) {
            found.name = k;
        }
        if (word == "instrument") {
            return {};  // a file of paired readings
        }
    }
    found.xyz = at[2] != nowhere && at[3] != nowhere && at[4] != nowhere;
    found.number = found.xyz ? std::array{at[2], at[3], at[4]} : std::array{at[0], at[1], at[3]};
    const bool whole = found.number[0] != nowhere && found.number[1] != nowhere;
    return found.name != nowhere && whole ? std::optional(found) : std::nullopt;
}

/// The heading among the first lines.
std::optional<PrimaryColumns> find_columns(const detail::Sheet& sheet, char separator) {
    constexpr std::size_t lines_looked_at = 20;
    std::vector<detail::Cell> cells;
    for (std::size_t i = 0; i < std::min(sheet.lines().size(), lines_looked_at); ++i) {
        if (sheet.lines()[i].comment) {
            continue;
        }
        sheet.split(i, separator, cells);
        if (auto found = columns_in(cells)) {
            found->line = i;
            return found;
        }
    }
    return {};
}

/// The rows below a heading.
class PrimaryRows {
  public:
    PrimaryRows(const detail::Sheet& sheet, const PrimaryColumns& columns, detail::Habits habits)
        : sheet_(sheet), columns_(columns), habits_(habits) {
        for (std::size_t i = columns.line + 1; i < sheet.lines().size(); ++i) {
            if (!sheet.lines()[i].comment) {
                take(i);
            }
        }
        for (std::size_t k = 0; k < 4; ++k) {
            if (!rows_.at(k)) {
                sheet.refuse_file("no row " + std::string(light_names.at(k)),
                                  "rows red, green, blue and white, and optionally black");
            }
        }
    }

    [[nodiscard]] const std::optional<LightRow>& row(std::size_t k) const { return rows_.at(k); }

  private:
    void take(std::size_t line) {
        sheet_.split(line, habits_.separator, cells_);
        if (columns_.name >= cells_.size()) {
            sheet_.refuse_line(line, "a row without a name", "a name below its heading");
        }
        const std::string_view name = cells_[columns_.name].text;
        const auto which = std::find(light_names.begin(), light_names.end(), detail::lowered(name));
        if (which == light_names.end()) {
            sheet_.refuse(line, name, detail::shown(name), "red, green, blue, white or black");
        }
        auto& row = rows_.at(static_cast<std::size_t>(which - light_names.begin()));
        if (row) {
            sheet_.refuse(line, name, "a second " + detail::shown(name), "one row for each light");
        }
        row = light_of(line, which == light_names.begin() + 4);
    }

    LightRow light_of(std::size_t line, bool black) {
        const double first = number_at(line, columns_.number[0]);
        const double second = number_at(line, columns_.number[1]);
        if (columns_.xyz) {
            const double third = number_at(line, columns_.number[2]);
            if (!(first + second + third > 0.0) && !black) {
                sheet_.refuse_line(line, "X + Y + Z of " + std::to_string(first + second + third),
                                   "X, Y, Z of a light");
            }
            return {{first, second, third}, true};
        }
        const bool luminance = columns_.number[2] != nowhere;
        const double Y = luminance ? number_at(line, columns_.number[2]) : 1.0;
        if (!(second > 0.0)) {
            sheet_.refuse_line(line, "y of " + std::to_string(second), "a y above 0");
        }
        return {{Y / second * first, Y, Y / second * (1.0 - first - second)}, luminance};
    }

    double number_at(std::size_t line, std::size_t column) {
        if (column >= cells_.size()) {
            sheet_.refuse_line(line, "a row that ends too early", "a number below each heading");
        }
        const std::string_view text = cells_[column].text;
        const detail::Number number = detail::number_of(text, habits_.mark);
        if (number.fault != detail::Fault::none) {
            sheet_.refuse(line, text, detail::shown(text), "a number");
        }
        return number.value;
    }

    const detail::Sheet& sheet_;
    const PrimaryColumns& columns_;
    detail::Habits habits_;
    std::vector<detail::Cell> cells_;
    std::array<std::optional<LightRow>, 5> rows_;
};

LightReading without_black(const LightRow& row, const std::optional<LightRow>& black) {
    std::array<double, 3> xyz = row.xyz;
    for (std::size_t k = 0; k < 3 && black; ++k) {
        xyz.at(k) -= black->xyz.at(k);
    }
    const double sum = xyz[0] + xyz[1] + xyz[2];
    return {{xyz[0] / sum, xyz[1] / sum}, row.luminance ? std::optional(xyz[1]) : std::nullopt};
}

}  // namespace

std::optional<NamedPrimaryReadings> parse_primary_readings(std::string_view bytes,
                                                           const std::string& source) {
    const std::string shown_source = harmless(source);
    DecodedText decoded = decode_text(bytes, shown_source);
    const detail::Sheet sheet(decoded.text, shown_source);
    const detail::Habits habits = detail::habits_of(sheet);
    const std::optional<PrimaryColumns> columns = find_columns(sheet, habits.separator);
    if (!columns) {
        return {};
    }
    const PrimaryRows rows(sheet, *columns, habits);
    const std::optional<LightRow>& black = rows.row(4);
    if (black && !black->luminance) {
        sheet.refuse_file("a black of which only x, y are given", "a column Y, too, or no black");
    }
    NamedPrimaryReadings result{
        {{without_black(*rows.row(0), black), without_black(*rows.row(1), black),
          without_black(*rows.row(2), black)},
         without_black(*rows.row(3), black)},
        std::move(decoded.understood)};
    require_readings(result.readings, shown_source);
    result.understood.push_back(std::string("A table of readings, ") +
                                (columns->xyz                    ? "X, Y, Z"
                                 : columns->number[2] != nowhere ? "x, y, Y"
                                                                 : "x, y") +
                                (black ? "; black taken off." : "."));
    return result;
}

std::optional<NamedPrimaryReadings> open_primary_readings(const std::string& file) {
    const std::string bytes =
        detail::file_bytes(file, std::uintmax_t{64} << 20, "a file of spectra");
    if (bytes.size() > detail::largest_small_file_bytes) {
        return {};
    }
    return parse_primary_readings(bytes, detail::source_name(file));
}

}  // namespace samelight::io
