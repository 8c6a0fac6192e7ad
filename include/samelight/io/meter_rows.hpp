#pragma once
// A meter's sensitivities from a file, or an observer standing in for a meter.
#include <string>
#include <vector>

#include "samelight/meter/readings/meter_rows.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::io {

/// A meter as it was asked for.
struct NamedMeter : MeterRows {
    /// How its file was read, whole sentences.
    std::vector<std::string> understood;
};

/// Opens the meter that `text` names: a CSV file (anything with a dot or a slash) with a column wavelength_nm and three columns, the
/// sensitivities behind the meter's X, Y and Z in this order whatever their names; or an observer's name, for a meter that is that
/// observer (a spectroradiometer, say). The rows come onto `sampling` by linear interpolation, 0 beyond the file's range.
///
/// Warnings: those of the file that matter for rows, and those of meter_rows().
/// @param scale  of the rows of a file; an observer's have none to be changed
/// Throws Error (input, system, domain), one line.
SAMELIGHT_API NamedMeter open_meter(const std::string& text, RowScale scale = RowScale::as_given,
                                    const Sampling& sampling = {});

}  // namespace samelight::io
