#pragma once
// One person: the average eye of an age and a field, and eight ways in which this one is not average.
#include <array>
#include <cstddef>
#include <string>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/observer.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The eight numbers in which people of one age differ; Kind tells a person's deviations from how far people spread.
///
/// Percent of the average density, and nm. Source of the eight: Asano, Fairchild & Blonde 2016, Individual colorimetric
/// observer model, PLoS ONE 11(2):e0145671, doi:10.1371/journal.pone.0145671.
template <class Kind>
struct EyeFactors {
    double lens_percent = 0.0;
    double macula_percent = 0.0;
    double l_density_percent = 0.0;
    double m_density_percent = 0.0;
    double s_density_percent = 0.0;
    /// Of the pigment's log absorbance, positive to longer wavelengths.
    double l_shift_nm = 0.0;
    double m_shift_nm = 0.0;
    double s_shift_nm = 0.0;

    /// The eight in this order, of which the first five are percentages.
    [[nodiscard]] std::array<double, 8> values() const {
        return {lens_percent,      macula_percent, l_density_percent, m_density_percent,
                s_density_percent, l_shift_nm,     m_shift_nm,        s_shift_nm};
    }
    [[nodiscard]] static EyeFactors of(const std::array<double, 8>& v) {
        return {v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7]};
    }

    friend bool operator==(const EyeFactors&, const EyeFactors&) = default;
};

inline constexpr std::size_t eye_factor_count = 8;
inline constexpr std::size_t percent_factor_count = 5;

/// How one person deviates from the average of their age. Percentages from -100 (nothing left) to 1000, shifts within 40 nm.
using Deviations = EyeFactors<struct OnePerson>;

/// How far people spread: standard deviations of the eight, each normal and independent of the others.
using DeviationSpread = EyeFactors<struct ManyPeople>;

/// The default: scaled so that the model spreads as colour matches of real people did. Source: Asano, Fairchild & Blonde 2016,
/// Table 5.
inline constexpr DeviationSpread asano2016_spread{18.7, 36.5, 9.0, 9.0, 7.4, 2.0, 1.5, 1.3};

/// Before that scaling: as collected from the literature on single factors. Pessimistic: real matches spread less. Source:
/// Asano, Fairchild & Blonde 2016, their first step.
inline constexpr DeviationSpread literature_spread{19.1, 37.2, 17.9, 17.9, 14.7, 4.0, 3.0, 2.5};

/// A person as a value: the average eye for an age and a field, and this person's deviations from it.
struct Individual {
    ConeConditions conditions;
    Deviations deviations;

    friend bool operator==(const Individual&, const Individual&) = default;
};

namespace detail {

inline constexpr double largest_shift_nm = 40.0;

void require_deviations(const char* where, const Deviations& deviations);

/// The average eye made this person's. The densities are those of the person's field.
SAMELIGHT_API Eye eye_of(const Individual& person, const FieldDensities& densities);

inline FieldDensities field_densities(const ConeConditions& conditions) {
    return field_densities(conditions.field_deg, conditions.peak_densities);
}

}  // namespace detail

/// The person's identity: that of the average eye, cone_fundamentals_id(), and where there are deviations the eight of them, each
/// as its shortest decimal text: "cie2006:30:10:-22.9:6.96:-11.1:-4.96:7.59:-0.09:0.33:-0.79". Equal people have equal
/// identities, and only they. Throws Error (domain) for a person out of range.
SAMELIGHT_API std::string individual_id(const Individual& person);

/// A person's cone fundamentals: l, m, s in energy units at the cornea, each 1 at its largest value, 390-830 nm by 1 nm.
///
/// Lens and macula density and the pigments' peak densities are multiplied by 1 + percent / 100, the lens after ageing; log10
/// absorbance is shifted, linear between the whole nm and going on in a straight line beyond the ends of the table. S is 0
/// where its curve, shifted, ends. With no pigment left (-100 %) a row is the limit for little pigment. Range: as
/// ConeConditions and Deviations. Throws Error (domain) outside it. Source: Asano, Fairchild & Blonde 2016.
SAMELIGHT_API Observer cone_observer(const Individual& person);

/// A person's X, Y, Z as a 3 x 3 matrix times their L, M, S.
struct SAMELIGHT_API XyzFromLms {
    /// Row after row.
    std::array<double, 9> values;

    using Matrix = Eigen::Matrix<double, 3, 3, Eigen::RowMajor>;
    /// 3 x 3. Valid as long as this object is.
    [[nodiscard]] Matrix matrix() const&& { return static_cast<const XyzFromLms&>(*this).matrix(); }
    [[nodiscard]] Eigen::Map<const Matrix> matrix() const&;
};

/// The matrix that makes a person's tristimulus values of their cone responses, so that differences of colour "as this person
/// sees them" have a meaning. It is this library's definition; there is no standard one.
///
/// CIE 170-2's matrix of the field, each cone first scaled so that it responds to the equal-energy light as the standard's does:
/// every person sees that light as X = Y = Z, as they would see it as white once used to it. Exactly so, which moves the published
/// figures by less than 2e-6. Between 2 and 10 degrees the two matrices, for cones that respond to equal energy by 1, are mixed
/// in the proportion in which the macular density, exp(-field / 6.132), lies between; below 2 degrees that of 2 degrees serves.
///
/// field_deg: 1 to 10. equal_energy_lms: the person's responses to an equal-energy light of 1, the sums of their rows at 390-830 nm
/// by 1 nm, each above 0. Throws Error (domain). Source of the matrices: CIE 170-2:2015.
SAMELIGHT_API XyzFromLms xyz_from_lms(double field_deg,
                                      const std::array<double, 3>& equal_energy_lms);

/// A person's tristimulus functions x, y, z: xyz_from_lms() times their cone fundamentals, by which every function for observers
/// works as that person sees. The identity is that of the cones and "/xyz". Dimensionless. Throws as cone_observer. Source: as
/// xyz_from_lms().
SAMELIGHT_API Observer colour_matching_observer(const Individual& person);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/observer/impl/individual.ipp"
#endif
