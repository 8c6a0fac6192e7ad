// Reading of files of paired readings.
#include "samelight/io/readings_csv.hpp"
#include "samelight/io/text_decoding.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "io/files/file_bytes.hpp"
#include "io/layout/layout.hpp"
#include "io/readings/readings_columns.hpp"
#include "io/text/numbers.hpp"
#include "io/text/sheet.hpp"
#include "io/text/words.hpp"

namespace samelight::io {

namespace {

using detail::Cell;
using detail::ReadingColumn;
using detail::ReadingsLayout;
using detail::Sheet;

/// One row of the table on its way to a ReadingRow.
class Row {
  public:
    Row(const Sheet& sheet, const ReadingsLayout& layout, std::size_t line)
        : sheet_(&sheet), layout_(&layout), line_(line) {
        sheet.split(line, layout.separator, cells_);
        const std::size_t filled = detail::filled_count(cells_);
        if (filled > layout.columns) {
            sheet.refuse(line, cells_[layout.columns].text,
                         detail::counted(filled, "cell") + " under " +
                             detail::counted(layout.columns, "heading"),
                         "a heading for each");
        }
        cells_.resize(std::max(cells_.size(), layout.columns));
    }

    /// The cell of a column; empty where there is no such column.
    [[nodiscard]] std::string_view cell(ReadingColumn column) const {
        return layout_->has(column) ? cells_[layout_->at(column)].text : std::string_view{};
    }
    [[noreturn]] void refuse(ReadingColumn column, const std::string& found,
                             const std::string& wanted) const {
        const std::string_view at = cell(column);
        if (at.data() == nullptr) {
            sheet_->refuse_end(line_, found, wanted);
        }
        sheet_->refuse(line_, at, found, wanted);
    }
    [[nodiscard]] std::string text(ReadingColumn column) const {
        return layout_->has(column) ? detail::as_name(detail::unquoted(cells_[layout_->at(column)]))
                                    : std::string{};
    }
    [[nodiscard]] std::string need_text(ReadingColumn column, const std::string& wanted) const {
        std::string value = text(column);
        if (value.empty()) {
            refuse(column, "an empty cell", wanted);
        }
        return value;
    }
    [[nodiscard]] double need(ReadingColumn column, const std::string& wanted) const {
        const detail::Number number = detail::number_of(cell(column), layout_->mark);
        if (number.fault != detail::Fault::none) {
            refuse(column,
                   number.fault == detail::Fault::empty ? "an empty cell"
                                                        : detail::shown(cell(column)),
                   wanted);
        }
        return number.value;
    }
    [[nodiscard]] std::optional<double> maybe(ReadingColumn column,
                                              const std::string& wanted) const {
        if (cell(column).empty()) {
            return {};
        }
        return need(column, wanted);
    }
    [[nodiscard]] int need_whole(ReadingColumn column, int least, int most,
                                 const std::string& wanted) const {
        const double value = need(column, wanted);
        if (!(value >= least && value <= most) || value != std::floor(value)) {
            refuse(column, detail::shown(cell(column)), wanted);
        }
        return static_cast<int>(value);
    }
    [[nodiscard]] std::size_t line() const { return line_; }

