#pragma once
// The bodies of spectrum/illuminants.hpp.

#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/tables/daylight_basis.hpp"
#include "samelight/tables/illuminant_c.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

template <class F>
Spectrum computed_spectrum(const Sampling& grid, F&& value_at) {
    std::vector<double> values(static_cast<std::size_t>(grid.count()));
    for (int i = 0; i < grid.count(); ++i) {
        values[static_cast<std::size_t>(i)] = value_at(grid.wavelength_nm(i));
    }
    return {grid, std::move(values)};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Spectrum planckian_radiator(double temperature_k, const Sampling& grid,
                                             double c2) {
    if (!(temperature_k >= 50.0) || !std::isfinite(temperature_k)) {
        throw Error(ErrorKind::domain, "planckian_radiator",
                    "temperature " + to_text(temperature_k) + " K",
                    "a finite temperature of at least 50 K");
    }
    const double at_560 = planck(560.0, temperature_k, c2);
    return detail::computed_spectrum(
        grid, [&](double nm) { return planck(nm, temperature_k, c2) / at_560; });
}

SAMELIGHT_INLINE Spectrum illuminant_c() {
    namespace t = tables::illuminant_c;
    return {Sampling(t::first_nm, t::step_nm, t::count), {t::power.begin(), t::power.end()}};
}

SAMELIGHT_INLINE Spectrum illuminant_e(const Sampling& grid) {
    return detail::computed_spectrum(grid, [](double) { return 100.0; });
}

SAMELIGHT_INLINE DaylightSeries daylight_series(double temperature_k, DaylightWeights weights) {
    const double t = temperature_k;
    if (!(t >= 4000.0 && t <= 25014.0)) {
        throw Error(ErrorKind::domain, "daylight_series", "temperature " + to_text(t) + " K",
                    "4000 to 25000 K");
    }
    const double x = t <= 7000.0 ? ((-4.6070e9 / t + 2.9678e6) / t + 0.09911e3) / t + 0.244063
                                 : ((-2.0064e9 / t + 1.9018e6) / t + 0.24748e3) / t + 0.237040;
    const double y = (-3.000 * x + 2.870) * x - 0.275;
    const double m = 0.0241 + 0.2562 * x - 0.7341 * y;
    DaylightSeries result{x, y, (-1.3515 - 1.7703 * x + 5.9114 * y) / m,
                          (0.0300 - 31.4424 * x + 30.0717 * y) / m};
    if (weights == DaylightWeights::rounded) {
        result.m1 = std::round(result.m1 * 1000.0) / 1000.0;
        result.m2 = std::round(result.m2 * 1000.0) / 1000.0;
    }
    return result;
}

SAMELIGHT_INLINE Spectrum daylight(double temperature_k, DaylightWeights weights) {
    namespace t = tables::daylight_basis;
    const DaylightSeries series = daylight_series(temperature_k, weights);
    std::vector<double> values(t::s0.size());
    for (std::size_t i = 0; i < values.size(); ++i) {
        values[i] = t::s0[i] + series.m1 * t::s1[i] + series.m2 * t::s2[i];
    }
    return {Sampling(t::first_nm, t::step_nm, t::count), std::move(values)};
}

SAMELIGHT_INLINE Spectrum d_illuminant(double nominal_k) {
    if (!(nominal_k >= 4000.0 && nominal_k <= 25000.0)) {
        throw Error(ErrorKind::domain, "d_illuminant", "temperature " + to_text(nominal_k) + " K",
                    "4000 to 25000 K");
    }
    return daylight(daylight_temperature_k(nominal_k), DaylightWeights::rounded);
}

SAMELIGHT_INLINE Spectrum cie_illuminant(std::string_view name) {
    if (name == "A") {
        return illuminant_a();
    }
    if (name == "C") {
        return illuminant_c();
    }
    if (name == "E") {
        return illuminant_e();
    }
    const bool digits = name.size() >= 3 && name.size() <= 4 && name.front() == 'D' &&
                        name.find_first_not_of("0123456789", 1) == std::string_view::npos;
    if (digits) {
        int hundreds = 0;
        for (const char c : name.substr(1)) {
            hundreds = hundreds * 10 + (c - '0');
        }
        if (hundreds >= 40 && hundreds <= 250) {
            return d_illuminant(100.0 * hundreds);
        }
    }
    throw Error(ErrorKind::domain, "cie_illuminant", "\"" + std::string(name) + "\"",
                "A, C, E or a daylight from D40 to D250 (D50, D55, D65, D75, ...)");
}

}  // namespace samelight
