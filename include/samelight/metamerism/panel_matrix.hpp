#pragma once
// Every pair of a list of panels: how far people will disagree, what a white target buys, and what remains. Own comparison; the figures are
// those of population_index.hpp.
#include <cstddef>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/display/reproduction.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/set_panel.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// All pairs in one setting. sides: the white and the common colours on each panel; seen: their lights. One figure a pair, in the order
/// of the pairs.
std::vector<PairFigures> compare_pairs(const SeenLights& seen, const Sides& sides,
                                       const std::vector<std::size_t>& colours,
                                       const PanelMatrixOptions& wanted, bool every_index);

}  // namespace detail

/// For whom displays are set and who then looks. Lends both.
struct MatrixViewers {
    /// Of the settings other than by instrument.
    const Observer& observer;
    /// Who look.
    const Population& population;
};

/// As panel_matrix() below, from what set_panels() made of the panels in options.settings.
SAMELIGHT_API PanelMatrix panel_matrix(std::span<const MatrixPanel> panels,
                                       const std::vector<std::vector<Reproduction>>& shown,
                                       const MatrixViewers& viewers,
                                       const PanelMatrixOptions& options);

/// Compares every pair of a list of panels by what the people of a population see.
///
/// Every panel is set to look like the scene's white, and its colours like the scene's under it, as each Setting says: without correction, with the
/// white-target correction for the observer, and with every colour matched for the observer. What the last leaves is what people see
/// differently from that observer.
///
/// Each viewer is adapted to the mean of the two displays' whites, as that viewer sees them: to what is before their eyes, wherever it was
/// set, so that a pair far from the reference isn't judged as colours. The mean rather than one of the two keeps every figure the same when
/// the panels change places. In CIELAB the two whites then lie about equally far on either side of L* 100.
///
/// panels: 2 or more on one sampling. scene: m >= 1 colours. All
/// pairs use the colours that all panels can show.
/// Cost: sides' parts times people for the responses, then pairs times colours times people CIEDE2000s; they dominate. Memory: 24 bytes a
/// part and viewer, 48 bytes a pair and viewer; where every index is wanted about 210 bytes a pair, viewer and colour, as many colours at
/// once as go into options.index_bytes, but one at least. A thread takes 64 bytes a panel and colour, 8 a pair and colour for each of 4 to 32 viewers,
/// and for every index 100 a viewer.
/// Error: means below 1e-9; those of the colours 3e-4 with MatrixPrecision::tenths.
/// Throws Error (shape) for too few panels, viewers or colours or differing samplings; Error (domain) for a panel that can't make the white, no
/// setting, or no colour that all panels show.
SAMELIGHT_API PanelMatrix panel_matrix(std::span<const MatrixPanel> panels,
                                       const WhiteAndColours& scene, const MatrixViewers& viewers,
                                       const PanelMatrixOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/metamerism/impl/panel_matrix.ipp"
#endif
