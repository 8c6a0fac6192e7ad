#pragma once
// The pieces of the document on whites about a display of unknown type.
#include "samelight/assess/white_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// Which types read so, and what one look decides. Only for an answer with types_apart.
Section types_section(const assess::WhiteAnswer& answer);

}  // namespace samelight::report
