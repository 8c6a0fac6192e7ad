#include <nlohmann/json.hpp>

#include "report/words/json_parts.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/model/mismatch.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/meter_model_answer.hpp"

namespace samelight::report {
namespace {

using Json = nlohmann::ordered_json;

Json rows_json(const std::array<double, 9>& m) {
    return {{m[0], m[1], m[2]}, {m[3], m[4], m[5]}, {m[6], m[7], m[8]}};
}

/// Cones have no x, y, u', v' or CIEDE2000: null.
Json left_json(const ColourError& e, bool cones) {
    Json json = error_json(e);
    if (cones) {
        for (auto& item : json.items()) {
            item.value() = nullptr;
        }
    }
    return json;
}

Json unless(bool cones, double value) { return cones ? Json(nullptr) : Json(value); }

Json mismatch_json(const MeterModelAnswer& answer) {
    Json channels = Json::array();
    for (std::size_t k = 0; k < 3; ++k) {
        const ChannelMismatch& channel = answer.mismatch->channels[k];
        Json lobes = Json::array();
        for (const LobeMismatch& lobe : channel.lobes) {
            lobes.push_back({{"from_nm", lobe.from_nm},
                             {"to_nm", lobe.to_nm},
                             {"index", lobe.index},
                             {"area_ratio", lobe.area_ratio},
                             {"centroid_shift_nm",
                              lobe.centroid_shift_nm ? Json(*lobe.centroid_shift_nm) : Json()}});
        }
        channels.push_back({{"channel", channel.name},
                            {"mismatch_index", channel.index},
                            {"calibration_factor", channel.calibration},
                            {"factor_for_white", answer.white_factors[k]},
                            {"lobes", lobes}});
    }
    return {{"observer", answer.mismatch->observer},
            {"calibrated_with", "illuminant A"},
            {"f1_prime", answer.mismatch->channels[1].index},
            {"channels", channels}};
}

}  // namespace

std::string meter_model_json(const MeterModelAnswer& answer) {
    const Correction& c = answer.stored.correction;
    Json json = {{"schema", "samelight/meter-model/1"}, {"version", version}};
    json["verdict"] = code_of(answer.verdict);
    json["panel"] = {{"name", answer.panel}, {"kind", answer.generic ? "generic" : "measured"}};
    json["meter"] = {
        {"name", answer.meter.rows.observer},
        {"kind", answer.meter.observer ? "observer" : "sensitivities"},
        {"rows_scaled_on",
         answer.meter.scale == RowScale::illuminant_a ? Json("illuminant A") : Json(nullptr)}};
    json["observer"] = c.observer;
    json["method"] = code_of(c.method);
    json["reference_from_meter"] = rows_json(c.reference_from_meter);
    json["luminance_factor"] = c.luminance_factor;
    json["condition_number"] = c.condition_number;
    json["residuals"] = Json::array();
    for (const PatchResidual& r : answer.residuals) {
        json["residuals"].push_back({{"patch", r.patch},
                                     {"before", left_json(r.before, answer.cones)},
                                     {"after", left_json(r.after, answer.cones)}});
    }
    json["white_off_xy"] = {
        {"panel_shift_nm", answer.uncertainty.panel_shift_nm},
        {"if_panel_shifted", unless(answer.cones, answer.uncertainty.panel_xy)},
        {"meter_shift_nm", answer.uncertainty.meter_shift_nm},
        {"if_meter_shifted", unless(answer.cones, answer.uncertainty.meter_xy)}};
    json["four_emitters"] = Json::array();
    for (const assess::FourEmitterWay& way : answer.ways) {
        json["four_emitters"].push_back(
            {{"way", code_of(way.method)},
             {"white_xy", unless(answer.cones, way.white_xy)},
             {"worst_primary_xy", unless(answer.cones, way.worst_primary_xy)}});
    }
    json["mismatch"] = mismatch_json(answer);
    json["aim"] = answer.aim ? Json({{"reference", answer.aim->reference},
                                     {"x", unless(answer.cones, answer.aim->xy[0])},
                                     {"y", unless(answer.cones, answer.aim->xy[1])},
                                     {"shares", answer.aim->shares}})
                             : Json(nullptr);
    json["understood"] = answer.understood;
    json["warnings"] = warnings_json(answer.warnings);
    return json_text(json);
}

}  // namespace samelight::report
