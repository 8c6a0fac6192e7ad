// The tables and charts behind an answer about gradients.
#include <algorithm>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "report/gradient/page/gradient_document.hpp"
#include "report/gradient/page/gradient_words.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::report {
namespace {

Table drive_limits_table(const GradientAnswer& answer) {
    const Adjustment& adjustment = answer.adjustment->adjustment;
    Table table{"How far each control can be driven alone before the first visible step.",
                {{"CONTROL", Align::left},
                 {"SET"},
                 {"SHOWS BEYOND"},
                 {"TRIED TO"},
                 {"FIRST SEEN", Align::left}},
                {}};
    const auto ramps = gradient_ramps(answer.bits);
    for (const DriveLimit& limit : answer.adjustment->limits) {
        const bool is_table = limit.part >= adjustment.controls().size();
        const auto words = [&](double amount) {
            return is_table ? to_text(100.0 * amount, 1) + " % of it"
                            : amount_words(adjustment.controls()[limit.part].kind, amount);
        };
        std::string where;
        if (limit.first) {
            const CodedRamp& ramp = ramps[limit.first->ramp];
            where = ramp_words(ramp.kind, ramp.hue_deg, ramp.saturation_pct) + ", " +
                    codes_words(limit.first->step.in[0]);
        }
        table.rows.push_back(
            {is_table ? "the table" : control_words(adjustment.controls()[limit.part]),
             words(limit.set), limit.first ? words(limit.limit) : "never", words(limit.end),
             where});
    }
    return table;
}

Table trade_table(const GradientAnswer& answer) {
    Table table{"The whole adjustment, taken back evenly.",
                {{"STRENGTH"},
                 {"WORST DE00"},
                 {"PATCH", Align::left},
                 {"JUMP"},
                 {"BEFORE"},
                 {"", Align::left}},
                {}};
    for (const TradePoint& point : answer.adjustment->trade.curve) {
        const RampStep& step = point.step.step;
        table.rows.push_back({to_text(100.0 * point.shares.front(), 0) + " %",
                              point.worst_de00 ? to_text(*point.worst_de00, 2) : "",
                              point.worst_de00 ? answer.colours[point.worst_colour].name : "",
                              to_text(step.gained()[1], 1), to_text(step.gained()[0], 1),
                              step.made ? "shows" : ""});
    }
    return table;
}

/// Shares of each part in what is recommended, where they aren't equal.
Table part_by_part_table(const GradientAnswer& answer, const TradePoint& best) {
    const Adjustment& adjustment = answer.adjustment->adjustment;
    Table table{"What to set.", {{"CONTROL", Align::left}, {"SET"}, {"MILDER"}}, {}};
    for (std::size_t k = 0; k < best.shares.size(); ++k) {
        if (k < adjustment.controls().size()) {
            const AdjustmentMove& move = adjustment.controls()[k];
            table.rows.push_back({control_words(move), amount_words(move.kind, move.amount),
                                  amount_words(move.kind, best.shares[k] * move.amount)});
        } else {
            table.rows.push_back({"the table", "100 %", to_text(100.0 * best.shares[k], 0) + " %"});
        }
    }
    return table;
}

Chart trade_chart(const GradientAnswer& answer) {
    Series curve{"strengths of the adjustment", {}, Ink::accent, Stroke::solid, Mark::disc};
    double most_de = 1.2 * answer.gate;
    double most_steps = 1.5;
    for (const TradePoint& point : answer.adjustment->trade.curve) {
        const double steps = std::max(0.0, point.step.step.excess);
        curve.points.push_back({*point.worst_de00, steps});
        curve.notes.push_back(point.shares.front() == 0.0   ? "none"
                              : point.shares.front() == 1.0 ? "all"
                                                            : "");
        most_de = std::max(most_de, 1.1 * *point.worst_de00);
        most_steps = std::max(most_steps, 1.1 * steps);
    }
    Plot plot{"worst DE00", "visible steps added", {0.0, most_de}, {0.0, most_steps}};
    plot.series.push_back(
        {"gate", {{answer.gate, 0.0}, {answer.gate, most_steps}}, Ink::faint, Stroke::dashed});
    plot.series.push_back({"just seen", {{0.0, 1.0}, {most_de, 1.0}}, Ink::faint, Stroke::dotted});
    plot.series.push_back(std::move(curve));
    return {"Accuracy against smoothness",
            "For each strength of the adjustment the worst colour and the most visible steps that "
            "it adds; left of the gate and below 1 is good.",
            std::move(plot)};
}

Table depths_table(const GradientAnswer& answer) {
    Table table{"The same adjustment at other depths.",
                {{"BITS"},
                 {"GREYS LOST"},
                 {"ALIKE"},
                 {"LONGEST"},
                 {"REVERSALS"},
                 {"JUMP"},
                 {"BEFORE"},
                 {"", Align::left}},
                {}};
    for (const assess::DepthFindings& depth : answer.adjustment->depths) {
        table.rows.push_back({std::to_string(depth.bits), std::to_string(depth.lost),
                              std::to_string(depth.merged), std::to_string(depth.longest_flat),
                              std::to_string(depth.reversals),
                              to_text(depth.worst.step.gained()[1], 1),
                              to_text(depth.worst.step.gained()[0], 1), depth.made ? "shows" : ""});
        if (depth.bits == answer.bits) {
            table.marked = static_cast<int>(table.rows.size()) - 1;
        }
    }
    return table;
}

std::string lost_cell(const RampFindings& ramp) {
    return std::to_string(ramp.channels[0].lost()) + " " + std::to_string(ramp.channels[1].lost()) +
           " " + std::to_string(ramp.channels[2].lost());
}

Table ramps_table(const GradientAnswer& answer) {
    Table table{"Ramp by ramp; x, y is the largest jump between neighbours.",
                {{"RAMP", Align::left},
                 {"LOST R G B"},
                 {"ALIKE"},
                 {"REVERSALS"},
                 {"x, y BEFORE"},
                 {"x, y"},
                 {"JUMP BEFORE"},
                 {"JUMP"},
                 {"MADE"}},
                {}};
    for (const RampFindings& ramp : answer.adjustment->ramps) {
        table.rows.push_back({ramp_words(ramp.kind, ramp.hue_deg, ramp.saturation_pct),
                              lost_cell(ramp), std::to_string(ramp.merged),
                              std::to_string(ramp.reversals()),
                              to_text(ramp.jump_before.distance, 4), to_text(ramp.jump.distance, 4),
                              to_text(ramp.worst.gained()[0], 1),
                              to_text(ramp.worst.gained()[1], 1), std::to_string(ramp.made)});
    }
    table.marked = static_cast<int>(answer.adjustment->worst);
    return table;
}

Chart measured_chart(const MeasuredFindings& ramp, bool measured) {
    Series before{measured ? "before" : "expected", {}, Ink::faint, Stroke::dashed, Mark::none};
    Series after{"with the adjustment", {}, Ink::accent, Stroke::solid, Mark::dot};
    double most = 1.0;
    for (std::size_t i = 0; i < ramp.steps.size(); ++i) {
        const MeasuredStep& step = ramp.steps[i];
        const double at = static_cast<double>(i + 1);
        before.points.push_back({at, step.before.largest()});
        after.points.push_back({at, step.after.largest()});
        most = std::max({most, 1.1 * step.before.largest(), 1.1 * step.after.largest()});
    }
    Plot plot{"step of the ramp",
              "visible steps",
              {0.0, static_cast<double>(ramp.steps.size() + 1)},
              {0.0, most}};
    plot.series = {std::move(before), std::move(after)};
    return {"Steps as measured",
            measured
                ? "How many visible steps lie between neighbours of the ramp, before and with "
                  "the adjustment."
                : "How many visible steps lie between neighbours of the ramp, and how many the "
                  "colours around them make expected.",
            std::move(plot)};
}

Table measured_table(const MeasuredFindings& ramp, bool measured) {
    constexpr std::size_t most = 12;
    std::vector<std::size_t> order(ramp.steps.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        order[i] = i;
    }
    std::stable_sort(order.begin(), order.end(), [&ramp](std::size_t a, std::size_t b) {
        const auto key = [&ramp](std::size_t i) {
            return std::pair(ramp.steps[i].judged, ramp.steps[i].jump);
        };
        return key(a) > key(b);
    });
    order.resize(std::min(most, order.size()));
    Table table{"The largest jumps.",
                {{"FROM R G B, %"},
                 {"TO R G B, %"},
                 {measured ? "BEFORE" : "EXPECTED"},
                 {"AFTER"},
                 {"JUMP"},
                 {"+/-"},
                 {"x, y"},
                 {"", Align::left}},
                {}};
    const auto signals = [](const RampPoint& p) {
        return to_text(100.0 * p.signal[0], 1) + " " + to_text(100.0 * p.signal[1], 1) + " " +
               to_text(100.0 * p.signal[2], 1);
    };
    for (const std::size_t i : order) {
        const MeasuredStep& step = ramp.steps[i];
        std::string said = step.verdict == StepVerdict::shows         ? "shows"
                           : step.verdict == StepVerdict::cannot_tell ? "can't tell"
                           : !step.judged                             ? "not judged"
                                                                      : "";
        said += step.reversed ? (said.empty() ? "reversed" : ", reversed") : "";
        said += step.flat ? (said.empty() ? "flat" : ", flat") : "";
        table.rows.push_back({signals(step.from), signals(step.to), steps_words(step.before),
                              steps_words(step.after), to_text(step.jump, 1),
                              to_text(step.expanded, 1), to_text(step.xy_jump, 4), said});
    }
    return table;
}

}  // namespace

