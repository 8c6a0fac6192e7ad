#pragma once
// The bodies of colour/chromaticity.hpp.

#include <array>
#include <cmath>
#include <string>
#include <utility>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE void require_finite(const char* where, double first, double second) {
    if (!std::isfinite(first) || !std::isfinite(second)) {
        throw Error(ErrorKind::domain, where, to_text(first) + ", " + to_text(second),
                    "finite numbers");
    }
}

}  // namespace samelight::detail
