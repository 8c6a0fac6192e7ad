#pragma once
// What is set on a display, for whoever owns it.
#include "samelight/report/check/adjust_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// What is off, what is set, and what it costs: plain words, no doubt in figures.
Document adjust_client_document(const AdjustAnswer& answer);

}  // namespace samelight::report
