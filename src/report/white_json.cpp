#include <nlohmann/json.hpp>

#include "json_parts.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/white_answer.hpp"

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

Json target_json(const Target& target, const std::optional<TypeRange>& range) {
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

Json panel_json(const PanelPart& part) {
    Json json = {{"name", part.targets.panel}, {"kind", part.generic ? "generic" : "measured"}};
    json["native_white"] = part.targets.native_white ? xy_json(*part.targets.native_white)
                                                     : Json({{"x", nullptr}, {"y", nullptr}});
    if (part.targets.additivity) {
        const Additivity& a = *part.targets.additivity;
        json["red_green_blue_against_white"] = offset_json(a.offset);
        json["red_green_blue_against_white"].update({{"luminance_ratio", a.luminance_ratio},
                                                     {"spectral_difference", a.spectral_difference},
                                                     {"additive", a.additive()}});
    }
    json["black_to_white_luminance"] =
        part.targets.black_ratio ? Json(*part.targets.black_ratio) : Json();
    json["luminance_ratio_against"] = part.as_it_stands ? "white_as_it_stands" : "native_white";
    json["targets"] = Json::array();
    for (std::size_t i = 0; i < part.targets.targets.size(); ++i) {
        json["targets"].push_back(target_json(part.targets.targets[i], part.ranges[i]));
    }
    json["rests_on"] = part.rests_on;
    json["understood"] = part.understood;
    json["warnings"] = warnings_json(part.targets.warnings);
    return json;
}

}  // namespace

std::string white_json(const WhiteAnswer& answer) {
    Json json = {{"schema", "samelight/white/1"}, {"version", version}};
    json["reference"] = xy_json(answer.reference.xy());
    json["reference"].update({{"name", answer.reference.name},
                              {"meaning", answer.reference.meaning},
                              {"understood", answer.reference_understood},
                              {"warnings", warnings_json(answer.reference.warnings)}});
    json["tables"] = answer.tables;
    json["instrument_noise_xy"] = answer.instrument_noise_xy;
    json["panels"] = Json::array();
    for (const PanelPart& part : answer.panels) {
        json["panels"].push_back(panel_json(part));
    }
    return json_text(json);
}

}  // namespace samelight::report
