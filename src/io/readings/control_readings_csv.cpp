// Reading of files of how a display's controls answer.
#include "samelight/io/control_readings_csv.hpp"
#include "samelight/check/adjusting/grey_drives.hpp"
#include "samelight/io/readings_csv.hpp"
#include "samelight/io/text_for_people.hpp"

#include <algorithm>
#include <optional>
#include <span>

#include "io/files/file_bytes.hpp"
#include "io/layout/layout.hpp"
#include "io/readings/readings_columns.hpp"
#include "io/readings/readings_row.hpp"
#include "io/readings/readings_text.hpp"
#include "io/text/sheet.hpp"
#include "io/text/words.hpp"

namespace samelight::io {

namespace {

using detail::ReadingColumn;
using detail::ReadingsLayout;
using detail::ReadingsRow;
using detail::Sheet;

constexpr int most_steps = 1000;
/// Far more than any menu has controls and anybody reads.
constexpr std::size_t most_rows = 2000;

std::optional<double> level_in(const ReadingsRow& row) {
    const auto level_pct = row.maybe(ReadingColumn::level_pct, "a level in per cent of the signal");
    const std::string patch = row.text(ReadingColumn::patch);
    if (level_pct && !(*level_pct > 0.0 && *level_pct <= 109.0)) {
        row.refuse(ReadingColumn::level_pct, detail::shown(row.cell(ReadingColumn::level_pct)),
                   "above 0, up to 109 per cent of the signal");
    }
    if (level_pct) {
        return *level_pct / 100.0;
    }
    if (patch.empty()) {
        return {};
    }
    PatchReading named;
    named.patch = patch;
    const auto greys = grey_levels(std::span(&named, 1));
    if (greys.empty() || !(greys[0].level > 0.0)) {
        row.refuse(ReadingColumn::patch, detail::shown(row.cell(ReadingColumn::patch)),
                   "white or a grey (grey-30)");
    }
    return greys[0].level;
}

std::optional<Control> control_in(const ReadingsRow& row, int steps) {
    if (steps == 0 && !row.has(ReadingColumn::control)) {
        return {};
    }
    const std::string wanted = "red, green or blue with gain, offset or point LEVEL";
    const auto control = control_named(row.need_text(ReadingColumn::control, wanted));
    if (!control) {
        row.refuse(ReadingColumn::control, detail::shown(row.cell(ReadingColumn::control)), wanted);
    }
    return control;
}

std::optional<int> limit_in(const ReadingsRow& row, ReadingColumn column) {
    if (!row.has(column)) {
        return {};
    }
    return column == ReadingColumn::least
               ? row.need_whole(column, -most_steps, 0, "a whole number of steps, -1000 to 0")
               : row.need_whole(column, 0, most_steps, "a whole number of steps, 0 to 1000");
}

ControlReading control_row(const ReadingsRow& row, const Sheet& sheet) {
    ControlReading reading;
    reading.line = sheet.lines()[row.line()].number;
    reading.steps = row.need_whole(ReadingColumn::steps, -most_steps, most_steps,
                                   "a whole number of steps, -1000 to 1000");
    reading.control = control_in(row, reading.steps);
    reading.level = level_in(row);
    if (!reading.level && reading.control && reading.control->kind == ControlKind::offset) {
        row.refuse(ReadingColumn::level_pct, "an offset without a level",
                   "the grey at which it was read, in level_pct or patch");
    }
    reading.xyz = row.tristimulus();
    reading.least = limit_in(row, ReadingColumn::least);
    reading.most = limit_in(row, ReadingColumn::most);
    return reading;
}

}  // namespace

ControlReadingsFile parse_control_readings_csv(std::string_view bytes, const std::string& source) {
    const detail::ReadingsText text(bytes, source, "a file of control readings");
    const Sheet& sheet = text.sheet();
    ControlReadingsFile file{source, {}, {}};
    const ReadingsLayout layout = text.layout(detail::ReadingsKind::controls, file.understood);
    std::size_t unread = 0;
    detail::for_each_row(sheet, layout, [&](const ReadingsRow& row) {
        if (row.is_unread()) {
            ++unread;
            return;
        }
        if (file.rows.size() == most_rows) {
            sheet.refuse_line(row.line(), "more than 2000 readings of controls", "2000 at most");
        }
        file.rows.push_back(control_row(row, sheet));
    });
    if (unread > 0 && file.rows.empty()) {
        sheet.refuse_line(layout.heading,
                          "a list of " + detail::counted(unread, "row") + ", of which none is read",
                          "one control moved a row, and what was read");
    }
    if (unread > 0) {
        file.understood.push_back(detail::counted(unread, "row") + " not read: left out.");
    }
    if (std::all_of(file.rows.begin(), file.rows.end(),
                    [](const ControlReading& r) { return r.steps == 0; })) {
        sheet.refuse_line(layout.heading, "no row with a control that was moved",
                          "one control moved a row, steps other than 0");
    }
    file.understood.push_back(detail::counted(file.rows.size(), "reading") + " of controls.");
    return file;
}

ControlReadingsFile read_control_readings_csv(const std::filesystem::path& file) {
    return parse_control_readings_csv(
        detail::file_bytes(file, largest_readings_file_bytes, "a file of control readings"),
        detail::source_name(file));
}

}  // namespace samelight::io
