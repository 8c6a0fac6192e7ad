#pragma once
// The luminances that readings give to full white and to black: the ends of what the display is meant to show.
#include <optional>
#include <span>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Luminances of full white and of black as the readings have them; absent: not read.
struct MeasuredEnds {
    std::optional<double> white_cd_m2 = {}, black_cd_m2 = {};
};

/// The ends from readings: the mean luminance of signals of 1, 1, 1 (or patches named white, grey-100), and of 0, 0, 0 (black, grey-0), of those in the
/// middle of the screen, in the mode and window that most readings there have: what is read elsewhere is of another white.
/// Y in cd/m2; a black may be below 0 by its noise. Throws nothing but std::bad_alloc. Source: own rule.
SAMELIGHT_API MeasuredEnds measured_ends(std::span<const PatchReading> readings);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/readings/impl/measured_ends.ipp"
#endif
