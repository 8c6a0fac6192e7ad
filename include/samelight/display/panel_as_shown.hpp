#pragma once
// A panel whose white is set: what is measured when a set stands at another white than its native one.
#include <optional>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A panel whose own white is the one that is shown: `set_to` where that is given; 0.3127, 0.3290 where nothing is known of the panel's own
/// white; else the panel as it is. No WhiteBase: "nothing said" is another thing than the native white, and no light is measured. Throws
/// Error (domain) for a white outside its gamut. Own rule; the default is the usual white of displays, D65.
SAMELIGHT_API Panel panel_as_shown(
    const Panel& panel, const std::optional<Chromaticity<Cie1931_2deg>>& set_to = std::nullopt);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/impl/panel_as_shown.ipp"
#endif
