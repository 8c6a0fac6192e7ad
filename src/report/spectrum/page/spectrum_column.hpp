#pragma once
// What there is to say of one column of a file of spectra.
#include <string>

#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/report/document.hpp"
#include "samelight/report/spectrum_answer.hpp"

namespace samelight::report {

/// One column by itself, for every standard observer.
Section column_section(const SpectrumAnswer& answer, const assess::ColumnPart& column,
                       const std::string& id);

}  // namespace samelight::report
