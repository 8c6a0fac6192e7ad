#pragma once
// What the numbers along a spectrum are: wavelengths in some unit, or something else.
#include <string_view>

namespace samelight::io::detail {

enum class AxisUnit {
    unsaid,
    nanometre,
    micrometre,
    angstrom,
    metre,
    other_length,  ///< one that nobody uses for light (cm), or two units at once
    wavenumber,    ///< 1/cm and the like: per length
    frequency,
    energy
};

/// What a heading, or the unit behind a number, says of the numbers: "wavelength_nm", "Wavelength (\u00b5m)", "\u03bd [THz]", "cm-1". nm has the last word.
AxisUnit axis_unit(std::string_view text);

/// True for text that can't mean anything but an axis of frequencies or wavenumbers: terahertz, wavenumbers.
bool names_frequency_axis(std::string_view text);

/// True for what is a wavelength but for a power of ten, or nothing at all.
bool is_wavelength(AxisUnit unit);

/// The power of ten from a unit of length to nm; 0 where none is said. Not for what is no wavelength.
int power_to_nm(AxisUnit unit);

/// For people: "micrometres", "a frequency"; empty where none is said.
const char* name_of(AxisUnit unit);

}  // namespace samelight::io::detail
