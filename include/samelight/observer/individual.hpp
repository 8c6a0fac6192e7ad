#pragma once
// One person: the average eye of an age and a field, and eight ways in which this one is not average.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>

#include <Eigen/Core>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight {

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
    double l_shift_nm = 0.0;  ///< of the pigment's log absorbance, positive to longer wavelengths
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
inline constexpr double largest_percent = 1000.0;

inline void require_deviations(const char* where, const Deviations& deviations) {
    const auto values = deviations.values();
    for (std::size_t i = 0; i < values.size(); ++i) {
        const bool percent = i < percent_factor_count;
        const double low = percent ? -100.0 : -largest_shift_nm;
        const double high = percent ? largest_percent : largest_shift_nm;
        if (!(values[i] >= low) || !(values[i] <= high)) {
            throw Error(ErrorKind::domain, where,
                        "deviation " + std::to_string(i + 1) + " of 8 is " + to_text(values[i]),
                        "percentages from -100 to 1000 and shifts from -40 to 40 nm");
        }
    }
}

/// The average eye made this person's. The densities are those of the person's field.
inline Eye eye_of(const Individual& person, const FieldDensities& densities) {
    const Deviations& d = person.deviations;
    Eye eye = eye_of(person.conditions, densities);
    const double lens = 1.0 + d.lens_percent / 100.0;
    eye.ageing *= lens;
    eye.fixed *= lens;
    eye.macula *= 1.0 + d.macula_percent / 100.0;
    eye.pigment[0] *= 1.0 + d.l_density_percent / 100.0;
    eye.pigment[1] *= 1.0 + d.m_density_percent / 100.0;
    eye.pigment[2] *= 1.0 + d.s_density_percent / 100.0;
    eye.shift_nm = {d.l_shift_nm, d.m_shift_nm, d.s_shift_nm};
    return eye;
}

inline FieldDensities field_densities(const ConeConditions& conditions) {
    return field_densities(conditions.field_deg, conditions.peak_densities);
}

/// The part of the way from the 2 degree matrix to the 10 degree one, see xyz_from_lms.
inline double field_weight(double field_deg) {
    const auto macula = [](double deg) { return std::exp(-deg / 6.132); };
    const double clamped = std::clamp(field_deg, 2.0, 10.0);
    return (macula(2.0) - macula(clamped)) / (macula(2.0) - macula(10.0));
}

}  // namespace detail

/// The person's identity: that of the average eye, cone_fundamentals_id(), and where there are deviations the eight of them, each
/// as its shortest decimal text: "cie2006:30:10:-22.9:6.96:-11.1:-4.96:7.59:-0.09:0.33:-0.79". Equal people have equal
/// identities, and only they. Throws Error (domain) for a person out of range.
inline std::string individual_id(const Individual& person) {
    detail::require_deviations("individual", person.deviations);
    std::string id = cone_fundamentals_id(person.conditions);
    if (person.deviations != Deviations{}) {
        for (const double value : person.deviations.values()) {
            id += ':';
            id += to_text(value + 0.0);  // -0 is 0
        }
    }
    return id;
}

/// A person's cone fundamentals: l, m, s in energy units at the cornea, each 1 at its largest value, 390-830 nm by 1 nm.
///
/// Lens and macula density and the pigments' peak densities are multiplied by 1 + percent / 100, the lens after ageing; log10
/// absorbance is shifted, linear between the whole nm and going on in a straight line beyond the ends of the table. S is 0
/// where its curve, shifted, ends. With no pigment left (-100 %) a row is the limit for little pigment. Range: as
/// ConeConditions and Deviations. Throws Error (domain) outside it. Source: Asano, Fairchild & Blonde 2016.
inline Observer cone_observer(const Individual& person) {
    std::string id = individual_id(person);
    std::string title = "One person of " + to_text(person.conditions.age_years) + " years, " +
                        to_text(person.conditions.field_deg) + " degrees";
    return detail::cone_observer(
        std::move(id), std::move(title), "CIE 170-1:2006 and Asano, Fairchild & Blonde 2016",
        detail::eye_of(person, detail::field_densities(person.conditions)));
}

/// A person's X, Y, Z as a 3 x 3 matrix times their L, M, S.
struct XyzFromLms {
    std::array<double, 9> values;  ///< row after row

    using Matrix = Eigen::Matrix<double, 3, 3, Eigen::RowMajor>;
    /// 3 x 3. Valid as long as this object is.
    [[nodiscard]] Eigen::Map<const Matrix> matrix() const {
        return Eigen::Map<const Matrix>(values.data());
    }
};

