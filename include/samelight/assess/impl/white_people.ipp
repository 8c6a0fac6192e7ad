#pragma once
// The bodies of assess/white_people.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_people.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/pair_share.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/eye_match.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/target_distribution.hpp"
#include "samelight/white/unit_variation.hpp"
#include "samelight/white/units_that_read.hpp"
#include "samelight/white/viewer_group.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Above which two viewers' targets count as apart, in u'v'.
inline constexpr double viewers_apart_uv = 0.004;

inline assess::PopulationPart population_part(const Population& population,
                                              const TargetDistribution& distribution) {
    std::vector<double> u;
    std::vector<double> v;
    for (std::size_t i = 0; i < distribution.x.size(); ++i) {
        if (std::isfinite(distribution.x[i])) {
            const auto uv = uv1976(distribution.at(i));
            u.push_back(uv.u());
            v.push_back(uv.v());
        }
    }
    assess::PopulationPart part{
        population.describe(), target_region(distribution),
        viewers_apart_uv,      u.size() < 2 ? 0.0 : pair_share(u, v, viewers_apart_uv),
        distribution.outside,  distribution.impossible};
    // As many as a picture can show.
    constexpr std::size_t most_shown = 256;
    for (std::size_t i = 0; i < std::min(distribution.x.size(), most_shown); ++i) {
        if (std::isfinite(distribution.x[i])) {
            part.sample.push_back(distribution.at(i));
        }
    }
    return part;
}

SAMELIGHT_INLINE std::vector<std::optional<assess::PopulationPart>> population_parts(
    std::span<const PanelAsked> panels, const assess::WhiteAnswer& answer,
    std::span<const assess::PanelPart> parts, std::size_t threads) {
    std::vector<std::size_t> shown;
    std::vector<Panel> displays;
    DistributionOptions options;
    options.threads = threads;
    for (std::size_t p = 0; p < panels.size(); ++p) {
        if (parts[p].targets.targets.front().in_gamut()) {
            shown.push_back(p);
            displays.push_back(panels[p].asked.panel);
            options.bases.push_back(panels[p].base());
        }
    }
    std::vector<std::optional<assess::PopulationPart>> result(panels.size());
    if (shown.empty()) {
        return result;
    }
    const std::vector<TargetDistribution> distributions =
        target_distributions(displays, answer.reference, *answer.population, options);
    parallel::work_in_blocks(shown.size(), threads, [&](std::size_t k, std::size_t) {
        result[shown[k]] = population_part(*answer.population, distributions[k]);
    });
    return result;
}

/// Expanded uncertainties (coverage 95 %) of what two independent covariances make.
inline UnitVariation within_of(const CovarianceMatrix<2>& a, const CovarianceMatrix<2>& b) {
    return {2.0 * std::sqrt(a[0] + b[0]), 2.0 * std::sqrt(a[3] + b[3])};
}

/// How far the reading moves if a white emitter makes none of the viewers' whites, on average over them.
inline std::optional<ChromaticityOffset<Cie1931_2deg>> without_emitter(
    const Panel& panel, const assess::WhiteAnswer& answer, const TargetOptions& options) {
    double x = 0.0;
    double y = 0.0;
    for (const Viewer& viewer : answer.viewers) {
        const Target own =
            white_target(panel, answer.reference, cone_observer(viewer.eye.likeliest), options);
        if (!own.without_white_emitter) {
            return {};
        }
        x += own.without_white_emitter->first() / static_cast<double>(answer.viewers.size());
        y += own.without_white_emitter->second() / static_cast<double>(answer.viewers.size());
    }
    return ChromaticityOffset<Cie1931_2deg>(x, y);
}

