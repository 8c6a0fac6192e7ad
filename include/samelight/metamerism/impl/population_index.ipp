#pragma once
// The bodies of metamerism/population_index.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <span>
#include <string>
#include <vector>

#include <Eigen/Core>
#include <Eigen/LU>

#include "samelight/colour/differences/pair_share.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/light_pair.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/parallel.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE ViewerSpread viewer_spread(std::span<const double> values) {
    return {mean(values),
            sample_quantile(values, 0.5),
            sample_quantile(values, 2.0 / 3.0),
            sample_quantile(values, 0.9),
            sample_quantile(values, 0.95),
            sample_quantile(values, 1.0)};
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE void PairDifferences::set(std::size_t viewer, const SeenColours<double>& p,
                                           const SeenColours<double>& q, const OwnXyz& white) {
    const std::size_t count = p.size();
    differences_and_offsets(p, q, white,
                            {row(viewer, de00).first(count), row(viewer, chromatic).first(count),
                             row(viewer, offset_L).first(count), row(viewer, offset_a).first(count),
                             row(viewer, offset_b).first(count)});
    for (const std::size_t k : {0U, 1U}) {
        const auto from = p.column(6 + k);
        const auto to = q.column(6 + k);
        std::transform(to.begin(), to.end(), from.begin(), row(viewer, offset_u + k).begin(),
                       [](double second, double first) { return second - first; });
    }
}

SAMELIGHT_INLINE void PairDifferences::gather(std::size_t colour, std::size_t kind,
                                              std::span<double> out) const {
    for (std::size_t i = 0; i < viewers_; ++i) {
        out[i] = values_[(kinds * i + kind) * colours_ + colour];
    }
}

SAMELIGHT_INLINE std::size_t colours_at_once(std::size_t colours, std::size_t differences,
                                             std::size_t viewers, std::size_t bytes) {
    const std::size_t each = PairDifferences::bytes_a_colour * differences * viewers;
    return std::clamp<std::size_t>(bytes / std::max<std::size_t>(each, 1), 1, colours);
}

/// The mean distance of the rows from their mean.
inline double mean_difference_from_mean(const Eigen::MatrixXd& rows) {
    const Eigen::RowVectorXd centre = rows.colwise().mean();
    return (rows.rowwise() - centre).rowwise().norm().mean();
}

SAMELIGHT_INLINE double ellipsoid_volume(const Covariance& covariance, double coverage) {
    const Eigen::Matrix3d matrix = covariance.matrix();
    const double factor = chi_squared_quantile(coverage, 3.0);
    return 4.0 / 3.0 * std::numbers::pi * std::pow(factor, 1.5) *
           std::sqrt(std::max(matrix.determinant(), 0.0));
}

SAMELIGHT_INLINE void ColourByViewers::look(const PairDifferences& differences,
                                            std::size_t colour) {
    const std::size_t n = distance_.size();
    for (std::size_t kind = 0; kind < PairDifferences::kinds; ++kind) {
        differences.gather(colour, kind, columns_[kind]);
    }
    const std::vector<double>& u = columns_[PairDifferences::offset_u];
    const std::vector<double>& v = columns_[PairDifferences::offset_v];
    for (std::size_t i = 0; i < n; ++i) {
        distance_[i] = std::hypot(u[i], v[i]);
        if (!std::isfinite(distance_[i])) {
            throw Error(ErrorKind::domain, "population_index", "a light that a viewer doesn't see",
                        "lights with tristimulus values above 0");
        }
    }
    for (std::size_t k = 0; k < 3; ++k) {
        const std::vector<double>& offset = columns_[PairDifferences::offset_L + k];
        std::copy(offset.begin(), offset.end(), lab_.col(static_cast<Eigen::Index>(k)).data());
    }
    const Moments plane = moments(u, v);
    const auto largest = [](const std::vector<double>& values) {
        return *std::max_element(values.begin(), values.end());
    };
    found_ = {mean(columns_[PairDifferences::de00]),
              largest(columns_[PairDifferences::de00]),
              mean(distance_),
              largest(distance_),
              percentile(columns_[PairDifferences::chromatic], options_.percentile),
              mean_difference_from_mean(lab_),
              coverage_ellipse({plane.mean[0], plane.mean[1]}, plane.covariance, options_.coverage)
                  .area(),
              ellipsoid_volume(moments(lab_).covariance, options_.coverage),
              pair_share(u, v, options_.pair_threshold_uv)};
}

SAMELIGHT_INLINE void IndexOfColours::add(const ColourByViewers& colour) {
    for (std::size_t i = 0; i < de00_.size(); ++i) {
        de00_[i] += colour.de00()[i];
        uv_[i] += colour.uv()[i];
    }
    colours_.push_back(colour.disagreement());
}

