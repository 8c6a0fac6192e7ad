#pragma once
// What to read next, as part of the answer about a fit.
#include "samelight/assess/meter_fit.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Fills in `advice`, `next` and `read_on` from the correction, its quality and its judgement, and lets the verdict have the last word.
void plan_readings(const assess::MeterFitOptions& options, assess::MeterFitAnswer& answer);

}  // namespace samelight::inline SAMELIGHT_FORM::detail

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/meter_fit_plan.ipp"
#endif
