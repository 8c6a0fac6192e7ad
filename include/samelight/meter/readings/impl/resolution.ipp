#pragma once
// The bodies of meter/readings/resolution.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "samelight/meter/readings/resolution.hpp"
#include "samelight/numeric/covariance_matrix.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE CovarianceMatrix<3> Resolution::covariance(
    const std::array<double, 3>& xyY) const {
    const double x = xyY[0];
    const double y = xyY[1];
    const double sum = xyY[2] / y;
    if (!(xyz > 0.0)) {
        const double relative = luminance / xyY[2];
        return {xy * xy / 12.0,
                0.0,
                0.0,
                0.0,
                xy * xy / 12.0,
                0.0,
                0.0,
                0.0,
                relative * relative / 12.0};
    }
    // Rows: x, y and relative Y by X, Y, Z.
    const std::array<std::array<double, 3>, 3> d{{{(1.0 - x) / sum, -x / sum, -x / sum},
                                                  {-y / sum, (1.0 - y) / sum, -y / sum},
                                                  {0.0, 1.0 / xyY[2], 0.0}}};
    CovarianceMatrix<3> result{};
    for (std::size_t i = 0; i < 9; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            result.at(i) += d.at(i / 3).at(k) * d.at(i % 3).at(k) * xyz * xyz / 12.0;
        }
    }
    return result;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The largest power of ten, 1 to 1e-6, that all the values are whole multiples of; nothing where there is none, or no value.
inline std::optional<double> decimal_step(std::span<const double> values) {
    constexpr std::array<double, 7> scales = {1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6};
    constexpr double almost = 1e-4;    // of a step: what the way through X, Y, Z and back may do
    constexpr double too_many = 1e11;  // steps: beyond, doubles leave no room to tell
    std::size_t places = 0;
    for (const double value : values) {
        const auto fits = [&] {
            const double steps = value * scales.at(places);
            return std::abs(steps) < too_many && std::abs(steps - std::round(steps)) < almost;
        };
        while (!fits()) {
            if (++places == scales.size()) {
                return {};
            }
        }
    }
    return values.empty() ? std::nullopt : std::optional(1.0 / scales.at(places));
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Resolution resolution_of(std::span<const std::array<double, 3>> xyz) {
    std::vector<double> values;
    for (const auto& v : xyz) {
        values.insert(values.end(), v.begin(), v.end());
    }
    Resolution result;
    if (const auto step = detail::decimal_step(values)) {
        result.xyz = *step;
        return result;
    }
    values.clear();
    std::vector<double> luminances;
    for (const auto& v : xyz) {
        const double sum = v[0] + v[1] + v[2];
        if (sum != 0.0) {
            values.push_back(v[0] / sum);
            values.push_back(v[1] / sum);
            luminances.push_back(v[1]);
        }
    }
    const auto step = detail::decimal_step(values);
    const auto of_luminance = detail::decimal_step(luminances);
    if (step && of_luminance) {
        result.xy = *step;
        result.luminance = *of_luminance;
    }
    return result;
}

}  // namespace samelight
