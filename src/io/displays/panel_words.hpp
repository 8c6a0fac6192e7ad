#pragma once
// A word for a display or a light, taken apart.
#include <optional>
#include <string>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/io/spectral_csv.hpp"

namespace samelight::io::detail {

using SetWhite = std::optional<Chromaticity<Cie1931_2deg>>;

/// A name without its @x,y, and the x, y.
struct Asked {
    std::string name;
    SetWhite set_to;
};

/// Throws Error (input) for an @x,y that is no chromaticity.
Asked take_apart(const std::string& text);

/// A display from a file's lights. Throws Error (input) where red, green or blue is missing, and as Panel.
/// @param columns  what the list is called that tells which columns these are; empty: there is none
NamedPanel panel_from_file(const SpectralFile& file, const SetWhite& set_to,
                           const Sampling& sampling, const std::string& columns);

/// One display from files that have been read, whose lights bear their roles' names. As read_display_files().
SpectralFile assembled(std::vector<SpectralFile> parts);

/// "red.csv and 4 more".
std::string title_of(const std::string& first_file, std::size_t files);

}  // namespace samelight::io::detail
