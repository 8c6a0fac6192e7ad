#pragma once
// What else may be wrong with a measured spectrum: noise. Own rules.
#include <cmath>
#include <cstddef>
#include <span>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Standard deviation of the noise of one of neighbouring samples, in their unit, as the fourth differences show it: their median
/// size / (0.6745 sqrt 70), which lines and steep flanks hardly move. An upper estimate, since a spectrum sampled coarsely has
/// fourth differences of its own. 0 for fewer than 5 samples. For white noise on a smooth spectrum of 401 samples it has a standard
/// error of 8 % and no bias above 1 % (tested).
SAMELIGHT_API double sample_noise(std::span<const double> values);

/// sample_noise() relative to the largest value. 0 for fewer than 5 samples or no light.
SAMELIGHT_API double relative_noise(const Spectrum& spectrum);

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
SAMELIGHT_API double height_of_noise(const Spectrum& spectrum);

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
SAMELIGHT_API bool sums_to_noise(const Spectrum& spectrum);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/noise.ipp"
#endif
