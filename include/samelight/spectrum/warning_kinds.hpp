#pragma once
// What may be doubtful about a measured spectrum.
#include <array>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/warning_kind.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The kinds of warnings that this room gives; see WarningKind for how facts are written.
inline constexpr std::array<WarningKind, 3> spectrum_warning_kinds{{
    // Noise in each sample of the column, of its peak, is over 1 %.
    {"noisy", "source:text? column:text noise_percent"},
    // The column is cut off at the top, as by a saturated instrument: from where to where, and how many samples each time.
    {"clipped", "source:text? column:text from_nm[] to_nm[] samples[]"},
    // Lines narrower than 1.5 steps, with the part of the column's light that each holds; and, where it was asked what that does to the
    // colour, each line that may move it, and how far in x and y (none: it moves amounts alone).
    {"sampling_coarse",
     "source:text? column:text lines_nm[] light_percent[] step_nm wanted_step_nm uncertain_nm[]? delta_x[]? delta_y[]?"},
}};

}  // namespace samelight
