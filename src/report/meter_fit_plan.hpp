#pragma once
// What to read next, as part of the answer about a fit.
#include "samelight/report/meter_fit_answer.hpp"

namespace samelight::report {

/// Fills in `advice` and `next` from the correction, its quality and its judgement.
void plan_readings(const MeterFitRequest& request, MeterFitAnswer& answer);

}  // namespace samelight::report
