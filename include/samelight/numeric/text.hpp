#pragma once
// Numbers as text, whatever the process's locale says.
#include <array>
#include <charconv>
#include <string>

namespace samelight {

/// The shortest decimal text that reads back as exactly `value` ("." as the decimal mark in every locale).
/// "nan" and "inf" for values that are not finite. Throws nothing but std::bad_alloc.
inline std::string to_text(double value) {
    std::array<char, 32> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
    return {buffer.data(), end.ptr};
}

/// `value` with `decimals` digits behind the point, rounded to nearest ("." in every locale).
/// Range: |value| < 1e30, 0 <= decimals <= 17. "nan" and "inf" for values that are not finite.
inline std::string to_text(double value, int decimals) {
    std::array<char, 64> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                                   std::chars_format::fixed, decimals);
    return {buffer.data(), end.ptr};
}

}  // namespace samelight
