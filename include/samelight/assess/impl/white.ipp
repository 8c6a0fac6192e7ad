#pragma once
// The bodies of assess/white.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/assess/error_words.hpp"
#include "samelight/assess/watching_eyes.hpp"
#include "samelight/assess/white.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_people.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/assess/white_verdict.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/display/white_origin.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/dense.hpp"
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
    options.units_that_read = part.displacement;
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
    part.bent = asked.units != nullptr;
    part.probability = asked.probability;
    part.understood = asked.notes.understood;
    part.as_it_stands = panel.before.has_value();
    part.black = black_taken(asked.panel);
    part.white_set_to = xy_set_to(asked.white.base);
    part.white_read_now = asked.white.read_now;
    part.luminance_now = asked.white.luminance;
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
    for (std::size_t i = 0; i < asked.observers.size(); ++i) {
        const Observer& observer = asked.observers[i];
        if (part.bent) {
            const TargetsThatRead units =
                targets_that_read(*panel.asked.units, {answer.reference, observer, of_type},
                                  part.targets.targets[i].xy);
            part.ranges.emplace_back(units.within);
            if (i == 0) {
                part.displacement = units.displacement;
            }
            continue;
        }
        part.ranges.push_back(
            part.generic()
                ? std::optional(unit_variation(*part.model, answer.reference, observer, of_type))
                : std::nullopt);
    }
}

inline assess::PanelPart white_part(const WhiteAsked& asked, const PanelAsked& panel,
                                    const assess::WhiteAnswer& answer) {
    std::vector<Warning> warnings;
    assess::PanelPart part = part_as_read(panel, warnings);
    std::optional<WhiteOriginJudgement> origin;
    if (part.white_measured) {
        origin = judge_white_origin(panel.asked.panel, part.model, *panel.before);
        warn_of_origin(panel.asked, *origin, warnings);
    }
    if (part.white_measured || part.white_read_now) {
        warn_of_no_white(*panel.before, warnings);
    }
    part.targets = white_targets(panel.asked.panel, answer.reference, asked.observers,
                                 {panel.base(), answer.instrument.reading_noise_xy});
    part.targets.warnings.insert(part.targets.warnings.begin(), warnings.begin(), warnings.end());
    judge_ranges(asked, panel, answer, part);
    judge_people(panel, answer, part);
    if (part.bent && part.viewer_group) {
        const Observer eye = eye_of_group(answer.viewers);
        const TargetOptions from{panel.base(), answer.instrument.reading_noise_xy};
        part.displacement =
            targets_that_read(*panel.asked.units, {answer.reference, eye, from},
                              white_target(panel.asked.panel, answer.reference, eye, from).xy)
                .displacement;
    }
    if (part.dialled().in_gamut()) {
        judge_uncertainty(asked, panel, answer, part);
    }
    judge_verdict(panel, answer, origin, part);
    return part;
}

/// Throws Error (domain) for a light that nobody sees: it has no colour.
inline void require_seen(const SampledLight& light, const std::string& where) {
    const Eigen::Vector3d xyz = tristimulus<Cie1931_2deg>(light).column();
    if (!(xyz.minCoeff() > 0.0) || !std::isfinite(xyz.sum())) {
        throw Error(ErrorKind::domain, where, "no light from 380 to 780 nm that can be seen",
                    "a light with X, Y and Z above 0");
    }
}

/// Throws Error (domain) where a white as it stands lacks the light of a primary for one of the observers: it is no white of that panel.
inline void require_white_now(const WhiteAsked& asked, const PanelAsked& panel) {
    if (light_as_it_stands(panel.base()) == nullptr) {
        return;
    }
    require_seen(*panel.before, assess::white_now_place);
    const Panel& of = panel.asked.panel;
    for (const Observer& observer : asked.observers) {
        const Sensitivities eye = observer.on(of.sampling());
        const Eigen::Vector3d amounts = dense::times_3x3(
            dense::inverse_3x3(dense::responses_of_three(eye.rows(), of.emitters())),
            dense::response(eye.rows(), panel.before->column()));
        Eigen::Index least = 0;
        if (!(amounts.minCoeff(&least) > 0.0)) {
            const auto xy = chromaticity(tristimulus<Cie1931_2deg>(*panel.before));
            throw Error(ErrorKind::domain, assess::white_now_place,
                        xy_text(xy) + ", which holds no " +
                            primary_names.at(static_cast<std::size_t>(least)) + " light of " +
                            of.name(),
                        "that display's own white as it stands");
        }
    }
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
    std::vector<Panel> panels;
    std::vector<WhiteBase> bases;
    for (const PanelAsked& panel : asked) {
        panels.push_back(panel.asked.panel);
        bases.push_back(panel.base());
    }
    std::vector<Individual> people;
    for (const Viewer& viewer : answer.viewers) {
        people.push_back(viewer.eye.likeliest);
    }
    if (people.empty()) {
        people = first_people(*answer.population);
    }
    try {
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

/// How far apart the types' whites are; nothing where there is one type.
inline std::optional<assess::TypesApart> types_apart(const assess::WhiteAnswer& answer) {
    double largest = 0.0;
    for (const assess::PanelPart& a : answer.panels) {
        for (const assess::PanelPart& b : answer.panels) {
            largest =
                std::max(largest, (uv1976(a.dialled().xy) - uv1976(b.dialled().xy)).distance());
        }
    }
    return assess::TypesApart{largest, largest > uv_step_radius};
}

inline assess::WhiteAnswer answer_begun(const WhiteAsked& asked) {
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
    samelight::detail::require_additivity_floor(request.additivity_floor_xy, "additivity floor");
    samelight::detail::require_reading_noise(request.instrument.reading_noise_xy);
    samelight::detail::require_limits(request.instrument);
    const std::vector<Observer> observers = samelight::detail::observers_of(request);
    const samelight::detail::WhiteAsked asked{request, observers};
    WhiteAnswer answer = samelight::detail::answer_begun(asked);
    std::vector<samelight::detail::PanelAsked> panels;
    for (const WhitePanel& panel : request.panels) {
        panels.push_back({panel, light_shown(panel.panel, panel.white.base)});
    }
    samelight::detail::require_seen(answer.reference.light, "reference " + answer.reference.name);
    for (const samelight::detail::PanelAsked& panel : panels) {
        samelight::detail::require_white_now(asked, panel);
    }
    const auto of_panel = [&](const samelight::detail::PanelAsked& panel, const auto& work) {
        return about({panel.asked.panel.name()}, work);
    };
    of_panel(panels.front(),
             [&] { samelight::detail::learn_from_eyes(request, panels.front(), answer); });
    for (const samelight::detail::PanelAsked& panel : panels) {
        answer.panels.push_back(
            of_panel(panel, [&] { return samelight::detail::white_part(asked, panel, answer); }));
    }
    if (request.panels_are == PanelsAre::types_of_one_display) {
        answer.types_apart = samelight::detail::types_apart(answer);
    } else if (panels.size() > 1) {
        samelight::detail::set_together(panels, observers.front(), answer);
    }
    return answer;
}

}  // namespace samelight::assess
