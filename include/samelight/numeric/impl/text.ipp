#pragma once
// The bodies of numeric/text.hpp.

#include <algorithm>
#include <array>
#include <charconv>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>

#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE std::string to_text(double value) {
    std::array<char, 32> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    return {buffer.data(), end.ptr};
}

SAMELIGHT_INLINE std::string to_text(double value, int decimals) {
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

}  // namespace samelight::inline SAMELIGHT_FORM

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE std::optional<double> decimal_number(std::string_view text) {
    double value = 0.0;
    const char* end = text.data() + text.size();
    const auto [stop, problem] = std::from_chars(text.data(), end, value);
    if (problem != std::errc() || stop != end) {
        return std::nullopt;
    }
    return value;
}

}  // namespace samelight::inline SAMELIGHT_FORM::detail
