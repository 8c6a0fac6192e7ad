#pragma once
// What is doubtful about a spectrum that a panel, a reference or a white is made of, and what that may do to its chromaticity.
#include <string>
#include <vector>

#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/column_doubts.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Warnings `noisy` and `clipped` as column_doubts(), and `sampling_coarse` as judge_sampling(), with how far line_doubt() says that each
/// unresolved line may move x and y. Of a black nobody asks how finely it was sampled.
/// @param source  the display, file or light that the column belongs to; each message begins with it
/// Throws as chromaticity().
SAMELIGHT_API std::vector<Warning> light_doubts(const ColumnInQuestion& column,
                                                const std::string& source,
                                                const Sampling& sampling = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/impl/light_doubts.ipp"
#endif
