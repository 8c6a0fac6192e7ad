#pragma once
// A visit to displays, planned: which steps in which order, their minutes, and what is left out where time is short.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/visits/visit_steps.hpp"
#include "samelight/colour/signals/quantisation.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A picture mode that is to be set.
struct VisitMode {
    std::string name = {};
    /// Its peak is measured in windows.
    bool windows = false;
};

/// A display that is visited.
struct VisitDisplay {
    std::string name;
    /// One or more; the most important first.
    std::vector<VisitMode> modes = {VisitMode{}};
    /// Minutes until it is steady, from when the visit begins, where readings say so; absent: times.warm_up_min from switching on.
    std::optional<double> steady_in_min = {};
};

/// What a visit is planned from.
struct VisitRequest {
    /// One or more; the most important first.
    std::vector<VisitDisplay> displays;
    /// At hand, above 0.
    double minutes = 0.0;
    VisitInstruments instruments = VisitInstruments::both;
    /// How long the displays were on when the visit begins.
    double on_for_min = 0.0;
    VisitTimes times = {};
    Quantisation quantisation = {10, SignalRange::full};
};

/// What is left out, in the order in which it goes.
enum class VisitOmission {
    /// 4 windows instead of 8.
    windows_few,
    /// 32 colours of the proof instead of 120.
    proof_few,
    /// 7 greys instead of 13.
    greys_few,
    /// Cyan, magenta and yellow.
    mixtures,
    windows,
    proof,
    /// A whole mode.
    mode,
    /// A whole display.
    display
};

/// "windows_few", "proof_few", "greys_few", "mixtures", "windows", "proof", "mode" or "display".
inline const char* code_of(VisitOmission omission) {
    constexpr std::array<const char*, 8> codes = {
        "windows_few", "proof_few", "greys_few", "mixtures", "windows", "proof", "mode", "display"};
    return codes.at(static_cast<std::size_t>(omission));
}

/// One step of the plan.
struct VisitPlanStep {
    VisitStep step;
    /// Which of the request's displays and of its modes.
    std::size_t display, mode;
    StepReadings readings;
    /// From when the visit begins, and how long it takes.
    double start_min, minutes;
};

/// What was left out.
struct VisitLeftOut {
    VisitOmission what;
    std::size_t display, mode;
    /// What the visit becomes longer by with it.
    double minutes;
};

/// The plan.
struct VisitPlan {
    /// In the order in which they are done.
    std::vector<VisitPlanStep> steps;
    /// In the order in which it went.
    std::vector<VisitLeftOut> left_out;
    double total_min = 0.0;
    /// Of these, those in which nothing can be done but wait.
    double waiting_min = 0.0;
    /// What the least that is worth a visit takes beyond the minutes at hand; 0: it fits.
    double missing_min = 0.0;
};

/// Plans a visit.
///
/// All displays are switched on as the visit begins, so that one warms up while another is measured; first comes the one that is steady first, of
/// equal ones in the order given. In each mode: white with both instruments, set it, white again, primaries, black, greys, windows where the mode has
/// them, proof. Primaries with both instruments are read in a display's first mode alone: its correction holds in the others. Where the minutes don't
/// do, things go one by one in the order of VisitOmission, each from the last display and mode to the first; then whatever fits again comes back,
/// last out first in. The first display's first mode keeps its whites, primaries, black and few greys.
/// Unit: min. Throws Error (domain) for no display, a display without a mode, minutes that aren't above 0 and up to 10,000, times that aren't 0 or
/// more and finite.
/// Own rule.
SAMELIGHT_API VisitPlan plan_visit(const VisitRequest& request);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/visits/impl/visit_plan.ipp"
#endif
