#pragma once
// The digits that readings were written down with: rounding is noise that repeats don't show.
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace samelight {

/// The step between two values that an instrument can write down. All 0 where its readings are no decimals of up to six places: they are then
/// as good as exact.
struct Resolution {
    double xyz = 0.0;        ///< step of X, Y and Z, cd/m2, where these were written down
    double xy = 0.0;         ///< step of x and y, where these were
    double luminance = 0.0;  ///< step of Y beside x and y, cd/m2

    [[nodiscard]] bool known() const noexcept { return xyz > 0.0 || xy > 0.0; }

    /// Covariance of x, y and relative Y that rounding gives one reading of x, y, Y: 3 x 3, row after row. A value that may be anything within
    /// its step has the variance step^2 / 12. Repeats that agree are all rounded alike, so their mean has it, too.
    /// Source: JCGM 100:2008, F.2.2.1.
    [[nodiscard]] std::array<double, 9> covariance(const std::array<double, 3>& xyY) const {
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
        std::array<double, 9> result{};
        for (std::size_t i = 0; i < 9; ++i) {
            for (std::size_t k = 0; k < 3; ++k) {
                result.at(i) += d.at(i / 3).at(k) * d.at(i % 3).at(k) * xyz * xyz / 12.0;
            }
        }
        return result;
    }

    /// Step of x, y or relative Y (k = 0, 1, 2) at x, y, Y.
    [[nodiscard]] double step(const std::array<double, 3>& xyY, std::size_t k) const {
        return std::sqrt(12.0 * covariance(xyY).at(4 * k));
    }
};

/// The resolution of both instruments.
struct Resolutions {
    Resolution reference, meter;
};

namespace detail {

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

}  // namespace detail

/// The resolution of readings, from the digits they have: X, Y, Z with one number of places, or x, y with one and Y with another. Digits
/// that all happen to be 0 count as not written. Range: X, Y, Z finite.
inline Resolution resolution_of(std::span<const std::array<double, 3>> xyz) {
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
