#pragma once
// The bodies of metamerism/set_panel.hpp.

#include <optional>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/set_panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The panel's white at `xy`, as bright to the CIE 1931 observer as `white`.
inline SampledLight white_as_set(const Panel& panel, const Chromaticity<Cie1931_2deg>& xy,
                                 const SampledLight& white) {
    SampledLight light{panel.sampling(), set_white(panel, xy).light, 0.0};
    const double factor =
        tristimulus<Cie1931_2deg>(white).Y() / tristimulus<Cie1931_2deg>(light).Y();
    for (double& value : light.values) {
        value *= factor;
    }
    return light;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Reproduction set_panel(const MatrixPanel& entry, Setting setting,
                                        const WhiteAndColours& scene, const Observer& observer) {
    const Panel& panel = entry.panel;
    const Observer& instrument = standard_observer<Cie1931_2deg>();
    switch (setting) {
        case Setting::by_instrument:
            if (entry.set_to) {
                const SampledLight as_set = detail::white_as_set(panel, *entry.set_to, scene.white);
                return reproduce_with_white_set(panel, scene, {instrument, instrument, &as_set});
            }
            return reproduce(panel, scene, instrument);
        case Setting::white_matched:
            return reproduce_with_white_set(panel, scene, {instrument, observer});
        case Setting::all_matched:
            return reproduce(panel, scene, observer);
    }
    throw Error(ErrorKind::domain, "set_panel", "an unknown setting", "a Setting");
}

SAMELIGHT_INLINE std::vector<std::vector<Reproduction>> set_panels(
    std::span<const MatrixPanel> panels, std::span<const Setting> settings,
    const WhiteAndColours& scene, const Observer& observer) {
    std::vector<std::vector<Reproduction>> shown;
    for (const Setting setting : settings) {
        shown.emplace_back();
        for (const MatrixPanel& entry : panels) {
            shown.back().push_back(set_panel(entry, setting, scene, observer));
        }
    }
    return shown;
}

}  // namespace samelight
