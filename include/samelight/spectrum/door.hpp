#pragma once
// The one way in: how a spectrum enters the sampling of a problem.
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {

/// A light on the sampling of a problem, as entered through enter(): densities in the unit of the spectrum it came from.
struct SampledLight {
    Sampling sampling;
    std::vector<double> values;  ///< one a wavelength of `sampling`
    double outside_fraction =
        0.0;  ///< share of the spectrum's whole light that lay outside the sampling's range, and is not in `values`

    /// The values as a column, n x 1. Valid as long as this object is.
    [[nodiscard]] Eigen::Map<const Eigen::VectorXd> column() const {
        return {values.data(), static_cast<Eigen::Index>(values.size())};
    }
};

/// Brings `spectrum` onto `sampling`, by the transpose of interpolating an observer linearly.
///
/// Every measured sample, weighted by the width of the band it stands for (Spectrum::band_nm), is shared between the two
/// wavelengths of the sampling that lie beside it. For every observer whose sensitivity is linear between the sampling's
/// wavelengths, the sum over the sampling times its step then equals the plain sum over the spectrum's own wavelengths
/// (CIE 15:2018, 7.1): no light is lost or made, and non-negative spectra stay non-negative. On the spectrum's own even
/// grid the values pass unchanged (to rounding, where its wavelengths are fractions of a nm). Samples outside the sampling's range by more than 1e-9 of a step are left out, and their
/// share of the light is returned; wavelengths of the sampling that the spectrum doesn't reach get 0.
///
/// Range: any. Error: rounding, below 1e-12 of the peak for steps of 0.1 nm or more; and a sample within 1e-9 of a step of one of
/// the sampling's wavelengths counts as being there. Throws nothing of its own.
inline SampledLight enter(const Spectrum& spectrum, const Sampling& sampling) {
    SampledLight result{sampling,
                        std::vector<double>(static_cast<std::size_t>(sampling.count()), 0.0), 0.0};
    const std::span<const double> nm = spectrum.wavelengths_nm();
    const std::span<const double> value = spectrum.values();
    const double last = static_cast<double>(sampling.count() - 1);
    double whole = 0.0;
    double outside = 0.0;
    for (std::size_t j = 0; j < spectrum.size(); ++j) {
        const double light = value[j] * (spectrum.band_nm(j) / sampling.step_nm());
        double position = (nm[j] - sampling.first_nm()) / sampling.step_nm();
        whole += light;
        if (position < -1e-9 || position > last + 1e-9) {
            outside += light;
            continue;
        }
        const double nearest = std::round(position);
        if (std::abs(position - nearest) < 1e-9) {
            position = nearest;  // 380 + 0.1 * 3 is 380.3 to a reader, if not to the last bit
        }
        const auto below = static_cast<std::size_t>(position);
        const double share_above = position - static_cast<double>(below);
        result.values[below] += light * (1.0 - share_above);
        if (share_above > 0.0) {
            result.values[below + 1] += light * share_above;
        }
    }
    result.outside_fraction = whole != 0.0 ? outside / whole : 0.0;
    return result;
}

}  // namespace samelight
