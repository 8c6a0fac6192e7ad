#include "samelight/report/meter_model_answer.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/meter_model.hpp"
#include "samelight/io/meter_rows.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"

#include <exception>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "report/words/meter_panels.hpp"
#include "report/words/numbers_typed.hpp"

namespace samelight::report {
namespace {

std::optional<SpectraMethod> spectra_method_named(const std::string& name) {
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

/// The light to aim at; what is wrong with it is said only once nothing before it is refused.
std::exception_ptr open_aim(const MeterModelRequest& request, assess::MeterModelRequest& asked) {
    try {
        if (!request.reference.empty()) {
            asked.reference = reference_typed(request.reference, request.sampling).reference;
        }
    } catch (const Error&) {
        return std::current_exception();
    }
    return nullptr;
}

}  // namespace

MeterModelAnswer answer_meter_model(const MeterModelRequest& request) {
    const std::optional<SpectraMethod> method = spectra_method_named(request.method);
    Observer observer = observer_named(request.observer);
    io::NamedMeter meter = assess::about({request.meter}, [&] {
        return io::open_meter(request.meter,
                              request.scale_on_a ? RowScale::illuminant_a : RowScale::as_given,
                              request.sampling);
    });
    std::vector<std::string> understood;
    say_how_read(request.meter, meter.understood, understood);
    assess::MeterModelRequest asked{std::move(meter),
                                    only_panel(request.panels, request.lights, request.sampling),
                                    std::move(observer), method};
    say_how_read(asked.panel.name, asked.panel.understood, understood);
    asked.provenance = request.provenance;
    const std::exception_ptr not_opened = open_aim(request, asked);
    MeterModelAnswer answer{assess::about({request.meter + " with " + asked.panel.name},
                                          [&] { return assess::answer_meter_model(asked); }),
                            std::move(understood)};
    if (not_opened) {
        std::rethrow_exception(not_opened);
    }
    return answer;
}

}  // namespace samelight::report
