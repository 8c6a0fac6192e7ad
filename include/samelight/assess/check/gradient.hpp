#pragma once
// Whether an adjustment shows in gradients, and how mild it may be.
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/check/gradients/adjustment.hpp"
#include "samelight/check/gradients/coded_ramp.hpp"
#include "samelight/check/gradients/drive_limit.hpp"
#include "samelight/check/gradients/measured_ramp.hpp"
#include "samelight/check/gradients/trade_off.hpp"
#include "samelight/check/intent/intended_display.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::assess {

/// What is asked for: an adjustment, or a ramp that was measured with it, or both.
struct GradientRequest {
    /// As it is meant to be, about the chosen white: its curve and primaries stand for the panel's.
    IntendedDisplay intended;
    std::optional<Adjustment> adjustment = {};
    /// Of picture and panel, 8 to 16.
    int bits = 10;
    /// With the adjustment, and before it.
    std::optional<MeasuredRamps> ramp = {}, ramp_before = {};
    /// For what accuracy it gains; none: that isn't weighed.
    std::vector<ProvedColour> colours = {};
    ReadWhen colours_read = ReadWhen::without;
    /// CIEDE2000 that no colour shall exceed, above 0.
    double gate = 3.0;
    /// Threads that the work is divided over; 0: as many as the machine has (threads_meant()). No digit depends on it.
    std::size_t threads = 1;
};

/// What was worked out at one depth.
struct DepthFindings {
    int bits = 8;
    bool made = false;
    /// The step that gains most.
    WorstStep worst = {};
    /// Of the greys, the channel that loses most.
    std::size_t lost = 0;
    /// Of all ramps: neighbours alike, longest run of them, channels that turn round.
    std::size_t merged = 0, longest_flat = 1, reversals = 0;
};

/// An adjustment worked out on all codes.
struct AdjustmentFindings {
    Adjustment adjustment;
    /// At the depth that was asked for.
    std::vector<RampFindings> ramps;
    /// Of the ramp with the step that gains most.
    std::size_t worst = 0;
    /// At 8, 10 and 12 bits, and the one asked for where it is another.
    std::vector<DepthFindings> depths;
    /// One for each part.
    std::vector<DriveLimit> limits;
    TradeOff trade;

    /// It makes a visible step.
    [[nodiscard]] bool shows() const { return ramps[worst].worst.made; }
};

/// What was measured.
struct MeasuredGradients {
    std::vector<MeasuredFindings> ramps;
    /// Of the ramp that shows most.
    std::size_t worst = 0;
    /// Relative scatter of one reading, and whether it is known.
    double noise = 0.0;
    bool noise_known = false;
    bool before_measured = false;
};

/// The whole answer.
struct GradientAnswer {
    /// By what was measured where that decides, else by what was worked out.
    StepVerdict verdict = StepVerdict::does_not_show;
    bool by_measurement = false;
    int bits = 10;
    double gate = 3.0;
    /// How many colours the accuracy is judged by, and when they were read.
    std::vector<ProvedColour> colours = {};
    ReadWhen colours_read = ReadWhen::without;
    CurveOptions curve = {};
    std::optional<AdjustmentFindings> adjustment = {};
    std::optional<MeasuredGradients> measured = {};
};

/// Works the answer out. Throws Error (input) where there is neither an adjustment nor a ramp, or where a ramp before has other signals; Error
/// (domain) as RampSet, drive_limit(), trade_off().
SAMELIGHT_API GradientAnswer answer_gradient(const GradientRequest& request);

}  // namespace samelight::assess

#if !SAMELIGHT_COMPILED
#include "samelight/assess/check/impl/gradient.ipp"
#endif
