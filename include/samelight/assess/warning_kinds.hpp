#pragma once
// What may be doubtful about a whole answer, besides what the lower rooms say.
#include <array>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/warning_kind.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The kinds of warnings that this room gives; see WarningKind for how facts are written.
inline constexpr std::array<WarningKind, 27> assess_warning_kinds{{
    // How sure the target is can't be worked out.
    {"doubt_left_out", ""},
    // Setting the displays together was refused; the three parts of that error.
    {"room_left_out", "place:text found:text wanted:text"},
    // The lines disagree about the shift.
    {"lines_disagree", "column:text disagreement_nm"},
    // The bandwidth isn't known and the lines don't show it.
    {"bandwidth_unknown", "column:text"},
    // A line is narrower than the bandwidth lets through.
    {"bandwidth_too_wide", "column:text narrowest_nm bandwidth_nm"},
    // Samples held at nothing.
    {"held_at_nothing", "column:text samples"},
    // The noise of a sample over what it was.
    {"noise_gain", "column:text times"},
    // The lowest value, of the brightest light's peak.
    {"below_nothing", "column:text lowest_percent"},
    // None of the lines was found.
    {"no_line", "reach_nm"},
    // The white as it stands isn't made of this panel's three or four lights; or, of a type, how far it would have to be moved.
    {"now_of_another_display",
     "emitters? left_over_percent? type:text? type_nm? nearest_type:text? nearest_nm?"},
    // The white as it stands may be of another type; `nearest_type` where one is nearer.
    {"now_perhaps_of_another_type", "type:text type_nm nearest_type:text? nearest_nm?"},
    // The white as it stands is none.
    {"now_is_no_white", "x y"},
    // The white that was read of a display in numbers is none.
    {"read_white_is_no_white", "x y"},
    // An age moved into the formula's range.
    {"viewer_age_moved", "viewer:text age_years worked_out_for_years"},
    // An age that isn't known: the eye is that of anyone of these ages.
    {"viewer_age_unknown", "viewer:text youngest_years oldest_years"},
    // No unit of the type reads so: the primary that the nearest leaves furthest off. The readings are believed less for it.
    {"readings_unlike_type", "type:text primary:red|green|blue distance_xy"},
    // The same of a primary that is so far off that the display is of another type.
    {"readings_of_another_type", "type:text primary:red|green|blue distance_xy"},
    // Red, green and blue are those of a standard, so near: a picture mode may make them so of any panel.
    {"primaries_of_standard", "standard:text distance_xy"},
    // What can't be judged, as the panel can't show the target, or the white to be replaced (x, y). `viewers`: whether any are named.
    {"not_judged", "reason:target_outside_gamut|white_outside_gamut viewers:yes|no x? y?"},
    // Luminance is off by a factor.
    {"row_scale_odd", "factor"},
    // f1' of the second row.
    {"rows_far_off", "off_percent"},
    // A row without an answer where its function has a part.
    {"lobe_missing", "channel:text from_nm to_nm"},
    // The meter is the observer.
    {"meter_is_observer", ""},
    // Keys of a correction file that mean nothing to this version.
    {"unknown_keys", "correction:text keys:text[]"},
    // A correction was made with a doubt: that warning's code, and behind it that warning's facts.
    {"made_with_doubt", "correction:text doubt:text"},
    // A correction keeps no spectra.
    {"no_panel_spectra", "correction:text"},
    // A panel can't be compared; the three parts of the error that says why.
    {"panel_left_out", "panel:text place:text found:text wanted:text"},
}};

}  // namespace samelight
