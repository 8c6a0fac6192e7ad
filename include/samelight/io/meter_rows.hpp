#pragma once
// A meter's sensitivities from a file, or an observer standing in for a meter.
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::io {

/// The scale of a meter's three rows against each other.
enum class RowScale {
    as_given,     ///< the file's columns are what the meter's X, Y, Z are made with
    illuminant_a  ///< each row is scaled so that the meter reads illuminant A as CIE 1931 does
};

/// A meter as it was asked for.
struct NamedMeter {
    Sensitivities rows;
    RowScale scale = RowScale::as_given;
    bool observer = false;                ///< it is an observer: a meter without a fault
    std::vector<std::string> understood;  ///< how its file was read, whole sentences
    std::vector<Warning> warnings;
};

/// Opens the meter that `text` names: a CSV file (anything with a dot or a slash) with a column wavelength_nm and three columns, the
/// sensitivities behind the meter's X, Y and Z in this order whatever their names; or an observer's name, for a meter that is that
/// observer (a spectroradiometer, say). The rows come onto `sampling` by linear interpolation, 0 beyond the file's range.
///
/// Columns that all have the same peak say nothing of each other's scale: they are scaled on illuminant A, with a warning (rows_scaled).
/// A row that its file cuts off at more than 1 % of its peak is warned of (rows_cut).
/// @param scale_on_a  scale the rows of a file on illuminant A whatever their scale; an observer has none to be scaled
/// Throws Error (input, system, domain), one line.
SAMELIGHT_API NamedMeter open_meter(const std::string& text, bool scale_on_a = false,
                                    const Sampling& sampling = {});

}  // namespace samelight::io
