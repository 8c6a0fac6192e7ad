#include <optional>

#include <nlohmann/json.hpp>

#include "report/words/error_parts.hpp"
#include "report/words/json_parts.hpp"
#include "samelight/display/types/panel_likeness.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/choice_words.hpp"
#include "samelight/report/meter_choose_answer.hpp"

namespace samelight::report {
namespace {

using Json = nlohmann::ordered_json;

Json pair_json(const std::array<double, 2>& xy) { return {{"x", xy[0]}, {"y", xy[1]}}; }

/// What speaks against a correction, for people; null for nothing.
template <class Why>
Json said_json(const std::optional<Why>& why) {
    return why ? Json(words_of(*why)) : Json(nullptr);
}

/// The same for programs.
template <class Why>
Json code_json(const std::optional<Why>& why) {
    return why ? Json(code_of(*why)) : Json(nullptr);
}

Json type_json(const PanelType& type) {
    Json candidates = Json::array();
    for (std::size_t i = 0; i < type.candidates; ++i) {
        candidates.push_back(type.types[i].model->name());
    }
    Json all = Json::array();
    for (const TypeDistance& t : type.types) {
        all.push_back(
            {{"type", t.model->name()}, {"distance_nm", t.distance_nm}, {"worst_nm", t.worst_nm}});
    }
    return {{"unlike_anything_known", type.unlike_anything_known()},
            {"candidates", candidates},
            {"distances", all}};
}

Json panel_json(const MeterChooseAnswer& answer, const assess::ChosenPanel& panel) {
    const PanelChoice& c = panel.choice;
    Json with = Json::array();
    for (std::size_t j = 0; j < c.with.size(); ++j) {
        const CorrectionProspect& p = c.with[j];
        with.push_back({{"correction", answer.corrections[j]},
                        {"expected_error", p.error ? expected_error_json(*p.error) : Json(nullptr)},
                        {"why_not", said_json(p.error ? std::nullopt : p.why_not)},
                        {"why_not_code", code_json(p.error ? std::nullopt : p.why_not)},
                        {"whites_only", p.whites_only},
                        {"raw_channels", p.raw_channels},
                        {"not_safe", said_json(p.not_safe)},
                        {"not_safe_code", code_json(p.not_safe)},
                        {"not_at_all", said_json(p.not_at_all)},
                        {"not_at_all_code", code_json(p.not_at_all)},
                        {"worse_than_none",
                         p.error && c.none_possible ? Json(p.worse_than_none) : Json(nullptr)},
                        {"panel_distance_nm",
                         p.panel_distance_nm ? Json(*p.panel_distance_nm) : Json(nullptr)}});
    }
    return {{"name", c.panel},
            {"kind", panel.generic ? "generic" : "measured"},
            {"verdict", code_of(c.verdict)},
            {"use", c.best && c.good_enough ? Json(answer.corrections[*c.best]) : Json(nullptr)},
            {"until_then",
             c.best && !c.good_enough ? Json(answer.corrections[*c.best]) : Json(nullptr)},
            {"good_enough", c.good_enough},
            {"settled_by_white", c.settled_by_white},
            {"expected_error",
             c.best || c.none_possible ? expected_error_json(c.chosen()) : Json(nullptr)},
            {"without_correction", c.none_possible ? expected_error_json(c.none) : Json(nullptr)},
            {"with", with},
            {"type", type_json(panel.type)}};
}

Json keep_json(const assess::KeepPart& part) {
    Json others = Json::array();
    for (const assess::WhiteWith& other : part.others) {
        Json json = pair_json(other.xy);
        json.update({{"correction", other.name}, {"off_xy", other.off_xy}});
        others.push_back(json);
    }
    const KeepVerdict& v = part.verdict;
    return {{"correction", part.under},
            {"verdict", code_of(v.verdict)},
            {"reference", pair_json(part.white.reference)},
            {"meter", pair_json(part.white.meter)},
            {"noise_xy", part.white.noise_xy},
            {"readings", part.white.readings},
            {"delta_x", v.dx},
            {"delta_y", v.dy},
            {"off_xy", v.xy},
            {"off_uv", v.uv},
            {"off_uv_sd", v.uv_sd},
            {"off_uv_doubt", number_json(v.uv_uncertainty)},
            {"own_uv_doubt", number_json(v.own_uv_uncertainty)},
            {"within_limit", v.within_limit},
            {"readings_wanted", v.readings_wanted},
            {"with_others", others}};
}

}  // namespace

std::string meter_choose_json(const MeterChooseAnswer& answer) {
    Json json = {{"schema", "samelight/meter-choose/1"}, {"version", version}};
    json["meter"] = answer.meter_known ? Json(answer.meter) : Json(nullptr);
    json["supposed_f1_prime_percent"] =
        answer.meter_known ? Json(nullptr) : Json(answer.supposed_mismatch_percent);
    json["limit_uv"] = answer.limit_uv;
    json["corrections"] = Json::array();
    for (std::size_t j = 0; j < answer.corrections.size(); ++j) {
        json["corrections"].push_back(
            {{"file", answer.corrections[j]}, {"display", answer.made_on[j]}});
    }
    json["panels"] = Json::array();
    for (const assess::ChosenPanel& panel : answer.panels) {
        json["panels"].push_back(panel_json(answer, panel));
    }
    json["keep"] = answer.keep ? keep_json(*answer.keep) : Json(nullptr);
    json["understood"] = answer.understood;
    json["warnings"] = warnings_json(answer.warnings);
    json["errors"] = errors_json(answer.errors);
    return json_text(json);
}

}  // namespace samelight::report
