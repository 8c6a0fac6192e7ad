#pragma once
// The bodies of check/faults/fault.hpp.

#include <array>
#include <cstddef>

#include "samelight/check/faults/fault.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE const char* code_of(FaultKind kind) {
    constexpr std::array<const char*, 30> codes = {"white_off",
                                                   "luminance_off",
                                                   "gamma_other",
                                                   "channel_gamma",
                                                   "offset",
                                                   "channel_offset",
                                                   "black_lifted",
                                                   "black_tinted",
                                                   "clipped",
                                                   "crushed",
                                                   "merged_levels",
                                                   "reversed_step",
                                                   "limiter",
                                                   "white_emitter",
                                                   "drift",
                                                   "misread",
                                                   "exchanged",
                                                   "wrong_range",
                                                   "channels_exchanged",
                                                   "wrong_encoding",
                                                   "gamut_smaller",
                                                   "wrong_curve",
                                                   "other_roll_off",
                                                   "instrument_off",
                                                   "saturation_off",
                                                   "hue_off",
                                                   "primary_off",
                                                   "uneven_luminance",
                                                   "uneven_colour",
                                                   "repeats_disagree"};
    return codes.at(static_cast<std::size_t>(kind));
}

}  // namespace samelight
