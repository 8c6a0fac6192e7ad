#pragma once
// Numbers as text, whatever the process's locale says.
#include <limits>
#include <optional>
#include <string>
#include <string_view>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The shortest decimal text that reads back as exactly `value` ("." as the decimal mark in every locale).
/// "nan" and "inf", with their sign, for values that are not finite. A number without unit. Throws nothing but std::bad_alloc.
SAMELIGHT_API std::string to_text(double value);

/// `value` with `decimals` digits behind the point, rounded to nearest ("." in every locale); without a sign where it rounds to 0.
/// Range: every double, written out without an exponent (1e300 has 301 digits), and 0 <= decimals <= 17; more or fewer are taken as 17 or 0.
/// "nan" and "inf", with their sign, for values that are not finite. A number without unit. Throws nothing but std::bad_alloc.
SAMELIGHT_API std::string to_text(double value, int decimals);

namespace detail {

/// A whole text as a decimal number, or nothing. "." in every locale; no sign +, no spaces.
SAMELIGHT_API std::optional<double> decimal_number(std::string_view text);

/// The same, NaN, which is in no range, instead of nothing.
inline double number_or_nan(std::string_view text) {
    return decimal_number(text).value_or(std::numeric_limits<double>::quiet_NaN());
}

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/numeric/impl/text.ipp"
#endif
