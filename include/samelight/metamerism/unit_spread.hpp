#pragma once
// How far units of a type differ: what a pair of generic panels says of a pair of displays that are of these types. Own.
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "samelight/display/types/generic_type.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/panel_matrix.hpp"
#include "samelight/metamerism/set_panel.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A panel of the list, and the model of its type where it is a generic one.
struct TypedPanel {
    MatrixPanel entry;
    const GenericModel* model = nullptr;
};

namespace detail {

/// Unit `index` of a type: each parameter anywhere in its plausible range, evenly and independently of the others.
Panel unit_of(const GenericModel& model, std::size_t index, std::uint64_t stream,
              const Sampling& sampling);

/// The numbers that units of entry `i` are drawn by: a type's own whatever else is in the list, and others for the same type again.
std::uint64_t stream_of(std::span<const TypedPanel> panels, std::size_t i);

}  // namespace detail

/// How units are drawn.
struct UnitDraws {
    /// How each is set.
    Setting setting;
    /// Of each type, 20 or more.
    std::size_t units = 64;
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// How far the mean difference of two displays' whites differs between units of their types, for every pair of the list in the order of
/// PanelMatrix::pairs, viewers adapted to the mean of the two whites: without a value where both were measured, or where half of the units can't make the white. Each unit is set as `draws` says from its own spectra.
///
/// Unit u of one type is compared with unit u of the other, drawn apart even where
/// the two are one type, and the same whatever else is in the list. Viewers: the whole of the population; a hundred or so will do. The ends rest on few units (64: within a fifth of the
/// spread); they tell a size. Throws as panel_matrix(), and Error (domain) for too few units.
SAMELIGHT_API std::vector<std::optional<UnitSpread>> unit_spreads(
    std::span<const TypedPanel> panels, const UnitDraws& draws, const SampledLight& white,
    const MatrixViewers& viewers);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/metamerism/impl/unit_spread.ipp"
#endif
