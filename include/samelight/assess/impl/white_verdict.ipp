#pragma once
// The bodies of assess/white_verdict.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "samelight/assess/display_that_reads.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_people.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/assess/white_verdict.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/white_origin.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/quality_flags.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/advice.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/target_distribution.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline CovarianceMatrix<2> uncertainty_of_light(const assess::PanelPart& part) {
    return part.budget ? part.budget->covariance_of_light() : CovarianceMatrix<2>{};
}

/// The verdict on the viewer group's own white, for its viewers.
inline Advice advise_viewers(const Panel& panel, const assess::WhiteAnswer& answer,
                             const DistributionOptions& options, const assess::PanelPart& part) {
    const ViewerGroup& viewer_group = part.viewer_group->people;
    std::vector<Individual> people;
    AdviceRequest weighed{viewer_group.compromise().xy, viewer_group.candidates.front().xy,
                          answer.instrument.reading_noise_xy};
    weighed.right.named = true;
    weighed.right.shared = uncertainty_of_light(part);
    weighed.eyes_known = true;
    for (std::size_t i = 0; i < answer.viewers.size(); ++i) {
        const Viewer& viewer = answer.viewers[i];
        people.push_back(viewer.eye.likeliest);
        weighed.people.push_back(viewer.name);
        weighed.right.pulls.push_back({"viewer " + viewer.name, viewer_group.targets[i].xy});
        weighed.right.own.push_back(viewer_group.targets[i].covariance);
        weighed.eyes_known = weighed.eyes_known && viewer.matched;
    }
    return advise(WhiteJudge(panel, answer.reference, people, options), weighed);
}

/// The verdict on the first observer's white, for the population.
inline Advice advise_everyone(const PanelAsked& asked, const assess::WhiteAnswer& answer,
                              const WhiteJudge& everyone, const assess::PanelPart& part) {
    AdviceRequest weighed{part.targets.targets.front().xy,
                          white_to_replace(answer.reference, asked.before),
                          answer.instrument.reading_noise_xy};
    weighed.right.shared = uncertainty_of_light(part);
    for (const Target& target : part.targets.targets) {
        weighed.right.pulls.push_back({target.observer_title, target.xy});
    }
    return advise(everyone, weighed);
}

/// The primary whose column was misread, where white tells.
inline std::optional<std::size_t> misread_primary(const assess::PanelPart& part) {
    if (!part.targets.additivity || part.as_it_stands) {
        return {};
    }
    const auto misread = misread_column(*part.targets.additivity);
    return misread ? std::optional(misread->primary) : std::nullopt;
}

/// What is to be put right before anything is moved by these numbers; nothing where nothing is.
inline std::optional<AdviceReason> put_right_first(
    const assess::WhiteAnswer& answer, const std::optional<WhiteOriginJudgement>& origin,
    const assess::PanelPart& part) {
    if (origin && origin->origin == WhiteOrigin::another_panel) {
        return part.generic() ? AdviceReason::now_of_another_type
                              : AdviceReason::now_of_another_display;
    }
    if (part.readings.another_type) {
        return AdviceReason::display_of_another_type;
    }
    if (part.now_is_no_white) {
        return AdviceReason::now_is_no_white;
    }
    if (part.readings.no_white) {
        return AdviceReason::read_no_white;
    }
    if (!part.budget && part.dialled().in_gamut()) {
        return AdviceReason::uncertainty_unknown;
    }
    if (part.clipped || answer.reference_clipped) {
        return AdviceReason::clipped;
    }
    if (misread_primary(part)) {
        return AdviceReason::column_misread;
    }
    if (std::any_of(answer.viewers.begin(), answer.viewers.end(),
                    [](const Viewer& viewer) { return viewer.far_from_normal; })) {
        return AdviceReason::eye_far_from_normal;
    }
    return {};
}

SAMELIGHT_INLINE void warn_of_origin(const assess::WhitePanel& panel,
                                     const WhiteOriginJudgement& judged,
                                     std::vector<Warning>& warnings) {
    if (judged.origin == WhiteOrigin::this_panel) {
        return;
    }
    if (panel.model == nullptr) {
        warnings.push_back(Warning{"now_of_another_display",
                                   {{"emitters", panel.panel.white_is_base() ? 4.0 : 3.0},
                                    {"left_over_percent", 100.0 * judged.left_over}}});
        return;
    }
    std::vector<Fact> compared = {Fact{"type", std::string(panel.model->name())},
                                  Fact{"type_nm", judged.own_type_nm}};
    if (judged.nearest != panel.model) {
        compared.push_back(Fact{"nearest_type", std::string(judged.nearest->name())});
        compared.push_back(Fact{"nearest_nm", judged.nearest_nm});
    }
    if (judged.origin == WhiteOrigin::another_panel) {
        warnings.push_back(Warning{"now_of_another_display", compared});
        return;
    }
    warnings.push_back(Warning{"now_perhaps_of_another_type", compared});
}