  private:
    const Sheet* sheet_;
    const ReadingsLayout* layout_;
    std::size_t line_;
    std::vector<Cell> cells_;
};

constexpr double largest_value = 1e9;  // cd/m2; the sun's disc is at 1.6e9

std::array<double, 3> tristimulus(const Row& row, const ReadingsLayout& layout) {
    const auto value = [&](ReadingColumn column) {
        const double v = row.need(column, "a number");
        if (!(std::abs(v) <= largest_value)) {
            row.refuse(column, detail::shown(row.cell(column)), "cd/m2, up to 1e9");
        }
        return v;
    };
    const auto from_xyY = [&]() -> std::array<double, 3> {
        const double x = value(ReadingColumn::x);
        const double y = value(ReadingColumn::y);
        const double Y = value(ReadingColumn::Y);
        if (x == 0.0 && y == 0.0 && Y == 0.0) {
            return {0.0, 0.0, 0.0};
        }
        if (!(y > 0.0)) {
            row.refuse(ReadingColumn::y, "y = " + to_text(y), "a y above 0");
        }
        return xyz_from_xyY(x, y, Y);
    };
    if (!layout.has_xyz()) {
        return from_xyY();
    }
    const std::array<double, 3> xyz = {value(ReadingColumn::X), value(ReadingColumn::Y),
                                       value(ReadingColumn::Z)};
    if (layout.has_xyY() && xyz[1] > 0.0 && !row.cell(ReadingColumn::x).empty()) {
        constexpr double rounding = 0.001;
        const auto own = xyY_from_xyz(xyz);
        const double x = value(ReadingColumn::x);
        const double y = value(ReadingColumn::y);
        if (std::hypot(x - own[0], y - own[1]) > rounding) {
            row.refuse(ReadingColumn::x,
                       "x, y = " + to_text(x) + ", " + to_text(y) + " beside X, Y, Z of x, y = " +
                           to_text(own[0], 4) + ", " + to_text(own[1], 4),
                       "columns that agree to .001, or one kind of them");
        }
    }
    return xyz;
}

Instrument instrument_of(const Row& row) {
    const std::string name = detail::lowered(row.text(ReadingColumn::instrument));
    if (name != "reference" && name != "meter") {
        row.refuse(
            ReadingColumn::instrument,
            name.empty() ? "an empty cell" : detail::shown(row.cell(ReadingColumn::instrument)),
            "reference or meter");
    }
    return name == "meter" ? Instrument::meter : Instrument::reference;
}

void read_signal(const Row& row, const ReadingsLayout& layout, ReadingRow& to) {
    constexpr const char* wanted_bits = "bits from 8 to 16";
    if (layout.has(ReadingColumn::bits) && !row.cell(ReadingColumn::bits).empty()) {
        to.bits = row.need_whole(ReadingColumn::bits, 8, 16, wanted_bits);
    }
    to.range = detail::lowered(row.text(ReadingColumn::range));
    if (!to.range.empty() && to.range != "full" && to.range != "limited") {
        row.refuse(ReadingColumn::range, detail::shown(row.cell(ReadingColumn::range)),
                   "full or limited");
    }
    if (layout.has(ReadingColumn::r) && !row.cell(ReadingColumn::r).empty()) {
        const int most = (1 << to.bits.value_or(16)) - 1;
        const std::string wanted =
            "a whole number from 0 to " + std::to_string(most) +
            (to.bits ? ", the largest of " + std::to_string(*to.bits) + " bits" : "");
        to.code_values = {row.need_whole(ReadingColumn::r, 0, most, wanted),
                          row.need_whole(ReadingColumn::g, 0, most, wanted),
                          row.need_whole(ReadingColumn::b, 0, most, wanted)};
    }
    to.window_pct = row.maybe(ReadingColumn::window_pct, "a share of the screen in per cent");
    if (to.window_pct && !(*to.window_pct > 0.0 && *to.window_pct <= 100.0)) {
        row.refuse(ReadingColumn::window_pct, detail::shown(row.cell(ReadingColumn::window_pct)),
                   "above 0 and up to 100 per cent");
    }
    to.mode = row.text(ReadingColumn::mode);
    to.flag = row.text(ReadingColumn::flag);
}

ReadingRow read_row(const Sheet& sheet, const ReadingsLayout& layout, std::size_t line) {
    const Row row(sheet, layout, line);
    ReadingRow result;
    result.line = sheet.lines()[line].number;
    result.reading.patch = row.need_text(ReadingColumn::patch, "the patch's name");
    result.reading.instrument = instrument_of(row);
    if (layout.has(ReadingColumn::repeat)) {
        result.reading.round =
            row.need_whole(ReadingColumn::repeat, 1, 1000000, "a whole number from 1");
    }
    result.reading.xyz = tristimulus(row, layout);
    result.reading.time_s = row.maybe(ReadingColumn::time_s, "seconds");
    read_signal(row, layout, result);
    return result;
}

/// A patch is what its name and its code values say: both must go together.
void require_same_signal(const std::vector<ReadingRow>& rows, const std::string& source) {
    std::map<std::string, const ReadingRow*> first;
    for (const ReadingRow& row : rows) {
        if (!row.code_values) {
            continue;
        }
        const auto [found, is_new] = first.emplace(detail::lowered(row.reading.patch), &row);
        const ReadingRow& other = *found->second;
        if (!is_new && (*other.code_values != *row.code_values || other.bits != row.bits ||
                        other.range != row.range)) {
            const auto text = [](const ReadingRow& r) {
                return std::to_string((*r.code_values)[0]) + ", " +
                       std::to_string((*r.code_values)[1]) + ", " +
                       std::to_string((*r.code_values)[2]) +
                       (r.bits ? " of " + std::to_string(*r.bits) + " bits" : "") +
                       (r.range.empty() ? "" : ", " + r.range + " range");
            };
            throw Error(ErrorKind::input, source + ":" + std::to_string(row.line) + ":1",
                        "patch " + row.reading.patch + " shown with " + text(row) +
                            ", but in line " + std::to_string(other.line) + " with " + text(other),
                        "one name for each signal");
        }
    }
}

void number_repeats(std::vector<ReadingRow>& rows) {
    std::map<std::pair<std::string, Instrument>, std::vector<InstrumentReading*>> readings;
    for (ReadingRow& row : rows) {
        readings[{detail::lowered(row.reading.patch), row.reading.instrument}].push_back(
            &row.reading);
    }
    for (auto& [whose, own] : readings) {
        if (std::all_of(own.begin(), own.end(), [](const auto* r) { return r->time_s; })) {
            std::stable_sort(own.begin(), own.end(),
                             [](const auto* a, const auto* b) { return *a->time_s < *b->time_s; });
        }
        int round = 0;
        for (InstrumentReading* reading : own) {
            reading->round = ++round;
        }
    }
}

void warn(ReadingsFile& file) {
    std::set<std::string> modes;
    std::set<double> windows;
    std::size_t flagged = 0;
    const ReadingRow* first = nullptr;
    for (const ReadingRow& row : file.rows) {
        if (!row.mode.empty()) {
            modes.insert(row.mode);
        }
        if (row.window_pct) {
            windows.insert(*row.window_pct);
        }
        if (!row.flag.empty()) {
            ++flagged;
            first = first != nullptr ? first : &row;
        }
    }
    if (first != nullptr) {
        file.warnings.push_back(Warning{"flagged",
                                        {{"readings", static_cast<double>(flagged)},
                                         {"flag", detail::as_name(first->flag)},
                                         {"line", static_cast<double>(first->line)}}});
    }
    if (modes.size() > 1) {
        file.warnings.push_back(
            Warning{"several_modes", {{"modes", static_cast<double>(modes.size())}}});
    }
    if (windows.size() > 1) {
        file.warnings.push_back(
            Warning{"several_windows",
                    {{"least_percent", *windows.begin()}, {"most_percent", *windows.rbegin()}}});
    }
}

std::vector<std::string> describe(const Sheet& sheet, const ReadingsLayout& layout) {
    std::vector<std::string> sentences;
    std::string separator = detail::separator_name(layout.separator, true);
    separator.front() = static_cast<char>(separator.front() - 'a' + 'A');
    sentences.push_back(separator + " between columns, decimal " +
                        (layout.mark == ',' ? "commas." : "points."));
    const auto above = std::count_if(
        sheet.lines().begin(), sheet.lines().begin() + static_cast<std::ptrdiff_t>(layout.heading),
        [](const detail::Line& line) { return !line.comment; });
    if (above > 0) {
        sentences.push_back(detail::counted(static_cast<std::size_t>(above), "heading line") +
                            " skipped.");
    }
    if (layout.has_xyz() && (layout.has(ReadingColumn::x) || layout.has(ReadingColumn::y))) {
        sentences.emplace_back("X, Y, Z used; x and y only compared with them.");
    }
    if (!layout.has(ReadingColumn::repeat)) {
        sentences.emplace_back(
            "No column repeat: each instrument's readings of a patch numbered in their order.");
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

void count_readings(ReadingsFile& file) {
    std::array<std::size_t, 2> count{};
    std::set<std::string> patches;
    for (const ReadingRow& row : file.rows) {
        ++count.at(row.reading.instrument == Instrument::meter ? 1 : 0);
        patches.insert(detail::lowered(row.reading.patch));
    }
    file.understood.push_back(detail::counted(count[0], "reading") + " of the reference and " +
                              std::to_string(count[1]) + " of the meter, " +
                              std::to_string(patches.size()) +
                              (patches.size() == 1 ? " patch." : " patches."));
}

}  // namespace

std::vector<InstrumentReading> ReadingsFile::readings() const {
    std::vector<InstrumentReading> result;
    for (const ReadingRow& row : rows) {
        result.push_back(row.reading);
    }
    return result;
}

ReadingsFile parse_readings_csv(std::string_view bytes, const std::string& source) {
    const std::string shown_source = harmless(source);
    detail::require_size(bytes.size(), largest_readings_file_bytes, shown_source,
                         "a file of readings");
    const DecodedText decoded = decode_text(bytes, shown_source);
    const Sheet sheet(decoded.text, shown_source);
    const ReadingsLayout layout = detail::find_readings_layout(sheet);
    ReadingsFile file{source, {}, decoded.understood, {}};
    const std::vector<std::string> of_sheet = sheet.understood();
    file.understood.insert(file.understood.end(), of_sheet.begin(), of_sheet.end());
    const std::vector<std::string> of_layout = describe(sheet, layout);
    file.understood.insert(file.understood.end(), of_layout.begin(), of_layout.end());
    for (std::size_t i = layout.heading + 1; i < sheet.lines().size(); ++i) {
        if (!sheet.lines()[i].comment) {
            file.rows.push_back(read_row(sheet, layout, i));
        }
    }
    if (file.rows.empty()) {
        sheet.refuse_line(layout.heading, "a heading and no reading", "one reading a row");
    }
    require_same_signal(file.rows, shown_source);
    if (!layout.has(ReadingColumn::repeat)) {
        number_repeats(file.rows);
    }
    count_readings(file);
    warn(file);
    return file;
}

ReadingsFile read_readings_csv(const std::filesystem::path& file) {
    return parse_readings_csv(
        detail::file_bytes(file, largest_readings_file_bytes, "a file of readings"),
        detail::source_name(file));
}

}  // namespace samelight::io
