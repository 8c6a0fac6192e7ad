#pragma once
// The few operations on matrices of any size that all rooms share, each compiled once. Every shape that an expression of Eigen's multiplies or
// factors brings a whole kernel into the file that names it, a second or more of compiling; these bring none. Source: definitions of linear
// algebra; where a method is chosen it stands beside the function. Units are those of what is multiplied; none of these throws but
// std::bad_alloc.
#include <array>

#include <Eigen/Core>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::dense {

/// Numbers in columns, of any size; a map, a block or a matrix is read in place.
using Read = Eigen::Ref<const Eigen::MatrixXd>;
/// A column, likewise.
using ReadColumn = Eigen::Ref<const Eigen::VectorXd>;
/// Three rows of sensitivities, each in one piece.
using ReadRows = Eigen::Ref<const Eigen::Matrix<double, 3, Eigen::Dynamic, Eigen::RowMajor>>;

/// The sum of a column, in one order wherever it stands in memory. Eigen's own begins with what lies before the next address that suits the
/// processor, so that its last digits are those of an address. Error: rounding.
SAMELIGHT_API double sum(const ReadColumn& x);

/// A = T P: rows (3 x n) times columns (n x k), 3 x k. Error: rounding. The sizes are not checked.
SAMELIGHT_API Eigen::Matrix<double, 3, Eigen::Dynamic> responses(const ReadRows& rows,
                                                                 const Read& columns);
/// The same for three columns and for one, without an allocation.
SAMELIGHT_API Eigen::Matrix3d responses_of_three(const ReadRows& rows, const Read& columns);
SAMELIGHT_API Eigen::Vector3d response(const ReadRows& rows, const ReadColumn& column);

/// a b, a^T b and a b^T. Error: rounding. The sizes are not checked. Shapes as the product wants them: a m x n, b n x k; for a^T b a n x m;
/// for a b^T b k x n.
SAMELIGHT_API Eigen::MatrixXd product(const Read& a, const Read& b);
SAMELIGHT_API Eigen::MatrixXd transposed_product(const Read& a, const Read& b);
SAMELIGHT_API Eigen::MatrixXd product_transposed(const Read& a, const Read& b);
/// a x, a column.
SAMELIGHT_API Eigen::VectorXd times(const Read& a, const ReadColumn& x);
/// j c j^T: how a covariance moves through derivatives (JCGM 100:2008, eq. 13), made symmetric. j: m x k, c: k x k; m x m.
SAMELIGHT_API Eigen::MatrixXd carried(const Read& j, const Read& c);

/// x with a x = b for a symmetric a that isn't negative, such as sums of squares and products: by its square root (Cholesky). An unknown that
/// depends on those before it (less than 1e-14 of its diagonal entry is left) is 0. Not finite where a is negative. a: n x n, b: n x k; n x
/// k.
SAMELIGHT_API Eigen::MatrixXd solve_positive(const Read& a, const Read& b);
/// The inverse of a square matrix, by elimination with the largest pivot of each column; not finite where there is none.
SAMELIGHT_API Eigen::MatrixXd inverse(const Read& a);
/// The same of 3 x 3, by cofactors, and of 2 x 2.
SAMELIGHT_API Eigen::Matrix3d inverse_3x3(const Eigen::Matrix3d& a);
SAMELIGHT_API Eigen::Matrix2d inverse_2x2(const Eigen::Matrix2d& a);
/// a x, of three. a: 3 x 3; no unit of its own.
SAMELIGHT_API Eigen::Vector3d times_3x3(const Eigen::Matrix3d& a, const Eigen::Vector3d& x);

/// A symmetric matrix's eigenvalues, ascending, and its eigenvectors, a column each, of length 1.
struct SymmetricEigen {
    Eigen::VectorXd values;
    Eigen::MatrixXd vectors;
};

/// By rotations (Jacobi's method) until no entry beside the diagonal is left: error below 1e-15 n of the largest eigenvalue.
/// symmetric: n x n, any unit; the values have it, the vectors none. Source: Golub & Van Loan, Matrix Computations, 8.5 (from memory).
SAMELIGHT_API SymmetricEigen symmetric_eigen(const Read& symmetric);

/// Least squares: the weights of least length that make `columns` times them nearest to `values`, and how many columns are independent
/// (a remaining length above 1e-14 n of the longest). By Householder's reflections with the longest column first, then once more from the
/// other side where columns depend on each other. Source: Golub & Van Loan, Matrix Computations, 5.4 and 5.5 (from memory).
struct LeastSquares {
    Eigen::VectorXd weights;
    Eigen::Index rank;
};
/// The weights of `columns` that come nearest to `values`. columns: m x n, values: m; weights: n. Source: as LeastSquares.
SAMELIGHT_API LeastSquares least_squares(const Read& columns, const ReadColumn& values);

}  // namespace samelight::dense

#if !SAMELIGHT_COMPILED
#include "samelight/numeric/impl/dense.ipp"
#endif
