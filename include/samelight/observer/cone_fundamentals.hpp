#pragma once
// Cone fundamentals for any age and field size: the construction of CIE 170-1.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <string>
#include <utility>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/ocular_media.hpp"

namespace samelight {

/// The eye's pupil. CIE 170-1's lens densities are for a small one; through an open one light also passes the thinner rim of the
/// lens, and the densities are those for a small one divided by 1.16.
enum class Pupil {
    small,  ///< up to 3 mm
    open    ///< above 7 mm
};

/// How peak densities of macula and pigments come out of their formulas.
enum class PeakDensities {
    three_decimals,  ///< rounded to three decimals, as the standard does
    unrounded
};

/// For whom, and for how large a field.
struct ConeConditions {
    double age_years = 32.0;  ///< 20 to 80
    double field_deg = 2.0;   ///< diameter of the visual field, degrees, 1 to 10
    Pupil pupil = Pupil::small;
    PeakDensities peak_densities = PeakDensities::three_decimals;

    friend bool operator==(const ConeConditions&, const ConeConditions&) = default;
};

namespace detail {

/// All that the shape of one eye's fundamentals depends on. Densities are decadic.
struct Eye {
    double ageing;                  ///< multiplies OcularMedia::ageing
    double fixed;                   ///< multiplies OcularMedia::fixed
    double macula;                  ///< density at 460 nm
    std::array<double, 3> pigment;  ///< peak densities of L, M, S
    std::array<double, 3> shift_nm = {0.0, 0.0,
                                      0.0};  ///< of log absorbance, positive to longer wavelengths
};

inline void require_conditions(const char* where, const ConeConditions& conditions) {
    const double age = conditions.age_years;
    const double field = conditions.field_deg;
    if (!(age >= 20.0) || !(age <= 80.0)) {
        throw Error(ErrorKind::domain, where, "age " + to_text(age) + " years",
                    "an age from 20 to 80 years");
    }
    if (!(field >= 1.0) || !(field <= 10.0)) {
        throw Error(ErrorKind::domain, where, "a field of " + to_text(field) + " degrees",
                    "a field from 1 to 10 degrees");
    }
}

/// Densities at their peaks for a field. Source: CIE 170-1:2006, the formulas for macula and photopigments.
struct FieldDensities {
    double macula;
    std::array<double, 3> pigment;
};

inline FieldDensities field_densities(double field_deg, PeakDensities how) {
    const auto rounded = [how](double density) {
        return how == PeakDensities::unrounded ? density : std::round(1000.0 * density) / 1000.0;
    };
    const double centre = std::exp(-field_deg / 1.333);
    const double l_and_m = rounded(0.38 + 0.54 * centre);
    return {rounded(0.485 * std::exp(-field_deg / 6.132)),
            {l_and_m, l_and_m, rounded(0.30 + 0.45 * centre)}};
}

inline Eye eye_of(const ConeConditions& conditions, const FieldDensities& densities) {
    const double through = conditions.pupil == Pupil::open ? 1.0 / 1.16 : 1.0;
    return {through * lens_ageing_factor(conditions.age_years), through, densities.macula,
            densities.pigment};
}

/// log10 absorbance of a cone where the curve, `position` steps of 1 nm from its first wavelength, has been shifted to: linear
/// between the whole nm and on from the last two beyond either end; -infinity for S beyond its last wavelength.
inline double log_absorbance_at(std::size_t cone, double position) {
    const ConeCurve& curve = log_absorbance(cone);
    if (cone == 2 && position > static_cast<double>(s_cone_last_nm - cone_first_nm)) {
        return -HUGE_VAL;
    }
    const double last = static_cast<double>(curve.size() - 2);
    const auto below = static_cast<std::size_t>(std::clamp(std::floor(position), 0.0, last));
    const double t = position - static_cast<double>(below);
    return curve[below] + t * (curve[below + 1] - curve[below]);
}

/// One row in energy units at the cornea, 1 at the largest of its whole nm. The plain route: written for reading, checked
/// against the published tables, and what population_batch.hpp is checked against.
inline Observer::Row cone_row(const Eye& eye, std::size_t cone) {
    const OcularMedia& media = ocular_media();
    Observer::Row row(media.macula.size());
    for (std::size_t i = 0; i < row.size(); ++i) {
        const double position = static_cast<double>(i) - eye.shift_nm[cone];
        const double absorbance = std::pow(10.0, log_absorbance_at(cone, position));
        // The share absorbed is 1 - 10^(-D A). Divided by D ln 10 it stays the same shape and has a limit, A, for an eye with
        // next to no pigment.
        const double depth = eye.pigment[cone] * absorbance * std::numbers::ln10;
        const double absorbed = absorbance * (depth > 0.0 ? -std::expm1(-depth) / depth : 1.0);
        const double density = eye.ageing * media.ageing[i] + eye.fixed * media.fixed[i] +
                               eye.macula * media.macula[i];
        const double nm = cone_first_nm + static_cast<double>(i);
        row[i] = nm * absorbed * std::pow(10.0, -density);
    }
    const double peak = *std::max_element(row.begin(), row.end());
    for (double& value : row) {
        value /= peak;
    }
    return row;
}

inline Observer cone_observer(std::string id, std::string title, std::string edition,
                              const Eye& eye) {
    return {std::move(id),
            std::move(title),
            std::move(edition),
            Receptors::cones,
            {static_cast<double>(cone_first_nm), 1.0, cone_count},
            {cone_row(eye, 0), cone_row(eye, 1), cone_row(eye, 2)}};
}

}  // namespace detail

/// "cie2006:45:2" for 45 years and 2 degrees, numbers in their shortest decimal text; ":open-pupil" and
/// ":unrounded-densities" follow where they aren't as the standard has them. Throws Error (domain) as cone_fundamentals.
inline std::string cone_fundamentals_id(const ConeConditions& conditions) {
    detail::require_conditions("cone fundamentals", conditions);
    std::string id =
        "cie2006:" + to_text(conditions.age_years) + ":" + to_text(conditions.field_deg);
    if (conditions.pupil == Pupil::open) {
        id += ":open-pupil";
    }
    if (conditions.peak_densities == PeakDensities::unrounded) {
        id += ":unrounded-densities";
    }
    return id;
}

/// The cone fundamentals of the average person of an age, for a field: l, m, s in energy units at the cornea, each 1 at its
/// largest value, 390-830 nm by 1 nm. S is 0 above 615 nm.
///
/// Range: 20 to 80 years, 1 to 10 degrees. Error: the tables of CIE 170-2 (32 years, 2 and 10 degrees) come out within 4.3e-4 of
/// the peak, which is what the construction on 1 nm data can give; so do those of CIE TC 1-97's program for other ages and fields.
/// Throws Error (domain) outside the range. Sources: CIE 170-1:2006, clause 6; the pupil's factor: there, from memory.
inline Observer cone_fundamentals(const ConeConditions& conditions) {
    std::string id = cone_fundamentals_id(conditions);
    std::string title = "CIE 2006 cone fundamentals, " + to_text(conditions.field_deg) +
                        " degrees, " + to_text(conditions.age_years) + " years";
    if (conditions.pupil == Pupil::open) {
        title += ", open pupil";
    }
    const auto densities = detail::field_densities(conditions.field_deg, conditions.peak_densities);
    return detail::cone_observer(std::move(id), std::move(title),
                                 "CIE 170-1:2006, from its formulas",
                                 detail::eye_of(conditions, densities));
}

}  // namespace samelight
