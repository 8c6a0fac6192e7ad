#pragma once
// Quantiles of the distributions that few observations follow: Student's t, chi squared, Fisher's F.
#include <cmath>

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/students_t.hpp>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight {

namespace detail {

inline void require_freedom(const char* where, double degrees) {
    if (!(degrees > 0.0) || !std::isfinite(degrees)) {
        throw Error(ErrorKind::domain, where, to_text(degrees) + " degrees of freedom",
                    "degrees of freedom above 0");
    }
}

}  // namespace detail

/// The t below which Student's t with `freedom` degrees of freedom lies with the given probability (two-sided 95 %: 0.975).
/// Range: 0 < probability < 1, freedom > 0, not only whole. Error: below 1e-12 relative. Throws Error (domain).
/// Source: JCGM 100:2008, G.3.
inline double student_quantile(double probability, double freedom) {
    detail::require_probability("student_quantile", probability);
    detail::require_freedom("student_quantile", freedom);
    return boost::math::quantile(boost::math::students_t_distribution<double>(freedom),
                                 probability);
}

/// The value below which chi squared with `freedom` degrees of freedom lies with the given probability. Range, error and
/// exceptions as student_quantile.
inline double chi_squared_quantile(double probability, double freedom) {
    detail::require_probability("chi_squared_quantile", probability);
    detail::require_freedom("chi_squared_quantile", freedom);
    return boost::math::quantile(boost::math::chi_squared_distribution<double>(freedom),
                                 probability);
}

/// The value below which Fisher's F lies with the given probability; degrees of freedom of numerator and denominator. Range,
/// error and exceptions as student_quantile.
inline double fisher_quantile(double probability, double numerator_freedom,
                              double denominator_freedom) {
    detail::require_probability("fisher_quantile", probability);
    detail::require_freedom("fisher_quantile", numerator_freedom);
    detail::require_freedom("fisher_quantile", denominator_freedom);
    return boost::math::quantile(
        boost::math::fisher_f_distribution<double>(numerator_freedom, denominator_freedom),
        probability);
}

}  // namespace samelight
