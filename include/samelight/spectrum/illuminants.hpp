#pragma once
// Lights that are defined, not measured: Planck's radiator, the CIE illuminants, the daylight series.
#include <cmath>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/tables/daylight_basis.hpp"
#include "samelight/tables/illuminant_c.hpp"

namespace samelight {

/// Second radiation constant of colorimetry, m K (CIE 15:2018, 4.1.1).
inline constexpr double planck_c2 = 1.4388e-2;
/// The same in today's SI, m K (CODATA 2018).
inline constexpr double planck_c2_codata_2018 = 1.438776877e-2;

namespace detail {

template <class F>
Spectrum computed_spectrum(const Sampling& grid, F&& value_at) {
    std::vector<double> values(static_cast<std::size_t>(grid.count()));
    for (int i = 0; i < grid.count(); ++i) {
        values[static_cast<std::size_t>(i)] = value_at(grid.wavelength_nm(i));
    }
    return {grid, std::move(values)};
}

}  // namespace detail

/// Spectral radiance of Planck's radiator at one wavelength, relative: lambda^-5 / (exp(c2 / (lambda T)) - 1), with lambda in
/// units of 560 nm so that ordinary values result.
/// nm > 0; temperature_k > 0; c2 in m K. Error below (4 + x) 2.5e-16 relative with x = c2 / (lambda T), which is 1e-14 at 1000 K
/// and 400 nm; 0 where x is above 709. Throws nothing.
/// Source: Planck's law, CIE 15:2018, eq. 4.1.
inline double planck(double nm, double temperature_k, double c2 = planck_c2) {
    return std::pow(560.0 / nm, 5.0) / std::expm1(c2 * 1e9 / (nm * temperature_k));
}

/// Planck's radiator at `temperature_k` (K, finite and at least 50: a colder one gives no light at 560 nm that a double could
/// hold) on `grid`, 1 at 560 nm. Throws Error (domain) otherwise.
inline Spectrum planckian_radiator(double temperature_k, const Sampling& grid = {},
                                   double c2 = planck_c2) {
    if (!(temperature_k >= 50.0) || !std::isfinite(temperature_k)) {
        throw Error(ErrorKind::domain, "planckian_radiator",
                    "temperature " + to_text(temperature_k) + " K",
                    "a finite temperature of at least 50 K");
    }
    const double at_560 = planck(560.0, temperature_k, c2);
    return detail::computed_spectrum(
        grid, [&](double nm) { return planck(nm, temperature_k, c2) / at_560; });
}

/// CIE illuminant A on `grid`, 100 at 560 nm. Source: CIE 15:2018, eq. 4.2 (T = 2848 K with c2 = 1.435e-2 m K, which is
/// 2855.5 K with today's constant).
inline Spectrum illuminant_a(const Sampling& grid = {380.0, 5.0, 81}) {
    return planckian_radiator(2848.0, grid, 1.435e-2).scaled(100.0);
}

/// CIE illuminant C, 380-780 nm by 5 nm, 105.3 at 560 nm (table of CIE 15; outdated, kept because old work refers to it).
inline Spectrum illuminant_c() {
    namespace t = tables::illuminant_c;
    return {Sampling(t::first_nm, t::step_nm, t::count), {t::power.begin(), t::power.end()}};
}

/// The equal-energy illuminant E: 100 everywhere.
inline Spectrum illuminant_e(const Sampling& grid = {380.0, 5.0, 81}) {
    return detail::computed_spectrum(grid, [](double) { return 100.0; });
}

/// Whether the two weights of the daylight series are rounded to three decimals, as CIE 15 does for its tabulated illuminants.
enum class DaylightWeights { rounded, exact };

/// The intermediate values of the daylight series: CIE 1931 chromaticity and the weights of the second and third component.
struct DaylightSeries {
    double x, y, m1, m2;
};

/// Daylight of correlated colour temperature `temperature_k`: chromaticity on the daylight locus and component weights.
/// Range: 4000 to 25000 K (a little more is accepted, 4000-25014 K, since D250 on the present temperature scale lies there).
/// Throws Error (domain) outside it. Source: CIE 15:2018, eq. 4.6-4.10 (CIE 15:2004, 3.1).
inline DaylightSeries daylight_series(double temperature_k,
                                      DaylightWeights weights = DaylightWeights::exact) {
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

/// Daylight spectrum of correlated colour temperature `temperature_k` (K, 4000-25000), relative, 380-780 nm by 5 nm, 100 at
/// 560 nm: S0 + M1 S1 + M2 S2 of CIE 15:2018, eq. 4.5. Throws Error (domain) outside the range.
inline Spectrum daylight(double temperature_k, DaylightWeights weights = DaylightWeights::exact) {
    namespace t = tables::daylight_basis;
    const DaylightSeries series = daylight_series(temperature_k, weights);
    std::vector<double> values(t::s0.size());
    for (std::size_t i = 0; i < values.size(); ++i) {
        values[i] = t::s0[i] + series.m1 * t::s1[i] + series.m2 * t::s2[i];
    }
    return {Sampling(t::first_nm, t::step_nm, t::count), std::move(values)};
}

/// The temperature on the present scale, K, of a CIE D illuminant named by its nominal temperature (6500 for D65): nominal
/// x 1.4388 / 1.4380, since the names keep the c2 of 1931. Source: CIE 15:2004, note 5 to Table T.1.
inline double daylight_temperature_k(double nominal_k) { return nominal_k * (1.4388 / 1.4380); }

/// A CIE D illuminant by its nominal temperature, K: d_illuminant(6500) is D65 as tabulated, to the table's rounding.
/// Range: 4000 to 25000 K. Throws Error (domain). Source: CIE 15:2004, 3.1 with note 5 to Table T.1.
inline Spectrum d_illuminant(double nominal_k) {
    if (!(nominal_k >= 4000.0 && nominal_k <= 25000.0)) {
        throw Error(ErrorKind::domain, "d_illuminant", "temperature " + to_text(nominal_k) + " K",
                    "4000 to 25000 K");
    }
    return daylight(daylight_temperature_k(nominal_k), DaylightWeights::rounded);
}

/// A CIE illuminant by its name: A, C, E, or D and the nominal temperature in hundreds of kelvin (D40 to D250, D65 say), as 5 nm
/// values, 380-780 nm. Throws Error (domain) for any other name.
inline Spectrum cie_illuminant(std::string_view name) {
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
