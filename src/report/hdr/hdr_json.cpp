#include <optional>
#include <string>

#include <nlohmann/json.hpp>

#include "report/words/json_parts.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/check/hdr_answer.hpp"

namespace samelight::report {
namespace {

using HdrJson = nlohmann::ordered_json;

HdrJson or_null(const std::optional<double>& value) {
    return value ? HdrJson(*value) : HdrJson(nullptr);
}

HdrJson hdr_white_json(const assess::HdrWhite& white) {
    const auto at = xyY_from_xyz(white.xyz);
    return {{"window_pct", white.window_pct},
            {"Y_cd_m2", white.xyz[1]},
            {"x", number_json(at[0])},
            {"y", number_json(at[1])},
            {"readings", white.readings},
            {"spread_relative", white.spread},
            {"fade_relative", or_null(white.fade)},
            {"fade_s", or_null(white.fade_s)},
            {"drift_uv", number_json(white.drift_uv)},
            {"off_chosen_xy", or_null(white.off_chosen_xy)},
            {"sum_over_white", or_null(white.sum_over_white)}};
}

HdrJson limiter_json(const LimiterOnset& limiter) {
    return {{"peak_cd_m2", limiter.peak_cd_m2},
            {"peak_window_pct", limiter.peak_window_pct},
            {"holds_to_pct", or_null(limiter.holds_to_pct)},
            {"falls_at_pct", or_null(limiter.falls_at_pct)},
            {"largest_over_peak", limiter.largest_over_peak},
            {"noise_relative", limiter.noise},
            {"fall_relative", limiter.fall}};
}

HdrJson pq_fit_json(const PqFit& fit) {
    return {{"peak_cd_m2", fit.peak_cd_m2},
            {"programme_cd_m2", or_null(fit.programme_cd_m2)},
            {"knee_signal", fit.knee_signal},
            {"knee_cd_m2", fit.knee_cd_m2},
            {"residual_de_itp", fit.residual_itp}};
}

HdrJson tracking_json(const PqTracking& tracking) {
    HdrJson greys = HdrJson::array();
    for (const PqGrey& grey : tracking.greys) {
        greys.push_back({{"signal", grey.signal},
                         {"Y_cd_m2", grey.read},
                         {"pq_cd_m2", grey.pq},
                         {"off_de_itp", grey.off_itp},
                         {"residual_de_itp", grey.residual_itp}});
    }
    return {{"end", code_of(tracking.end)},
            {"window_pct", tracking.window_pct},
            {"black_cd_m2", tracking.black_cd_m2},
            {"lifted_to_cd_m2", tracking.lifted_to_cd_m2},
            {"clip", pq_fit_json(tracking.clip)},
            {"roll_off", pq_fit_json(tracking.roll_off)},
            {"leaves_at_signal", or_null(tracking.leaves_at_signal)},
            {"tracking_de_itp", tracking.tracking_itp},
            {"worst_tracking_de_itp", tracking.worst_tracking_itp},
            {"greys", std::move(greys)}};
}

}  // namespace

std::string hdr_json(const HdrAnswer& answer) {
    HdrJson json = {{"schema", "samelight/hdr/1"}, {"version", version}};
    json["verdict"] = code_of(answer.verdict);
    json["missing"] = HdrJson::array();
    for (const assess::HdrMissing missing : answer.missing) {
        json["missing"].push_back(code_of(missing));
    }
    json["windows"] = HdrJson::array();
    for (const assess::HdrWhite& white : answer.whites) {
        json["windows"].push_back(hdr_white_json(white));
    }
    json["reference_window_pct"] = answer.whites.empty()
                                       ? HdrJson(nullptr)
                                       : HdrJson(answer.whites[answer.reference].window_pct);
    json["limiter"] = answer.limiter ? limiter_json(*answer.limiter) : HdrJson(nullptr);
    json["tracking"] = answer.tracking ? tracking_json(*answer.tracking) : HdrJson(nullptr);
    json["no_tracking"] =
        answer.ladder.obstacle ? HdrJson(code_of(*answer.ladder.obstacle)) : HdrJson(nullptr);
    json["greys_read"] = answer.ladder.greys.size();
    json["greys_too_dark"] = answer.ladder.too_dark;
    json["greys_wanted"] = fewest_pq_greys;
    json["windows_supposed"] = answer.windows_supposed;
    json["limits"] = {{"white_off_xy", assess::HdrAnswer::white_off_xy},
                      {"white_moves_uv", assess::HdrAnswer::white_moves_uv},
                      {"tracks_de_itp", assess::HdrAnswer::tracks_itp},
                      {"fades_relative", assess::HdrAnswer::fades},
                      {"adds_up", assess::HdrAnswer::adds_up}};
    json["corrected"] = answer.corrected;
    json["understood"] = answer.understood;
    json["warnings"] = warnings_json(answer.warnings);
    return json_text(json);
}

}  // namespace samelight::report
