#pragma once
// The bodies of numeric/text.hpp.

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>

#include "samelight/numeric/text.hpp"

// Some standard libraries have from_chars and to_chars for whole numbers only. Without them the C library's functions say the same, with
// the process's decimal mark put right; SAMELIGHT_HAS_CHARCONV=0 asks for that.
#ifndef SAMELIGHT_HAS_CHARCONV
#if defined(__cpp_lib_to_chars)
#define SAMELIGHT_HAS_CHARCONV 1
#else
#define SAMELIGHT_HAS_CHARCONV 0
#endif
#endif

namespace samelight::inline SAMELIGHT_FORM::detail {

#if !SAMELIGHT_HAS_CHARCONV
/// What this process's locale writes between whole and part.
inline std::string decimal_mark() {
    std::array<char, 16> one_and_a_half{};
    std::snprintf(one_and_a_half.data(), one_and_a_half.size(), "%.1f", 1.5);
    const std::string text = one_and_a_half.data();
    return text.substr(1, text.size() - 2);
}

/// printf's text with a point for the mark.
inline std::string printed(const char* format, int decimals, double value) {
    std::string text(400, '\0');
    const int length = std::snprintf(text.data(), text.size(), format, decimals, value);
    text.resize(static_cast<std::size_t>(length));
    const std::string mark = decimal_mark();
    const std::size_t at = text.find(mark);
    return at == std::string::npos ? text : text.replace(at, mark.size(), ".");
}

/// The fewest digits that read back as `value`, in the shorter of the two ways of writing them, as to_chars does.
inline std::string shortest(double value) {
    int digits = 0;
    std::string exponential;
    for (; digits < 17; ++digits) {
        exponential = printed("%.*e", digits, value);
        if (decimal_number(exponential) == value) {
            break;
        }
    }
    const int exponent = std::stoi(exponential.substr(exponential.find('e') + 1));
    std::string fixed = printed("%.*f", std::max(digits - exponent, 0), value);
    return fixed.size() <= exponential.size() ? fixed : exponential;
}

/// Only what from_chars takes: no spaces before, no "+", no hexadecimal numbers.
inline bool is_plain_number(std::string_view text) {
    const std::string_view digits = text.substr(text.starts_with('-') ? 1 : 0);
    if (digits == "nan" || digits == "inf" || digits == "infinity") {
        return true;
    }
    return !digits.empty() && (digits[0] == '.' || (digits[0] >= '0' && digits[0] <= '9')) &&
           digits.find_first_not_of("0123456789.eE+-") == std::string_view::npos;
}
#endif

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::string to_text(double value) {
#if !SAMELIGHT_HAS_CHARCONV
    return std::isfinite(value) ? detail::shortest(value) : to_text(value, 0);
#else
    std::array<char, 32> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    return {buffer.data(), end.ptr};
#endif
}

SAMELIGHT_INLINE std::string to_text(double value, int decimals) {
    constexpr int most_decimals = 17;
#if !SAMELIGHT_HAS_CHARCONV
    const std::string text = detail::printed("%.*f", std::clamp(decimals, 0, most_decimals), value);
#else
    constexpr int most_digits = std::numeric_limits<double>::max_exponent10 + 1;
    std::array<char, 1 + most_digits + 1 + most_decimals> buffer{};  // with a sign and a point
    const auto end =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed,
                      std::clamp(decimals, 0, most_decimals));
    const std::string text(buffer.data(), end.ptr);
#endif
    const bool signed_zero =
        text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos;
    return signed_zero ? text.substr(1) : text;
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE std::optional<double> decimal_number(std::string_view text) {
    double value = 0.0;
#if !SAMELIGHT_HAS_CHARCONV
    if (!is_plain_number(text)) {
        return std::nullopt;
    }
    std::string local(text);
    const std::size_t point = local.find('.');
    if (point != std::string::npos) {
        local.replace(point, 1, decimal_mark());
    }
    char* stop = nullptr;
    value = std::strtod(local.c_str(), &stop);
    const bool too_large = std::isinf(value) && text.find("inf") == std::string_view::npos;
    const bool too_small =
        value == 0.0 && text.substr(0, text.find_first_of("eE")).find_first_of("123456789") !=
                            std::string_view::npos;
    if (stop != local.c_str() + local.size() || too_large || too_small) {
        return std::nullopt;
    }
#else
    const char* end = text.data() + text.size();
    const auto [stop, problem] = std::from_chars(text.data(), end, value);
    if (problem != std::errc() || stop != end) {
        return std::nullopt;
    }
#endif
    return value;
}

}  // namespace samelight::detail
