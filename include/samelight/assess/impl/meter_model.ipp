#pragma once
// The bodies of assess/meter_model.hpp.

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "samelight/assess/listed_panel.hpp"
#include "samelight/assess/meter_model.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_as_shown.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/stored_correction.hpp"
#include "samelight/meter/model/mismatch.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/meter/model/model_uncertainty.hpp"
#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline std::vector<assess::FourEmitterWay> four_emitter_ways(const Sensitivities& meter,
                                                             const Panel& panel,
                                                             const Observer& observer) {
    std::vector<assess::FourEmitterWay> ways;
    for (const SpectraMethod method : {SpectraMethod::white_exact, SpectraMethod::least_squares,
                                       SpectraMethod::primaries_exact}) {
        const auto left = correction_from_spectra(meter, panel, observer, {method, {}}).residuals;
        ways.push_back({method, left[3].after.xy(),
                        std::max({left[0].after.xy(), left[1].after.xy(), left[2].after.xy()})});
    }
    return ways;
}

inline void warn_about_model(const Observer& observer, assess::MeterModelAnswer& answer) {
    const double factor = answer.stored.correction.luminance_factor;
    if (!(factor > 0.5 && factor < 2.0)) {
        answer.warnings.push_back(Warning{"row_scale_odd", {{"factor", factor}}});
    }
    const double y = answer.mismatch->channels[1].index;
    if (y > 0.2 && answer.verdict != assess::ModelVerdict::do_not_use) {
        answer.warnings.push_back(Warning{"rows_far_off", {{"off_percent", 100.0 * y}}});
    }
    for (const ChannelMismatch& channel : answer.mismatch->channels) {
        for (const LobeMismatch& lobe : channel.lobes) {
            if (!lobe.centroid_shift_nm) {
                answer.warnings.push_back(Warning{
                    "lobe_missing",
                    {{"channel", channel.name}, {"from_nm", lobe.from_nm}, {"to_nm", lobe.to_nm}}});
            }
        }
    }
    if (answer.meter.observer && answer.meter.rows.observer == observer.id()) {
        answer.warnings.push_back(Warning{"meter_is_observer"});
    }
}

/// Rows that no filter meter has: said before all else, and no word of use.
inline void judge_rows(assess::MeterModelAnswer& answer) {
    answer.verdict = answer.generic ? assess::ModelVerdict::use_on_type : assess::ModelVerdict::use;
    const auto flag = answer.meter.observer ? std::nullopt : rows_flag(*answer.mismatch);
    if (flag) {
        answer.verdict = assess::ModelVerdict::do_not_use;
        answer.stored.correction.verdict = FitVerdict::do_not_use;
        answer.warnings.insert(answer.warnings.begin(), *flag);
    }
}

/// What a corrected meter must read of a light, on any panel.
inline assess::MeterAim aim_at(const Reference& reference, const Observer& observer) {
    const auto xy = chromaticity(tristimulus(observer, reference.light));
    return {reference.name, {xy.x(), xy.y()}, {xy.x(), xy.y(), 1.0 - xy.x() - xy.y()}};
}

inline void append_model_warnings(const std::vector<Warning>& from, std::vector<Warning>& to) {
    to.insert(to.end(), from.begin(), from.end());
}

inline Provenance provenance_of_model(const assess::MeterModelRequest& request) {
    Provenance result = request.provenance;
    if (result.panel.empty()) {
        result.panel = request.panel.name;
    }
    if (result.meter_instrument.empty()) {
        result.meter_instrument = request.meter.rows.observer;
    }
    return result;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE MeterModelAnswer answer_meter_model(const MeterModelRequest& request) {
    const Observer& observer = request.observer;
    const Panel panel = panel_as_shown(request.panel.panel, request.panel.set_to);
    MeterModelAnswer answer{request.meter};
    const Sensitivities& rows = answer.meter.rows;
    answer.panel = request.panel.name;
    answer.generic = request.panel.model != nullptr;
    answer.panel_title = answer.generic ? std::string(request.panel.model->title()) : "";
    answer.observer_title = observer.title();
    answer.cones = observer.receptors() == Receptors::cones;
    answer.warnings = answer.meter.warnings;
    detail::append_model_warnings(request.panel.warnings, answer.warnings);
    answer.stored.correction = correction_from_spectra(
        rows, panel, observer, {request.method, detail::provenance_of_model(request)});
    answer.stored.panel_spectra = stored_spectra(panel);
    answer.mismatch = meter_mismatch(rows, standard_observer<Cie1931_2deg>());
    answer.white_factors =
        mismatch_factors(rows, standard_observer<Cie1931_2deg>(),
                         {panel.sampling(), {panel.white().begin(), panel.white().end()}, 0.0});
    answer.uncertainty = model_uncertainty({rows, panel, observer}, answer.stored.correction);
    if (panel.white_is_base()) {
        answer.ways = detail::four_emitter_ways(rows, panel, observer);
    }
    if (request.reference) {
        answer.aim = detail::aim_at(*request.reference, observer);
        detail::append_model_warnings(request.reference->warnings, answer.warnings);
    }
    detail::append_model_warnings(answer.stored.correction.warnings, answer.warnings);
    detail::judge_rows(answer);
    detail::warn_about_model(observer, answer);
    answer.residuals = answer.stored.correction.residuals;
    if (answer.cones) {
        answer.stored.correction.residuals.clear();
    }
    return answer;
}

}  // namespace samelight::assess
