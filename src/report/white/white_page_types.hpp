#pragma once
// The part of the page of `samelight white` about a display of unknown type.
#include <string>

#include "samelight/assess/white_answer.hpp"

namespace samelight::report {

/// Which types read so, and what one look decides; nothing where the type is known.
std::string types_text(const assess::WhiteAnswer& answer);

}  // namespace samelight::report
