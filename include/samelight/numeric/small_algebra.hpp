#pragma once
// Products and solutions of small matrices in plain loops. Each odd fixed size that Eigen multiplies brings a whole kernel into every file that
// includes it; these cost nothing to compile and, at these sizes, nothing to run.
#include <cstddef>
#include <span>
#include <vector>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// result (rows x columns) = a (rows x inner) times b (inner x columns); all row after row.
void multiply(std::span<const double> a, std::span<const double> b, std::size_t inner,
              std::size_t columns, std::span<double> result);

/// result (p x p) += factor * j C k^T, with j and k p x n and C n x n, all row after row, n up to 10: how a covariance C moves through derivatives
/// (JCGM 100:2008, eq. 13 and F.3, H.9).
void add_carried(std::span<const double> j, std::span<const double> c, std::span<const double> k,
                 double factor, std::span<double> result);

/// Linear equations with one matrix and many right-hand sides: elimination with the largest pivot of each column. A matrix that has no
/// inverse gives values that aren't finite.
class SAMELIGHT_API SmallSolver {
  public:
    /// @param matrix  n x n, row after row
    SmallSolver(std::span<const double> matrix, std::size_t n);

    /// Turns the right-hand side, n values, into the solution.
    void solve(std::span<double> x) const;

  private:
    double& at(std::size_t i, std::size_t j) { return lu_[i * n_ + j]; }
    [[nodiscard]] double at(std::size_t i, std::size_t j) const { return lu_[i * n_ + j]; }

    std::size_t n_;
    std::vector<double> lu_;
    std::vector<std::size_t> order_;
};

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/numeric/impl/small_algebra.ipp"
#endif
