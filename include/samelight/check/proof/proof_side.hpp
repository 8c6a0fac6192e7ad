#pragma once
// A visit against one white: every patch, the groups, and the gate.
#include <optional>
#include <vector>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/proof/conformity.hpp"
#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What is asked of a proof.
struct ProofGate {
    /// Largest CIEDE2000: 3 (common practice, no source).
    double gate = 3.0;
    /// What the readings were corrected with.
    std::optional<Correction> correction = {};
};

/// The visit against one intended display.
struct ProofSide {
    IntendedDisplay intended;
    /// One a point.
    std::vector<ColourGap> gaps;
    std::vector<GroupSummary> groups;
    GateAnswer gate;
};

/// All points against the intended display. u', v' are left out where the noise alone hides chromaticity_gate, 19 times in 20. Throws as
/// colour_gap(), answer_gate(). Own rule.
SAMELIGHT_API ProofSide prove(const ProofReadings& readings, const IntendedDisplay& intended,
                              const ProofGate& gate);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/proof/impl/proof_side.ipp"
#endif
