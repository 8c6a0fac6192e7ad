#pragma once
// The error of a corrected reading against the reference's, in the measures that the trade uses.
#include <array>
#include <optional>
#include <string>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/difference.hpp"
#include "samelight/colour/lab.hpp"
#include "samelight/meter/correction.hpp"
#include "samelight/meter/readings.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight {

/// How far `corrected` is from `reference`, both X, Y, Z in cd/m2 with a luminance above 0.
/// @param white  the reference's white, X, Y, Z: for CIEDE2000, which is left out without it
/// Throws Error (domain) for a light without luminance.
inline ColourError colour_error(const std::array<double, 3>& corrected,
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
