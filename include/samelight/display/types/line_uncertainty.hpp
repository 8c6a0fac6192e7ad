#pragma once
// What an unresolved line may do to a reading: the guard's verdict turned into x and y.
#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling_guard.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How far the CIE 1931 chromaticity of `light` would move if the line at `peak` had in truth half the light it was read with.
///
/// An instrument whose bandwidth is half its step reads a narrow line that falls on a sample twice as strong as it is, and one
/// that falls between two not at all; the half is therefore what a line that shows at all can be wrong by, at that bandwidth.
/// `peak` is one of peaks(light). Throws as chromaticity(). Own estimate.
SAMELIGHT_API ChromaticityOffset<Cie1931_2deg> line_uncertainty(const Spectrum& light,
                                                                const Peak& peak,
                                                                const Sampling& sampling = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/line_uncertainty.ipp"
#endif
