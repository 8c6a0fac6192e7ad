#pragma once
// The page of `samelight visit`.
#include "samelight/report/check/visit_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// What is done in which order, and what is left out.
Document visit_document(const VisitPage& answer);

}  // namespace samelight::report
