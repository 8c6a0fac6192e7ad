#pragma once
// The bodies of display/white_base.hpp.
#include <optional>

#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::optional<SampledLight> light_shown(const Panel& panel,
                                                         const WhiteBase& base) {
    if (const SampledLight* stands = light_as_it_stands(base)) {
        return *stands;
    }
    if (const auto xy = xy_set_to(base)) {
        return shown_light(panel, set_white(panel, *xy));
    }
    return std::nullopt;
}

}  // namespace samelight
