#pragma once
// What is said of gradients, as a document.
#include "samelight/report/check/gradient_answer.hpp"
#include "samelight/report/document.hpp"

namespace samelight::report {

/// Whether it shows, where, what to do and how sure; then every control's limit, the trade-off, the codes, the ramps.
Document gradient_document(const GradientAnswer& answer);

/// The same for whoever owns the display: in plain words.
Document gradient_client_document(const GradientAnswer& answer);

/// The tables and charts behind the answer.
Section gradient_controls_section(const GradientAnswer& answer);
Section gradient_codes_section(const GradientAnswer& answer);
Section gradient_measured_section(const GradientAnswer& answer);

}  // namespace samelight::report
