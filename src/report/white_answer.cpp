#include "samelight/report/white_answer.hpp"

#include <cmath>
#include <utility>

#include "samelight/io/named_lights.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::report {
namespace {

std::vector<Observer> observers_of(const WhiteRequest& request) {
    if (request.observers.empty()) {
        return {standard_observer<Cie2015_2deg>(), standard_observer<Cie2015_10deg>()};
    }
    std::vector<Observer> result;
    for (const std::string& id : request.observers) {
        result.push_back(observer_named(id));
    }
    return result;
}

/// Directions suffice to tune a base; whose they are is what the answer rests on.
std::string foundation(const io::NamedPanel& named, bool as_it_stands) {
    const std::string whose = named.model != nullptr ? "a generic model of this type, not this unit"
                                                     : "this unit's own spectra";
    if (as_it_stands) {
        return "the white as measured on the set; only the directions of red, green and blue come from " +
               whose + ".";
    }
    std::string black = " Black was not measured: it is inside the primaries.";
    if (named.panel.black_known()) {
        black = " Black was taken from every column and added once to the white.";
    }
    return whose + "." +
           (named.model != nullptr ? " Measure red, green, blue and white for four places."
                                   : black);
}

PanelPart part_of(const WhiteRequest& request, const std::string& text, const Reference& reference,
                  const std::vector<Observer>& observers) {
    const io::NamedPanel named = io::open_panel(text, request.sampling);
    PanelPart part;
    part.generic = named.model != nullptr;
    part.title = part.generic ? std::string(named.model->title()) : "";
    part.understood = named.understood;
    TargetOptions options;
    options.instrument_noise_xy = request.instrument_noise_xy;
    std::vector<Warning> warnings = named.warnings;
    if (!request.now.empty() && named.set_to) {
        throw Error(ErrorKind::input, text, "a white as set (@x,y) and one as it stands",
                    "one of the two: the panel without @x,y, or no file of the white now");
    }
    if (!request.now.empty()) {
        const io::NamedLight now = io::open_light(request.now, request.sampling);
        part.understood.insert(part.understood.end(), now.understood.begin(), now.understood.end());
        warnings.insert(warnings.end(), now.warnings.begin(), now.warnings.end());
        options.now = now.light;
    } else if (named.set_to) {
        const Match set = set_white(named.panel, *named.set_to);
        options.now = SampledLight{request.sampling, set.light, 0.0};
    }
    part.as_it_stands = options.now.has_value();
    part.rests_on = foundation(named, part.as_it_stands && !request.now.empty());
    part.targets = white_targets(named.panel, reference, observers, options);
    part.targets.warnings.insert(part.targets.warnings.begin(), warnings.begin(), warnings.end());
    for (const Observer& observer : observers) {
        part.ranges.push_back(part.generic && request.now.empty()
                                  ? std::optional(type_range(*named.model, reference, observer))
                                  : std::nullopt);
    }
    return part;
}

}  // namespace

WhiteAnswer answer_white(const WhiteRequest& request) {
    if (!request.now.empty() && request.panels.size() != 1) {
        throw Error(ErrorKind::input, "the white as it stands",
                    std::to_string(request.panels.size()) + " panels", "one panel, that set's own");
    }
    if (!(request.instrument_noise_xy > 0.0) || !(request.instrument_noise_xy < 0.1)) {
        throw Error(ErrorKind::input, "instrument noise", to_text(request.instrument_noise_xy),
                    "a standard deviation of x and y above 0 and below 0.1, such as 0.0005");
    }
    const std::vector<Observer> observers = observers_of(request);
    io::NamedReference reference = io::open_reference(request.reference, request.sampling);
    WhiteAnswer answer{std::move(reference.reference),
                       std::move(reference.understood),
                       {},
                       request.instrument_noise_xy,
                       {}};
    for (const Observer& observer : observers) {
        answer.tables.push_back(observer.id() + ": " + observer.edition());
    }
    for (const std::string& text : request.panels) {
        answer.panels.push_back(part_of(request, text, answer.reference, observers));
    }
    return answer;
}

}  // namespace samelight::report
