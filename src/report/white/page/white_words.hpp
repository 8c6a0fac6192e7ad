#pragma once
// Sentences about whites that page and JSON have in common.
#include <string>

#include "samelight/assess/white_answer.hpp"

namespace samelight::report {

/// What a panel's answer rests on, as the end of a sentence that begins so.
std::string rests_on(const assess::PanelPart& part);

}  // namespace samelight::report
