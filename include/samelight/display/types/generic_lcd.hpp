#pragma once
// Generic liquid-crystal panels: four backlights behind one kind of colour filters. Sources: beside each parameter; what else is chosen is
// said to be.
#include <array>
#include <cstddef>
#include <span>

#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_filters.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"

/// The models' physics. Behind filters the relative power of a backlight's bands sets the native
/// white and the colour of what leaks, and hardly the colour match, as the three primaries span
/// nearly the same lights whatever it is. Where no source gives a power it is a constant here,
/// chosen so that all three primaries at full drive give a white near daylight of 7500 to 8500 K,
/// a usual native white (from memory).
namespace samelight::inline SAMELIGHT_FORM::generic {

/// Every backlight takes this many values before the filters'.
inline constexpr std::size_t lcd_light_parameter_count = 4;

/// One line of a spectrum: height and width at half height.
struct Line {
    double peak_nm;
    double fwhm_nm;
    double height;
};

// ---- Cold-cathode fluorescent lamp ------------------------------------------------------------

inline constexpr auto lcd_ccfl_parameters = joined(
    std::array<ModelParameter, lcd_light_parameter_count>{{
        {"blue phosphor peak", "nm", 450.0, 445.0, 455.0,
         "from memory: BaMgAl10O17:Eu, lamp phosphor handbooks; range a modelling choice",
         ParameterKind::wavelength},
        {"blue phosphor power", "1", 0.40, 0.27, 0.60,
         "modelling choice: CIE 15:2018 FL11, a lamp of 4000 K, leaves 0.27 of its light to this "
         "band and all that isn't listed; a display's lamp is bluer",
         ParameterKind::factor},
        {"mercury line power at 435.8 nm", "1", 0.085, 0.05, 0.12,
         "CIE 15:2018 FL11, share of its area within 7.5 nm (derived); range a modelling choice",
         ParameterKind::factor},
        {"phosphor line width", "nm", 6.0, 3.0, 10.0,
         "modelling choice: one width for each unresolved group of europium or terbium lines",
         ParameterKind::width},
    }},
    lcd_filter_parameters);

/// The lamp, before the filters. Line groups' powers: areas in CIE 15:2018 FL11 (derived from its 5
/// nm table), terbium's raised by half to go with the bluer lamp (modelling choice, see above). The
/// blue phosphor's width, 52.5 nm, is the middle of 50-55 nm (from memory, lamp phosphor
/// handbooks).
SAMELIGHT_API EmittedLight ccfl_light(std::span<const double> values, const Sampling& sampling);

// ---- White LED --------------------------------------------------------------------------------

inline constexpr auto lcd_white_led_parameters = joined(
    std::array<ModelParameter, lcd_light_parameter_count>{{
        {"blue die peak", "nm", 450.0, 445.0, 455.0,
         "CIE 15:2018 LED-B3, LED-B4, LED-B5 (derived); range a modelling choice",
         ParameterKind::wavelength},
        {"yellow phosphor peak", "nm", 555.0, 550.0, 565.0,
         "CIE 15:2018 LED-B5 (derived); high end LED-B4, low end a modelling choice",
         ParameterKind::wavelength},
        {"yellow phosphor width", "nm", 137.0, 120.0, 162.0,
         "CIE 15:2018 LED-B5 and LED-B4 (derived); high end LED-B3, low end a modelling choice",
         ParameterKind::width},
        {"yellow phosphor height", "1", 0.50, 0.40, 0.64,
         "CIE 15:2018 LED-B5, of the blue peak (derived); high end LED-B4, low end a modelling "
         "choice",
         ParameterKind::factor},
    }},
    lcd_filter_parameters);

/// A blue die under a yellow phosphor, before the filters. The phosphor's height is relative to the
/// die's own peak. The die's width, 24 nm, is that of CIE 15:2018 LED-B3 to LED-B5, 23.7 to 25.2 nm
/// with the phosphor's foot under it (derived). 0.4 of the phosphor's width lies below its peak,
/// which makes its long red tail (modelling choice; that the band is asymmetric shows in LED-B5).
SAMELIGHT_API EmittedLight white_led_light(std::span<const double> values,
                                           const Sampling& sampling);

// ---- Blue LED, green phosphor, red phosphor of narrow lines -----------------------------------

inline constexpr auto lcd_narrow_red_parameters = joined(
    std::array<ModelParameter, lcd_light_parameter_count>{{
        {"blue die peak", "nm", 450.0, 445.0, 455.0,
         "CIE 15:2018 LED-B3, LED-B4, LED-B5 (derived); range a modelling choice",
         ParameterKind::wavelength},
        {"green phosphor peak", "nm", 535.0, 530.0, 540.0,
         "beta-SiAlON:Eu, Wang et al. 2015, Opt. Express 23:28707; low end RbLi(Li3SiO4)2:Eu, "
         "Liao et al. 2018, Adv. Mater. 30:1802489; high end from memory: Hirosaki et al. 2005, "
         "Appl. Phys. Lett. 86:211905",
         ParameterKind::wavelength},
        {"green phosphor width", "nm", 54.0, 42.0, 55.0,
         "beta-SiAlON:Eu, Wang et al. 2015, Opt. Express 23:28707; low end RbLi(Li3SiO4)2:Eu, "
         "Liao et al. 2018, Adv. Mater. 30:1802489; high end from memory: Hirosaki et al. 2005, "
         "Appl. Phys. Lett. 86:211905",
         ParameterKind::width},
        {"red phosphor, short-wave lines", "1", 1.0, 0.7, 1.2,
         "modelling choice: factor on the three lines below 620 nm; 0.7 to 0.94 is what a "
         "Boltzmann estimate at 300 K gives two of them (derived)",
         ParameterKind::factor},
    }},
    lcd_filter_parameters);

/// Adds the narrow lines of K2SiF6:Mn4+ with `power` in all; `short_wave` (>= 0) is a factor on the
/// heights of the three lines below 620 nm.
/// Source: main line near 631 nm, 3 nm wide: Wang et al. 2015, Opt. Express 23:28707. Positions,
/// widths and heights of the others from memory, after the review of Sijbom et al. 2017, Opt.
/// Mater. Express 7:3332; to be checked against it before they are relied upon.
SAMELIGHT_API void add_narrow_red_lines(EmittedLight& light, double power, double short_wave);

/// A blue die under a green and a narrow-line red phosphor, before the filters. Die's width as in
/// white_led_light(). Powers of green and red, 1.3 and 1.0 of the die's, are a modelling choice
/// (see above). Wavelengths in nm, power relative.
SAMELIGHT_API EmittedLight narrow_red_light(std::span<const double> values,
                                            const Sampling& sampling);

// ---- Blue LED and a film of quantum dots ------------------------------------------------------

inline constexpr auto lcd_quantum_dot_parameters = joined(
    std::array<ModelParameter, lcd_light_parameter_count>{{
        {"blue die peak", "nm", 450.0, 445.0, 455.0,
         "from memory: the usual blue die; range a modelling choice", ParameterKind::wavelength},
        {"green dot peak", "nm", 528.5, 525.0, 532.0,
         "from memory: middle of 525 nm (CdSe; Luo, Chen & Wu 2013, Opt. Express 21:26269; Zhu et "
         "al. 2015, Opt. Express 23:23680) and 532 nm (InP)",
         ParameterKind::wavelength},
        {"red dot peak", "nm", 630.0, 625.0, 635.0,
         "from memory: CdSe and InP alike (as for green); range a modelling choice",
         ParameterKind::wavelength},
        {"dot width", "nm", 32.0, 25.0, 40.0,
         "film, 30-34 nm: Chen, Gensler & Yurek 2015, SPIE Newsroom 5791; ends from memory: CdSe "
         "25 nm, InP 36-45 nm",
         ParameterKind::width},
    }},
    lcd_filter_parameters);

/// A bare blue die behind a film of green and red dots, before the filters. The die's width, 19 nm,
/// is from memory (typical 18-22 nm). Powers of green and red, 1.2 of the die's each, are a
/// modelling choice (see above).
SAMELIGHT_API EmittedLight quantum_dot_light(std::span<const double> values,
                                             const Sampling& sampling);

// ---- The models -------------------------------------------------------------------------------

/// The primaries of the backlight that `Light` makes of its values, behind filters of the rest. values: one a parameter, in its unit (nm,
/// or relative).
template <EmittedLight (*Light)(std::span<const double>, const Sampling&)>
EmissionSpectra lcd_emission(std::span<const double> values, const Sampling& sampling) {
    const auto filters = ColourFilters::from(values.subspan(lcd_light_parameter_count));
    return filters.primaries(Light(values, sampling));
}

inline constexpr GenericModel lcd_ccfl{
    {"lcd-ccfl", "LCD with a fluorescent-tube backlight",
     "A thick panel that takes minutes to reach full brightness; black glows; through a "
     "diffraction grating white falls apart into separate sharp images, strongest in green and "
     "orange-red."},
    lcd_ccfl_parameters,
    lcd_emission<ccfl_light>};

inline constexpr GenericModel lcd_white_led{
    {"lcd-white-led", "LCD with a white-LED backlight (blue die, yellow phosphor)",
     "Black glows, more so from the side; through a diffraction grating white shows a blue band, a "
     "dark gap at cyan, then an even run from green to deep red."},
    lcd_white_led_parameters,
    lcd_emission<white_led_light>};

inline constexpr GenericModel lcd_narrow_red{
    {"lcd-narrow-red",
     "LCD with a wide-gamut LED backlight (green phosphor, narrow-line red phosphor)",
     "Black glows, more so from the side; through a diffraction grating blue and green are smooth "
     "bands while red falls apart into a few sharp lines."},
    lcd_narrow_red_parameters,
    lcd_emission<narrow_red_light>};

inline constexpr GenericModel lcd_quantum_dot{
    {"lcd-quantum-dot", "LCD with a quantum-dot backlight (blue die, green and red dots)",
     "Black glows, more so from the side; through a diffraction grating white shows three smooth "
     "bands with dark gaps between them, and red doesn't fall apart into lines."},
    lcd_quantum_dot_parameters,
    lcd_emission<quantum_dot_light>};

}  // namespace samelight::generic

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/generic_lcd.ipp"
#endif
