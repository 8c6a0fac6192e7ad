#pragma once
// What a luminance that is off by a factor stands beside, and who read it, in words.
#include <string>
#include <string_view>

namespace samelight::report {

/// "white has", ...; empty for a code that isn't known.
std::string beside_text(std::string_view code);

/// "the meter", "both instruments". @param code  of an instrument, or "both"
std::string read_by_text(std::string_view code);

}  // namespace samelight::report
