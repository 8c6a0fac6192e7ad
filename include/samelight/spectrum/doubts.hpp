#pragma once
// What else may be wrong with a measured spectrum: noise.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include "samelight/spectrum/spectrum.hpp"

namespace samelight {

namespace detail {

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

}  // namespace detail

/// Standard deviation of the noise of one of neighbouring samples, in their unit, as the fourth differences show it: their median
/// size / (0.6745 sqrt 70), which lines and steep flanks hardly move. An upper estimate, since a spectrum sampled coarsely has
/// fourth differences of its own. 0 for fewer than 5 samples. For white noise on a smooth spectrum of 401 samples it has a standard
/// error of 8 % and no bias above 1 % (tested).
inline double sample_noise(std::span<const double> values) {
    return detail::noise_behind(detail::fourth_differences(values), 2);
}

/// sample_noise() relative to the largest value. 0 for fewer than 5 samples or no light.
inline double relative_noise(const Spectrum& spectrum) {
    const double largest = spectrum.peak();
    return largest > 0.0 ? sample_noise(spectrum.values()) / largest : 0.0;
}

/// True where noise drowns the light, so that neither its colour nor its amount can be told: noise of a sample above 5 % of the
/// largest value, or no light at all. A black usually is.
inline bool drowned_in_noise(const Spectrum& spectrum) {
    return !(spectrum.peak() > 0.0) || relative_noise(spectrum) > 0.05;
}

/// How high a maximum must rise above its valleys to be none of the noise's own, relative to the largest value: 8 standard deviations
/// of a sample. Of a thousand columns of nothing but 401 samples of noise fewer than five rise so far and fall again (tested). The
/// noise is what the quietest quarter of all fourth differences shows, or of those between samples above half of the largest value where
/// there are 16 or more, whichever is larger, since light brings noise of its own. Lines that fill less than three quarters of a coarse
/// spectrum don't count as noise. Range: 0 and above; 0 for fewer than 5 samples or no light. Throws nothing.
inline double height_of_noise(const Spectrum& spectrum) {
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

/// True where those samples of a column that `counts`, a function of the wavelength in nm, names hold no light that can be told from the
/// column's own noise: their sum lies within 4 standard errors of nothing. Throws nothing.
template <class Counts>
bool sums_to_noise(const Spectrum& spectrum, Counts&& counts) {
    const double noise = sample_noise(spectrum.values());
    double sum = 0.0;
    double squares = 0.0;
    for (std::size_t i = 0; i < spectrum.size(); ++i) {
        if (counts(spectrum.wavelengths_nm()[i])) {
            const double band = spectrum.band_nm(i);
            sum += spectrum.values()[i] * band;
            squares += noise * noise * band * band;
        }
    }
    return std::abs(sum) <= 4.0 * std::sqrt(squares);
}

/// The same of the column as a whole. No line may stand out of it either, which peaks() with height_of_noise() tells.
inline bool sums_to_noise(const Spectrum& spectrum) {
    return sums_to_noise(spectrum, [](double) { return true; });
}

}  // namespace samelight
