#pragma once
// What is taken out of the columns of a file, and what lines say of its wavelengths: parts of the answer of `samelight spectrum`.
#include "samelight/io/spectral_csv.hpp"
#include "samelight/report/spectrum_answer.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// Chromaticities for every standard observer; none for a light that an observer doesn't see.
std::vector<ColumnReading> readings_of(const SampledLight& light);

/// Throws Error (domain, input) for numbers out of range or lines that can't be understood.
void require_request(const SpectrumRequest& request);

/// Adds to each column what the lines asked for say, and warnings `no_line`, `lines_disagree`, `bandwidth_unknown`.
void look_for_lines(const SpectrumRequest& request, const io::SpectralFile& file,
                    const Sampling& sampling, SpectrumAnswer& answer);

/// Adds the corrected columns, what became of each, and warnings `bandwidth_too_wide`, `held_at_nothing`, `noise_gain`, `below_nothing`.
/// Throws Error (input) for a bandwidth that a column contradicts.
void take_out(const SpectrumRequest& request, const io::SpectralFile& file,
              const Sampling& sampling, SpectrumAnswer& answer);

}  // namespace samelight::report
