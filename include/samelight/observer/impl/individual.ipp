#pragma once
// The bodies of observer/individual.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>

#include <Eigen/Core>

#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline constexpr double largest_percent = 1000.0;

SAMELIGHT_INLINE void require_deviations(const char* where, const Deviations& deviations) {
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

SAMELIGHT_INLINE Eye eye_of(const Individual& person, const FieldDensities& densities) {
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

/// The part of the way from the 2 degree matrix to the 10 degree one, see xyz_from_lms.
inline double field_weight(double field_deg) {
    const auto macula = [](double deg) { return std::exp(-deg / 6.132); };
    const double clamped = std::clamp(field_deg, 2.0, 10.0);
    return (macula(2.0) - macula(clamped)) / (macula(2.0) - macula(10.0));
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::string individual_id(const Individual& person) {
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

SAMELIGHT_INLINE Observer cone_observer(const Individual& person) {
    std::string id = individual_id(person);
    std::string title = "One person of " + to_text(person.conditions.age_years) + " years, " +
                        to_text(person.conditions.field_deg) + " degrees";
    return detail::cone_observer(
        std::move(id), std::move(title), "CIE 170-1:2006 and Asano, Fairchild & Blonde 2016",
        detail::eye_of(person, detail::field_densities(person.conditions)));
}

SAMELIGHT_INLINE Eigen::Map<const XyzFromLms::Matrix> XyzFromLms::matrix() const& {
    return Eigen::Map<const Matrix>(values.data());
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

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
        sums[static_cast<Eigen::Index>(k)] = dense::sum(
            Eigen::Map<const Eigen::VectorXd>(row.data(), static_cast<Eigen::Index>(row.size())));
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

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE XyzFromLms xyz_from_lms(double field_deg,
                                         const std::array<double, 3>& equal_energy_lms) {
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

SAMELIGHT_INLINE Observer colour_matching_observer(const Individual& person) {
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
    std::array<Observer::Row, 3> rows;
    for (Eigen::Index i = 0; i < n; ++i) {
        const Eigen::Vector3d xyz = dense::times_3x3(to_xyz.matrix(), lms.col(i));
        for (std::size_t k = 0; k < 3; ++k) {
            rows[k].push_back(xyz[static_cast<Eigen::Index>(k)]);
        }
    }
    return {detail::OwnObserver{{cones.id() + "/xyz", cones.title() + ", as X, Y, Z",
                                 cones.edition() + ", matrix after CIE 170-2:2015",
                                 Receptors::colour_matching}},
            cones.grid(), std::move(rows)};
}

}  // namespace samelight
