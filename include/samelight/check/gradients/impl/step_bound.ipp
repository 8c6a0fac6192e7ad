#pragma once
// The bodies of check/gradients/step_bound.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>

#include <Eigen/Core>

#include "samelight/check/gradients/step_bound.hpp"
#include "samelight/colour/signals/transfer_pq.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// A table over light whose edges are numbers with the leading bits of a double alone. (Eigen's bit_cast: some libraries of C++20 have none.)
template <int bits>
struct OctaveParts {
    static constexpr double least = 0x1p-20;
    static constexpr double most = 0x1p14;
    static constexpr unsigned shift = 52U - bits;

    static std::size_t bits_of(double light) {
        return static_cast<std::size_t>(Eigen::numext::bit_cast<std::uint64_t>(light) >> shift);
    }
    /// Of the part that holds a light of `least` to `most`.
    static std::size_t part(double light) { return bits_of(light) - bits_of(least); }
    static std::size_t parts() { return part(most); }
    static double lower_edge(std::size_t part) {
        return Eigen::numext::bit_cast<double>(static_cast<std::uint64_t>(part + bits_of(least))
                                               << shift);
    }
};

using SlopeParts = OctaveParts<6>;
using SensitivityParts = OctaveParts<2>;

/// Of PQ's signal by light, 1 / (cd/m2). With y = (L / 10000)^m1 the signal is ((c1 + c2 y) / (1 + c3 y))^m2.
inline double pq_slope(double light) {
    const double share = light / pq::peak_cd_m2;
    const double y = std::pow(share, pq::m1);
    const double n = pq::c1 + pq::c2 * y;
    const double d = 1.0 + pq::c3 * y;
    return pq::m2 * std::pow(n / d, pq::m2 - 1.0) * (pq::c2 * d - pq::c3 * n) / (d * d) * pq::m1 *
           y / light;
}

/// ITU-R BT.2100-2, Table 7, times 4096: L, M, S of linear BT.2020, and I, Ct, Cp of their signals with PQ.
inline constexpr Matrix3 bounded_lms = {{{1688, 2146, 262}, {683, 2951, 462}, {99, 309, 3688}}};
inline constexpr Matrix3 bounded_ictcp = {
    {{2048, 2048, 0}, {6610, -13613, 7003}, {17933, -17390, -543}}};

/// A number between two.
struct Between {
    double low, high;

    [[nodiscard]] double largest() const { return std::max(std::abs(low), std::abs(high)); }
};

inline Between weighted_sum(const std::array<double, 3>& weights, const std::array<Between, 3>& v) {
    Between sum{0.0, 0.0};
    for (std::size_t i = 0; i < 3; ++i) {
        sum.low += weights[i] * (weights[i] > 0.0 ? v[i].low : v[i].high);
        sum.high += weights[i] * (weights[i] > 0.0 ? v[i].high : v[i].low);
    }
    return sum;
}

inline constexpr double bound_slack = 1e-8;

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE StepBound::StepBound(const RgbEncoding& encoding) {
    for (std::size_t k = 0; k < 3; ++k) {
        std::array<double, 3> one{};
        one[k] = 1.0;
        const Tristimulus<Cie1931_2deg> light = encoding.tristimulus(one);
        const auto wide = linear_rgb<Bt2020>(light).values();
        for (std::size_t i = 0; i < 3; ++i) {
            const auto& row = detail::bounded_lms[i];
            lms_from_rgb_[i][k] = (row[0] * wide[0] + row[1] * wide[1] + row[2] * wide[2]) / 4096.0;
        }
        luminance_[k] = light.values()[1];
    }
    for (std::size_t part = 0; part <= detail::SlopeParts::parts(); ++part) {
        slopes_.push_back(detail::pq_slope(detail::SlopeParts::lower_edge(part)));
    }
    for (std::size_t part = 0; part <= detail::SensitivityParts::parts(); ++part) {
        sensitivities_.push_back(
            best_contrast_sensitivity(detail::SensitivityParts::lower_edge(part)));
    }
}

SAMELIGHT_INLINE double StepBound::sensitivity_above(double luminance) const {
    using Parts = detail::SensitivityParts;
    if (luminance < Parts::least) {
        return sensitivities_.front();
    }
    return luminance < Parts::most ? sensitivities_[Parts::part(luminance) + 1]
                                   : std::numeric_limits<double>::infinity();
}

SAMELIGHT_INLINE VisibleStep StepBound::most(const BoundedLight& a, const BoundedLight& b,
                                             StepKind kind) const {
    using Parts = detail::SlopeParts;
    constexpr double unknown = std::numeric_limits<double>::infinity();
    VisibleStep step{kind == StepKind::grey ? unknown : 0.0, unknown};
    std::array<detail::Between, 3> signals{};
    for (std::size_t i = 0; i < 3; ++i) {
        const double low = std::min(a.lms[i], b.lms[i]);
        const double high = std::max(a.lms[i], b.lms[i]);
        if (!(low >= Parts::least && high < Parts::most)) {
            return step;
        }
        const double steep = (high - low) * slopes_[Parts::part(low)];
        const double flat = (high - low) * slopes_[Parts::part(high) + 1];
        const bool up = b.lms[i] >= a.lms[i];
        signals[i] = up ? detail::Between{flat, steep} : detail::Between{-steep, -flat};
    }
    const double intensity =
        kind == StepKind::grey ? 0.0
                               : detail::weighted_sum(detail::bounded_ictcp[0], signals).largest();
    const double t = 0.5 * detail::weighted_sum(detail::bounded_ictcp[1], signals).largest();
    const double p = detail::weighted_sum(detail::bounded_ictcp[2], signals).largest();
    step.colour = 720.0 / 4096.0 * std::sqrt(intensity * intensity + t * t + p * p) *
                      (1.0 + detail::bound_slack) +
                  detail::bound_slack;
    if (kind == StepKind::grey) {
        const double sum = a.luminance + b.luminance;
        const double apart = std::abs(a.luminance - b.luminance);
        // The golden section leaves 1e-6 of the sensitivity.
        step.luminance =
            apart > 0.0 ? apart / sum * sensitivity_above(0.5 * sum) * (1.0 + 1e-5) : 0.0;
    }
    return step;
}

}  // namespace samelight
