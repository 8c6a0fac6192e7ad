#pragma once
// What was measured of a screen's light, for whoever owns it.
#include <span>

#include "samelight/report/document.hpp"
#include "samelight/report/spectrum_answer.hpp"

namespace samelight::report {

/// Plain words: which lights were measured, what each is made of, and whether the measurement can be relied on; with the picture of the spectra.
Document spectra_client_document(std::span<const SpectrumAnswer> files);

}  // namespace samelight::report
