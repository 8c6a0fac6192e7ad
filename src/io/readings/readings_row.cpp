#include "io/readings/readings_row.hpp"

#include <algorithm>
#include <cmath>

#include "io/layout/layout.hpp"
#include "io/text/numbers.hpp"
#include "io/text/reading_dates.hpp"
#include "io/text/words.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::io::detail {

ReadingsRow::ReadingsRow(const Sheet& sheet, const ReadingsLayout& layout, std::size_t line)
    : sheet_(&sheet), layout_(&layout), line_(line) {
    sheet.split(line, layout.separator, cells_);
    const std::size_t filled = filled_count(cells_);
    if (filled > layout.columns) {
        sheet.refuse(line, cells_[layout.columns].text,
                     counted(filled, "cell") + " under " + counted(layout.columns, "heading"),
                     "a heading for each");
    }
    cells_.resize(std::max(cells_.size(), layout.columns));
}

void ReadingsRow::refuse(ReadingColumn column, const std::string& found,
                         const std::string& wanted) const {
    const std::string_view at = cell(column);
    if (at.data() == nullptr) {
        sheet_->refuse_end(line_, found, wanted);
    }
    sheet_->refuse(line_, at, found, wanted);
}

std::string ReadingsRow::text(ReadingColumn column) const {
    return layout_->has(column) ? as_name(unquoted(cells_[layout_->at(column)])) : std::string{};
}

std::string ReadingsRow::need_text(ReadingColumn column, const std::string& wanted) const {
    std::string value = text(column);
    if (value.empty()) {
        refuse(column, "an empty cell", wanted);
    }
    return value;
}

double ReadingsRow::need(ReadingColumn column, const std::string& wanted) const {
    const Number number = number_of(cell(column), layout_->mark);
    if (number.fault != Fault::none) {
        refuse(column, number.fault == Fault::empty ? "an empty cell" : shown(cell(column)),
               wanted);
    }
    return number.value;
}

std::optional<double> ReadingsRow::maybe(ReadingColumn column, const std::string& wanted) const {
    if (cell(column).empty()) {
        return {};
    }
    return need(column, wanted);
}

int ReadingsRow::need_whole(ReadingColumn column, int least, int most,
                            const std::string& wanted) const {
    const double value = need(column, wanted);
    if (!(value >= least && value <= most) || value != std::floor(value)) {
        refuse(column, shown(cell(column)), wanted);
    }
    return static_cast<int>(value);
}

std::array<double, 3> ReadingsRow::tristimulus() const {
    // cd/m2; the sun's disc is at 1.6e9
    constexpr double largest_value = 1e9;
    const auto value = [&](ReadingColumn column) {
        const double v = need(column, "a number");
        if (!(std::abs(v) <= largest_value)) {
            refuse(column, shown(cell(column)), "cd/m2, up to 1e9");
        }
        return v;
    };
    if (!layout_->has_xyz()) {
        if (is_without_light()) {
            return {0.0, 0.0, 0.0};
        }
        const double x = value(ReadingColumn::x);
        const double y = value(ReadingColumn::y);
        const double Y = value(ReadingColumn::Y);
        if (x == 0.0 && y == 0.0 && Y == 0.0) {
            return {0.0, 0.0, 0.0};
        }
        if (!(y > 0.0)) {
            refuse(ReadingColumn::y, "y = " + to_text(y), "a y above 0");
        }
        return xyz_from_xyY(x, y, Y);
    }
    const std::array<double, 3> xyz = {value(ReadingColumn::X), value(ReadingColumn::Y),
                                       value(ReadingColumn::Z)};
    if (layout_->has_xyY() && xyz[1] > 0.0 && !cell(ReadingColumn::x).empty()) {
        constexpr double rounding = 0.001;
        const auto own = xyY_from_xyz(xyz);
        const double x = value(ReadingColumn::x);
        const double y = value(ReadingColumn::y);
        if (std::hypot(x - own[0], y - own[1]) > rounding) {
            refuse(ReadingColumn::x,
                   "x, y = " + to_text(x) + ", " + to_text(y) + " beside X, Y, Z of x, y = " +
                       to_text(own[0], 4) + ", " + to_text(own[1], 4),
                   "columns that agree to .001, or one kind of them");
        }
    }
    return xyz;
}

bool ReadingsRow::is_without_light() const {
    const auto says_nothing = [this](ReadingColumn column) {
        const std::string_view written = cell(column);
        return written.find_first_not_of('-') == std::string_view::npos ||
               number_of(written, layout_->mark).fault == Fault::not_finite;
    };
    const Number Y = number_of(cell(ReadingColumn::Y), layout_->mark);
    return Y.fault == Fault::none && Y.value == 0.0 && says_nothing(ReadingColumn::x) &&
           says_nothing(ReadingColumn::y);
}

