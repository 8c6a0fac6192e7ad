#pragma once
// Viewers as they are typed.
#include <string>
#include <vector>

#include "samelight/assess/watching_eyes.hpp"

namespace samelight::report {

/// Ages and fields from AGE[:FIELD], years and degrees; AGE may be the word "unknown". Throws Error (input) for anything else, and for more than 26.
std::vector<assess::WatchingEye> eyes_typed(const std::vector<std::string>& typed);

}  // namespace samelight::report
