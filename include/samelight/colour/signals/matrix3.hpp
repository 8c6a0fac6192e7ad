#pragma once
// 3 x 3 matrices of the colour formulas: plain arrays, so that constants are constexpr and batches can pass through them.
#include <array>
#include <cstddef>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A 3 x 3 matrix, row after row, named destination_from_source where it is one. No unit of its own.
using Matrix3 = std::array<std::array<double, 3>, 3>;

namespace detail {

/// `m` times the column (a, b, c); V is a number or a batch of numbers.
template <class V>
std::array<V, 3> times(const Matrix3& m, const V& a, const V& b, const V& c) {
    const auto row = [&](std::size_t i) -> V {
        return math::constant<V>(m[i][0]) * a + math::constant<V>(m[i][1]) * b +
               math::constant<V>(m[i][2]) * c;
    };
    return {row(0), row(1), row(2)};
}

inline std::array<double, 3> times(const Matrix3& m, const std::array<double, 3>& v) {
    return times(m, v[0], v[1], v[2]);
}

constexpr Matrix3 product(const Matrix3& a, const Matrix3& b) {
    Matrix3 result{};
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            result[i][k] = a[i][0] * b[0][k] + a[i][1] * b[1][k] + a[i][2] * b[2][k];
        }
    }
    return result;
}

constexpr Matrix3 diagonal(const std::array<double, 3>& d) {
    return {{{d[0], 0.0, 0.0}, {0.0, d[1], 0.0}, {0.0, 0.0, d[2]}}};
}

/// The minor that belongs to row i, column k, with its sign.
constexpr double cofactor(const Matrix3& m, std::size_t i, std::size_t k) {
    const std::size_t i1 = (i + 1) % 3;
    const std::size_t i2 = (i + 2) % 3;
    const std::size_t k1 = (k + 1) % 3;
    const std::size_t k2 = (k + 2) % 3;
    return m[i1][k1] * m[i2][k2] - m[i1][k2] * m[i2][k1];
}

constexpr double determinant(const Matrix3& m) {
    return m[0][0] * cofactor(m, 0, 0) + m[0][1] * cofactor(m, 0, 1) + m[0][2] * cofactor(m, 0, 2);
}

/// By cofactors: to about 1e-16 times the condition number, which is below 100 for every matrix of this folder.
/// The determinant must not be 0; callers say so in their own words.
constexpr Matrix3 inverse(const Matrix3& m) {
    const double d = determinant(m);
    Matrix3 result{};
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            result[i][k] = cofactor(m, k, i) / d;
        }
    }
    return result;
}

}  // namespace detail

}  // namespace samelight
