#pragma once
// The bodies of display/panel_as_shown.hpp.

#include <cstddef>
#include <optional>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/own_samples.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_as_shown.hpp"
#include "samelight/display/panel_lights.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Panel panel_as_shown(const Panel& panel,
                                      const std::optional<Chromaticity<Cie1931_2deg>>& set_to) {
    if (!set_to && panel.white_known()) {
        return panel;
    }
    const Chromaticity<Cie1931_2deg> white = set_to.value_or(
        Chromaticity<Cie1931_2deg>(generic_native_white_xy[0], generic_native_white_xy[1]));
    const Match set = set_white(panel, white);
    if (!set.in_gamut()) {
        throw Error(ErrorKind::domain, panel.name(),
                    "a white of x " + to_text(white.x(), 4) + ", y " + to_text(white.y(), 4) +
                        " outside that display's gamut",
                    "an x, y inside the triangle of its primaries");
    }
    const auto column = [&](Eigen::Index k) {
        const auto at = static_cast<std::size_t>(k);
        return own_samples(panel, [&](const PanelLights& lights) -> Eigen::VectorXd {
            return set.share[at] * set.content[at] * lights.emitters().col(k);
        });
    };
    PanelSpectra spectra{column(0), column(1), column(2)};
    if (panel.white_is_base()) {
        spectra.white = own_samples(panel, [&](const PanelLights& lights) -> Eigen::VectorXd {
            return lights.emitters() * Eigen::Vector3d(set.added[0], set.added[1], set.added[2]) +
                   set.white_emitter * lights.white();
        });
    }
    return {panel.name(), spectra, panel.sampling()};
}

}  // namespace samelight
