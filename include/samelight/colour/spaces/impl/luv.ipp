#pragma once
// The bodies of colour/spaces/luv.hpp.

#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "samelight/colour/appearance/hue.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/colour/spaces/luv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE LuvWhite luv_white(const std::array<double, 3>& white) {
    const double d = white[0] + 15.0 * white[1] + 3.0 * white[2];
    if (!(white[1] > 0.0) || !(d > 0.0) || !std::isfinite(d)) {
        throw Error(
            ErrorKind::domain, "luv",
            "white " + to_text(white[0]) + ", " + to_text(white[1]) + ", " + to_text(white[2]),
            "a finite white with Y and X + 15Y + 3Z above 0");
    }
    return {white[1], 4.0 * white[0] / d, 9.0 * white[1] / d};
}

}  // namespace samelight::detail
