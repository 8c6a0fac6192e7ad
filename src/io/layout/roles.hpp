#pragma once
// The parts that lights play on a display.
#include <string_view>

namespace samelight::io::detail {

/// "red", "green", "blue", "white" or "black" for a name that is that word or its letter (R, G, B, W, K), in capitals or
/// not; empty for any other name.
std::string_view role_of(std::string_view name);

}  // namespace samelight::io::detail
