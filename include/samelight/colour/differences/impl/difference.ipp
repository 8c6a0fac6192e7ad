#pragma once
// The bodies of colour/differences/difference.hpp.

#include <cmath>
#include <string>
#include <type_traits>

#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/differences/difference_formulas.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline void require_weight(const char* where, const char* name, double value, bool may_be_zero) {
    if (!std::isfinite(value) || !(may_be_zero ? value >= 0.0 : value > 0.0)) {
        throw Error(ErrorKind::domain, where, std::string(name) + " = " + to_text(value),
                    may_be_zero ? "0 or more" : "a weight above 0");
    }
}

SAMELIGHT_INLINE void require_weights(const char* where, const CmcWeights& w) {
    require_weight(where, "l", w.l, false);
    require_weight(where, "c", w.c, false);
}

SAMELIGHT_INLINE void require_weights(const char* where, const Cie94Weights& w) {
    require_weight(where, "kL", w.kL, false);
    require_weight(where, "kC", w.kC, false);
    require_weight(where, "kH", w.kH, false);
    require_weight(where, "K1", w.K1, true);
    require_weight(where, "K2", w.K2, true);
}

SAMELIGHT_INLINE void require_weights(const char* where, const Ciede2000Weights& w) {
    require_weight(where, "kL", w.kL, false);
    require_weight(where, "kC", w.kC, false);
    require_weight(where, "kH", w.kH, false);
}

}  // namespace samelight::detail
