#pragma once
// The bodies of spectrum/sampling_guard.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/noise.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The Gaussian through three samples: -1/sigma^2 is the second divided difference of the logarithm (times 2), which does not
/// depend on where the line lies between the samples.
inline void fit_gaussian(Peak& peak, std::span<const double> nm, std::span<const double> value) {
    const std::size_t i = peak.index;
    if (!(value[i - 1] > 0.0) || !(value[i + 1] > 0.0)) {
        return;
    }
    const double h0 = nm[i] - nm[i - 1];
    const double h1 = nm[i + 1] - nm[i];
    const double d0 = std::log(value[i] / value[i - 1]) / h0;
    const double d1 = std::log(value[i + 1] / value[i]) / h1;
    const double curvature = 2.0 * (d1 - d0) / (h0 + h1);
    if (!(curvature < 0.0)) {
        return;
    }
    const double slope_here = (d0 * h1 + d1 * h0) / (h0 + h1);
    peak.nm = std::clamp(nm[i] - slope_here / curvature, nm[i - 1], nm[i + 1]);
    peak.width_nm = std::sqrt(-8.0 * std::log(2.0) / curvature);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::vector<Peak> peaks(const Spectrum& spectrum, double least_height) {
    const std::span<const double> nm = spectrum.wavelengths_nm();
    const std::span<const double> value = spectrum.values();
    const double largest = spectrum.peak();
    double whole = 0.0;
    for (std::size_t i = 0; i < value.size(); ++i) {
        whole += value[i] * spectrum.band_nm(i);
    }
    // Never 0, so that with a least height of 0 a peak is still higher than what lies beside it.
    const double least = std::max(least_height * largest, std::numeric_limits<double>::min());
    std::vector<Peak> found;
    if (!(largest > 0.0) || !(whole > 0.0)) {
        return found;
    }
    double valley = value[0];  // lowest value since the last peak that counted
    bool risen = false;        // whether the spectrum has risen enough since that valley,
    std::size_t top = 0;       // and the highest sample since then
    const auto close = [&](std::size_t i) {  // i has lower samples on both sides
        Peak peak{
            i, nm[i], 0.0, std::max(nm[i] - nm[i - 1], nm[i + 1] - nm[i]), value[i] / largest, 0.0};
        for (std::size_t k = i - 1; k <= i + 1; ++k) {
            peak.share += value[k] * spectrum.band_nm(k) / whole;
        }
        detail::fit_gaussian(peak, nm, value);
        found.push_back(peak);
    };
    for (std::size_t i = 0; i < value.size(); ++i) {
        // Of noise about zero a maximum below `least` may still rise by as much above a valley below zero.
        if (!risen && value[i] >= least && value[i] - valley >= least) {
            risen = true;
            top = i;
        }
        if (risen && value[i] > value[top]) {
            top = i;
        } else if (risen && value[top] - value[i] >= least) {
            close(top);
            risen = false;
            valley = value[i];
        }
        valley = std::min(valley, value[i]);
    }
    return found;  // a top from which the spectrum doesn't fall far enough before it ends is no peak
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The widest customary step, nm, that isn't wider than `nm`; 0.1 where there is none.
inline double customary_step_nm(double nm) {
    for (const double step : {10.0, 5.0, 4.0, 2.0, 1.0, 0.5, 0.2}) {
        if (step <= nm + 1e-9) {
            return step;
        }
    }
    return 0.1;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE SamplingVerdict judge_sampling(const Spectrum& spectrum, double least_height) {
    SamplingVerdict verdict{peaks(spectrum, least_height), {}, 0.0, 0.0};
    double narrowest = std::numeric_limits<double>::infinity();
    double wanted = std::numeric_limits<double>::infinity();
    for (const Peak& peak : verdict.peaks) {
        narrowest = std::min(narrowest, peak.width_nm);
        double need = peak.width_nm / 1.5;
        if (!peak.resolved()) {
            verdict.unresolved.push_back(peak);
            need = peak.width_nm > 0.0 ? std::min(need, peak.step_nm / 2.0) : peak.step_nm / 2.0;
        }
        wanted = std::min(wanted, need);
    }
    if (!verdict.peaks.empty()) {
        verdict.narrowest_nm = narrowest;
        verdict.wanted_step_nm = detail::customary_step_nm(wanted);
    }
    return verdict;
}

}  // namespace samelight
