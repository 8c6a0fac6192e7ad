#pragma once
// What may be doubtful about paired readings, corrections and the choice of one.
#include <array>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/warning_kind.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The kinds of warnings that this room gives; see WarningKind for how facts are written.
inline constexpr std::array<WarningKind, 25> meter_warning_kinds{{
    // No filter meter has these rows, or these corrections: a channel too far off, scales too unlike, or filters that would be too far off.
    {"no_such_meter", "reason:row|scales|corrections channel:text? off_percent? scale_ratio?"},
    // Four emitters, which no matrix corrects exactly: the method, and what is left on white and at the worst.
    {"four_emitters", "method:text measure:xy|lm_shares white_left worst:text worst_left"},
    // Columns (of one patch) look exchanged, XYZ: shifted by one. Given and mended: how far lights are from adding, or what a correction leaves.
    {"columns_look_exchanged",
     "instruments:both|reference|meter|one columns:xy|XY|XZ|YZ|XYZ patch:text? shown_by:additivity|names|correction given_xy? mended_xy?"},
    // White as the reference reads it is no display's.
    {"white_looks_odd", "x y"},
    // Black was read once and not taken off.
    {"black_read_once", ""},
    // Black isn't above its noise and wasn't taken off.
    {"black_in_noise", "instrument:reference|meter luminance_cd_m2 noise_cd_m2"},
    // A row of a meter is cut off where it still answers.
    {"rows_cut", "meter:text row:text at_nm"},
    // Rows of one peak, whose scales were set on illuminant A.
    {"rows_scaled", "meter:text"},
    // The spectra aren't of the display that was read: a patch by both. `correction`: the stored one that says so.
    {"panel_spectra_differ",
     "correction:text? panel:text patch:text spectra_x spectra_y reference_x reference_y"},
    // The meter's luminances over the reference's, less 100 %.
    {"luminances_apart", "off_percent"},
    // How far the instruments are apart before correction, root mean square.
    {"instruments_far_apart", "distance_xy"},
    // A reading outside the disc in which a correction from one white holds.
    {"outside_validity", "radius_xy near_x near_y distance_xy"},
    // A patch scatters so many times as much as the others.
    {"noise_differs", "quantity:x|y instrument:reference|meter times patch:text"},
    // The weighted fit had not settled.
    {"weights_not_settled", "rounds"},
    // Made from one white alone: the disc in which it holds.
    {"white_only", "radius_xy near_x near_y"},
    // No repeats, so that nothing is known about noise.
    {"no_repeats", ""},
    // White moved: in one round, or in the middle one of so many that moved the same way. `felt`: whether the method feels it.
    {"drift",
     "instrument:reference|meter luminance_percent distance_xy round? rounds? felt:yes|no"},
    // No colour was left out to prove the fit.
    {"no_colour_left_out", ""},
    // No round tells drift.
    {"drift_unknown", ""},
    // A luminance off by a factor, beside what.
    {"odd_luminance",
     "patch:text round? by:reference|meter|both times beside:own_repeats|other_primaries|primaries_together|white|other_colours"},
    // A reading far from its repeats; which of how many of its patch and round.
    {"odd_reading",
     "round patch:text reading readings_in_round quantity:text instrument:reference|meter times_usual"},
    // A patch that the correction doesn't fit.
    {"odd_patch", "patch:text distance_xy times_usual"},
    // The same correction twice.
    {"same_correction", "correction:text same_as:text"},
    // The corrections at hand are those of a meter further off than supposed.
    {"meter_worse_than_supposed", "times mismatch_percent"},
    // The corrections name different meters.
    {"different_meters", "first:text second:text"},
}};

}  // namespace samelight
