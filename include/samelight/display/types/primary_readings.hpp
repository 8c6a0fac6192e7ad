#pragma once
// What an instrument without spectra reads of a display: its red, green, blue and white in numbers.
#include <array>
#include <optional>
#include <string>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"

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

/// Throws Error (input), `where` first, for readings that are no display's: a red that isn't the reddest (largest x), a green that isn't the
/// greenest (largest y), a blue that isn't the bluest (smallest y), a white outside their triangle, luminances or a noise out of range.
SAMELIGHT_API void require_readings(const PrimaryReadings& readings, const std::string& where);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/primary_readings.ipp"
#endif
