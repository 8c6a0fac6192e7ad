#pragma once
// What is said of stored corrections and displays, as a document.
#include "samelight/report/document.hpp"
#include "samelight/report/meter_choose_answer.hpp"

namespace samelight::report {

/// What to use on each display, what not to use, the figures; then what displays are like and what it all rests on.
Document meter_choose_document(const MeterChooseAnswer& answer);

}  // namespace samelight::report
