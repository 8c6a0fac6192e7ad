#pragma once
// The bodies of white/daylight_reference.hpp.

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/tables/daylight_basis.hpp"
#include "samelight/white/daylight_reference.hpp"
#include "samelight/white/reference.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The daylight nearest in u', v'.
struct NearestDaylight {
    double temperature_k;
    double distance_uv;
};

inline NearestDaylight nearest_daylight(const Chromaticity<Cie1931_2deg>& xy) {
    NearestDaylight nearest{0.0, 1e9};
    const auto uv = uv1976(xy);
    // By equal steps of 1/T, fine enough that the distance is right to 1e-5.
    for (double reciprocal = 40.0; reciprocal <= 250.0; reciprocal += 0.125) {
        const double kelvin = 1e6 / reciprocal;
        const DaylightSeries at = daylight_series(kelvin);
        const double distance = (uv - uv1976(Chromaticity<Cie1931_2deg>(at.x, at.y))).distance();
        if (distance < nearest.distance_uv) {
            nearest = {kelvin, distance};
        }
    }
    return nearest;
}

/// The three components of daylight on a sampling.
using DaylightParts = std::array<SampledLight, 3>;

inline DaylightParts daylight_parts(const Sampling& sampling) {
    namespace t = tables::daylight_basis;
    const Sampling grid(t::first_nm, t::step_nm, t::count);
    return {rebin(Spectrum(grid, {t::s0.begin(), t::s0.end()}), sampling),
            rebin(Spectrum(grid, {t::s1.begin(), t::s1.end()}), sampling),
            rebin(Spectrum(grid, {t::s2.begin(), t::s2.end()}), sampling)};
}

/// S0 + M1 S1 + M2 S2, nothing below 0, with the weights by which the sum before that reads x, y.
inline SampledLight sum_that_reads(const DaylightParts& parts, const Eigen::Vector2d& xy) {
    // x (X + Y + Z) = X and the same for y: two equations that are linear in the weights.
    Eigen::Matrix<double, 2, 3> left;
    for (Eigen::Index k = 0; k < 3; ++k) {
        const Eigen::Vector3d xyz =
            tristimulus<Cie1931_2deg>(parts.at(static_cast<std::size_t>(k))).column();
        left(0, k) = xyz[0] - xy[0] * xyz.sum();
        left(1, k) = xyz[1] - xy[1] * xyz.sum();
    }
    const double determinant = left(0, 1) * left(1, 2) - left(0, 2) * left(1, 1);
    const double m1 = (left(0, 2) * left(1, 0) - left(0, 0) * left(1, 2)) / determinant;
    const double m2 = (left(0, 0) * left(1, 1) - left(0, 1) * left(1, 0)) / determinant;
    SampledLight sum = parts[0];
    const auto add = [&](std::vector<double>& to, const std::vector<double>& second,
                         const std::vector<double>& third) {
        for (std::size_t i = 0; i < to.size(); ++i) {
            to[i] = std::max(0.0, to[i] + m1 * second[i] + m2 * third[i]);
        }
    };
    add(sum.values, parts[1].values, parts[2].values);
    add(sum.spread, parts[1].spread, parts[2].spread);
    return sum;
}

/// The same that reads x, y with nothing below 0: what is cut off at the ends of the range is made up for.
inline SampledLight daylight_that_reads(const Chromaticity<Cie1931_2deg>& xy,
                                        const Sampling& sampling) {
    const DaylightParts parts = daylight_parts(sampling);
    Eigen::Vector2d aim(xy.x(), xy.y());
    SampledLight light = sum_that_reads(parts, aim);
    for (int round = 0; round < 12; ++round) {
        const auto read = chromaticity(tristimulus<Cie1931_2deg>(light));
        aim += Eigen::Vector2d(xy.x() - read.x(), xy.y() - read.y());
        light = sum_that_reads(parts, aim);
    }
    return light;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Reference daylight_reference(const Chromaticity<Cie1931_2deg>& xy,
                                              const Sampling& sampling) {
    const detail::NearestDaylight nearest = detail::nearest_daylight(xy);
    const std::string typed = detail::xy_text(xy);
    if (!(nearest.distance_uv <= daylight_within_uv)) {
        throw Error(ErrorKind::domain, typed,
                    "a light of which only x, y are known, " + to_text(nearest.distance_uv, 3) +
                        " in u', v' from daylight",
                    "within " + to_text(daylight_within_uv) +
                        ", or that light's spectrum, or the display whose white it is");
    }
    Reference result{typed,
                     "daylight of " + to_text(nearest.temperature_k, 0) + " K, supposed",
                     detail::daylight_that_reads(xy, sampling),
                     {}};
    Warning supposed{reference_as_daylight_code, {{"temperature_k", nearest.temperature_k}}};
    if (nearest.distance_uv > on_daylight_locus_uv) {
        supposed.facts.push_back(Fact{"shifted_uv", nearest.distance_uv});
    }
    result.warnings.push_back(std::move(supposed));
    return result;
}

}  // namespace samelight
