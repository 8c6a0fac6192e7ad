#pragma once
// The bodies of meter/correction/certainty.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numeric>
#include <span>
#include <vector>

#include <Eigen/Core>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/dense.hpp"
#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/small_algebra.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double student_factor(double coverage, double degrees_of_freedom) {
    const double probability = 0.5 * (1.0 + coverage);
    return std::isinf(degrees_of_freedom) ? normal_quantile(probability)
                                          : student_quantile(probability, degrees_of_freedom);
}

SAMELIGHT_INLINE double hotelling_factor(double coverage, double degrees_of_freedom) {
    if (std::isinf(degrees_of_freedom)) {
        return plane_radius(coverage);
    }
    detail::require_probability("hotelling_factor", coverage);
    detail::require_freedom("hotelling_factor", degrees_of_freedom);
    if (degrees_of_freedom <= 1.0) {
        return std::numeric_limits<double>::infinity();
    }
    const double n = degrees_of_freedom;
    return std::sqrt(2.0 * n / (n - 1.0) * fisher_quantile(coverage, 2.0, n - 1.0));
}

SAMELIGHT_INLINE Ellipse Certainty::region(double coverage) const {
    Ellipse ellipse = coverage_ellipse(xy, Covariance(xy_covariance()), coverage);
    const double factor =
        hotelling_factor(coverage, xy_degrees_of_freedom) / plane_radius(coverage);
    ellipse.semi_major *= factor;
    ellipse.semi_minor *= factor;
    return ellipse;
}

SAMELIGHT_INLINE bool Certainty::region_contains(double x, double y, double coverage) const {
    const Eigen::Matrix2d c = xy_covariance();
    const Eigen::Vector2d d(x - xy[0], y - xy[1]);
    const double factor = hotelling_factor(coverage, xy_degrees_of_freedom);
    return std::isinf(factor) ||
           d.dot(Eigen::Vector2d(dense::times(dense::inverse_2x2(c), d))) <= factor * factor;
}

