#pragma once
// How far people disagree about a pair of lights, or about a set of colours shown in two ways.
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

#include "samelight/colour/pair_share.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/spectrum/door.hpp"

namespace samelight {

/// How a figure spreads over viewers.
struct ViewerSpread {
    double mean;
    double median;
    double two_in_three;  ///< two viewers in three have less
    double p90;           ///< nine viewers in ten have less
    double p95;           ///< nineteen in twenty have less
    double largest;
};

/// The spread of one figure a viewer. Throws Error (shape) for none, Error (domain) for NaN. Quantiles as sample_quantile().
inline ViewerSpread viewer_spread(std::span<const double> values) {
    return {mean(values),
            sample_quantile(values, 0.5),
            sample_quantile(values, 2.0 / 3.0),
            sample_quantile(values, 0.9),
            sample_quantile(values, 0.95),
            sample_quantile(values, 1.0)};
}

/// What is asked for.
struct PopulationIndexOptions {
    double percentile = 90.0;  ///< over viewers, of the difference without lightness, 0 to 100
    double coverage = 0.95;    ///< share of a normal cloud inside ellipse and ellipsoid
    double pair_threshold_uv = 0.004;  ///< from which on two viewers count as disagreeing
};

/// One colour of the set. Differences are those that each viewer sees between the two ways of showing it.
struct ColourDisagreement {
    double mean_de00;     ///< over viewers
    double largest_de00;  ///< of any viewer
    double mean_uv;       ///< distance in u', v'
    double largest_uv;
    double lightness_free;  ///< percentile over viewers of CIEDE2000 without lightness
    double mcdm;  ///< Delta E*ab: mean distance of the viewers' differences from their mean
    double ellipse_area_uv;   ///< of the cloud of differences in u', v'
    double ellipsoid_volume;  ///< of the cloud of differences in CIELAB, cubic Delta E*ab
    double
        pair_share;  ///< pairs of viewers whose differences in u', v' lie more than the threshold apart
};

/// The indices of observer metamerism of a set of m colours, shown in two ways, for a population of N viewers.
struct PopulationIndex {
    std::size_t viewers;
    PopulationIndexOptions options;
    std::vector<ColourDisagreement> colours;  ///< m

    ViewerSpread
        de00;  ///< of each viewer's mean CIEDE2000 over the colours; its largest is the worst viewer's
    ViewerSpread uv;           ///< of each viewer's mean distance in u', v'
    std::size_t worst_colour;  ///< the one with the largest mean over viewers
    double largest_de00;       ///< of any viewer for any colour

    // Means over the colours.
    double lightness_free;
    double mcdm;
    double ellipse_area_uv;
    double ellipsoid_volume;
    double pair_share;

    std::vector<double>
        viewer_de00;  ///< N: each viewer's mean over the colours, in the population's order
    std::vector<double> viewer_uv;  ///< N
};

namespace detail {

/// For every colour one value a viewer, beside each other in memory.
class ColourByViewer {
  public:
    ColourByViewer(std::size_t colours, std::size_t viewers)
        : viewers_(viewers), values_(colours * viewers) {}

    void set(std::size_t viewer, std::span<const double> of_colours) {
        for (std::size_t j = 0; j < of_colours.size(); ++j) {
            values_[j * viewers_ + viewer] = of_colours[j];
        }
    }
    [[nodiscard]] std::span<const double> of(std::size_t colour) const {
        return std::span<const double>(values_).subspan(colour * viewers_, viewers_);
    }

  private:
    std::size_t viewers_;
    std::vector<double> values_;
};

/// Everything that the indices of one set need: a value for each colour and viewer.
struct Disagreement {
    ColourByViewer de00, chromatic, uv;
    std::array<ColourByViewer, 3> lab;    ///< second minus first
    std::array<ColourByViewer, 2> plane;  ///< the same in u', v'

