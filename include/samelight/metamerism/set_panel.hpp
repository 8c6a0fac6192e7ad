#pragma once
// A panel of a comparison, and what it shows as it is set. Own construction on reproduce().
#include <optional>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A panel of the list.
struct MatrixPanel {
    Panel panel;
    PanelOrigin origin;
    /// What its white reads as it is set, where that isn't what the scene's white reads. No WhiteBase: without it the white is
    /// neither native nor measured, but what the scene's is.
    std::optional<Chromaticity<Cie1931_2deg>> set_to = std::nullopt;
};

/// A white and colours on a panel in one setting: reproduce() and its kin as Setting says.
/// Throws as reproduce(), and Error (domain) for a set_to that the panel can't show.
SAMELIGHT_API Reproduction set_panel(const MatrixPanel& entry, Setting setting,
                                     const WhiteAndColours& scene, const Observer& observer);

/// Every panel in every setting: what set_panel() makes of each, setting by setting.
SAMELIGHT_API std::vector<std::vector<Reproduction>> set_panels(std::span<const MatrixPanel> panels,
                                                                std::span<const Setting> settings,
                                                                const WhiteAndColours& scene,
                                                                const Observer& observer);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/metamerism/impl/set_panel.ipp"
#endif
