#include <nlohmann/json.hpp>

#include "report/words/json_parts.hpp"
#include "samelight/check/visits/ageing.hpp"
#include "samelight/check/visits/target_life.hpp"
#include "samelight/check/visits/visit_lights.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/check/compare_answer.hpp"

namespace samelight::report {
namespace {

using Json = nlohmann::ordered_json;

Json told_change_json(const Change& change) {
    return {
        {"change", change.value}, {"expanded_uncertainty", change.doubt}, {"told", change.told()}};
}

Json told_xy_json(const XyChange& change) {
    return {{"x", told_change_json(change.x)}, {"y", told_change_json(change.y)}};
}

Json likely_range_json(const LikelyRange& range) {
    return {{"likely", range.likely}, {"least", range.least}, {"most", range.most}};
}

Json or_null(const std::optional<double>& value) { return value ? Json(*value) : Json(); }

Json meter_apart_json(const std::optional<MeterApart>& apart) {
    if (!apart) {
        return nullptr;
    }
    return {{"meter_white_xy", told_xy_json(apart->meter)},
            {"meter_white_log_luminance", told_change_json(apart->meter_log_luminance)},
            {"display_white_xy", told_xy_json(apart->display)},
            {"display_white_log_luminance", told_change_json(apart->display_log_luminance)}};
}

Json compared_emitters_json(const ComparePage& answer) {
    Json emitters = Json::array();
    for (std::size_t k = 0; k < 3; ++k) {
        const LightChange& light = answer.ageing.emitters[k];
        emitters.push_back({{"emitter", code_of(static_cast<VisitLight>(k))},
                            {"log_luminance", told_change_json(light.log_luminance)},
                            {"log_luminance_against_best", told_change_json(light.against_best)},
                            {"xy", told_xy_json(light.xy)},
                            {"moved_nm", answer.moved_nm ? Json((*answer.moved_nm)[k]) : Json()}});
    }
    return emitters;
}

Json compared_white_json(const ComparePage& answer) {
    const Ageing& a = answer.ageing;
    return {{"then_xy", answer.white_then},
            {"now_xy", answer.white_now},
            {"target_xy", answer.target},
            {"target_from", answer.target_named ? "named" : "then"},
            {"xy", told_xy_json(a.white.xy)},
            {"log_luminance", told_change_json(a.white.log_luminance)},
            {"by_emitters_xy", a.parts.known ? told_xy_json(a.parts.emitters) : Json()},
            {"by_meter_channels_xy", told_xy_json(a.parts.channels)},
            {"rest_xy", a.parts.known ? told_xy_json(a.parts.rest) : Json()}};
}

Json horizon_json(const std::optional<Horizon>& horizon) {
    return horizon ? Json({{"likely", or_null(horizon->likely)},
                           {"least", or_null(horizon->least)},
                           {"most", or_null(horizon->most)}})
                   : Json();
}

Json white_light_json(const assess::WhiteLight& light) {
    return {{"changed", light.changed},
            {"log_luminance", told_change_json(light.log_luminance)},
            {"owner", code_of(light.owner)},
            {"limit_relative", assess::WhiteLight::limit}};
}

Json correction_life_json(const std::optional<assess::CorrectionLife>& life) {
    return life ? Json({{"of", life->of_now ? "now" : "then"},
                        {"limit_xy", assess::CorrectionLife::limit_xy},
                        {"months_left", horizon_json(life->months)},
                        {"spans_left", horizon_json(life->spans)}})
                : Json();
}

Json target_life_json(const TargetLife& life) {
    Json json = {{"limit_uv", life.limit_uv},
                 {"distance_then_uv", likely_range_json(life.distance_then)},
                 {"distance_now_uv", likely_range_json(life.distance_now)}};
    json["rate_uv_per_year"] = life.rate_per_year ? likely_range_json(*life.rate_per_year) : Json();
    json["months_left"] = horizon_json(life.months);
    json["months_if_set_now"] = horizon_json(life.months_if_set);
    json["spans_left"] = horizon_json(life.spans);
    json["spans_if_set_now"] = horizon_json(life.spans_if_set);
    return json;
}

}  // namespace

std::string compare_json(const ComparePage& answer) {
    const Ageing& a = answer.ageing;
    Json json = {{"schema", "samelight/compare/1"}, {"version", version}};
    json["then"] = answer.then_name;
    json["now"] = answer.now_name;
    json["mode"] = answer.place.mode;
    json["window_pct"] = or_null(answer.place.window_pct);
    json["months_between"] = or_null(answer.months_between);
    json["verdict"] = code_of(answer.verdict);
    json["correction"] = code_of(answer.correction);
    json["light"] = white_light_json(answer.light);
    json["correction_life"] = correction_life_json(answer.correction_life);
    json["findings"] = Json::array();
    for (const AgeingFinding finding : a.findings) {
        json["findings"].push_back(code_of(finding));
    }
    json["white"] = compared_white_json(answer);
    json["emitters"] = compared_emitters_json(answer);
    json["best_kept"] = code_of(static_cast<VisitLight>(a.best));
    json["aged"] = Json::array();
    for (const std::size_t k : a.aged) {
        json["aged"].push_back(code_of(static_cast<VisitLight>(k)));
    }
    json["common_log_luminance"] = told_change_json(a.common);
    json["meter_channels_log"] = {{"x_against_y", told_change_json(a.channels[0])},
                                  {"z_against_y", told_change_json(a.channels[1])}};
    json["primaries_moved"] = {{"reduced_chi_squared", a.moved}, {"limit", a.moved_limit}};
    json["primaries_beside_channels"] = {{"reduced_chi_squared", a.left}, {"limit", a.left_limit}};
    json["sum_over_white"] = {{"then", a.additivity_then},
                              {"change", told_change_json(a.additivity)}};
    json["by_corrections"] = meter_apart_json(a.by_corrections);
    json["by_spectra"] = meter_apart_json(a.by_spectra);
    json["scatter"] = {{"x_sd", a.scatter.covariance.standard(0)},
                       {"y_sd", a.scatter.covariance.standard(1)},
                       {"log_luminance_sd", a.scatter.covariance.standard(2)},
                       {"degrees_of_freedom", number_json(a.scatter.degrees_of_freedom)},
                       {"from", a.scatter.stated ? "stated" : "repeats"}};
    json["target_life"] = target_life_json(answer.life);
    json["today"] = Json::array();
    for (const assess::TodayStep& step : answer.today) {
        json["today"].push_back({{"step", code_of(step.step)}, {"minutes", step.minutes}});
    }
    json["today_min"] = answer.today_min;
    json["understood"] = answer.understood;
    json["warnings"] = warnings_json(answer.warnings);
    return json_text(json);
}

}  // namespace samelight::report
