#pragma once
// Smooth ramps of all codes, sent through an adjustment and made whole codes again: what is lost, and what shows.
#include <array>
#include <cstddef>
#include <optional>
#include <vector>

#include "samelight/check/gradients/adjustment.hpp"
#include "samelight/check/gradients/coded_display.hpp"
#include "samelight/check/gradients/visible_step.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Along what a ramp runs.
enum class RampKind {
    /// Black to white.
    grey,
    /// Black to a hue in full saturation.
    level,
    /// A grey to a hue, at one level of the largest signal.
    saturation,
    /// Around the hues.
    hue
};

/// "grey", "level", "saturation" or "hue".
inline const char* code_of(RampKind kind) {
    constexpr std::array<const char*, 4> codes = {"grey", "level", "saturation", "hue"};
    return codes.at(static_cast<std::size_t>(kind));
}

/// Neighbours that differ by one code in some channel.
struct CodedRamp {
    RampKind kind = RampKind::grey;
    /// Of level and saturation: 0, 60, ... 300 from red to magenta, degrees.
    int hue_deg = 0;
    /// Of hue: per cent.
    int saturation_pct = 100;
    std::vector<std::array<int, 3>> codes = {};
};

/// The ramps that an adjustment is judged by, all codes of each: grey; black to each of six hues; grey of 75 % to each of them; around the hues at
/// 75 % with saturations of 100 and 50 %. Range: 8 to 16 bits, else Error (domain). Own choice.
SAMELIGHT_API std::vector<CodedRamp> gradient_ramps(int bits);

/// One pair of neighbours.
struct RampStep {
    /// Of the first in its ramp.
    std::size_t index = 0;
    /// Codes that went in and came out.
    std::array<std::array<int, 3>, 2> in{}, out{};
    /// What the eye sees without the adjustment: the larger of the step of the codes that went in and of the same step of codes where they came out.
    VisibleStep before{};
    VisibleStep after{};
    /// By how many visible steps it is the larger for the adjustment, of luminance or colour. Below 0: smaller. Where a channel comes out the other
    /// way round: both steps together.
    double excess = 0.0;
    /// It is over one visible step, and by over one larger than before, or the other way round.
    bool made = false;
    /// First of the two as it is shown, X, Y, Z in cd/m2.
    std::array<double, 3> xyz{};

    /// Of luminance and colour the one that gained more: how many visible steps it was and is.
    [[nodiscard]] std::array<double, 2> gained() const {
        return after.luminance - before.luminance > after.colour - before.colour
                   ? std::array{before.luminance, after.luminance}
                   : std::array{before.colour, after.colour};
    }
    /// One that was made before any that wasn't, then the larger excess. Throws nothing.
    [[nodiscard]] bool is_worse_than(const RampStep& other) const {
        return made != other.made ? made : excess > other.excess;
    }
};

/// What became of one channel's codes.
struct ChannelCodes {
    /// Different codes in and out.
    std::size_t in = 0, out = 0;
    /// Neighbours that come out the other way round.
    std::size_t reversals = 0;

    /// How many fewer come out.
    [[nodiscard]] std::size_t lost() const { return in > out ? in - out : 0; }
};

/// Neighbours that come out alike.
struct FlatRun {
    /// Colours in it, 1 where none are alike.
    std::size_t length = 1;
    /// Of its first in the ramp.
    std::size_t index = 0;
};

/// The largest distance in x, y between neighbours, both of at least a thousandth of the white's luminance.
struct XyJump {
    double distance = 0.0;
    std::size_t index = 0;
};

/// What an adjustment does to one ramp.
struct RampFindings {
    RampKind kind = RampKind::grey;
    int hue_deg = 0, saturation_pct = 100;
    std::array<ChannelCodes, 3> channels{};
    /// Neighbours that came out alike.
    std::size_t merged = 0;
    FlatRun flat{};
    XyJump jump_before{}, jump{};
    /// The largest of those that are seen, and the one by which most is gained over before.
    RampStep largest{}, worst{};
    /// How many the adjustment made.
    std::size_t made = 0;

    /// Of all channels.
    [[nodiscard]] std::size_t reversals() const {
        return channels[0].reversals + channels[1].reversals + channels[2].reversals;
    }
};

/// The largest excess anywhere, and where.
struct WorstStep {
    std::size_t ramp = 0;
    RampStep step{};
};

class RampTrials;

/// gradient_ramps() on one display: what is known without an adjustment is worked out once.
///
/// Own rule of what an adjustment made (RampStep::made): 8 bit ramps have visible steps of their own, so that a step counts which is visible and by
/// more than one visible step larger than the display's own there.
class SAMELIGHT_API RampSet {
  public:
    /// Throws Error (domain) as the display's colours.
    explicit RampSet(CodedDisplay display);

    /// The display and the ramps.
    [[nodiscard]] const CodedDisplay& display() const noexcept { return display_; }
    [[nodiscard]] const std::vector<CodedRamp>& ramps() const noexcept { return ramps_; }

    /// What the adjustment does to each ramp. Counts are exact; steps as visible_step(). Throws nothing of its own.
    [[nodiscard]] std::vector<RampFindings> findings(const Adjustment& adjustment) const;
    /// The step of the largest excess of all ramps, alone: the largest of findings(), but where nothing is gained anywhere the first step of greys.
    /// Throws nothing of its own.
    [[nodiscard]] WorstStep worst(const Adjustment& adjustment) const;

  private:
    friend class RampTrials;

    /// A step judged; by the steps where codes go in alone, which never says less; and by those where they come out, too.
    [[nodiscard]] RampStep step_at(std::size_t ramp, std::size_t i,
                                   const std::array<std::array<int, 3>, 2>& out,
                                   const std::array<SteppedColour, 2>& shown) const;
    void weigh_there(StepKind kind, const SteppedColour& shown, RampStep& step) const;
    [[nodiscard]] RampStep bare_step(std::size_t ramp, std::size_t i,
                                     const std::array<std::array<int, 3>, 2>& out,
                                     const std::array<SteppedColour, 2>& shown) const;

    CodedDisplay display_;
    std::vector<CodedRamp> ramps_;
    std::vector<std::vector<SteppedColour>> colours_;
    std::vector<std::vector<VisibleStep>> steps_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/gradients/impl/coded_ramp.ipp"
#endif
