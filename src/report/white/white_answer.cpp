#include "samelight/report/white_answer.hpp"
#include "samelight/assess/display_that_reads.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/white.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/io/displays.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/io/primary_readings_csv.hpp"
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
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "report/white/white_texts.hpp"
#include "report/words/command_words.hpp"
#include "report/words/numbers_typed.hpp"
#include "report/words/primaries_typed.hpp"
#include "report/words/viewers_typed.hpp"

namespace samelight::report {
namespace {

/// How many displays are named besides those of words.
std::size_t named_by_options(const WhiteRequest& request) {
    return (request.primaries.empty() ? 0U : 1U) +
           (io::places_in_options(request.lights).empty() ? 0U : 1U);
}

void require_options(const WhiteRequest& request) {
    const std::size_t named = request.panels.size() + named_by_options(request);
    if (!request.primaries.empty() && named > 1) {
        throw Error(
            ErrorKind::input, "--primaries", "another display beside it",
            "--primaries alone, or PANEL (files of readings, too) or files for --red and so on");
    }
    if (!request.primaries.empty() && !io::columns_in_options(request.lights).empty()) {
        throw Error(ErrorKind::input, "--primaries", "columns of a file beside it",
                    "--primaries alone, or a file of spectra with --columns");
    }
    samelight::detail::require_panels(named);
    samelight::detail::require_additivity_floor(request.additivity_floor_xy, "--floor");
    samelight::detail::require_reading_noise(request.instrument_noise_xy);
}

void require_one_display(const WhiteRequest& request, std::size_t displays) {
    if (!request.now.empty() && displays != 1) {
        throw Error(ErrorKind::input, "--now", std::to_string(displays) + " panels",
                    "one panel, that set's own");
    }
}

assess::WhiteReference reference_of(const WhiteRequest& request) {
    io::NamedReference named = reference_typed(request.reference, request.sampling);
    return {std::move(named.reference),
            named.measured,
            {std::move(named.understood), {}, named.step_nm}};
}

/// What the panel's white starts from: as its name says, or as --now does.
assess::WhiteBefore white_before(const WhiteRequest& request, const Panel& panel,
                                 const std::optional<Chromaticity<Cie1931_2deg>>& set_to) {
    if (!request.now.empty() && set_to) {
        throw Error(ErrorKind::input, panel.name(), "a white as set (@x,y) and one as it stands",
                    "one of the two: the panel without @x,y, or no --now");
    }
    if (const auto read = reading_typed(request.now, "--now")) {
        try {
            return assess::white_as_read(panel, read->xy, read->luminance);
        } catch (const Error& error) {
            throw_in_command_words(error, "--now " + request.now);
        }
    }
    if (!request.now.empty()) {
        io::NamedLight now = assess::about(
            {request.now}, [&] { return io::open_light(request.now, request.sampling); });
        return {WhiteAsItStands{std::move(now.light)},
                {std::move(now.understood), std::move(now.warnings), now.step_nm}};
    }
    if (set_to) {
        return {WhiteSetTo{*set_to}};
    }
    return {};
}

assess::WhitePanel panel_of(const WhiteRequest& request, io::OpenedDisplay opened) {
    io::NamedPanel& named = opened.display;
    assess::WhiteBefore before = white_before(request, named.panel, named.set_to);
    return {std::move(named.panel),
            named.model,
            std::move(before),
            {std::move(named.understood), std::move(named.warnings), named.step_nm}};
}

const GenericModel& type_named(const std::string& name) {
    try {
        return generic_model(name);
    } catch (const Error& error) {
        throw_in_command_words(error, "--type " + name);
    }
}

/// A display in numbers: of the type named, or as every type that it may be.
std::vector<assess::WhitePanel> panels_read(const WhiteRequest& request,
                                            const io::OpenedReadings& display) {
    PrimaryReadings readings = display.read.readings;
    readings.noise_xy = request.instrument_noise_xy;
    std::vector<assess::WhitePanel> panels;
    if (request.type.empty()) {
        panels = assess::displays_that_read(display.name, readings, request.sampling);
    } else {
        panels.push_back(assess::display_that_reads(display.name, readings,
                                                    type_named(request.type), request.sampling));
    }
    for (assess::WhitePanel& panel : panels) {
        panel.white = white_before(request, panel.panel, display.set_to);
        panel.notes.understood = display.read.understood;
    }
    return panels;
}

/// Throws where a display in numbers lacks its type, or where there is none that a type could be of.
void require_types(const WhiteRequest& request, const io::OpenedDisplays& opened) {
    if (!request.type.empty()) {
        static_cast<void>(type_named(request.type));
        if (opened.readings.empty() && opened.errors.empty()) {
            throw Error(ErrorKind::input, "--type " + request.type, "no display in numbers",
                        "a file of readings or --primaries with it; a type alone is a PANEL");
        }
        return;
    }
    const std::size_t all = opened.displays.size() + opened.readings.size() + opened.errors.size();
    if (!opened.readings.empty() && (all > 1 || !request.eyes.empty())) {
        throw Error(ErrorKind::input, ErrorPlace{opened.readings.front().name},
                    "a display in numbers of unknown type",
                    "its type (--type) where there are several displays or a match by eye");
    }
}

/// Everything that was named.
io::OpenedDisplays open_all(const WhiteRequest& request) {
    io::OpenedDisplays opened = io::open_displays(request.panels, request.lights, request.sampling,
                                                  io::FilesOf::spectra_or_readings);
    if (!request.primaries.empty()) {
        opened.readings.push_back({"display", {primaries_typed(request.primaries), {}}});
    }
    return opened;
}

/// Takes what was opened, in the order of the words. What no type can be bent to is put among the errors.
void take_displays(const WhiteRequest& request, io::OpenedDisplays& opened,
                   assess::WhiteRequest& asked) {
    std::size_t next = 0;
    const auto take_readings_before = [&](std::size_t displays) {
        for (; next < opened.readings.size() && opened.readings[next].behind <= displays; ++next) {
            try {
                for (assess::WhitePanel& panel : panels_read(request, opened.readings[next])) {
                    asked.panels.push_back(std::move(panel));
                }
            } catch (const Error& error) {
                opened.errors.push_back(error);
            }
        }
    };
    for (std::size_t i = 0; i < opened.displays.size(); ++i) {
        take_readings_before(i);
        asked.panels.push_back(panel_of(request, std::move(opened.displays[i])));
    }
    take_readings_before(opened.displays.size());
    if (!opened.readings.empty() && request.type.empty()) {
        asked.panels_are = assess::PanelsAre::types_of_one_display;
    }
}

/// The displays that can be opened; what was wrong with the others.
std::vector<Error> open_panels(const WhiteRequest& request, assess::WhiteRequest& asked) {
    io::OpenedDisplays opened = open_all(request);
    const std::size_t all = opened.displays.size() + opened.readings.size() + opened.errors.size();
    // What was set by eye belongs to the first of all displays, which mustn't be another one.
    const std::size_t least = request.eyes.empty() ? 1 : all;
    require_enough(opened.displays.size() + opened.readings.size(), least, opened.errors);
    require_one_display(request, all);
    require_types(request, opened);
    const std::size_t unread = opened.errors.size();
    take_displays(request, opened, asked);
    if (asked.panels.empty() || (!request.eyes.empty() && opened.errors.size() > unread)) {
        require_enough(0, 1, opened.errors);
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

/// The answer; an error about the white now is said of --now.
assess::WhiteAnswer answer_about(const WhiteRequest& request, const assess::WhiteRequest& asked) {
    std::vector<std::string> subjects;
    for (const assess::WhitePanel& panel : asked.panels) {
        subjects.push_back(panel.panel.name());
    }
    subjects.push_back("reference " + request.reference);
    try {
        return assess::about(subjects, [&] { return assess::answer_white(asked); });
    } catch (const Error& error) {
        throw_in_command_words(
            error, error.place().name == assess::white_now_place ? "--now " + request.now : "");
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

WhiteAnswer answer_white(const WhiteRequest& request) {
    require_options(request);
    std::vector<Observer> observers;
    for (const std::string& id : request.observers) {
        observers.push_back(observer_named(id));
    }
    assess::WhiteRequest asked{reference_of(request)};
    asked.instrument = instrument_limits(request.instrument, request.instrument_noise_xy);
    asked.additivity_floor_xy = request.additivity_floor_xy;
    std::vector<Warning> ages_read;
    asked.population = population_of(
        request, observers.empty() ? 2.0 : assess::field_seen_by(observers.front()), ages_read);
    asked.observers = std::move(observers);
    asked.viewers = eyes_typed(request.viewers);
    std::vector<Error> errors = open_panels(request, asked);
    asked.by_eye = whites_by_eye(request, asked.viewers);
    WhiteAnswer answer{answer_about(request, asked), std::move(errors)};
    answer.viewer_notes.insert(answer.viewer_notes.begin(), ages_read.begin(), ages_read.end());
    for (assess::PanelPart& part : answer.panels) {
        if (part.budget) {
            hint_at_eyes(answer.viewers, *part.budget);
        }
    }
    return answer;
}

}  // namespace samelight::report
