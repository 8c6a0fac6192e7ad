#pragma once
// A display that ages by known amounts, and a meter that drifts by known amounts, read at two visits with known noise.
#include <array>
#include <cmath>
#include <cstddef>

#include "samelight/check/visits/visit_lights.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/propagation.hpp"
#include "samelight/numeric/pseudo_random.hpp"

namespace samelight::test {

using Xyz = std::array<double, 3>;

/// What happens between the visits.
struct TrueChange {
    /// Shares of light that red, green, blue keep.
    std::array<double, 3> kept{1.0, 1.0, 1.0};
    /// Factors of the meter's X, Y, Z.
    std::array<double, 3> channels{1.0, 1.0, 1.0};
    /// Red's x, y.
    std::array<double, 2> red_moved{};
};

/// How the readings scatter: standard deviations.
struct TrueNoise {
    double xy = 0.0002, luminance = 0.004;
    /// Of setting up again.
    double again_xy = 0.0002, again_luminance = 0.01;
    std::size_t repeats = 3;
};

/// Red, green, blue of 21, 71 and 7 cd/m2 and the chromaticities of BT.709 (ITU-R BT.709-6, table 1, item 1.3).
inline std::array<Xyz, 3> primaries_then() {
    return {xyz_from_xyY(0.64, 0.33, 21.26), xyz_from_xyY(0.30, 0.60, 71.52),
            xyz_from_xyY(0.15, 0.06, 7.22)};
}

/// Red, green, blue and their sum, as they truly are now.
inline std::array<Xyz, 4> lights_after(const TrueChange& change) {
    std::array<Xyz, 4> lights{};
    auto primaries = primaries_then();
    primaries[0] =
        xyz_from_xyY(0.64 + change.red_moved[0], 0.33 + change.red_moved[1], primaries[0][1]);
    for (std::size_t k = 0; k < 3; ++k) {
        for (std::size_t i = 0; i < 3; ++i) {
            lights[k][i] = change.kept[k] * primaries[k][i];
            lights[3][i] += lights[k][i];
        }
    }
    return lights;
}

/// What the meter reads of these lights at one visit.
inline VisitLights read_visit(const std::array<Xyz, 4>& lights, const Xyz& channels,
                              const TrueNoise& noise, PseudoRandom& random) {
    VisitLights read;
    const double aim = std::exp(noise.again_luminance * draw_normal(random));
    for (std::size_t k = 0; k < 4; ++k) {
        const double again_x = noise.again_xy * draw_normal(random);
        const double again_y = noise.again_xy * draw_normal(random);
        for (std::size_t r = 0; r < noise.repeats; ++r) {
            auto xyY = xyY_from_xyz({channels[0] * lights[k][0], channels[1] * lights[k][1],
                                     channels[2] * lights[k][2]});
            xyY[0] += again_x + noise.xy * draw_normal(random);
            xyY[1] += again_y + noise.xy * draw_normal(random);
            xyY[2] *= aim * std::exp(noise.luminance * draw_normal(random));
            read.readings[k].push_back(xyz_from_xyY(xyY[0], xyY[1], xyY[2]));
        }
    }
    read.readings[4].push_back({0.0, 0.0, 0.0});
    return read;
}

/// Both visits.
struct Pair {
    VisitLights then, now;
};

inline Pair read_pair(const TrueChange& change, const TrueNoise& noise, PseudoRandom& random) {
    return {read_visit(lights_after({}), {1.0, 1.0, 1.0}, noise, random),
            read_visit(lights_after(change), change.channels, noise, random)};
}

}  // namespace samelight::test
