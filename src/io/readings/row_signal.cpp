#include "io/readings/row_signal.hpp"

#include <algorithm>
#include <array>

#include "io/text/words.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/colour/signals/signal.hpp"

namespace samelight::io::detail {

namespace {

constexpr int default_bits = 8;
constexpr int default_bits_above_255 = 10;

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

double level_in_cell(const ReadingsRow& row, ReadingColumn column) {
    const double level = row.need(column, "a level in per cent of the signal");
    if (!(level >= 0.0 && level <= 109.0)) {
        row.refuse(column, shown(row.cell(column)), "0 to 109 per cent of the signal");
    }
    return level;
}

/// Of level_pct all three, or of r_pct, g_pct, b_pct each.
std::optional<std::array<double, 3>> per_cent_of(const ReadingsRow& row) {
    const bool level = row.has(ReadingColumn::level_pct);
    const bool each = row.has(ReadingColumn::r_pct);
    if (level && each) {
        row.refuse(ReadingColumn::level_pct, "a level beside r_pct, g_pct, b_pct",
                   "one of the two");
    }
    if (level) {
        const double s = level_in_cell(row, ReadingColumn::level_pct);
        return std::array{s, s, s};
    }
    if (!each) {
        return {};
    }
    return std::array{level_in_cell(row, ReadingColumn::r_pct),
                      level_in_cell(row, ReadingColumn::g_pct),
                      level_in_cell(row, ReadingColumn::b_pct)};
}

}  // namespace

RowSignal read_signal(const ReadingsRow& row, PatchReading& to) {
    RowSignal signal{row.bits(), row.range(), {}};
    to.codes = row.code_values(signal.bits);
    signal.per_cent = per_cent_of(row);
    if (to.codes && signal.per_cent) {
        row.refuse(
            row.has(ReadingColumn::level_pct) ? ReadingColumn::level_pct : ReadingColumn::r_pct,
            "a level beside code values", "one of the two");
    }
    if (to.patch.empty() && !to.codes && !signal.per_cent) {
        row.refuse(ReadingColumn::patch, "no patch, no code values and no level", "what was shown");
    }
    return signal;
}

void take_signals(const std::vector<RowSignal>& signals, std::vector<PatchReading>& rows,
                  std::vector<std::string>& understood, const UnsaidCodes& unsaid) {
    const int bits = std::max(depth_unsaid(rows, signals), unsaid.bits);
    bool depth_taken = false;
    bool range_taken = false;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        PatchReading& reading = rows[i];
        if (const auto& per_cent = signals[i].per_cent) {
            reading.signal =
                std::array{(*per_cent)[0] / 100.0, (*per_cent)[1] / 100.0, (*per_cent)[2] / 100.0};
        }
        if (!reading.codes) {
            continue;
        }
        depth_taken = depth_taken || !signals[i].bits;
        range_taken = range_taken || signals[i].range.empty();
        reading.quantisation = Quantisation(signals[i].bits.value_or(bits),
                                            signals[i].range.empty()        ? unsaid.range
                                            : signals[i].range == "limited" ? SignalRange::limited
                                                                            : SignalRange::full);
        reading.signal.emplace();
        for (std::size_t k = 0; k < 3; ++k) {
            (*reading.signal)[k] = reading.quantisation->signal((*reading.codes)[k]).value();
        }
    }
    if (depth_taken) {
        understood.push_back("No column bits: code values taken to be of " + std::to_string(bits) +
                             " bits.");
    }
    if (range_taken) {
        understood.emplace_back(unsaid.range == SignalRange::full
                                    ? "No column range: code values taken to be full range."
                                    : "No column range: code values taken to be limited range.");
    }
}

}  // namespace samelight::io::detail