SAMELIGHT_INLINE PopulationIndex IndexOfColours::index() const {
    PopulationIndex index{};
    index.viewers = de00_.size();
    index.options = options_;
    index.colours = colours_;
    const double share = 1.0 / static_cast<double>(colours_.size());
    for (std::size_t i = 0; i < de00_.size(); ++i) {
        index.viewer_de00.push_back(share * de00_[i]);
        index.viewer_uv.push_back(share * uv_[i]);
    }
    index.de00 = viewer_spread(index.viewer_de00);
    index.uv = viewer_spread(index.viewer_uv);
    for (std::size_t j = 0; j < colours_.size(); ++j) {
        const ColourDisagreement& colour = colours_[j];
        index.largest_de00 = std::max(index.largest_de00, colour.largest_de00);
        index.lightness_free += share * colour.lightness_free;
        index.mcdm += share * colour.mcdm;
        index.ellipse_area_uv += share * colour.ellipse_area_uv;
        index.ellipsoid_volume += share * colour.ellipsoid_volume;
        index.pair_share += share * colour.pair_share;
        if (colour.mean_de00 > colours_[index.worst_colour].mean_de00) {
            index.worst_colour = j;
        }
    }
    return index;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE SampledLight mean_light(const SampledLight& first, const SampledLight& second) {
    require_same_sampling("mean_light", first.sampling, second.sampling);
    SampledLight mean = first;
    for (std::size_t i = 0; i < mean.values.size(); ++i) {
        mean.values[i] = 0.5 * (first.values[i] + second.values[i]);
    }
    return mean;
}

SAMELIGHT_INLINE PopulationIndex population_index(const Population& population,
                                                  const MixedPair& pair,
                                                  const PopulationIndexOptions& options) {
    const MixedLights& first = pair.first;
    const MixedLights& second = pair.second;
    const SampledLight& white = pair.white;
    constexpr const char* where = "population_index";
    const std::size_t n = population.size();
    if (n < 2) {
        throw Error(ErrorKind::shape, where, std::to_string(n) + " viewer", "at least two");
    }
    const std::array<MixedLights, 3> lights = {first, second,
                                               MixedLights(white.sampling, white.column())};
    require_same_sampling(where, first.sampling(), white.sampling);
    const detail::Sides sides(where, std::span(lights).first(2));
    const detail::SeenLights seen(
        n, [&](std::size_t i) { return population.individual(i); }, white.sampling,
        detail::Sides::lights(lights), options.threads);
    const std::size_t m = sides.colours();
    const std::size_t most = detail::colours_at_once(m, 1, n);
    const auto two_sides = [&] {
        return std::array<detail::SeenColours<double>, 2>{detail::SeenColours<double>(most),
                                                          detail::SeenColours<double>(most)};
    };
    detail::PairDifferences differences(n, most);
    detail::IndexOfColours index(n, options);
    std::vector<detail::ColourByViewers> by_viewers(parallel::workers_for(most, options.threads),
                                                    detail::ColourByViewers(n, options));
    for (std::size_t from = 0; from < m; from += most) {
        const std::size_t count = std::min(most, m - from);
        const auto look = [&](std::array<detail::SeenColours<double>, 2>& side, std::size_t begin,
                              std::size_t end) {
            for (std::size_t i = begin; i < end; ++i) {
                for (std::size_t k = 0; k < 2; ++k) {
                    side[k].fill(sides, k, seen.of(i), from, count, true);
                }
                const auto adapted = seen.of(i, sides.light_count());
                const detail::OwnXyz own = {adapted[0], adapted[1], adapted[2]};
                differences.set(i, side[0], side[1], detail::between(where, own, own));
            }
        };
        parallel::for_blocks_with(parallel::BlocksOf{n, 64}, options.threads, two_sides, look);
        parallel::work_in_blocks(
            count, options.threads,
            [&](std::size_t colour, std::size_t worker) {
                by_viewers[worker].look(differences, colour);
            },
            [&](std::size_t, std::size_t worker) { index.add(by_viewers[worker]); });
    }
    return index.index();
}

SAMELIGHT_INLINE PopulationIndex population_index(const Population& population,
                                                  const LightPair& pair,
                                                  const PopulationIndexOptions& options) {
    const auto mixed = [](const SampledLight& light) {
        return MixedLights(light.sampling, light.column());
    };
    return population_index(population, {mixed(pair.first), mixed(pair.second), pair.white},
                            options);
}

}  // namespace samelight
