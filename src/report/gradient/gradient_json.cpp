#include <nlohmann/json.hpp>

#include <string>
#include <vector>

#include "report/words/json_parts.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/check/gradient_answer.hpp"

namespace samelight::report {
namespace {

using GradientJson = nlohmann::ordered_json;

GradientJson step_json(const VisibleStep& step) {
    return {{"luminance_steps", step.luminance}, {"colour_steps", step.colour}};
}

GradientJson ramp_step_json(const RampStep& step) {
    return {{"index", step.index},
            {"codes_in", step.in},
            {"codes_out", step.out},
            {"before", step_json(step.before)},
            {"after", step_json(step.after)},
            {"excess_steps", step.excess},
            {"made_by_adjustment", step.made},
            {"xyz_cd_m2", step.xyz}};
}

GradientJson ramp_json(const RampFindings& ramp) {
    GradientJson channels = GradientJson::array();
    for (const ChannelCodes& channel : ramp.channels) {
        channels.push_back({{"codes_in", channel.in},
                            {"codes_out", channel.out},
                            {"lost", channel.lost()},
                            {"reversals", channel.reversals}});
    }
    return {{"ramp", code_of(ramp.kind)},
            {"hue_deg", ramp.hue_deg},
            {"saturation_percent", ramp.saturation_pct},
            {"channels", std::move(channels)},
            {"neighbours_alike", ramp.merged},
            {"longest_flat_run", {{"colours", ramp.flat.length}, {"index", ramp.flat.index}}},
            {"xy_jump_before",
             {{"distance_xy", ramp.jump_before.distance}, {"index", ramp.jump_before.index}}},
            {"xy_jump", {{"distance_xy", ramp.jump.distance}, {"index", ramp.jump.index}}},
            {"steps_made", ramp.made},
            {"largest_step", ramp_step_json(ramp.largest)},
            {"worst_step", ramp_step_json(ramp.worst)}};
}

GradientJson move_json(const AdjustmentMove& move) {
    GradientJson json = {{"control", code_of(move.kind)}};
    if (is_of_hue(move.kind)) {
        json["hue_deg"] = move.hue_deg;
        json["half_width_deg"] = move.half_width_deg;
    } else {
        json["channel"] = code_of(move.channel);
        if (move.kind == MoveKind::point) {
            json["level_percent"] = move.level_pct;
        }
    }
    json[move.kind == MoveKind::hue ? "amount_deg" : "amount_percent"] = move.amount;
    return json;
}

GradientJson limit_json(const DriveLimit& limit, const Adjustment& adjustment) {
    GradientJson json = limit.part < adjustment.controls().size()
                            ? move_json(adjustment.controls()[limit.part])
                            : GradientJson({{"control", "table"}});
    json["set"] = limit.set;
    json["shows_beyond"] = limit.first ? GradientJson(limit.limit) : GradientJson();
    json["tried_to"] = limit.end;
    json["first_step"] = limit.first ? GradientJson({{"ramp_index", limit.first->ramp},
                                                     {"step", ramp_step_json(limit.first->step)}})
                                     : GradientJson();
    return json;
}

GradientJson point_json(const TradePoint& point, const GradientAnswer& answer) {
    return {{"shares", point.shares},
            {"worst_de00", point.worst_de00 ? GradientJson(*point.worst_de00) : GradientJson()},
            {"worst_patch", point.worst_de00 ? GradientJson(answer.colours[point.worst_colour].name)
                                             : GradientJson()},
            {"ramp_index", point.step.ramp},
            {"worst_step", ramp_step_json(point.step.step)}};
}

GradientJson adjustment_json(const GradientAnswer& answer) {
    const assess::AdjustmentFindings& found = *answer.adjustment;
    const auto maybe = [&answer](const std::optional<TradePoint>& point) {
        return point ? point_json(*point, answer) : GradientJson();
    };
    GradientJson json = {{"file", answer.adjustment_file},
                         {"shows", found.shows()},
                         {"worst_ramp_index", found.worst}};
    for (const assess::DepthFindings& depth : found.depths) {
        json["depths"].push_back({{"bits", depth.bits},
                                  {"shows", depth.made},
                                  {"greys_lost", depth.lost},
                                  {"neighbours_alike", depth.merged},
                                  {"longest_flat_run", depth.longest_flat},
                                  {"reversals", depth.reversals},
                                  {"worst_step", ramp_step_json(depth.worst.step)}});
    }
    for (const RampFindings& ramp : found.ramps) {
        json["ramps"].push_back(ramp_json(ramp));
    }
    for (const DriveLimit& limit : found.limits) {
        json["controls"].push_back(limit_json(limit, found.adjustment));
    }
    const TradePoint* best = found.trade.best();
    json["set_to"] = best != nullptr ? point_json(*best, answer) : GradientJson();
    json["mildest"] = maybe(found.trade.mildest);
    json["part_by_part"] = maybe(found.trade.part_by_part);
    json["free"] = point_json(found.trade.free, answer);
    for (const TradePoint& point : found.trade.curve) {
        json["trade_off"].push_back(point_json(point, answer));
    }
    return json;
}

GradientJson measured_json(const assess::MeasuredGradients& measured) {
    GradientJson json = {{"noise_relative", measured.noise},
                         {"noise_from", measured.noise_known ? "repeats" : "assumed"},
                         {"before", measured.before_measured ? "measured" : "neighbours"},
                         {"worst_ramp_index", measured.worst}};
    for (const MeasuredFindings& ramp : measured.ramps) {
        GradientJson steps = GradientJson::array();
        for (const MeasuredStep& step : ramp.steps) {
            steps.push_back({{"from_signal", step.from.signal},
                             {"to_signal", step.to.signal},
                             {"from_xyz_cd_m2", step.from.xyz},
                             {"to_xyz_cd_m2", step.to.xyz},
                             {"before", step_json(step.before)},
                             {"after", step_json(step.after)},
                             {"jump_steps", step.jump},
                             {"expanded_uncertainty_steps", step.expanded},
                             {"judged", step.judged},
                             {"verdict", code_of(step.verdict)},
                             {"reversed", step.reversed},
                             {"flat", step.flat},
                             {"distance_xy", step.xy_jump}});
        }
        json["ramps"].push_back({{"kind", ramp.kind == StepKind::grey ? "grey" : "colour"},
                                 {"verdict", code_of(ramp.verdict)},
                                 {"worst_step_index", ramp.worst},
                                 {"reversals", ramp.reversals},
                                 {"flat_steps", ramp.flat},
                                 {"longest_flat_run", ramp.longest_flat},
                                 {"steps_not_judged", ramp.unjudged},
                                 {"steps", std::move(steps)}});
    }
    return json;
}

}  // namespace

std::string gradient_json(const GradientAnswer& answer) {
    GradientJson json = {{"schema", "samelight/gradient/1"}, {"version", version}};
    json["verdict"] = code_of(answer.verdict);
    json["by"] = answer.by_measurement ? "measurement" : "calculation";
    json["bits"] = answer.bits;
    json["gate_de00"] = answer.gate;
    json["curve"] = code_of(answer.curve.kind);
    json["white_cd_m2"] = answer.curve.white_cd_m2;
    json["black_cd_m2"] = answer.curve.black_cd_m2;
    json["patches"] = answer.colours.size();
    json["patches_read"] =
        answer.colours.empty() ? GradientJson() : GradientJson(code_of(answer.colours_read));
    json["adjustment"] = answer.adjustment ? adjustment_json(answer) : GradientJson();
    json["measured"] = answer.measured ? measured_json(*answer.measured) : GradientJson();
    json["understood"] = answer.understood;
    json["warnings"] = warnings_json(answer.warnings);
    return json_text(json);
}

}  // namespace samelight::report
