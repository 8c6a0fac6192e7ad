#pragma once
// What is said of the corrected white and of the proof by colours left out.
#include "samelight/report/document.hpp"
#include "samelight/report/meter_fit_answer.hpp"

namespace samelight::report {

/// The white as the meter says it, corrected, and as the reference does, and how sure it is; empty without a white.
void add_fit_white(const MeterFitAnswer& answer, Section& section);

/// Colours and rounds left out, and whether white held still; of many colours the worst few.
void add_fit_proof(const MeterFitAnswer& answer, Section& section);

}  // namespace samelight::report
