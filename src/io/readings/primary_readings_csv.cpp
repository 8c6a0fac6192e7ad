#include "samelight/io/primary_readings_csv.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "io/files/file_bytes.hpp"
#include "io/layout/roles.hpp"
#include "io/readings/primary_columns.hpp"
#include "io/text/number_table.hpp"
#include "io/text/numbers.hpp"
#include "io/text/sheet.hpp"
#include "io/text/words.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/io/text_decoding.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::io {
namespace {

using detail::PrimaryColumns;
using Xyz = Tristimulus<Cie1931_2deg>;

/// A row of one light.
struct LightRow {
    std::size_t line = 0;
    /// Without a column of luminances Y is 1.
    Xyz xyz = {0.0, 0.0, 0.0};
};

bool is_black(std::string_view name) { return detail::role_of(name) == "black"; }

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
                sheet.refuse_file("no row " + std::string(detail::display_roles.at(k)),
                                  "rows red, green, blue and white, and optionally black");
            }
        }
    }

    [[nodiscard]] bool luminances_known() const {
        return columns_.has_xyz() || columns_.Y() != PrimaryColumns::nowhere;
    }
    [[nodiscard]] bool black_known() const { return rows_[4].has_value(); }

    /// The light without black, which must have been read with luminances and lie above zero.
    [[nodiscard]] LightReading reading(std::size_t k) const {
        const LightRow& row = *rows_.at(k);
        const Xyz black = rows_[4] ? rows_[4]->xyz : Xyz(0.0, 0.0, 0.0);
        const std::optional<LightReading> left = above_black(row.xyz, black);
        if (!left) {
            sheet_.refuse_line(row.line,
                               std::string(detail::display_roles.at(k)) +
                                   (black_known() ? " no brighter than black" : " without light"),
                               "a light at full drive, Y above 0 and above that of black");
        }
        return {left->xy, luminances_known() ? left->luminance : std::nullopt};
    }

    /// Throws for a black that can't be taken off.
    void check_black() const {
        if (!rows_[4]) {
            return;
        }
        if (!luminances_known()) {
            sheet_.refuse_line(rows_[4]->line, "a black of which only x, y are given",
                               "a column Y, too, or no black");
        }
        // Own rule: noise around zero stays below a thousandth of white.
        constexpr double most_noise = 1e-3;
        const Xyz& black = rows_[4]->xyz;
        const double least = std::min({black.X(), black.Y(), black.Z()});
        if (least < -most_noise * rows_[3]->xyz.Y()) {
            sheet_.refuse_line(rows_[4]->line,
                               "a black that lies below zero by more than noise, by " +
                                   detail::rough_text(-100.0 * least / rows_[3]->xyz.Y()) +
                                   " % of white",
                               "a black as light, or 0 where it is too dark to be read");
        }
    }

  private:
    void take(std::size_t line) {
        sheet_.split(line, habits_.separator, cells_);
        if (columns_.name >= cells_.size()) {
            sheet_.refuse_line(line, "a row without a name", "a name below its heading");
        }
        const std::string_view name = cells_[columns_.name].text;
        const auto* const which = std::find(detail::display_roles.begin(),
                                            detail::display_roles.end(), detail::role_of(name));
        if (which == detail::display_roles.end()) {
            sheet_.refuse(line, name, detail::shown(name), "red, green, blue, white or black");
        }
        auto& row = rows_.at(static_cast<std::size_t>(which - detail::display_roles.begin()));
        if (row) {
            sheet_.refuse(line, name, "a second " + detail::shown(name), "one row for each light");
        }
        row = LightRow{line, columns_.has_xyz() ? from_xyz(line) : from_xy(line)};
        check_other_luminance(line, row->xyz.Y());
    }

    Xyz from_xyz(std::size_t line) {
        const Xyz read{number_at(line, columns_.xyz[0]), number_at(line, columns_.xyz[1]),
                       number_at(line, columns_.xyz[2])};
        const bool black = is_black(cells_[columns_.name].text);
        const double sum = read.X() + read.Y() + read.Z();
        if (!black && !(sum > 0.0)) {
            sheet_.refuse_line(line, "X + Y + Z of " + to_text(sum), "X, Y, Z of a light");
        }
        if (!black && columns_.has_xy()) {
            check_xy(line, read.X() / sum, read.Y() / sum);
        }
        return read;
    }

    /// x, y beside X, Y, Z: two ways to say one thing.
    void check_xy(std::size_t line, double x, double y) {
        // Own rule: what rounding to three digits makes of dark lights.
        constexpr double most_apart = 0.002;
        const double x_said = number_at(line, columns_.xy[0]);
        const double y_said = number_at(line, columns_.xy[1]);
        if (!(std::abs(x_said - x) <= most_apart) || !(std::abs(y_said - y) <= most_apart)) {
            sheet_.refuse_line(line,
                               "x " + to_text(x_said) + ", y " + to_text(y_said) +
                                   ", but by X, Y, Z x " + to_text(x, 4) + ", y " + to_text(y, 4),
                               "x, y and X, Y, Z of one light by one observer, or one of the two");
        }
    }

    Xyz from_xy(std::size_t line) {
        const double Y =
            columns_.Y() != PrimaryColumns::nowhere ? number_at(line, columns_.Y()) : 1.0;
        if (is_black(cells_[columns_.name].text) && Y == 0.0) {
            // Too dark to be read, and without a colour, whatever stands there.
            return {0.0, 0.0, 0.0};
        }
        const double x = number_at(line, columns_.xy[0]);
        const double y = number_at(line, columns_.xy[1]);
        if (!(y > 0.0)) {
            sheet_.refuse_line(line, "y of " + to_text(y), "a y above 0");
        }
        return {Y / y * x, Y, Y / y * (1.0 - x - y)};
    }

    /// A luminance beside a Y: in one unit or in two, their ratio is that of the rows before.
    void check_other_luminance(std::size_t line, double Y) {
        if (columns_.luminance == PrimaryColumns::nowhere || columns_.luminance == columns_.Y()) {
            return;
        }
        constexpr double most_off = 0.02;  // own rule: what rounding to two digits makes
        const double luminance = number_at(line, columns_.luminance);
        if (!(Y > 0.0) || is_black(cells_[columns_.name].text)) {
            return;
        }
        luminance_over_Y_ = luminance_over_Y_.value_or(luminance / Y);
        if (!(std::abs(luminance / Y - *luminance_over_Y_) <= most_off * *luminance_over_Y_)) {
            sheet_.refuse(line, cells_[columns_.luminance].text,
                          "a luminance of " + to_text(luminance) + " beside a Y of " + to_text(Y) +
                              ", unlike the rows before",
                          "both of one light, or one of the two");
        }
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
    std::optional<double> luminance_over_Y_;
};

}  // namespace

std::optional<NamedPrimaryReadings> parse_primary_readings(std::string_view bytes,
                                                           const std::string& source) {
    const std::string shown_source = harmless(source);
    DecodedText decoded = decode_text(bytes, shown_source);
    const detail::Sheet sheet(decoded.text, shown_source, "a file of readings");
    const detail::Habits habits = detail::habits_of(sheet);
    const std::optional<PrimaryColumns> columns =
        detail::find_primary_columns(sheet, habits.separator);
    if (!columns) {
        return {};
    }
    const PrimaryRows rows(sheet, *columns, habits);
    rows.check_black();
    NamedPrimaryReadings result{
        {{rows.reading(0), rows.reading(1), rows.reading(2)}, rows.reading(3)},
        std::move(decoded.understood)};
    require_readings(result.readings, shown_source);
    result.understood.push_back(std::string("A table of readings, ") +
                                (columns->has_xyz()        ? "X, Y, Z"
                                 : rows.luminances_known() ? "x, y, Y"
                                                           : "x, y") +
                                (rows.black_known() ? "; black taken off." : "."));
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
