#pragma once
// The bodies of spectrum/between_samples.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include "samelight/spectrum/between_samples.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Light of one line, its centre and its amount (density times nm).
struct LineLight {
    double nm;
    double light;
};

/// Takes what stands out of its surroundings at a peak of three samples from `density`; gives it back as a line. No light: too near an end.
inline LineLight take_line(const Spectrum& spectrum, std::size_t top,
                           std::vector<double>& density) {
    LineLight line{0.0, 0.0};
    if (top < 2 || top + 2 >= density.size()) {
        return line;
    }
    const auto nm = spectrum.wavelengths_nm();
    const double before = density[top - 2];
    const double after = density[top + 2];
    double moment = 0.0;
    for (std::size_t j = top - 1; j <= top + 1; ++j) {
        const double along = (nm[j] - nm[top - 2]) / (nm[top + 2] - nm[top - 2]);
        const double excess = std::max(0.0, density[j] - (before + along * (after - before)));
        density[j] -= excess;
        line.light += excess * spectrum.band_nm(j);
        moment += excess * spectrum.band_nm(j) * nm[j];
    }
    line.nm = line.light > 0.0 ? moment / line.light : 0.0;
    return line;
}

/// Keys's kernel of cubic convolution, a = -1/2: interpolates, keeps sums and parabolas, reaches two steps. Source: Keys 1981, Cubic
/// convolution interpolation for digital image processing, IEEE Trans. Acoust. Speech Signal Process. 29:1153, eq. 15.
inline double cubic_kernel(double steps) {
    const double s = std::abs(steps);
    if (s < 1.0) {
        return (1.5 * s - 2.5) * s * s + 1.0;
    }
    return s < 2.0 ? ((-0.5 * s + 2.5) * s - 4.0) * s + 2.0 : 0.0;
}

/// Adds `light` about `centre_nm`, shared by `weight`, a function of the distance in nm that is nothing beyond `reach_nm` either side. What
/// lies outside the sampling is left out.
template <class Weight>
void add_about(double centre_nm, double reach_nm, double light, const Sampling& sampling,
               std::vector<double>& values, Weight&& weight) {
    const double step = sampling.step_nm();
    const double at = (centre_nm - sampling.first_nm()) / step;
    if (!(std::abs(at) < 1e6) || !(reach_nm < 1e6 * step)) {
        return;  // no light is so far off, or so wide
    }
    const auto first = static_cast<long>(std::ceil(at - reach_nm / step));
    const auto last = static_cast<long>(std::floor(at + reach_nm / step));
    const auto height = [&](long i) { return weight((static_cast<double>(i) - at) * step); };
    double sum = 0.0;
    for (long i = first; i <= last; ++i) {
        sum += height(i);
    }
    for (long i = std::max(first, 0L); i <= std::min(last, sampling.count() - 1L); ++i) {
        values[static_cast<std::size_t>(i)] += light / (step * sum) * height(i);
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<double> between_samples(const Spectrum& spectrum,
                                                     const Sampling& sampling) {
    const auto nm = spectrum.wavelengths_nm();
    std::vector<double> density(spectrum.values().begin(), spectrum.values().end());
    std::vector<double> result(static_cast<std::size_t>(sampling.count()), 0.0);
    for (const Peak& peak : judge_sampling(spectrum, least_peak_height(spectrum)).unresolved) {
        if (peak.step_nm < 1.01 * sampling.step_nm()) {
            continue;  // the sampling holds it no worse than the spectrum does
        }
        const detail::LineLight line = detail::take_line(spectrum, peak.index, density);
        const double width = std::max(peak.step_nm / 3.0, sampling.step_nm());
        detail::add_about(line.nm, width, line.light, sampling, result,
                          [&](double away) { return std::max(0.0, 1.0 - std::abs(away) / width); });
    }
    const double step = nm[1] - nm[0];
    if (!spectrum.evenly_spaced() || step < 1.01 * sampling.step_nm()) {
        const Spectrum rest({nm.begin(), nm.end()}, std::move(density));
        for (int i = 0; i < sampling.count(); ++i) {
            result[static_cast<std::size_t>(i)] += rest.at(sampling.wavelength_nm(i));
        }
        return result;
    }
    for (std::size_t j = 0; j < density.size(); ++j) {
        detail::add_about(nm[j], 2.0 * step, density[j] * step, sampling, result,
                          [&](double away) { return detail::cubic_kernel(away / step); });
    }
    return result;
}

}  // namespace samelight
