#pragma once
// A triangular passband as weights: what an instrument makes of a spectrum that is given by its samples.
#include <span>
#include <vector>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// One entry of measured_from_true, n x n: how much of the light at one sample is in what is read at another. An instrument's passband is
/// narrow, so that most entries are 0 and not listed.
struct PassbandWeight {
    int measured, sample;  // row and column, from 0
    double weight;
};

/// measured_from_true: what a triangular passband makes of a spectrum given by its samples; entries named twice add up. Cubic between
/// samples, so exact for cubics away from the ends; past the ends the light goes on as it ends, as in read_by(). Each row sums to 1.
/// nm: ascending, at least one; bandwidth_nm > 0, the full width at half maximum.
std::vector<PassbandWeight> passband_weights(std::span<const double> nm, double bandwidth_nm);

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/passband.ipp"
#endif
