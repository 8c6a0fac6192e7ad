#pragma once
// Readings as they are typed: x,y or x,y,Y.
#include <optional>
#include <string>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// What is read, which decides what can be meant.
enum class ReadingOf {
    /// x, y, with or without a Y above 0.
    light,
    /// The same, and a Y of 0 for what is darker than the instrument can read, whatever its x, y.
    black,
    /// x, y, or x, y, Y of which only the colour counts: what a display is to look like.
    colour
};

/// What an instrument read, in numbers.
struct ReadingTyped {
    Chromaticity<Cie1931_2deg> xy;
    /// Y, where it was given
    std::optional<double> luminance;
};

/// x,y or x,y,Y. None where `text` isn't meant as numbers: it is a name or a file then (./0.3,0.3 for a file of that name).
/// @param where  what the error names first: the option
/// Throws Error (input) for numbers that are no chromaticity or no luminance.
std::optional<ReadingTyped> reading_typed(const std::string& text, const std::string& where,
                                          ReadingOf of = ReadingOf::light);

/// The reference that --reference names: x,y as numbers (daylight_reference()), or else as io::open_reference(). That a Y isn't used stands in
/// `understood`. Throws Error as these.
io::NamedReference reference_typed(const std::string& text, const Sampling& sampling);

}  // namespace samelight::report
