#include "samelight/report/white_answer.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/white.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_request.hpp"
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
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "report/white/white_asked.hpp"
#include "report/white/white_texts.hpp"
#include "report/words/command_words.hpp"
#include "report/words/numbers_typed.hpp"
#include "report/words/viewers_typed.hpp"

namespace samelight::report {
namespace {

assess::WhiteReference reference_of(const WhiteRequest& request) {
    io::NamedReference named = reference_typed(request.reference, request.sampling);
    return {std::move(named.reference),
            named.measured,
            {std::move(named.understood), {}, named.step_nm, named.clipped}};
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

/// Takes out the panels that can't be answered, whatever keeps them from it, which each says by itself; what it says goes to the errors.
void take_out_unanswerable(assess::WhiteRequest& asked, OpenedPanels& opened) {
    std::vector<assess::WhitePanel> panels = std::exchange(asked.panels, {});
    const std::vector<std::string> names = std::exchange(opened.names, {});
    assess::WhiteSeries series(asked);
    for (std::size_t i = 0; i < panels.size(); ++i) {
        try {
            static_cast<void>(series.next({&panels[i], 1}));
            asked.panels.push_back(std::move(panels[i]));
            opened.names.push_back(names[i]);
        } catch (const Error& error) {
            const bool of_panel = error.place().name == panels[i].panel.name();
            opened.errors.emplace_back(error.kind(),
                                       of_panel ? ErrorPlace{names[i]} : error.place(),
                                       error.found(), error.wanted());
        }
    }
}

/// The answer about those displays that can be answered. What is wrong with one of several is no reason to keep the others back, unless eyes
/// were learnt from the first.
assess::WhiteAnswer answer_about_rest(const WhiteRequest& request, assess::WhiteRequest& asked,
                                      OpenedPanels& opened) {
    const std::size_t all = asked.panels.size();
    try {
        return answer_about(request, asked);
    } catch (const Error&) {
        const bool several = all + opened.errors.size() > 1 && asked.by_eye.empty() &&
                             asked.panels_are == assess::PanelsAre::displays;
        if (!several) throw;
        take_out_unanswerable(asked, opened);
        if (asked.panels.size() == all) throw;
    }
    require_enough(asked.panels.size(), 1, opened.errors);
    return answer_about(request, asked);
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

assess::WhiteRequest asked_without_panels(const WhiteRequest& request,
                                          std::vector<Warning>& notes) {
    std::vector<Observer> observers;
    for (const std::string& id : request.observers) {
        observers.push_back(observer_named(id));
    }
    assess::WhiteRequest asked{reference_of(request)};
    asked.instrument = instrument_limits(request.instrument, request.instrument_noise_xy);
    asked.additivity_floor_xy = request.additivity_floor_xy;
    asked.threads = request.threads;
    asked.population = population_of(
        request, observers.empty() ? 2.0 : assess::field_seen_by(observers.front()), notes);
    asked.observers = std::move(observers);
    asked.viewers = eyes_typed(request.viewers);
    asked.by_eye = whites_by_eye(request, asked.viewers);
    return asked;
}

WhiteAnswer answer_white(const WhiteRequest& request) {
    require_white_options(request);
    std::vector<Warning> ages_read;
    assess::WhiteRequest asked = asked_without_panels(request, ages_read);
    OpenedPanels opened = open_panels(request, asked);
    WhiteAnswer answer{answer_about_rest(request, asked, opened), {}};
    answer.errors = std::move(opened.errors);
    for (assess::WhitePanel& panel : asked.panels) {
        answer.displays.push_back(std::move(panel.panel));
    }
    answer.viewer_notes.insert(answer.viewer_notes.begin(), ages_read.begin(), ages_read.end());
    return answer;
}

}  // namespace samelight::report
