#pragma once
// The bodies of assess/white.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "samelight/assess/watching_eyes.hpp"
#include "samelight/assess/white.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_people.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/assess/white_verdict.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/display/white_origin.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/budget.hpp"
#include "samelight/white/display_group.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"
#include "samelight/white/unit_variation.hpp"

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

/// What is asked of one panel's answer besides the panel: the whole request and its observers.
struct WhiteAsked {
    const assess::WhiteRequest& request;
    const std::vector<Observer>& observers;
};

/// The mean over the viewers: how far each one's own white may lie from where it is taken to be.
inline CovarianceMatrix<2> viewers_covariance(const ViewerGroup& viewer_group) {
    CovarianceMatrix<2> mean{};
    for (const PredictedTarget& target : viewer_group.targets) {
        for (std::size_t k = 0; k < 4; ++k) {
            mean[k] += target.covariance[k] / static_cast<double>(viewer_group.targets.size());
        }
    }
    return mean;
}

inline BudgetOptions budget_options(const WhiteAsked& asked, const PanelAsked& panel,
                                    const assess::WhiteAnswer& answer,
                                    const assess::PanelPart& part) {
    BudgetOptions options;
    options.instrument = answer.instrument;
    options.model = part.model;
    options.reference_measured = answer.reference_measured;
    options.additivity_floor_xy = asked.request.additivity_floor_xy;
    options.others = {part.targets.targets.begin() + 1, part.targets.targets.end()};
    options.base = panel.base();
    options.base_measured = part.white_measured;
    if (part.population) {
        options.people = part.population->region;
    }
    if (part.viewer_group) {
        options.viewers_covariance = viewers_covariance(part.viewer_group->people);
        for (const Viewer& viewer : answer.viewers) {
            if (!viewer.matched) {
                options.viewers_unmatched.push_back(viewer.name);
            }
        }
    }
    return options;
}

/// How sure the dialled white is. Where spectra are so far from making a white that the instrument's faults alone undo it, that is said
/// instead.
inline void judge_uncertainty(const WhiteAsked& asked, const PanelAsked& panel,
                              const assess::WhiteAnswer& answer, assess::PanelPart& part) {
    const bool measured = light_as_it_stands(panel.asked.white.base) != nullptr;
    part.step_nm =
        answer.instrument.step_nm > 0.0
            ? answer.instrument.step_nm
            : std::max({panel.asked.notes.step_nm, measured ? panel.asked.white.notes.step_nm : 0.0,
                        asked.request.reference.notes.step_nm});
    const BudgetOptions options = budget_options(asked, panel, answer, part);
    try {
        part.budget = target_budget(
            {panel.asked.panel, answer.reference},
            part.viewer_group ? eye_of_group(answer.viewers) : asked.observers.front(),
            part.dialled(), options);
    } catch (const Error& error) {
        if (error.kind() != ErrorKind::domain) {
            throw;
        }
        part.targets.warnings.push_back(Warning{"doubt_left_out"});
    }
}

inline assess::BlackTaken black_taken(const Panel& panel) {
    if (!panel.black_known()) {
        return assess::BlackTaken::not_measured;
    }
    return panel.black_measurable() ? assess::BlackTaken::taken_off : assess::BlackTaken::too_dark;
}

/// What is known before anything is worked out: what the panel is, how it was read, and what is doubtful about that.
inline assess::PanelPart part_as_read(const PanelAsked& panel, std::vector<Warning>& warnings) {
    const assess::WhitePanel& asked = panel.asked;
    assess::PanelPart part;
    part.model = asked.model;
    part.understood = asked.notes.understood;
    part.as_it_stands = panel.before.has_value();
    part.black = black_taken(asked.panel);
    warnings = asked.notes.warnings;
    if (light_as_it_stands(asked.white.base) != nullptr) {
        const assess::ReadingNotes& noted = asked.white.notes;
        part.white_measured = true;
        part.understood.insert(part.understood.end(), noted.understood.begin(),
                               noted.understood.end());
        warnings.insert(warnings.end(), noted.warnings.begin(), noted.warnings.end());
    }
    return part;
}

inline void judge_ranges(const WhiteAsked& asked, const PanelAsked& panel,
                         const assess::WhiteAnswer& answer, assess::PanelPart& part) {
    const TargetOptions of_type{panel.base(), answer.instrument.reading_noise_xy};
    for (const Observer& observer : asked.observers) {
        part.ranges.push_back(
            part.generic()
                ? std::optional(unit_variation(*part.model, answer.reference, observer, of_type))
                : std::nullopt);
    }
}

