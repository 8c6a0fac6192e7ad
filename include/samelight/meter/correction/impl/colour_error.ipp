#pragma once
// The bodies of meter/correction/colour_error.hpp.

#include <array>
#include <optional>
#include <string>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/meter/correction/colour_error.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE ColourError colour_error(const std::array<double, 3>& corrected,
                                          const std::array<double, 3>& reference,
                                          const std::optional<std::array<double, 3>>& white) {
    const OfObserver<Any> observer{"readings"};
    const Tristimulus<Any> c(observer, corrected);
    const Tristimulus<Any> r(observer, reference);
    const auto xy = chromaticity(c) - chromaticity(r);
    const auto uv = uv1976(chromaticity(c)) - uv1976(chromaticity(r));
    ColourError error{xy.first(), xy.second(), uv.first(), uv.second(), c.Y() / r.Y() - 1.0, {}};
    if (white) {
        const Tristimulus<Any> w(observer, *white);
        error.de00 = delta_e_2000(lab(c, w), lab(r, w));
    }
    return error;
}

}  // namespace samelight
