// Reading of files of an adjustment.
#include "samelight/io/adjustment_csv.hpp"
#include "samelight/io/text_decoding.hpp"
#include "samelight/io/text_for_people.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <utility>

#include "io/files/file_bytes.hpp"
#include "io/readings/adjustment_cells.hpp"

namespace samelight::io {
namespace {

using detail::AdjustmentCells;

constexpr std::size_t most_controls = 200;
constexpr std::uintmax_t largest_adjustment = std::uintmax_t{64} << 20U;
constexpr const char* heading_wanted =
    "control, amount and channel, level_pct, hue, half_width_deg; or r_in, g_in, b_in, r_out, g_out, b_out";

/// Which of these words a cell is; absent for another.
template <std::size_t N>
std::optional<std::size_t> word_of(std::string_view cell, const std::array<const char*, N>& words) {
    const std::string own = detail::folded(cell);
    const auto* const found =
        std::find_if(words.begin(), words.end(), [&own](const char* word) { return own == word; });
    return found == words.end() ? std::nullopt
                                : std::optional(static_cast<std::size_t>(found - words.begin()));
}

void refuse_where_filled(const AdjustmentCells& row, const std::string& column,
                         const std::string& why) {
    if (!row.text(column).empty()) {
        row.refuse(column, detail::shown(row.text(column)), "nothing here: " + why);
    }
}

double hue_of_cell(const AdjustmentCells& row) {
    constexpr std::array<const char*, 6> hues = {"red",  "yellow", "green",
                                                 "cyan", "blue",   "magenta"};
    if (const auto named = word_of(row.text("hue"), hues)) {
        return 60.0 * static_cast<double>(*named);
    }
    return row.number("hue", -360.0, 360.0,
                      "red, yellow, green, cyan, blue, magenta, or degrees of -360 to 360");
}

AdjustmentMove control_of_row(const AdjustmentCells& row) {
    constexpr std::array<const char*, 6> kinds = {"gain",       "offset", "point",
                                                  "saturation", "hue",    "lightness"};
    constexpr std::array<const char*, 4> channels = {"red", "green", "blue", "all"};
    AdjustmentMove control;
    const auto kind = word_of(row.text("control"), kinds);
    if (!kind) {
        row.refuse("control",
                   row.text("control").empty() ? "no control" : detail::shown(row.text("control")),
                   "gain, offset, point, saturation, hue or lightness");
    }
    control.kind = static_cast<MoveKind>(*kind);
    const bool turns = control.kind == MoveKind::hue;
    control.amount = row.number(
        "amount", turns ? -180.0 : -1000.0, turns ? 180.0 : 1000.0,
        turns ? "an amount of -180 to 180 degrees" : "an amount of -1000 to 1000 per cent");
    if (is_of_hue(control.kind)) {
        refuse_where_filled(row, "channel", "a control of a hue");
        refuse_where_filled(row, "level_pct", "a control of a hue");
        control.hue_deg = hue_of_cell(row);
        if (!row.text("half_width_deg").empty()) {
            control.half_width_deg =
                row.number("half_width_deg", 1.0, 180.0, "a half width of 1 to 180 degrees");
        }
        return control;
    }
    refuse_where_filled(row, "hue", "a control of a channel");
    refuse_where_filled(row, "half_width_deg", "a control of a channel");
    if (!row.text("channel").empty()) {
        const auto channel = word_of(row.text("channel"), channels);
        if (!channel) {
            row.refuse("channel", detail::shown(row.text("channel")), "red, green, blue or all");
        }
        control.channel = static_cast<MoveChannel>(*channel);
    }
    if (control.kind == MoveKind::point) {
        control.level_pct = row.number("level_pct", 0.0, 100.0, "a level of 0 to 100 per cent");
    } else {
        refuse_where_filled(row, "level_pct", "no point of a list");
    }
    return control;
}

bool of_one_point(const AdjustmentMove& a, const AdjustmentMove& b) {
    return a.kind == MoveKind::point && b.kind == MoveKind::point && a.level_pct == b.level_pct &&
           (a.channel == b.channel || a.channel == MoveChannel::all ||
            b.channel == MoveChannel::all);
}

Adjustment controls_of(AdjustmentCells& rows) {
    for (const char* column : {"control", "amount"}) {
        if (!rows.has_column(column)) {
            rows.sheet().refuse_line(rows.line(), std::string("no column ") + column,
                                     heading_wanted);
        }
    }
    std::vector<AdjustmentMove> controls;
    while (rows.next()) {
        const AdjustmentMove control = control_of_row(rows);
        if (std::any_of(controls.begin(), controls.end(),
                        [&control](const AdjustmentMove& c) { return of_one_point(c, control); })) {
            rows.refuse("level_pct", "a second point at this level",
                        "each level of a channel once");
        }
        if (controls.size() == most_controls) {
            rows.sheet().refuse_line(rows.line(), "more than 200 controls", "at most 200");
        }
        controls.push_back(control);
    }
    if (controls.empty()) {
        rows.sheet().refuse_file("no row below the heading", "a row for each control");
    }
    return Adjustment(std::move(controls));
}

struct TableRow {
    std::array<double, 3> in{}, out{};
    std::size_t line = 0;
};

std::vector<TableRow> table_rows(AdjustmentCells& rows) {
    constexpr std::size_t most_rows = std::size_t{58} * 58 * 58;
    constexpr std::array<const char*, 6> columns = {"r_in",  "g_in",  "b_in",
                                                    "r_out", "g_out", "b_out"};
    for (const char* column : columns) {
        if (!rows.has_column(column)) {
            rows.sheet().refuse_line(rows.line(), std::string("no column ") + column,
                                     heading_wanted);
        }
    }
    std::vector<TableRow> table;
    while (rows.next()) {
        TableRow row;
        for (std::size_t k = 0; k < 6; ++k) {
            const double value =
                rows.number(columns.at(k), 0.0, 65535.0, "a signal or a code, 0 or more");
            (k < 3 ? row.in : row.out).at(k % 3) = value;
        }
        row.line = rows.line();
        if (table.size() == most_rows) {
            rows.sheet().refuse_line(rows.line(), "more rows than a table of 58 on a side has",
                                     "at most 58 nodes on a side");
        }
        table.push_back(row);
    }
    return table;
}

Adjustment table_of(AdjustmentCells& cells, TableReading reading,
                    std::vector<std::string>& understood) {
    const std::vector<TableRow> rows = table_rows(cells);
    const auto nodes =
        static_cast<std::size_t>(std::llround(std::cbrt(static_cast<double>(rows.size()))));
    if (nodes < 2 || nodes * nodes * nodes != rows.size()) {
        cells.sheet().refuse_file(std::to_string(rows.size()) + " rows of a table",
                                  "as many as a grid has: 8, 27, ... 195112");
    }
    double full = 0.0;
    for (const TableRow& row : rows) {
        full = std::max({full, row.in[0], row.in[1], row.in[2]});
    }
    if (!(full > 0.0)) {
        cells.sheet().refuse_file("a table of black alone", "nodes from no signal to full");
    }
    SignalTable table{nodes, std::vector<std::array<double, 3>>(rows.size()), reading};
    std::vector<bool> filled(rows.size(), false);
    const double last = static_cast<double>(nodes - 1);
    for (const TableRow& row : rows) {
        std::size_t index = 0;
        for (const double in : row.in) {
            const double node = std::round(in / full * last);
            // Codes are whole: half of one off, and the last digit of signals.
            const double off = full > 1.0 ? 0.5 : 1e-4;
            if (std::abs(in - node / last * full) > off * (1.0 + 1e-9)) {
                cells.sheet().refuse_line(
                    row.line, "a node at " + detail::rough_text(in),
                    "nodes evenly spread, " + std::to_string(nodes) + " on a side");
            }
            index = index * nodes + static_cast<std::size_t>(node);
        }
        if (filled[index]) {
            cells.sheet().refuse_line(row.line, "a second row of one node", "each node once");
        }
        filled[index] = true;
        for (std::size_t k = 0; k < 3; ++k) {
            table.out[index].at(k) = std::min(1.0, row.out.at(k) / full);
        }
    }
    understood.push_back(
        "A table of colours, " + std::to_string(nodes) + " nodes on a side, full signal " +
        detail::rough_text(full) + "; read between them " +
        (reading == TableReading::trilinear ? "by eight corners." : "by tetrahedra."));
    return Adjustment({}, std::move(table));
}

}  // namespace

AdjustmentFile parse_adjustment_csv(std::string_view bytes, const std::string& source,
                                    TableReading reading) {
    const std::string shown_source = harmless(source);
    DecodedText decoded = decode_text(bytes, shown_source);
    const detail::Sheet sheet(decoded.text, shown_source, "an adjustment");
    AdjustmentCells cells(sheet, detail::habits_of(sheet));
    cells.read_heading({"control", "amount", "channel", "level_pct", "hue", "half_width_deg",
                        "r_in", "g_in", "b_in", "r_out", "g_out", "b_out"},
                       heading_wanted);
    AdjustmentFile result{source, Adjustment(), std::move(decoded.understood)};
    result.adjustment = cells.has_column("control") ? controls_of(cells)
                                                    : table_of(cells, reading, result.understood);
    return result;
}

AdjustmentFile read_adjustment_csv(const std::filesystem::path& file, TableReading reading) {
    return parse_adjustment_csv(
        detail::file_bytes(file.string(), largest_adjustment, "an adjustment"),
        detail::source_name(file.string()), reading);
}

}  // namespace samelight::io
