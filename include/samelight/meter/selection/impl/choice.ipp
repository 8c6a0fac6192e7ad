#pragma once
// The bodies of meter/selection/choice.hpp.

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/meter/selection/choice.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE const char* code_of(Choice choice) {
    constexpr std::array<const char*, 3> names = {"safe", "use none", "measure this panel"};
    return names.at(static_cast<std::size_t>(choice));
}

}  // namespace samelight
