#pragma once
// A visit's readings sorted: one point a patch, repeats compared, other windows and positions apart.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/check/proof/proof_noise.hpp"
#include "samelight/check/proof/shown_patch.hpp"
#include "samelight/check/readings/patch_reading.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A patch as it was measured: the mean of its readings that agree.
struct ProofPoint {
    ShownPatch shown;
    /// Mean X, Y, Z, cd/m2.
    std::array<double, 3> xyz{};
    /// Readings in the mean.
    std::size_t count = 1;
    /// Of the first reading: line of the file, and place in the order in which they were read.
    std::size_t line = 0, order = 0;
    /// Mean X, Y, Z that the instrument must read, cd/m2; absent: what the intended display shows of the signal.
    std::optional<std::array<double, 3>> target = {};
};

/// A repeat that the others don't agree with.
struct OddRepeat {
    std::string patch;
    std::size_t line = 0;
    double off_sd = 0.0, off_delta_e = 0.0;
};

/// A reading of a patch that was also read in windows of other sizes.
struct WindowReading {
    ShownPatch shown;
    double window_pct = 0.0;
    /// X, Y, Z, cd/m2
    std::array<double, 3> xyz{};
    std::size_t line = 0;
};

/// A reading at a named position.
struct PlacedReading {
    ShownPatch shown;
    /// As the file has it.
    std::string position;
    /// X, Y, Z, cd/m2
    std::array<double, 3> xyz{};
    std::size_t line = 0;
};

/// One of several readings of one patch, in the order of time.
struct TimedReading {
    /// Which of ProofReadings::points.
    std::size_t point = 0;
    /// From 0, in the order of time or of the file.
    std::size_t order = 0;
    std::optional<double> time_s = {};
    /// X, Y, Z, cd/m2
    std::array<double, 3> xyz{};
};

/// All of a visit.
struct ProofReadings {
    /// In the order in which they were first read.
    std::vector<ProofPoint> points;
    ProofNoise noise;
    std::vector<OddRepeat> odd_repeats;
    /// The window of `points`; absent where the file has none.
    std::optional<double> window_pct = {};
    /// Of patches read in more than one window; those of the points' own window included.
    std::vector<WindowReading> windows;
    /// Where more than one position was read: the first position of them is the centre, or the one that is named so.
    std::vector<PlacedReading> placed;
    /// Of the points that were read more than once.
    std::vector<TimedReading> repeats;
    /// The picture mode that the points are of, and readings in others, which are left out.
    std::string mode;
    std::size_t in_other_modes = 0;
};

/// Where readings came from, for errors.
struct ReadingsPlace {
    std::string source;
};

/// Sorts the readings. Points are of the picture mode, the window and the position that most readings have; the position is the centre where one is
/// named so. Patches read in other windows alone are points, too. X, Y, Z in cd/m2; white: near the full white, for judging repeats. Throws Error
/// (input), place and line first, for a reading that neither has a signal nor a name that is understood, and where nothing is left; as
/// require_readings(). Own rule.
SAMELIGHT_API ProofReadings sort_readings(const std::vector<PatchReading>& readings,
                                          const SignalNames& names,
                                          const std::array<double, 3>& white,
                                          const ReadingsPlace& place);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/proof/impl/proof_readings.ipp"
#endif
