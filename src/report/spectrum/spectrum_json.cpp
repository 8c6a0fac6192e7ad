#include <nlohmann/json.hpp>

#include "report/words/error_parts.hpp"
#include "report/words/json_parts.hpp"
#include "report/words/spectrum_unit.hpp"
#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/report/warning_words.hpp"
#include "samelight/spectrum/bandwidth_method.hpp"
#include "samelight/spectrum/line_verdict.hpp"
#include "samelight/spectrum/sampling_guard.hpp"

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

Json chromaticities_json(const std::vector<assess::ColumnReading>& readings) {
    Json json = Json::array();
    for (const assess::ColumnReading& reading : readings) {
        json.push_back({{"observer", reading.observer}, {"x", reading.x}, {"y", reading.y}});
    }
    return json;
}

const char* method_word(BandwidthMethod method) {
    return method == BandwidthMethod::stearns         ? "stearns"
           : method == BandwidthMethod::deconvolution ? "deconvolution"
                                                      : "none";
}

const char* fate_word(LineFate fate) {
    return fate == LineFate::used        ? "used"
           : fate == LineFate::set_aside ? "set_aside"
           : fate == LineFate::merged    ? "merged"
                                         : "not_found";
}

Json lines_json(const assess::ColumnLines& lines) {
    const WavelengthShift& shift = lines.shift;
    const auto known = [&](double value) { return shift.shift_nm ? Json(value) : Json(); };
    Json json = {
        {"shift_nm", known(shift.shift_nm.value_or(0.0))},
        {"standard_error_nm", known(shift.standard_error_nm)},
        {"half_width_19_in_20_nm", known(shift.half_width_nm())},
        {"scale_nm_per_nm", shift.scale ? Json(*shift.scale) : Json()},
        {"scale_standard_error_nm_per_nm", shift.scale ? Json(shift.scale_standard_error) : Json()},
        {"centre_nm", known(shift.centre_nm)},
        {"line_width_nm", known(shift.line_width_nm)}};
    json["lines"] = Json::array();
    for (const KnownLine& line : shift.lines) {
        const bool found = line.fate == LineFate::used || line.fate == LineFate::set_aside;
        json["lines"].push_back(
            {{"nm", line.nm},
             {"fate", fate_word(line.fate)},
             {"seen_nm", found ? Json(line.seen_nm) : Json()},
             {"shift_nm", found ? Json(line.shift_nm) : Json()},
             {"standard_error_nm", found ? Json(line.standard_error_nm) : Json()},
             {"relative_height", found ? Json(line.height) : Json()}});
    }
    json["chromaticities_without_shift"] = chromaticities_json(lines.readings);
    return json;
}

Json correction_json(const assess::ColumnCorrection& correction) {
    return {{"method", method_word(correction.method)},
            {"noise_gain", correction.noise_gain},
            {"lowest", correction.lowest},
            {"held_at_nothing", correction.held},
            {"chromaticities", chromaticities_json(correction.readings)}};
}

Json column_json(const assess::ColumnPart& column) {
    Json json = {{"name", column.name},
                 {"repeats", column.repeats},
                 {"repeat_spread", column.repeat_spread},
                 {"noise_alone", column.noise_alone}};
    json["chromaticities"] = chromaticities_json(column.readings);
    json["cct_k"] = column.temperature ? Json(column.temperature->cct_k) : Json();
    json["duv"] = column.temperature ? Json(column.temperature->duv) : Json();
    json["peaks"] = Json::array();
    for (const Peak& peak : column.sampling.peaks) {
        json["peaks"].push_back(peak_json(peak));
    }
    json["least_peak_height"] = column.least_peak_height;
    json["sampling"] = {
        {"sound", column.sampling.sound()},
        {"wanted_step_nm",
         column.sampling.peaks.empty() ? Json() : Json(column.sampling.wanted_step_nm)},
        {"verdict", sentence(column.sampling)}};
    json["relative_noise"] = column.relative_noise;
    if (column.correction) {
        json["corrected"] = correction_json(*column.correction);
    }
    if (column.lines) {
        json["wavelengths"] = lines_json(*column.lines);
    }
    return json;
}

Json answer_json(const SpectrumAnswer& answer) {
    Json json = {{"schema", "samelight/spectrum/1"},
                 {"version", version},
                 {"source", answer.source},
                 {"unit", unit_text(answer)},
                 {"first_nm", answer.first_nm},
                 {"last_nm", answer.last_nm},
                 {"least_step_nm", answer.least_step_nm},
                 {"largest_step_nm", answer.largest_step_nm}};
    if (answer.bandwidth_nm) {
        json["bandwidth_taken_out_nm"] = *answer.bandwidth_nm;
    }
    if (answer.shift_nm) {
        json["shift_taken_out_nm"] = *answer.shift_nm;
    }
    json["columns"] = Json::array();
    for (const assess::ColumnPart& column : answer.columns) {
        json["columns"].push_back(column_json(column));
    }
    json["understood"] = answer.understood;
    json["warnings"] = warnings_json(answer.warnings);
    return json;
}

}  // namespace

std::string spectrum_json(const SpectrumAnswer& answer) { return json_text(answer_json(answer)); }

std::string spectra_json(const SpectraAnswer& answer) {
    if (answer.asked == 1) return spectrum_json(answer.files.front());
    Json json = {{"schema", "samelight/spectra/1"}, {"version", version}};
    json["files"] = Json::array();
    for (const SpectrumAnswer& file : answer.files) {
        json["files"].push_back(answer_json(file));
    }
    json["errors"] = errors_json(answer.errors);
    return json_text(json);
}

}  // namespace samelight::report
