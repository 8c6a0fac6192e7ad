#pragma once
// The bodies of spectrum/resample.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/resample.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Sprague's six coefficients for the interval between p[2] and p[3]; CIE 167:2005.
inline double sprague_interval(const std::array<double, 6>& p, double t) {
    const std::array<double, 6> a = {
        p[2],
        (2 * p[0] - 16 * p[1] + 16 * p[3] - 2 * p[4]) / 24,
        (-p[0] + 16 * p[1] - 30 * p[2] + 16 * p[3] - p[4]) / 24,
        (-9 * p[0] + 39 * p[1] - 70 * p[2] + 66 * p[3] - 33 * p[4] + 7 * p[5]) / 24,
        (13 * p[0] - 64 * p[1] + 126 * p[2] - 124 * p[3] + 61 * p[4] - 12 * p[5]) / 24,
        (-5 * p[0] + 25 * p[1] - 50 * p[2] + 50 * p[3] - 25 * p[4] + 5 * p[5]) / 24,
    };
    return a[0] + t * (a[1] + t * (a[2] + t * (a[3] + t * (a[4] + t * a[5]))));
}

SAMELIGHT_INLINE std::vector<double> sprague_extended(std::span<const double> v) {
    constexpr std::array<double, 6> outer = {884, -1960, 3033, -2648, 1080, -180};
    constexpr std::array<double, 6> inner = {508, -540, 488, -367, 144, -24};
    const std::size_t n = v.size();
    std::vector<double> result(n + 4);
    std::copy(v.begin(), v.end(), result.begin() + 2);
    for (std::size_t k = 0; k < 6; ++k) {
        result[0] += outer[k] * v[k] / 209;
        result[1] += inner[k] * v[k] / 209;
        result[n + 3] += outer[k] * v[n - 1 - k] / 209;
        result[n + 2] += inner[k] * v[n - 1 - k] / 209;
    }
    return result;
}

/// One-sided slope from three points that keeps the shape (never against the first interval's direction, never over three
/// times its slope). h: first and second interval; d: their slopes.
inline double shape_preserving_end_slope(double h0, double h1, double d0, double d1) {
    const double slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
    if (slope * d0 <= 0.0) {
        return 0.0;
    }
    if (d0 * d1 <= 0.0 && std::abs(slope) > 3.0 * std::abs(d0)) {
        return 3.0 * d0;
    }
    return slope;
}

/// Slopes at every point: the weighted harmonic mean of Fritsch & Butland inside, three-point formulas at the ends.
inline std::vector<double> shape_preserving_slopes(std::span<const double> x,
                                                   std::span<const double> y) {
    const std::size_t n = x.size();
    const auto step = [&](std::size_t i) { return x[i + 1] - x[i]; };
    const auto secant = [&](std::size_t i) { return (y[i + 1] - y[i]) / step(i); };
    if (n == 2) {
        return {secant(0), secant(0)};
    }
    std::vector<double> slope(n, 0.0);
    for (std::size_t i = 1; i + 1 < n; ++i) {
        const double before = secant(i - 1);
        const double after = secant(i);
        if (before * after > 0.0) {
            const double w1 = 2 * step(i) + step(i - 1);
            const double w2 = step(i) + 2 * step(i - 1);
            slope[i] = (w1 + w2) / (w1 / before + w2 / after);
        }
    }
    slope[0] = shape_preserving_end_slope(step(0), step(1), secant(0), secant(1));
    slope[n - 1] =
        shape_preserving_end_slope(step(n - 2), step(n - 3), secant(n - 2), secant(n - 3));
    return slope;
}

inline double hermite(double y0, double y1, double slope0, double slope1, double h, double t) {
    const double u = 1.0 - t;
    return u * u * (1 + 2 * t) * y0 + t * t * (3 - 2 * t) * y1 +
           h * t * u * (u * slope0 - t * slope1);
}

SAMELIGHT_INLINE Interpolator::Interpolator(const Spectrum& spectrum, Interpolation method)
    : spectrum_(spectrum), method_(method) {
    if (method == Interpolation::sprague) {
        if (!spectrum.evenly_spaced() || spectrum.size() < 6) {
            throw Error(ErrorKind::shape, "resample (Sprague)",
                        std::to_string(spectrum.size()) +
                            (spectrum.evenly_spaced() ? " samples" : " unevenly spaced samples"),
                        "an even grid of at least 6 samples");
        }
        extended_ = sprague_extended(spectrum.values());
    } else if (method == Interpolation::shape_preserving) {
        slopes_ = shape_preserving_slopes(spectrum.wavelengths_nm(), spectrum.values());
    }
}

SAMELIGHT_INLINE double Interpolator::operator()(double nm) const {
    const std::span<const double> x = spectrum_.wavelengths_nm();
    const std::span<const double> y = spectrum_.values();
    const auto above = std::upper_bound(x.begin(), x.end(), nm);
    const auto i = std::min(
        static_cast<std::size_t>(std::max<std::ptrdiff_t>(above - x.begin() - 1, 0)), x.size() - 2);
    const double h = x[i + 1] - x[i];
    const double t = (nm - x[i]) / h;
    switch (method_) {
        case Interpolation::sprague: {
            std::array<double, 6> p{};
            std::copy_n(extended_.begin() + static_cast<std::ptrdiff_t>(i), 6, p.begin());
            return sprague_interval(p, t);
        }
        case Interpolation::shape_preserving:
            return hermite(y[i], y[i + 1], slopes_[i], slopes_[i + 1], h, t);
        case Interpolation::linear:
            break;
    }
    return y[i] + t * (y[i + 1] - y[i]);
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Resampled resample(const Spectrum& spectrum, const Sampling& grid,
                                    Interpolation method, Beyond beyond) {
    const double below = std::max(0.0, spectrum.first_nm() - grid.first_nm());
    const double above = std::max(0.0, grid.last_nm() - spectrum.last_nm());
    if (beyond == Beyond::refuse && std::max(below, above) > 1e-9) {
        throw Error(ErrorKind::domain, "resample",
                    "a grid of " + grid.describe() + " for a spectrum of " +
                        to_text(spectrum.first_nm()) + "-" + to_text(spectrum.last_nm()) + " nm",
                    "a grid within the spectrum, or a rule for what lies beyond it");
    }
    const detail::Interpolator inside(spectrum, method);
    std::vector<double> values(static_cast<std::size_t>(grid.count()));
    for (int i = 0; i < grid.count(); ++i) {
        const double nm = grid.wavelength_nm(i);
        const double nearest = std::clamp(nm, spectrum.first_nm(), spectrum.last_nm());
        const bool is_beyond = std::abs(nm - nearest) > 1e-9;
        values[static_cast<std::size_t>(i)] =
            is_beyond && beyond == Beyond::zero ? 0.0 : inside(nearest);
    }
    return {Spectrum(grid, std::move(values)), below, above,
            std::max(0.0, grid.first_nm() - spectrum.first_nm()),
            std::max(0.0, spectrum.last_nm() - grid.last_nm())};
}

}  // namespace samelight
