#pragma once
// Whether a display shows what it is meant to: every patch against the chosen white and the plain one, the verdict, and what is wrong where it
// doesn't.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/faults/fault.hpp"
#include "samelight/check/faults/find_faults.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/proof/grey_track.hpp"
#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/check/proof/proof_side.hpp"
#include "samelight/check/proof/proof_targets.hpp"
#include "samelight/check/proof/uniformity.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// Readings of one visit, corrected, and the display that they are meant to be about each white.
struct CheckedReadings {
    std::string source;
    std::vector<PatchReading> readings;
    IntendedDisplay chosen, plain;
};

/// What is asked.
struct CheckRequest {
    CheckedReadings now;
    std::optional<CheckedReadings> before = {};
    /// A white was chosen; where it is that of `plain` to four places of x, y, nothing is judged about the plain one.
    bool white_chosen = false;
    /// Whether the luminance of white is the measured one.
    WhiteLevel white_level = WhiteLevel::as_measured;
    ProofGate gate = {};
    /// What single patches must read, in place of what the chosen display shows of their signals. `chosen` then has their white.
    std::optional<ProofTargets> targets = {};
    /// Of the codes that names of patches stand for.
    Quantisation quantisation{8, SignalRange::full};
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// What to do.
enum class CheckVerdict {
    /// It shows what it is meant to, with a guard band.
    pass,
    /// It doesn't.
    fail,
    /// The readings can't tell.
    cannot_tell,
    /// What speaks against the display are readings that are in doubt themselves.
    read_again
};

/// "pass", "fail", "cannot_tell" or "read_again".
inline const char* code_of(CheckVerdict verdict) {
    constexpr std::array<const char*, 4> codes = {"pass", "fail", "cannot_tell", "read_again"};
    return codes.at(static_cast<std::size_t>(verdict));
}

/// Why.
enum class CheckReason {
    /// The probability of conformity alone.
    conformity,
    /// The patches over the gate are misread, exchanged, drifting or disagree with their repeats.
    doubtful_patches,
    /// All readings are off as no display makes them.
    instrument,
    /// They were corrected, and white and primaries are off together, these by no more than the correction of another display moves them, or one of the two
    /// is and the gate can't tell: which is wrong shows when they are read with the right one.
    correction
};

/// "conformity", "doubtful_patches", "instrument" or "correction".
inline const char* code_of(CheckReason reason) {
    constexpr std::array<const char*, 4> codes = {"conformity", "doubtful_patches", "instrument",
                                                  "correction"};
    return codes.at(static_cast<std::size_t>(reason));
}

/// One visit, judged.
struct CheckedVisit {
    std::string source;
    ProofReadings readings;
    ProofSide chosen;
    /// Where another white was chosen.
    std::optional<ProofSide> plain = {};
    GreyTrack greys;
    std::vector<Uniformity> screen;
    FoundFaults found;
    /// Where the panel's gamut is smaller than the encoding's: the patches inside it, judged by themselves; absent where none is.
    std::optional<GateAnswer> inside_gamut = {};
    /// Readings of patches that the targets lack, which are left out.
    std::size_t without_target = 0;
};

/// Two visits by the patches that both have.
struct SharedPatches {
    /// How many both have, and how many one of them alone.
    std::size_t in_both = 0, only_now = 0, only_before = 0;
    /// Groups of those in both, about the chosen white; MeasureSummary::at counts among these.
    std::vector<GroupSummary> now = {}, before = {};

    /// Both have the same.
    [[nodiscard]] bool all() const noexcept { return only_now + only_before == 0; }
};

/// The whole answer.
struct CheckAnswer {
    CheckVerdict verdict = CheckVerdict::cannot_tell;
    CheckReason reason = CheckReason::conformity;
    double gate = 3.0;
    /// Patches over the gate, as measured, about the chosen white.
    std::size_t over_gate = 0;
    CheckedVisit now;
    std::optional<CheckedVisit> before = {};
    /// Present with `before`.
    std::optional<SharedPatches> shared = {};
};

/// Whether a cause speaks of how it was measured rather than of the display.
SAMELIGHT_API bool of_readings(FaultKind kind);

/// Whether a cause speaks of where white and primaries lie, which a wrong correction moves as well as a wrong setting does.
SAMELIGHT_API bool of_correction_too(FaultKind kind);

/// Judges the visit. Throws as sort_readings(), prove() and find_faults(), and Error (input) where the targets have none of the patches.
SAMELIGHT_API CheckAnswer answer_check(const CheckRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/check/impl/check.ipp"
#endif
