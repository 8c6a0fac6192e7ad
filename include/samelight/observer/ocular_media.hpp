#pragma once
// What light passes on its way to the cones, and what the cones' pigments absorb: the curves of CIE 170-1 by 1 nm.
#include <array>
#include <cstddef>

#include "samelight/numeric/form.hpp"
#include "samelight/tables/cie2006_absorbance.hpp"
#include "samelight/tables/cie2006_lens.hpp"
#include "samelight/tables/cie2006_lens_total.hpp"
#include "samelight/tables/cie2006_macula.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The wavelengths of CIE 170-1's curves: 390 to 830 nm by 1 nm.
inline constexpr int cone_first_nm = static_cast<int>(tables::cie2006_lens_total::first_nm);
inline constexpr int cone_count = tables::cie2006_lens_total::count;
/// The report tabulates no S cone beyond this wavelength, nm; its sensitivity is taken as 0 there.
inline constexpr int s_cone_last_nm = 615;

/// One curve, a value for each nm from 390 to 830.
using ConeCurve = std::array<double, static_cast<std::size_t>(cone_count)>;

/// Decadic densities of what lies before the cones.
///
/// The density of lens and other media at A years is factor(A) ageing + fixed; at 32 years the factor is 1 and the sum is the
/// published total, to the bit. `macula` is relative: 1 at 460 nm (its largest value, at 458 nm, is 1.006).
///
/// The report gives the two parts of the lens from 400 nm by 5 nm and the total by 1 nm. Here the total is the anchor. From 460
/// nm up all of it ages, as in the report. Below that the ageing part is a natural cubic spline through the report's values, held
/// at its value for 400 nm down to 390 nm, never more than the total; the rest is fixed. At 390 nm the report's own program has
/// 0.608 for the ageing part, this 0.662: at 20 years S is 2.3e-4 of its peak off there, L and M 2e-5.
/// Sources: CIE 170-1:2006, Tables 6.4 and 6.10; Pokorny, Smith & Lutze 1987, doi:10.1364/AO.26.001437.
struct OcularMedia {
    ConeCurve ageing{};
    ConeCurve fixed{};
    ConeCurve macula{};
};

/// The curves before the cones. Made once, on first use; thread-safe.
SAMELIGHT_API const OcularMedia& ocular_media();

/// log10 of the absorbance of a cone's pigment relative to its peak, by 1 nm from 390 nm; cone 0, 1, 2 is L, M, S. Beyond
/// s_cone_last_nm the S curve holds an extrapolation that is no data of the CIE and must not be used.
/// Source: CIE 170-1:2006, Table 6.6.
SAMELIGHT_API const ConeCurve& log_absorbance(std::size_t cone);

/// How much the ageing part of the lens grows from 32 years to `age_years`.
/// Range: 20 to 80 years (not checked here). Source: CIE 170-1:2006, eqs. for 20 to 60 years and above.
inline double lens_ageing_factor(double age_years) {
    return age_years <= 60.0 ? 1.0 + 0.02 * (age_years - 32.0) : 1.56 + 0.0667 * (age_years - 60.0);
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/observer/impl/ocular_media.ipp"
#endif
