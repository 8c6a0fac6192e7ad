#pragma once
// What a file of readings is asked before anything is said of its display.
#include <string>
#include <vector>

#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::report {

/// Readings as the instrument gave them, and the correction that is applied to them, if any.
struct ReadingsAsked {
    std::string source;
    std::vector<PatchReading> as_read;
    const Correction* correction = nullptr;
};

/// Whether columns of x and y are exchanged, find_exchanged_columns() behind the correction. Throws Error (input), one line, where that is sure; a
/// warning, xy_look_exchanged, where greys alone tell it.
void require_columns_in_order(const ReadingsAsked& asked, std::vector<Warning>& warnings);

/// No display's full white reads less, cd/m2. Own choice.
inline constexpr double most_relative_white_cd_m2 = 2.0;

/// Whether the full white reads as luminances relative to white do: no more than most_relative_white_cd_m2, or exactly 100. Own rule.
/// @param white_cd_m2  measured_ends()
bool looks_relative(double white_cd_m2);

/// The warning luminance_looks_relative where the readings' full white does. Before any correction, which may carry a scale.
void ask_about_luminance(const ReadingsAsked& asked, std::vector<Warning>& warnings);

}  // namespace samelight::report
