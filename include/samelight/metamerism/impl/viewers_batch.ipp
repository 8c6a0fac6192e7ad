#pragma once
// The bodies of metamerism/viewers_batch.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/differences/difference_batch.hpp"
#include "samelight/colour/differences/difference_formulas.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/metamerism/viewers_batch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE Sides::Sides(const char* where, std::span<const MixedLights> sides) {
    if (sides.empty() || sides.front().size() == 0) {
        throw Error(ErrorKind::shape, where, "no colours", "at least one");
    }
    std::size_t lights = 0;
    for (const MixedLights& side : sides) {
        require_same_sampling(where, side.sampling(), sides.front().sampling());
        if (side.size() != sides.front().size()) {
            throw Error(ErrorKind::shape, where,
                        std::to_string(side.size()) + " colours beside " +
                            std::to_string(sides.front().size()),
                        "one set of colours, shown in several ways");
        }
        sides_.push_back({lights, side.part_count(), side.plain(), {}});
        if (!side.plain()) {
            const Eigen::MatrixXd amounts = side.amounts().transpose();
            sides_.back().amounts.assign(amounts.data(), amounts.data() + amounts.size());
        }
        lights += side.part_count();
    }
    colours_ = sides.front().size();
    lights_ = lights;
}

SAMELIGHT_INLINE Eigen::MatrixXd Sides::lights(std::span<const MixedLights> sides) {
    Eigen::Index columns = 0;
    for (const MixedLights& side : sides) {
        columns += side.parts().cols();
    }
    Eigen::MatrixXd lights(sides.front().sampling().count(), columns);
    Eigen::Index at = 0;
    for (const MixedLights& side : sides) {
        lights.middleCols(at, side.parts().cols()) = side.parts();
        at += side.parts().cols();
    }
    return lights;
}

SAMELIGHT_INLINE void Sides::mix(std::size_t which, std::span<const double> xyz, std::size_t row,
                                 std::size_t first, std::span<double> out) const {
    const Side& side = sides_[which];
    const double* light = xyz.data() + 3 * side.first_light + row;
    if (side.plain) {
        for (std::size_t j = 0; j < out.size(); ++j) {
            out[j] = light[3 * (first + j)];
        }
        return;
    }
    std::fill(out.begin(), out.end(), 0.0);
    for (std::size_t k = 0; k < side.parts; ++k) {
        const double part = light[3 * k];
        const double* amount = side.amounts.data() + k * colours_ + first;
        for (std::size_t j = 0; j < out.size(); ++j) {
            out[j] += part * amount[j];
        }
    }
}

SAMELIGHT_INLINE OwnXyz Sides::colour(std::size_t which, std::span<const double> xyz,
                                      std::size_t colour) const {
    OwnXyz result{};
    for (std::size_t row = 0; row < 3; ++row) {
        mix(which, xyz, row, colour, std::span<double>(&result[row], 1));
    }
    return result;
}

SAMELIGHT_INLINE void differences_and_offsets(const SeenColours<double>& p,
                                              const SeenColours<double>& q, const OwnXyz& white,
                                              const std::array<std::span<double>, 5>& out) {
    using V = math::Batch<double>;
    const LabByRoots<V> lab(white);
    math::for_each_batch<V, double, 12, 5>(
        "differences", columns_of(p, q), out, [&](const std::array<V, 12>& v) {
            const LabOf<V> a = lab(v.data());
            const LabOf<V> b = lab(v.data() + 6);
            const auto t = ciede2000_terms(a, b);
            const V lightness = t.dL / t.SL;
            const V chroma = t.dC / t.SC;
            const V hue = t.dH / t.SH;
            const V rest = chroma * chroma + hue * hue + t.RT * chroma * hue;
            return std::array<V, 5>{math::sqrt(V(lightness * lightness + rest)), math::sqrt(rest),
                                    V(b.L - a.L), V(b.a - a.a), V(b.b - a.b)};
        });
}

SAMELIGHT_INLINE void differences_about_mean(const std::array<std::span<const double>, 6>& xyz,
                                             std::span<double> de00) {
    using V = math::Batch<double>;
    math::for_each_batch<V, double, 6, 1>(
        "differences", xyz, {de00}, [](const std::array<V, 6>& v) {
            const V one = math::constant<V>(1.0);
            std::array<V, 3> p;
            std::array<V, 3> q;
            for (std::size_t k = 0; k < 3; ++k) {
                const V per = math::constant<V>(2.0) / V(v[k] + v[3 + k]);
                p[k] = v[k] * per;
                q[k] = v[3 + k] * per;
            }
            return std::array<V, 1>{ciede2000<V>(lab_from_ratios(p[0], p[1], p[2]),
                                                 lab_from_ratios(q[0], q[1], q[2]), one, one, one)};
        });
}

SAMELIGHT_INLINE OwnXyz between(const char* where, const OwnXyz& a, const OwnXyz& b) {
    OwnXyz mean{};
    for (std::size_t k = 0; k < 3; ++k) {
        mean[k] = 0.5 * (a[k] + b[k]);
        if (!(mean[k] > 0.0) || !std::isfinite(mean[k])) {
            throw Error(ErrorKind::domain, where, "a white that a viewer doesn't see",
                        "whites with tristimulus values above 0");
        }
    }
    return mean;
}

}  // namespace samelight::detail
