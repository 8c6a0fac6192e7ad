#pragma once
// A generic model as a panel: its primaries balanced to a native white. Sources: as the model's parameters; own balance.
#include <array>
#include <span>
#include <string>

#include "samelight/display/panel.hpp"
#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// CIE 1931 chromaticity of every generic panel's native white: what panels are set to at the works (common practice, no
/// source). A unit's own native white is what its own measurement says; the cost in light depends on it; the target does so only where there is a white
/// emitter, and there by little.
inline constexpr std::array<double, 2> generic_native_white_xy = {0.3127, 0.3290};

/// Luminance of red + green + blue relative to the native white where a generic panel has a white emitter (modelling choice; it
/// matters for the drive alone).
inline constexpr double generic_colour_luminance = 0.45;

namespace detail {

/// Red, green and blue scaled so that together they read the native white with luminance `luminance`.
void balance(EmissionSpectra& spectra, const Sampling& sampling, double luminance);

}  // namespace detail

/// The spectra of a generic model, balanced: white at full drive reads generic_native_white_xy with luminance 1 (in the unit of
/// Tristimulus), red + green + blue the same, or generic_colour_luminance of it where there is a white emitter.
/// @param values  one a parameter of the model. Throws as GenericModel::emission, and Error (singular) for dependent primaries.
SAMELIGHT_API PanelSpectra generic_spectra(const GenericModel& model,
                                           std::span<const double> values,
                                           const Sampling& sampling = {});

/// The same with the model's default values.
inline PanelSpectra generic_spectra(const GenericModel& model, const Sampling& sampling = {}) {
    return generic_spectra(model, model.default_values(), sampling);
}

/// A generic model as a panel, named as the model. values: one a parameter of the model, in its unit. Throws as generic_spectra.
inline Panel generic_panel(const GenericModel& model, std::span<const double> values,
                           const Sampling& sampling = {}) {
    return Panel(std::string(model.name()), generic_spectra(model, values, sampling), sampling)
        .made_from(model);
}

/// The same with the model's default values.
inline Panel generic_panel(const GenericModel& model, const Sampling& sampling = {}) {
    return generic_panel(model, model.default_values(), sampling);
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/generic_panel.ipp"
#endif
