#pragma once
// All faults of a visit's readings, each cause beside the others.
#include <cstddef>
#include <vector>

#include "samelight/check/faults/fault.hpp"
#include "samelight/check/faults/model_causes.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/check/proof/uniformity.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What is asked.
struct FaultQuestion {
    ProofReadings readings;
    /// About the chosen white.
    IntendedDisplay intended;
    /// Whether its luminance is the measured one.
    WhiteLevel white = WhiteLevel::as_measured;
    std::vector<Uniformity> screen = {};
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// What was found.
struct FoundFaults {
    /// What matters most first.
    std::vector<Fault> faults;
    /// Patches over DE00 3 that no cause explains, of all.
    std::size_t unexplained = 0;
    /// Points that a panel of a smaller gamut can't show, ascending.
    std::vector<std::size_t> outside_gamut = {};
};

/// Explains the whole picture first, then single levels and patches, then the visit; the picture once more without what those explain. Throws what
/// IntendedDisplay does. Own method.
SAMELIGHT_API FoundFaults find_faults(const FaultQuestion& question);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/faults/impl/find_faults.ipp"
#endif
