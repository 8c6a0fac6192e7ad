#pragma once
// Lights that are defined, not measured: Planck's radiator, the CIE illuminants, the daylight series.
#include <cmath>
#include <string_view>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/tables/daylight_basis.hpp"
#include "samelight/tables/illuminant_c.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Second radiation constant of colorimetry, m K (CIE 15:2018, 4.1.1).
inline constexpr double planck_c2 = 1.4388e-2;
/// The same in today's SI, m K (CODATA 2018).
inline constexpr double planck_c2_codata_2018 = 1.438776877e-2;

/// Spectral radiance of Planck's radiator at one wavelength, relative: lambda^-5 / (exp(c2 / (lambda T)) - 1), with lambda in
/// units of 560 nm so that ordinary values result.
/// nm > 0; temperature_k > 0; c2 in m K. Error below (4 + x) 2.5e-16 relative with x = c2 / (lambda T), which is 1e-14 at 1000 K
/// and 400 nm; 0 where x is above 709. Throws nothing.
/// Source: Planck's law, CIE 15:2018, eq. 4.1.
inline double planck(double nm, double temperature_k, double c2 = planck_c2) {
    return std::pow(560.0 / nm, 5.0) / std::expm1(c2 * 1e9 / (nm * temperature_k));
}

/// Planck's radiator at `temperature_k` (K, finite and at least 50: a colder one gives no light at 560 nm that a double could
/// hold) on `grid`, 1 at 560 nm. Relative; nm and m K. Throws Error (domain) otherwise. Source: as planck().
SAMELIGHT_API Spectrum planckian_radiator(double temperature_k, const Sampling& grid = {},
                                          double c2 = planck_c2);

/// CIE illuminant A on `grid`, 100 at 560 nm. Source: CIE 15:2018, eq. 4.2 (T = 2848 K with c2 = 1.435e-2 m K, which is
/// 2855.5 K with today's constant).
inline Spectrum illuminant_a(const Sampling& grid = {380.0, 5.0, 81}) {
    return planckian_radiator(2848.0, grid, 1.435e-2).scaled(100.0);
}

/// CIE illuminant C, 380-780 nm by 5 nm, 105.3 at 560 nm (table of CIE 15; outdated, kept because old work refers to it).
SAMELIGHT_API Spectrum illuminant_c();

/// The equal-energy illuminant E: 100 everywhere. Relative, on `grid` in nm. Source: its definition (CIE 15:2018, from memory).
SAMELIGHT_API Spectrum illuminant_e(const Sampling& grid = {380.0, 5.0, 81});

/// Whether the two weights of the daylight series are rounded to three decimals, as CIE 15 does for its tabulated illuminants.
enum class DaylightWeights { rounded, exact };

/// The intermediate values of the daylight series: CIE 1931 chromaticity and the weights of the second and third component.
struct DaylightSeries {
    double x, y, m1, m2;
};

/// Daylight of correlated colour temperature `temperature_k`: chromaticity on the daylight locus and component weights.
/// Range: 4000 to 25000 K (a little more is accepted, 4000-25014 K, since D250 on the present temperature scale lies there).
/// Throws Error (domain) outside it. Source: CIE 15:2018, eq. 4.6-4.10 (CIE 15:2004, 3.1).
SAMELIGHT_API DaylightSeries daylight_series(double temperature_k,
                                             DaylightWeights weights = DaylightWeights::exact);

/// Daylight spectrum of correlated colour temperature `temperature_k` (K, 4000-25000), relative, 380-780 nm by 5 nm, 100 at
/// 560 nm: S0 + M1 S1 + M2 S2 of CIE 15:2018, eq. 4.5. Throws Error (domain) outside the range.
SAMELIGHT_API Spectrum daylight(double temperature_k,
                                DaylightWeights weights = DaylightWeights::exact);

/// The temperature on the present scale, K, of a CIE D illuminant named by its nominal temperature (6500 for D65): nominal
/// x 1.4388 / 1.4380, since the names keep the c2 of 1931. Source: CIE 15:2004, note 5 to Table T.1.
inline double daylight_temperature_k(double nominal_k) { return nominal_k * (1.4388 / 1.4380); }

/// A CIE D illuminant by its nominal temperature, K: d_illuminant(6500) is D65 as tabulated, to the table's rounding.
/// Range: 4000 to 25000 K. Throws Error (domain). Source: CIE 15:2004, 3.1 with note 5 to Table T.1.
SAMELIGHT_API Spectrum d_illuminant(double nominal_k);

/// A CIE illuminant by its name: A, C, E, or D and the nominal temperature in hundreds of kelvin (D40 to D250, D65 say), as 5 nm
/// values, 380-780 nm. Throws Error (domain) for any other name. Sources: as illuminant_a(), illuminant_c(), illuminant_e() and
/// d_illuminant().
SAMELIGHT_API Spectrum cie_illuminant(std::string_view name);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/illuminants.ipp"
#endif
