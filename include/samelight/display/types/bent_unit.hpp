#pragma once
// A generic type's spectra bent to what was read of a unit: its parameters moved within their plausible ranges until red, green and blue read
// as they did.
#include <array>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The unit of a type that reads as was read.
struct BentUnit {
    const GenericModel* model = nullptr;
    /// Its parameters, each within its plausible range.
    std::vector<double> values;
    /// Standard deviation of each, as far as the readings tell.
    std::vector<double> spread;
    /// Unit minus readings: red, green, blue.
    std::array<ChromaticityOffset<Cie1931_2deg>, 3> left_over;
    /// Chi squared of these, six readings against their noise. Of a true unit of the type it is above 16.8 once in 100.
    double misfit = 0.0;
    /// Natural logarithm of how likely such readings are of the type, up to a term that all types share: Laplace's approximation about the unit,
    /// with every parameter spread about the middle of its range as evenly within it.
    double log_likelihood = 0.0;
};

/// Chi squared of six readings, exceeded once in 100: beyond it no unit of the type reads so. (Abramowitz & Stegun 1964, Table 26.8: 16.8119.)
inline constexpr double no_such_unit = 16.811893829770927;

/// The unit of `model` nearest to the readings: damped least squares over the parameters, the readings weighed by their noise and each parameter
/// drawn to the middle of its range by its spread within it, so that what the readings don't tell stays there.
/// Range: readings as require_readings() wants them; throws as it. Error: of the readings reached by a true unit of the type, below their
/// noise. Takes some milliseconds. Source: own; the steps are Levenberg 1944 and Marquardt 1963.
SAMELIGHT_API BentUnit bend_to(const GenericModel& model, const PrimaryReadings& readings);

/// The readings with their noise raised until the type's nearest unit leaves over no more than that noise makes one expect, chi squared six: what a
/// unit outside its type's plausible ranges reads is believed less (Birge 1932, Phys. Rev. 40:207). As they are where it leaves over what
/// true units do, up to `no_such_unit`. The noise is left below a tenth. Throws as bend_to().
SAMELIGHT_API PrimaryReadings believable(const GenericModel& model,
                                         const PrimaryReadings& readings);

/// The spectra of that unit, each primary on the scale of its luminance as read, or else on one of its own; white reads as was read. Where the type
/// has a white emitter, white holds as much of its light as it can. Throws Error (domain) for a white that the unit can't make. Own rule.
SAMELIGHT_API PanelSpectra spectra_that_read(const BentUnit& unit, const PrimaryReadings& readings,
                                             const Sampling& sampling = {});

namespace detail {

/// Red, green, blue and, where there is one, the white emitter at `values`; and white, as read, of them.
/// @returns false where these can't make that white
bool white_of_unit(const EmissionSpectra& unit, const PrimaryReadings& readings,
                   const Sampling& sampling, PanelSpectra& spectra);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/bent_unit.ipp"
#endif
