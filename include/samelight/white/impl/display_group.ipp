#pragma once
// The bodies of white/display_group.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/display_group.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/target_distribution.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE std::vector<double> distances(const Looks& a, const Looks& b) {
    std::vector<double> result;
    result.reserve(a.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
        result.push_back(std::hypot(a[i][0] - b[i][0], a[i][1] - b[i][1]));
    }
    return result;
}

inline GroupSetting judge_setting(std::string name, std::span<const WhiteJudge> displays,
                                  const std::vector<Chromaticity<Cie1931_2deg>>& whites) {
    std::vector<Looks> looks;
    for (std::size_t p = 0; p < displays.size(); ++p) {
        looks.push_back(displays[p].looks(whites[p]));
    }
    const Looks reference = displays.front().reference_looks();
    std::vector<double> between;
    std::vector<double> from_reference;
    for (std::size_t p = 0; p < looks.size(); ++p) {
        const std::vector<double> own = distances(looks[p], reference);
        from_reference.insert(from_reference.end(), own.begin(), own.end());
        for (std::size_t q = p + 1; q < looks.size(); ++q) {
            const std::vector<double> pair = distances(looks[p], looks[q]);
            between.insert(between.end(), pair.begin(), pair.end());
        }
    }
    return {std::move(name),      whites,
            mean(between),        percentile(between, 95.0),
            mean(from_reference), percentile(from_reference, 95.0)};
}

/// One step of Gauss and Newton towards the least sum of squares over people, of displays against each other and against the
/// reference: how far each display's x and y should move.
inline Eigen::VectorXd group_step(std::span<const LinearLooks> displays, const Looks& reference,
                                  double reference_weight) {
    const auto n = static_cast<Eigen::Index>(displays.size());
    Eigen::MatrixXd normal = Eigen::MatrixXd::Zero(2 * n, 2 * n);
    Eigen::VectorXd right = Eigen::VectorXd::Zero(2 * n);
    Eigen::VectorXd slopes(2 * n);
    Eigen::VectorXd at(n);
    for (std::size_t i = 0; i < reference.size(); ++i) {
        for (std::size_t c = 0; c < 2; ++c) {
            for (Eigen::Index p = 0; p < n; ++p) {
                const LinearLooks& d = displays[static_cast<std::size_t>(p)];
                at[p] = d.at[i][c] - reference[i][c];
                slopes[2 * p] = d.by_x[i][c];
                slopes[2 * p + 1] = d.by_y[i][c];
            }
            // Each display against the others: n times itself less all, which is the pairs' sum of squares; and the reference.
            const double own = static_cast<double>(n) + reference_weight;
            const double sum = at.sum();
            for (Eigen::Index p = 0; p < n; ++p) {
                const double residual = own * at[p] - sum;
                for (Eigen::Index a = 2 * p; a < 2 * p + 2; ++a) {
                    right[a] -= slopes[a] * residual;
                    for (Eigen::Index b = 0; b < 2 * n; ++b) {
                        const double weight = (b / 2 == p ? own : 0.0) - 1.0;
                        normal(a, b) += weight * slopes[a] * slopes[b];
                    }
                }
            }
        }
    }
    return dense::solve_positive(normal, right);
}

