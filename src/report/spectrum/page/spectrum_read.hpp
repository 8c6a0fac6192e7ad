#pragma once
// How a file of spectra was read, on the first screen and in full.
#include "samelight/report/document.hpp"
#include "samelight/report/spectrum_answer.hpp"

namespace samelight::report {

/// Units, separators and noise below zero, in three lines at most; everything as a list where that leaves something out.
void add_how_read(const SpectrumAnswer& answer, Section& section);

}  // namespace samelight::report
