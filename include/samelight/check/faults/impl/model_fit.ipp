#pragma once
// The bodies of check/faults/model_fit.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

#include <Eigen/Core>

#include "samelight/check/faults/model_fit.hpp"
#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/check/readings/light_places.hpp"
#include "samelight/numeric/minimum/damped_least_squares.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// What no model explains, in CIELAB; and where the weight of a distance begins to fall, in standard deviations.
inline constexpr double unexplained_lab = 0.3, robust_at = 6.0;

inline std::array<double, 3> lab_array(const std::array<double, 3>& xyz,
                                       const std::array<double, 3>& white) {
    const LabOf<double> lab = lab_beside(xyz, white);
    return {lab.L, lab.a, lab.b};
}

/// One over the standard deviations of L*, a*, b* of a reading.
inline std::array<double, 3> per_lab_sd(const ProofPoint& point, const ProofNoise& noise,
                                        const std::array<double, 3>& white) {
    const std::array<double, 3> here = lab_array(point.xyz, white);
    std::array<double, 3> variance{};
    variance.fill(unexplained_lab * unexplained_lab);
    for (std::size_t k = 0; k < 3; ++k) {
        std::array<double, 3> moved = point.xyz;
        moved[k] +=
            noise.standard_deviation(moved[k]) / std::sqrt(static_cast<double>(point.count));
        const std::array<double, 3> there = lab_array(moved, white);
        for (std::size_t i = 0; i < 3; ++i) {
            variance[i] += (there[i] - here[i]) * (there[i] - here[i]);
        }
    }
    return {1.0 / std::sqrt(variance[0]), 1.0 / std::sqrt(variance[1]),
            1.0 / std::sqrt(variance[2])};
}

/// A reading of black.
inline bool shows_black(const ProofPoint& point) {
    const auto& signal = point.shown.signal;
    return *std::max_element(signal.begin(), signal.end()) < 0.005;
}

/// The range of a number; 0 is within it.
struct NumberRange {
    double low, high;
};

/// See ModelFit::lift().
inline std::array<double, 2> lift_range(const std::vector<ProofPoint>& points,
                                        const ProofNoise& noise, const IntendedDisplay& intended) {
    constexpr double unread = 0.25;
    const CurveOptions& curve = intended.curve().options();
    if (curve.kind != CurveKind::bt1886) {
        return {0.0, 0.0};
    }
    const auto begins = [&](double black) {
        return std::pow(std::max(0.0, black) / curve.white_cd_m2, 1.0 / bt1886_exponent);
    };
    for (const ProofPoint& point : points) {
        if (shows_black(point)) {
            const double sd = noise.standard_deviation(point.xyz[1]) /
                              std::sqrt(static_cast<double>(point.count));
            const double here = begins(curve.black_cd_m2);
            return {begins(curve.black_cd_m2 - 4.0 * sd) - here,
                    begins(curve.black_cd_m2 + 4.0 * sd) - here};
        }
    }
    return {0.0, curve.black_cd_m2 > 0.0 ? 0.0 : unread};
}

