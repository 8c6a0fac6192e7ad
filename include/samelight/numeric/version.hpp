#pragma once

/// \file
/// The version of the library, written here and nowhere else: the build reads it from this line.

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The version of samelight, "major.minor.patch", as every result records it.
inline constexpr const char* version = "0.1.0";

}  // namespace samelight
