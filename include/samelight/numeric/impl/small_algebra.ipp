#pragma once
// The bodies of numeric/small_algebra.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "samelight/numeric/small_algebra.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE void multiply(std::span<const double> a, std::span<const double> b,
                               std::size_t inner, std::size_t columns, std::span<double> result) {
    for (std::size_t at = 0; at < result.size(); ++at) {
        double sum = 0.0;
        for (std::size_t k = 0; k < inner; ++k) {
            sum += a[at / columns * inner + k] * b[k * columns + at % columns];
        }
        result[at] = sum;
    }
}

SAMELIGHT_INLINE void add_carried(std::span<const double> j, std::span<const double> c,
                                  std::span<const double> k, double factor,
                                  std::span<double> result) {
    std::size_t n = 0;
    while (n * n < c.size()) {
        ++n;
    }
    const std::size_t p = j.size() / n;
    std::array<double, 10> row{};
    for (std::size_t i = 0; i < p; ++i) {
        multiply(j.subspan(i * n, n), c, n, n, std::span(row).first(n));
        for (std::size_t l = 0; l < p; ++l) {
            double sum = 0.0;
            for (std::size_t m = 0; m < n; ++m) {
                sum += row[m] * k[l * n + m];
            }
            result[i * p + l] += factor * sum;
        }
    }
}

SAMELIGHT_INLINE SmallSolver::SmallSolver(std::span<const double> matrix, std::size_t n)
    : n_(n), lu_(matrix.begin(), matrix.end()), order_(n) {
    for (std::size_t k = 0; k < n; ++k) {
        std::size_t pivot = k;
        for (std::size_t i = k + 1; i < n; ++i) {
            pivot = std::abs(at(i, k)) > std::abs(at(pivot, k)) ? i : pivot;
        }
        order_[k] = pivot;
        for (std::size_t j = 0; j < n && pivot != k; ++j) {
            std::swap(at(k, j), at(pivot, j));
        }
        for (std::size_t i = k + 1; i < n; ++i) {
            const double factor = at(i, k) / at(k, k);
            at(i, k) = factor;
            for (std::size_t j = k + 1; j < n; ++j) {
                at(i, j) -= factor * at(k, j);
            }
        }
    }
}

SAMELIGHT_INLINE void SmallSolver::solve(std::span<double> x) const {
    for (std::size_t k = 0; k < n_; ++k) {
        std::swap(x[k], x[order_[k]]);
    }
    for (std::size_t i = 0; i < n_; ++i) {
        for (std::size_t j = 0; j < i; ++j) {
            x[i] -= at(i, j) * x[j];
        }
    }
    for (std::size_t i = n_; i-- > 0;) {
        for (std::size_t j = i + 1; j < n_; ++j) {
            x[i] -= at(i, j) * x[j];
        }
        x[i] /= at(i, i);
    }
}

}  // namespace samelight::detail
