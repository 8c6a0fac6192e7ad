#pragma once
// The bodies of observer/cone_fundamentals.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <string>
#include <utility>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/ocular_media.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE void require_conditions(const char* where, const ConeConditions& conditions) {
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

SAMELIGHT_INLINE FieldDensities field_densities(double field_deg, PeakDensities how) {
    const auto rounded = [how](double density) {
        return how == PeakDensities::unrounded ? density : std::round(1000.0 * density) / 1000.0;
    };
    const double centre = std::exp(-field_deg / 1.333);
    const double l_and_m = rounded(0.38 + 0.54 * centre);
    return {rounded(0.485 * std::exp(-field_deg / 6.132)),
            {l_and_m, l_and_m, rounded(0.30 + 0.45 * centre)}};
}

SAMELIGHT_INLINE Eye eye_of(const ConeConditions& conditions, const FieldDensities& densities) {
    const double through = conditions.pupil == Pupil::open ? 1.0 / 1.16 : 1.0;
    return {through * lens_ageing_factor(conditions.age_years), through, densities.macula,
            densities.pigment};
}

SAMELIGHT_INLINE double log_absorbance_at(std::size_t cone, double position) {
    const ConeCurve& curve = log_absorbance(cone);
    if (cone == 2 && position > static_cast<double>(s_cone_last_nm - cone_first_nm)) {
        return -HUGE_VAL;
    }
    const double last = static_cast<double>(curve.size() - 2);
    const auto below = static_cast<std::size_t>(std::clamp(std::floor(position), 0.0, last));
    const double t = position - static_cast<double>(below);
    return curve[below] + t * (curve[below + 1] - curve[below]);
}

SAMELIGHT_INLINE bool s_ended(std::size_t step, double shift_nm) {
    constexpr double last = s_cone_last_nm - cone_first_nm;
    return static_cast<double>(step) - last > shift_nm;
}

SAMELIGHT_INLINE Observer::Row cone_row(const Eye& eye, std::size_t cone) {
    const OcularMedia& media = ocular_media();
    Observer::Row row(media.macula.size());
    for (std::size_t i = 0; i < row.size(); ++i) {
        if (cone == 2 && s_ended(i, eye.shift_nm[cone])) {
            break;
        }
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

SAMELIGHT_INLINE Observer cone_observer(std::string id, std::string title, std::string edition,
                                        const Eye& eye) {
    return {OwnObserver{{std::move(id), std::move(title), std::move(edition), Receptors::cones}},
            {static_cast<double>(cone_first_nm), 1.0, cone_count},
            {cone_row(eye, 0), cone_row(eye, 1), cone_row(eye, 2)}};
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::string cone_fundamentals_id(const ConeConditions& conditions) {
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

SAMELIGHT_INLINE Observer cone_fundamentals(const ConeConditions& conditions) {
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
