#pragma once
// The red, green and blue colour filters of the generic models that have a white light behind them.
#include <array>
#include <cstddef>
#include <span>

#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::generic {

/// How many parameters a set of filters takes, and in which order.
inline constexpr std::size_t filter_parameter_count = 6;

/// Filters of a liquid-crystal panel: blue passes up to its edge, green between two, red from its
/// edge on. The leakage stands for everything that lets a primary shine through a closed or foreign
/// filter: the dye's own floor, scattering, imperfect polarisation. Source: no published figure was
/// found for filter sets as such; see each line.
inline constexpr std::array<ModelParameter, filter_parameter_count> lcd_filter_parameters{{
    {"blue filter, long edge", "nm", 500.0, 490.0, 510.0,
     "from memory: blue and green filters of panels cross near 495 nm; range a modelling choice",
     ParameterKind::wavelength},
    {"green filter, short edge", "nm", 488.0, 480.0, 496.0,
     "from memory: blue and green filters of panels cross near 495 nm; range a modelling choice",
     ParameterKind::wavelength},
    {"green filter, long edge", "nm", 582.0, 574.0, 590.0,
     "from memory: green and red filters of panels cross near 588 nm; range a modelling choice",
     ParameterKind::wavelength},
    {"red filter, short edge", "nm", 592.0, 584.0, 600.0,
     "from memory: green and red filters of panels cross near 588 nm; range a modelling choice",
     ParameterKind::wavelength},
    {"filter edge width, 10 to 90 %", "nm", 40.0, 30.0, 50.0,
     "modelling choice: of the blue and green filters; the red filter's edge is half as wide",
     ParameterKind::width},
    {"filter leakage", "1", 0.01, 0.002, 0.03,
     "modelling choice: share of the light let through where the filter should block",
     ParameterKind::share},
}};

/// The filters in front of a white emitter that has no liquid crystal before it: less leakage, and
/// green and red cut further apart, because the emitter's yellow-green band is at its strongest
/// between them.
inline constexpr std::array<ModelParameter, filter_parameter_count> oled_filter_parameters{{
    {"blue filter, long edge", "nm", 500.0, 490.0, 510.0,
     "modelling choice: as for a liquid-crystal panel", ParameterKind::wavelength},
    {"green filter, short edge", "nm", 488.0, 480.0, 496.0,
     "modelling choice: as for a liquid-crystal panel", ParameterKind::wavelength},
    {"green filter, long edge", "nm", 575.0, 565.0, 585.0,
     "modelling choice: far enough below the red edge for a BT.709 green",
     ParameterKind::wavelength},
    {"red filter, short edge", "nm", 600.0, 590.0, 610.0,
     "modelling choice: where a yellow-green emitter gives a BT.709 red",
     ParameterKind::wavelength},
    {"filter edge width, 10 to 90 %", "nm", 40.0, 30.0, 50.0,
     "modelling choice: of the blue and green filters; the red filter's edge is half as wide",
     ParameterKind::width},
    {"filter leakage", "1", 0.003, 0.001, 0.01,
     "modelling choice: below a liquid-crystal panel's, whose leakage is partly the crystal's",
     ParameterKind::share},
}};

/// A white light's three filters.
struct SAMELIGHT_API ColourFilters {
    ColourFilter red;
    ColourFilter green;
    ColourFilter blue;

    /// From filter_parameter_count values in the order of the lists above. Edges in nm, transmittances without unit, as the lists say.
    /// Throws Error (domain) where the green filter's edges are in the wrong order.
    static ColourFilters from(std::span<const double> values);

    /// The three primaries that these filters make of one light.
    [[nodiscard]] EmissionSpectra primaries(const EmittedLight& light) const;
};

}  // namespace samelight::generic

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/generic_filters.ipp"
#endif
