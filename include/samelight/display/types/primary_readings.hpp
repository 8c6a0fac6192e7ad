#pragma once
// What an instrument without spectra reads of a display: its red, green, blue and white in numbers.
#include <array>
#include <optional>
#include <string>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// One light as read.
struct LightReading {
    Chromaticity<Cie1931_2deg> xy;
    /// Y, above 0, in one unit for all four lights
    std::optional<double> luminance = {};
};

/// A display's lights at full drive as read, black taken off where it was read.
struct PrimaryReadings {
    /// Red, green, blue.
    std::array<LightReading, 3> primaries;
    LightReading white;
    /// Standard deviation of each x and y, above 0 and below 0.1.
    double noise_xy = 0.0005;

    /// Whether all four have a luminance.
    [[nodiscard]] bool luminances_known() const {
        return primaries[0].luminance && primaries[1].luminance && primaries[2].luminance &&
               white.luminance;
    }
};

/// A light as read without the display's black, both with a Y in one unit. None where black leaves nothing of it: Y, or X + Y + Z, isn't
/// above that of black.
/// @param black  all of 0 where it was below what the instrument can read
/// Source: own; tristimulus values of lights add up (CIE 15:2018).
SAMELIGHT_API std::optional<LightReading> above_black(const Tristimulus<Cie1931_2deg>& light,
                                                      const Tristimulus<Cie1931_2deg>& black);

/// What x and y as read lie below together: a laser's red lies so near to 1 that a reading's noise, or its last decimal, carries it
/// there or beyond.
inline constexpr double largest_xy_sum_read = 1.01;

/// Throws Error (input), `where` first, for readings that are no display's: a red that isn't the reddest (largest x), a green that isn't the
/// greenest (largest y), a blue that isn't the bluest (smallest y), a white outside their triangle, luminances of some lights alone, luminances or a noise out of
/// range.
SAMELIGHT_API void require_readings(const PrimaryReadings& readings, const std::string& where);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/primary_readings.ipp"
#endif
