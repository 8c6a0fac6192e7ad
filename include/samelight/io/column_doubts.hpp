#pragma once
// What is doubtful about a measured column besides its sampling: noise and clipping, in the words that every command uses.
#include <vector>

#include "samelight/io/spectral_csv.hpp"

namespace samelight::io {

/// Warnings `noisy` (more than 1 % of the peak in each sample) and `clipped` (three or more neighbouring samples at the largest value).
std::vector<Warning> column_doubts(const LightColumn& column);

}  // namespace samelight::io
