#pragma once
// Is a spectrum sampled finely enough for what is in it? Narrow lines on a coarse grid are the worst thing that can be wrong
// with a measured spectrum without showing.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/doubts.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {

/// A local maximum of a spectrum.
struct Peak {
    std::size_t index;  ///< of the highest sample
    double nm;          ///< wavelength of the top, from the three highest samples, nm
    double
        width_nm;  ///< full width at half maximum of the Gaussian through the three highest samples, nm; 0 if they don't allow one
    double step_nm;  ///< distance of the samples there, nm
    double height;   ///< of the highest sample, relative to the spectrum's largest
    double share;    ///< part of the spectrum's light in the three highest samples, 0-1
    /// True where sums over the samples give the line's light to 0.1 % whatever its position between them.
    [[nodiscard]] bool resolved() const { return width_nm >= 1.5 * step_nm; }
};

namespace detail {

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

}  // namespace detail

/// The local maxima of `spectrum` that reach at least `least_height` (0-1) of its largest value and rise by as much above both
/// valleys beside them, by wavelength. A maximum that is still rising or hasn't fallen so far where the spectrum ends is none. The
/// widths are those of what the instrument showed: line and slit together. Exact to 1e-9 for a Gaussian line alone. Throws nothing.
inline std::vector<Peak> peaks(const Spectrum& spectrum, double least_height = 0.05) {
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

/// What a peak of a column as read must reach, relative to the largest value: 5 %, or what its noise can't reach by itself
/// (height_of_noise()). Throws nothing.
inline double least_peak_height(const Spectrum& spectrum) {
    return std::max(0.05, height_of_noise(spectrum));
}

/// What the sampling guard has to say of one spectrum.
struct SamplingVerdict {
    std::vector<Peak> peaks;       ///< all that count, by wavelength
    std::vector<Peak> unresolved;  ///< those narrower than 1.5 of their steps
    double narrowest_nm =
        0.0;  ///< least width of a peak, nm; 0 where there is none or where it is too narrow to tell
    double wanted_step_nm =
        0.0;  ///< the step, nm, that the narrowest peak needs; 0 where the spectrum has no peaks
    [[nodiscard]] bool sound() const { return unresolved.empty(); }
};

namespace detail {

/// The widest customary step, nm, that isn't wider than `nm`; 0.1 where there is none.
inline double customary_step_nm(double nm) {
    for (const double step : {10.0, 5.0, 4.0, 2.0, 1.0, 0.5, 0.2}) {
        if (step <= nm + 1e-9) {
            return step;
        }
    }
    return 0.1;
}

}  // namespace detail

/// Whether every peak of `spectrum` is at least 1.5 steps wide, and what step its narrowest peak needs.
///
/// A Gaussian line of full width F summed at step h errs by up to 2 exp(-3.56 (F/h)^2) of its light while F is at least h,
/// depending on where it happens to lie between the samples (Poisson summation): 0.07 % at F = 1.5 h, 6 % at F = h. Narrower
/// lines are read as anything from nothing to 0.94 h / F times their light. The file cannot say how wide a line below that limit really is, so the verdict is "unknown", not
/// "wrong": where the instrument's bandwidth is as large as its step, the light is right after all.
/// The wanted step is the narrowest width / 1.5 (for an unresolved peak at most half the present step), rounded down to 10, 5, 4,
/// 2, 1, 0.5, 0.2 or 0.1 nm, and 0.1 nm where it would be less. Throws nothing.
/// @param least_height  what a peak must reach to count, as in peaks(); for a column as read see least_peak_height()
inline SamplingVerdict judge_sampling(const Spectrum& spectrum, double least_height = 0.05) {
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

/// The verdict as sentences for people: what is wrong, or that nothing is, why, and the sampling that would do.
inline std::string describe(const SamplingVerdict& verdict) {
    if (verdict.peaks.empty()) {
        return "No peaks by which to judge the sampling.";
    }
    if (verdict.sound()) {
        return "Sampled finely enough: the narrowest peak is " + to_text(verdict.narrowest_nm, 1) +
               " nm wide as the instrument saw it, which needs a step of " +
               to_text(verdict.wanted_step_nm) + " nm or less.";
    }
    std::string lines;
    for (const Peak& peak : verdict.unresolved) {
        lines += (lines.empty() ? "" : ", ") + to_text(peak.nm, 0) + " nm (" +
                 to_text(100.0 * peak.share, 0) + " % of the light)";
    }
    const bool one = verdict.unresolved.size() == 1;
    return "Sampled too coarsely for the " + std::string(one ? "line" : "lines") + " at " + lines +
           ": " + (one ? "it is" : "they are") + " narrower than 1.5 steps of " +
           to_text(verdict.unresolved.front().step_nm) +
           " nm, so the light read there depends on where the line falls between two samples. Measure at a step of " +
           to_text(verdict.wanted_step_nm) +
           " nm or less; only if the instrument's bandwidth is at least its step are these figures right.";
}

}  // namespace samelight
