#pragma once
// The bodies of assess/white_parts.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/assess/error_words.hpp"
#include "samelight/assess/white.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_parts.hpp"
#include "samelight/assess/white_people.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/assess/white_verdict.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/display/white_origin.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/budget.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"
#include "samelight/white/unit_variation.hpp"
#include "samelight/white/units_that_read.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

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
    if (part.population && part.population->region.people > 1) {
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
    part.clipped = asked.notes.clipped;
    part.readings = asked.readings;
    part.white_set_to = xy_set_to(asked.white.base);
    part.white_read_now = asked.white.read_now;
    part.luminance_now = asked.white.luminance;
    warnings = asked.notes.warnings;
    if (light_as_it_stands(asked.white.base) != nullptr) {
        const assess::ReadingNotes& noted = asked.white.notes;
        part.white_measured = true;
        part.clipped = part.clipped || noted.clipped;
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

/// What instruments and observers alone say of a panel: no people yet.
inline assess::PanelPart part_for_observers(const WhiteAsked& asked, const PanelAsked& panel,
                                            const assess::WhiteAnswer& answer,
                                            std::optional<WhiteOriginJudgement>& origin) {
    std::vector<Warning> warnings;
    assess::PanelPart part = part_as_read(panel, warnings);
    if (part.white_measured) {
        origin = judge_white_origin(panel.asked.panel, part.model, *panel.before);
        warn_of_origin(panel.asked, *origin, warnings);
    }
    if (part.white_measured || part.white_read_now) {
        part.now_is_no_white = warn_of_no_white(*panel.before, warnings);
    }
    part.targets = white_targets(panel.asked.panel, answer.reference, asked.observers,
                                 {panel.base(), answer.instrument.reading_noise_xy});
    part.targets.warnings.insert(part.targets.warnings.begin(), warnings.begin(), warnings.end());
    judge_ranges(asked, panel, answer, part);
    if (is_native(panel.base())) {
        const Target set = dialled_white(panel.asked.panel, answer.reference,
                                         {answer.reference.xy(), "the instrument"});
        part.luminance_ratio_at_reference = set.in_gamut() ? set.luminance_ratio : std::nullopt;
    }
    return part;
}

/// Where viewers are named, how the units that read alike move their white.
inline void judge_units(const PanelAsked& panel, const assess::WhiteAnswer& answer,
                        assess::PanelPart& part) {
    if (!part.bent || !part.viewer_group) {
        return;
    }
    const Observer eye = eye_of_group(answer.viewers);
    const TargetOptions from{panel.base(), answer.instrument.reading_noise_xy};
    part.displacement =
        targets_that_read(*panel.asked.units, {answer.reference, eye, from},
                          white_target(panel.asked.panel, answer.reference, eye, from).xy)
            .displacement;
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
    const std::size_t threads = asked.request.threads;
    // A display's own work is done by one thread, unless it is the only display.
    const std::size_t within = panels.size() == 1 ? threads : 1;
    std::vector<VerdictGrounds> grounds(panels.size());
    std::vector<assess::PanelPart> begun(panels.size());
    const auto for_panels = [&](const auto& work) {
        parallel::work_in_blocks(panels.size(), threads, [&](std::size_t p, std::size_t) {
            assess::about({panels[p].asked.panel.name()}, [&] { work(p); });
        });
    };
    for_panels([&](std::size_t p) {
        begun[p] = part_for_observers(asked, panels[p], answer, grounds[p].origin);
    });
    auto populations = population_parts(panels, answer, begun, threads);
    for_panels([&](std::size_t p) {
        begun[p].population = std::move(populations[p]);
        judge_people(panels[p], answer, begun[p], within);
        judge_units(panels[p], answer, begun[p]);
        if (begun[p].dialled().in_gamut()) {
            judge_uncertainty(asked, panels[p], answer, begun[p]);
        }
    });
    auto judges = judges_for_everyone(panels, answer, begun, threads);
    for_panels([&](std::size_t p) {
        grounds[p].everyone = std::move(judges[p]);
        judge_verdict(panels[p], answer, grounds[p], begun[p]);
    });
    parts.insert(parts.end(), std::make_move_iterator(begun.begin()),
                 std::make_move_iterator(begun.end()));
}

SAMELIGHT_INLINE void require_seen(const SampledLight& light, const std::string& where) {
    const Eigen::Vector3d xyz = tristimulus<Cie1931_2deg>(light).column();
    if (!(xyz.minCoeff() > 0.0) || !std::isfinite(xyz.sum())) {
        throw Error(ErrorKind::domain, where, "no light from 380 to 780 nm that can be seen",
                    "a light with X, Y and Z above 0");
    }
}

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
            throw Error(
                ErrorKind::domain, assess::white_now_place,
                "x " + to_text(xy.x(), 4) + ", y " + to_text(xy.y(), 4) + ", which holds no " +
                    primary_names.at(static_cast<std::size_t>(least)) + " light of " + of.name(),
                "that display's own white as it stands");
        }
    }
}

SAMELIGHT_INLINE void require_whites_now(const WhiteAsked& asked,
                                         std::span<const PanelAsked> panels) {
    for (const PanelAsked& panel : panels) {
        require_white_now(asked, panel);
    }
}

SAMELIGHT_INLINE std::vector<PanelAsked> panels_asked(std::span<const assess::WhitePanel> panels) {
    std::vector<PanelAsked> result;
    for (const assess::WhitePanel& panel : panels) {
        result.push_back({panel, light_shown(panel.panel, panel.white.base)});
    }
    return result;
}

SAMELIGHT_INLINE std::vector<assess::PanelPart> white_parts(const WhiteAsked& asked,
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

}  // namespace samelight::detail
