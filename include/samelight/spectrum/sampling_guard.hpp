#pragma once
// Is a spectrum sampled finely enough for what is in it? Narrow lines on a coarse grid are the worst thing that can be wrong
// with a measured spectrum without showing. Own rules: where a limit follows from mathematics it stands beside the function.
#include <algorithm>
#include <cstddef>
#include <vector>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/noise.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A local maximum of a spectrum.
struct Peak {
    /// Of the highest sample.
    std::size_t index;
    /// Wavelength of the top, from the three highest samples, nm.
    double nm;
    /// Full width at half maximum of the Gaussian through the three highest samples, nm; 0 if they don't allow one.
    double width_nm;
    /// Distance of the samples there, nm.
    double step_nm;
    /// Of the highest sample, relative to the spectrum's largest.
    double height;
    /// Part of the spectrum's light in the three highest samples, 0-1.
    double share;
    /// True where sums over the samples give the line's light to 0.1 % whatever its position between them.
    [[nodiscard]] bool resolved() const { return width_nm >= 1.5 * step_nm; }
};

/// The local maxima of `spectrum` that reach at least `least_height` (0-1) of its largest value and rise by as much above both
/// valleys beside them, by wavelength. A maximum that is still rising or hasn't fallen so far where the spectrum ends is none. The
/// widths are those of what the instrument showed: line and slit together. Exact to 1e-9 for a Gaussian line alone. Wavelengths in nm;
/// heights relative to the largest value. Throws nothing.
SAMELIGHT_API std::vector<Peak> peaks(const Spectrum& spectrum, double least_height = 0.05);

/// What a peak of a column as read must reach, relative to the largest value: 5 %, or what its noise can't reach by itself
/// (height_of_noise()). Throws nothing.
inline double least_peak_height(const Spectrum& spectrum) {
    return std::max(0.05, height_of_noise(spectrum));
}

/// What the sampling guard has to say of one spectrum.
struct SamplingVerdict {
    /// All that count, by wavelength.
    std::vector<Peak> peaks;
    /// Those narrower than 1.5 of their steps.
    std::vector<Peak> unresolved;
    /// Least width of a peak, nm; 0 where there is none or where it is too narrow to tell.
    double narrowest_nm = 0.0;
    /// The step, nm, that the narrowest peak needs; 0 where the spectrum has no peaks.
    double wanted_step_nm = 0.0;
    /// Whether every peak that counts is wide enough for its steps.
    [[nodiscard]] bool sound() const { return unresolved.empty(); }
};

/// Whether every peak of `spectrum` is at least 1.5 steps wide, and what step its narrowest peak needs.
///
/// A Gaussian line of full width F summed at step h errs by up to 2 exp(-3.56 (F/h)^2) of its light while F is at least h,
/// depending on where it happens to lie between the samples (Poisson summation): 0.07 % at F = 1.5 h, 6 % at F = h. Narrower
/// lines are read as anything from nothing to 0.94 h / F times their light. The file cannot say how wide a line below that limit really is, so the verdict is "unknown", not
/// "wrong": where the instrument's bandwidth is as large as its step, the light is right after all.
/// The wanted step is the narrowest width / 1.5 (for an unresolved peak at most half the present step), rounded down to 10, 5, 4,
/// 2, 1, 0.5, 0.2 or 0.1 nm, and 0.1 nm where it would be less. Throws nothing.
/// @param least_height  what a peak must reach to count, as in peaks(); for a column as read see least_peak_height()
SAMELIGHT_API SamplingVerdict judge_sampling(const Spectrum& spectrum, double least_height = 0.05);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/sampling_guard.ipp"
#endif
