#pragma once
// Quantiles of the distributions that few observations follow: Student's t, chi squared, Fisher's F.
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

void require_freedom(const char* where, double degrees);

}  // namespace detail

/// The t below which Student's t with `freedom` degrees of freedom lies with the given probability (two-sided 95 %: 0.975).
/// Range: 0 < probability < 1, freedom > 0, not only whole. Error: below 1e-12 relative. Throws Error (domain).
/// Source: JCGM 100:2008, G.3.
SAMELIGHT_API double student_quantile(double probability, double freedom);

/// The value below which chi squared with `freedom` degrees of freedom lies with the given probability. Range, error and
/// exceptions as student_quantile. Source: its definition.
SAMELIGHT_API double chi_squared_quantile(double probability, double freedom);

/// The value below which Fisher's F lies with the given probability; degrees of freedom of numerator and denominator. Range,
/// error and exceptions as student_quantile. Source: as chi_squared_quantile.
SAMELIGHT_API double fisher_quantile(double probability, double numerator_freedom,
                                     double denominator_freedom);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/numeric/impl/distributions.ipp"
#endif
