#pragma once
// The distribution of targets: a white target for every person of a population, for one panel or for many in one pass. Sources: people as
// individual.hpp; statistics as numeric/statistics.hpp.
#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// One panel's targets, a point a person: what the instrument must read for that person's match.
struct TargetDistribution {
    std::string panel;
    /// CIE 1931, N; NaN for a person for whom the base holds no light of some primary
    std::vector<double> x;
    /// The same.
    std::vector<double> y;
    /// People whose target lies outside the panel's gamut (still counted in x and y).
    std::size_t outside = 0;
    /// People without a target (the NaNs).
    std::size_t impossible = 0;

    /// The target of one person; person < x.size(), which isn't checked. Throws Error (domain) for a person who has none.
    [[nodiscard]] Chromaticity<Cie1931_2deg> at(std::size_t person) const {
        return {x[person], y[person]};
    }
};

/// What distributions of targets may take into account besides panels, reference and people.
struct DistributionOptions {
    /// What is shown before: of a single panel, unless native.
    WhiteBase base = NativeWhite{};
    BatchPrecision precision = BatchPrecision::double_precision;
    /// One a panel, in place of `base`; empty: `base`.
    std::vector<WhiteBase> bases = {};
    /// Threads that the work is divided over, by people; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

namespace detail {

/// Where a panel's lights stand among the columns of the one product that serves all panels.
struct PanelColumns {
    Eigen::Index emitters;
    /// Only where white isn't the sum, or a white as it stands was given.
    std::optional<Eigen::Index> base;
    /// Only where there is some.
    std::optional<Eigen::Index> black;
    /// See PanelResponses.
    bool white_emitter;
};

/// All lights that a set of panels is made of, and the reference last: n x m.
struct LightColumns {
    Eigen::MatrixXd lights;
    std::vector<PanelColumns> panels;
    Eigen::Index reference;
};

/// @param nows  a panel's white as it stands, where it was given; one a panel
SAMELIGHT_API LightColumns gather(std::span<const Panel> panels, const Reference& reference,
                                  std::span<const std::optional<SampledLight>> nows);

/// What each panel's white is before it is moved; nothing for its native one. Throws as target_distributions().
std::vector<std::optional<SampledLight>> lights_before(std::span<const Panel> panels,
                                                       const DistributionOptions& options);

/// One observer's responses to one panel, out of their responses to all columns.
PanelResponses panel_responses(
    const Eigen::Ref<const Eigen::Matrix<double, 3, Eigen::Dynamic>>& all, const PanelColumns& at,
    Eigen::Index reference);

/// What the instrument reads for a composition: its light, seen by CIE 1931.
Eigen::Vector3d instrument_reads(const PanelResponses& instrument, const Composition& made,
                                 double kept);

}  // namespace detail

/// The targets of every person for every panel: white_target() with each person's cones, in one pass.
///
/// The people are made once for all panels and forgotten; a distribution keeps 16 bytes a person. Agrees with white_target() for
/// cone_observer(person) to 1e-9 in x and y (double precision; tested). What is said of a panel doesn't depend on the others. Throws Error
/// (shape) for differing samplings and for bases that are neither none nor one a panel, Error (domain) for a `base` other than native
/// with more than one panel.
SAMELIGHT_API std::vector<TargetDistribution> target_distributions(
    std::span<const Panel> panels, const Reference& reference, std::span<const Individual> people,
    const DistributionOptions& options = {});

/// The same for a population.
SAMELIGHT_API std::vector<TargetDistribution> target_distributions(
    std::span<const Panel> panels, const Reference& reference, const Population& population,
    const DistributionOptions& options = {});

namespace detail {

SAMELIGHT_API CovarianceMatrix<2> covariance_of(const Moments& m);

}  // namespace detail

/// Summary of a distribution of targets. One person gives a region of no size. @param coverage  0 to 1, exclusive.
/// Throws Error (shape) where nobody has a target.
SAMELIGHT_API TargetRegion target_region(const TargetDistribution& distribution,
                                         double coverage = 0.95);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/target_distribution.ipp"
#endif
