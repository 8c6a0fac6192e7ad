#pragma once
// What a visit measures: its steps, their patches, and how long readings take.
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The steps of a visit, in the order in which they are done before one display in one mode.
enum class VisitStep {
    /// Waiting, and white meanwhile: whether the display is steady.
    warm_up,
    /// White with both instruments in turn.
    white_first,
    /// White set to its target by the meter.
    set_white,
    /// White with both again: whether it stands where it was set.
    white_again,
    /// Red, green, blue and white, which a correction is made from; and their mixtures.
    primaries,
    black,
    /// Greys of the proof.
    greys,
    /// White in windows of growing size.
    windows,
    /// The proof's colours that are no greys.
    proof
};

/// "warm_up", "white", "set_white", "white_again", "primaries", "black", "greys", "windows" or "proof".
inline const char* code_of(VisitStep step) {
    constexpr std::array<const char*, 9> codes = {"warm_up",     "white",     "set_white",
                                                  "white_again", "primaries", "black",
                                                  "greys",       "windows",   "proof"};
    return codes.at(static_cast<std::size_t>(step));
}

/// How long one reading takes, s, by the light that is read.
struct ReadingTimes {
    /// From 1 cd/m2.
    double bright_s = 0.0;
    /// From .05 cd/m2.
    double dim_s = 0.0;
    double dark_s = 0.0;
};

/// How long everything takes. Common practice, no source: take your own instruments' times where you know them.
struct VisitTimes {
    ReadingTimes meter{1.5, 4.0, 8.0}, reference{6.0, 25.0, 60.0};
    /// A pattern changes and the display settles, s.
    double pattern_s = 2.0;
    /// Grey between two windows, so that the display doesn't dim, s.
    double rest_s = 5.0;
    /// One instrument takes the other's place, s.
    double exchange_s = 30.0;
    /// Instruments and patterns made ready before one display, min.
    double set_up_min = 5.0;
    /// Another mode chosen, min.
    double mode_min = 2.0;
    /// White moved to its target, min.
    double adjust_min = 8.0;
    /// From switching on until white is steady, min.
    double warm_up_min = 45.0;
};

/// Which instruments there are.
enum class VisitInstruments {
    /// A reference (a spectroradiometer) and a meter that it corrects.
    both,
    meter
};

/// "both" or "meter".
inline const char* code_of(VisitInstruments instruments) {
    return instruments == VisitInstruments::both ? "both" : "meter";
}

/// One patch of a step.
struct VisitPatch {
    std::string name;
    /// R', G', B': 0 black, 1 white.
    std::array<double, 3> signal{};
    /// Share of the screen's area, above 0 to 100.
    double window_pct = 10.0;
};

/// What one step reads, round after round.
struct StepReadings {
    std::vector<VisitPatch> patches;
    int rounds = 1;
    /// The first so many patches are read by the reference, too.
    std::size_t with_reference = 0;
    /// Grey stands between the patches.
    bool rests = false;

    /// Readings of the meter, and of the reference: counts.
    [[nodiscard]] std::size_t meter_readings() const {
        return patches.size() * static_cast<std::size_t>(rounds);
    }
    [[nodiscard]] std::size_t reference_readings() const {
        return with_reference * static_cast<std::size_t>(rounds);
    }
};

/// How much of a step is read.
enum class StepExtent {
    full,
    /// Half or less of its patches, those that tell most.
    part
};

/// What a step reads: white_first 3 rounds of white, white_again 2; primaries 2 rounds of red, green, blue, white (with both instruments) and, in
/// full, of cyan, magenta and yellow; black 3 rounds; greys the proof's 13 or 7 of them; windows of 1, 2, 5, 10, 25, 50, 75 and 100 %, or 2, 10, 50,
/// 100 %; the proof's 120 colours that are no greys, or 32 of them: its skin, and the hues at half and at full saturation. Signals as whole
/// codes of `quantisation` have them. Nothing for warm_up and set_white. Throws nothing but std::bad_alloc. Own choice of counts; windows and
/// levels are common practice, no source.
SAMELIGHT_API StepReadings step_readings(VisitStep step, StepExtent extent,
                                         VisitInstruments instruments,
                                         const Quantisation& quantisation);

/// How long a step's readings take, min: for each reading a pattern and the instrument, by the light of a display of 100 cd/m2 and exponent
/// 2.4; an exchange of instruments a round where both read; rests where there are any. For set_white the time of moving the controls. Unit: min. Own
/// rule.
SAMELIGHT_API double step_minutes(VisitStep step, const StepReadings& readings,
                                  const VisitTimes& times);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/visits/impl/visit_steps.ipp"
#endif
