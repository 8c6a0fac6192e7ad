#pragma once
// The bodies of white/reference.hpp.

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_lights.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Reference illuminant_reference(std::string_view name, const Sampling& sampling) {
    const std::string meaning = name.substr(0, 1) == "D" ? "daylight as defined, nobody's display"
                                                         : "a light as defined, nobody's display";
    return {std::string(name), meaning, rebin(cie_illuminant(name), sampling), {}};
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The nearest of the usual whites, and how far it is in x, y.
inline std::pair<std::string, double> nearest_standard_white(const Chromaticity<Cie1931_2deg>& xy) {
    std::pair<std::string, double> nearest{"", 1e9};
    for (const char* name : {"D65", "D50", "D55", "D75", "D93", "E", "C", "A"}) {
        const auto white =
            chromaticity(tristimulus<Cie1931_2deg>(cie_illuminant(name), {380.0, 5.0, 81}));
        const double distance = (xy - white).distance();
        if (distance < nearest.second) {
            nearest = {name, distance};
        }
    }
    return nearest;
}

/// Warns where a display's white is no white anyone would set: over .01 from every usual one.
inline void warn_if_native(Reference& reference, bool display) {
    const auto [name, distance] = nearest_standard_white(reference.xy());
    if (distance > 0.01) {
        reference.unlikely_white = UnlikelyWhite{name, distance, display};
        reference.warnings.push_back(unlikely_white_warning(reference));
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Warning unlikely_white_warning(const Reference& reference) {
    const auto xy = reference.xy();
    const UnlikelyWhite& unlikely = *reference.unlikely_white;
    return Warning{"reference_white_native",
                   {{"x", xy.x()},
                    {"y", xy.y()},
                    {"distance_xy", unlikely.distance_xy},
                    {"nearest", unlikely.nearest},
                    {"light_of", unlikely.of_display ? "display" : "anything"}}};
}

SAMELIGHT_INLINE Warning generic_reference_warning() { return Warning{"reference_generic"}; }

SAMELIGHT_INLINE Reference light_reference(std::string name, const Spectrum& light,
                                           const Sampling& sampling, LightOf of) {
    Reference result{std::move(name), "a light as measured", rebin(light, sampling), {}};
    detail::warn_if_native(result, of == LightOf::display);
    return result;
}

SAMELIGHT_INLINE Reference display_reference(const Panel& panel) {
    if (!panel.white_known()) {
        throw Error(ErrorKind::domain, "reference " + panel.name(),
                    "red, green and blue on scales of their own and no white",
                    "a measured white, or the x, y that its white is set to");
    }
    const auto with_black = [](const PanelLights& lights) {
        const Eigen::VectorXd light = lights.native_white() + lights.black();
        return std::vector<double>(light.begin(), light.end());
    };
    SampledLight light{panel.sampling(), with_black(panel.lights()), 0.0, panel.grid()};
    if (light.grid.step_nm > 0.0) {
        light.spread = with_black(panel.spread());
    }
    Reference result{panel.name(), "that display's native white", std::move(light), {}};
    detail::warn_if_native(result, true);
    return result;
}

SAMELIGHT_INLINE Reference display_reference(const Panel& panel,
                                             const Chromaticity<Cie1931_2deg>& xy) {
    const Match set = set_white(panel, xy);
    const std::string name = panel.name() + "@" + to_text(xy.x(), 4) + "," + to_text(xy.y(), 4);
    if (!set.in_gamut()) {
        throw Error(ErrorKind::domain, name, "a white outside that display's gamut",
                    "an x, y inside the triangle of its primaries");
    }
    return {name, "that display as set by instrument", shown_light(panel, set), {}};
}

}  // namespace samelight
