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

/// Whether the luminance of the intended white is the measured one, or was asked for.
enum class WhiteLevel { as_measured, asked_for };

/// What is asked of a proof.
struct ProofGate {
    /// Largest CIEDE2000: 3 (common practice, no source).
    double gate = 3.0;
    /// What the readings were corrected with.
    std::optional<Correction> correction = {};
    WhiteLevel white = WhiteLevel::as_measured;
};

/// The visit against one intended display.
struct ProofSide {
    IntendedDisplay intended;
    /// One a point.
    std::vector<ColourGap> gaps;
    std::vector<GroupSummary> groups;
    GateAnswer gate;
};

/// What answer_gate() is asked about the points: with enough patches, the errors that a whole display can have are looked for in all of them together. Throws as colour_gap(). Own rule.
SAMELIGHT_API GateQuestion gate_question(const ProofReadings& readings,
                                         const IntendedDisplay& intended, const ProofGate& gate);

/// All points against the intended display. u', v' are left out where the noise alone hides chromaticity_gate, 19 times in 20. Throws as colour_gap(), answer_gate(). Own rule.
SAMELIGHT_API ProofSide prove(const ProofReadings& readings, const IntendedDisplay& intended,
                              const ProofGate& gate);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/proof/impl/proof_side.ipp"
#endif
