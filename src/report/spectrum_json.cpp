#include <nlohmann/json.hpp>

#include "json_parts.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/spectrum_answer.hpp"

namespace samelight::report {
namespace {

using Json = nlohmann::ordered_json;

Json peak_json(const Peak& peak) {
    return {{"nm", peak.nm},
            {"width_nm", peak.width_nm > 0.0 ? Json(peak.width_nm) : Json()},
            {"step_nm", peak.step_nm},
            {"relative_height", peak.height},
            {"share_of_light", peak.share},
            {"resolved", peak.resolved()}};
}

Json column_json(const ColumnPart& column) {
    Json json = {{"name", column.name},
                 {"repeats", column.repeats},
                 {"repeat_spread", column.repeat_spread},
                 {"noise_alone", column.noise_alone}};
    json["chromaticities"] = Json::array();
    for (const ColumnReading& reading : column.readings) {
        json["chromaticities"].push_back(
            {{"observer", reading.observer}, {"x", reading.x}, {"y", reading.y}});
    }
    json["cct_k"] = column.temperature ? Json(column.temperature->cct_k) : Json();
    json["duv"] = column.temperature ? Json(column.temperature->duv) : Json();
    json["peaks"] = Json::array();
    for (const Peak& peak : column.sampling.peaks) {
        json["peaks"].push_back(peak_json(peak));
    }
    json["sampling"] = {
        {"sound", column.sampling.sound()},
        {"wanted_step_nm",
         column.sampling.peaks.empty() ? Json() : Json(column.sampling.wanted_step_nm)},
        {"verdict", describe(column.sampling)}};
    json["relative_noise"] = column.relative_noise;
    return json;
}

}  // namespace

std::string spectrum_json(const SpectrumAnswer& answer) {
    Json json = {{"schema", "samelight/spectrum/1"},
                 {"version", version},
                 {"source", answer.source},
                 {"unit", answer.unit},
                 {"first_nm", answer.first_nm},
                 {"last_nm", answer.last_nm},
                 {"least_step_nm", answer.least_step_nm},
                 {"largest_step_nm", answer.largest_step_nm}};
    json["columns"] = Json::array();
    for (const ColumnPart& column : answer.columns) {
        json["columns"].push_back(column_json(column));
    }
    json["understood"] = answer.understood;
    json["warnings"] = warnings_json(answer.warnings);
    return json_text(json);
}

}  // namespace samelight::report
