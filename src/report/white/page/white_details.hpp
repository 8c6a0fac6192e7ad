#pragma once
// Why a display's white is what it is and what it rests on: the pieces of the document on whites behind the first screen.
#include <string>
#include <vector>

#include "samelight/assess/white_answer.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {

/// Every observer's target, what makes it unsure, how people differ, what it rests on, and how the files were read.
void add_reasons(const assess::WhiteAnswer& answer, const assess::PanelPart& part,
                 BudgetOnPage budget, Section& section);

/// How files were read, each thing once; noise below zero is how a file is, not a danger.
void add_understood(const std::vector<std::string>& understood,
                    const std::vector<Warning>& warnings, Section& section);

}  // namespace samelight::report
