#include "samelight/report/white_answer.hpp"
#include "samelight/assess/white.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/report/error_list.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/uncertainty.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>

#include "report/white/white_asked.hpp"
#include "report/white/white_texts.hpp"
#include "report/words/viewers_typed.hpp"

namespace samelight::report {
namespace {

void require_options(const WhiteRequest& request) {
    const std::size_t in_options = io::places_in_options(request.lights).empty() ? 0 : 1;
    samelight::detail::require_panels(request.panels.size() + in_options);
    samelight::detail::require_additivity_floor(request.additivity_floor_xy, "--floor");
    samelight::detail::require_reading_noise(request.instrument_noise_xy);
}

void require_one_display(const WhiteRequest& request, std::size_t displays) {
    if (!request.now.empty() && displays != 1) {
        throw Error(ErrorKind::input, "the white as it stands",
                    std::to_string(displays) + " panels", "one panel, that set's own");
    }
}

assess::WhiteReference reference_of(const WhiteRequest& request) {
    io::NamedReference named = io::open_reference(request.reference, request.sampling);
    return {std::move(named.reference),
            named.measured,
            {std::move(named.understood), {}, named.step_nm}};
}

/// What the panel's white starts from: as its name says, or as a file of the moment says.
assess::WhiteBefore white_before(const WhiteRequest& request, const std::string& text,
                                 const io::NamedPanel& named) {
    if (!request.now.empty() && named.set_to) {
        throw Error(ErrorKind::input, text, "a white as set (@x,y) and one as it stands",
                    "one of the two: the panel without @x,y, or no file of the white now");
    }
    if (!request.now.empty()) {
        io::NamedLight now = io::open_light(request.now, request.sampling);
        return {WhiteAsItStands{std::move(now.light)},
                {std::move(now.understood), std::move(now.warnings), now.step_nm}};
    }
    if (named.set_to) {
        return {WhiteSetTo{*named.set_to}};
    }
    return {};
}

/// The displays that can be opened; what was wrong with the others.
std::vector<Error> open_panels(const WhiteRequest& request, assess::WhiteRequest& asked) {
    io::OpenedDisplays opened = io::open_displays(request.panels, request.lights, request.sampling);
    // What was set by eye belongs to the first of all displays, which mustn't be another one.
    const std::size_t least =
        request.eyes.empty() ? 1 : opened.displays.size() + opened.errors.size();
    require_enough(opened.displays.size(), least, opened.errors);
    require_one_display(request, opened.displays.size() + opened.errors.size());
    for (io::OpenedDisplay& display : opened.displays) {
        asked.panels.push_back(panel_of(request, std::move(display)));
    }
    return std::move(opened.errors);
}

/// How to tell the command what a viewer set by eye.
void hint_at_eyes(const std::vector<Viewer>& viewers, TargetBudget& budget) {
    const auto unmatched = std::find_if(viewers.begin(), viewers.end(),
                                        [](const Viewer& viewer) { return !viewer.matched; });
    for (BudgetPart& part : budget.parts) {
        if (part.code == "viewers_eyes" && unmatched != viewers.end()) {
            part.remedy += ": --eye " + unmatched->name + "=x,y";
        }
    }
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

assess::WhitePanel panel_of(const WhiteRequest& request, io::OpenedDisplay opened) {
    io::NamedPanel& named = opened.display;
    assess::WhiteBefore before = white_before(request, opened.name, named);
    return {std::move(named.panel),
            named.model,
            std::move(before),
            {std::move(named.understood), std::move(named.warnings), named.step_nm}};
}

void hint_at_options(const std::vector<Viewer>& viewers, assess::PanelPart& part) {
    if (part.budget) {
        hint_at_eyes(viewers, *part.budget);
    }
}

assess::WhiteRequest asked_without_panels(const WhiteRequest& request,
                                          std::vector<Warning>& notes) {
    std::vector<Observer> observers;
    for (const std::string& id : request.observers) {
        observers.push_back(observer_named(id));
    }
    assess::WhiteRequest asked{reference_of(request)};
    asked.instrument = instrument_limits(request.instrument, request.instrument_noise_xy);
    asked.additivity_floor_xy = request.additivity_floor_xy;
    asked.population = population_of(
        request, observers.empty() ? 2.0 : assess::field_seen_by(observers.front()), notes);
    asked.observers = std::move(observers);
    asked.viewers = eyes_typed(request.viewers);
    asked.by_eye = whites_by_eye(request);
    return asked;
}

WhiteAnswer answer_white(const WhiteRequest& request) {
    require_options(request);
    std::vector<Warning> ages_read;
    assess::WhiteRequest asked = asked_without_panels(request, ages_read);
    std::vector<Error> errors = open_panels(request, asked);
    WhiteAnswer answer{assess::answer_white(asked), std::move(errors)};
    answer.viewer_notes.insert(answer.viewer_notes.begin(), ages_read.begin(), ages_read.end());
    for (assess::PanelPart& part : answer.panels) {
        hint_at_options(answer.viewers, part);
    }
    return answer;
}

}  // namespace samelight::report
