#pragma once
// The bodies of colour/appearance/adaptation.hpp.

#include <array>
#include <cstddef>
#include <string>
#include <utility>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::string to_text(AdaptationTransform transform) {
    switch (transform) {
        case AdaptationTransform::von_kries:
            return "von-kries";
        case AdaptationTransform::bradford:
            return "bradford";
        case AdaptationTransform::cat02:
            return "cat02";
        case AdaptationTransform::cat16:
            break;
    }
    return "cat16";
}

}  // namespace samelight
