#pragma once
// The bodies of spectrum/noise.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "samelight/spectrum/noise.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Sizes of the fourth differences about the samples 2 to n - 3 of `v`; none for fewer than 5 samples. Noise of standard deviation s
/// gives them one of sqrt(70) s, a smooth spectrum next to none.
inline std::vector<double> fourth_differences(std::span<const double> v) {
    std::vector<double> size;
    for (std::size_t i = 2; i + 2 < v.size(); ++i) {
        size.push_back(
            std::abs(v[i - 2] - 4.0 * v[i - 1] + 6.0 * v[i] - 4.0 * v[i + 1] + v[i + 2]));
    }
    return size;
}

/// The noise of which fourth differences of these sizes come, by the size that one in `one_in` stays below: 2, the median, or 4, the
/// lower quartile, which lines leave alone even where they fill half of a spectrum. 0 without any.
inline double noise_behind(std::vector<double> size, std::size_t one_in) {
    if (size.empty()) {
        return 0.0;
    }
    // What a normal variable's size stays below one time in 2, and in 4.
    const double of_normal = one_in == 2 ? 0.6745 : 0.3186;
    const auto at = size.begin() + static_cast<std::ptrdiff_t>(size.size() / one_in);
    std::nth_element(size.begin(), at, size.end());
    return *at / (of_normal * std::sqrt(70.0));
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double sample_noise(std::span<const double> values) {
    return detail::noise_behind(detail::fourth_differences(values), 2);
}

SAMELIGHT_INLINE double relative_noise(const Spectrum& spectrum) {
    const double largest = spectrum.peak();
    return largest > 0.0 ? sample_noise(spectrum.values()) / largest : 0.0;
}

SAMELIGHT_INLINE double height_of_noise(const Spectrum& spectrum) {
    constexpr double deviations = 8.0;
    constexpr std::size_t enough = 16;
    const auto v = spectrum.values();
    const double largest = spectrum.peak();
    if (!(largest > 0.0)) {
        return 0.0;
    }
    const std::vector<double> size = detail::fourth_differences(v);
    std::vector<double> bright;
    std::size_t run = 0;  // of bright samples; a line has no five
    for (std::size_t i = 0; i < v.size(); ++i) {
        run = v[i] >= 0.5 * largest ? run + 1 : 0;
        if (run >= 5) {
            bright.push_back(size[i - 4]);
        }
    }
    if (bright.size() < enough) {
        bright.clear();
    }
    return deviations * std::max(detail::noise_behind(size, 4), detail::noise_behind(bright, 4)) /
           largest;
}

SAMELIGHT_INLINE bool sums_to_noise(const Spectrum& spectrum) {
    return sums_to_noise(spectrum, [](double) { return true; });
}

}  // namespace samelight
