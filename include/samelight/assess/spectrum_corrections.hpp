#pragma once
// What is taken out of spectra, and what lines say of their wavelengths: parts of the answer about spectra.
#include <vector>

#include "samelight/assess/spectrum_answer.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

// Of assess/spectrum.hpp, whose bodies call what is declared here.
struct SpectrumRequest;

}  // namespace samelight::assess

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Chromaticities for every standard observer; none for a light that an observer doesn't see.
std::vector<assess::ColumnReading> column_readings(const SampledLight& light);

/// Adds to each column what the lines asked for say, and warnings `no_line`, `lines_disagree`, `bandwidth_unknown`.
void look_for_lines(const assess::SpectrumRequest& request, assess::SpectrumAnswer& answer);

/// Adds the corrected columns, what became of each, and warnings `bandwidth_too_wide`, `held_at_nothing`, `noise_gain`, `below_nothing`.
/// Throws Error (input) for a bandwidth that a column contradicts.
void take_out(const assess::SpectrumRequest& request, assess::SpectrumAnswer& answer);

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/assess/impl/spectrum_corrections.ipp"
#endif
