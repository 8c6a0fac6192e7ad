#pragma once
// What is said of a correction from a meter's sensitivities, as a document.
#include "samelight/report/document.hpp"
#include "samelight/report/meter_model_answer.hpp"

namespace samelight::report {

/// Whether to use it, how sure it is; then the matrix, what it leaves, and the meter's mismatch.
Document meter_model_document(const MeterModelAnswer& answer);

}  // namespace samelight::report
