#pragma once
// The bodies of display/types/generic_filters.hpp.

#include <array>
#include <cstddef>
#include <span>
#include <string>

#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_filters.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::generic {

SAMELIGHT_INLINE ColourFilters ColourFilters::from(std::span<const double> values) {
    const double green_short_nm = values[1];
    const double green_long_nm = values[2];
    if (!(green_short_nm < green_long_nm)) {
        throw Error(ErrorKind::domain, "colour filters",
                    "green filter from " + to_text(green_short_nm) + " to " +
                        to_text(green_long_nm) + " nm",
                    "a short edge below the long edge");
    }
    const double width_nm = values[4];
    const double leak = values[5];
    return {
        .red = {.short_edge_nm = values[3], .short_width_nm = 0.5 * width_nm, .leak = leak},
        .green = {.short_edge_nm = green_short_nm,
                  .long_edge_nm = green_long_nm,
                  .short_width_nm = width_nm,
                  .long_width_nm = width_nm,
                  .leak = leak},
        .blue = {.long_edge_nm = values[0], .long_width_nm = width_nm, .leak = leak},
    };
}

SAMELIGHT_INLINE EmissionSpectra ColourFilters::primaries(const EmittedLight& light) const {
    return {.red = light.through(red).spectrum(),
            .green = light.through(green).spectrum(),
            .blue = light.through(blue).spectrum()};
}

}  // namespace samelight::generic
