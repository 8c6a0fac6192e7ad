#pragma once
// What was done to the measuring instrument, for whoever owns the display.
#include "samelight/report/document.hpp"
#include "samelight/report/meter_choose_answer.hpp"
#include "samelight/report/meter_fit_answer.hpp"
#include "samelight/report/meter_model_answer.hpp"

namespace samelight::report {

/// Plain words, without matrices and figures of doubt: what was compared, how far off the meter was on this screen, what it is now, and
/// whether it is used so.
Document meter_fit_client_document(const MeterFitAnswer& answer);
/// The same of a correction from spectra.
Document meter_model_client_document(const MeterModelAnswer& answer);
/// Which correction is used on which screen.
Document meter_choose_client_document(const MeterChooseAnswer& answer);

}  // namespace samelight::report
