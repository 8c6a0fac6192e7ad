#pragma once
// How far three or more directions in space depend on each other.
#include <Eigen/Core>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Largest over smallest singular value of the columns' directions, each made length 1; infinite where they lie in a plane.
/// columns: 3 x k, k >= 1. 1 is best; over a hundred says that one is nearly made of the others. Error: below 1e-10 relative up to a
/// hundred, by the roots of the eigenvalues of the 3 x 3 products; beyond 1e7 it is noise. NaN in, NaN out. Source: the condition number of
/// linear algebra (Golub & Van Loan, Matrix Computations, from memory), of directions in place of the columns themselves: own.
SAMELIGHT_API double direction_condition(
    const Eigen::Ref<const Eigen::Matrix<double, 3, Eigen::Dynamic>>& columns);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/numeric/impl/condition.ipp"
#endif