Section gradient_controls_section(const GradientAnswer& answer) {
    Section section{"controls", "How mild it may be"};
    section.heading_level = Level::reason;
    section.add("limits", Level::reason, drive_limits_table(answer));
    const TradePoint* best = answer.adjustment->trade.best();
    if (best != nullptr) {
        section.add("milder", Level::reason, part_by_part_table(answer, *best));
    }
    if (!answer.colours.empty()) {
        section.add("trade-chart", Level::reason, trade_chart(answer));
    }
    section.add("trade", Level::reason, trade_table(answer));
    return section;
}

Section gradient_codes_section(const GradientAnswer& answer) {
    Section section{"codes", "What becomes of the codes"};
    section.heading_level = Level::reason;
    section.add("depths", Level::reason, depths_table(answer));
    section.add("ramps", Level::detail, ramps_table(answer));
    return section;
}

Section gradient_measured_section(const GradientAnswer& answer) {
    Section section{"measured", "As measured"};
    section.heading_level = Level::reason;
    std::size_t number = 0;
    for (const MeasuredFindings& ramp : answer.measured->ramps) {
        const std::string name = std::to_string(++number);
        section.add(
            "ramp-" + name, Level::reason,
            Paragraph{std::string(ramp.kind == StepKind::grey ? "Greys: " : "Colours: ") +
                      std::to_string(ramp.steps.size()) + " steps, " + std::to_string(ramp.flat) +
                      " of them gone flat (" + std::to_string(ramp.longest_flat) + " in a row), " +
                      std::to_string(ramp.reversals) + " reversed."});
        section.add("chart-" + name, Level::reason,
                    measured_chart(ramp, answer.measured->before_measured));
        section.add("steps-" + name, Level::reason,
                    measured_table(ramp, answer.measured->before_measured));
    }
    return section;
}

}  // namespace samelight::report
