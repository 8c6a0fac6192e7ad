#pragma once
// Taking an instrument's bandwidth out of a spectrum, by the way that suits its step.
#include <algorithm>
#include <cstddef>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/bandwidth_method.hpp"
#include "samelight/spectrum/deconvolution.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A spectrum freed from its instrument's bandwidth.
struct BandwidthCorrection {
    Spectrum spectrum;
    BandwidthMethod method = BandwidthMethod::none;
    /// Noise of a sample over what it was.
    double noise_gain = 1.0;
    /// The least value, relative to the peak of what was measured.
    double lowest = 0.0;
    /// Samples kept from falling below nothing (deconvolution).
    std::size_t held = 0;
    /// Deconvolution: rms of what was read less the result seen again through the passband, relative to the peak.
    double misfit = 0.0;
    /// Of a sample, relative to the peak, that the misfit is weighed against.
    double noise = 0.0;

    /// True where what was read can't have been read through such a passband: its lines are narrower than that shows any. The misfit
    /// is then above 2.5 % of the peak and five times the noise; with the instrument's own bandwidth it stays below 1 % for lines as
    /// narrow as a laser's, and at 1.6 times as much it is above (tested at 5 nm).
    [[nodiscard]] bool contradicted() const { return misfit > std::max(0.025, 5.0 * noise); }
};

/// Takes out a triangular passband of `bandwidth_nm` (full width at half maximum): by stearns_bandpass() where the grid is even and its
/// step within 2 % of the bandwidth, by deconvolve() where all steps are narrower.
///
/// Range: 0 <= bandwidth_nm, and no step wider than it by more than 2 %: what lies between readings that far apart was never read, and
/// no correction brings it back. Error: as those functions. Throws Error (domain) for another bandwidth, and as deconvolve(). Source: as
/// those functions; own rule for which.
SAMELIGHT_API BandwidthCorrection correct_bandwidth(const Spectrum& measured, double bandwidth_nm,
                                                    const DeconvolutionOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/bandwidth.ipp"
#endif
