#pragma once
// The reading instrument, a spectroradiometer: what it would report of a light whose true spectrum is known.
#include <cstdint>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/resample.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What a spectroradiometer does to a spectrum. As it stands by default it does nothing.
///
/// Its readings are, in this order: the light averaged through a triangular passband; stray light; noise. The latter two are
/// relative to the largest reading of the first, "the peak".
struct ReadingInstrument {
    /// How much too long a wavelength it reports, nm: a line at w nm is seen at w + wavelength_shift_nm. Finite.
    double wavelength_shift_nm = 0.0;
    /// Full width at half maximum, nm, of its triangular passband (of unit area), 0 or more. 0: it reads a single wavelength.
    double bandwidth_nm = 0.0;
    /// What is added to every reading, relative to the peak: stray light, spread evenly over all readings. 0 to 1. Being
    /// relative to the peak, it is proportional to the light but not additive over lights: the stray light of red + green, read
    /// together, isn't the sum of what was read of each.
    double stray_light = 0.0;
    /// Standard deviation of the noise of one reading, relative to the peak: normal, independent, 0 or more.
    double noise = 0.0;
    /// Distance of its readings, nm; 0: it reads at the wavelengths at which the truth is given.
    double step_nm = 0.0;
    /// Where its readings begin, nm, if step_nm is above 0; 0: where the truth begins. A coarse instrument reads narrow lines
    /// differently depending on where its readings fall.
    double first_nm = 0.0;
};

/// What `instrument` would report of a light whose true spectrum is `truth`.
///
/// Units: as the truth's; the truth counts as linear between its samples, so its grid must be fine beside the instrument's
/// bandwidth and the lines in it. The instrument looks past the ends of the truth (by its bandwidth and its shift), where nothing
/// is known: `beyond` says what it sees there. nearest: the light goes on as it ends, which leaves a constant spectrum constant
/// and is harmless where the spectrum ends in the dark. zero: nothing, so that a spectrum cut while it is bright fades at its
/// ends within the bandwidth, down to half at the last sample. refuse: throws if the truth isn't dark (above 1e-9 of its peak)
/// over the bandwidth and the shift at both ends. No reading lies outside the truth's range; light that the passband or the
/// shift carries over its ends is lost to the report, as it is to an instrument that stops there.
///
/// The noise of reading i is number i of the generator PseudoRandom(seed) through the normal quantile: the same with every
/// compiler; another seed, another reading. Negative readings are left as they are.
/// Error: rounding, below 1e-12 of the peak (the passband is integrated exactly). Throws Error (domain) for an instrument out of
/// the ranges stated there, fewer than 2 or more than 100000 readings, and as `beyond` says.
SAMELIGHT_API Spectrum read_by(const ReadingInstrument& instrument, const Spectrum& truth,
                               std::uint64_t seed = 0, Beyond beyond = Beyond::nearest);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/instrument.ipp"
#endif
