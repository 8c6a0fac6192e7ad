#pragma once
// What the warnings of a room are called and which facts each of them brings: what whoever words them in a language of their own needs.
#include <string_view>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A kind of warning. The facts stand in the order in which they are given, with a space between:
/// - "distance_uv"             a number
/// - "panel:text"              a text: a name as it was given, or whatever a file holds
/// - "instrument:reference|meter"  one word of those
/// - "lines_nm[]", "keys:text[]"   several numbers or texts
/// - "viewer:text?"            not always there
struct WarningKind {
    std::string_view code;
    std::string_view facts;
};

}  // namespace samelight
