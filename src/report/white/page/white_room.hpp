#pragma once
// The pieces of the document on whites about several displays together.
#include "samelight/assess/white_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// One row a display: what to dial in, how sure that is and what it takes.
/// @param caption  what the whites are to look like
Table displays_table(const assess::WhiteAnswer& answer, const std::string& caption);

/// Side by side in one room: the ways to set all together, as they stand first, and the one that is recommended; or why that is left out. Without
/// pieces where there is nothing to say.
Section room_section(const assess::WhiteAnswer& answer);

}  // namespace samelight::report
