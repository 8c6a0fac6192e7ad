#include <nlohmann/json.hpp>

#include "report/white/page/white_words.hpp"
#include "report/white/white_json_parts.hpp"
#include "report/words/error_parts.hpp"
#include "report/words/json_parts.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/report/advice_words.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::report {
namespace {

using Json = nlohmann::ordered_json;

Json triple(const std::array<double, 3>& values) {
    return {{"red", values[0]}, {"green", values[1]}, {"blue", values[2]}};
}

Json offset_json(const ChromaticityOffset<Cie1931_2deg>& offset) {
    return {{"delta_x", offset.first()}, {"delta_y", offset.second()}};
}

Json outside_json(const OutsideGamut& outside) {
    return {{"primary", detail::primary_names[outside.primary]},
            {"share", outside.share},
            {"nearest", xy_json(outside.nearest)},
            {"remaining_uv", outside.remaining_uv}};
}

Json left_json(const LeftToGo& left) {
    Json json = offset_json(left.offset);
    json["light_change_percent"] = triple(
        {100.0 * left.light_change[0], 100.0 * left.light_change[1], 100.0 * left.light_change[2]});
    json["matched"] = left.matched;
    return json;
}

Json target_json(const Target& target, const std::optional<UnitVariation>& range) {
    Json json = {{"observer", target.observer},
                 {"x", target.xy.x()},
                 {"y", target.xy.y()},
                 {"delta_x", target.from_reference.first()},
                 {"delta_y", target.from_reference.second()}};
    json["cct_k"] = target.temperature ? Json(target.temperature->cct_k) : Json();
    json["duv"] = target.temperature ? Json(target.temperature->duv) : Json();
    json["drive"] = target.drive ? Json(*target.drive) : Json();
    json["luminance_ratio"] = target.luminance_ratio ? Json(*target.luminance_ratio) : Json();
    json["in_gamut"] = target.in_gamut();
    json["light_share"] = triple(target.match.share);
    if (range) {
        json["type_range_95"] = {{"x", range->x}, {"y", range->y}};
    }
    if (target.without_white_emitter) {
        json["without_white_emitter"] = offset_json(*target.without_white_emitter);
    }
    if (target.outside) {
        json["outside_gamut"] = outside_json(*target.outside);
    }
    if (target.left) {
        json["left_to_go"] = left_json(*target.left);
    }
    return json;
}

Json population_json(const Population& population, const assess::PopulationPart& part) {
    const TargetRegion& r = part.region;
    const auto ellipse = [](const Ellipse& e) -> Json {
        return {{"centre", e.centre},
                {"semi_major", e.semi_major},
                {"semi_minor", e.semi_minor},
                {"angle_deg", e.angle_deg},
                {"coverage", e.coverage}};
    };
    return {{"description", part.description},
            {"field_deg", population.parameters().field_deg},
            {"people", r.people},
            {"mean", xy_json(r.mean)},
            {"median", xy_json(r.median)},
            {"covariance_xy", r.covariance_xy},
            {"covariance_uv", r.covariance_uv},
            {"ellipse_xy", ellipse(r.ellipse_xy)},
            {"ellipse_uv", ellipse(r.ellipse_uv)},
            {"people_for_mean", r.people_for_mean ? Json(*r.people_for_mean) : Json()},
            {"outside_gamut", part.outside},
            {"without_target", part.impossible},
            {"pair_threshold_uv", part.pair_threshold_uv},
            {"pair_share", part.pair_share}};
}

Json viewers_json(const std::vector<Viewer>& viewers, const assess::ViewerGroupPart& part) {
    const ViewerGroup& viewer_group = part.people;
    Json json = Json::array();
    for (std::size_t i = 0; i < viewers.size(); ++i) {
        Json viewer = {
            {"name", viewers[i].name},
            {"age_years",
             viewers[i].age_known ? Json(viewers[i].eye.likeliest.conditions.age_years) : Json()},
            {"field_deg", viewers[i].eye.likeliest.conditions.field_deg},
            {"deviations", deviations_json(viewers[i].eye.likeliest.deviations)},
            {"target", xy_json(viewer_group.targets[i].xy)},
            {"covariance_xy", viewer_group.targets[i].covariance},
            {"half_width_x", part.within[i].x},
            {"half_width_y", part.within[i].y}};
        viewer["disagreement"] = viewer_group.disagreement[i];
        viewer["seen"] = Json::array();
        for (const CandidateWhite& candidate : viewer_group.candidates) {
            viewer["seen"].push_back({{"candidate", candidate.name},
                                      {"x", candidate.xy.x()},
                                      {"y", candidate.xy.y()},
                                      {"uv", candidate.seen[i].uv},
                                      {"de00", candidate.seen[i].de00},
                                      {"expected_uv", candidate.expected[i].uv},
                                      {"expected_de00", candidate.expected[i].de00},
                                      {"de00_low", candidate.expected[i].de00_low},
                                      {"de00_high", candidate.expected[i].de00_high}});
        }
        json.push_back(viewer);
    }
    return json;
}

Json budget_part_json(const BudgetPart& part) {
    return {{"code", part.code},
            {"title", title_of(part)},
            {"covariance_xy", part.covariance},
            {"mean_xy", part.mean},
            {"remedy", command_remedy(part)},
            {"remedy_code", code_of(part.remedy)}};
}

Json budget_json(const TargetBudget& budget) {
    Json json = {{"covariance_xy", budget.covariance},
                 {"half_width_x", budget.half_width_x()},
                 {"half_width_y", budget.half_width_y()},
                 {"dominant", budget.dominant().code},
                 {"dominant_share", budget.dominant_share()}};
    json["parts"] = Json::array();
    for (const BudgetPart& part : budget.parts) {
        json["parts"].push_back(budget_part_json(part));
    }
    json["people"] = budget.people ? budget_part_json(*budget.people) : Json();
    return json;
}

Json display_group_json(const assess::WhiteAnswer& answer) {
    Json json = Json::array();
    for (const GroupSetting& way : answer.display_group) {
        Json entry = {{"name", way.name},
                      {"between_mean_uv", way.between_mean_uv},
                      {"between_p95_uv", way.between_p95_uv},
                      {"from_reference_mean_uv", way.from_reference_mean_uv},
                      {"from_reference_p95_uv", way.from_reference_p95_uv}};
        entry["whites"] = Json::array();
        for (std::size_t p = 0; p < way.whites.size(); ++p) {
            Json white = xy_json(way.whites[p]);
            white["panel"] = answer.panels[p].targets.panel;
            entry["whites"].push_back(white);
        }
        json.push_back(entry);
    }
    return json;
}

/// In u'v' of CIE 1931: to a typical viewer, or to whoever of named viewers is worst off, over all that isn't known.
Json expected_json(const Advice& advice) {
    return {{"before_uv", advice.sight.before},
            {"after_uv", advice.sight.after},
            {"by_eye_uv", advice.sight.by_eye},
            {"probability_visible_before", advice.sight.visible_before},
            {"probability_nearer", advice.sight.nearer},
            {"probability_further", advice.sight.further}};
}

/// Of the people judged, each as the likeliest eye; nearer and further by what can be seen.
Json shares_json(const PeopleShares& people) {
    return {{"nearer_share", people.nearer},
            {"alike_share", people.alike},
            {"further_share", people.further},
            {"mean_gain_uv", people.mean_gain_uv},
            {"people", people.count}};
}

}  // namespace