std::optional<double> ReadingsRow::time_s() const {
    const std::string_view written = cell(ReadingColumn::time_s);
    if (const auto time = written_time(written)) {
        constexpr double seconds_of_day = 86400.0;
        return seconds_of_day * day().value_or(0) + time->seconds_of_day.value_or(0.0);
    }
    return maybe(ReadingColumn::time_s, "seconds, or a time as 2026-03-14T14:05:22 or 14:05:22");
}

std::optional<int> ReadingsRow::day() const {
    for (const ReadingColumn column : {ReadingColumn::date, ReadingColumn::time_s}) {
        if (const auto time = written_time(cell(column)); time && time->day) {
            return time->day;
        }
    }
    return {};
}

std::size_t ReadingsRow::value_digits() const {
    constexpr std::array xyz = {ReadingColumn::X, ReadingColumn::Y, ReadingColumn::Z};
    constexpr std::array xyY = {ReadingColumn::x, ReadingColumn::y, ReadingColumn::Y};
    std::size_t fewest = 20;
    for (const ReadingColumn column : layout_->has_xyz() ? xyz : xyY) {
        std::size_t digits = 0;
        for (const char c : cell(column)) {
            if (c == 'e' || c == 'E') {
                break;
            }
            // Zeros in front don't count.
            digits += is_digit(c) && (digits > 0 || c != '0') ? 1 : 0;
        }
        fewest = std::min(fewest, digits);
    }
    return fewest;
}

bool ReadingsRow::is_unread() const {
    constexpr std::array values = {ReadingColumn::X, ReadingColumn::Y, ReadingColumn::Z,
                                   ReadingColumn::x, ReadingColumn::y};
    return std::none_of(values.begin(), values.end(),
                        [this](ReadingColumn column) { return has(column); });
}

std::optional<int> ReadingsRow::bits() const {
    if (cell(ReadingColumn::bits).empty()) {
        return {};
    }
    return need_whole(ReadingColumn::bits, 8, 16, "bits from 8 to 16");
}

std::string ReadingsRow::range() const {
    std::string range = lowered(text(ReadingColumn::range));
    if (!range.empty() && range != "full" && range != "limited") {
        refuse(ReadingColumn::range, shown(cell(ReadingColumn::range)), "full or limited");
    }
    return range;
}

std::optional<std::array<int, 3>> ReadingsRow::code_values(std::optional<int> bits) const {
    if (cell(ReadingColumn::r).empty()) {
        return {};
    }
    const int most = (1 << bits.value_or(16)) - 1;
    const std::string wanted = "a whole number from 0 to " + std::to_string(most) +
                               (bits ? ", the largest of " + std::to_string(*bits) + " bits" : "");
    return std::array{need_whole(ReadingColumn::r, 0, most, wanted),
                      need_whole(ReadingColumn::g, 0, most, wanted),
                      need_whole(ReadingColumn::b, 0, most, wanted)};
}

std::optional<double> ReadingsRow::window_pct() const {
    const auto window = maybe(ReadingColumn::window_pct, "a share of the screen in per cent");
    if (window && !(*window > 0.0 && *window <= 100.0)) {
        refuse(ReadingColumn::window_pct, shown(cell(ReadingColumn::window_pct)),
               "above 0 and up to 100 per cent");
    }
    return window;
}

std::vector<std::string> how_readings_were_read(const Sheet& sheet, const ReadingsLayout& layout) {
    std::vector<std::string> sentences;
    std::string separator = separator_name(layout.separator, true);
    separator.front() = static_cast<char>(separator.front() - 'a' + 'A');
    sentences.push_back(separator + " between columns, decimal " +
                        (layout.mark == ',' ? "commas." : "points."));
    const auto above = std::count_if(
        sheet.lines().begin(), sheet.lines().begin() + static_cast<std::ptrdiff_t>(layout.heading),
        [](const Line& line) { return !line.comment; });
    if (above > 0) {
        sentences.push_back(counted(static_cast<std::size_t>(above), "heading line") + " skipped.");
    }
    if (layout.has_xyz() && (layout.has(ReadingColumn::x) || layout.has(ReadingColumn::y))) {
        sentences.emplace_back("X, Y, Z used; x and y only compared with them.");
    }
    if (!layout.unused.empty()) {
        std::string text = "Columns left alone: ";
        for (std::size_t i = 0; i < layout.unused.size(); ++i) {
            text += (i == 0 ? "" : ", ") + layout.unused[i];
        }
        sentences.push_back(text + ".");
    }
    return sentences;
}

}  // namespace samelight::io::detail
