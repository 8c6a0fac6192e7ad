#pragma once
// How far people disagree about a pair of lights, or about a set of colours shown in two ways.
#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/mixed_lights.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/light_pair.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The spread of one figure a viewer. In the unit of the values. Throws Error (shape) for none, Error (domain) for NaN. Quantiles as
/// sample_quantile(). Source: Hyndman & Fan 1996, definition 7, for the quantiles.
SAMELIGHT_API ViewerSpread viewer_spread(std::span<const double> values);

namespace detail {

/// What every viewer sees of some colours between two sides: a row of values, one a colour, of each kind and viewer.
class SAMELIGHT_API PairDifferences {
  public:
    enum Kind : std::size_t { de00, chromatic, offset_L, offset_a, offset_b, offset_u, offset_v };
    static constexpr std::size_t kinds = 7;
    /// And viewer.
    static constexpr std::size_t bytes_a_colour = kinds * sizeof(double);

    PairDifferences(std::size_t viewers, std::size_t colours)
        : viewers_(viewers), colours_(colours), values_(kinds * viewers * colours) {}

    [[nodiscard]] std::size_t viewers() const noexcept { return viewers_; }

    /// What one viewer, adapted to `white`, sees of the sides' colours, of which there are no more than was said.
    void set(std::size_t viewer, const SeenColours<double>& p, const SeenColours<double>& q,
             const OwnXyz& white);
    /// Each colour's CIEDE2000, as this viewer sees it.
    [[nodiscard]] std::span<const double> differences(std::size_t viewer) const {
        return std::span<const double>(values_).subspan(kinds * viewer * colours_, colours_);
    }
    /// One kind of one colour, a value a viewer.
    void gather(std::size_t colour, std::size_t kind, std::span<double> out) const;

  private:
    [[nodiscard]] std::span<double> row(std::size_t viewer, std::size_t kind) {
        return std::span<double>(values_).subspan((kinds * viewer + kind) * colours_, colours_);
    }

    std::size_t viewers_;
    std::size_t colours_;
    std::vector<double> values_;
};

/// How many of `colours` colours are looked at in one go, so that the differences of `pairs` pairs take no more than `bytes`.
std::size_t colours_at_once(std::size_t colours, std::size_t pairs, std::size_t viewers,
                            std::size_t bytes = std::size_t{1} << 26U);

/// The ellipsoid that holds the share `coverage` of a normal distribution with this covariance (3 x 3).
SAMELIGHT_API double ellipsoid_volume(const Covariance& covariance, double coverage);

/// How much viewers disagree about one colour at a time.
class SAMELIGHT_API ColourByViewers {
  public:
    ColourByViewers(std::size_t viewers, const PopulationIndexOptions& options)
        : options_(options), distance_(viewers), lab_(viewers, 3) {
        for (std::vector<double>& column : columns_) {
            column.resize(viewers);
        }
    }

    /// Throws Error (domain) for a light that a viewer doesn't see.
    void look(const PairDifferences& differences, std::size_t colour);

    /// Of the last one looked at.
    [[nodiscard]] const ColourDisagreement& disagreement() const noexcept { return found_; }
    /// CIEDE2000 of the last one looked at, and its difference in u', v', a value a viewer.
    [[nodiscard]] const std::vector<double>& de00() const noexcept {
        return columns_[PairDifferences::de00];
    }
    [[nodiscard]] const std::vector<double>& uv() const noexcept { return distance_; }

  private:
    PopulationIndexOptions options_;
    std::array<std::vector<double>, PairDifferences::kinds> columns_;
    std::vector<double> distance_;
    Eigen::MatrixXd lab_;
    ColourDisagreement found_{};
};

/// The indices of a set of colours, put together colour by colour.
class SAMELIGHT_API IndexOfColours {
  public:
    IndexOfColours(std::size_t viewers, const PopulationIndexOptions& options)
        : options_(options), de00_(viewers, 0.0), uv_(viewers, 0.0) {}

    /// One more.
    void add(const ColourByViewers& colour);

    /// Of all that were added; at least one.
    [[nodiscard]] PopulationIndex index() const;

  private:
    PopulationIndexOptions options_;
    std::vector<ColourDisagreement> colours_;
    /// Sums over the colours, a viewer each.
    std::vector<double> de00_, uv_;
};

}  // namespace detail

/// The light midway between two, in their unit: what viewers are adapted to who have both whites before them. Throws Error (shape) for
/// differing samplings. Own choice.
SAMELIGHT_API SampledLight mean_light(const SampledLight& first, const SampledLight& second);

/// How far a population disagrees about colours that are shown in two ways.
///
/// pair: the same m >= 1 colours twice, as lights on one sampling, in one unit: a pair of lights, or a patch set on two displays
/// (Reproduction::lights); and the white, the light to which every viewer is adapted, in the same unit; CIELAB is relative to it. For two displays side by side that is
/// mean_light() of their whites, wherever these are: relative to another white, what viewers see as white would count as a colour, whose
/// chroma makes differences weigh less in CIEDE2000. A viewer's X, Y, Z are
/// those of xyz_from_lms(), this library's definition of how a person sees.
///
/// Published: means and maxima of Delta E over observers and patches (Long & Fairchild 2014, J. Imaging Sci. Technol. 58(3)); MCDM, the mean
/// colour difference from the mean; area and volume of the confidence ellipse and ellipsoid of the distribution; the percentile over observers of CIEDE2000
/// without lightness (Park & Murdoch 2020, from memory; which percentile is the caller's, and the default's 90 from memory too). This
/// library's own: pair_share, and that MCDM, ellipse and ellipsoid are taken of differences.
/// The distribution is that of the differences, second minus first, as each viewer sees them: agreement on a difference, however large, is a
/// distribution of no size. Exchanging first and second changes nothing. A pair that is one and the same gives 0 everywhere.
///
/// Range: populations of 2 people or more. Error: figures that are means, below 1e-9. Memory: 24 bytes a viewer and part, and some 64 MB; a thread
/// takes 100 bytes a viewer more.
/// Throws Error (shape) for differing samplings or counts, and Error (domain) for options out of range or lights that a viewer doesn't see.
SAMELIGHT_API PopulationIndex population_index(const Population& population, const MixedPair& pair,
                                               const PopulationIndexOptions& options = {});

/// The same for one pair of lights.
SAMELIGHT_API PopulationIndex population_index(const Population& population, const LightPair& pair,
                                               const PopulationIndexOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/metamerism/impl/population_index.ipp"
#endif
