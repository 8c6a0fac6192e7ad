#pragma once
// The bodies of white/target_distribution.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target_distribution.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE LightColumns gather(std::span<const Panel> panels, const Reference& reference,
                                     std::span<const std::optional<SampledLight>> nows) {
    LightColumns result;
    const Sampling& sampling = reference.light.sampling;
    std::vector<Eigen::VectorXd> columns;
    const auto add = [&](const Eigen::VectorXd& light) {
        columns.push_back(light);
        return static_cast<Eigen::Index>(columns.size()) - 1;
    };
    for (std::size_t p = 0; p < panels.size(); ++p) {
        const Panel& panel = panels[p];
        require_same_sampling("target_distributions", panel.sampling(), sampling);
        PanelColumns at{add(panel.emitters().col(0)), {}, {}, panel.white_is_base()};
        add(panel.emitters().col(1));
        add(panel.emitters().col(2));
        if (nows[p]) {
            at.base = add(nows[p]->column());
        } else {
            if (panel.white_is_base()) {
                at.base = add(panel.white());
            }
            if (panel.black().cwiseAbs().maxCoeff() > 0.0) {
                at.black = add(panel.black());
            }
        }
        result.panels.push_back(at);
    }
    result.reference = add(reference.light.column());
    result.lights.resize(sampling.count(), static_cast<Eigen::Index>(columns.size()));
    for (std::size_t k = 0; k < columns.size(); ++k) {
        result.lights.col(static_cast<Eigen::Index>(k)) = columns[k];
    }
    return result;
}

SAMELIGHT_INLINE PanelResponses
panel_responses(const Eigen::Ref<const Eigen::Matrix<double, 3, Eigen::Dynamic>>& all,
                const PanelColumns& at, Eigen::Index reference) {
    PanelResponses r{all.middleCols<3>(at.emitters), Eigen::Vector3d::Zero(),
                     Eigen::Vector3d::Zero(), all.col(reference), at.white_emitter};
    r.base = at.base ? Eigen::Vector3d(all.col(*at.base))
                     : Eigen::Vector3d(r.emitters.col(0) + r.emitters.col(1) + r.emitters.col(2));
    if (at.black) {
        r.black = all.col(*at.black);
    }
    return r;
}

SAMELIGHT_INLINE Eigen::Vector3d instrument_reads(const PanelResponses& instrument,
                                                  const Composition& made, double kept) {
    Eigen::Vector3d result = dense::times_3x3(
        instrument.emitters, Eigen::Vector3d(made.added[0], made.added[1], made.added[2]));
    result += kept * instrument.base + instrument.black;
    return result;
}

SAMELIGHT_INLINE std::vector<std::optional<SampledLight>> lights_before(
    std::span<const Panel> panels, const DistributionOptions& options) {
    const bool own = !options.bases.empty();
    if (own && options.bases.size() != panels.size()) {
        throw Error(ErrorKind::shape, "target_distributions",
                    std::to_string(options.bases.size()) + " bases for " +
                        std::to_string(panels.size()) + " panels",
                    "none, or one a panel");
    }
    if (!own && !is_native(options.base) && panels.size() != 1) {
        throw Error(
            ErrorKind::domain, "target_distributions",
            "a base other than native white and " + std::to_string(panels.size()) + " panels",
            "one panel");
    }
    std::vector<std::optional<SampledLight>> lights;
    for (std::size_t p = 0; p < panels.size(); ++p) {
        lights.push_back(light_shown(panels[p], own ? options.bases[p] : options.base));
    }
    return lights;
}

