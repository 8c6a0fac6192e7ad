#pragma once
// The one way in: how a spectrum enters the sampling of a problem.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/spectrum/between_samples.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {

/// Where a spectrum's own samples lie among a sampling's wavelengths, if not at each of them.
struct OwnGrid {
    double step_nm =
        0.0;  ///< distance of its samples, the widest of uneven ones; the sampling's step where they are closer but lie beside its
              ///< wavelengths; 0 where every one of these is a sample
    int first = 0;  ///< the sampling's wavelength at which the first of them within its range lies,
    int stride =
        1;  ///< and how many of its steps lie between two; 0: uneven, or off its wavelengths

    friend bool operator==(const OwnGrid&, const OwnGrid&) = default;
};

/// A light on the sampling of a problem, as entered through enter(): densities in the unit of the spectrum it came from.
///
/// `values` are made for sums: every sum over the sampling is that over the spectrum's own samples. Of a spectrum with a coarser step they
/// are a comb, light at its own wavelengths alone. Whatever looks at a light's shape, compares two wavelength by wavelength, or reads it
/// through another instrument, takes spread_column() instead.
struct SampledLight {
    Sampling sampling;
    std::vector<double> values;  ///< one a wavelength of `sampling`
    double outside_fraction =
        0.0;  ///< share of the spectrum's whole light that lay outside the sampling's range, and is not in `values`
    OwnGrid grid = {};
    std::vector<double> spread =
        {};  ///< between_samples() of the spectrum; empty where every wavelength of the sampling is one of its own

    /// The values as a column, n x 1. Valid as long as this object is.
    [[nodiscard]] Eigen::Map<const Eigen::VectorXd> column() const {
        return {values.data(), static_cast<Eigen::Index>(values.size())};
    }
    /// The same light as it may lie between the spectrum's own samples, n x 1. Valid as long as this object is.
    [[nodiscard]] Eigen::Map<const Eigen::VectorXd> spread_column() const {
        const std::vector<double>& light = spread.empty() ? values : spread;
        return {light.data(), static_cast<Eigen::Index>(light.size())};
    }
};

namespace detail {

/// The widest distance, nm, between neighbours of which one at least lies in the sampling's range; of all where none does.
inline double widest_gap_nm(const Spectrum& spectrum, const Sampling& sampling) {
    const auto nm = spectrum.wavelengths_nm();
    double within = 0.0;
    double any = 0.0;
    for (std::size_t i = 1; i < nm.size(); ++i) {
        any = std::max(any, nm[i] - nm[i - 1]);
        if (nm[i] > sampling.first_nm() && nm[i - 1] < sampling.last_nm()) {
            within = std::max(within, nm[i] - nm[i - 1]);
        }
    }
    return within > 0.0 ? within : any;
}

/// See OwnGrid. Off the sampling's wavelengths: by more than 1e-6 of its step.
inline OwnGrid own_grid(const Spectrum& spectrum, const Sampling& sampling) {
    constexpr double far = 1e6;  // steps; no light is so far off, and it keeps the counts whole
    const double step = widest_gap_nm(spectrum, sampling);
    const double strides = step / sampling.step_nm();
    const double position = (spectrum.first_nm() - sampling.first_nm()) / sampling.step_nm();
    const auto on_grid = [](double x) { return std::abs(x - std::round(x)) < 1e-6; };
    const OwnGrid beside{std::max(step, sampling.step_nm()), 0, 0};
    if (!spectrum.evenly_spaced() || !(strides < far) || !(std::abs(position) < far) ||
        !on_grid(position)) {
        return beside;
    }
    if (strides < 1.0 + 1e-6) {
        return on_grid(1.0 / strides) ? OwnGrid{} : beside;
    }
    if (!on_grid(strides)) {
        return beside;
    }
    const int stride = static_cast<int>(std::lround(strides));
    int first = static_cast<int>(std::lround(position));
    first = first < 0 ? (stride - (-first) % stride) % stride : first;
    return {step, first, stride};
}

}  // namespace detail

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
inline SampledLight enter(const Spectrum& spectrum, const Sampling& sampling) {
    SampledLight result{sampling,
                        std::vector<double>(static_cast<std::size_t>(sampling.count()), 0.0)};
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
    result.grid = detail::own_grid(spectrum, sampling);
    if (result.grid.step_nm > 0.0) {
        result.spread = between_samples(spectrum, sampling);
    }
    return result;
}

}  // namespace samelight
