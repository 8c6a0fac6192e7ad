#pragma once
// The bodies of spectrum/rebinning.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/spectrum/between_samples.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Eigen::Map<const Eigen::VectorXd> SampledLight::column() const& {
    return {values.data(), static_cast<Eigen::Index>(values.size())};
}

SAMELIGHT_INLINE Eigen::Map<const Eigen::VectorXd> SampledLight::spread_column() const& {
    const std::vector<double>& light = spread.empty() ? values : spread;
    return {light.data(), static_cast<Eigen::Index>(light.size())};
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

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

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE SampledSums rebin_for_sums(const Spectrum& spectrum, const Sampling& sampling) {
    SampledSums result{std::vector<double>(static_cast<std::size_t>(sampling.count()), 0.0)};
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

SAMELIGHT_INLINE SampledLight rebin(const Spectrum& spectrum, const Sampling& sampling) {
    SampledSums samples = rebin_for_sums(spectrum, sampling);
    SampledLight result{sampling, std::move(samples.values), samples.outside_fraction,
                        detail::own_grid(spectrum, sampling)};
    if (result.grid.step_nm > 0.0) {
        result.spread = between_samples(spectrum, sampling);
    }
    return result;
}

}  // namespace samelight
