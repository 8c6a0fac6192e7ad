#pragma once
// Sentences about whites that page and JSON have in common.
#include <string>

#include "samelight/assess/white_answer.hpp"
#include "samelight/report/advice_words.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::report {

/// What a panel's answer rests on, as the end of a sentence that begins so.
std::string rests_on(const assess::PanelPart& part);

/// What a display's verdict compares with.
inline MovedFrom moved_from(const assess::PanelPart& part) {
    return part.as_it_stands ? MovedFrom::white_as_it_stands : MovedFrom::reference_xy;
}

/// What would shrink a part of the budget, with the command's option where one says it.
std::string command_remedy(const BudgetPart& part);

}  // namespace samelight::report
