#pragma once
// The page of `samelight visit`.
#include "samelight/report/check/visit_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// What is done in which order, and what is left out.
Document visit_document(const VisitPage& answer);
/// The same for whoever owns the displays: how long, and what is to be ready.
Document visit_client_document(const VisitPage& answer);

}  // namespace samelight::report
