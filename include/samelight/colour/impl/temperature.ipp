#pragma once
// The bodies of colour/temperature.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <vector>

#include <Eigen/Core>
#include <boost/math/tools/roots.hpp>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/temperature.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline constexpr double hottest_mired = 1.0;  // 1,000,000 K

inline constexpr double coolest_mired = 2000.0;  // 500 K

inline constexpr int locus_intervals = 400;

/// Evenly spaced in the square root of the mired, which keeps neighbours about equally far apart.
inline double coarse_mired(std::size_t index) {
    const double lo = std::sqrt(hottest_mired);
    const double hi = std::sqrt(coolest_mired);
    const double root = lo + (hi - lo) * static_cast<double>(index) / locus_intervals;
    return root * root;
}

/// The coarse locus: points that choose where an exact one is looked for, so that a quick exponential will do.
inline std::vector<std::array<double, 2>> coarse_locus(const Observer& observer,
                                                       const std::vector<double>& exponents,
                                                       const std::vector<double>& fall) {
    using V = math::Batch<double>;
    const auto wavelengths = static_cast<Eigen::Index>(exponents.size());
    Eigen::MatrixXd lights(wavelengths, locus_intervals + 1);
    std::vector<std::array<double, 2>> coarse(locus_intervals + 1);
    for (std::size_t i = 0; i < coarse.size(); ++i) {
        const V mired = math::constant<V>(coarse_mired(i));
        const std::span<double> light(lights.col(static_cast<Eigen::Index>(i)).data(),
                                      exponents.size());
        math::for_each_batch<V, double, 2, 1>(
            "coarse_locus", {exponents, fall}, {light}, [&](const std::array<V, 2>& v) {
                const V e = math::exp(V(v[0] * mired)) - math::constant<V>(1.0);
                return std::array<V, 1>{v[1] / e};
            });
    }
    const Sensitivities rows = observer.on(observer.grid());
    const auto responses = dense::responses(rows.rows(), lights);
    for (std::size_t i = 0; i < coarse.size(); ++i) {
        const Eigen::Vector3d t = responses.col(static_cast<Eigen::Index>(i));
        const double d = t[0] + 15.0 * t[1] + 3.0 * t[2];
        coarse[i] = {4.0 * t[0] / d, 6.0 * t[1] / d};
    }
    return coarse;
}

/// How far along the locus' own direction the point (u, v) lies from `at`; 0 where `at` is the nearest point.
inline double along_locus(const LocusPoint& at, double u, double v) {
    return (u - at.u) * at.du + (v - at.v) * at.dv;
}

SAMELIGHT_INLINE PlanckianLocus::PlanckianLocus(const Observer& observer) : observer_(observer) {
    const Sampling& grid = observer.grid();
    for (int i = 0; i < grid.count(); ++i) {
        const double nm = grid.wavelength_nm(i);
        exponents_.push_back(planck_c2 * 1e3 / nm);
        fall_.push_back(std::pow(560.0 / nm, 5.0));
    }
    coarse_ = coarse_locus(observer_, exponents_, fall_);
}

SAMELIGHT_INLINE LocusPoint PlanckianLocus::at(double mired) const {
    std::array<double, 3> t{};
    std::array<double, 3> dt{};
    for (std::size_t i = 0; i < fall_.size(); ++i) {
        const double a = exponents_[i];  // a * mired = c2 / (lambda T)
        const double e = std::expm1(a * mired);
        // Planck's law times mired, so that it stays finite as the temperature goes to infinity; a common factor has no chromaticity.
        const double ratio = mired > 0.0 ? mired / e : 1.0 / a;
        const double power = fall_[i] * ratio;
        const double slope =
            mired > 0.0 ? 1.0 / mired - a * (e + 1.0) / e : -0.5 * a;  // d ln(power) / d mired
        for (std::size_t k = 0; k < 3; ++k) {
            const double product = observer_.row(k)[i] * power;
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

SAMELIGHT_INLINE std::size_t PlanckianLocus::nearest_of_coarse(double u, double v) const {
    std::size_t nearest = 0;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < coarse_.size(); ++i) {
        const double distance = std::hypot(u - coarse_[i][0], v - coarse_[i][1]);
        if (distance < least) {
            least = distance;
            nearest = i;
        }
    }
    return nearest;
}

SAMELIGHT_INLINE std::optional<ColourTemperature> PlanckianLocus::nearest(double u,
                                                                          double v) const {
    const std::size_t nearest = nearest_of_coarse(u, v);
    const double before = coarse_mired(nearest == 0 ? 0 : nearest - 1);
    const double after = coarse_mired(std::min(nearest + 1, coarse_.size() - 1));
    const auto along = [&](double mired) { return along_locus(at(mired), u, v); };
    const double at_low = along(before);
    const double at_high = along(after);
    if (!(at_low >= 0.0) || !(at_high <= 0.0)) {
        return std::nullopt;
    }
    std::uintmax_t iterations = 100;
    const auto root = boost::math::tools::toms748_solve(
        along, before, after, at_low, at_high, boost::math::tools::eps_tolerance<double>(48),
        iterations);
    const double mired = 0.5 * (root.first + root.second);
    const LocusPoint point = at(mired);
    const double distance = std::hypot(u - point.u, v - point.v);
    // Towards higher mired the locus runs to the right; "above" is to the left of its direction in u, v.
    const double side = (v - point.v) * point.du - (u - point.u) * point.dv;
    return ColourTemperature{1e6 / mired, side >= 0.0 ? distance : -distance};
}

}  // namespace samelight::detail
