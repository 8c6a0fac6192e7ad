#pragma once
// What is doubtful about a spectrum that a panel, a reference or a white is made of, and what that may do to its chromaticity.
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/quality_flags.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Warnings `noisy` and `clipped` as quality_flags(), and `sampling_coarse` as judge_sampling(), with how far line_uncertainty() says that each
/// unresolved line may move x and y. Of a black nobody asks how finely it was sampled.
/// @param source  the display, file or light that the column belongs to: the fact `source` of each
/// Throws as chromaticity(). Own limits; see quality_flags.hpp and sampling_guard.hpp.
SAMELIGHT_API std::vector<Warning> light_flags(const ColumnInQuestion& column,
                                               const std::string& source,
                                               const Sampling& sampling = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/impl/light_flags.ipp"
#endif
