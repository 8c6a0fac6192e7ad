#pragma once
// The bodies of display/types/emission.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "samelight/display/types/emission.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE EmittedLight::EmittedLight(const Sampling& asked) : asked_(asked) {
    if (asked.count() < 2 || asked.step_nm() > 20.0) {
        throw Error(ErrorKind::domain, "EmittedLight", "sampling " + asked.describe(),
                    "2 wavelengths or more, at most 20 nm apart");
    }
    cells_per_step_ = static_cast<int>(std::ceil(asked.step_nm() / 0.25));
    cell_nm_ = asked.step_nm() / cells_per_step_;
    // One step more at both ends: the outermost wavelengths collect light from both their
    // sides.
    const int steps = asked.count() - 1 + 2;
    density_.assign(static_cast<std::size_t>(steps * cells_per_step_ + 1), 0.0);
}

SAMELIGHT_INLINE EmittedLight& EmittedLight::add_skewed_band(double power, double peak_nm,
                                                             double fwhm_nm, double short_side) {
    require_band(power, peak_nm, fwhm_nm, short_side);
    const Band band{peak_nm, fwhm_nm, short_side};
    const double first_edge_nm = cell_centre_nm(0) - 0.5 * cell_nm_;
    double previous_edge_nm = first_edge_nm;
    double previous_tail = band.tail(previous_edge_nm);
    for (std::size_t i = 0; i < density_.size(); ++i) {
        const double edge_nm = first_edge_nm + cell_nm_ * static_cast<double>(i + 1);
        const double tail = band.tail(edge_nm);
        double share = 0.0;
        if (edge_nm < peak_nm) {
            share = tail - previous_tail;
        } else if (previous_edge_nm < peak_nm) {
            share = 1.0 - previous_tail - tail;
        } else {
            share = previous_tail - tail;
        }
        // The last bit of erfc isn't monotonic everywhere.
        density_[i] += power * std::max(share, 0.0) / cell_nm_;
        previous_edge_nm = edge_nm;
        previous_tail = tail;
    }
    return *this;
}

SAMELIGHT_INLINE EmittedLight& EmittedLight::add(const EmittedLight& other, double factor) {
    require_same_sampling("EmittedLight::add", asked_, other.asked_);
    if (!(factor >= 0.0) || !std::isfinite(factor)) {
        throw Error(ErrorKind::domain, "EmittedLight::add", "factor " + to_text(factor),
                    "a finite factor of 0 or more");
    }
    for (std::size_t i = 0; i < density_.size(); ++i) {
        density_[i] += factor * other.density_[i];
    }
    return *this;
}

SAMELIGHT_INLINE Spectrum EmittedLight::spectrum() const {
    const int n = cells_per_step_;
    std::vector<double> values(static_cast<std::size_t>(asked_.count()), 0.0);
    for (int i = 0; i < asked_.count(); ++i) {
        double sum = 0.0;
        for (int k = 1 - n; k < n; ++k) {
            const double weight = static_cast<double>(n - std::abs(k));
            sum += weight * density_[static_cast<std::size_t>((i + 1) * n + k)];
        }
        values[static_cast<std::size_t>(i)] = sum / (static_cast<double>(n) * n);
    }
    return {asked_, std::move(values)};
}

SAMELIGHT_INLINE double EmittedLight::Band::tail(double nm) const {
    constexpr double root_ln2 = 0.83255461115769775;
    const bool below = nm < peak_nm;
    const double side = below ? short_side : 1.0 - short_side;
    return side * std::erfc(root_ln2 * std::abs(nm - peak_nm) / (side * fwhm_nm));
}

SAMELIGHT_INLINE void EmittedLight::require_band(double power, double peak_nm, double fwhm_nm,
                                                 double short_side) {
    const bool good = power >= 0.0 && std::isfinite(power) && peak_nm > 0.0 &&
                      std::isfinite(peak_nm) && fwhm_nm > 0.0 && std::isfinite(fwhm_nm) &&
                      short_side > 0.0 && short_side < 1.0;
    if (!good) {
        throw Error(ErrorKind::domain, "EmittedLight",
                    "band of power " + to_text(power) + ", peak " + to_text(peak_nm) +
                        " nm, width " + to_text(fwhm_nm) + " nm, short side " + to_text(short_side),
                    "power >= 0, peak and width > 0 nm, short side between 0 and 1");
    }
}

SAMELIGHT_INLINE double ColourFilter::operator()(double nm) const {
    const double band =
        edge((nm - short_edge_nm) / short_width_nm) * edge((long_edge_nm - nm) / long_width_nm);
    return leak + (1.0 - leak) * band;
}

SAMELIGHT_INLINE double ColourFilter::edge(double t) {
    constexpr double two_ln9 = 4.3944491546724388;
    return 1.0 / (1.0 + std::exp(-two_ln9 * t));
}

}  // namespace samelight
