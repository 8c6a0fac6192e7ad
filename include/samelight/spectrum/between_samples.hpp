#pragma once
// What a light may look like between the samples of a coarse spectrum: the one place where it is spread over its own step.
#include <vector>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A spectrum as a light that there may be, one density a wavelength of `sampling`, where it isn't sampled at these itself: smooth between
/// even samples further apart (cubic convolution), linear between others, but for peaks that the samples don't resolve (judge_sampling(),
/// what is noise of the spectrum's own left aside); these may be lines, and become one, with the peak's light, at its centre and a third
/// of a step wide at half maximum.
/// Of even samples further apart the sum over the sampling times its step is the plain sum over them (CIE 15:2018, 7.1), but for what lies
/// beyond the sampling's ends; half a step beyond the first and last sample belongs to these. Of others it differs as sums of linear
/// interpolation do.
/// Of such a light another instrument of that step reads more or less, depending on where its samples fall, which smooth light wouldn't
/// show. How wide such a line really is the samples can't tell; a third of the step is our choice, between lasers and phosphors.
/// Values may be slightly below 0 beside steep flanks. Error: rounding. Throws nothing of its own. Source: own.
SAMELIGHT_API std::vector<double> between_samples(const Spectrum& spectrum,
                                                  const Sampling& sampling);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/between_samples.ipp"
#endif
