#include <nlohmann/json.hpp>

#include "report/words/error_parts.hpp"
#include "report/words/json_parts.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/extreme_viewer.hpp"
#include "samelight/metamerism/extremes.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/metamerism_answer.hpp"
#include "samelight/report/viewer_words.hpp"

namespace samelight::report {
namespace {

using Json = nlohmann::ordered_json;

Json spread_json(const ViewerSpread& spread) {
    return {{"mean", spread.mean}, {"median", spread.median}, {"two_in_three", spread.two_in_three},
            {"p90", spread.p90},   {"p95", spread.p95},       {"largest", spread.largest}};
}

Json seen_json(const assess::ExpectedSeen& seen) {
    return {{"de00", seen.mean}, {"de00_low", seen.low}, {"de00_high", seen.high}};
}

/// The indices of a set of colours, or of the whites alone, beyond what the matrix has.
Json index_json(const PopulationIndex& index) {
    return {{"lightness_free_de00", index.lightness_free},
            {"lightness_free_percentile", index.options.percentile},
            {"mcdm_de_ab", index.mcdm},
            {"ellipse_area_uv", index.ellipse_area_uv},
            {"ellipsoid_volume_lab", index.ellipsoid_volume},
            {"coverage", index.options.coverage}};
}

Json figures_json(const MetamerismAnswer& answer, std::size_t i, std::size_t s) {
    const PairFigures& figures = answer.matrix.pairs[i].figures[s];
    Json white = {{"de00", spread_json(figures.white_de00)},
                  {"uv", spread_json(figures.white_uv)},
                  {"pair_share", figures.white_pair_share}};
    Json colours = {{"de00", spread_json(figures.colours_de00)},
                    {"largest_any_de00", figures.largest_de00},
                    {"worst_colour", colour_name(figures.worst_colour)},
                    {"worst_colour_mean_de00", figures.worst_colour_de00}};
    if (figures.white_index) {
        white["indices"] = index_json(*figures.white_index);
    }
    if (figures.colours_index) {
        colours["uv"] = spread_json(figures.colours_index->uv);
        colours["pair_share"] = figures.colours_index->pair_share;
        colours["indices"] = index_json(*figures.colours_index);
    }
    return {
        {"setting", code_of(answer.matrix.settings[s])}, {"white", white}, {"colours", colours}};
}

Json viewer_json(const ExtremeViewer& viewer) {
    Json reasons = Json::array();
    for (const ViewerReason& reason : viewer.reasons) {
        reasons.push_back({{"words", words_of(viewer, reason.trait)},
                           {"trait", code_of(reason.trait)},
                           {"de00_without", reason.without}});
    }
    Json json = {{"white_de00", viewer.de00},
                 {"description", description_of(viewer)},
                 {"age_years", viewer.eye.conditions.age_years}};
    json.update(deviations_json(viewer.eye.deviations));
    json["reasons"] = reasons;
    return json;
}

Json pair_json(const MetamerismAnswer& answer, std::size_t i) {
    const MatrixPair& pair = answer.matrix.pairs[i];
    const assess::MetamerismPair& part = answer.pairs[i];
    Json json = {{"first", answer.panels[pair.first].name},
                 {"second", answer.panels[pair.second].name},
                 {"basis", code_of(part.basis)}};
    json["settings"] = Json::array();
    for (std::size_t s = 0; s < pair.figures.size(); ++s) {
        json["settings"].push_back(figures_json(answer, i, s));
    }
    const Bought bought =
        samelight::bought(answer.matrix, pair, Setting::by_instrument, Setting::white_matched);
    json["bought_white_mean_de00"] = bought.white();
    json["bought_colours_mean_de00"] = bought.colours();
    json["least_white_mean_de00"] = pair.least_white_de00 ? Json(*pair.least_white_de00) : Json();
    json["sees_most"] = viewer_json(part.extremes.most);
    json["sees_least"] = viewer_json(part.extremes.least);
    if (part.units) {
        json["units_95_white_mean_de00"] = {{"low", part.units->low}, {"high", part.units->high}};
    }
    if (part.deviate) {
        json["deviate_observer"] = {{"white_de_ab", part.deviate->de_ab},
                                    {"white_de00", part.deviate->de00},
                                    {"mismatch_to_cie1931_taken_out", true}};
    }
    if (!part.viewers.empty()) {
        json["viewers"] = Json::array();
        for (std::size_t k = 0; k < part.viewers.size(); ++k) {
            json["viewers"].push_back(
                {{"name", answer.viewers[k].name},
                 {"as_set_white_de00", part.viewers[k].as_set},
                 {"with_targets_white_de00", part.viewers[k].with_targets},
                 {"expected_as_set", seen_json(part.viewers[k].expected_as_set)},
                 {"expected_with_targets", seen_json(part.viewers[k].expected_with_targets)}});
        }
    }
    return json;
}

Json panels_json(const MetamerismAnswer& answer) {
    Json json = Json::array();
    for (const assess::MetamerismPanel& panel : answer.panels) {
        json.push_back({{"name", panel.name},
                        {"kind", panel.generic ? "generic" : "measured"},
                        {"set_to", panel.set_to ? xy_json(*panel.set_to) : Json()},
                        {"understood", panel.understood},
                        {"warnings", warnings_json(panel.warnings)}});
    }
    return json;
}

}  // namespace

std::string metamerism_json(const MetamerismAnswer& answer) {
    Json json = {{"schema", "samelight/metamerism/1"}, {"version", version}};
    json["reference"] = xy_json(answer.reference.xy);
    json["reference"].update({{"name", answer.reference.name},
                              {"meaning", answer.reference.meaning},
                              {"understood", answer.reference_understood},
                              {"warnings", warnings_json(answer.reference.warnings)}});
    json["observer"] = answer.matrix.observer;
    json["tables"] = {answer.tables};
    json["population"] = answer.population.describe();
    json["people"] = answer.matrix.viewers;
    json["pair_threshold_uv"] = answer.matrix.pair_threshold_uv;
    json["viewer_notes"] = warnings_json(answer.viewer_notes);
    json["viewers"] = Json::array();
    for (const assess::MetamerismViewer& viewer : answer.viewers) {
        json["viewers"].push_back({{"name", viewer.name},
                                   {"age_years", viewer.age_years},
                                   {"field_deg", viewer.field_deg}});
    }
    json["panels"] = panels_json(answer);
    json["colours"] = Json::array();
    for (const std::size_t colour : answer.matrix.colours) {
        json["colours"].push_back(colour_name(colour));
    }
    json["colours_left_out"] = Json::array();
    for (const LeftOut& entry : answer.matrix.left_out) {
        json["colours_left_out"].push_back(
            {{"colour", colour_name(entry.colour)}, {"panel", answer.panels[entry.panel].name}});
    }
    json["pairs"] = Json::array();
    for (std::size_t i = 0; i < answer.pairs.size(); ++i) {
        json["pairs"].push_back(pair_json(answer, i));
    }
    json["rankings"] = Json::array();
    for (const assess::Ranking& ranking : answer.rankings) {
        json["rankings"].push_back(
            {{"basis", code_of(ranking.basis)}, {"pairs_best_first", ranking.pairs}});
    }
    json["deviations"] = answer.deviations ? Json(*answer.deviations) : Json();
    json["warnings"] = warnings_json(metamerism_left_out(answer));
    json["errors"] = errors_json(answer.errors);
    return json_text(json);
}

}  // namespace samelight::report