namespace detail {

/// CIE 170-2's matrix with its columns scaled to responses 1 to the equal-energy light, and its rows so that these give exactly
/// 1: what is left is how the three cones share in X, Y, Z. `scale` is the Y that the published matrix gives.
struct EqualEnergyMatrix {
    XyzFromLms::Matrix shares;
    double scale;
};

inline EqualEnergyMatrix equal_energy_matrix(const Observer& cones,
                                             const std::array<double, 9>& published) {
    const XyzFromLms::Matrix matrix(published.data());
    Eigen::Vector3d sums;
    for (std::size_t k = 0; k < 3; ++k) {
        const Observer::Row& row = cones.row(k);
        sums[static_cast<Eigen::Index>(k)] =
            Eigen::Map<const Eigen::VectorXd>(row.data(), static_cast<Eigen::Index>(row.size()))
                .sum();
    }
    const Eigen::Vector3d xyz = matrix * sums;
    return {xyz.cwiseInverse().asDiagonal() * matrix * sums.asDiagonal(), xyz[1]};
}

/// Source of the two matrices: CIE 170-2:2015.
inline const EqualEnergyMatrix& equal_energy_matrix_2deg() {
    static const EqualEnergyMatrix matrix = equal_energy_matrix(
        cie2006_cones_2deg(),
        {1.94735469, -1.41445123, 0.36476327, 0.68990272, 0.34832189, 0.0, 0.0, 0.0, 1.93485343});
    return matrix;
}
inline const EqualEnergyMatrix& equal_energy_matrix_10deg() {
    static const EqualEnergyMatrix matrix = equal_energy_matrix(
        cie2006_cones_10deg(),
        {1.93986443, -1.34664359, 0.43044935, 0.69283932, 0.34967567, 0.0, 0.0, 0.0, 2.14687947});
    return matrix;
}

}  // namespace detail

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
inline XyzFromLms xyz_from_lms(double field_deg, const std::array<double, 3>& equal_energy_lms) {
    if (!(field_deg >= 1.0) || !(field_deg <= 10.0)) {
        throw Error(ErrorKind::domain, "xyz_from_lms",
                    "a field of " + to_text(field_deg) + " degrees",
                    "a field from 1 to 10 degrees");
    }
    for (const double sum : equal_energy_lms) {
        if (!(sum > 0.0) || !std::isfinite(sum)) {
            throw Error(ErrorKind::domain, "xyz_from_lms",
                        "a response of " + to_text(sum) + " to equal energy", "responses above 0");
        }
    }
    const auto& small = detail::equal_energy_matrix_2deg();
    const auto& large = detail::equal_energy_matrix_10deg();
    const double w = detail::field_weight(field_deg);
    const double scale = (1.0 - w) * small.scale + w * large.scale;
    XyzFromLms result{};
    for (Eigen::Index row = 0; row < 3; ++row) {
        for (Eigen::Index k = 0; k < 3; ++k) {
            const double share = (1.0 - w) * small.shares(row, k) + w * large.shares(row, k);
            result.values[static_cast<std::size_t>(3 * row + k)] =
                scale * share / equal_energy_lms[static_cast<std::size_t>(k)];
        }
    }
    return result;
}

/// A person's tristimulus functions x, y, z: xyz_from_lms() times their cone fundamentals, by which every function for observers
/// works as that person sees. The identity is that of the cones and "/xyz". Throws as cone_observer.
inline Observer colour_matching_observer(const Individual& person) {
    const Observer cones = cone_observer(person);
    const auto n = static_cast<Eigen::Index>(cones.row(0).size());
    Eigen::Matrix<double, 3, Eigen::Dynamic> lms(3, n);
    for (std::size_t k = 0; k < 3; ++k) {
        lms.row(static_cast<Eigen::Index>(k)) =
            Eigen::Map<const Eigen::RowVectorXd>(cones.row(k).data(), n);
    }
    const Eigen::Vector3d sums = lms.rowwise().sum();
    const XyzFromLms to_xyz =
        xyz_from_lms(person.conditions.field_deg, {sums[0], sums[1], sums[2]});
    const Eigen::Matrix<double, 3, Eigen::Dynamic, Eigen::RowMajor> xyz = to_xyz.matrix() * lms;
    std::array<Observer::Row, 3> rows;
    for (std::size_t k = 0; k < 3; ++k) {
        const auto row = xyz.row(static_cast<Eigen::Index>(k));
        rows[k].assign(row.begin(), row.end());
    }
    return {cones.id() + "/xyz",
            cones.title() + ", as X, Y, Z",
            cones.edition() + ", matrix after CIE 170-2:2015",
            Receptors::colour_matching,
            cones.grid(),
            std::move(rows)};
}

}  // namespace samelight
