#pragma once
// The bodies of meter/selection/keep_verdict.hpp.

#include <array>
#include <cstddef>

#include "samelight/meter/selection/keep_verdict.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE const char* code_of(Keep keep) {
    constexpr std::array<const char*, 4> names = {"keep it", "read again", "make a new one",
                                                  "too unsure, make a new one"};
    return names.at(static_cast<std::size_t>(keep));
}

}  // namespace samelight
