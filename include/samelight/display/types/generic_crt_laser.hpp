#pragma once
// Generic cathode-ray tube (a measured one) and generic laser projection. Sources: beside each parameter and the table; what else is chosen
// is said to be.
#include <array>
#include <span>

#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/tables/crt_primaries.hpp"

namespace samelight::inline SAMELIGHT_FORM::generic {

// ---- Cathode-ray tube -------------------------------------------------------------------------

inline constexpr std::array<ModelParameter, 4> crt_parameters{{
    {"green band shift", "nm", 0.0, -5.0, 5.0,
     "0: the measured table (psychtoolbox-3-common, B_monitor); range a modelling choice",
     ParameterKind::shift},
    {"blue band shift", "nm", 0.0, -5.0, 5.0,
     "0: the measured table (psychtoolbox-3-common, B_monitor); range a modelling choice",
     ParameterKind::shift},
    {"red phosphor, lines of 680-720 nm", "1", 1.0, 0.8, 1.2,
     "1: the measured table (psychtoolbox-3-common, B_monitor); range a modelling choice",
     ParameterKind::factor},
    {"red phosphor, lines of 530-545 nm", "1", 1.0, 0.7, 1.3,
     "1: the measured table (psychtoolbox-3-common, B_monitor); range a modelling choice, as "
     "these lines depend on how much europium the phosphor holds",
     ParameterKind::factor},
}};

/// The grid of the measured primaries: 380-780 nm by 5 nm.
SAMELIGHT_API Sampling crt_sampling();

/// The measured primaries of one tube, moved as the values say, on the table's own grid whatever
/// the sampling asked for (GenericModel::emission says why).
///
/// A shifted column is the table read, linearly, at the unshifted wavelengths; a shift of 0 leaves
/// it as it is, to the bit. Every sample's light is thereby shared between its two new neighbours:
/// area and centroid are kept, except for what leaves 380-780 nm (below 0.5 % of a column's light
/// for shifts up to 5 nm). A shift moves the whole column, so also the faint red lines that it
/// holds besides its own band.
SAMELIGHT_API EmissionSpectra crt_emission(std::span<const double> values,
                                           const Sampling& /*asked*/);

// ---- Three lasers -----------------------------------------------------------------------------

inline constexpr std::array<ModelParameter, 4> laser_rgb_parameters{{
    {"red peak", "nm", 638.0, 630.0, 645.0,
     "from memory: projector practice, 638-645 nm, of which the end nearer to BT.2020's 630 nm "
     "(derived), the range's low end",
     ParameterKind::wavelength},
    {"green peak", "nm", 525.0, 520.0, 532.0,
     "from memory: projector practice, 520-532 nm, direct diodes near 525 nm; BT.2020: 532 nm "
     "(derived)",
     ParameterKind::wavelength},
    {"blue peak", "nm", 465.0, 445.0, 467.0,
     "from memory: projector practice, 445-465 nm, of which the end nearer to BT.2020's 467 nm "
     "(derived), the range's high end",
     ParameterKind::wavelength},
    {"line width", "nm", 2.0, 1.0, 3.0, "from memory: projector practice, 1-3 nm; the middle",
     ParameterKind::width},
}};

/// Three Gaussian lines of power 1 and one width. values: in the order of laser_rgb_parameters, nm; spectra relative.
SAMELIGHT_API EmissionSpectra laser_rgb_emission(std::span<const double> values,
                                                 const Sampling& sampling);

// ---- The models -------------------------------------------------------------------------------

inline constexpr GenericModel crt{
    {"crt", "CRT (tube) monitor or television",
     "A deep, heavy glass tube; through a loupe, glowing dots or stripes in three colours; through "
     "a diffraction grating blue and green are broad and smooth while red shows a few sharp lines."},
    crt_parameters,
    crt_emission};

inline constexpr GenericModel laser_rgb{
    {"laser-rgb", "Projector or display lit by red, green and blue lasers",
     "A fine grainy shimmer that moves with the head; through a diffraction grating every small "
     "white thing shows as three razor-sharp copies, red, green and blue, with nothing between."},
    laser_rgb_parameters,
    laser_rgb_emission};

}  // namespace samelight::generic

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/generic_crt_laser.ipp"
#endif
