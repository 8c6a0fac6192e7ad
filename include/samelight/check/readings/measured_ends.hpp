#pragma once
// The luminances that readings give to full white and to black: the ends of what the display is meant to show.
#include <optional>
#include <span>
#include <string>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Luminances of full white and of black as the readings have them; absent: not read.
struct MeasuredEnds {
    std::optional<double> white_cd_m2 = {}, black_cd_m2 = {};
};

/// The ends from readings: the mean luminance of signals of 1, 1, 1 (or patches whose names signal_named() takes for it: white, grey-100, 100%), and of 0, 0, 0 (black, grey-0, 0%), of
/// one_picture(): what is read elsewhere is of another white. Where its window has none of them, of its other windows.
/// Y in cd/m2; a black may be below 0 by its noise. Throws nothing but std::bad_alloc. Source: own rule.
SAMELIGHT_API MeasuredEnds measured_ends(std::span<const PatchReading> readings);

/// Between which luminances a full white is a display's, cd/m2: below, an instrument reads its own noise. Own choice.
inline constexpr double least_white_cd_m2 = 0.1, most_white_cd_m2 = 1e5;

/// Refuses a full white, cd/m2, that is none of a display's. @param which  stands in brackets behind the luminance in the message ("now", "10 %");
/// empty: nothing
/// Throws Error (input) below least_white_cd_m2, above most_white_cd_m2 and for what is no number.
SAMELIGHT_API void require_display_white(double cd_m2, const std::string& which = "");

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/readings/impl/measured_ends.ipp"
#endif
