#pragma once
// Luminances that can't be what they are said to be: a reading of another size than its repeats, a colour that doesn't add up with the
// others. Own rules.
#include <optional>
#include <string>
#include <vector>

#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What a luminance is beside that says it is odd.
enum class LuminanceBeside {
    /// What it is as a rule.
    own_repeats,
    /// What makes white with the other two.
    other_primaries,
    /// What red, green and blue give together.
    primaries_together,
    /// What white has.
    white,
    /// What the reference lets expect, by the other colours.
    other_colours
};

/// "own_repeats", "other_primaries", ...
SAMELIGHT_API const char* code_of(LuminanceBeside beside);

/// A luminance that is off by a factor.
struct OddLuminance {
    std::string patch;
    /// 0: all of them
    int round = 0;
    /// What was read over what it should be.
    double times = 1.0;
    LuminanceBeside beside = LuminanceBeside::own_repeats;
    /// Who read it; nothing: both instruments.
    std::optional<Instrument> by = {};
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
