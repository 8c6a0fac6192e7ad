#pragma once
// Numbers as text, whatever the process's locale says.
#include <algorithm>
#include <array>
#include <charconv>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>

namespace samelight {

/// The shortest decimal text that reads back as exactly `value` ("." as the decimal mark in every locale).
/// "nan" and "inf", with their sign, for values that are not finite. Throws nothing but std::bad_alloc.
inline std::string to_text(double value) {
    std::array<char, 32> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    return {buffer.data(), end.ptr};
}

/// `value` with `decimals` digits behind the point, rounded to nearest ("." in every locale); without a sign where it rounds to 0.
/// Range: every double, written out without an exponent (1e300 has 301 digits), and 0 <= decimals <= 17; more or fewer are taken as 17 or 0.
/// "nan" and "inf", with their sign, for values that are not finite. Throws nothing but std::bad_alloc.
inline std::string to_text(double value, int decimals) {
    constexpr int most_decimals = 17;
    constexpr int most_digits = std::numeric_limits<double>::max_exponent10 + 1;
    std::array<char, 1 + most_digits + 1 + most_decimals> buffer{};  // with a sign and a point
    const auto end =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed,
                      std::clamp(decimals, 0, most_decimals));
    const std::string text(buffer.data(), end.ptr);
    const bool signed_zero =
        text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos;
    return signed_zero ? text.substr(1) : text;
}

namespace detail {

/// A whole text as a decimal number, or nothing. "." in every locale; no sign +, no spaces.
inline std::optional<double> decimal_number(std::string_view text) {
    double value = 0.0;
    const char* end = text.data() + text.size();
    const auto [stop, problem] = std::from_chars(text.data(), end, value);
    if (problem != std::errc() || stop != end) {
        return std::nullopt;
    }
    return value;
}

/// The same, NaN, which is in no range, instead of nothing.
inline double number_or_nan(std::string_view text) {
    return decimal_number(text).value_or(std::numeric_limits<double>::quiet_NaN());
}

}  // namespace detail

}  // namespace samelight
