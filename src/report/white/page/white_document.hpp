#pragma once
// What `samelight white` says as a document: per display what to do first, then why, then what it rests on.
#include <span>

#include "samelight/assess/white_answer.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/white_answer.hpp"

namespace samelight::report {

/// The answer as a document; a section a display, which its heading and first pieces answer for whoever stands before it.
/// @param displays  whose spectra are drawn, in the order of the answer's panels; empty: none are
Document white_document(const assess::WhiteAnswer& answer, std::span<const Panel> displays = {},
                        BudgetOnPage budget = BudgetOnPage::summed_up);

}  // namespace samelight::report
