#pragma once
// The covariance of a few quantities as plain values, for structs that hold one.
#include <array>
#include <cmath>
#include <cstddef>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Variances and covariances of N quantities, N x N, row after row, in the products of their units; of a plane xx, xy, yx, yy. Symmetric by
/// whoever makes it: unlike Covariance, which checks what it is given and has its size at run time, this is an array and nothing more.
template <std::size_t N>
struct CovarianceMatrix : std::array<double, N * N> {
    /// One entry; i, j < N, unchecked.
    [[nodiscard]] constexpr double operator()(std::size_t i, std::size_t j) const {
        return (*this)[N * i + j];
    }
    /// The root of a variance: a standard uncertainty, in the unit of the quantity; i < N. NaN for a variance below 0.
    [[nodiscard]] double standard(std::size_t i) const { return std::sqrt((*this)(i, i)); }

    /// The covariance of a sum of independent quantities.
    constexpr CovarianceMatrix& operator+=(const CovarianceMatrix& other) {
        for (std::size_t i = 0; i < N * N; ++i) {
            (*this)[i] += other[i];
        }
        return *this;
    }

    friend bool operator==(const CovarianceMatrix&, const CovarianceMatrix&) = default;
};

}  // namespace samelight
