#include <string>

#include <nlohmann/json.hpp>

#include "report/words/json_parts.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/check/targets_answer.hpp"

namespace samelight::report {
namespace {

using TargetJson = nlohmann::ordered_json;

TargetJson curve_json(const CurveOptions& curve) {
    TargetJson json = {{"kind", code_of(curve.kind)},
                       {"white_cd_m2", curve.white_cd_m2},
                       {"black_cd_m2", curve.black_cd_m2}};
    json["exponent"] = curve.kind == CurveKind::power ? TargetJson(curve.exponent) : TargetJson();
    json["programme_peak_cd_m2"] =
        curve.programme_peak_cd_m2 ? TargetJson(*curve.programme_peak_cd_m2) : TargetJson();
    return json;
}

TargetJson target_json(const PatchTarget& target, const Quantisation& quantisation) {
    return {{"patch", target.patch.name},
            {"group", code_of(target.patch.group)},
            {"codes", codes_of(target.patch.signal, quantisation)},
            {"signal", target.patch.signal},
            {"xyz_cd_m2", target.xyz},
            {"reach", code_of(target.reach)},
            {"left_uv", target.left_uv}};
}

}  // namespace

std::string targets_json(const TargetsAnswer& answer) {
    TargetJson json = {{"schema", "samelight/targets/1"}, {"version", version}};
    json["kind"] = code_of(answer.kind);
    const bool alike = answer.kind == TargetKind::seen_alike;
    json["panel"] = alike ? TargetJson(answer.panel) : TargetJson();
    json["reference"] = alike ? TargetJson(answer.reference) : TargetJson();
    json["observer"] = alike ? TargetJson(answer.eye) : TargetJson();
    json["encoding"] = answer.encoding;
    json["curve"] = curve_json(answer.curve);
    json["bits"] = answer.quantisation.bits();
    json["range"] = answer.quantisation.range() == SignalRange::full ? "full" : "limited";
    json["white_chosen"] = answer.white_chosen;
    json["white_xyz_cd_m2"] = answer.white;
    json["nearest"] = answer.nearest;
    json["reference_lacks"] = answer.reference_lacks;
    json["gain"] = answer.gain
                       ? TargetJson({{"surfaces", answer.gain->surfaces},
                                     {"viewers", answer.gain->viewers},
                                     {"white_replaced_de00", answer.gain->white_replaced_de00},
                                     {"seen_alike_de00", answer.gain->seen_alike_de00}})
                       : TargetJson();
    json["targets"] = TargetJson::array();
    for (const PatchTarget& target : answer.targets) {
        json["targets"].push_back(target_json(target, answer.quantisation));
    }
    json["understood"] = answer.understood;
    json["warnings"] = warnings_json(answer.warnings);
    return json_text(json);
}

}  // namespace samelight::report
