#pragma once
// What may be doubtful about a comparison of displays.
#include <array>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/warning_kind.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The kinds of warnings that this room gives; see WarningKind for how facts are written.
inline constexpr std::array<WarningKind, 2> metamerism_warning_kinds{{
    // Measured displays beside generic models.
    {"mixed_origins", ""},
    // Colours that not every panel can show, of how many.
    {"colours_left_out", "left_out asked"},
}};

}  // namespace samelight