SAMELIGHT_INLINE std::vector<Chromaticity<Cie1931_2deg>> together(
    std::span<const WhiteJudge> displays, std::vector<Chromaticity<Cie1931_2deg>> whites,
    double reference_weight) {
    const Looks reference = displays.front().reference_looks();
    for (int round = 0; round < 6; ++round) {
        std::vector<LinearLooks> looks;
        for (std::size_t p = 0; p < displays.size(); ++p) {
            looks.push_back(linear_looks(displays[p], whites[p]));
        }
        const Eigen::VectorXd step = group_step(looks, reference, reference_weight);
        for (std::size_t p = 0; p < displays.size(); ++p) {
            const auto k = static_cast<Eigen::Index>(2 * p);
            whites[p] = {whites[p].x() + step[k], whites[p].y() + step[k + 1]};
        }
        if (step.cwiseAbs().maxCoeff() < 1e-8) {
            break;
        }
    }
    return whites;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<GroupSetting> judge_display_group(std::span<const Panel> panels,
                                                               const Reference& reference,
                                                               const GroupJudges& judges,
                                                               const DisplayGroupOptions& options) {
    const Observer& observer = judges.observer;
    const std::span<const Individual> people = judges.people;
    if (panels.size() < 2 || (!options.bases.empty() && options.bases.size() != panels.size())) {
        throw Error(ErrorKind::shape, "judge_display_group",
                    std::to_string(panels.size()) + " displays and " +
                        std::to_string(options.bases.size()) + " whites to start from",
                    "two displays or more, and as many whites or none");
    }
    if (!options.alone.empty() && options.alone.size() != panels.size()) {
        throw Error(ErrorKind::shape, "judge_display_group",
                    std::to_string(options.alone.size()) + " whites of displays seen alone",
                    "as many as displays, or none");
    }
    if (panels.size() > most_displays_together) {
        throw Error(ErrorKind::domain, "judge_display_group",
                    std::to_string(panels.size()) + " displays",
                    std::to_string(most_displays_together) + " at most");
    }
    if (!(options.reference_weight > 0.0) || !std::isfinite(options.reference_weight)) {
        throw Error(ErrorKind::domain, "judge_display_group",
                    "a reference weight of " + to_text(options.reference_weight), "above 0");
    }
    const std::vector<WhiteJudge> displays = white_judges(
        panels, reference, people,
        {NativeWhite{}, BatchPrecision::double_precision, options.bases, options.threads});
    std::vector<Chromaticity<Cie1931_2deg>> now;
    std::vector<Chromaticity<Cie1931_2deg>> alone;
    std::vector<Chromaticity<Cie1931_2deg>> as_the_first;
    Reference first = reference;
    for (std::size_t p = 0; p < panels.size(); ++p) {
        TargetOptions from;
        if (!options.bases.empty()) {
            from.base = options.bases[p];
        }
        alone.push_back(options.alone.empty()
                            ? white_target(panels[p], reference, observer, from).xy
                            : options.alone[p]);
        const WhiteBase stands =
            is_native(from.base) ? WhiteBase(WhiteSetTo{reference.xy()}) : from.base;
        const SampledLight shown = *light_shown(panels[p], stands);
        now.push_back(chromaticity(tristimulus<Cie1931_2deg>(shown)));
        if (p == 0) {
            first.light = shown;
            as_the_first.push_back(first.xy());
        } else {
            as_the_first.push_back(white_target(panels[p], first, observer, from).xy);
        }
    }
    const auto best = detail::together(displays, alone, options.reference_weight);
    return {detail::judge_setting("as they stand", displays, now),
            detail::judge_setting("each to the reference", displays, alone),
            detail::judge_setting("the others to the first", displays, as_the_first),
            detail::judge_setting("all together", displays, best)};
}

SAMELIGHT_INLINE std::size_t recommended_setting(std::span<const GroupSetting> settings) {
    if (settings.empty()) {
        throw Error(ErrorKind::shape, "recommended_setting", "no setting", "one at least");
    }
    const auto off = [](const GroupSetting& way) {
        return way.between_mean_uv + way.from_reference_mean_uv;
    };
    const auto best = std::min_element(
        settings.begin(), settings.end(),
        [&](const GroupSetting& a, const GroupSetting& b) { return off(a) < off(b); });
    const GroupSetting& now = settings.front();
    const bool seen =
        std::max(now.between_mean_uv - best->between_mean_uv,
                 now.from_reference_mean_uv - best->from_reference_mean_uv) >= uv_step_radius;
    return seen ? static_cast<std::size_t>(best - settings.begin()) : 0;
}

}  // namespace samelight