SAMELIGHT_INLINE bool is_no_white(const Chromaticity<Cie1931_2deg>& xy) {
    // Beyond .05 from Planck's locus a light has no colour temperature (CIE 15:2018, 9.5, from memory): nobody calls it white.
    const auto temperature = colour_temperature(xy);
    return !temperature || !(std::abs(temperature->duv) <= 0.05);
}

SAMELIGHT_INLINE bool warn_of_no_white(const SampledLight& white, std::vector<Warning>& warnings) {
    const auto xy = chromaticity(tristimulus<Cie1931_2deg>(white));
    const bool none = is_no_white(xy);
    if (none) {
        warnings.push_back(Warning{"now_is_no_white", {{"x", xy.x()}, {"y", xy.y()}}});
    }
    return none;
}

SAMELIGHT_INLINE std::vector<std::optional<WhiteJudge>> judges_for_everyone(
    std::span<const PanelAsked> panels, const assess::WhiteAnswer& answer,
    std::span<const assess::PanelPart> parts, std::size_t threads) {
    std::vector<std::size_t> judged;
    std::vector<Panel> displays;
    DistributionOptions options;
    options.threads = threads;
    for (std::size_t p = 0; p < panels.size(); ++p) {
        if (!parts[p].viewer_group && !parts[p].not_judged) {
            judged.push_back(p);
            displays.push_back(panels[p].asked.panel);
            options.bases.push_back(panels[p].base());
        }
    }
    std::vector<std::optional<WhiteJudge>> result(panels.size());
    if (judged.empty()) {
        return result;
    }
    const std::vector<Individual> people = answer.population->individuals(threads);
    std::vector<WhiteJudge> judges = white_judges(displays, answer.reference, people, options);
    for (std::size_t k = 0; k < judged.size(); ++k) {
        result[judged[k]] = std::move(judges[k]);
    }
    return result;
}

/// Half-width of the budget along a direction of x, y: those of x and of y, correlated as its covariance has it.
inline double half_width_along(const TargetBudget& budget,
                               const ChromaticityOffset<Cie1931_2deg>& way) {
    const double length = way.distance();
    if (!(length > 0.0)) {
        return 0.0;
    }
    const CovarianceMatrix<2>& c = budget.covariance;
    const double x = way.first() / length * budget.half_width_x();
    const double y = way.second() / length * budget.half_width_y();
    const double scale = std::sqrt(c[0] * c[3]);
    const double correlation = scale > 0.0 ? c[1] / scale : 0.0;
    return std::sqrt(std::max(0.0, x * x + y * y + 2.0 * correlation * x * y));
}

/// What is known of the move besides the verdict: how sure it is, and what an estimated eye is expected to see.
inline void add_expectations(const Chromaticity<Cie1931_2deg>& as_it_is, assess::PanelPart& part) {
    Advice& advice = *part.advice;
    if (part.budget) {
        advice.uncertain_along_xy = half_width_along(*part.budget, advice.white - as_it_is);
    }
    if (part.viewer_group) {
        const auto worst = [](const CandidateWhite& candidate) {
            double largest = 0.0;
            for (const ExpectedDifference& one : candidate.expected) {
                largest = std::max(largest, one.de00);
            }
            return largest;
        };
        advice.de00_before = worst(part.viewer_group->people.candidates.front());
        advice.de00_after = worst(part.viewer_group->people.compromise());
    }
}

SAMELIGHT_INLINE void judge_verdict(const PanelAsked& panel, const assess::WhiteAnswer& answer,
                                    const VerdictGrounds& grounds, assess::PanelPart& part) {
    if (part.not_judged) {
        return;
    }
    const DistributionOptions options{panel.base(), BatchPrecision::double_precision, {}};
    part.advice = part.viewer_group ? advise_viewers(panel.asked.panel, answer, options, part)
                                    : advise_everyone(panel, answer, *grounds.everyone, part);
    add_expectations(white_to_replace(answer.reference, panel.before), part);
    if (const auto first = put_right_first(answer, grounds.origin, part)) {
        part.advice->verdict = Verdict::leave;
        part.advice->reason = *first;
        part.advice->misread_primary =
            *first == AdviceReason::column_misread ? misread_primary(part) : std::nullopt;
    }
}

}  // namespace samelight::detail
