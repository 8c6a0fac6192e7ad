#pragma once
// What is said of files of spectra, as a document.
#include <span>

#include "samelight/report/document.hpp"
#include "samelight/report/spectrum_answer.hpp"

namespace samelight::report {

/// File after file: what it holds, what is doubtful, how it was read; then each column by itself.
Document spectra_document(std::span<const SpectrumAnswer> files);

}  // namespace samelight::report
