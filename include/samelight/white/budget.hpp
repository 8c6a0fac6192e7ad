#pragma once
// How sure a target is: what the spectra, the instrument, the choice of observer and the white emitter each contribute.
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/white/closed_loop.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What a budget may take into account besides panel, reference and target.
struct BudgetOptions {
    InstrumentLimits instrument;
    /// The panel's spectra are this model's; null: what the panel itself says (Panel::model).
    const GenericModel* model = nullptr;
    /// How far units lie from the target, where readings tell which units: in the place of all units of the model's type.
    std::optional<UnitDisplacement> units_that_read = {};
    /// Whether the reference's light was measured by the same instrument.
    bool reference_measured = false;
    /// A floor that no observer function explains, as a standard deviation in x and in y; 0: left out. Side-by-side matches fail
    /// to add up to some degree whatever function is used (Oicherman, Luo & Robertson 2006, CIC14); no figure for whites of
    /// displays is published, so none is assumed.
    double additivity_floor_xy = 0.0;
    /// The same panel's targets for other observers that might as well be taken. Not given: those for CIE 2015, 2 and 10 degrees, are worked
    /// out. An empty list leaves this part, often the largest, out; the budget's warnings say so.
    std::optional<std::vector<Target>> others;
    /// The region of the panel's targets' distribution.
    std::optional<TargetRegion> people;
    /// What the target was worked out from.
    WhiteBase base = NativeWhite{};
    /// A white as it stands: whether the same instrument measured it.
    bool base_measured = false;
    /// How sure the eyes are for whom the white is, where viewers were named: the covariance of their own whites, xx, xy, yx, yy.
    /// It takes the place of the choice of an observer.
    std::optional<CovarianceMatrix<2>> viewers_covariance;
    /// Those of them, by name, who have not yet set the white by eye.
    std::vector<std::string> viewers_unmatched;
};

namespace detail {

/// A value of a cause and how likely it is.
struct Weighted {
    double value;
    double weight;
};

/// A quantity spread evenly from `low` to `high`, for what depends on it smoothly: Gauss and Legendre's five points.
std::array<Weighted, 5> evenly(double low, double high);

/// The same for a phase, what depends on it repeating itself: 32 midpoints.
std::array<Weighted, 32> phases(double whole);

/// The model that the panel's spectra are taken to be of: the options', else the panel's own; null where they were measured.
const GenericModel* model_of(const Panel& panel, const BudgetOptions& options);

ClosedLoopSituation situation_of(const Panel& panel, const BudgetOptions& options);

/// The targets of observers that might as well be taken: those given, else the usual ones.
std::vector<Target> others_of(const Panel& panel, const Reference& reference,
                              const BudgetOptions& options);

/// The furthest of the other targets from `target`: 0, 0 where there are none.
ChromaticityOffset<Cie1931_2deg> farthest_other(const Target& target,
                                                const std::vector<Target>& others);

}  // namespace detail

/// The budget of a target: `target` is what white_target() said of panel, reference and observer.
///
/// Every part is the mean square of the displacement that its cause brings about while it runs through its range and the others
/// stand still; the causes are independent, so the parts add up. Against a simulation (JCGM 101) each cause by itself agrees within
/// four standard errors, and so do, for all causes of a measured panel together, the sum of the parts about their means and the
/// sum of the means (tested). Of several one-sided causes, bandwidth and stray light, the mean squares are added though their
/// means would add: that leaves out products of the means. The instrument that measured a unit's spectra is taken to read its
/// white, too: what it does to both goes together, and cancels only so far as the panel is like the reference.
/// Throws as white_target(), read_by() and Error (domain) for limits below 0. Source: JCGM 100:2008, 4.3.7, 5.1.2; see
/// BudgetPart::covariance for what one-sided causes count.
SAMELIGHT_API TargetBudget target_budget(const PanelAndReference& asked, const Observer& observer,
                                         const Target& target, const BudgetOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/budget.ipp"
#endif
