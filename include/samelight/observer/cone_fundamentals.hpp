#pragma once
// Cone fundamentals for any age and field size: the construction of CIE 170-1.
#include <array>
#include <cstddef>
#include <string>

#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The eye's pupil. CIE 170-1's lens densities are for a small one; through an open one light also passes the thinner rim of the
/// lens, and the densities are those for a small one divided by 1.16.
enum class Pupil {
    /// Up to 3 mm.
    small,
    /// Above 7 mm.
    open
};

/// How peak densities of macula and pigments come out of their formulas.
enum class PeakDensities {
    /// Rounded to three decimals, as the standard does.
    three_decimals,
    unrounded
};

/// For whom, and for how large a field.
struct ConeConditions {
    /// 20 to 80
    double age_years = 32.0;
    /// Diameter of the visual field, degrees, 1 to 10.
    double field_deg = 2.0;
    Pupil pupil = Pupil::small;
    PeakDensities peak_densities = PeakDensities::three_decimals;

    friend bool operator==(const ConeConditions&, const ConeConditions&) = default;
};

namespace detail {

/// All that the shape of one eye's fundamentals depends on. Densities are decadic.
struct Eye {
    /// Multiplies OcularMedia::ageing.
    double ageing;
    /// Multiplies OcularMedia::fixed.
    double fixed;
    /// Density at 460 nm.
    double macula;
    /// Peak densities of L, M, S.
    std::array<double, 3> pigment;
    /// Of log absorbance, positive to longer wavelengths.
    std::array<double, 3> shift_nm = {0.0, 0.0, 0.0};
};

void require_conditions(const char* where, const ConeConditions& conditions);

/// Densities at their peaks for a field. Source: CIE 170-1:2006, the formulas for macula and photopigments.
struct FieldDensities {
    double macula;
    std::array<double, 3> pigment;
};

SAMELIGHT_API FieldDensities field_densities(double field_deg, PeakDensities how);

SAMELIGHT_API Eye eye_of(const ConeConditions& conditions, const FieldDensities& densities);

/// log10 absorbance of a cone where the curve, `position` steps of 1 nm from its first wavelength, has been shifted to: linear
/// between the whole nm and on from the last two beyond either end; -infinity for S beyond its last wavelength.
SAMELIGHT_API double log_absorbance_at(std::size_t cone, double position);

/// Whether the S curve, shifted, has ended before the wavelength `step` nm from the first. Both routes to a row ask here: written without
/// a rounding, so that no processor's registers decide it.
SAMELIGHT_API bool s_ended(std::size_t step, double shift_nm);

/// One row in energy units at the cornea, 1 at the largest of its whole nm. The plain route: written for reading, checked
/// against the published tables, and what population_batch.hpp is checked against.
Observer::Row cone_row(const Eye& eye, std::size_t cone);

SAMELIGHT_API Observer cone_observer(std::string id, std::string title, std::string edition,
                                     const Eye& eye);

}  // namespace detail

/// "cie2006:45:2" for 45 years and 2 degrees, numbers in their shortest decimal text; ":open-pupil" and
/// ":unrounded-densities" follow where they aren't as the standard has them. Throws Error (domain) as cone_fundamentals.
SAMELIGHT_API std::string cone_fundamentals_id(const ConeConditions& conditions);

/// The cone fundamentals of the average person of an age, for a field: l, m, s in energy units at the cornea, each 1 at its
/// largest value, 390-830 nm by 1 nm. S is 0 above 615 nm.
///
/// Range: 20 to 80 years, 1 to 10 degrees. Error: the tables of CIE 170-2 (32 years, 2 and 10 degrees) come out within 4.3e-4 of
/// the peak, which is what the construction on 1 nm data can give; so do those of CIE TC 1-97's program for other ages and fields.
/// Throws Error (domain) outside the range. Sources: CIE 170-1:2006, clause 6; the pupil's factor: there, from memory.
SAMELIGHT_API Observer cone_fundamentals(const ConeConditions& conditions);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/observer/impl/cone_fundamentals.ipp"
#endif
