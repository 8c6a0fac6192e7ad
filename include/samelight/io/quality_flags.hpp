#pragma once
// What is doubtful about a file's column besides its sampling: noise and clipping.
#include <vector>

#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/quality_flags.hpp"

namespace samelight::io {

using samelight::clipped_code;

/// What samelight::quality_flags() says of a column; of one that plays the role of black (see SpectralFile::find()) as of a black.
SAMELIGHT_API std::vector<Warning> quality_flags(const LightColumn& column);

}  // namespace samelight::io
