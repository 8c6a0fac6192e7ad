#pragma once
// Taking an instrument's bandwidth out of a spectrum whose readings are closer together than its bandwidth.
#include <cstddef>
#include <optional>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How deconvolve() goes about it.
struct DeconvolutionOptions {
    /// Standard deviation of the noise of a sample relative to the peak, 0 to 1; without one, relative_noise() of what was read.
    std::optional<double> noise = {};
    /// The most that the noise of a sample may grow, at least 1.
    double largest_noise_gain = 4.0;
};

/// A spectrum freed from its instrument's bandwidth, and what that cost.
struct Deconvolution {
    Spectrum spectrum;
    /// Noise of a sample over what it was, in the middle of the spectrum (less where samples are held).
    double noise_gain = 1.0;
    /// The weight of roughness that was used, lambda.
    double smoothing = 0.0;
    /// Rms of (seen again through the passband) - measured, relative to the peak.
    double misfit = 0.0;
    /// That it was weighed against, relative to the peak.
    double noise = 0.0;
    /// Samples held at the floor, below which they would have fallen.
    std::size_t held = 0;
    /// The least value, relative to the peak of what was measured.
    double lowest = 0.0;
};

namespace detail {

double largest_step(const Spectrum& spectrum);

}  // namespace detail

/// What a spectrum would have been without the instrument's triangular passband, as far as its noise lets that be told.
///
/// measured: any grid, in any unit, whose steps are narrower than `bandwidth_nm` (where they are as wide, stearns_bandpass() is the
/// published way). Of all spectra s, the one that is least rough for how well it explains what was read: least |K s - m|^2 + lambda |L
/// s|^2, with K the passband (as in read_by(), but cubic between the samples) and L second differences (Tikhonov 1963). lambda is the
/// one at which what is left over is as large as the noise (the discrepancy principle, Morozov 1966), but not so small that the
/// noise of a sample grows more than `largest_noise_gain`-fold, nor so large that it shrinks.
///
/// This is for sums, such as x, y: on them lambda has next to no influence, since L lets constants and slopes be, so that the amount of
/// light doesn't change and slow weights see the passband's widening undone whatever lambda. It isn't for widths or heights of lines:
/// those narrower than the bandwidth don't come back in full, and there are waves beside them, down to -20 % of the peak (`lowest`).
/// Light can't be negative; so, where the largest step is a quarter of the bandwidth or less, nothing is let fall below 0, or below the
/// least measured value where that is negative. On coarser grids the waves are needed, since without them a narrow line between two
/// samples can't be told from a wide one, and they stay.
///
/// Error: see the tests, for the change in x, y that is left without noise. A bandwidth of 0 changes nothing, nor is a spectrum without
/// light changed. Throws Error (domain or shape) for a bandwidth wider than the spectrum or than 60 mean steps, or options out of range.
/// Sources: Tikhonov 1963, Dokl. Akad. Nauk SSSR 151:501; Morozov 1966, Dokl. Akad. Nauk SSSR 167:510 (both from memory).
SAMELIGHT_API Deconvolution deconvolve(const Spectrum& measured, double bandwidth_nm,
                                       const DeconvolutionOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/deconvolution.ipp"
#endif
