#pragma once
// Where lights lie: CIELAB beside a white, u', v' and x, y, for loops over many patches.
#include <array>
#include <cmath>
#include <optional>

#include "samelight/colour/spaces/lab.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// CIELAB of X, Y, Z beside a white in the same unit.
inline LabOf<double> lab_beside(const std::array<double, 3>& xyz,
                                const std::array<double, 3>& white) {
    return lab_from_ratios(xyz[0] / white[0], xyz[1] / white[1], xyz[2] / white[2]);
}

/// CIELAB distance (Delta E*ab) of two lights.
inline double lab_distance(const std::array<double, 3>& a, const std::array<double, 3>& b,
                           const std::array<double, 3>& white) {
    const LabOf<double> p = lab_beside(a, white);
    const LabOf<double> q = lab_beside(b, white);
    return std::hypot(p.L - q.L, p.a - q.a, p.b - q.b);
}

/// u', v' of a light of a positive sum, else nothing.
inline std::optional<std::array<double, 2>> uv_of_light(const std::array<double, 3>& xyz) {
    const double sum = xyz[0] + 15.0 * xyz[1] + 3.0 * xyz[2];
    if (!(sum > 0.0)) {
        return {};
    }
    return std::array<double, 2>{4.0 * xyz[0] / sum, 9.0 * xyz[1] / sum};
}

inline std::optional<std::array<double, 2>> xy_of_light(const std::array<double, 3>& xyz) {
    const double sum = xyz[0] + xyz[1] + xyz[2];
    if (!(sum > 0.0)) {
        return {};
    }
    return std::array<double, 2>{xyz[0] / sum, xyz[1] / sum};
}

}  // namespace samelight::detail