/// What instruments and observers alone say of a panel: no people yet.
inline assess::PanelPart part_for_observers(const WhiteAsked& asked, const PanelAsked& panel,
                                            const assess::WhiteAnswer& answer,
                                            std::optional<WhiteOriginJudgement>& origin) {
    std::vector<Warning> warnings;
    assess::PanelPart part = part_as_read(panel, warnings);
    if (part.white_measured) {
        origin = judge_white_origin(panel.asked.panel, part.model, *panel.before);
        warn_of_origin(panel.asked, *origin, warnings);
        warn_of_no_white(*panel.before, warnings);
    }
    part.targets = white_targets(panel.asked.panel, answer.reference, asked.observers,
                                 {panel.base(), answer.instrument.reading_noise_xy});
    part.targets.warnings.insert(part.targets.warnings.begin(), warnings.begin(), warnings.end());
    judge_ranges(asked, panel, answer, part);
    return part;
}

/// How many displays at a time are put before the people: making those takes longer than showing them one display. What they make of the
/// displays is kept until the last has seen all, 0.3 kB a person and display, so that of more people fewer displays are shown.
inline std::size_t displays_at_once(std::size_t people) {
    constexpr std::size_t most = 32;
    constexpr std::size_t most_kept = most * 1024;
    return std::clamp<std::size_t>(most_kept / std::max<std::size_t>(people, 1), 1, most);
}

/// The answers' parts for some displays, whose population is made once.
inline void add_parts(const WhiteAsked& asked, std::span<const PanelAsked> panels,
                      const assess::WhiteAnswer& answer, std::vector<assess::PanelPart>& parts) {
    std::vector<VerdictGrounds> grounds(panels.size());
    std::vector<assess::PanelPart> begun;
    for (std::size_t p = 0; p < panels.size(); ++p) {
        begun.push_back(part_for_observers(asked, panels[p], answer, grounds[p].origin));
    }
    auto populations = population_parts(panels, answer, begun);
    for (std::size_t p = 0; p < panels.size(); ++p) {
        begun[p].population = std::move(populations[p]);
        judge_people(panels[p], answer, begun[p]);
        if (begun[p].dialled().in_gamut()) {
            judge_uncertainty(asked, panels[p], answer, begun[p]);
        }
    }
    auto judges = judges_for_everyone(panels, answer, begun);
    for (std::size_t p = 0; p < panels.size(); ++p) {
        grounds[p].everyone = std::move(judges[p]);
        judge_verdict(panels[p], answer, grounds[p], begun[p]);
        parts.push_back(std::move(begun[p]));
    }
}

inline std::vector<PanelAsked> panels_asked(std::span<const assess::WhitePanel> panels) {
    std::vector<PanelAsked> result;
    for (const assess::WhitePanel& panel : panels) {
        result.push_back({panel, light_shown(panel.panel, panel.white.base)});
    }
    return result;
}

inline std::vector<assess::PanelPart> white_parts(const WhiteAsked& asked,
                                                  std::span<const PanelAsked> panels,
                                                  const assess::WhiteAnswer& answer) {
    std::vector<assess::PanelPart> parts;
    const std::size_t at_once = displays_at_once(answer.population->size());
    for (std::size_t first = 0; first < panels.size(); first += at_once) {
        add_parts(asked, panels.subspan(first, std::min(at_once, panels.size() - first)), answer,
                  parts);
    }
    return parts;
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

/// The ways to set all displays together, or why there are none.
inline void set_together(const std::vector<PanelAsked>& asked, const Observer& observer,
                         assess::WhiteAnswer& answer) {
    std::vector<Individual> people;
    for (const Viewer& viewer : answer.viewers) {
        people.push_back(viewer.eye.likeliest);
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
        answer.display_group =
            judge_display_group(panels, answer.reference, {observer, people}, {bases, 1.0});
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

inline assess::WhiteAnswer answer_begun(const WhiteAsked& asked) {
    require_additivity_floor(asked.request.additivity_floor_xy, "additivity floor");
    require_reading_noise(asked.request.instrument.reading_noise_xy);
    require_limits(asked.request.instrument);
    const assess::WhiteReference& reference = asked.request.reference;
    assess::WhiteAnswer answer{reference.reference,
                               reference.notes.understood,
                               reference.measured,
                               {},
                               asked.request.instrument,
                               people_of(asked.request, asked.observers.front()),
                               {},
                               {},
                               {},
                               {},
                               {}};
    answer.reference.warnings.insert(answer.reference.warnings.end(),
                                     reference.notes.warnings.begin(),
                                     reference.notes.warnings.end());
    answer.viewers = viewers_watching(asked.request.viewers, answer.viewer_notes);
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
    samelight::detail::learn_from_eyes(request, panels.front(), answer);
    answer.panels = samelight::detail::white_parts(asked, panels, answer);
    if (panels.size() > 1) {
        samelight::detail::set_together(panels, observers.front(), answer);
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
    if (!eyes_known_ && !panels.empty()) {
        samelight::detail::learn_from_eyes(request_, panels.front(), common_);
        eyes_known_ = true;
    }
    return samelight::detail::white_parts({request_, observers_}, panels, common_);
}

}  // namespace samelight::assess
