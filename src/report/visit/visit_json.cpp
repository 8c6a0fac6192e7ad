#include <nlohmann/json.hpp>

#include "report/words/json_parts.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/check/visits/visit_plan.hpp"
#include "samelight/check/visits/visit_steps.hpp"
#include "samelight/check/visits/warm_up.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/check/visit_answer.hpp"
#include "samelight/spectrum/line_shift.hpp"

namespace samelight::report {
namespace {

using Json = nlohmann::ordered_json;

Json warm_up_move_json(const WarmUpMove& move) {
    return {{"change", move.change}, {"expanded_uncertainty", move.doubt}};
}

Json warm_up_json(const std::optional<WarmUp>& warm_up) {
    if (!warm_up) {
        return nullptr;
    }
    Json json = {{"verdict", code_of(warm_up->verdict)},
                 {"readings", warm_up->readings},
                 {"span_min", warm_up->span_min},
                 {"over_min", warm_up->limits.minutes},
                 {"limit_xy", warm_up->limits.xy},
                 {"limit_luminance_relative", warm_up->limits.luminance_share}};
    const bool known = warm_up->verdict != WarmUpVerdict::read_longer;
    json["x"] = known ? warm_up_move_json(warm_up->moves[0]) : Json();
    json["y"] = known ? warm_up_move_json(warm_up->moves[1]) : Json();
    json["luminance_relative"] = known ? warm_up_move_json(warm_up->moves[2]) : Json();
    json["steady_in_min"] = warm_up->wait ? Json({{"likely", warm_up->wait->likely_min},
                                                  {"least", warm_up->wait->least_min},
                                                  {"most", warm_up->wait->most_min}})
                                          : Json();
    return json;
}

Json visit_step_json(const VisitPage& answer, const VisitPlanStep& step) {
    const VisitDisplay& display = answer.visit.displays[step.display];
    Json patches = Json::array();
    for (std::size_t i = 0; i < step.readings.patches.size(); ++i) {
        const VisitPatch& patch = step.readings.patches[i];
        patches.push_back({{"patch", patch.name},
                           {"codes", codes_of(patch.signal, answer.visit.quantisation)},
                           {"window_pct", patch.window_pct},
                           {"with_reference", i < step.readings.with_reference}});
    }
    return {{"step", code_of(step.step)},
            {"display", display.name},
            {"mode", display.modes[step.mode].name},
            {"start_min", step.start_min},
            {"minutes", step.minutes},
            {"rounds", step.readings.rounds},
            {"meter_readings", step.readings.meter_readings()},
            {"reference_readings", step.readings.reference_readings()},
            {"patches", std::move(patches)}};
}

}  // namespace

std::string visit_json(const VisitPage& answer) {
    Json json = {{"schema", "samelight/visit/1"}, {"version", version}};
    json["minutes_at_hand"] = answer.visit.minutes;
    json["total_min"] = answer.plan.total_min;
    json["waiting_min"] = answer.plan.waiting_min;
    json["missing_min"] = answer.plan.missing_min;
    json["instruments"] = code_of(answer.visit.instruments);
    json["bits"] = answer.visit.quantisation.bits();
    json["range"] = answer.visit.quantisation.range() == SignalRange::full ? "full" : "limited";
    json["displays"] = Json::array();
    for (std::size_t d = 0; d < answer.visit.displays.size(); ++d) {
        Json modes = Json::array();
        for (const VisitMode& mode : answer.visit.displays[d].modes) {
            modes.push_back({{"mode", mode.name}, {"windows", mode.windows}});
        }
        json["displays"].push_back({{"display", answer.visit.displays[d].name},
                                    {"modes", std::move(modes)},
                                    {"warm_up", warm_up_json(answer.warm_ups[d])}});
    }
    json["steps"] = Json::array();
    for (const VisitPlanStep& step : answer.plan.steps) {
        json["steps"].push_back(visit_step_json(answer, step));
    }
    json["left_out"] = Json::array();
    for (const VisitLeftOut& left : answer.plan.left_out) {
        const VisitDisplay& display = answer.visit.displays[left.display];
        json["left_out"].push_back({{"what", code_of(left.what)},
                                    {"display", display.name},
                                    {"mode", display.modes[left.mode].name},
                                    {"minutes", left.minutes}});
    }
    json["lamp_lines_nm"] = mercury_lines_nm;
    json["understood"] = answer.understood;
    json["warnings"] = warnings_json(answer.warnings);
    return json_text(json);
}

}  // namespace samelight::report
