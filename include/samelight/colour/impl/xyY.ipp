#pragma once
// The bodies of colour/xyY.hpp.

#include <array>
#include <cmath>

#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::array<double, 3> xyz_from_xyY(double x, double y, double Y) {
    if (!(y > 0.0) || !std::isfinite(x) || !std::isfinite(y) || !std::isfinite(Y)) {
        throw Error(ErrorKind::domain, "xyz_from_xyY",
                    "x, y, Y = " + to_text(x) + ", " + to_text(y) + ", " + to_text(Y),
                    "finite numbers with y above 0");
    }
    return {x / y * Y, Y, (1.0 - x - y) / y * Y};
}

SAMELIGHT_INLINE std::array<double, 3> xyY_from_xyz(const std::array<double, 3>& xyz) {
    const double sum = xyz[0] + xyz[1] + xyz[2];
    return {xyz[0] / sum, xyz[1] / sum, xyz[1]};
}

}  // namespace samelight
