#pragma once
// The bodies of colour/differences/steps.hpp.

#include <cmath>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE bool within_uv_steps(const Chromaticity<Cie1931_2deg>& c,
                                      const Chromaticity<Cie1931_2deg>& centre, double steps) {
    if (!(steps >= 0.0) || !std::isfinite(steps)) {
        throw Error(ErrorKind::domain, "within_uv_steps", to_text(steps) + " steps",
                    "a finite number of steps, 0 or more");
    }
    return uv_steps(c, centre) <= steps;
}

}  // namespace samelight
