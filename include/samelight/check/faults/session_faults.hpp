#pragma once
// Faults of the visit and of the screen: drift, windows, positions, repeats.
#include <cstddef>
#include <vector>

#include "samelight/check/faults/fault.hpp"
#include "samelight/check/faults/model_fit.hpp"
#include "samelight/check/faults/patch_faults.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/check/proof/uniformity.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A stretch of the visit in which the light was another: of a patch read four times or more, two readings in a row or more that are over 6 standard
/// deviations and over 1 % in luminance or 0.0012 in u', v' from its middle; else five points in a row or more whose luminance departs from the model
/// by over 1 % to the same side, by over 9 standard deviations together. The points in it are marked in `found`.
/// Throws nothing but std::bad_alloc. Own rule.
SAMELIGHT_API void add_drift(const ProofReadings& readings, const ModelFit& fit,
                             const ModelState& state, PatchFindings& found);

/// A patch of 90 % of the signal or more that is over 7 % darker in a larger window than in the smallest: one finding, of a grey where one is so, else of
/// the patch that it takes most from.
/// Throws nothing but std::bad_alloc. Own rule.
SAMELIGHT_API std::vector<Fault> window_faults(const ProofReadings& readings);

/// A screen whose white is over 15 % off the centre's luminance, or over 0.004 in u', v' (common practice, no source). Throws nothing but
/// std::bad_alloc.
SAMELIGHT_API std::vector<Fault> screen_faults(const std::vector<Uniformity>& screen);

/// Patches whose repeats disagree, each once. Throws nothing but std::bad_alloc. As stray_repeats().
SAMELIGHT_API std::vector<Fault> repeat_faults(const ProofReadings& readings);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/faults/impl/session_faults.ipp"
#endif