inline assess::ViewerGroupPart viewer_group_part(const PanelAsked& asked,
                                                 const assess::WhiteAnswer& answer,
                                                 const Chromaticity<Cie1931_2deg>& present,
                                                 std::size_t threads) {
    const Panel& panel = asked.asked.panel;
    const GenericModel* model = asked.asked.model;
    ViewerGroupOptions options;
    options.from.base = asked.base();
    options.from.threads = threads;
    options.threshold_uv = viewers_apart_uv;
    const TargetOptions from{asked.base(), answer.instrument.reading_noise_xy};
    ViewerGroup people =
        judge_viewer_group({panel, answer.reference}, answer.viewers, present, options);
    std::vector<std::string> names;
    for (const Viewer& viewer : answer.viewers) {
        names.push_back(viewer.name);
    }
    Target white =
        dialled_white(panel, answer.reference, {people.compromise().xy, viewers_text(names)}, from);
    white.without_white_emitter = without_emitter(panel, answer, from);
    const auto spread = [&](const Observer& observer) {
        if (asked.asked.units) {
            return targets_that_read(*asked.asked.units, {answer.reference, observer, from},
                                     white_target(panel, answer.reference, observer, from).xy)
                .displacement.mean_square;
        }
        return model != nullptr ? unit_variance(*model, answer.reference, observer, from)
                                : CovarianceMatrix<2>{};
    };
    assess::ViewerGroupPart part{std::move(people), std::move(white), {}, {}};
    for (std::size_t i = 0; i < answer.viewers.size(); ++i) {
        part.within.push_back(within_of(part.people.targets[i].covariance,
                                        spread(cone_observer(answer.viewers[i].eye.likeliest))));
    }
    part.white_within = within_of(spread(eye_of_group(answer.viewers)), {});
    return part;
}

SAMELIGHT_INLINE void learn_from_eyes(const assess::WhiteRequest& request, const PanelAsked& panel,
                                      assess::WhiteAnswer& answer) {
    for (const assess::WhiteByEye& set : request.by_eye) {
        if (set.viewer >= answer.viewers.size()) {
            throw Error(ErrorKind::input, "white by eye",
                        "viewer " + std::to_string(set.viewer) + " of " +
                            std::to_string(answer.viewers.size()),
                        "one of the viewers, counted from 0");
        }
        Viewer& viewer = answer.viewers[set.viewer];
        EyeMatch match{set.xy};
        match.sd_xy = std::hypot(match.sd_xy, request.instrument.reading_noise_xy);
        EyeLesson lesson = learn(viewer.eye, {panel.asked.panel, answer.reference}, match,
                                 {panel.base(), BatchPrecision::double_precision});
        viewer.eye = lesson.eye;
        viewer.matched = true;
        viewer.far_from_normal = viewer.far_from_normal || lesson.far_from_normal;
        for (Warning& warning : lesson.warnings) {
            warning.facts.insert(warning.facts.begin(), Fact{"viewer", viewer.name});
            answer.viewer_notes.push_back(std::move(warning));
        }
    }
}

SAMELIGHT_INLINE Chromaticity<Cie1931_2deg> white_to_replace(
    const Reference& reference, const std::optional<SampledLight>& before) {
    return before ? chromaticity(tristimulus<Cie1931_2deg>(*before)) : reference.xy();
}

SAMELIGHT_INLINE Observer eye_of_group(const std::vector<Viewer>& viewers) {
    return cone_observer(viewers.size() == 1 ? viewers.front().eye.likeliest
                                             : Individual{average_viewer(viewers), {}});
}

SAMELIGHT_INLINE void judge_people(const PanelAsked& asked, const assess::WhiteAnswer& answer,
                                   assess::PanelPart& part, std::size_t threads) {
    const Panel& panel = asked.asked.panel;
    const Fact viewers{"viewers", answer.viewers.empty() ? "no" : "yes"};
    if (!part.targets.targets.front().in_gamut()) {
        part.not_judged = assess::NotJudged::target_outside_gamut;
        part.targets.warnings.push_back(
            Warning{"not_judged", {{"reason", "target_outside_gamut"}, viewers}});
        return;
    }
    const Chromaticity<Cie1931_2deg> present = white_to_replace(answer.reference, asked.before);
    if (!set_white(panel, present).in_gamut()) {
        part.not_judged = assess::NotJudged::white_outside_gamut;
        part.targets.warnings.push_back(Warning{
            "not_judged",
            {{"reason", "white_outside_gamut"}, viewers, {"x", present.x()}, {"y", present.y()}}});
        return;
    }
    if (answer.viewers.empty()) {
        return;
    }
    part.viewer_group = viewer_group_part(asked, answer, present, threads);
    // Age and field are known now: what two other observers want is no longer the question.
    if (part.targets.opposed) {
        std::erase(part.targets.warnings, opposed_warning(part.targets));
        part.targets.opposed.reset();
    }
}

}  // namespace samelight::detail
