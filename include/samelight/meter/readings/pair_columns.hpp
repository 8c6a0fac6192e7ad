#pragma once
// Least squares for many pairs at once: sums of products, then a 3 x 3 system solved in closed form.
#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Paired tristimulus values column by column, as sums over all pairs want them: X, Y, Z of the meter, then of the reference.
class SAMELIGHT_API PairColumns {
  public:
    /// @param meter, reference  X, Y, Z, one entry a pair, in one unit
    /// Throws Error (shape) for unequal counts or fewer than 3 pairs.
    PairColumns(std::span<const std::array<double, 3>> meter,
                std::span<const std::array<double, 3>> reference);

    /// Columns are filled up with zeros to a multiple of this, which no sum of products feels.
    static constexpr std::size_t lanes = 8;

    /// How many pairs there are.
    [[nodiscard]] std::size_t count() const noexcept { return count_; }
    /// Pairs and zeros.
    [[nodiscard]] std::size_t stride() const noexcept {
        return (count_ + lanes - 1) / lanes * lanes;
    }
    /// stride() numbers; 0 to 2: X, Y, Z of the meter, 3 to 5: of the reference. Valid as long as this object is.
    [[nodiscard]] const double* column(std::size_t k) const {
        return values_.data() + k * stride();
    }

  private:
    std::size_t count_;
    std::vector<double> values_;
};

namespace detail {

/// The sums that least squares needs: of m m^T (xx, xy, xz, yy, yz, zz), then of r m^T row after row.
inline constexpr std::size_t product_count = 15;
struct ColumnPair {
    std::size_t first, second;
};
inline constexpr std::array<ColumnPair, product_count> product_columns{{{0, 0},
                                                                        {0, 1},
                                                                        {0, 2},
                                                                        {1, 1},
                                                                        {1, 2},
                                                                        {2, 2},
                                                                        {3, 0},
                                                                        {3, 1},
                                                                        {3, 2},
                                                                        {4, 0},
                                                                        {4, 1},
                                                                        {4, 2},
                                                                        {5, 0},
                                                                        {5, 1},
                                                                        {5, 2}}};

/// Solution of the normal equations, B A^-1 by cofactors; V is a number or an array of numbers side by side.
template <class V>
struct NormalSolution {
    /// Row after row.
    std::array<V, 9> matrix;
    /// Determinant of A over the product of its diagonal: 1 for patches at right angles, 0 for dependent ones.
    V independence;
};

template <class V>
NormalSolution<V> solve_normal(const std::array<V, product_count>& s) {
    const V c00 = s[3] * s[5] - s[4] * s[4];
    const V c01 = s[2] * s[4] - s[1] * s[5];
    const V c02 = s[1] * s[4] - s[2] * s[3];
    const V c11 = s[0] * s[5] - s[2] * s[2];
    const V c12 = s[1] * s[2] - s[0] * s[4];
    const V c22 = s[0] * s[3] - s[1] * s[1];
    const V determinant = s[0] * c00 + s[1] * c01 + s[2] * c02;
    const V inverse = 1.0 / determinant;
    NormalSolution<V> result;
    for (std::size_t i = 0; i < 3; ++i) {
        const V& a = s[6 + 3 * i];
        const V& b = s[7 + 3 * i];
        const V& c = s[8 + 3 * i];
        result.matrix[3 * i] = (a * c00 + b * c01 + c * c02) * inverse;
        result.matrix[3 * i + 1] = (a * c01 + b * c11 + c * c12) * inverse;
        result.matrix[3 * i + 2] = (a * c02 + b * c12 + c * c22) * inverse;
    }
    result.independence = determinant / (s[0] * s[3] * s[5]);
    return result;
}

/// Below this independence, patches count as dependent: the square of about 1e-4 in the patches themselves.
inline constexpr double least_independence = 1e-8;

}  // namespace detail

/// The matrix M, row after row, that makes the sum of |r - M m|^2 over the pairs least.
/// Error: about 1e-16 times the square of the condition number of the patches, below 1e-11 for a display's colours (condition number below 100).
/// Throws Error (singular) for patches that depend on each other. Source: least squares by normal equations, own arithmetic.
SAMELIGHT_API std::array<double, 9> least_squares_matrix(const PairColumns& pairs);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/pair_columns.ipp"
#endif
