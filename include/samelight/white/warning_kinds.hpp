#pragma once
// What may be doubtful about a white target, its reference or what it rests on.
#include <array>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/warning_kind.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The kinds of warnings that this room gives; see WarningKind for how facts are written.
inline constexpr std::array<WarningKind, 13> white_warning_kinds{{
    // Two observers pull the white opposite ways, from where it is.
    {"observers_opposed", "first:text second:text from:white_now|reference"},
    // White is a sum of the columns in unlike amounts: one was misread, to so many times what is right.
    {"column_misread", "red_amount green_amount blue_amount primary:red|green|blue times_right"},
    // White is a sum of the columns in other amounts: columns read at a lower level, or a white that was limited.
    {"white_of_other_level",
     "red_amount green_amount blue_amount likely:columns_lower|white_limited"},
    // White holds light that is none of red, green or blue: their luminance together over white's, and how far off they are.
    {"white_is_base",
     "luminance_ratio delta_x delta_y likely:white_emitter|white_emitter_or_level"},
    // The columns have no common scale: what is unknown.
    {"scale_unknown", "unknown:drive|drive_and_light"},
    // Light of a column outside the wavelengths that are used.
    {"light_outside_range", "outside_percent first_nm last_nm step_nm"},
    // Black is too bright to be one.
    {"black_too_bright", "share_of_white_percent"},
    // The target lies outside the gamut: the primary that would have to go below nothing, and the nearest that can be shown.
    {"outside_gamut",
     "observer:text primary:red|green|blue share_percent nearest_x nearest_y distance_uv"},
    // The reference's white is far from every usual one; `set_as` is how to ask for the display as it is set.
    {"reference_white_native",
     "x y distance_xy nearest:text light_of:display|anything set_as:text?"},
    // The reference is a generic model.
    {"reference_generic", ""},
    // Of the reference only x, y are known: read as daylight, and how far from its locus, where that counts; `set_as` as above.
    {"reference_read_as_daylight", "temperature_k shifted_uv? set_as:text?"},
    // A match by eye that no normal eye would set: where it is, and where one of that age would.
    {"eye_far_from_normal", "viewer:text? x y expected_x expected_y"},
    // The budget leaves out which observer describes the eye.
    {"observer_left_out", ""},
}};

}  // namespace samelight
