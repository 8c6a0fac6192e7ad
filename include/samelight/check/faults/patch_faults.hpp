#pragma once
// Faults of single patches and levels: what is left once the whole picture is explained.
#include <array>
#include <cstddef>
#include <vector>

#include "samelight/check/faults/display_model.hpp"
#include "samelight/check/faults/fault.hpp"
#include "samelight/check/faults/model_fit.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Findings about single patches, and the points that they or others explain.
struct PatchFindings {
    std::vector<Fault> faults;
    /// One entry a point: spoken for.
    std::vector<char> explained;
    /// Signals of the merged levels.
    std::vector<std::array<double, 2>> merged = {};
};

/// Grey levels that have the light of the one below, though by the model they are over 1.5 in L* apart; and those that are darker than the one below
/// by more than the noise, while they stay grey. fit: of all points. Throws nothing but std::bad_alloc. Own rule.
SAMELIGHT_API PatchFindings level_faults(const ProofReadings& readings, const ModelFit& fit,
                                         const ModelState& state);

/// Points that lie alone: over 8 standard deviations and a CIELAB distance and a DE00 of 2, and over 5 times the middle one, from the model; and
/// pairs of such that have each other's light. None where over a tenth of all lie so: then the model is wrong, not the patches. `found` holds what is
/// explained already and takes the findings. Throws nothing but std::bad_alloc. Own rule.
SAMELIGHT_API void add_misread(const ProofReadings& readings, const ModelFit& fit,
                               const ModelState& state, PatchFindings& found);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/faults/impl/patch_faults.ipp"
#endif