inline NumberRange range_of(ModelNumber n) {
    using N = ModelNumber;
    switch (n) {
        case N::scale:
            return {-1.6, 1.6};
        case N::gain_red:
        case N::gain_blue:
            return {-0.7, 0.7};
        case N::gamma:
        case N::gamma_red:
        case N::gamma_green:
        case N::gamma_blue:
            return {-0.6, 0.6};
        case N::unlifted:
            return {0.0, 1.0};
        case N::offset:
        case N::offset_red:
        case N::offset_green:
        case N::offset_blue:
            return {-0.12, 0.12};
        case N::clip:
        case N::clip_red:
        case N::clip_green:
        case N::clip_blue:
            return {0.0, 0.6};
        case N::saturation:
            return {-0.8, 0.6};
        case N::hue:
            return {-30.0, 30.0};
        case N::emitter:
            return {0.0, 2.5};
        case N::limit:
            return {0.0, 0.9};
        case N::black:
            return {0.0, 0.05};
        case N::black_red:
        case N::black_green:
        case N::black_blue:
            return {-0.01, 0.05};
        case N::instrument_x:
        case N::instrument_z:
            return {-0.4, 0.4};
        case N::instrument_xy:
        case N::instrument_xz:
        case N::instrument_yx:
        case N::instrument_yz:
        case N::instrument_zx:
        case N::instrument_zy:
            // Wider is no correction for another set, but a set with other primaries.
            return {-0.1, 0.1};
        default:
            return {-0.12, 0.12};
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE ModelFit::ModelFit(const std::vector<ProofPoint>& points, const ProofNoise& noise,
                                    const IntendedDisplay& intended)
    : model_(intended,
             [&] {
                 std::vector<std::array<double, 3>> signals;
                 for (const ProofPoint& point : points) {
                     signals.push_back(point.shown.signal);
                 }
                 return signals;
             }()),
      white_(intended.white()),
      lift_(detail::lift_range(points, noise, intended)) {
    for (const ProofPoint& point : points) {
        measured_lab_.push_back(detail::lab_array(point.xyz, white_));
        per_sd_.push_back(detail::per_lab_sd(point, noise, white_));
    }
}

SAMELIGHT_INLINE std::vector<ModelFit::Distance> ModelFit::distances(
    const ModelState& state) const {
    const auto lights = model_.lights(state);
    std::vector<Distance> result;
    for (std::size_t i = 0; i < lights.size(); ++i) {
        const auto lab = detail::lab_array(lights[i], white_);
        Distance d{0.0, 0.0};
        for (std::size_t k = 0; k < 3; ++k) {
            const double off = measured_lab_[i][k] - lab[k];
            d.delta_e += off * off;
            d.z += off * off * per_sd_[i][k] * per_sd_[i][k];
        }
        result.push_back({std::sqrt(d.delta_e), std::sqrt(d.z)});
    }
    return result;
}

SAMELIGHT_INLINE double ModelFit::misfit(const ModelState& state) const {
    constexpr double c2 = detail::robust_at * detail::robust_at;
    double sum = 0.0;
    for (const Distance& d : distances(state)) {
        sum += c2 * std::log1p(d.z * d.z / c2);
    }
    return std::isfinite(sum) ? sum : std::numeric_limits<double>::infinity();
}

SAMELIGHT_INLINE double ModelFit::refine(ModelState& state, const std::vector<ModelNumber>& numbers,
                                         int rounds) const {
    BoundedValues bounds;
    DampedSearch search;
    for (const ModelNumber n : numbers) {
        const detail::NumberRange range =
            n == ModelNumber::lift ? detail::NumberRange{lift_[0], lift_[1]} : detail::range_of(n);
        bounds.low.push_back(range.low);
        bounds.high.push_back(range.high);
        search.values.push_back(state.at(n));
    }
    ModelState tried = state;
    constexpr double c2 = detail::robust_at * detail::robust_at;
    const auto residuals = [&](const std::vector<double>& values) {
        for (std::size_t i = 0; i < numbers.size(); ++i) {
            tried.at(numbers[i]) = values[i];
        }
        const auto lights = model_.lights(tried);
        Eigen::VectorXd all(static_cast<Eigen::Index>(3 * lights.size()));
        for (std::size_t i = 0; i < lights.size(); ++i) {
            const auto lab = detail::lab_array(lights[i], white_);
            std::array<double, 3> off{};
            double z2 = 0.0;
            for (std::size_t k = 0; k < 3; ++k) {
                off[k] = (measured_lab_[i][k] - lab[k]) * per_sd_[i][k];
                z2 += off[k] * off[k];
            }
            // So that the sum of squares is the sum of the weights' integrals.
            const double weight = z2 > 1e-12 ? std::sqrt(c2 * std::log1p(z2 / c2) / z2) : 1.0;
            for (std::size_t k = 0; k < 3; ++k) {
                all[static_cast<Eigen::Index>(3 * i + k)] =
                    std::isfinite(z2) ? weight * off[k] : 1e6;
            }
        }
        return all;
    };
    search.here = residuals(search.values);
    for (int round = 0; round < rounds && !numbers.empty(); ++round) {
        const double before = search.here.squaredNorm();
        if (!damped_round(bounds, search, residuals) ||
            search.here.squaredNorm() > 0.995 * before) {
            break;
        }
    }
    for (std::size_t i = 0; i < numbers.size(); ++i) {
        state.at(numbers[i]) = search.values[i];
    }
    return search.here.squaredNorm();
}

}  // namespace samelight
