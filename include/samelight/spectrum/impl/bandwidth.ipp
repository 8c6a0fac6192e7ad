#pragma once
// The bodies of spectrum/bandwidth.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/bandpass.hpp"
#include "samelight/spectrum/bandwidth.hpp"
#include "samelight/spectrum/bandwidth_method.hpp"
#include "samelight/spectrum/deconvolution.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE BandwidthCorrection correct_bandwidth(const Spectrum& measured,
                                                       double bandwidth_nm,
                                                       const DeconvolutionOptions& options) {
    if (!(bandwidth_nm >= 0.0) || !std::isfinite(bandwidth_nm)) {
        throw Error(ErrorKind::domain, "correct_bandwidth",
                    "a bandwidth of " + to_text(bandwidth_nm) + " nm", "0 nm or more");
    }
    if (bandwidth_nm == 0.0 || !(measured.peak() > 0.0)) {
        return {measured};
    }
    const double step = detail::largest_step(measured);
    if (step > 1.02 * bandwidth_nm) {
        throw Error(ErrorKind::domain, "correct_bandwidth",
                    "a bandwidth of " + to_text(bandwidth_nm) + " nm for readings " +
                        to_text(step, 2) + " nm apart",
                    "a bandwidth that is no narrower than the step");
    }
    if (measured.evenly_spaced() && step >= 0.98 * bandwidth_nm) {
        Spectrum corrected = stearns_bandpass(measured);
        const auto v = corrected.values();
        const double lowest = *std::min_element(v.begin(), v.end()) / measured.peak();
        return {std::move(corrected), BandwidthMethod::stearns, stearns_noise_gain, lowest, 0};
    }
    Deconvolution found = deconvolve(measured, bandwidth_nm, options);
    return {std::move(found.spectrum),
            BandwidthMethod::deconvolution,
            found.noise_gain,
            found.lowest,
            found.held,
            found.misfit,
            found.noise};
}

}  // namespace samelight