/// How many people one worker found to have no target for a panel, and one outside its gamut.
struct WithoutTarget {
    std::size_t outside = 0;
    std::size_t impossible = 0;
};

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<TargetDistribution> target_distributions(
    std::span<const Panel> panels, const Reference& reference, std::span<const Individual> people,
    const DistributionOptions& options) {
    const std::vector<std::optional<SampledLight>> nows = detail::lights_before(panels, options);
    const detail::LightColumns columns = detail::gather(panels, reference, nows);
    const Sampling& sampling = reference.light.sampling;
    const PopulationResponses responses = population_responses(
        people, sampling, columns.lights, {options.precision, false, options.threads});
    Eigen::Matrix<double, 3, Eigen::Dynamic> read =
        dense::responses(standard_observer<Cie1931_2deg>().on(sampling).rows(), columns.lights);
    read *= sampling.step_nm();
    const double nan = std::numeric_limits<double>::quiet_NaN();
    std::vector<TargetDistribution> distributions;
    std::vector<PanelResponses> instruments;
    for (std::size_t p = 0; p < panels.size(); ++p) {
        distributions.push_back({panels[p].name(), std::vector<double>(people.size(), nan),
                                 std::vector<double>(people.size(), nan), 0, 0});
        instruments.push_back(detail::panel_responses(read, columns.panels[p], columns.reference));
    }
    // Person by person, since what one responds to all panels lies together.
    const auto target_person = [&](std::vector<detail::WithoutTarget>& without, std::size_t i) {
        for (std::size_t p = 0; p < panels.size(); ++p) {
            const Base base = nows[p] ? Base::as_it_stands : Base::native_white;
            const auto made = compose(
                detail::panel_responses(responses.lms(i), columns.panels[p], columns.reference),
                base);
            if (!made) {
                ++without[p].impossible;
                continue;
            }
            const double kept = nows[p] ? 1.0 : made->white_emitter;
            const Eigen::Vector3d xyz = detail::instrument_reads(instruments[p], *made, kept);
            distributions[p].x[i] = xyz[0] / xyz.sum();
            distributions[p].y[i] = xyz[1] / xyz.sum();
            without[p].outside += made->in_gamut() ? 0U : 1U;
        }
    };
    const parallel::BlocksOf blocks{people.size(), 128};
    std::vector<std::vector<detail::WithoutTarget>> without(
        parallel::workers_for(blocks.count(), options.threads),
        std::vector<detail::WithoutTarget>(panels.size()));
    parallel::for_blocks(blocks, options.threads,
                         [&](std::size_t first, std::size_t last, std::size_t worker) {
                             for (std::size_t i = first; i < last; ++i) {
                                 target_person(without[worker], i);
                             }
                         });
    for (const std::vector<detail::WithoutTarget>& counted : without) {
        for (std::size_t p = 0; p < panels.size(); ++p) {
            distributions[p].outside += counted[p].outside;
            distributions[p].impossible += counted[p].impossible;
        }
    }
    return distributions;
}

SAMELIGHT_INLINE std::vector<TargetDistribution> target_distributions(
    std::span<const Panel> panels, const Reference& reference, const Population& population,
    const DistributionOptions& options) {
    const std::vector<Individual> people = population.individuals(options.threads);
    return target_distributions(panels, reference, std::span<const Individual>(people), options);
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The smallest power of 2 from which on the mean of the first so many stays within `bound` of the mean of all; none where the
/// last power within half of them doesn't yet.
inline std::optional<std::size_t> converged_at(std::span<const double> x, std::span<const double> y,
                                               double bound) {
    const double mean_x = mean(x);
    const double mean_y = mean(y);
    std::size_t needed = 1;
    double sum_x = 0.0;
    double sum_y = 0.0;
    std::size_t next = 1;
    for (std::size_t i = 0; i < x.size() && 2 * next <= x.size(); ++i) {
        sum_x += x[i];
        sum_y += y[i];
        if (i + 1 == next) {
            const double n = static_cast<double>(next);
            if (std::hypot(sum_x / n - mean_x, sum_y / n - mean_y) > bound) {
                needed = 2 * next;
            }
            next *= 2;
        }
    }
    return 2 * needed <= x.size() ? std::optional(needed) : std::nullopt;
}

SAMELIGHT_INLINE CovarianceMatrix<2> covariance_of(const Moments& m) {
    const auto c = m.covariance.matrix();
    return {c(0, 0), c(0, 1), c(1, 0), c(1, 1)};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE TargetRegion target_region(const TargetDistribution& distribution,
                                            double coverage) {
    std::vector<double> x;
    std::vector<double> y;
    std::vector<double> u;
    std::vector<double> v;
    for (std::size_t i = 0; i < distribution.x.size(); ++i) {
        if (std::isfinite(distribution.x[i])) {
            const auto uv = uv1976(distribution.at(i));
            x.push_back(distribution.x[i]);
            y.push_back(distribution.y[i]);
            u.push_back(uv.u());
            v.push_back(uv.v());
        }
    }
    if (x.empty()) {
        throw Error(ErrorKind::shape, "target_region (" + distribution.panel + ")",
                    "nobody with a target", "at least one person");
    }
    const std::size_t people = x.size();
    const std::optional<std::size_t> needed = detail::converged_at(x, y, 1e-4);
    if (people == 1) {  // a spread of nobody else: none
        x.push_back(x[0]);
        y.push_back(y[0]);
        u.push_back(u[0]);
        v.push_back(v[0]);
    }
    const Moments xy_moments = moments(x, y);
    const Moments uv_moments = moments(u, v);
    return {
        people,
        {xy_moments.mean[0], xy_moments.mean[1]},
        {percentile(x, 50.0), percentile(y, 50.0)},
        detail::covariance_of(xy_moments),
        detail::covariance_of(uv_moments),
        coverage_ellipse({xy_moments.mean[0], xy_moments.mean[1]}, xy_moments.covariance, coverage),
        coverage_ellipse({uv_moments.mean[0], uv_moments.mean[1]}, uv_moments.covariance, coverage),
        needed};
}

}  // namespace samelight
