#pragma once
// Units as people write them in headings.
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace samelight::io::detail {

enum class Quantity {
    spectral_radiance,  ///< power per solid angle, area and wavelength
    other_spectral,     ///< power per wavelength, but not per both of the others
    other               ///< power per something else
};

/// A unit of radiant power per something, found in a text.
struct PowerUnit {
    Quantity quantity = Quantity::other;
    int power_of_ten = 0;  ///< of the unit in W, sr, m2 and nm
    bool mega = false;     ///< begins with MW, which may be meant as milliwatts
    std::size_t begin = 0;
    std::size_t end = 0;
};

/// The first such unit from byte `from` on: "W/(sr m2 nm)", "mW sr-1 m-2 nm-1", "µW/cm²/sr/nm",
/// "W·sr⁻¹·m⁻²·nm⁻¹". What follows the first slash is all taken to be in the denominator. A bare "W" or
/// "mW" is no such unit.
std::optional<PowerUnit> find_unit(std::string_view text, std::size_t from = 0);

/// A name without the units in it and without the brackets and marks that led to them. May be empty.
std::string without_units(std::string name);

}  // namespace samelight::io::detail
