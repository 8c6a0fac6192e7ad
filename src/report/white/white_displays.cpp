#include "samelight/assess/display_that_reads.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
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
#include "samelight/report/error_list.hpp"
#include "samelight/report/white_answer.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "report/white/white_asked.hpp"
#include "report/words/command_words.hpp"
#include "report/words/numbers_typed.hpp"
#include "report/words/primaries_typed.hpp"

namespace samelight::report {
namespace {

/// How many displays are named besides those of words.
std::size_t named_by_options(const WhiteRequest& request) {
    return (request.primaries.empty() ? 0U : 1U) +
           (io::places_in_options(request.lights).empty() ? 0U : 1U);
}

void require_one_display(const WhiteRequest& request, std::size_t displays) {
    if (!request.now.empty() && displays != 1) {
        throw Error(ErrorKind::input, "--now", std::to_string(displays) + " panels",
                    "one panel, that set's own");
    }
}

/// A display as it was typed, and the white that it was set to there.
struct SetDisplay {
    const std::string& typed;
    const std::optional<Chromaticity<Cie1931_2deg>>& set_to;
};

/// What the panel's white starts from: as its name says, or as --now does.
assess::WhiteBefore white_before(const WhiteRequest& request, const Panel& panel,
                                 const SetDisplay& display) {
    const auto& set_to = display.set_to;
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
                {std::move(now.understood), std::move(now.warnings), now.step_nm, now.clipped}};
    }
    const auto shows = [&](const Chromaticity<Cie1931_2deg>& xy) {
        return assess::about({display.typed}, [&] { return set_white(panel, xy).in_gamut(); });
    };
    if (set_to && !shows(*set_to)) {
        throw Error(ErrorKind::domain, ErrorPlace{display.typed},
                    "a white as set that its red, green and blue can't make",
                    "@x,y as the instrument read that display's white");
    }
    if (set_to) {
        return {WhiteSetTo{*set_to}};
    }
    return {};
}

assess::WhitePanel panel_of(const WhiteRequest& request, io::OpenedDisplay opened) {
    io::NamedPanel& named = opened.display;
    assess::WhiteBefore before = white_before(request, named.panel, {opened.name, named.set_to});
    return {std::move(named.panel),
            named.model,
            std::move(before),
            {std::move(named.understood), std::move(named.warnings), named.step_nm, named.clipped}};
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
    const std::string typed =
        display.name +
        (display.set_to ? "@" + to_text(display.set_to->x()) + "," + to_text(display.set_to->y())
                        : "");
    std::vector<assess::WhitePanel> panels;
    if (request.type.empty()) {
        panels =
            assess::displays_that_read(display.name, readings, request.sampling, request.threads);
    } else {
        panels.push_back(assess::display_that_reads(display.name, readings,
                                                    type_named(request.type), request.sampling));
    }
    for (assess::WhitePanel& panel : panels) {
        panel.white = white_before(request, panel.panel, {typed, display.set_to});
        panel.notes.understood = display.read.understood;
        panel.notes.understood.push_back(
            "The readings are taken to be good to " + to_text(readings.noise_xy, 4) +
            " in x and y (--noise); a colorimeter that isn't corrected for this display may be off by several "
            "times that.");
    }
    return panels;
}

[[noreturn]] void throw_type_wanted(const std::string& display) {
    throw Error(ErrorKind::input, ErrorPlace{display}, "a display in numbers of unknown type",
                "its type (--type) where there are several displays or a match by eye");
}

/// Throws where a display in numbers lacks its type, or where there is none that a type could be of.
void require_types(const WhiteRequest& request, const io::OpenedDisplays& opened) {
    if (!request.type.empty()) {
        require_type_known(request);
        if (opened.readings.empty() && opened.errors.empty()) {
            throw type_of_nothing(request.type);
        }
        return;
    }
    const std::size_t all = opened.displays.size() + opened.readings.size() + opened.errors.size();
    if (!opened.readings.empty() && (all > 1 || !request.eyes.empty())) {
        throw_type_wanted(opened.readings.front().name);
    }
}

