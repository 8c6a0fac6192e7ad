#pragma once
// The bodies of numeric/distributions.hpp.

#include <cmath>
#include <exception>
#include <limits>

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/students_t.hpp>

#include "samelight/numeric/distributions.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/impl/overflow_policy.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE void require_freedom(const char* where, double degrees) {
    if (!(degrees > 0.0) || !std::isfinite(degrees)) {
        throw Error(ErrorKind::domain, where, to_text(degrees) + " degrees of freedom",
                    "degrees of freedom above 0");
    }
}

/// What Boost says of a distribution; its own errors as the library's.
template <class F>
double finite_quantile(const char* where, F&& quantile_of) {
    double value = 0.0;
    try {
        value = quantile_of();
    } catch (const std::exception&) {
        value = std::numeric_limits<double>::infinity();
    }
    if (!std::isfinite(value)) {
        throw Error(ErrorKind::domain, where, "a quantile too large for a computer's numbers",
                    "more degrees of freedom, or a probability further from 0 and 1");
    }
    return value;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double student_quantile(double probability, double freedom) {
    detail::require_probability("student_quantile", probability);
    detail::require_freedom("student_quantile", freedom);
    return detail::finite_quantile("student_quantile", [&] {
        return boost::math::quantile(
            boost::math::students_t_distribution<double, detail::InfiniteOverflow>(freedom),
            probability);
    });
}

SAMELIGHT_INLINE double chi_squared_quantile(double probability, double freedom) {
    detail::require_probability("chi_squared_quantile", probability);
    detail::require_freedom("chi_squared_quantile", freedom);
    return detail::finite_quantile("chi_squared_quantile", [&] {
        return boost::math::quantile(
            boost::math::chi_squared_distribution<double, detail::InfiniteOverflow>(freedom),
            probability);
    });
}

SAMELIGHT_INLINE double fisher_quantile(double probability, double numerator_freedom,
                                        double denominator_freedom) {
    detail::require_probability("fisher_quantile", probability);
    detail::require_freedom("fisher_quantile", numerator_freedom);
    detail::require_freedom("fisher_quantile", denominator_freedom);
    return detail::finite_quantile("fisher_quantile", [&] {
        return boost::math::quantile(
            boost::math::fisher_f_distribution<double, detail::InfiniteOverflow>(
                numerator_freedom, denominator_freedom),
            probability);
    });
}

}  // namespace samelight
