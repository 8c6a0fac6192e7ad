#pragma once
// Viewing conditions and colours for the tests of the appearance models.
#include <array>
#include <cmath>
#include <cstddef>
#include <random>
#include <vector>

#include "samelight/colour/appearance/ciecam16.hpp"
#include "samelight/colour/appearance/ciecam16_viewing.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::test::cam {

using O = Cie1931_2deg;
using Xyz = Tristimulus<O>;

inline ViewingConditions<O> plain(double adapting = 40.0) {
    return {.white = Xyz(95.05, 100.0, 108.88), .adapting_luminance_cd_m2 = adapting};
}
inline Xyz light(const std::array<double, 3>& v) { return {v[0], v[1], v[2]}; }

/// Colours of a wide-gamut display (BT.2020's primaries under D65), black to ten times the white; a tenth are black or grey.
inline std::vector<std::array<double, 3>> display_colours(int count, double brightest = 1.0) {
    std::mt19937 random(41);
    std::uniform_real_distribution<double> drive(0.0, 1.0);
    std::vector<std::array<double, 3>> result = {{0.0, 0.0, 0.0}, {95.05, 100.0, 108.88}};
    while (result.size() < static_cast<std::size_t>(count)) {
        // ITU-R BT.2020 to X, Y, Z, rounded.
        std::array<double, 3> rgb{};
        for (double& v : rgb) {
            v = 100.0 * brightest * std::pow(drive(random), 2.4);
        }
        if (result.size() % 10 == 0) {
            rgb[1] = rgb[2] = rgb[0];
        }
        result.push_back({0.63696 * rgb[0] + 0.14462 * rgb[1] + 0.16888 * rgb[2],
                          0.26270 * rgb[0] + 0.67800 * rgb[1] + 0.05930 * rgb[2],
                          0.02807 * rgb[1] + 1.06099 * rgb[2]});
    }
    return result;
}

}  // namespace samelight::test::cam
