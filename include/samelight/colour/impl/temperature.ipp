#pragma once
// The bodies of colour/temperature.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <vector>

#include <boost/math/tools/roots.hpp>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE LocusPoint planckian_locus(const Observer& observer, double mired) {
    std::array<double, 3> t{};
    std::array<double, 3> dt{};
    const Sampling& grid = observer.grid();
    for (int i = 0; i < grid.count(); ++i) {
        const double nm = grid.wavelength_nm(i);
        const double a = planck_c2 * 1e3 /
                         nm;  // c2 / lambda in units of 1e-6 K, so that a * mired = c2 / (lambda T)
        const double e = std::expm1(a * mired);
        // Planck's law times mired, so that it stays finite as the temperature goes to infinity; a common factor has no chromaticity.
        const double ratio = mired > 0.0 ? mired / e : 1.0 / a;
        const double power = std::pow(560.0 / nm, 5.0) * ratio;
        const double slope =
            mired > 0.0 ? 1.0 / mired - a * (e + 1.0) / e : -0.5 * a;  // d ln(power) / d mired
        for (std::size_t k = 0; k < 3; ++k) {
            const double product = observer.row(k)[static_cast<std::size_t>(i)] * power;
            t[k] += product;
            dt[k] += product * slope;
        }
    }
    const double d = t[0] + 15.0 * t[1] + 3.0 * t[2];
    const double dd = dt[0] + 15.0 * dt[1] + 3.0 * dt[2];
    const double u = 4.0 * t[0] / d;
    const double v = 6.0 * t[1] / d;
    return {u, v, (4.0 * dt[0] - u * dd) / d, (6.0 * dt[1] - v * dd) / d};
}

inline constexpr double hottest_mired = 1.0;  // 1,000,000 K

inline constexpr double coolest_mired = 2000.0;  // 500 K

SAMELIGHT_INLINE double coarse_mired(int index) {
    const double lo = std::sqrt(hottest_mired);
    const double hi = std::sqrt(coolest_mired);
    const double root = lo + (hi - lo) * static_cast<double>(index) / locus_intervals;
    return root * root;
}

/// How far along the locus' own direction the point (u, v) lies from `at`; 0 where `at` is the nearest point.
inline double along_locus(const LocusPoint& at, double u, double v) {
    return (u - at.u) * at.du + (v - at.v) * at.dv;
}

inline std::size_t nearest_of(const std::vector<LocusPoint>& coarse, double u, double v) {
    std::size_t nearest = 0;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < coarse.size(); ++i) {
        const double distance = std::hypot(u - coarse[i].u, v - coarse[i].v);
        if (distance < least) {
            least = distance;
            nearest = i;
        }
    }
    return nearest;
}

SAMELIGHT_INLINE std::optional<ColourTemperature> nearest_radiator(
    const Observer& observer, const std::vector<LocusPoint>& coarse, double u, double v) {
    const std::size_t nearest = nearest_of(coarse, u, v);
    const std::size_t before = nearest == 0 ? 0 : nearest - 1;
    const std::size_t after = std::min(nearest + 1, coarse.size() - 1);
    const double at_low = along_locus(coarse[before], u, v);
    const double at_high = along_locus(coarse[after], u, v);
    if (!(at_low >= 0.0) || !(at_high <= 0.0)) {
        return std::nullopt;
    }
    const auto along = [&](double mired) {
        return along_locus(planckian_locus(observer, mired), u, v);
    };
    std::uintmax_t iterations = 100;
    const auto root = boost::math::tools::toms748_solve(
        along, coarse_mired(static_cast<int>(before)), coarse_mired(static_cast<int>(after)),
        at_low, at_high, boost::math::tools::eps_tolerance<double>(48), iterations);
    const double mired = 0.5 * (root.first + root.second);
    const LocusPoint at = planckian_locus(observer, mired);
    const double distance = std::hypot(u - at.u, v - at.v);
    // Towards higher mired the locus runs to the right; "above" is to the left of its direction in u, v.
    const double side = (v - at.v) * at.du - (u - at.u) * at.dv;
    return ColourTemperature{1e6 / mired, side >= 0.0 ? distance : -distance};
}

}  // namespace samelight::detail
