#pragma once
// Readings as they are typed: x,y or x,y,Y.
#include <optional>
#include <string>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::report {

/// What an instrument read, in numbers.
struct ReadingTyped {
    Chromaticity<Cie1931_2deg> xy;
    /// Y, where it was given
    std::optional<double> luminance;
};

/// x,y or x,y,Y. None where `text` isn't meant as numbers: it is a name or a file then (./0.3,0.3 for a file of that name).
/// @param where  what the error names first: the option
/// Throws Error (input) for numbers that are no chromaticity or no luminance.
std::optional<ReadingTyped> reading_typed(const std::string& text, const std::string& where);

/// The reference that --reference names: x,y as numbers (daylight_reference()), or else as io::open_reference(). Throws Error as these.
io::NamedReference reference_typed(const std::string& text, const Sampling& sampling);

}  // namespace samelight::report
