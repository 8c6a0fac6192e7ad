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
#include "samelight/io/named_lights.hpp"
#include "samelight/io/primary_readings_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/uncertainty.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>

#include "report/white/white_texts.hpp"
#include "report/words/command_words.hpp"
#include "report/words/numbers_typed.hpp"
#include "report/words/primaries_typed.hpp"
#include "report/words/viewers_typed.hpp"

namespace samelight::report {
namespace {

void require_options(const WhiteRequest& request) {
    if (!request.primaries.empty() && !request.panels.empty()) {
        throw Error(ErrorKind::input, "--primaries", "another display beside it",
                    "--primaries, or PANEL: a file of readings");
    }
    samelight::detail::require_panels(request.panels.size() + (request.primaries.empty() ? 0 : 1));
    if (!request.now.empty() && request.panels.size() > 1) {
        throw Error(ErrorKind::input, "--now", std::to_string(request.panels.size()) + " panels",
                    "one panel, that set's own");
    }
    samelight::detail::require_additivity_floor(request.additivity_floor_xy, "--floor");
    samelight::detail::require_reading_noise(request.instrument_noise_xy);
}

assess::WhiteReference reference_of(const WhiteRequest& request) {
    io::NamedReference named = reference_typed(request.reference, request.sampling);
    return {std::move(named.reference),
            named.measured,
            {std::move(named.understood), {}, named.step_nm}};
}

/// A display in numbers, and what was set of it.
struct DisplayRead {
    std::string name;
    PrimaryReadings readings;
    std::optional<Chromaticity<Cie1931_2deg>> set_to;
    std::vector<std::string> understood;
};

/// The readings that a panel's text names: FILE or FILE@x,y. None where it is no file of readings.
std::optional<DisplayRead> display_read(const std::string& text) {
    const std::size_t at = text.rfind('@');
    const auto set_to =
        at == std::string::npos ? std::nullopt : reading_typed(text.substr(at + 1), text);
    const std::string file = set_to ? text.substr(0, at) : text;
    std::error_code ignored;
    if (file.find_first_of("./\\") == std::string::npos ||
        !std::filesystem::is_regular_file(file, ignored)) {
        return {};
    }
    auto read = io::open_primary_readings(file);
    if (!read) {
        return {};
    }
    return DisplayRead{file, read->readings, set_to ? std::optional(set_to->xy) : std::nullopt,
                       std::move(read->understood)};
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

const GenericModel& type_named(const std::string& name) {
    try {
        return generic_model(name);
    } catch (const Error& error) {
        throw_in_command_words(error, "--type " + name);
    }
}

/// A display in numbers: of the type named, or as every type that it may be.
void add_display_read(const WhiteRequest& request, DisplayRead display,
                      assess::WhiteRequest& asked) {
    display.readings.noise_xy = request.instrument_noise_xy;
    std::vector<assess::WhitePanel> panels;
    if (!request.type.empty()) {
        panels.push_back(assess::display_that_reads(display.name, display.readings,
                                                    type_named(request.type), request.sampling));
    } else {
        if (request.panels.size() > 1 || !request.eyes.empty()) {
            throw Error(ErrorKind::input, display.name, "a display in numbers of unknown type",
                        "its type (--type) where there are several displays or a match by eye");
        }
        panels = assess::displays_that_read(display.name, display.readings, request.sampling);
        asked.panels_are = assess::PanelsAre::types_of_one_display;
    }
    for (assess::WhitePanel& panel : panels) {
        panel.white = white_before(request, panel.panel, display.set_to);
        panel.notes.understood = display.understood;
        asked.panels.push_back(std::move(panel));
    }
}

assess::WhitePanel panel_of(const WhiteRequest& request, const std::string& text) {
    io::NamedPanel named =
        assess::about({text}, [&] { return io::open_panel(text, request.sampling); });
    assess::WhiteBefore before = white_before(request, named.panel, named.set_to);
    return {std::move(named.panel),
            named.model,
            std::move(before),
            {std::move(named.understood), std::move(named.warnings), named.step_nm}};
}

/// Every display that was named.
void add_displays(const WhiteRequest& request, assess::WhiteRequest& asked) {
    bool in_numbers = !request.primaries.empty();
    if (in_numbers) {
        add_display_read(request, {"display", primaries_typed(request.primaries), {}, {}}, asked);
    }
    for (const std::string& text : request.panels) {
        if (auto display = display_read(text)) {
            in_numbers = true;
            add_display_read(request, std::move(*display), asked);
        } else {
            asked.panels.push_back(panel_of(request, text));
        }
    }
    if (!in_numbers && !request.type.empty()) {
        throw Error(ErrorKind::input, "--type " + request.type, "no display in numbers",
                    "a file of readings or --primaries with it; a type alone is a PANEL");
    }
}

/// What the command itself can tell about a display's type.
void hint_at_types(std::vector<Warning>& warnings) {
    constexpr std::string_view asks_for_type = "Check which type the display is.";
    for (Warning& warning : warnings) {
        if (warning.message.ends_with(asks_for_type)) {
            warning.message.insert(warning.message.size() - 1, ": `samelight panel`");
        }
    }
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
    std::vector<std::string> subjects = request.panels;
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

assess::WhiteAnswer answer_white(const WhiteRequest& request) {
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
    add_displays(request, asked);
    asked.by_eye = whites_by_eye(request, asked.viewers);
    assess::WhiteAnswer answer = answer_about(request, asked);
    answer.viewer_notes.insert(answer.viewer_notes.begin(), ages_read.begin(), ages_read.end());
    for (assess::PanelPart& part : answer.panels) {
        hint_at_types(part.targets.warnings);
        if (part.budget) {
            hint_at_eyes(answer.viewers, *part.budget);
        }
    }
    return answer;
}

}  // namespace samelight::report
