#pragma once
// The bodies of colour/luminance.hpp.

#include <cmath>
#include <compare>
#include <cstddef>
#include <string>
#include <utility>

#include "samelight/colour/luminance.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/resample.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double efficacy_lm_per_w(const Observer& observer, Interpolation method) {
    if (observer.receptors() != Receptors::colour_matching) {
        throw Error(ErrorKind::observer, "efficacy_lm_per_w",
                    observer.id() + ", which has no luminous efficiency function",
                    "an observer of colour-matching functions");
    }
    const Spectrum y(observer.grid(), observer.row(1));
    // A spectrum has two samples at least: the second, a thousandth further on, goes unused.
    const Sampling there(wavelength_of_540_thz_nm, 0.001, 2);
    const double at_540_thz = resample(y, there, method).spectrum.values()[0];
    if (!(at_540_thz > 0.0)) {
        throw Error(ErrorKind::domain, "efficacy_lm_per_w",
                    observer.id() + " with y " + to_text(at_540_thz) + " at 555.016 nm",
                    "a y above 0 there");
    }
    return efficacy_at_540_thz / at_540_thz;
}

}  // namespace samelight
