#pragma once
// What pages and JSON say as a warning that no lower room gives.
#include <array>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/warning_kind.hpp"

namespace samelight::report {

/// The kinds of warnings that this room gives; see WarningKind for how facts are written.
inline constexpr std::array<WarningKind, 9> report_warning_kinds{{
    // How the file of ages was read, one of the reader's sentences.
    {"ages_read", "understood:text"},
    // Readings of other picture modes, positions and windows than the one that is judged, each how many; the mode and the window (0: all) that is.
    {"other_pictures", "modes mode:text positions windows window_pct"},
    // Greys of a file of readings are far from daylight, and of it with x and y exchanged.
    {"xy_look_exchanged", "file:text x y exchanged_x exchanged_y"},
    // The white that was typed is far from daylight, and of it with x and y exchanged.
    {"white_looks_exchanged", "x y"},
    // The full white of a file of readings is such as luminances relative to white have.
    {"luminance_looks_relative", "file:text white"},
    // Signals of a list that no code stands for, and that were cut; the first patch.
    {"signals_cut", "file:text patches patch:text"},
    // Codes of a list above white or below black; the first patch.
    {"signals_beyond_white", "file:text patches patch:text"},
    // --months says another time between two visits than their dates.
    {"months_differ", "typed dated"},
    // Readings from before the work that are later, by their dates, than those of now.
    {"before_is_later", "file:text before:text now:text"},
}};

}  // namespace samelight::report
