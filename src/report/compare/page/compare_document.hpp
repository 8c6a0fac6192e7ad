#pragma once
// The pages of `samelight compare`.
#include "samelight/report/check/compare_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// What moved, whose it is, and what to do today.
Document compare_document(const ComparePage& answer);
/// The same for whoever owns the display: plain words, no table of doubt.
Document compare_client_document(const ComparePage& answer);

}  // namespace samelight::report
