#include "report/spectrum/page/spectrum_document.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "report/spectrum/page/spectrum_chart.hpp"
#include "report/spectrum/page/spectrum_column.hpp"
#include "report/spectrum/page/spectrum_lines.hpp"
#include "report/spectrum/page/spectrum_read.hpp"
#include "report/words/command_words.hpp"
#include "report/words/people_words.hpp"
#include "report/words/short_name.hpp"
#include "report/words/spectrum_unit.hpp"
#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/spectrum/sampling_guard.hpp"

namespace samelight::report {
namespace {

/// So many columns have a line each at once.
constexpr std::size_t most_rows = 40;

std::string file_heading(const SpectrumAnswer& answer) {
    const bool even = answer.largest_step_nm - answer.least_step_nm < 1e-6 * answer.largest_step_nm;
    return answer.source + ": " + std::to_string(answer.columns.size()) +
           (answer.columns.size() == 1 ? " light, " : " lights, ") + rounded(answer.first_nm, 4) +
           "-" + rounded(answer.last_nm, 4) + " nm by " +
           (even ? rounded(answer.least_step_nm, 2)
                 : to_text(answer.least_step_nm, 2) + " to " + to_text(answer.largest_step_nm, 2)) +
           " nm, unit " + unit_text(answer);
}

/// Warnings about one column that its line in the table names in a word or two.
constexpr std::array<std::pair<const char*, const char*>, 7> doubts = {
    {{"sampling_coarse", "sampled too coarsely"},
     {"noisy", "noisy"},
     {"clipped", "cut off at the top"},
     {"repeats_differ", "repeats differ"},
     {"lines_disagree", "lines disagree"},
     {"bandwidth_too_wide", "bandwidth too wide"},
     {"held_at_nothing", "held at nothing"}}};

std::string doubt_said(const SpectrumAnswer& answer, const assess::ColumnPart& column) {
    if (column.noise_alone) {
        return "noise around zero";
    }
    std::string said;
    for (const Warning& warning : answer.warnings) {
        const auto* named = warning.find<std::string>("column");
        const auto* known = std::find_if(doubts.begin(), doubts.end(), [&](const auto& doubt) {
            return warning.code == doubt.first;
        });
        if (named != nullptr && *named == column.name && known != doubts.end()) {
            said += (said.empty() ? "" : ", ") + std::string(known->second);
        }
    }
    return said;
}

/// The highest of a column's peaks.
const Peak* highest_peak(const assess::ColumnPart& column) {
    const auto& peaks = column.sampling.peaks;
    const auto highest =
        std::max_element(peaks.begin(), peaks.end(),
                         [](const Peak& a, const Peak& b) { return a.height < b.height; });
    return highest == peaks.end() || column.noise_alone ? nullptr : &*highest;
}

std::vector<std::string> column_row(const SpectrumAnswer& answer,
                                    const assess::ColumnPart& column) {
    std::vector<std::string> row = {short_name(column.name, 30)};
    const auto add_xy = [&](const std::vector<assess::ColumnReading>& readings) {
        const bool any = !readings.empty() && !column.noise_alone;
        row.push_back(any ? to_text(readings.front().x, 4) : "");
        row.push_back(any ? to_text(readings.front().y, 4) : "");
    };
    add_xy(column.readings);
    if (answer.bandwidth_nm || answer.shift_nm) {
        add_xy(column.correction ? column.correction->readings
                                 : std::vector<assess::ColumnReading>{});
    }
    row.push_back(column.temperature && !column.noise_alone ? to_text(column.temperature->cct_k, 0)
                                                            : "");
    const Peak* peak = highest_peak(column);
    row.push_back(peak != nullptr ? to_text(peak->nm, 1) : "");
    row.push_back(peak != nullptr && peak->width_nm > 0.0 ? to_text(peak->width_nm, 1) : "");
    if (std::any_of(answer.columns.begin(), answer.columns.end(),
                    [](const assess::ColumnPart& part) { return part.lines.has_value(); })) {
        row.push_back(column.lines && !column.noise_alone ? shift_in_short(*column.lines) : "");
    }
    row.push_back(doubt_said(answer, column));
    return row;
}

Table columns_table(const SpectrumAnswer& answer, std::size_t rows) {
    Table table{"", {{"LIGHT", Align::left}, {"x"}, {"y"}}, {}};
    if (answer.bandwidth_nm || answer.shift_nm) {
        table.columns.push_back({"RIGHT x"});
        table.columns.push_back({"y"});
    }
    table.columns.insert(table.columns.end(), {{"CCT K"}, {"PEAK nm"}, {"WIDE nm"}});
    if (std::any_of(answer.columns.begin(), answer.columns.end(),
                    [](const assess::ColumnPart& part) { return part.lines.has_value(); })) {
        table.columns.push_back({"WAVELENGTHS", Align::left});
    }
    table.columns.push_back({"DOUBT", Align::left});
    for (std::size_t i = 0; i < rows; ++i) {
        table.rows.push_back(column_row(answer, answer.columns[i]));
    }
    return table;
}

void add_columns(const SpectrumAnswer& answer, Section& section) {
    const std::size_t all = answer.columns.size();
    section.add("lights", Level::essential, columns_table(answer, std::min(all, most_rows)));
    if (all > most_rows) {
        section.add("first-lights", Level::essential,
                    Paragraph{"The first " + std::to_string(most_rows) + " of " +
                              std::to_string(all) + " lights."});
    }
}

/// Noise of samples is what was to be expected of taking a bandwidth out.
bool is_expected(const Warning& warning) { return warning.code == "noise_gain"; }

/// Of one kind so many are said at once: each light's line names its own.
constexpr int most_of_a_kind = 3;

void add_file_cautions(const SpectrumAnswer& answer, Section& section) {
    std::size_t number = 0;
    std::size_t held_back = 0;
    std::map<std::string, int> said;
    for (const Warning& warning : answer.warnings) {
        if (warning.code == "negative_noise") {
            continue;  // told by how the file was read
        }
        const bool first_screen = !is_expected(warning) && ++said[warning.code] <= most_of_a_kind;
        held_back += first_screen || is_expected(warning) ? 0 : 1;
        section.add("caution-" + std::to_string(++number),
                    first_screen ? Level::essential : Level::reason,
                    Caution{warning.code, command_sentence(warning)});
    }
    if (held_back > 0) {
        section.add("more-cautions", Level::essential,
                    Paragraph{"And " + std::to_string(held_back) + " more of these kinds."});
    }
}

Section file_section(const SpectrumAnswer& answer, const std::string& id) {
    Section section{id, file_heading(answer)};
    add_columns(answer, section);
    add_file_cautions(answer, section);
    add_how_read(answer, section);
    if (std::optional<Chart> chart = file_chart(answer)) {
        section.add("spectra", Level::reason, std::move(*chart));
    }
    return section;
}

}  // namespace

Document spectra_document(std::span<const SpectrumAnswer> files) {
    Document document{
        files.size() == 1 ? "What " + files.front().source + " holds" : "What these files hold",
        {}};
    std::size_t number = 0;
    for (const SpectrumAnswer& file : files) {
        const std::string id = "file-" + std::to_string(++number);
        document.sections.push_back(file_section(file, id));
        std::size_t column_number = 0;
        for (const assess::ColumnPart& column : file.columns) {
            document.sections.push_back(
                column_section(file, column, id + "-" + std::to_string(++column_number)));
        }
    }
    return document;
}

}  // namespace samelight::report