SAMELIGHT_INLINE std::array<double, 3> Certainty::half_widths(double coverage) const {
    return {student_factor(coverage, x_degrees_of_freedom) * std::sqrt(covariance[0]),
            student_factor(coverage, y_degrees_of_freedom) * std::sqrt(covariance[4]),
            student_factor(coverage, luminance_degrees_of_freedom) * std::sqrt(covariance[8])};
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The numbers of a matrix that stores its rows one after the other.
template <class Matrix>
std::span<const double> numbers_of(const Matrix& m) {
    static_assert(Matrix::IsRowMajor || Matrix::IsVectorAtCompileTime);
    return {m.data(), static_cast<std::size_t>(m.size())};
}

SAMELIGHT_INLINE CorrectedPoint corrected_point(const Correction& correction,
                                                const std::array<double, 3>& meter) {
    const auto m = xyY_from_xyz(meter);
    const Eigen::Vector3d c(m[0], m[1], 1.0 - m[0] - m[1]);
    const Eigen::Vector3d image = dense::times_3x3(correction.matrix(), c);
    const double sum = image.sum();
    if (!(m[1] > 0.0) || !(m[2] > 0.0) || !(sum > 0.0) || !(image[1] > 0.0)) {
        throw Error(
            ErrorKind::domain, "certainty",
            "a reading of x, y, Y = " + to_text(m[0]) + ", " + to_text(m[1]) + ", " + to_text(m[2]),
            "a light with a luminance above 0 before and after correction");
    }
    const Eigen::Vector2d xy(image[0] / sum, image[1] / sum);
    CorrectedPoint point;
    point.xy_ln_luminance << xy[0], xy[1],
        std::log(correction.luminance_factor * m[2] / m[1] * image[1]);
    // Derivatives by the image R c, then by R and by c.
    Eigen::Matrix3d by_image;
    by_image.row(0) << 1.0 - xy[0], -xy[0], -xy[0];
    by_image.row(1) << -xy[1], 1.0 - xy[1], -xy[1];
    by_image.topRows<2>() /= sum;
    by_image.row(2) << 0.0, 1.0 / image[1], 0.0;
    for (Eigen::Index i = 0; i < 3; ++i) {
        for (Eigen::Index j = 0; j < 3; ++j) {
            point.by_parameters.col(3 * i + j) = by_image.col(i) * c[j];
        }
    }
    point.by_parameters.col(9) << 0.0, 0.0, 1.0;
    const Eigen::Matrix3d by_c = dense::product(by_image, Eigen::Matrix3d(correction.matrix()));
    point.by_reading.setZero();
    point.by_reading.col(0) = by_c.col(0) - by_c.col(2);
    point.by_reading.col(1) = by_c.col(1) - by_c.col(2);
    point.by_reading(2, 1) -= 1.0 / m[1];
    point.by_reading(2, 2) = 1.0;
    return point;
}

/// Sums over all terms a of one group of (row i of a, 6 x 1) times (row k of a, 1 x 6), for i, k of the two rows first and last.
using RowProducts = std::array<std::array<std::array<double, 36>, 2>, 2>;

inline RowProducts row_products(const std::vector<CarriedTerm>& terms, std::size_t group,
                                const std::array<Eigen::Index, 2>& rows) {
    RowProducts sums{};
    for (const CarriedTerm& term : terms) {
        if (term.group != group) {
            continue;
        }
        for (std::size_t i = 0; i < 2; ++i) {
            for (std::size_t k = 0; k < 2; ++k) {
                for (Eigen::Index p = 0; p < 6; ++p) {
                    for (Eigen::Index r = 0; r < 6; ++r) {
                        sums[i][k][static_cast<std::size_t>(6 * p + r)] +=
                            term.by_reading(rows[i], p) * term.by_reading(rows[k], r);
                    }
                }
            }
        }
    }
    return sums;
}

/// What two terms a and b of one group share is c = a S b', S the group's covariance. Every product of two elements of c, summed over all pairs
/// of terms, without going through the pairs: sum of c_ij c_kl = sum over p, r of (row products i, k) and (S (row products j, l) S).
class SharedProducts {
  public:
    SharedProducts(const RowProducts& rows, const std::array<double, 36>& covariance)
        : rows_(rows) {
        for (std::size_t j = 0; j < 2; ++j) {
            for (std::size_t l = 0; l < 2; ++l) {
                std::array<double, 36> half{};
                multiply(covariance, rows[j][l], 6, 6, half);
                multiply(half, covariance, 6, 6, carried_[j][l]);
            }
        }
    }
    [[nodiscard]] double sum(std::array<std::size_t, 2> ij, std::array<std::size_t, 2> kl) const {
        const std::array<double, 36>& a = rows_[ij[0]][kl[0]];
        const std::array<double, 36>& b = carried_[ij[1]][kl[1]];
        return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
    }

  private:
    RowProducts rows_;
    RowProducts carried_{};
};

/// Sum over all pairs of terms of (trace g)^2 + trace g^2, g = m c with m 2 x 2, row after row.
inline double traces_of_pairs(const SharedProducts& shared, const std::array<double, 4>& m) {
    double sum = 0.0;
    // g_ab = sum over i of m_ai c_ib.
    for (std::size_t a = 0; a < 2; ++a) {
        for (std::size_t b = 0; b < 2; ++b) {
            for (std::size_t i = 0; i < 2; ++i) {
                for (std::size_t k = 0; k < 2; ++k) {
                    const double weight = m[2 * a + i] * m[2 * b + k];
                    sum += weight * (shared.sum({i, a}, {k, b}) + shared.sum({i, b}, {k, a}));
                }
            }
        }
    }
    return sum;
}

SAMELIGHT_INLINE double effective_degrees_of_freedom(const std::vector<CarriedTerm>& terms,
                                                     const std::vector<ReadingNoise>& noise,
                                                     const Eigen::Matrix3d& total,
                                                     Eigen::Index first, Eigen::Index size) {
    const Eigen::Index last = first + size - 1;
    const double determinant = size == 1 ? total(first, first)
                                         : total(first, first) * total(last, last) -
                                               total(first, last) * total(last, first);
    const double trace = total(first, first) + (size == 1 ? 0.0 : total(last, last));
    if (!(determinant > 1e-12 * (size == 1 ? trace : trace * trace))) {
        return 1.0;  // one deviation alone spans a line, not a plane
    }
    // The inverse of the total, but for the determinant.
    const std::array<double, 4> inverse = {total(last, last), -total(first, last),
                                           -total(last, first), total(first, first)};
    double variance = 0.0;
    for (std::size_t group = 0; group < noise.size(); ++group) {
        const double freedom = noise[group].degrees_of_freedom;
        if (std::isinf(freedom)) {
            continue;
        }
        const SharedProducts shared(row_products(terms, group, {first, last}),
                                    noise[group].covariance);
        const double traces =
            size == 1 ? 2.0 * shared.sum({0, 0}, {0, 0}) : traces_of_pairs(shared, inverse);
        variance += traces / (determinant * determinant * freedom);
    }
    const double p = static_cast<double>(size);
    return variance > 0.0 ? p * (p + 1.0) / variance : std::numeric_limits<double>::infinity();
}

SAMELIGHT_INLINE std::vector<CarriedTerm> carried_terms(const Correction& correction,
                                                        const CorrectedPoint& point,
                                                        double readings_averaged) {
    std::vector<CarriedTerm> terms;
    terms.reserve(correction.noise_terms.size() + 1);
    for (const NoiseTerm& term : correction.noise_terms) {
        CarriedTerm& carried = terms.emplace_back();
        multiply(numbers_of(point.by_parameters), term.parameters_from_reading, 10, 6,
                 {carried.by_reading.data(), 18});
        carried.by_reading /= std::sqrt(term.count);
        carried.group = term.group;
    }
    if (readings_averaged > 0.0) {
        if (!correction.reading_noise) {
            throw Error(ErrorKind::domain, "certainty",
                        "a correction that does not say how one reading of the meter scatters",
                        "one made from repeats with pooled noise, or with stated noise");
        }
        terms.push_back(
            {point.by_reading / std::sqrt(readings_averaged), *correction.reading_noise});
    }
    return terms;
}

SAMELIGHT_INLINE Eigen::Matrix3d total_covariance(const std::vector<CarriedTerm>& terms,
                                                  const std::vector<ReadingNoise>& noise) {
    Eigen::Matrix<double, 3, 3, Eigen::RowMajor> total;
    total.setZero();
    for (const CarriedTerm& term : terms) {
        add_carried(numbers_of(term.by_reading), noise[term.group].covariance,
                    numbers_of(term.by_reading), 1.0, {total.data(), 9});
    }
    return 0.5 * (total + total.transpose());
}

/// 10 x 10, row after row, of the nine elements and the relative luminance factor.
inline std::array<double, 100> parameter_matrix(const ParameterCovariance& covariance) {
    std::array<double, 100> result{};
    for (std::size_t i = 0; i < 9; ++i) {
        for (std::size_t j = 0; j < 9; ++j) {
            result[10 * i + j] = covariance.elements[9 * i + j];
        }
        result[10 * i + 9] = result[90 + i] = covariance.with_luminance[i];
    }
    result[99] = covariance.luminance;
    return result;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Certainty certainty(const Correction& correction,
                                     const std::array<double, 3>& meter, double readings_averaged) {
    if (!correction.covariance) {
        throw Error(ErrorKind::domain, "certainty", "a correction without a covariance",
                    "one made from repeated readings, or with stated noise");
    }
    const detail::CorrectedPoint point = detail::corrected_point(correction, meter);
    Certainty result;
    result.xy = {point.xy_ln_luminance[0], point.xy_ln_luminance[1]};
    result.luminance = std::exp(point.xy_ln_luminance[2]);
    const auto terms = detail::carried_terms(correction, point, readings_averaged);
    Eigen::Matrix3d total = detail::total_covariance(terms, correction.noise);
    if (correction.noise_terms.empty()) {
        Eigen::Matrix<double, 3, 3, Eigen::RowMajor> carried;
        carried.setZero();
        detail::add_carried(detail::numbers_of(point.by_parameters),
                            detail::parameter_matrix(*correction.covariance),
                            detail::numbers_of(point.by_parameters), 1.0, {carried.data(), 9});
        total += carried;
        result.xy_degrees_of_freedom = result.x_degrees_of_freedom = result.y_degrees_of_freedom =
            result.luminance_degrees_of_freedom = correction.degrees_of_freedom;
    } else {
        const auto freedom = [&](Eigen::Index first, Eigen::Index size) {
            return detail::effective_degrees_of_freedom(terms, correction.noise, total, first,
                                                        size);
        };
        result.xy_degrees_of_freedom = freedom(0, 2);
        result.x_degrees_of_freedom = freedom(0, 1);
        result.y_degrees_of_freedom = freedom(1, 1);
        result.luminance_degrees_of_freedom = freedom(2, 1);
    }
    if (!correction.covariance->luminance_known) {
        total.row(2).setZero();
        total.col(2).setZero();
        total(2, 2) = std::numeric_limits<double>::infinity();
    }
    Eigen::Map<Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(result.covariance.data()) = total;
    return result;
}

}  // namespace samelight
