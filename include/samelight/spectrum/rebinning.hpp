#pragma once
// Flux-conserving rebinning: how a spectrum enters the sampling of a problem.
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Where a spectrum's own samples lie among a sampling's wavelengths, if not at each of them.
struct OwnGrid {
    /// Distance of its samples, the widest of uneven ones; the sampling's step where they are closer but lie beside its wavelengths; 0
    /// where every one of these is a sample.
    double step_nm = 0.0;
    /// The sampling's wavelength at which the first of them within its range lies.
    int first = 0;
    /// How many of the sampling's steps lie between two samples; 0: uneven, or off its wavelengths.
    int stride = 1;

    friend bool operator==(const OwnGrid&, const OwnGrid&) = default;
};

/// A light on the sampling of a problem, as entered through rebin(): densities in the unit of the spectrum it came from.
///
/// `values` are made for sums: every sum over the sampling is that over the spectrum's own samples. Of a spectrum with a coarser step they
/// are a comb, light at its own wavelengths alone. Whatever looks at a light's shape, compares two wavelength by wavelength, or reads it
/// through another instrument, takes spread_column() instead.
struct SAMELIGHT_API SampledLight {
    Sampling sampling;
    /// One a wavelength of `sampling`.
    std::vector<double> values;
    /// Share of the spectrum's whole light that lay outside the sampling's range, and is not in `values`.
    double outside_fraction = 0.0;
    OwnGrid grid = {};
    /// between_samples() of the spectrum; empty where every wavelength of the sampling is one of its own
    std::vector<double> spread = {};

    /// The values as a column, n x 1. Valid as long as this object is.
    [[nodiscard]] Eigen::VectorXd column() const&& {
        return static_cast<const SampledLight&>(*this).column();
    }
    [[nodiscard]] Eigen::Map<const Eigen::VectorXd> column() const&;
    /// The same light as it may lie between the spectrum's own samples, n x 1. Valid as long as this object is.
    [[nodiscard]] Eigen::VectorXd spread_column() const&& {
        return static_cast<const SampledLight&>(*this).spread_column();
    }
    [[nodiscard]] Eigen::Map<const Eigen::VectorXd> spread_column() const&;
};

/// What of a SampledLight is for sums: its values, and the share that lay outside.
struct SampledSums {
    std::vector<double> values;
    double outside_fraction = 0.0;
};
/// Brings `spectrum` onto `sampling`, by the transpose of interpolating an observer linearly.
///
/// Every measured sample, weighted by the width of the band it stands for (Spectrum::band_nm), is shared between the two
/// wavelengths of the sampling that lie beside it. For every observer whose sensitivity is linear between the sampling's
/// wavelengths, the sum over the sampling times its step then equals the plain sum over the spectrum's own wavelengths
/// (CIE 15:2018, 7.1): no light is lost or made, and non-negative spectra stay non-negative. On the spectrum's own even
/// grid the values pass unchanged (to rounding, where its wavelengths are fractions of a nm). Samples outside the sampling's range by more than 1e-9 of a step are left out, and their
/// share of the light is returned; wavelengths of the sampling that the spectrum doesn't reach get 0.
/// Of a spectrum with a coarser step the light between its samples comes along, see SampledLight.
///
/// Range: any. Error: rounding, below 1e-12 of the peak for steps of 0.1 nm or more; and a sample within 1e-9 of a step of one of
/// the sampling's wavelengths counts as being there. Throws nothing of its own.
SAMELIGHT_API SampledLight rebin(const Spectrum& spectrum, const Sampling& sampling);

/// The values of rebin() alone, for whom no light between samples is asked for: a third of its time. Unit, range, error and source as rebin(), of which
/// these are the same digits. Throws nothing of its own.
SAMELIGHT_API SampledSums rebin_for_sums(const Spectrum& spectrum, const Sampling& sampling);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/rebinning.ipp"
#endif