Json white_panel_json(const assess::WhiteAnswer& answer, const assess::PanelPart& part) {
    Json json = {{"name", part.targets.panel},
                 {"kind", part.bent        ? "readings"
                          : part.generic() ? "generic"
                                           : "measured"}};
    if (part.bent) {
        json["type"] = {{"name", part.model->name()}, {"probability", part.probability}};
    }
    json["native_white"] = part.targets.native_white ? xy_json(*part.targets.native_white)
                                                     : Json({{"x", nullptr}, {"y", nullptr}});
    if (part.targets.additivity) {
        const Additivity& a = *part.targets.additivity;
        json["red_green_blue_against_white"] = offset_json(a.offset);
        json["red_green_blue_against_white"].update({{"luminance_ratio", a.luminance_ratio},
                                                     {"spectral_difference", a.spectral_difference},
                                                     {"additive", a.additive()}});
        json["red_green_blue_against_white"]["amounts_in_white"] =
            a.amounts ? triple(*a.amounts) : Json();
    }
    json["black_to_white_luminance"] =
        part.targets.black_ratio ? Json(*part.targets.black_ratio) : Json();
    json["luminance_ratio_against"] = part.as_it_stands ? "white_as_it_stands" : "native_white";
    if (part.white_set_to) {
        json["white_set_to"] = xy_json(*part.white_set_to);
        json["white_set_to"]["from"] = part.white_read_now ? "reading" : "setting";
        json["white_set_to"]["luminance"] = part.luminance_now ? Json(*part.luminance_now) : Json();
    }
    json["targets"] = Json::array();
    for (std::size_t i = 0; i < part.targets.targets.size(); ++i) {
        json["targets"].push_back(target_json(part.targets.targets[i], part.ranges[i]));
    }
    if (part.population) {
        json["population"] = population_json(*answer.population, *part.population);
    }
    if (part.viewer_group) {
        json["viewers"] = viewers_json(answer.viewers, *part.viewer_group);
        json["household_target"] = target_json(
            part.viewer_group->white,
            part.generic() ? std::optional(part.viewer_group->white_within) : std::nullopt);
    }
    if (part.budget) {
        json["budget"] = budget_json(*part.budget);
        json["budget"]["step_nm"] = part.step_nm > 0.0 ? Json(part.step_nm) : Json();
    }
    if (part.advice) {
        json["advice"] = {{"verdict", code_of(part.advice->verdict)},
                          {"reason", sentence(*part.advice, moved_from(part))},
                          {"reason_code", code_of(part.advice->reason)},
                          {"white", xy_json(part.advice->white)},
                          {"helped_share", part.advice->helped},
                          {"to_move_xy", part.advice->to_move_xy},
                          {"uncertain_along_xy", part.advice->uncertain_along_xy},
                          {"de00_before", part.advice->de00_before},
                          {"de00_after", part.advice->de00_after},
                          {"expected", expected_json(*part.advice)},
                          {"people", shares_json(part.advice->people)}};
    }
    json["rests_on"] = rests_on(part);
    json["understood"] = part.understood;
    json["warnings"] = warnings_json(part.targets.warnings);
    return json;
}

