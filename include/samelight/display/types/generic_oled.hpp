#pragma once
// Generic organic LED panels: separate emitters, a white emitter behind filters, blue with dots. Sources: beside each parameter; what else
// is chosen is said to be.
#include <array>
#include <span>

#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_filters.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM::generic {

// ---- Separate red, green and blue emitters ----------------------------------------------------

inline constexpr std::array<ModelParameter, 6> oled_rgb_parameters{{
    {"red peak", "nm", 622.5, 615.0, 630.0,
     "from memory: top emission in a microcavity, 615-630 nm; the middle",
     ParameterKind::wavelength},
    {"red width", "nm", 34.0, 30.0, 38.0,
     "from memory: top emission in a microcavity, 30-38 nm; the middle", ParameterKind::width},
    {"green peak", "nm", 526.0, 520.0, 532.0,
     "from memory: top emission in a microcavity, 520-532 nm; the middle",
     ParameterKind::wavelength},
    {"green width", "nm", 31.5, 28.0, 35.0,
     "from memory: top emission in a microcavity, 28-35 nm; the middle", ParameterKind::width},
    {"blue peak", "nm", 460.0, 455.0, 465.0,
     "from memory: top emission in a microcavity, 455-465 nm; the middle",
     ParameterKind::wavelength},
    {"blue width", "nm", 22.5, 20.0, 25.0,
     "from memory: top emission in a microcavity, 20-25 nm; the middle", ParameterKind::width},
}};

/// Three emitters, each a Gaussian band of power 1 (the shape is a modelling choice). values: one a parameter, in its unit (nm, or
/// relative).
SAMELIGHT_API EmissionSpectra oled_rgb_emission(std::span<const double> values,
                                                const Sampling& sampling);

// ---- White emitter behind filters -------------------------------------------------------------

inline constexpr auto oled_white_parameters = joined(
    std::array<ModelParameter, 4>{{
        {"blue emitter peak", "nm", 458.0, 455.0, 461.0,
         "from memory: tandem stack, 458 nm; range a modelling choice", ParameterKind::wavelength},
        {"blue emitter shoulder", "1", 0.3, 0.1, 0.6,
         "modelling choice: height at 485 nm of the blue peak's; that there is a shoulder near "
         "485 nm is from memory",
         ParameterKind::factor},
        {"yellow-green emitter peak", "nm", 560.0, 555.0, 565.0,
         "from memory: phosphorescent, two-stack generation, 560 nm; range a modelling choice",
         ParameterKind::wavelength},
        {"yellow-green emitter width", "nm", 82.5, 75.0, 90.0, "from memory: 75-90 nm; the middle",
         ParameterKind::width},
    }},
    oled_filter_parameters);

/// The stack's light before any filter. Blue width 27.5 nm: the middle of 25-30 nm (from memory).
/// Modelling choices: the shoulder's width, 30 nm, and the yellow-green band's height, half of the
/// blue peak's, at which the white sub-pixel is a bluish white near daylight. The match hardly
/// depends on either.
SAMELIGHT_API EmittedLight oled_white_light(std::span<const double> values,
                                            const Sampling& sampling);

/// Red, green and blue behind filters, and the unfiltered white sub-pixel. values: one a parameter, in its unit (nm, or relative).
SAMELIGHT_API EmissionSpectra oled_white_emission(std::span<const double> values,
                                                  const Sampling& sampling);

// ---- Blue emitter, green and red by quantum dots ----------------------------------------------

inline constexpr std::array<ModelParameter, 8> oled_quantum_dot_parameters{{
    {"blue emitter peak", "nm", 452.0, 448.0, 460.0,
     "just above 450 nm: trade press, not peer reviewed; high end from memory: blue emitters of "
     "455-465 nm",
     ParameterKind::wavelength},
    {"blue emitter width", "nm", 22.5, 20.0, 25.0, "from memory: 20-25 nm; the middle",
     ParameterKind::width},
    {"blue emitter shoulder", "1", 0.3, 0.1, 0.5,
     "modelling choice: height 24 nm above the blue peak; that there is a shoulder: trade press, "
     "not peer reviewed",
     ParameterKind::factor},
    {"green dot peak", "nm", 531.0, 526.0, 536.0,
     "front-of-screen measurement of one panel, trade press, not peer reviewed; range a modelling "
     "choice",
     ParameterKind::wavelength},
    {"green dot width", "nm", 31.0, 28.0, 38.0,
     "front-of-screen measurement of one panel, trade press, not peer reviewed; high end from "
     "memory: InP dots; low end a modelling choice",
     ParameterKind::width},
    {"red dot peak", "nm", 641.0, 630.0, 645.0,
     "front-of-screen measurement of one panel, trade press, not peer reviewed; low end from "
     "memory: InP dots; high end a modelling choice",
     ParameterKind::wavelength},
    {"red dot width", "nm", 35.0, 30.0, 42.0,
     "front-of-screen measurement of one panel, trade press, not peer reviewed; high end from "
     "memory: InP dots; low end a modelling choice",
     ParameterKind::width},
    {"blue leakage", "1", 0.005, 0.0, 0.02,
     "modelling choice: blue that passes the dots, as a power relative to theirs",
     ParameterKind::share},
}};

/// The blue emitter, power 1 without its shoulder, which is as wide as the main band (modelling
/// choice). values: one a parameter, in its unit (nm, or relative).
SAMELIGHT_API EmittedLight oled_quantum_dot_blue(std::span<const double> values,
                                                 const Sampling& sampling);

/// Blue as emitted; green and red from dots that leave a little blue unconverted. values: one a parameter, in its unit (nm, or relative).
SAMELIGHT_API EmissionSpectra oled_quantum_dot_emission(std::span<const double> values,
                                                        const Sampling& sampling);

// ---- The models -------------------------------------------------------------------------------

inline constexpr GenericModel oled_rgb{
    {"oled-rgb", "OLED with separate red, green and blue emitters",
     "Black is black in a dark room; white drifts in colour towards the side; a loupe shows red, "
     "green and blue dots of unequal size; through a diffraction grating white shows three smooth "
     "bands."},
    oled_rgb_parameters,
    oled_rgb_emission};

inline constexpr GenericModel oled_white{
    {"oled-white", "OLED with a white emitter, colour filters and a white sub-pixel",
     "Black is black in a dark room; a loupe shows a fourth, white sub-pixel beside red, green and "
     "blue; through a diffraction grating white shows a blue band and one broad band from green to "
     "orange."},
    oled_white_parameters,
    oled_white_emission};

inline constexpr GenericModel oled_quantum_dot{
    {"oled-quantum-dot", "OLED with a blue emitter and quantum dots for green and red",
     "Black is black in a dark room but turns greyish under room light; white keeps its colour "
     "towards the side; a loupe shows sub-pixels set in a triangle; a diffraction grating shows "
     "three smooth bands."},
    oled_quantum_dot_parameters,
    oled_quantum_dot_emission};

}  // namespace samelight::generic

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/generic_oled.ipp"
#endif
