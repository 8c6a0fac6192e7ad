// Reading of files of one instrument's readings of patches.
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/io/readings_csv.hpp"
#include "samelight/io/text_decoding.hpp"
#include "samelight/io/text_for_people.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include "io/files/file_bytes.hpp"
#include "io/layout/layout.hpp"
#include "io/readings/readings_columns.hpp"
#include "io/readings/readings_row.hpp"
#include "io/text/sheet.hpp"
#include "io/text/words.hpp"

namespace samelight::io {

namespace {

using detail::ReadingColumn;
using detail::ReadingsLayout;
using detail::ReadingsRow;
using detail::Sheet;

/// What a row says of its signal, before the file as a whole has said which depth and range its codes have.
struct RowSignal {
    std::optional<int> bits;
    std::string range;
    std::optional<double> level_pct;
};

constexpr int default_bits = 8;
constexpr int default_bits_above_255 = 10;

RowSignal read_signal(const ReadingsRow& row, PatchReading& to) {
    RowSignal signal{row.bits(), row.range(), {}};
    to.codes = row.code_values(signal.bits);
    signal.level_pct = row.maybe(ReadingColumn::level_pct, "a level in per cent of the signal");
    if (signal.level_pct && !(*signal.level_pct >= 0.0 && *signal.level_pct <= 109.0)) {
        row.refuse(ReadingColumn::level_pct, detail::shown(row.cell(ReadingColumn::level_pct)),
                   "0 to 109 per cent of the signal");
    }
    if (to.codes && signal.level_pct) {
        row.refuse(ReadingColumn::level_pct, "a level beside code values", "one of the two");
    }
    if (to.patch.empty() && !to.codes && !signal.level_pct) {
        row.refuse(ReadingColumn::patch, "no patch, no code values and no level", "what was shown");
    }
    return signal;
}

PatchReading read_row(const ReadingsRow& row, const Sheet& sheet, RowSignal& signal) {
    PatchReading reading;
    reading.line = sheet.lines()[row.line()].number;
    reading.patch = row.text(ReadingColumn::patch);
    signal = read_signal(row, reading);
    reading.xyz = row.tristimulus();
    reading.window_pct = row.window_pct();
    reading.mode = row.text(ReadingColumn::mode);
    if (row.has(ReadingColumn::repeat)) {
        reading.repeat = row.need_whole(ReadingColumn::repeat, 1, 1000000, "a whole number from 1");
    }
    reading.time_s = row.time_s();
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

/// The depth of codes in rows that name none.
int depth_unsaid(const std::vector<PatchReading>& rows, const std::vector<RowSignal>& signals) {
    int largest = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (rows[i].codes && !signals[i].bits) {
            largest =
                std::max(largest, *std::max_element(rows[i].codes->begin(), rows[i].codes->end()));
        }
    }
    if (largest < 1 << default_bits) {
        return default_bits;
    }
    int bits = default_bits_above_255;
    while (largest >= 1 << bits) {
        ++bits;
    }
    return bits;
}

void take_signals(PatchReadingsFile& file, const std::vector<RowSignal>& signals) {
    const int unsaid = depth_unsaid(file.rows, signals);
    bool depth_taken = false;
    bool range_taken = false;
    for (std::size_t i = 0; i < file.rows.size(); ++i) {
        PatchReading& reading = file.rows[i];
        if (signals[i].level_pct) {
            const double s = *signals[i].level_pct / 100.0;
            reading.signal = std::array{s, s, s};
        }
        if (!reading.codes) {
            continue;
        }
        depth_taken = depth_taken || !signals[i].bits;
        range_taken = range_taken || signals[i].range.empty();
        reading.quantisation =
            Quantisation(signals[i].bits.value_or(unsaid),
                         signals[i].range == "limited" ? SignalRange::limited : SignalRange::full);
        reading.signal.emplace();
        for (std::size_t k = 0; k < 3; ++k) {
            (*reading.signal)[k] = reading.quantisation->signal((*reading.codes)[k]).value();
        }
    }
    if (depth_taken) {
        file.understood.push_back("No column bits: code values taken to be of " +
                                  std::to_string(unsaid) + " bits.");
    }
    if (range_taken) {
        file.understood.emplace_back("No column range: code values taken to be full range.");
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

}  // namespace

PatchReadingsFile parse_patch_readings_csv(std::string_view bytes, const std::string& source) {
    const std::string shown_source = harmless(source);
    detail::require_size(bytes.size(), largest_readings_file_bytes, shown_source,
                         "a file of readings");
    const DecodedText decoded = decode_text(bytes, shown_source);
    const Sheet sheet(decoded.text, shown_source);
    const ReadingsLayout layout =
        detail::find_readings_layout(sheet, detail::ReadingsKind::patches);
    PatchReadingsFile file{source, {}, decoded.understood, {}};
    for (const auto& sentences :
         {sheet.understood(), detail::how_readings_were_read(sheet, layout)}) {
        file.understood.insert(file.understood.end(), sentences.begin(), sentences.end());
    }
    std::vector<RowSignal> signals;
    std::string instrument;
    for (std::size_t i = layout.heading + 1; i < sheet.lines().size(); ++i) {
        if (sheet.lines()[i].comment) {
            continue;
        }
        const ReadingsRow row(sheet, layout, i);
        require_one_instrument(row, instrument);
        file.rows.push_back(read_row(row, sheet, signals.emplace_back()));
    }
    if (file.rows.empty()) {
        sheet.refuse_line(layout.heading, "a heading and no reading", "one reading a row");
    }
    take_signals(file, signals);
    file.understood.push_back(detail::counted(file.rows.size(), "reading") + " of patches.");
    warn_of_flags(file);
    return file;
}

PatchReadingsFile read_patch_readings_csv(const std::filesystem::path& file) {
    return parse_patch_readings_csv(
        detail::file_bytes(file, largest_readings_file_bytes, "a file of readings"),
        detail::source_name(file));
}

}  // namespace samelight::io
