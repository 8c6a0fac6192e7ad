#pragma once
// Luminances that can't be what they are said to be: a reading of another size than its repeats, a colour that doesn't add up with the others.
#include <optional>
#include <string>
#include <vector>

#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What a luminance is beside that says it is odd.
enum class LuminanceBeside {
    own_repeats,         ///< what it is as a rule
    other_primaries,     ///< what makes white with the other two
    primaries_together,  ///< what red, green and blue give together
    white,               ///< what white has
    other_colours        ///< what the reference lets expect, by the other colours
};

/// "own_repeats", "other_primaries", ...
SAMELIGHT_API const char* code_of(LuminanceBeside beside);

/// A luminance that is off by a factor.
struct OddLuminance {
    std::string patch;
    int round = 0;       ///< 0: all of them
    double times = 1.0;  ///< what was read over what it should be
    LuminanceBeside beside = LuminanceBeside::own_repeats;
    std::optional<Instrument> by = {};  ///< who read it; nothing: both instruments
};

/// Luminances off by more than this factor are odd (common practice, no source): flicker, drift and the limiters of bright displays do less.
inline constexpr double odd_luminance_factor = 3.0;

/// And this one between the instruments on one patch, against the others (common practice, no source): filters do less.
inline constexpr double odd_luminance_ratio = 1.5;

namespace detail {

/// What both instruments say of a patch and round becomes one entry.
SAMELIGHT_API std::vector<OddLuminance> merged(const std::vector<OddLuminance>& odd);

}  // namespace detail

/// Luminances that are off by a factor: of one reading against its patch's middle one (three repeats or more), of red, green or blue against what white's
/// chromaticity makes of them, of white against the three together (by ten), of any colour against white, and of one instrument against the other on one
/// patch. Methods on chromaticities alone don't feel it in x and y, but a reading that was written down wrong is no proof of anything.
/// @param set  black taken off
/// @param values  of raw channels the meter's are no luminances: not compared with the reference's
SAMELIGHT_API std::vector<OddLuminance> odd_luminances(
    const ReadingSet& set, MeterValues values = MeterValues::tristimulus);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/odd_luminances.ipp"
#endif
