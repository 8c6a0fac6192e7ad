#pragma once
// What may be doubtful about a file.
#include <array>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/warning_kind.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The kinds of warnings that this room gives; see WarningKind for how facts are written.
inline constexpr std::array<WarningKind, 15> io_warning_kinds{{
    // Values below zero that are kept as noise: the columns and the lowest value of each.
    {"negative_noise", "columns:text[] lowest[]"},
    // The columns look normalised each to its own peak.
    {"scale_unknown", "peak"},
    // Columns that can't be in one unit: the light of the weakest over that of the strongest.
    {"scales_differ", "weakest:text strongest:text share"},
    // The widest gap between wavelengths.
    {"coarse_step", "from_nm to_nm"},
    // A light taken for what was asked, though its heading says another one.
    {"light_called_otherwise", "light:red|green|blue|white|black heading:text file:text"},
    // Repeats that spread.
    {"repeats_differ", "column:text spread_percent"},
    // A unit that isn't one of spectral radiance.
    {"unit_not_radiance", "unit:text"},
    // Readings with a flag; the first, and its line.
    {"flagged", "readings flag:text line"},
    // Rows of a list that hold no reading yet; the line of the first.
    {"unread_rows", "rows line"},
    // Readings of several picture modes.
    {"several_modes", "modes"},
    // Readings of several windows, of the screen.
    {"several_windows", "least_percent most_percent"},
    // Rows that say the same as an earlier one to the last digit, and count once; the first, and its line.
    {"same_rows", "file:text rows line"},
    // Windows of at most 1, where per cent of the screen are meant.
    {"windows_look_like_shares", "file:text least most"},
    // Levels of a list of at most 1, where per cent of the signal are meant: how many, and the largest.
    {"levels_look_like_shares", "file:text levels largest"},
    // Codes of exactly the ends of limited range, where nothing names the range.
    {"codes_look_limited", "file:text least most"},
}};

}  // namespace samelight
