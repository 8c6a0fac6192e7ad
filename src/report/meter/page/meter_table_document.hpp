#pragma once
// What is said of each display's correction on the others, as a document.
#include "samelight/report/document.hpp"
#include "samelight/report/meter_table_answer.hpp"

namespace samelight::report {

/// Whether corrections may be used on other displays, then the figures of every pair.
Document meter_table_document(const MeterTableAnswer& answer);

}  // namespace samelight::report
