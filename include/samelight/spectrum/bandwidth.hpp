#pragma once
// Taking an instrument's bandwidth out of a spectrum, by the way that suits its step.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/bandpass.hpp"
#include "samelight/spectrum/bandwidth_method.hpp"
#include "samelight/spectrum/deconvolution.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {

/// A spectrum freed from its instrument's bandwidth.
struct BandwidthCorrection {
    Spectrum spectrum;
    BandwidthMethod method = BandwidthMethod::none;
    double noise_gain = 1.0;  ///< noise of a sample over what it was
    double lowest = 0.0;      ///< the least value, relative to the peak of what was measured
    std::size_t held = 0;     ///< samples kept from falling below nothing (deconvolution)
    double misfit =
        0.0;  ///< deconvolution: rms of what was read less the result seen again through the passband, relative to the peak
    double noise = 0.0;  ///< of a sample, relative to the peak, that the misfit is weighed against

    /// True where what was read can't have been read through such a passband: its lines are narrower than that shows any. The misfit
    /// is then above 2.5 % of the peak and five times the noise; with the instrument's own bandwidth it stays below 1 % for lines as
    /// narrow as a laser's, and at 1.6 times as much it is above (tested at 5 nm).
    [[nodiscard]] bool contradicted() const { return misfit > std::max(0.025, 5.0 * noise); }
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
    return {std::move(found.spectrum),
            BandwidthMethod::deconvolution,
            found.noise_gain,
            found.lowest,
            found.held,
            found.misfit,
            found.noise};
}

}  // namespace samelight
