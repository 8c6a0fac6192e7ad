#pragma once
// One narrow line as a triangular passband shows it, fitted on what lies beneath it.
#include <cstddef>
#include <optional>
#include <span>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Full width at half maximum, nm, of the highest peak within `reach_nm` of `nm`, above the straight line between the valleys beside
/// it; none where there is no peak that rises `least` (in the spectrum's unit) above it. Throws nothing. Own rule.
[[nodiscard]] SAMELIGHT_API std::optional<double> line_width_near(const Spectrum& spectrum,
                                                                  double nm, double reach_nm,
                                                                  double least);

namespace detail {

/// A fitted line.
struct LineFit {
    /// Its top.
    double nm;
    /// Its full width at half maximum.
    double width_nm;
    /// Of the top above the straight line beneath, in the spectrum's unit.
    double height;
    /// Of its place.
    double standard_error_nm;
};

/// The step of the samples about `nm`.
double step_near(const Spectrum& spectrum, double nm);

/// Where line `index` of `lines_nm` is seen, within `reach_nm` of where it should be; none where nothing of its shape is.
/// @param asked       how many of the lines are looked for; those behind them are weak companions, which only pull
/// @param width_nm    full width at half maximum to start from; fitted as well where `free_width`
/// @param noise       standard deviation of a sample, in the spectrum's unit
/// @param least       the height, in that unit, that a line must have
std::optional<LineFit> fit_line(const Spectrum& spectrum, std::span<const double> lines_nm,
                                std::size_t asked, std::size_t index, double width_nm,
                                bool free_width, double reach_nm, double noise, double least);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/spectrum/impl/line_fit.ipp"
#endif
