#include <array>
#include <string>

#include <nlohmann/json.hpp>

#include "report/words/json_parts.hpp"
#include "samelight/check/adjusting/control.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/check/adjust_answer.hpp"

namespace samelight::report {
namespace {

using AdjustJson = nlohmann::ordered_json;

AdjustJson control_json(const Control& control) {
    return {{"control", name_of(control)},
            {"channel", code_of(control.channel)},
            {"kind", code_of(control.kind)},
            {"level_pct", control.kind == ControlKind::point ? AdjustJson(100.0 * control.level)
                                                             : AdjustJson(nullptr)}};
}

AdjustJson xyY_json(const std::array<double, 3>& xyY) {
    return {{"x", number_json(xyY[0])}, {"y", number_json(xyY[1])}, {"Y_cd_m2", xyY[2]}};
}

AdjustJson grey_json(const PlannedGrey& grey) {
    return {
        {"level_pct", 100.0 * grey.level},
        {"read", xyY_json(grey.read)},
        {"intended", xyY_json(grey.intended)},
        {"after", xyY_json(grey.after)},
        {"doubt_95", {{"x", grey.doubt[0]}, {"y", grey.doubt[1]}, {"Y_relative", grey.doubt[2]}}},
        {"off_read_xy", grey.off_read},
        {"off_after_xy", grey.off_after},
        {"too_dark", grey.too_dark}};
}

AdjustJson reply_json(const ControlReply& reply) {
    AdjustJson json = control_json(reply.control);
    AdjustJson levels = AdjustJson::array();
    for (const double level : reply.levels) {
        levels.push_back(100.0 * level);
    }
    json["measured"] = reply.measured();
    json["answers"] = reply.answers;
    json["levels_read_pct"] = std::move(levels);
    json["step"] = {{"at_level_pct", 100.0 * reply.step_level},
                    {"delta_x", reply.step_xy[0]},
                    {"delta_y", reply.step_xy[1]}};
    json["drive_top_per_step"] = reply.top;
    json["drive_bottom_per_step"] = reply.bottom;
    json["least_steps"] = reply.least ? AdjustJson(*reply.least) : AdjustJson(nullptr);
    json["most_steps"] = reply.most ? AdjustJson(*reply.most) : AdjustJson(nullptr);
    return json;
}

AdjustJson point_json(const PlannedPoint& point) {
    return {
        {"level_pct", 100.0 * point.level},
        {"need", code_of(point.need)},
        {"off_read_xy", point.off_read},
        {"off_without_xy", point.off_without},
        {"off_with_xy", point.off_with},
        {"doubt_95_xy", point.doubt},
        {"steps", {{"red", point.steps[0]}, {"green", point.steps[1]}, {"blue", point.steps[2]}}},
        {"at_end", point.at_end},
        {"interpolated", point.interpolated}};
}

}  // namespace

std::string adjust_json(const AdjustAnswer& answer) {
    AdjustJson json = {{"schema", "samelight/adjust/1"}, {"version", version}};
    json["verdict"] = code_of(answer.verdict);
    json["steps"] = AdjustJson::array();
    for (const PlannedStep& step : answer.plan.steps) {
        AdjustJson one = control_json(step.control);
        one["steps"] = step.steps;
        one["wanted_steps"] = step.wanted;
        one["at_end"] = step.at_end;
        json["steps"].push_back(std::move(one));
    }
    json["moved_then"] = answer.moved_then;
    json["white"] = grey_json(answer.white());
    json["luminance_ratio"] = answer.plan.luminance_ratio;
    json["out_of_reach_xy"] = answer.plan.out_of_reach_xy ? AdjustJson(*answer.plan.out_of_reach_xy)
                                                          : AdjustJson(nullptr);
    json["largest_step_xy"] = answer.plan.largest_step_xy;
    json["smallest_step_xy"] = answer.plan.smallest_step_xy;
    for (const char* list : {"greys", "points", "controls"}) {
        json[list] = AdjustJson::array();
    }
    for (const PlannedGrey& grey : answer.plan.greys) {
        json["greys"].push_back(grey_json(grey));
    }
    for (const PlannedPoint& point : answer.points) {
        json["points"].push_back(point_json(point));
    }
    for (const ControlReply& reply : answer.replies) {
        json["controls"].push_back(reply_json(reply));
    }
    json["no_answer"] = AdjustJson::array();
    for (const Control& control : answer.no_answer) {
        json["no_answer"].push_back(name_of(control));
    }
    json["controls_read"] = answer.controls_read;
    json["point_controls_read"] = answer.point_controls_read;
    json["counted_from_greys"] = answer.counted_from_greys;
    json["reading_noise"] = {{"relative", answer.noise.relative},
                             {"luminance_relative", answer.noise.luminance},
                             {"floor_cd_m2", answer.noise.floor_cd_m2},
                             {"repeats", answer.noise.repeats}};
    json["black_read"] = answer.black_read;
    json["left_out"] = answer.left_out;
    json["intended"] = {{"encoding", answer.encoding},
                        {"curve", code_of(answer.curve.kind)},
                        {"white_chosen", answer.white_chosen}};
    json["corrected"] = answer.corrected;
    json["understood"] = answer.understood;
    json["warnings"] = warnings_json(answer.warnings);
    return json_text(json);
}

}  // namespace samelight::report
