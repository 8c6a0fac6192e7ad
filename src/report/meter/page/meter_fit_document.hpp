#pragma once
// What is said of a correction from paired readings, as a document.
#include "samelight/report/document.hpp"
#include "samelight/report/meter_fit_answer.hpp"

namespace samelight::report {

/// The verdict and its reason, the error on colours left out, what to read next; then the white, the proof, other methods, the matrix.
Document meter_fit_document(const MeterFitAnswer& answer);

}  // namespace samelight::report
