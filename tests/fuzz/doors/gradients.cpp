// Any adjustments, tables and ramps of readings: refused in one line, or signals of 0 to 1, finite steps, and the same twice.
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "doors/calculators.hpp"
#include "samelight/check/gradients/coded_ramp.hpp"
#include "samelight/check/gradients/measured_ramp.hpp"

namespace {

using namespace samelight;
using fuzz::demand;
using fuzz::Drawn;

std::vector<AdjustmentMove> drawn_moves(Drawn& drawn) {
    std::vector<AdjustmentMove> moves(drawn.count(6));
    for (AdjustmentMove& move : moves) {
        move.kind = static_cast<MoveKind>(drawn.count(5));
        move.channel = static_cast<MoveChannel>(drawn.count(3));
        move.level_pct = drawn.number(0.0, 100.0);
        move.hue_deg = drawn.number(-30.0, 390.0);
        move.half_width_deg = drawn.number(1.0, 180.0);
        move.amount = drawn.number(-60.0, 60.0);
    }
    return moves;
}

std::optional<SignalTable> drawn_table(Drawn& drawn) {
    if (!drawn.one_in(2)) return {};
    SignalTable table;
    table.nodes = 2 + drawn.count(2);
    table.reading = drawn.one_in(2) ? TableReading::trilinear : TableReading::tetrahedral;
    const std::size_t n = table.nodes * table.nodes * table.nodes + (drawn.one_in(16) ? 1 : 0);
    for (std::size_t i = 0; i < n; ++i) {
        table.out.push_back(
            {drawn.number(0.0, 1.0), drawn.number(0.0, 1.0), drawn.number(0.0, 1.0)});
    }
    return table;
}

void ask_adjustment(Drawn& drawn) {
    const std::vector<AdjustmentMove> moves = drawn_moves(drawn);
    const std::optional<SignalTable> table = drawn_table(drawn);
    const auto made = fuzz::or_refused([&] { return Adjustment(moves, table); });
    if (!made) return;
    for (int i = 0; i < 8; ++i) {
        const std::array<double, 3> in = {drawn.number(0.0, 1.0), drawn.number(0.0, 1.0),
                                          drawn.number(0.0, 1.0)};
        const std::array<double, 3> out = made->apply(in);
        const bool numbers = std::isfinite(in[0]) && std::isfinite(in[1]) && std::isfinite(in[2]);
        for (const double signal : out) {
            demand(!numbers || (signal >= 0.0 && signal <= 1.0), "signals of 0 to 1");
        }
        if (numbers) demand(out == made->apply(in), "the same signals twice");
    }
    const double share = drawn.number(0.0, 1.0);
    fuzz::or_refused([&] { return made->scaled(share).parts(); });
}

/// The ramps of 8 bits on one display: what all adjustments share is worked out once.
const RampSet& ramps() {
    static const RampSet set(
        CodedDisplay(IntendedDisplay(RgbEncoding::of<Bt709>(), SignalCurve(CurveOptions{})), 8));
    return set;
}

void ask_ramps(Drawn& drawn) {
    const std::vector<AdjustmentMove> moves = drawn_moves(drawn);
    const auto made = fuzz::or_refused([&] { return Adjustment(moves, drawn_table(drawn)); });
    if (!made) return;
    const WorstStep worst = ramps().worst(*made);
    const std::vector<RampFindings> findings = ramps().findings(*made);
    double largest = 0.0;
    for (const RampFindings& found : findings) {
        fuzz::demand_numbers(std::array{found.worst.excess, found.largest.after.luminance,
                                        found.largest.after.colour, found.jump.distance},
                             "a ramp");
        for (const ChannelCodes& channel : found.channels) {
            demand(channel.out <= 256 && channel.in <= 256, "no more codes than there are");
        }
        largest = std::fmax(largest, found.worst.excess);
    }
    fuzz::demand_number(worst.step.excess, "the worst step");
    // What says the worst alone and what says all of it must agree (coded_ramp.hpp).
    demand(!(largest > 0.0) || std::abs(worst.step.excess - largest) <= 1e-9 * largest ||
               worst.step.made,
           "the worst of all ramps is the largest of them");
}

void ask_measured(Drawn& drawn) {
    const auto display = fuzz::drawn_display(drawn);
    if (!display) return;
    const std::vector<PatchReading> readings = fuzz::drawn_readings(drawn, *display, true);
    const auto ramps = fuzz::or_refused([&] { return measured_ramps(readings); });
    if (!ramps) return;
    fuzz::demand_number(ramps->noise, "scatter");
    for (const MeasuredRamp& ramp : ramps->ramps) {
        const auto found = fuzz::or_refused(
            [&] { return judge_measured_ramp(ramp, ramps->noise, nullptr, *display); });
        if (!found) continue;
        demand(found->worst < found->steps.size(), "a worst step that is one");
        for (const MeasuredStep& step : found->steps) {
            if (!step.judged) continue;
            fuzz::demand_numbers(std::array{step.jump, step.expanded}, "a measured step");
            demand(step.expanded >= 0.0, "an uncertainty that is one");
        }
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Drawn drawn(data, size);
    switch (drawn.count(2)) {
        case 0:
            ask_adjustment(drawn);
            break;
        case 1:
            ask_ramps(drawn);
            break;
        default:
            ask_measured(drawn);
            break;
    }
    return 0;
}
