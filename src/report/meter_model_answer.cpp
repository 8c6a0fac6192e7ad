#include "samelight/report/meter_model_answer.hpp"
#include "samelight/colour/adaptation.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/io/meter_rows.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/meter/correction.hpp"
#include "samelight/meter/mismatch.hpp"
#include "samelight/meter/model.hpp"
#include "samelight/meter/model_doubt.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"

#include <algorithm>
#include <utility>

#include "meter_panels.hpp"

namespace samelight::report {
namespace {

std::optional<SpectraMethod> method_named(const std::string& name) {
    if (name == "auto") {
        return {};
    }
    if (name == "primaries") {
        return SpectraMethod::primaries_exact;
    }
    if (name == "least-squares") {
        return SpectraMethod::least_squares;
    }
    if (name == "white") {
        return SpectraMethod::white_exact;
    }
    throw Error(ErrorKind::input, "method", "\"" + name + "\"",
                "auto, primaries, least-squares or white");
}

std::vector<FourEmitterWay> four_emitter_ways(const Sensitivities& meter, const Panel& panel,
                                              const Observer& observer) {
    std::vector<FourEmitterWay> ways;
    for (const SpectraMethod method : {SpectraMethod::white_exact, SpectraMethod::least_squares,
                                       SpectraMethod::primaries_exact}) {
        const auto left = correction_from_spectra(meter, panel, observer, {method, {}}).residuals;
        ways.push_back({method, left[3].after.xy(),
                        std::max({left[0].after.xy(), left[1].after.xy(), left[2].after.xy()})});
    }
    return ways;
}

void warn_about_model(const MeterModelRequest& request, MeterModelAnswer& answer) {
    const double factor = answer.stored.correction.luminance_factor;
    if (!(factor > 0.5 && factor < 2.0)) {
        answer.warnings.push_back(
            {"row_scale_odd",
             "Luminance is off by a factor of " + to_text(factor, 3) +
                 ": the rows' scale isn't that of CIE functions. Chromaticities are right all the "
                 "same where the three rows have one scale; otherwise say --scale-on-a."});
    }
    const double y = answer.mismatch->channels[1].index;
    if (y > 0.2 && answer.verdict != ModelVerdict::do_not_use) {
        answer.warnings.push_back(
            {"rows_far_off", "The second row is " + to_text(100.0 * y, 0) +
                                 " % off V(lambda) (f1'): are the columns in the order X, Y, Z?"});
    }
    for (const ChannelMismatch& channel : answer.mismatch->channels) {
        for (const LobeMismatch& lobe : channel.lobes) {
            if (!lobe.centroid_shift_nm) {
                answer.warnings.push_back(
                    {"lobe_missing", "The row for " + channel.name +
                                         " holds no answer to light of " + to_text(lobe.from_nm) +
                                         "-" + to_text(lobe.to_nm) + " nm, where " + channel.name +
                                         " has a part of its own: is the column whole?"});
            }
        }
    }
    if (request.meter == request.observer) {
        answer.warnings.push_back(
            {"meter_is_observer", "The meter is the observer: the correction changes nothing."});
    }
}

/// Rows that no filter meter has: said before all else, and no word of use.
void judge_rows(MeterModelAnswer& answer) {
    answer.verdict = answer.generic ? ModelVerdict::use_on_type : ModelVerdict::use;
    const auto doubt = answer.meter.observer ? std::nullopt : doubt_about_rows(*answer.mismatch);
    if (doubt) {
        answer.verdict = ModelVerdict::do_not_use;
        answer.stored.correction.verdict = FitVerdict::do_not_use;
        answer.warnings.insert(answer.warnings.begin(), *doubt);
    }
}

}  // namespace

MeterModelAnswer answer_meter_model(const MeterModelRequest& request) {
    const std::optional<SpectraMethod> method = method_named(request.method);
    const Observer observer = observer_named(request.observer);
    MeterModelAnswer answer{io::open_meter(request.meter, request.scale_on_a, request.sampling)};
    const io::NamedPanel named = io::open_panel(request.panel, request.sampling);
    const Panel panel = panel_as_shown(named);
    const Sensitivities& rows = answer.meter.rows;
    answer.panel = request.panel;
    answer.generic = named.model != nullptr;
    answer.panel_title = answer.generic ? std::string(named.model->title()) : "";
    answer.observer_title = observer.title();
    answer.cones = observer.receptors() == Receptors::cones;
    say_how_read(request.meter, answer.meter.understood, answer.understood);
    say_how_read(request.panel, named.understood, answer.understood);
    answer.warnings = answer.meter.warnings;
    answer.warnings.insert(answer.warnings.end(), named.warnings.begin(), named.warnings.end());
    SpectraOptions options{method, request.provenance};
    if (options.provenance.panel.empty()) {
        options.provenance.panel = request.panel;
    }
    if (options.provenance.meter_instrument.empty()) {
        options.provenance.meter_instrument = request.meter;
    }
    answer.stored.correction = correction_from_spectra(rows, panel, observer, options);
    answer.stored.panel_spectra = stored_spectra(panel);
    answer.mismatch = meter_mismatch(rows, standard_observer<Cie1931_2deg>());
    answer.white_factors =
        mismatch_factors(rows, standard_observer<Cie1931_2deg>(),
                         {panel.sampling(), {panel.white().begin(), panel.white().end()}, 0.0});
    answer.doubt = model_doubt(rows, panel, observer, answer.stored.correction);
    if (panel.white_is_base()) {
        answer.ways = four_emitter_ways(rows, panel, observer);
    }
    if (!request.reference.empty()) {
        const auto reference = io::open_reference(request.reference, request.sampling).reference;
        const auto xy = chromaticity(tristimulus(observer, reference.light));
        answer.aim =
            MeterAim{reference.name, {xy.x(), xy.y()}, {xy.x(), xy.y(), 1.0 - xy.x() - xy.y()}};
        answer.warnings.insert(answer.warnings.end(), reference.warnings.begin(),
                               reference.warnings.end());
    }
    const auto& more = answer.stored.correction.warnings;
    answer.warnings.insert(answer.warnings.end(), more.begin(), more.end());
    judge_rows(answer);
    warn_about_model(request, answer);
    answer.residuals = answer.stored.correction.residuals;
    if (answer.cones) {
        answer.stored.correction.residuals.clear();
    }
    return answer;
}

}  // namespace samelight::report
