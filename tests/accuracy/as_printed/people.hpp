#pragma once
// How one person sees lights: cone fundamentals as CIE 170-1 writes them, sums, and X, Y, Z by this library's definition (xyz_from_lms()), in
// long double. Of the library are that definition's numbers for 2 and 10 degrees, and who the person is.
#include <array>
#include <cstddef>
#include <vector>

#include <Eigen/Core>

#include "accuracy/as_printed/cone_fundamentals.hpp"
#include "accuracy/as_printed/lab.hpp"
#include "accuracy/ledger.hpp"
#include "samelight/colour/differences/difference_formulas.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"

namespace samelight::test {

using ExactLab = detail::LabOf<Exact>;

/// L*, a*, b* relative to a white.
inline ExactLab lab_of(const Exact3& xyz, const Exact3& white) {
    const Exact3 lab =
        lab_as_printed({xyz[0] / white[0], xyz[1] / white[1], xyz[2] / white[2]}, {1, 1, 1});
    return {lab[0], lab[1], lab[2]};
}
/// What somebody is taken to be adapted to who has two whites before them.
inline Exact3 midway(const Exact3& a, const Exact3& b) {
    return {(a[0] + b[0]) / 2.0L, (a[1] + b[1]) / 2.0L, (a[2] + b[2]) / 2.0L};
}

class PersonAsWritten {
  public:
    explicit PersonAsWritten(const Individual& person) {
        const detail::Eye eye = detail::eye_of(person, detail::field_densities(person.conditions));
        const XyzFromLms definition =
            xyz_from_lms(person.conditions.field_deg, std::array<double, 3>{1.0, 1.0, 1.0});
        for (std::size_t cone = 0; cone < 3; ++cone) {
            rows_[cone] = row_as_written(eye, cone);
            Exact equal_energy = 0.0L;
            for (const Exact value : rows_[cone]) {
                equal_energy += value;
            }
            for (std::size_t k = 0; k < 3; ++k) {
                xyz_from_lms_[k][cone] = definition.values[3 * k + cone] / equal_energy;
            }
        }
    }

    /// X, Y, Z of a light at 380-780 nm by 1 nm, of which nothing below 390 nm is seen.
    [[nodiscard]] std::array<Exact, 3> sees(const double* light) const {
        constexpr std::size_t unseen = 10;
        std::array<Exact, 3> xyz{};
        for (std::size_t cone = 0; cone < 3; ++cone) {
            Exact sum = 0.0L;
            for (std::size_t i = unseen; i < light_count; ++i) {
                sum += rows_[cone][i - unseen] * light[i];
            }
            for (std::size_t k = 0; k < 3; ++k) {
                xyz[k] += xyz_from_lms_[k][cone] * sum;
            }
        }
        return xyz;
    }

    /// X, Y, Z of each of some lights at these wavelengths.
    [[nodiscard]] std::vector<std::array<Exact, 3>> sees(const MixedLights& lights) const {
        const auto parts = lights.parts();
        std::vector<std::array<Exact, 3>> of_parts;
        for (Eigen::Index k = 0; k < parts.cols(); ++k) {
            of_parts.push_back(sees(parts.col(k).data()));
        }
        if (lights.plain()) {
            return of_parts;
        }
        const auto amounts = lights.amounts();
        std::vector<std::array<Exact, 3>> result(lights.size());
        for (std::size_t j = 0; j < result.size(); ++j) {
            for (std::size_t part = 0; part < of_parts.size(); ++part) {
                const Exact amount =
                    amounts(static_cast<Eigen::Index>(part), static_cast<Eigen::Index>(j));
                for (std::size_t k = 0; k < 3; ++k) {
                    result[j][k] += amount * of_parts[part][k];
                }
            }
        }
        return result;
    }

  private:
    static constexpr std::size_t light_count = 401;
    std::array<ExactRow, 3> rows_;
    std::array<std::array<Exact, 3>, 3> xyz_from_lms_{};
};

}  // namespace samelight::test
