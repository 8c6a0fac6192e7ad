// Reading of files of one instrument's readings of patches.
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/io/readings_csv.hpp"
#include "samelight/io/text_for_people.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include "io/doubts/same_rows.hpp"
#include "io/doubts/units_asked.hpp"
#include "io/files/file_bytes.hpp"
#include "io/layout/layout.hpp"
#include "io/readings/readings_columns.hpp"
#include "io/readings/readings_row.hpp"
#include "io/readings/readings_text.hpp"
#include "io/readings/row_signal.hpp"
#include "io/text/sheet.hpp"
#include "io/text/words.hpp"

namespace samelight::io {

namespace {

using detail::ReadingColumn;
using detail::ReadingsLayout;
using detail::ReadingsRow;
using detail::Sheet;

PatchReading read_row(const ReadingsRow& row, const Sheet& sheet, detail::RowSignal& signal) {
    PatchReading reading;
    reading.line = sheet.lines()[row.line()].number;
    reading.patch = row.text(ReadingColumn::patch);
    signal = detail::read_signal(row, reading);
    reading.xyz = row.tristimulus();
    reading.window_pct = row.window_pct();
    reading.mode = row.text(ReadingColumn::mode);
    if (row.has(ReadingColumn::repeat)) {
        reading.repeat = row.need_whole(ReadingColumn::repeat, 1, 1000000, "a whole number from 1");
    }
    reading.time_s = row.time_s();
    reading.day = row.day();
    reading.position = row.text(ReadingColumn::position);
    reading.flag = row.text(ReadingColumn::flag);
    return reading;
}

void require_one_instrument(const ReadingsRow& row, std::string& first) {
    const std::string name = detail::lowered(row.text(ReadingColumn::instrument));
    if (first.empty()) {
        first = name;
    } else if (!name.empty() && name != first) {
        row.refuse(ReadingColumn::instrument,
                   "readings of " + detail::shown(row.cell(ReadingColumn::instrument)) +
                       " below those of " + detail::shown(first),
                   "one instrument's readings");
    }
}

void warn_of_flags(PatchReadingsFile& file) {
    const auto flagged = [](const PatchReading& row) { return !row.flag.empty(); };
    const auto first = std::find_if(file.rows.begin(), file.rows.end(), flagged);
    if (first != file.rows.end()) {
        const auto count = std::count_if(file.rows.begin(), file.rows.end(), flagged);
        file.warnings.push_back(Warning{"flagged",
                                        {{"readings", static_cast<double>(count)},
                                         {"flag", detail::as_name(first->flag)},
                                         {"line", static_cast<double>(first->line)}}});
    }
}

/// What the first comment says.
std::string first_remark(const Sheet& sheet) {
    const auto& lines = sheet.lines();
    const auto comment = std::find_if(lines.begin(), lines.end(),
                                      [](const detail::Line& line) { return line.comment; });
    if (comment == lines.end()) {
        return {};
    }
    std::string_view text = detail::trimmed(comment->text);
    text.remove_prefix(std::min(text.find_first_not_of('#'), text.size()));
    return std::string(detail::trimmed(text));
}

/// Rows of a list that is filled in only partly.
struct Unread {
    std::size_t rows = 0, first_line = 0;

    void take(std::size_t line) {
        first_line = rows == 0 ? line : first_line;
        ++rows;
    }
    void warn(std::vector<Warning>& warnings) const {
        if (rows > 0) {
            warnings.push_back(Warning{
                "unread_rows",
                {{"rows", static_cast<double>(rows)}, {"line", static_cast<double>(first_line)}}});
        }
    }
};

/// When the readings were taken, and dates that can't be understood.
struct Dates {
    std::optional<int> first, last;
    std::string other;

    void take(const ReadingsRow& row, const PatchReading& reading) {
        if (reading.day) {
            first = std::min(first.value_or(*reading.day), *reading.day);
            last = std::max(last.value_or(*reading.day), *reading.day);
        } else if (other.empty() && row.has(ReadingColumn::date)) {
            other = detail::shown(row.cell(ReadingColumn::date));
        }
    }
    void say(std::vector<std::string>& understood) const {
        if (first) {
            understood.push_back("Read on " + date_text(*first) +
                                 (first == last ? "." : ", the last on " + date_text(*last) + "."));
        }
        if (!other.empty()) {
            understood.push_back("Dates like " + other + " left alone: 2026-03-14 is understood.");
        }
    }
};

}  // namespace

PatchReadingsFile parse_patch_readings_csv(std::string_view bytes, const std::string& source,
                                           const UnsaidCodes& unsaid) {
    const detail::ReadingsText text(bytes, source, "a file of readings",
                                    detail::CgatsPatches::readings);
    const Sheet& sheet = text.sheet();
    PatchReadingsFile file{source, {}, {}, {}};
    const ReadingsLayout layout = text.layout(detail::ReadingsKind::patches, file.understood);
    std::vector<detail::RowSignal> signals;
    std::vector<std::size_t> digits;
    std::string instrument;
    Unread unread;
    Dates dates;
    detail::for_each_row(sheet, layout, [&](const ReadingsRow& row) {
        require_one_instrument(row, instrument);
        if (row.is_unread()) {
            unread.take(sheet.lines()[row.line()].number);
        } else {
            file.rows.push_back(read_row(row, sheet, signals.emplace_back()));
            digits.push_back(row.value_digits());
            dates.take(row, file.rows.back());
        }
    });
    if (file.rows.empty()) {
        sheet.refuse_line(layout.heading,
                          unread.rows > 0 ? "a list of " + detail::counted(unread.rows, "row") +
                                                ", of which none is read"
                                          : "a heading and no reading",
                          "one reading a row");
    }
    detail::take_signals(signals, file.rows, file.understood, unsaid);
    const detail::UnitsAsked asked{source, signals, file.rows};
    detail::refuse_levels_of_one(asked);
    detail::ask_about_windows(asked, file.warnings);
    detail::ask_about_range(asked, unsaid, file.warnings);
    detail::leave_out_copies(source, digits, file.rows, file.warnings);
    file.understood.push_back(detail::counted(file.rows.size(), "reading") + " of patches.");
    dates.say(file.understood);
    warn_of_flags(file);
    file.remark = first_remark(sheet);
    unread.warn(file.warnings);
    return file;
}

PatchReadingsFile read_patch_readings_csv(const std::filesystem::path& file,
                                          const UnsaidCodes& unsaid) {
    return parse_patch_readings_csv(
        detail::file_bytes(file, largest_readings_file_bytes, "a file of readings"),
        detail::source_name(file), unsaid);
}

}  // namespace samelight::io
