#pragma once
// The facts of a warning as tests look at them.
#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include "samelight/numeric/error.hpp"

namespace samelight::test {

/// NaN, which equals nothing, where there is no such number.
inline double number_of(const Warning& warning, std::string_view fact) {
    const auto* found = warning.find<double>(fact);
    return found == nullptr ? std::numeric_limits<double>::quiet_NaN() : *found;
}

/// Empty where there is no such text.
inline std::string text_of(const Warning& warning, std::string_view fact) {
    const auto* found = warning.find<std::string>(fact);
    return found == nullptr ? "" : *found;
}

inline std::vector<double> numbers_of(const Warning& warning, std::string_view fact) {
    const auto* found = warning.find<std::vector<double>>(fact);
    return found == nullptr ? std::vector<double>{} : *found;
}

inline std::vector<std::string> texts_of(const Warning& warning, std::string_view fact) {
    const auto* found = warning.find<std::vector<std::string>>(fact);
    return found == nullptr ? std::vector<std::string>{} : *found;
}

}  // namespace samelight::test
