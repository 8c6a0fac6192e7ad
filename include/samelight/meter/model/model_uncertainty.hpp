#pragma once
// How good a correction from spectra is, as far as the wavelengths of the spectra are right.
#include "samelight/display/panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/observer.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What the white is left off by, distance in x, y of the correction's observer, where the wavelengths are not what they were taken for.
/// The larger of both directions.
struct ModelUncertainty {
    /// How far the panel's light was moved.
    double panel_shift_nm = 0.0;
    double panel_xy = 0.0;
    /// How far the meter's rows were moved.
    double meter_shift_nm = 0.0;
    double meter_xy = 0.0;
};

/// How far wavelengths may be off.
struct ModelShifts {
    /// Of the panel's light: units of a make differ by 1.5-2 nm in their peaks; a spectroradiometer's wavelengths are good to .3 nm or so
    /// (common practice, no source).
    double panel_nm = 1.0;
    /// Of rows as a maker states them (common practice, no source).
    double meter_nm = 1.0;
};

/// A meter before a panel, and whose values it is to give. Lends all.
struct MeterBefore {
    /// Its rows, on the panel's sampling.
    const Sensitivities& meter;
    const Panel& panel;
    /// Whose values it is to give.
    const Observer& observer;
};

/// What moving the panel's light, and then the meter's rows, by so much does to the corrected white.
/// Throws Error (shape) for two samplings, Error (domain) for an unknown observer. Own estimate.
SAMELIGHT_API ModelUncertainty model_uncertainty(const MeterBefore& asked,
                                                 const Correction& correction,
                                                 const ModelShifts& shifts = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/model/impl/model_uncertainty.ipp"
#endif
