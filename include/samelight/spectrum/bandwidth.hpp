#pragma once
// Taking an instrument's bandwidth out of a spectrum, by the way that suits its step.
#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/bandpass.hpp"
#include "samelight/spectrum/deconvolution.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {

/// How a bandwidth was taken out.
enum class BandwidthMethod {
    none,          ///< nothing to take out: no bandwidth, or no light
    stearns,       ///< stearns_bandpass(): readings one bandwidth apart
    deconvolution  ///< deconvolve(): readings closer together
};

/// A spectrum freed from its instrument's bandwidth.
struct BandwidthCorrection {
    Spectrum spectrum;
    BandwidthMethod method = BandwidthMethod::none;
    double noise_gain = 1.0;  ///< noise of a sample over what it was
    double lowest = 0.0;      ///< the least value, relative to the peak of what was measured
    std::size_t held = 0;     ///< samples kept from falling below nothing (deconvolution)
};

/// Takes out a triangular passband of `bandwidth_nm` (full width at half maximum): by stearns_bandpass() where the grid is even and its
/// step within 2 % of the bandwidth, by deconvolve() where all steps are narrower.
///
/// Range: 0 <= bandwidth_nm, and no step wider than it by more than 2 %: what lies between readings that far apart was never read, and
/// no correction brings it back. Error: as those functions. Throws Error (domain) for another bandwidth, and as deconvolve().
inline BandwidthCorrection correct_bandwidth(const Spectrum& measured, double bandwidth_nm,
                                             const DeconvolutionOptions& options = {}) {
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
    return {std::move(found.spectrum), BandwidthMethod::deconvolution, found.noise_gain,
            found.lowest, found.held};
}

}  // namespace samelight
