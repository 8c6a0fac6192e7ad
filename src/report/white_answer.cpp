#include "samelight/report/white_answer.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>
#include <utility>

#include "samelight/io/named_lights.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/budget.hpp"
#include "samelight/white/room.hpp"
#include "samelight/white/type_range.hpp"
#include "white_people.hpp"

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
    if (named.panel.black_known() && !named.panel.black_measurable()) {
        black = " Black is too dark to measure; what was read of it was taken from every column.";
    }
    return whose + "." +
           (named.model != nullptr ? " Measure red, green, blue and white for four places."
                                   : black);
}

/// The panel with its white set as its name says.
SampledLight as_set(const io::NamedPanel& named) {
    return {named.panel.sampling(), set_white(named.panel, *named.set_to).light, 0.0};
}

TargetBudget budget_of(const WhiteRequest& request, const io::NamedPanel& named,
                       const WhiteAnswer& answer, const Observer& observer,
                       const std::optional<SampledLight>& now, const PanelPart& part) {
    BudgetOptions options;
    options.instrument = answer.instrument;
    options.model = named.model;
    options.reference_measured = answer.reference_measured;
    options.additivity_floor_xy = request.additivity_floor_xy;
    options.others = {part.targets.targets.begin() + 1, part.targets.targets.end()};
    options.now = now;
    if (part.population) {
        options.people = part.population->region;
    }
    return target_budget(named.panel, answer.reference, observer, part.targets.targets.front(),
                         options);
}

PanelPart part_of(const WhiteRequest& request, const std::string& text, const io::NamedPanel& named,
                  const WhiteAnswer& answer, const std::vector<Observer>& observers) {
    const Reference& reference = answer.reference;
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
        options.now = as_set(named);
    }
    part.as_it_stands = options.now.has_value();
    part.rests_on = foundation(named, part.as_it_stands && !request.now.empty());
    part.targets = white_targets(named.panel, reference, observers, options);
    part.targets.warnings.insert(part.targets.warnings.begin(), warnings.begin(), warnings.end());
    for (const Observer& observer : observers) {
        part.ranges.push_back(
            part.generic ? std::optional(type_range(*named.model, reference, observer, options))
                         : std::nullopt);
    }
    judge_people(request, named.panel, answer, options.now, part);
    if (part.targets.targets.front().in_gamut()) {
        part.budget = budget_of(request, named, answer, observers.front(), options.now, part);
    }
    return part;
}

/// The ways to set all displays together; none where one of them can't show its white.
std::vector<RoomSetting> room_of(const std::vector<io::NamedPanel>& named,
                                 const std::vector<std::optional<SampledLight>>& now,
                                 const Observer& observer, const WhiteAnswer& answer) {
    std::vector<Panel> panels;
    for (std::size_t p = 0; p < named.size(); ++p) {
        const bool shows_reference =
            now[p].has_value() || set_white(named[p].panel, answer.reference.xy()).in_gamut();
        if (!answer.panels[p].targets.targets.front().in_gamut() || !shows_reference) {
            return {};
        }
        panels.push_back(named[p].panel);
    }
    std::vector<Individual> people;
    for (const Viewer& viewer : answer.viewers) {
        people.push_back(viewer.eye.likeliest);
    }
    if (people.empty()) {
        people = answer.population->individuals();
    }
    return judge_room(panels, answer.reference, observer, people, {now, 1.0});
}

}  // namespace

InstrumentLimits instrument_limits(const std::string& text, double reading_noise_xy) {
    InstrumentLimits limits;
    limits.reading_noise_xy = reading_noise_xy;
    const std::array<std::pair<std::string_view, double*>, 5> keys = {
        {{"shift", &limits.wavelength_shift_nm},
         {"bandwidth", &limits.bandwidth_nm},
         {"stray", &limits.stray_light},
         {"noise", &limits.noise},
         {"step", &limits.step_nm}}};
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(',', at), text.size());
        const std::string_view entry = std::string_view(text).substr(at, end - at);
        const std::size_t equals = std::min(entry.find('='), entry.size());
        const auto key = std::find_if(keys.begin(), keys.end(), [&](const auto& k) {
            return k.first == entry.substr(0, equals);
        });
        const std::optional<double> value =
            samelight::detail::decimal_number(entry.substr(std::min(equals + 1, entry.size())));
        if (key == keys.end() || !value) {
            throw Error(ErrorKind::input, "instrument \"" + text + "\"",
                        "can't read \"" + std::string(entry) + "\"",
                        "shift, bandwidth, step (nm), stray, noise (of the peak), such as"
                        " bandwidth=5,shift=0.3");
        }
        *key->second = *value;
        at = end + 1;
    }
    samelight::detail::require_limits(limits);
    return limits;
}

WhiteAnswer answer_white(const WhiteRequest& request) {
    if (request.panels.empty()) {
        throw Error(ErrorKind::input, "white", "no panel", "at least one");
    }
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
                       reference.measured,
                       {},
                       request.instrument_noise_xy,
                       instrument_limits(request.instrument, request.instrument_noise_xy),
                       {},
                       {},
                       {},
                       {},
                       {}};
    answer.population = population_of(request, answer.viewer_notes);
    name_viewers(request.viewers, answer.viewers, answer.viewer_notes);
    for (const Observer& observer : observers) {
        answer.tables.push_back(observer.id() + ": " + observer.edition());
    }
    std::vector<io::NamedPanel> panels;
    for (const std::string& text : request.panels) {
        panels.push_back(io::open_panel(text, request.sampling));
    }
    learn_from_eyes(request.eyes, panels.front().panel, answer);
    std::vector<std::optional<SampledLight>> now;
    for (std::size_t i = 0; i < panels.size(); ++i) {
        answer.panels.push_back(part_of(request, request.panels[i], panels[i], answer, observers));
        now.push_back(panels[i].set_to ? std::optional(as_set(panels[i])) : std::nullopt);
    }
    if (panels.size() > 1) {
        answer.room = room_of(panels, now, observers.front(), answer);
    }
    return answer;
}

}  // namespace samelight::report
