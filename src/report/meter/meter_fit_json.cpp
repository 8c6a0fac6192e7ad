#include <cmath>
#include <span>
#include <string>

#include <nlohmann/json.hpp>

#include "report/meter/meter_fit_verdict.hpp"
#include "report/warnings/odd_luminance_words.hpp"
#include "report/words/error_parts.hpp"
#include "report/words/json_parts.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/drift.hpp"
#include "samelight/meter/readings/odd_luminances.hpp"
#include "samelight/meter/readings/outliers.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/selection/plan.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/fit_words.hpp"
#include "samelight/report/meter_fit_answer.hpp"

namespace samelight::report {
namespace {

using Json = nlohmann::ordered_json;

Json rows(std::span<const double> values, std::size_t columns) {
    Json result = Json::array();
    for (std::size_t i = 0; i < values.size(); i += columns) {
        Json row = Json::array();
        for (const double v : values.subspan(i, columns)) {
            row.push_back(number_json(v));
        }
        result.push_back(row);
    }
    return result;
}

Json spread_json(const Spread& s) {
    return {{"mean", s.mean}, {"root_mean_square", s.root_mean_square}, {"largest", s.largest}};
}

Json summary_json(const ErrorSummary& s) {
    return {{"count", s.count},
            {"xy", spread_json(s.xy)},
            {"uv", spread_json(s.uv)},
            {"luminance_relative", spread_json(s.luminance)},
            {"de00", s.de00 ? spread_json(*s.de00) : Json(nullptr)}};
}

Json proven_json(const std::vector<ProvenError>& errors) {
    Json readings = Json::array();
    for (const ProvenError& e : errors) {
        readings.push_back({{"patch", e.patch},
                            {"repeat", e.round > 0 ? Json(e.round) : Json(nullptr)},
                            {"error", error_json(e.error)}});
    }
    return {{"summary", errors.empty() ? Json(nullptr) : summary_json(summarise(errors))},
            {"readings", readings}};
}

Json correction_json(const MeterFitAnswer& answer) {
    const Correction& c = answer.stored.correction;
    Json json = {{"method", code_of(c.method)},
                 {"observer", c.observer},
                 {"reference_from_meter", rows(c.reference_from_meter, 3)},
                 {"luminance_factor", c.luminance_factor},
                 {"xyz_from_meter", rows(c.xyz_from_meter(), 3)},
                 {"condition_number", c.condition_number},
                 {"raw_channels", c.raw_channels},
                 {"noise_from", noise_text(answer)},
                 {"covariance", nullptr},
                 {"degrees_of_freedom", nullptr},
                 {"valid_near", nullptr}};
    if (c.covariance) {
        const bool known = c.covariance->luminance_known;
        json["covariance"] = {
            {"reference_from_meter", rows(c.covariance->elements, 9)},
            {"with_luminance_factor", known ? Json(c.covariance->with_luminance) : Json(nullptr)},
            {"luminance_factor", known ? Json(c.covariance->luminance) : Json(nullptr)}};
        json["degrees_of_freedom"] = number_json(c.degrees_of_freedom);
    }
    if (c.valid_near) {
        json["valid_near"] = {
            {"x", c.valid_near->x}, {"y", c.valid_near->y}, {"radius", c.valid_near->radius}};
    }
    return json;
}

Json xyz_json(const std::array<double, 3>& xyz) {
    const auto v = xyY_from_xyz(xyz);
    return {{"x", v[0]}, {"y", v[1]}, {"luminance_cd_m2", v[2]}};
}

Json certainty_json(const Certainty& c) {
    constexpr double coverage = 0.95;
    const auto half = c.half_widths(coverage);
    Json region = nullptr;
    const Ellipse e = c.region(coverage);
    if (std::isfinite(e.semi_major)) {
        region = {{"semi_major_xy", e.semi_major},
                  {"semi_minor_xy", e.semi_minor},
                  {"angle_deg", e.angle_deg}};
    }
    return {
        {"of", "a later reading that says the meter's mean white and is put through the matrix"},
        {"includes",
         {"scatter of both instruments' readings behind the matrix, x, y and Y of "
          "repeats averaged",
          "rounding of their digits"}},
        {"leaves_out",
         {"scatter of the later reading itself", "drift", "error of the reference",
          "what no matrix corrects"}},
        {"coverage", coverage},
        {"half_width_x", number_json(half[0])},
        {"half_width_y", number_json(half[1])},
        {"half_width_luminance_relative", number_json(half[2])},
        {"covariance_x_y_relative_luminance", rows(c.covariance, 3)},
        {"degrees_of_freedom_xy", number_json(c.xy_degrees_of_freedom)},
        {"region", region}};
}

Json white_json(const MeterFitAnswer& answer) {
    if (!answer.white) {
        return nullptr;
    }
    Json json = {
        {"meter", xyz_json(answer.white->meter)},
        {"reference", xyz_json(answer.white->reference)},
        {"corrected", xyz_json(answer.stored.correction.corrected_xyz(answer.white->meter))},
        {"certainty", nullptr},
        {"bootstrap", nullptr}};
    if (answer.quality.white) {
        json["certainty"] = certainty_json(*answer.quality.white);
    }
    if (answer.bootstrap) {
        const Moments m = answer.bootstrap->corrected(answer.white->meter);
        json["bootstrap"] = {{"of", answer.bootstrap_of},
                             {"resamples", answer.bootstrap->xyz_from_meter.size()},
                             {"left_out_as_dependent", answer.bootstrap->dependent},
                             {"standard_uncertainty_x", m.covariance.standard(0)},
                             {"standard_uncertainty_y", m.covariance.standard(1)},
                             {"standard_uncertainty_luminance_relative", m.covariance.standard(2)}};
    }
    return json;
}

Json drift_json(const std::vector<WhiteDrift>& drift) {
    Json json = Json::array();
    for (const WhiteDrift& d : drift) {
        json.push_back({{"repeat", d.round},
                        {"instrument", code_of(d.instrument)},
                        {"luminance_relative", d.luminance},
                        {"delta_x", d.x},
                        {"delta_y", d.y},
                        {"marked", d.marked()},
                        {"beyond_noise", d.beyond_noise()}});
    }
    return json;
}

Json steady_json(const std::vector<SteadyDrift>& drift) {
    Json json = Json::array();
    for (const SteadyDrift& s : drift) {
        json.push_back({{"rounds", s.rounds},
                        {"instrument", code_of(s.middle.instrument)},
                        {"luminance_relative", s.middle.luminance},
                        {"delta_x", s.middle.x},
                        {"delta_y", s.middle.y}});
    }
    return json;
}

Json odd_json(const std::vector<OddReading>& odd, bool patches) {
    Json json = Json::array();
    for (const OddReading& o : odd) {
        Json one = {{"patch", o.patch}};
        if (!patches) {
            one["repeat"] = o.round;
            one["reading_in_repeat"] = o.reading;
            one["instrument"] = code_of(o.instrument);
        }
        one["quantity"] = o.quantity;
        one["deviation"] = o.deviation;
        one["times_usual_scatter"] = o.times_usual;
        json.push_back(one);
    }
    return json;
}

Json odd_luminances_json(const std::vector<OddLuminance>& odd) {
    Json json = Json::array();
    for (const OddLuminance& o : odd) {
        json.push_back({{"patch", o.patch},
                        {"repeat", o.round > 0 ? Json(o.round) : Json(nullptr)},
                        {"by", read_by_text(o.by ? code_of(*o.by) : "both")},
                        {"times", o.times},
                        {"beside", beside_text(code_of(o.beside))}});
    }
    return json;
}

Json others_json(const MeterFitAnswer& answer) {
    Json json = Json::array();
    for (const assess::OtherMethod& o : answer.other_methods) {
        Json one = {{"method", code_of(o.method)}};
        if (!o.refusal.empty()) {
            one["refusal"] = o.refusal;
        } else {
            one["white_x"] = o.white_xy ? Json((*o.white_xy)[0]) : Json(nullptr);
            one["white_y"] = o.white_xy ? Json((*o.white_xy)[1]) : Json(nullptr);
            one["half_width_x"] = o.half_widths ? number_json((*o.half_widths)[0]) : Json(nullptr);
            one["half_width_y"] = o.half_widths ? number_json((*o.half_widths)[1]) : Json(nullptr);
            one["left_out_xy"] = o.left_out_xy ? Json(*o.left_out_xy) : Json(nullptr);
        }
        json.push_back(one);
    }
    return json;
}

Json plan_json(const MeterFitAnswer& answer) {
    Json next = Json::array();
    for (const NextPatch& n : answer.next) {
        next.push_back({{"patch", n.patch},
                        {"standard_uncertainty_xy_after", n.standard_uncertainty},
                        {"reduction", n.reduction}});
    }
    const FitJudgement& judged = answer.judgement;
    Json again = nullptr;
    if (!judged.again_patch.empty() || judged.again_round > 0) {
        again = {{"patch", judged.again_patch.empty() ? Json(nullptr) : Json(judged.again_patch)},
                 {"repeat", judged.again_round > 0 ? Json(judged.again_round) : Json(nullptr)}};
    }
    Json json = {{"wanted_half_width_xy", answer.wanted_half_width},
                 {"stop", nullptr},
                 {"code", "unknown"},
                 {"message", "Without repeats nothing can be planned."},
                 {"half_width_xy", nullptr},
                 {"more_rounds", nullptr},
                 {"read_again", again},
                 {"next_patches", next}};
    if (answer.advice) {
        json["stop"] = answer.advice->stop;
        json["code"] = code_of(answer.advice->reason);
        json["message"] = sentence(*answer.advice, answer.judgement);
        json["half_width_xy"] = number_json(answer.advice->half_width);
        json["more_rounds"] =
            answer.advice->more_rounds ? Json(*answer.advice->more_rounds) : Json(nullptr);
    }
    return json;
}

Json patches_json(const MeterFitAnswer& answer) {
    Json json = Json::array();
    for (const PatchResidual& r : answer.stored.correction.residuals) {
        json.push_back({{"patch", r.patch},
                        {"fitted", r.fitted},
                        {"before", error_json(r.before)},
                        {"after", error_json(r.after)}});
    }
    return json;
}

Json black_json(const std::optional<Black>& black) {
    if (!black) {
        return nullptr;
    }
    Json json = {{"pairs", black->count}};
    for (const Instrument instrument : {Instrument::reference, Instrument::meter}) {
        const BlackReading& b = black->of(instrument);
        json[code_of(instrument)] = {{"luminance_cd_m2", b.xyz[1]},
                                     {"noise_cd_m2", b.noise ? Json(*b.noise) : Json(nullptr)},
                                     {"taken_off", b.above_noise()}};
    }
    return json;
}

}  // namespace

std::string meter_fit_json(const MeterFitAnswer& answer) {
    Json elsewhere = Json::array();
    for (const assess::OtherDisplay& other : answer.other_displays) {
        elsewhere.push_back({{"file", other.name},
                             {"verdict", code_of(other.found.verdict)},
                             {"before", summary_json(other.found.before)},
                             {"after", summary_json(other.found.after)}});
    }
    const bool proven = !answer.quality.left_out.empty();
    const bool compared = proven && !answer.stored.correction.raw_channels;
    const Json json = {
        {"schema", "samelight/meter-fit/1"},
        {"version", version},
        {"file", answer.name},
        {"verdict",
         {{"code", code_of(answer.judgement.verdict)},
          {"reason", sentence(answer.judgement)},
          {"reason_code", code_of(answer.judgement.reason)},
          {"left_out_xy_before", compared ? Json(answer.judgement.proof_before) : Json(nullptr)},
          {"left_out_xy_after", proven ? Json(answer.judgement.proof_after) : Json(nullptr)}}},
        {"other_displays", elsewhere},
        {"readings",
         {{"pairs", answer.pair_count},
          {"patches", answer.patch_count},
          {"repeats", answer.round_count},
          {"averaged", {"x", "y", "Y"}}}},
        {"correction", correction_json(answer)},
        {"white", white_json(answer)},
        {"patches", patches_json(answer)},
        {"left_out", proven_json(answer.quality.left_out)},
        {"repeated", proven_json(answer.quality.repeated)},
        {"drift", drift_json(answer.quality.drift)},
        {"steady_drift", steady_json(answer.quality.steady_drift)},
        {"odd_readings", odd_json(answer.quality.odd_readings, false)},
        {"odd_patches", odd_json(answer.quality.odd_patches, true)},
        {"odd_luminances", odd_luminances_json(answer.quality.odd_luminances)},
        {"other_methods", others_json(answer)},
        {"plan", plan_json(answer)},
        {"black", black_json(answer.black)},
        {"understood", answer.understood},
        {"warnings", warnings_json(answer.warnings)},
        {"errors", errors_json(answer.errors)}};
    return json_text(json);
}

}  // namespace samelight::report
