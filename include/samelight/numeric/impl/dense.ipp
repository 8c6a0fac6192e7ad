#pragma once
// The bodies of numeric/dense.hpp.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numeric>
#include <utility>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/small_algebra.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

inline double dot_of(const double* a, const double* b, Eigen::Index n) {
    return Eigen::Map<const Eigen::VectorXd>(a, n).dot(Eigen::Map<const Eigen::VectorXd>(b, n));
}

/// y += factor x
inline void add_scaled(double factor, const double* x, double* y, Eigen::Index n) {
    Eigen::Map<Eigen::VectorXd>(y, n) += factor * Eigen::Map<const Eigen::VectorXd>(x, n);
}

inline const double* column_of(const dense::Read& a, Eigen::Index k) {
    return a.data() + k * a.outerStride();
}

inline double* column_of(Eigen::MatrixXd& a, Eigen::Index k) { return a.data() + k * a.rows(); }

/// sum = the columns of `a`, each times its number of `x`: four at a time, so that the sum is written a quarter as often.
inline void mix_columns(const dense::Read& a, const double* x, double* sum) {
    const Eigen::Index n = a.rows();
    Eigen::Map<Eigen::VectorXd> result(sum, n);
    const auto column = [&](Eigen::Index k) {
        return Eigen::Map<const Eigen::VectorXd>(column_of(a, k), n);
    };
    result.setZero();
    Eigen::Index k = 0;
    for (; k + 4 <= a.cols(); k += 4) {
        result = result + x[k] * column(k) + x[k + 1] * column(k + 1) + x[k + 2] * column(k + 2) +
                 x[k + 3] * column(k + 3);
    }
    for (; k < a.cols(); ++k) {
        add_scaled(x[k], column_of(a, k), sum, n);
    }
}

/// Takes the reflection that makes column k of `a` below row `top` one number, and gives it to the columns after k and to `right`.
inline void reflect(Eigen::MatrixXd& a, Eigen::Index k, double* right) {
    const Eigen::Index n = a.rows() - k;
    double* v = column_of(a, k) + k;
    const double length = std::sqrt(dot_of(v, v, n));
    if (!(length > 0.0)) {
        return;
    }
    const double top = v[0] > 0.0 ? -length : length;
    v[0] -= top;
    const double square = dot_of(v, v, n);
    for (Eigen::Index j = k + 1; j < a.cols(); ++j) {
        double* c = column_of(a, j) + k;
        add_scaled(-2.0 * dot_of(v, c, n) / square, v, c, n);
    }
    add_scaled(-2.0 * dot_of(v, right + k, n) / square, v, right + k, n);
    v[0] = top;
    std::fill(v + 1, v + n, 0.0);
}

/// The shortest x with R x = b, R the first `rank` rows of an upper triangle with more columns than rows: x = R^T y, R R^T y = b.
inline Eigen::VectorXd shortest_solution(const Eigen::MatrixXd& r, const Eigen::VectorXd& b,
                                         Eigen::Index rank) {
    Eigen::MatrixXd rows(r.cols(), rank);
    for (Eigen::Index i = 0; i < rank; ++i) {
        for (Eigen::Index j = 0; j < r.cols(); ++j) {
            rows(j, i) = j < i ? 0.0 : r(i, j);
        }
    }
    // R^T = Q S with Gram and Schmidt's steps taken twice, which is enough for columns this independent; then S^T (Q^T x) = b.
    Eigen::MatrixXd s = Eigen::MatrixXd::Zero(rank, rank);
    for (Eigen::Index k = 0; k < rank; ++k) {
        double* v = column_of(rows, k);
        for (int twice = 0; twice < 2; ++twice) {
            for (Eigen::Index i = 0; i < k; ++i) {
                const double part = dot_of(column_of(rows, i), v, rows.rows());
                s(i, k) += part;
                add_scaled(-part, column_of(rows, i), v, rows.rows());
            }
        }
        s(k, k) = std::sqrt(dot_of(v, v, rows.rows()));
        for (Eigen::Index i = 0; i < rows.rows(); ++i) {
            v[i] /= s(k, k);
        }
    }
    Eigen::VectorXd x = Eigen::VectorXd::Zero(r.cols());
    std::vector<double> y(static_cast<std::size_t>(rank));
    for (Eigen::Index k = 0; k < rank; ++k) {
        double left = b[k];
        for (Eigen::Index i = 0; i < k; ++i) {
            left -= s(i, k) * y[static_cast<std::size_t>(i)];
        }
        y[static_cast<std::size_t>(k)] = left / s(k, k);
        add_scaled(y[static_cast<std::size_t>(k)], column_of(rows, k), x.data(), x.size());
    }
    return x;
}

