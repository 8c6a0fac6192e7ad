#pragma once
// The bodies of meter/readings/pair_columns.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/meter/readings/pair_columns.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE PairColumns::PairColumns(std::span<const std::array<double, 3>> meter,
                                          std::span<const std::array<double, 3>> reference)
    : count_(meter.size()) {
    if (meter.size() != reference.size() || meter.size() < 3) {
        throw Error(ErrorKind::shape, "PairColumns",
                    std::to_string(meter.size()) + " readings of the meter and " +
                        std::to_string(reference.size()) + " of the reference",
                    "equal counts, 3 or more");
    }
    values_.reserve(6 * stride());
    for (const auto& side : {meter, reference}) {
        for (std::size_t k = 0; k < 3; ++k) {
            for (const std::array<double, 3>& xyz : side) {
                values_.push_back(xyz[k]);
            }
            values_.resize(values_.size() + stride() - count_, 0.0);
        }
    }
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The sums over all pairs, one pass for the products of each side.
inline std::array<double, product_count> normal_sums(const PairColumns& pairs) {
    using LaneValues = Eigen::Array<double, static_cast<int>(PairColumns::lanes), 1>;
    std::array<double, product_count> sums{};
    const auto at = [&](std::size_t column, std::size_t i) {
        return Eigen::Map<const LaneValues>(pairs.column(column) + i);
    };
    // Six sums, then three for each row of the reference: as many as stay in registers.
    LaneValues xx = LaneValues::Zero();
    LaneValues xy = xx;
    LaneValues xz = xx;
    LaneValues yy = xx;
    LaneValues yz = xx;
    LaneValues zz = xx;
    for (std::size_t i = 0; i < pairs.stride(); i += PairColumns::lanes) {
        const LaneValues x = at(0, i);
        const LaneValues y = at(1, i);
        const LaneValues z = at(2, i);
        xx += x * x;
        xy += x * y;
        xz += x * z;
        yy += y * y;
        yz += y * z;
        zz += z * z;
    }
    sums = {xx.sum(), xy.sum(), xz.sum(), yy.sum(), yz.sum(), zz.sum()};
    for (std::size_t row = 0; row < 3; ++row) {
        LaneValues rx = LaneValues::Zero();
        LaneValues ry = rx;
        LaneValues rz = rx;
        for (std::size_t i = 0; i < pairs.stride(); i += PairColumns::lanes) {
            const LaneValues r = at(3 + row, i);
            rx += r * at(0, i);
            ry += r * at(1, i);
            rz += r * at(2, i);
        }
        sums[6 + 3 * row] = rx.sum();
        sums[7 + 3 * row] = ry.sum();
        sums[8 + 3 * row] = rz.sum();
    }
    return sums;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::array<double, 9> least_squares_matrix(const PairColumns& pairs) {
    const auto solution = detail::solve_normal(detail::normal_sums(pairs));
    if (!(solution.independence > detail::least_independence)) {
        throw Error(ErrorKind::singular, "least_squares_matrix",
                    "patches that depend on each other", "colours well apart");
    }
    return solution.matrix;
}

}  // namespace samelight
