#pragma once
// The bodies of assess/white.hpp.

#include <algorithm>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "samelight/assess/display_that_reads.hpp"
#include "samelight/assess/error_words.hpp"
#include "samelight/assess/watching_eyes.hpp"
#include "samelight/assess/white.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_parts.hpp"
#include "samelight/assess/white_people.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/assess/white_verdict.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/display_group.hpp"
#include "samelight/white/eye_match.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"
#include "samelight/white/units_that_read.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline std::vector<Observer> observers_of(const assess::WhiteRequest& request) {
    if (request.observers.empty()) {
        return {standard_observer<Cie2015_2deg>(), standard_observer<Cie2015_10deg>()};
    }
    return request.observers;
}

inline Population people_of(const assess::WhiteRequest& request, const Observer& first) {
    if (request.population) {
        return *request.population;
    }
    PopulationParameters parameters;
    parameters.field_deg = assess::field_seen_by(first);
    return Population(parameters);
}

/// The first people of a population; a display group is judged for as many as this at most.
inline std::vector<Individual> first_people(const Population& population) {
    constexpr std::size_t most = 1024;
    std::vector<Individual> people;
    for (std::size_t i = 0; i < std::min(population.size(), most); ++i) {
        people.push_back(population.individual(i));
    }
    return people;
}

/// How many eyes stand for each viewer of displays side by side.
inline constexpr std::size_t eyes_in_a_room = 64;

/// The ways to set all displays together, or why there are none.
inline void set_together(const std::vector<PanelAsked>& asked, const Observer& observer,
                         std::size_t threads, assess::WhiteAnswer& answer) {
    std::vector<Individual> people;
    for (const Viewer& viewer : answer.viewers) {
        // An eye that is only estimated is never taken for the likeliest: whites that suit that one exactly suit no eye there is.
        const auto eyes = eyes_that_may_be(viewer.eye, eyes_in_a_room);
        people.insert(people.end(), eyes.begin(), eyes.end());
    }
    if (people.empty()) {
        people = first_people(*answer.population);
    }
    try {
        if (asked.size() > most_displays_together) {
            throw Error(ErrorKind::domain, "displays side by side",
                        std::to_string(asked.size()) + " of them",
                        std::to_string(most_displays_together) + " at most");
        }
        std::vector<Panel> panels;
        std::vector<WhiteBase> bases;
        std::vector<Chromaticity<Cie1931_2deg>> alone;
        for (const assess::PanelPart& part : answer.panels) {
            alone.push_back(part.dialled().xy);
        }
        for (const PanelAsked& panel : asked) {
            panels.push_back(panel.asked.panel);
            bases.push_back(panel.base());
        }
        for (std::size_t p = 0; p < panels.size(); ++p) {
            if (!answer.panels[p].targets.targets.front().in_gamut() ||
                (is_native(bases[p]) && !set_white(panels[p], answer.reference.xy()).in_gamut())) {
                throw Error(ErrorKind::domain, panels[p].name(), "a white outside its gamut",
                            "displays that can all show theirs");
            }
        }
        answer.display_group = judge_display_group(panels, answer.reference, {observer, people},
                                                   {bases, 1.0, alone, threads});
        answer.recommended_setting = recommended_setting(answer.display_group);
    } catch (const Error& error) {
        if (error.kind() != ErrorKind::domain) {
            throw;
        }
        answer.display_group_notes.push_back(Warning{"room_left_out",
                                                     {{"place", error.place().text()},
                                                      {"found", error.found()},
                                                      {"wanted", error.wanted()}}});
    }
}

/// How far apart the whites of a display's types are, and what speaks against telling them by what was read of it.
inline assess::TypesApart types_apart(const assess::WhitePanel& read,
                                      const assess::WhiteAnswer& answer) {
    double largest = 0.0;
    for (const assess::PanelPart& a : answer.panels) {
        for (const assess::PanelPart& b : answer.panels) {
            largest =
                std::max(largest, (uv1976(a.dialled().xy) - uv1976(b.dialled().xy)).distance());
        }
    }
    assess::TypesApart apart{largest, largest > uv_step_radius};
    if (auto warning = primaries_of_standard(read.units->readings())) {
        apart.warnings.push_back(std::move(*warning));
    }
    return apart;
}

inline assess::WhiteAnswer answer_begun(const WhiteAsked& asked) {
    require_additivity_floor(asked.request.additivity_floor_xy, "additivity floor");
    require_reading_noise(asked.request.instrument.reading_noise_xy);
    require_limits(asked.request.instrument);
    const assess::WhiteReference& reference = asked.request.reference;
    require_seen(reference.reference.light, "reference " + reference.reference.name);
    assess::WhiteAnswer answer{reference.reference,
                               reference.notes.understood,
                               reference.measured,
                               reference.notes.clipped,
                               {},
                               asked.request.instrument,
                               people_of(asked.request, asked.observers.front()),
                               {},
                               {},
                               {},
                               {},
                               {},
                               {},
                               {}};
    answer.reference.warnings.insert(answer.reference.warnings.end(),
                                     reference.notes.warnings.begin(),
                                     reference.notes.warnings.end());
    answer.viewers = viewers_watching(asked.request.viewers, answer.population->parameters().ages,
                                      answer.viewer_notes);
    for (const Observer& observer : asked.observers) {
        answer.tables.push_back(observer.id() + ": " + observer.edition());
    }
    return answer;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::assess {

SAMELIGHT_INLINE WhiteAnswer answer_white(const WhiteRequest& request) {
    samelight::detail::require_panels(request.panels.size());
    const std::vector<Observer> observers = samelight::detail::observers_of(request);
    const samelight::detail::WhiteAsked asked{request, observers};
    WhiteAnswer answer = samelight::detail::answer_begun(asked);
    const std::vector<samelight::detail::PanelAsked> panels =
        samelight::detail::panels_asked(request.panels);
    samelight::detail::require_whites_now(asked, panels);
    about({request.panels.front().panel.name()},
          [&] { samelight::detail::learn_from_eyes(request, panels.front(), answer); });
    answer.panels = samelight::detail::white_parts(asked, panels, answer);
    if (request.panels_are == PanelsAre::types_of_one_display) {
        answer.types_apart = samelight::detail::types_apart(request.panels.front(), answer);
    } else if (panels.size() > 1) {
        samelight::detail::set_together(panels, observers.front(), request.threads, answer);
    }
    return answer;
}

SAMELIGHT_INLINE WhiteSeries::WhiteSeries(WhiteRequest request)
    : request_(std::move(request)),
      observers_(samelight::detail::observers_of(request_)),
      common_(samelight::detail::answer_begun({request_, observers_})),
      eyes_known_(request_.by_eye.empty()) {}

SAMELIGHT_INLINE std::vector<PanelPart> WhiteSeries::next(std::span<const WhitePanel> displays) {
    const std::vector<samelight::detail::PanelAsked> panels =
        samelight::detail::panels_asked(displays);
    samelight::detail::require_whites_now({request_, observers_}, panels);
    if (!eyes_known_ && !panels.empty()) {
        samelight::detail::learn_from_eyes(request_, panels.front(), common_);
        eyes_known_ = true;
    }
    return samelight::detail::white_parts({request_, observers_}, panels, common_);
}

}  // namespace samelight::assess
