#pragma once
// One patch at several positions of the screen: how far the others are from the centre, and whether the white holds everywhere.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// One position against the centre and against the target.
struct PositionReading {
    std::string position;
    double luminance_cd_m2 = 0.0;
    /// Of the centre's, minus 1; 0 at the centre.
    double luminance = 0.0;
    /// From the centre, u', v'.
    double duv = 0.0;
    /// From the target's u', v'.
    double target_duv = 0.0;
};

/// One patch across the screen.
struct Uniformity {
    std::string patch;
    /// Equal signals of 1.
    bool white = false;
    /// The centre first.
    std::vector<PositionReading> positions;
    /// The largest differences from the centre: of u', v', and relative in luminance, with their positions.
    double largest_duv = 0.0, largest_luminance = 0.0;
    std::size_t duv_at = 0, luminance_at = 0;
    /// The position that is farthest from the target's u', v', and how far.
    double largest_target_duv = 0.0;
    std::size_t target_at = 0;
};

/// Each patch that was read at two or more positions, repeats averaged; the brightest first. Luminances in cd/m2. Readings without light are left
/// out.
/// Throws nothing but std::bad_alloc and what IntendedDisplay does. Own rule.
SAMELIGHT_API std::vector<Uniformity> uniformity(const std::vector<PlacedReading>& placed,
                                                 const IntendedDisplay& intended);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/proof/impl/uniformity.ipp"
#endif
