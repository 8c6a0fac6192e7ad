#pragma once
// A triangular passband as a matrix: what an instrument makes of a spectrum that is given by its samples.
#include <span>

#include <Eigen/SparseCore>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

using SparseMatrix = Eigen::SparseMatrix<double>;

/// measured_from_true, n x n: what a triangular passband makes of a spectrum given by its samples. Cubic between samples, so exact for
/// cubics away from the ends; past the ends the light goes on as it ends, as in read_by(). Each row sums to 1.
SparseMatrix passband_matrix(std::span<const double> nm, double bandwidth_nm);

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/passband.ipp"
#endif