/// One rotation that takes entry p, q away.
inline void rotate_away(Eigen::MatrixXd& a, Eigen::MatrixXd& vectors, Eigen::Index p,
                        Eigen::Index q) {
    const double theta = (a(q, q) - a(p, p)) / (2.0 * a(p, q));
    const double t = std::copysign(1.0, theta) / (std::abs(theta) + std::hypot(theta, 1.0));
    const double c = 1.0 / std::hypot(t, 1.0);
    const double s = t * c;
    for (Eigen::Index k = 0; k < a.rows(); ++k) {
        const double kp = a(k, p);
        const double kq = a(k, q);
        a(k, p) = c * kp - s * kq;
        a(k, q) = s * kp + c * kq;
        const double vp = vectors(k, p);
        const double vq = vectors(k, q);
        vectors(k, p) = c * vp - s * vq;
        vectors(k, q) = s * vp + c * vq;
    }
    for (Eigen::Index k = 0; k < a.rows(); ++k) {
        const double pk = a(p, k);
        const double qk = a(q, k);
        a(p, k) = c * pk - s * qk;
        a(q, k) = s * pk + c * qk;
    }
    a(p, q) = 0.0;
    a(q, p) = 0.0;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM::dense {

SAMELIGHT_INLINE double sum(const ReadColumn& x) {
    // What has no address of its own is summed from its first number on.
    return (1.0 * x).sum();
}

SAMELIGHT_INLINE Eigen::Vector3d response(const ReadRows& rows, const ReadColumn& column) {
    Eigen::Vector3d result;
    for (Eigen::Index i = 0; i < 3; ++i) {
        result[i] =
            detail::dot_of(rows.data() + i * rows.outerStride(), column.data(), rows.cols());
    }
    return result;
}

SAMELIGHT_INLINE Eigen::Matrix<double, 3, Eigen::Dynamic> responses(const ReadRows& rows,
                                                                    const Read& columns) {
    Eigen::Matrix<double, 3, Eigen::Dynamic> result(3, columns.cols());
    for (Eigen::Index k = 0; k < columns.cols(); ++k) {
        for (Eigen::Index i = 0; i < 3; ++i) {
            result(i, k) = detail::dot_of(rows.data() + i * rows.outerStride(),
                                          detail::column_of(columns, k), rows.cols());
        }
    }
    return result;
}

SAMELIGHT_INLINE Eigen::Matrix3d responses_of_three(const ReadRows& rows, const Read& columns) {
    Eigen::Matrix3d result;
    for (Eigen::Index k = 0; k < 3; ++k) {
        for (Eigen::Index i = 0; i < 3; ++i) {
            result(i, k) = detail::dot_of(rows.data() + i * rows.outerStride(),
                                          detail::column_of(columns, k), rows.cols());
        }
    }
    return result;
}

SAMELIGHT_INLINE Eigen::MatrixXd product(const Read& a, const Read& b) {
    Eigen::MatrixXd result(a.rows(), b.cols());
    for (Eigen::Index j = 0; j < b.cols(); ++j) {
        detail::mix_columns(a, detail::column_of(b, j), detail::column_of(result, j));
    }
    return result;
}

SAMELIGHT_INLINE Eigen::MatrixXd transposed_product(const Read& a, const Read& b) {
    Eigen::MatrixXd result(a.cols(), b.cols());
    for (Eigen::Index j = 0; j < b.cols(); ++j) {
        for (Eigen::Index i = 0; i < a.cols(); ++i) {
            result(i, j) =
                detail::dot_of(detail::column_of(a, i), detail::column_of(b, j), a.rows());
        }
    }
    return result;
}

SAMELIGHT_INLINE Eigen::MatrixXd product_transposed(const Read& a, const Read& b) {
    Eigen::MatrixXd result = Eigen::MatrixXd::Zero(a.rows(), b.rows());
    for (Eigen::Index j = 0; j < b.rows(); ++j) {
        for (Eigen::Index k = 0; k < a.cols(); ++k) {
            detail::add_scaled(b(j, k), detail::column_of(a, k), detail::column_of(result, j),
                               a.rows());
        }
    }
    return result;
}

SAMELIGHT_INLINE Eigen::VectorXd times(const Read& a, const ReadColumn& x) {
    Eigen::VectorXd result(a.rows());
    detail::mix_columns(a, x.data(), result.data());
    return result;
}

SAMELIGHT_INLINE Eigen::MatrixXd carried(const Read& j, const Read& c) {
    Eigen::MatrixXd result = product_transposed(product(j, c), j);
    for (Eigen::Index i = 0; i < result.rows(); ++i) {
        for (Eigen::Index k = 0; k < i; ++k) {
            result(i, k) = result(k, i) = 0.5 * (result(i, k) + result(k, i));
        }
    }
    return result;
}

SAMELIGHT_INLINE Eigen::MatrixXd solve_positive(const Read& a, const Read& b) {
    const Eigen::Index n = a.rows();
    Eigen::MatrixXd root = a;  // its lower triangle becomes L with L L^T = a
    constexpr double infinity = std::numeric_limits<double>::infinity();
    for (Eigen::Index k = 0; k < n; ++k) {
        // Infinite where a column is made of those before it: dividing by it leaves it out.
        const bool independent = root(k, k) > 1e-14 * a(k, k) || !(a(k, k) >= 0.0);
        root(k, k) = independent ? std::sqrt(root(k, k)) : infinity;
        for (Eigen::Index i = k + 1; i < n; ++i) {
            root(i, k) /= root(k, k);
        }
        for (Eigen::Index j = k + 1; j < n; ++j) {
            detail::add_scaled(-root(j, k), detail::column_of(root, k) + j,
                               detail::column_of(root, j) + j, n - j);
        }
    }
    Eigen::MatrixXd x = b;
    for (Eigen::Index c = 0; c < x.cols(); ++c) {
        double* v = detail::column_of(x, c);
        for (Eigen::Index k = 0; k < n; ++k) {
            v[k] /= root(k, k);
            detail::add_scaled(-v[k], detail::column_of(root, k) + k + 1, v + k + 1, n - k - 1);
        }
        for (Eigen::Index k = n; k-- > 0;) {
            v[k] -= detail::dot_of(detail::column_of(root, k) + k + 1, v + k + 1, n - k - 1);
            v[k] /= root(k, k);
        }
    }
    return x;
}

SAMELIGHT_INLINE Eigen::MatrixXd inverse(const Read& a) {
    const Eigen::Index n = a.rows();
    const Eigen::MatrixXd rows =
        a.transpose();  // in memory row after row, as the solver reads them
    const detail::SmallSolver solver({rows.data(), static_cast<std::size_t>(rows.size())},
                                     static_cast<std::size_t>(n));
    Eigen::MatrixXd result = Eigen::MatrixXd::Identity(n, n);
    for (Eigen::Index k = 0; k < n; ++k) {
        solver.solve({detail::column_of(result, k), static_cast<std::size_t>(n)});
    }
    return result;
}

SAMELIGHT_INLINE Eigen::Matrix3d inverse_3x3(const Eigen::Matrix3d& a) {
    const auto cofactor = [&](Eigen::Index i, Eigen::Index j) {
        const Eigen::Index i1 = (i + 1) % 3;
        const Eigen::Index i2 = (i + 2) % 3;
        const Eigen::Index j1 = (j + 1) % 3;
        const Eigen::Index j2 = (j + 2) % 3;
        return a(i1, j1) * a(i2, j2) - a(i1, j2) * a(i2, j1);
    };
    const double determinant =
        cofactor(0, 0) * a(0, 0) + cofactor(1, 0) * a(1, 0) + cofactor(2, 0) * a(2, 0);
    const double scale = 1.0 / determinant;
    Eigen::Matrix3d result;
    for (Eigen::Index i = 0; i < 3; ++i) {
        for (Eigen::Index j = 0; j < 3; ++j) {
            result(i, j) = cofactor(j, i) * scale;
        }
    }
    return result;
}

SAMELIGHT_INLINE Eigen::Matrix2d inverse_2x2(const Eigen::Matrix2d& a) {
    const double scale = 1.0 / (a(0, 0) * a(1, 1) - a(1, 0) * a(0, 1));
    Eigen::Matrix2d result;
    result << a(1, 1) * scale, -a(0, 1) * scale, -a(1, 0) * scale, a(0, 0) * scale;
    return result;
}

SAMELIGHT_INLINE Eigen::Vector3d times_3x3(const Eigen::Matrix3d& a, const Eigen::Vector3d& x) {
    return {a(0, 0) * x[0] + a(0, 1) * x[1] + a(0, 2) * x[2],
            a(1, 0) * x[0] + a(1, 1) * x[1] + a(1, 2) * x[2],
            a(2, 0) * x[0] + a(2, 1) * x[1] + a(2, 2) * x[2]};
}

SAMELIGHT_INLINE SymmetricEigen symmetric_eigen(const Read& symmetric) {
    const Eigen::Index n = symmetric.rows();
    Eigen::MatrixXd a = symmetric;
    Eigen::MatrixXd vectors = Eigen::MatrixXd::Identity(n, n);
    constexpr int enough = 60;  // convergence is quadratic: ten rounds do for any size met here
    for (int round = 0; round < enough; ++round) {
        bool done = true;
        for (Eigen::Index p = 0; p < n; ++p) {
            for (Eigen::Index q = p + 1; q < n; ++q) {
                // Left alone where it changes neither diagonal entry.
                const double least = 1e-17 * std::sqrt(std::abs(a(p, p) * a(q, q)));
                if (std::abs(a(p, q)) > least && a(p, q) != 0.0) {
                    detail::rotate_away(a, vectors, p, q);
                    done = false;
                }
            }
        }
        if (done) {
            break;
        }
    }
    std::vector<Eigen::Index> order(static_cast<std::size_t>(n));
    std::iota(order.begin(), order.end(), Eigen::Index{0});
    std::sort(order.begin(), order.end(),
              [&](Eigen::Index i, Eigen::Index j) { return a(i, i) < a(j, j); });
    SymmetricEigen result{Eigen::VectorXd(n), Eigen::MatrixXd(n, n)};
    for (Eigen::Index k = 0; k < n; ++k) {
        const Eigen::Index from = order[static_cast<std::size_t>(k)];
        result.values[k] = a(from, from);
        for (Eigen::Index i = 0; i < n; ++i) {
            result.vectors(i, k) = vectors(i, from);
        }
    }
    return result;
}

SAMELIGHT_INLINE LeastSquares least_squares(const Read& columns, const ReadColumn& values) {
    Eigen::MatrixXd r = columns;
    Eigen::VectorXd right = values;
    std::vector<Eigen::Index> order(static_cast<std::size_t>(r.cols()));
    std::iota(order.begin(), order.end(), Eigen::Index{0});
    double longest = 0.0;
    Eigen::Index rank = 0;
    for (; rank < std::min(r.rows(), r.cols()); ++rank) {
        Eigen::Index best = rank;
        double most = -1.0;
        for (Eigen::Index j = rank; j < r.cols(); ++j) {
            const double* c = detail::column_of(r, j) + rank;
            const double square = detail::dot_of(c, c, r.rows() - rank);
            if (square > most) {
                most = square;
                best = j;
            }
        }
        longest = std::max(longest, most);
        const double least = 1e-14 * static_cast<double>(r.rows());
        if (!(most > least * least * longest)) {
            break;
        }
        for (Eigen::Index i = 0; i < r.rows() && best != rank; ++i) {
            std::swap(r(i, rank), r(i, best));
        }
        std::swap(order[static_cast<std::size_t>(rank)], order[static_cast<std::size_t>(best)]);
        detail::reflect(r, rank, right.data());
    }
    const Eigen::VectorXd x = detail::shortest_solution(r, right, rank);
    LeastSquares result{Eigen::VectorXd(r.cols()), rank};
    for (Eigen::Index k = 0; k < r.cols(); ++k) {
        result.weights[order[static_cast<std::size_t>(k)]] = x[k];
    }
    return result;
}

}  // namespace samelight::dense
