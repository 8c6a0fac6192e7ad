#include <string>

#include <nlohmann/json.hpp>

#include "report/words/json_parts.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/check/check_answer.hpp"
#include "samelight/report/check/check_words.hpp"

namespace samelight::report {
namespace {

using CheckJson = nlohmann::ordered_json;

CheckJson optional_json(const std::optional<double>& value) {
    return value ? number_json(*value) : CheckJson();
}

CheckJson summary_json(const MeasureSummary& m, const ProofReadings& readings) {
    return {{"mean", m.mean},
            {"percentile_95", m.percentile_95},
            {"largest", m.largest},
            {"patch", readings.points[m.at].shown.name}};
}

CheckJson gap_json(const ColourGap& gap) {
    return {{"de00", gap.de00},
            {"de00_without_lightness", gap.de00_without_lightness},
            {"de_itp", gap.de_itp},
            {"delta_u", gap.uv ? CheckJson((*gap.uv)[0]) : CheckJson()},
            {"delta_v", gap.uv ? CheckJson((*gap.uv)[1]) : CheckJson()},
            {"luminance_relative", optional_json(gap.luminance)}};
}

CheckJson side_json(const ProofSide& side, const ProofReadings& readings) {
    CheckJson json = {{"white_xyz_cd_m2", side.intended.white()}};
    json["gate"] = {{"verdict", code_of(side.gate.verdict)},
                    {"probability_of_conformity", side.gate.probability},
                    {"largest_de00", side.gate.largest},
                    {"patch", readings.points[side.gate.at].shown.name},
                    {"standard_uncertainty_de00", side.gate.standard_uncertainty},
                    {"estimate_de00", side.gate.estimate},
                    {"guard_band_de00", side.gate.guard_band},
                    {"guard_band_beyond_de00", side.gate.guard_band_beyond},
                    {"rule", gate_rule_words(side.gate)},
                    {"from_noise_de00", side.gate.from_noise},
                    {"from_correction_de00", side.gate.from_correction}};
    json["groups"] = CheckJson::array();
    for (const GroupSummary& group : side.groups) {
        json["groups"].push_back(
            {{"group", group.group},
             {"patches", group.count},
             {"de00", summary_json(group.de00, readings)},
             {"de00_without_lightness", summary_json(group.de00_without_lightness, readings)},
             {"de_itp", summary_json(group.de_itp, readings)},
             {"delta_uv", summary_json(group.duv, readings)}});
    }
    return json;
}

CheckJson faults_json(const FoundFaults& found) {
    CheckJson json = CheckJson::array();
    for (const Fault& fault : found.faults) {
        json.push_back({{"code", code_of(fault.kind)},
                        {"channel", code_of(fault.channel)},
                        {"measured", fault.measured},
                        {"intended", fault.intended},
                        {"strength_delta_e", fault.strength},
                        {"patches", fault.patches},
                        {"patch", fault.patch},
                        {"other", fault.other},
                        {"line", fault.line},
                        {"delta_x", fault.xy[0]},
                        {"delta_y", fault.xy[1]},
                        {"message", fault_sentence(fault)},
                        {"remedy", fault_remedy(fault)}});
    }
    return json;
}

CheckJson greys_json(const GreyTrack& greys) {
    CheckJson json = {{"gamma", optional_json(greys.gamma)},
                      {"intended_gamma", optional_json(greys.intended_gamma)},
                      {"least_measurable_cd_m2", number_json(greys.least_measurable_cd_m2)},
                      {"largest_delta_uv", greys.largest_duv},
                      {"levels", CheckJson::array()}};
    for (const ProvenGrey& level : greys.levels) {
        json["levels"].push_back({{"patch", level.name},
                                  {"signal", level.signal},
                                  {"measured_cd_m2", level.measured_cd_m2},
                                  {"intended_cd_m2", level.intended_cd_m2},
                                  {"delta_x", level.xy ? CheckJson((*level.xy)[0]) : CheckJson()},
                                  {"delta_y", level.xy ? CheckJson((*level.xy)[1]) : CheckJson()},
                                  {"balance_relative", level.balance},
                                  {"gamma", optional_json(level.gamma)},
                                  {"intended_gamma", optional_json(level.intended_gamma)},
                                  {"measurable", level.measurable}});
    }
    return json;
}

CheckJson screen_json(const std::vector<Uniformity>& screen) {
    CheckJson json = CheckJson::array();
    for (const Uniformity& patch : screen) {
        CheckJson positions = CheckJson::array();
        for (const PositionReading& p : patch.positions) {
            positions.push_back({{"position", p.position},
                                 {"luminance_cd_m2", p.luminance_cd_m2},
                                 {"luminance_relative", p.luminance},
                                 {"delta_uv", p.duv},
                                 {"target_delta_uv", p.target_duv}});
        }
        json.push_back({{"patch", patch.patch},
                        {"largest_delta_uv", patch.largest_duv},
                        {"largest_luminance_relative", patch.largest_luminance},
                        {"largest_target_delta_uv", patch.largest_target_duv},
                        {"positions", std::move(positions)}});
    }
    return json;
}

CheckJson visit_json(const assess::CheckedVisit& visit) {
    const ProofReadings& readings = visit.readings;
    CheckJson json = {{"source", visit.source}};
    json["noise"] = {{"from", code_of(readings.noise.from)},
                     {"relative", readings.noise.relative},
                     {"floor_cd_m2", readings.noise.floor_cd_m2},
                     {"degrees_of_freedom", readings.noise.degrees_of_freedom}};
    json["window_pct"] = optional_json(readings.window_pct);
    json["mode"] = readings.mode;
    json["readings_without_target"] = visit.without_target;
    json["chosen"] = side_json(visit.chosen, readings);
    json["plain"] = visit.plain ? side_json(*visit.plain, readings) : CheckJson();
    json["faults"] = faults_json(visit.found);
    json["outside_gamut"] = CheckJson::array();
    for (const std::size_t i : visit.found.outside_gamut) {
        json["outside_gamut"].push_back(readings.points[i].shown.name);
    }
    json["inside_gamut"] = CheckJson(nullptr);
    if (visit.inside_gamut) {
        json["inside_gamut"] = {{"verdict", code_of(visit.inside_gamut->verdict)},
                                {"probability_of_conformity", visit.inside_gamut->probability},
                                {"largest_de00", visit.inside_gamut->largest}};
    }
    json["unexplained_patches"] = visit.found.unexplained;
    json["greys"] = greys_json(visit.greys);
    json["screen"] = screen_json(visit.screen);
    json["patches"] = CheckJson::array();
    for (std::size_t i = 0; i < readings.points.size(); ++i) {
        const ProofPoint& point = readings.points[i];
        json["patches"].push_back(
            {{"patch", point.shown.name},
             {"group", code_of(point.shown.group)},
             {"signal", point.shown.signal},
             {"xyz_cd_m2", point.xyz},
             {"target_xyz_cd_m2",
              point.target.value_or(visit.chosen.intended.xyz(point.shown.signal))},
             {"readings", point.count},
             {"line", point.line},
             {"chosen", gap_json(visit.chosen.gaps[i])},
             {"plain", visit.plain ? gap_json(visit.plain->gaps[i]) : CheckJson()}});
    }
    return json;
}

CheckJson shared_json(const assess::SharedPatches& shared) {
    const auto de00 = [](const std::vector<GroupSummary>& groups) {
        if (groups.empty()) {
            return CheckJson();
        }
        const MeasureSummary& all = groups.back().de00;
        return CheckJson(
            {{"mean", all.mean}, {"percentile_95", all.percentile_95}, {"largest", all.largest}});
    };
    return {{"patches_in_both", shared.in_both},
            {"patches_only_now", shared.only_now},
            {"patches_only_before", shared.only_before},
            {"now_de00", de00(shared.now)},
            {"before_de00", de00(shared.before)}};
}

}  // namespace

std::string check_json(const CheckAnswer& answer) {
    CheckJson json = {{"schema", "samelight/check/1"}, {"version", version}};
    json["verdict"] = code_of(answer.verdict);
    json["reason"] = code_of(answer.reason);
    json["gate_de00"] = answer.gate;
    json["patches_over_gate"] = answer.over_gate;
    json["white_chosen"] = answer.white_chosen;
    json["corrected"] = answer.corrected;
    json["targets"] = answer.targets.empty() ? CheckJson() : CheckJson(answer.targets);
    json["white_supposed"] = answer.white_supposed;
    json["black_supposed"] = answer.black_supposed;
    json["now"] = visit_json(answer.now);
    json["before"] = answer.before ? visit_json(*answer.before) : CheckJson();
    json["compared"] = answer.shared ? shared_json(*answer.shared) : CheckJson();
    json["understood"] = answer.understood;
    json["warnings"] = warnings_json(answer.warnings);
    return json_text(json);
}

}  // namespace samelight::report