/// Everything that `words` and the options name.
io::OpenedDisplays open_named(const WhiteRequest& request, const std::vector<std::string>& words) {
    io::OpenedDisplays opened = io::open_displays(words, request.lights, request.sampling,
                                                  io::FilesOf::spectra_or_readings);
    if (!request.primaries.empty()) {
        opened.readings.push_back({"display", {primaries_typed(request.primaries), {}}});
    }
    return opened;
}

/// Takes what was opened, in the order of the words. What can't be taken, as no type can be bent to it or it can't show the white that it was
/// set to, is put among the errors.
void take_displays(const WhiteRequest& request, io::OpenedDisplays& opened,
                   assess::WhiteRequest& asked, std::vector<std::string>& names) {
    // A copy of the name: the display is moved from.
    const auto take = [&](const std::string name, auto&& open) {
        try {
            for (assess::WhitePanel& panel : open()) {
                asked.panels.push_back(std::move(panel));
                names.push_back(name);
            }
        } catch (const Error& error) {
            opened.errors.push_back(error);
        }
    };
    std::size_t next = 0;
    const auto take_readings_before = [&](std::size_t displays) {
        for (; next < opened.readings.size() && opened.readings[next].behind <= displays; ++next) {
            const io::OpenedReadings& display = opened.readings[next];
            take(display.name, [&] { return panels_read(request, display); });
        }
    };
    for (std::size_t i = 0; i < opened.displays.size(); ++i) {
        take_readings_before(i);
        take(opened.displays[i].name, [&] {
            return std::vector<assess::WhitePanel>{
                panel_of(request, std::move(opened.displays[i]))};
        });
    }
    take_readings_before(opened.displays.size());
    if (!opened.readings.empty() && request.type.empty()) {
        asked.panels_are = assess::PanelsAre::types_of_one_display;
    }
}

}  // namespace

Error type_of_nothing(const std::string& type) {
    return {ErrorKind::input, "--type " + type,
            "no display in numbers among those that can be read",
            "a file of readings or --primaries with it; a type alone is a PANEL"};
}

void require_type_known(const WhiteRequest& request) {
    if (!request.type.empty()) {
        static_cast<void>(type_named(request.type));
    }
}

void require_white_options(const WhiteRequest& request) {
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

OpenedPanels open_panels(const WhiteRequest& request, assess::WhiteRequest& asked) {
    io::require_columns_used(request.panels, request.lights);
    io::OpenedDisplays opened = open_named(request, request.panels);
    const std::size_t all = opened.displays.size() + opened.readings.size() + opened.errors.size();
    // What was set by eye belongs to the first of all displays, which mustn't be another one.
    const std::size_t least = request.eyes.empty() ? 1 : all;
    require_enough(opened.displays.size() + opened.readings.size(), least, opened.errors);
    require_one_display(request, all);
    require_types(request, opened);
    if (!request.type.empty() && opened.readings.empty()) {
        opened.errors.push_back(type_of_nothing(request.type));
    }
    const std::size_t unread = opened.errors.size();
    OpenedPanels taken;
    take_displays(request, opened, asked, taken.names);
    if (asked.panels.empty() || (!request.eyes.empty() && opened.errors.size() > unread)) {
        require_enough(0, 1, opened.errors);
    }
    taken.errors = std::move(opened.errors);
    return taken;
}

io::OpenedDisplays displays_of_options(const WhiteRequest& request) {
    return open_named(request, {});
}

assess::WhitePanel panel_opened(const WhiteRequest& request, const io::OpenedDisplays& opened) {
    if (opened.readings.empty()) {
        return panel_of(request, opened.displays.front());
    }
    if (request.type.empty()) {
        throw_type_wanted(opened.readings.front().name);
    }
    return std::move(panels_read(request, opened.readings.front()).front());
}

}  // namespace samelight::report
