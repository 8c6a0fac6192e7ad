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

SAMELIGHT_INLINE const char* code_of(CannotJudge why) {
    constexpr std::array<const char*, 6> codes = {"no_panel_spectra", "cones",
                                                  "raw_beside_rows",  "raw_to_other_observer",
                                                  "other_white",      "no_light"};
    return codes.at(static_cast<std::size_t>(why));
}

SAMELIGHT_INLINE const char* code_of(NotSafe why) {
    constexpr std::array<const char*, 3> codes = {"read_again_first", "not_settled",
                                                  "white_not_settled"};
    return codes.at(static_cast<std::size_t>(why));
}

SAMELIGHT_INLINE const char* code_of(NotAtAll why) {
    constexpr std::array<const char*, 3> codes = {"do_not_use", "no_longer_holds",
                                                  "never_confirmed"};
    return codes.at(static_cast<std::size_t>(why));
}

}  // namespace samelight
