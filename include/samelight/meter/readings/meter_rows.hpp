#pragma once
// A filter meter's sensitivities from its three spectral responses, or an observer standing in for a meter. Own.
#include <array>
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The scale of a meter's three rows against each other.
enum class RowScale {
    /// The responses as they are given are what the meter's X, Y, Z are made with.
    as_given,
    /// Each row is scaled so that the meter reads illuminant A as CIE 1931 does.
    illuminant_a
};

/// A meter whose sensitivities are known, on the sampling of the problem.
struct MeterRows {
    /// Behind its X, Y and Z; `observer` is the meter's name.
    Sensitivities rows;
    RowScale scale = RowScale::as_given;
    /// It is an observer: a meter without a fault.
    bool observer = false;
    /// What is doubtful about the rows.
    std::vector<Warning> warnings = {};
    /// The responses had all the same peak, and were scaled for that (`rows_scaled`, the first of the warnings).
    bool one_peak = false;
};

/// Three responses, and what is known of them.
struct MeterResponses {
    /// The meter's, for messages.
    std::string name;
    /// Behind X, Y and Z, each on wavelengths of its own.
    std::array<Spectrum, 3> responses;
    /// Of the three, for messages.
    std::array<std::string, 3> names = {"x", "y", "z"};
    /// illuminant_a: whatever their scale
    RowScale scale = RowScale::as_given;
};

/// The rows on `sampling`, by linear interpolation, 0 beyond the responses' range.
///
/// Responses that all have the same peak say nothing of each other's scale: they are scaled on illuminant A, with a warning (rows_scaled),
/// which stands first. A response that ends at more than 1 % of its peak within the sampling is warned of (rows_cut).
/// Throws Error (domain) for rows that can't be scaled (calibrated()).
SAMELIGHT_API MeterRows meter_rows(const MeterResponses& meter, const Sampling& sampling = {});

/// An observer standing in for a meter: a spectroradiometer, say.
/// Throws Error (input) for one of cones, which is no meter.
SAMELIGHT_API MeterRows meter_rows(const Observer& observer, const Sampling& sampling = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/meter_rows.ipp"
#endif