    Disagreement(std::size_t m, std::size_t n)
        : de00(m, n),
          chromatic(m, n),
          uv(m, n),
          lab{ColourByViewer(m, n), ColourByViewer(m, n), ColourByViewer(m, n)},
          plane{ColourByViewer(m, n), ColourByViewer(m, n)} {}
};

inline Disagreement disagreement(const Population& population, std::span<const MixedLights> sides,
                                 const SampledLight& white) {
    require_sides("population_index", sides, white);
    const std::size_t m = sides.front().size();
    Disagreement result(m, population.size());
    std::vector<double> buffer(2 * m);
    const std::span<double> a(buffer.data(), m);
    const std::span<double> b(buffer.data() + m, m);
    const auto offset = [&](std::span<const double> p, std::span<const double> q) {
        std::transform(q.begin(), q.end(), p.begin(), a.begin(),
                       [](double second, double first) { return second - first; });
        return std::span<const double>(a);
    };
    for_each_viewer("population_index", population, sides, white,
                    [&](std::size_t i, const ViewerColours& seen) {
                        const auto p = seen.lab(0);
                        const auto q = seen.lab(1);
                        delta_e_2000_and_chromatic<double>(p, q, a, b);
                        result.de00.set(i, a);
                        result.chromatic.set(i, b);
                        plane_distance<double>(seen.u(0), seen.v(0), seen.u(1), seen.v(1), a);
                        result.uv.set(i, a);
                        result.lab[0].set(i, offset(p.first, q.first));
                        result.lab[1].set(i, offset(p.second, q.second));
                        result.lab[2].set(i, offset(p.third, q.third));
                        result.plane[0].set(i, offset(seen.u(0), seen.u(1)));
                        result.plane[1].set(i, offset(seen.v(0), seen.v(1)));
                    });
    return result;
}

/// Columns of equal length as a matrix.
template <std::size_t K>
Eigen::MatrixXd as_matrix(const std::array<ColourByViewer, K>& values, std::size_t colour) {
    const std::size_t n = values[0].of(colour).size();
    Eigen::MatrixXd rows(static_cast<Eigen::Index>(n), static_cast<Eigen::Index>(K));
    for (std::size_t k = 0; k < K; ++k) {
        const auto column = values[k].of(colour);
        std::copy(column.begin(), column.end(), rows.col(static_cast<Eigen::Index>(k)).data());
    }
    return rows;
}

/// The mean distance of the rows from their mean.
inline double mean_difference_from_mean(const Eigen::MatrixXd& rows) {
    const Eigen::RowVectorXd centre = rows.colwise().mean();
    return (rows.rowwise() - centre).rowwise().norm().mean();
}

/// The ellipsoid that holds the share `coverage` of a normal cloud with this covariance (3 x 3).
inline double ellipsoid_volume(const Covariance& covariance, double coverage) {
    const Eigen::Matrix3d matrix = covariance.matrix();
    const double factor = chi_squared_quantile(coverage, 3.0);
    return 4.0 / 3.0 * std::numbers::pi * std::pow(factor, 1.5) *
           std::sqrt(std::max(matrix.determinant(), 0.0));
}

inline ColourDisagreement colour_disagreement(const Disagreement& values, std::size_t colour,
                                              const PopulationIndexOptions& options) {
    const auto largest = [&](const ColourByViewer& v) {
        return *std::max_element(v.of(colour).begin(), v.of(colour).end());
    };
    const Eigen::MatrixXd lab = as_matrix(values.lab, colour);
    const Moments plane = moments(values.plane[0].of(colour), values.plane[1].of(colour));
    return {
        mean(values.de00.of(colour)),
        largest(values.de00),
        mean(values.uv.of(colour)),
        largest(values.uv),
        percentile(values.chromatic.of(colour), options.percentile),
        mean_difference_from_mean(lab),
        coverage_ellipse({plane.mean[0], plane.mean[1]}, plane.covariance, options.coverage).area(),
        ellipsoid_volume(moments(lab).covariance, options.coverage),
        pair_share(values.plane[0].of(colour), values.plane[1].of(colour),
                   options.pair_threshold_uv)};
}

/// Each viewer's mean over the colours.
inline std::vector<double> viewer_means(const ColourByViewer& values, std::size_t colours,
                                        std::size_t viewers) {
    std::vector<double> sums(viewers, 0.0);
    for (std::size_t j = 0; j < colours; ++j) {
        const auto column = values.of(j);
        for (std::size_t i = 0; i < viewers; ++i) {
            sums[i] += column[i];
        }
    }
    for (double& sum : sums) {
        sum /= static_cast<double>(colours);
    }
    return sums;
}

}  // namespace detail

/// How far a population disagrees about colours that are shown in two ways.
///
/// first, second: the same m >= 1 colours as lights on one sampling, in one unit: a pair of lights, or a patch set on two displays
/// (Reproduction::lights). white: the light to which every viewer is adapted, in the same unit; CIELAB is relative to it. A viewer's X, Y, Z are
/// those of xyz_from_lms(), this library's definition of how a person sees.
///
/// Published: means and maxima of Delta E over observers and patches (Long & Fairchild 2014, J. Imaging Sci. Technol. 58(3)); MCDM, the mean
/// colour difference from the mean; area and volume of the confidence ellipse and ellipsoid of the cloud; the percentile over observers of CIEDE2000
/// without lightness (Park & Murdoch 2020; which percentile is the caller's, the default's 90 is from memory). This library's own: pair_share.
/// The cloud is that of the differences, second minus first, as each viewer sees them: agreement on a difference, however large, is a
/// cloud of no size. Exchanging first and second changes nothing. A pair that is one and the same gives 0 everywhere.
///
/// Range: populations of 2 people or more. Error: figures that are means, below 1e-9. Memory: 64 N m bytes.
/// Throws Error (shape) for differing samplings or counts, and Error (domain) for options out of range or lights that a viewer doesn't see.
inline PopulationIndex population_index(const Population& population, const MixedLights& first,
                                        const MixedLights& second, const SampledLight& white,
                                        const PopulationIndexOptions& options = {}) {
    if (population.size() < 2) {
        throw Error(ErrorKind::shape, "population_index",
                    std::to_string(population.size()) + " viewer", "at least two");
    }
    const std::array<MixedLights, 2> sides = {first, second};
    const detail::Disagreement values = detail::disagreement(population, sides, white);
    const std::size_t m = first.size();
    const std::size_t n = population.size();
    PopulationIndex index{};
    index.viewers = n;
    index.options = options;
    index.viewer_de00 = detail::viewer_means(values.de00, m, n);
    index.viewer_uv = detail::viewer_means(values.uv, m, n);
    for (const double value : index.viewer_uv) {
        if (!std::isfinite(value)) {
            throw Error(ErrorKind::domain, "population_index", "a light that a viewer doesn't see",
                        "lights with tristimulus values above 0");
        }
    }
    index.de00 = viewer_spread(index.viewer_de00);
    index.uv = viewer_spread(index.viewer_uv);
    for (std::size_t j = 0; j < m; ++j) {
        index.colours.push_back(detail::colour_disagreement(values, j, options));
        const ColourDisagreement& colour = index.colours.back();
        const double share = 1.0 / static_cast<double>(m);
        index.largest_de00 = std::max(index.largest_de00, colour.largest_de00);
        index.lightness_free += share * colour.lightness_free;
        index.mcdm += share * colour.mcdm;
        index.ellipse_area_uv += share * colour.ellipse_area_uv;
        index.ellipsoid_volume += share * colour.ellipsoid_volume;
        index.pair_share += share * colour.pair_share;
        if (colour.mean_de00 > index.colours[index.worst_colour].mean_de00) {
            index.worst_colour = j;
        }
    }
    return index;
}

/// The same for one pair of lights.
inline PopulationIndex population_index(const Population& population, const SampledLight& first,
                                        const SampledLight& second, const SampledLight& white,
                                        const PopulationIndexOptions& options = {}) {
    return population_index(population, MixedLights(first.sampling, first.column()),
                            MixedLights(second.sampling, second.column()), white, options);
}

}  // namespace samelight
