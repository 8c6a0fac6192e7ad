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
#include "io/readings/readings_row.hpp"
#include "io/readings/readings_text.hpp"
#include "io/text/numbers.hpp"
#include "io/text/sheet.hpp"
#include "io/text/words.hpp"

namespace samelight::io {

namespace {

using detail::ReadingColumn;
using detail::ReadingsLayout;
using detail::Sheet;

Instrument instrument_of(const detail::ReadingsRow& row) {
    const std::string name = detail::lowered(row.text(ReadingColumn::instrument));
    if (name != "reference" && name != "meter") {
        row.refuse(
            ReadingColumn::instrument,
            name.empty() ? "an empty cell" : detail::shown(row.cell(ReadingColumn::instrument)),
            "reference or meter");
    }
    return name == "meter" ? Instrument::meter : Instrument::reference;
}

void read_signal(const detail::ReadingsRow& row, ReadingRow& to) {
    to.bits = row.bits();
    to.range = row.range();
    to.code_values = row.code_values(to.bits);
    to.window_pct = row.window_pct();
    to.mode = row.text(ReadingColumn::mode);
    to.flag = row.text(ReadingColumn::flag);
}

ReadingRow read_row(const Sheet& sheet, const ReadingsLayout& layout,
                    const detail::ReadingsRow& row) {
    ReadingRow result;
    result.line = sheet.lines()[row.line()].number;
    result.reading.patch = row.need_text(ReadingColumn::patch, "the patch's name");
    result.reading.instrument = instrument_of(row);
    if (layout.has(ReadingColumn::repeat)) {
        result.reading.round =
            row.need_whole(ReadingColumn::repeat, 1, 1000000, "a whole number from 1");
    }
    result.reading.xyz = row.tristimulus();
    result.reading.time_s = row.time_s();
    read_signal(row, result);
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
    const detail::ReadingsText text(bytes, source, "a file of readings");
    const Sheet& sheet = text.sheet();
    ReadingsFile file{source, {}, {}, {}};
    const ReadingsLayout layout = text.layout(detail::ReadingsKind::paired, file.understood);
    if (!layout.has(ReadingColumn::repeat)) {
        file.understood.emplace_back(
            "No column repeat: each instrument's readings of a patch numbered in their order.");
    }
    detail::for_each_row(sheet, layout, [&](const detail::ReadingsRow& row) {
        file.rows.push_back(read_row(sheet, layout, row));
    });
    if (file.rows.empty()) {
        sheet.refuse_line(layout.heading, "a heading and no reading", "one reading a row");
    }
    require_same_signal(file.rows, sheet.source());
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
