#pragma once
// The pages of a check.
#include "samelight/report/check/check_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// For whoever set the display up.
Document check_document(const CheckAnswer& answer);
/// For whoever owns it.
Document check_client_document(const CheckAnswer& answer);

}  // namespace samelight::report
