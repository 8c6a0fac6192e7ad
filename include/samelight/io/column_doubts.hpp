#pragma once
// What is doubtful about a measured column besides its sampling: noise and clipping, in the words that every command uses.
#include <vector>

#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::io {

/// Code of the warning that a column was cut off at the top: whatever is worked out from it is of no light that was there.
inline constexpr const char* clipped_code = "clipped";

/// Warnings `noisy` (more than 1 % of the peak in each sample; not of a black, which usually is) and `clipped` (clipped_code: cut off at the
/// top, as flat_tops() finds it, with wavelengths and numbers of samples). Each begins with the column's name.
SAMELIGHT_API std::vector<Warning> column_doubts(const LightColumn& column);

}  // namespace samelight::io