Json white_common_json(const assess::WhiteAnswer& answer, const char* schema) {
    Json json = {{"schema", schema}, {"version", version}};
    json["reference"] = xy_json(answer.reference.xy());
    json["reference"].update({{"name", answer.reference.name},
                              {"meaning", answer.reference.meaning},
                              {"understood", answer.reference_understood},
                              {"warnings", warnings_json(answer.reference.warnings)}});
    json["tables"] = answer.tables;
    json["instrument_noise_xy"] = answer.instrument.reading_noise_xy;
    json["instrument"] = {{"wavelength_shift_nm", answer.instrument.wavelength_shift_nm},
                          {"bandwidth_nm", answer.instrument.bandwidth_nm},
                          {"stray_light", answer.instrument.stray_light},
                          {"noise", answer.instrument.noise},
                          {"step_nm", answer.instrument.step_nm}};
    json["viewer_notes"] = warnings_json(answer.viewer_notes);
    return json;
}

std::string white_json(const WhiteAnswer& answer) {
    Json json = white_common_json(answer, "samelight/white/1");
    json["panels"] = Json::array();
    for (const assess::PanelPart& part : answer.panels) {
        json["panels"].push_back(white_panel_json(answer, part));
    }
    if (answer.types_apart) {
        json["types_apart"] = {{"uv", answer.types_apart->uv},
                               {"seen", answer.types_apart->seen},
                               {"warnings", warnings_json(answer.types_apart->warnings)}};
    }
    if (!answer.display_group.empty()) {
        json["room"] = display_group_json(answer);
        json["room_recommended"] = answer.display_group.at(answer.recommended_setting.value()).name;
    }
    if (!answer.display_group_notes.empty()) {
        json["room_warnings"] = warnings_json(answer.display_group_notes);
    }
    json["errors"] = errors_json(answer.errors);
    return json_text(json);
}

}  // namespace samelight::report
