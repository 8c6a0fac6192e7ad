#pragma once
// What the report on spectra draws.
#include <optional>

#include "samelight/report/document.hpp"
#include "samelight/report/spectrum_answer.hpp"

namespace samelight::report {

/// The spectra of a file as they were read; of many the first few; none where none are at hand.
std::optional<Chart> file_chart(const SpectrumAnswer& answer);

}  // namespace samelight::report
