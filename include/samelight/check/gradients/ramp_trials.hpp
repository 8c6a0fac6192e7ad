#pragma once
// One adjustment tried in many strengths, one after the other.
#include <array>
#include <cstddef>
#include <vector>

#include "samelight/check/gradients/adjustment.hpp"
#include "samelight/check/gradients/coded_ramp.hpp"
#include "samelight/check/gradients/step_bound.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// RampSet::worst() for one adjustment in many strengths. Of each place of a ramp it keeps which codes came out and what was seen of them, and from
/// one strength to the next works out only what came out otherwise.
///
/// Unlike other values of this room one can't be used by two threads at once.
class SAMELIGHT_API RampTrials {
  public:
    /// @param ramps      kept by reference
    /// @param adjustment what is tried, in whatever strength
    RampTrials(const RampSet& ramps, const Adjustment& adjustment);

    /// RampSet::worst(), to the bit, of the adjustment with other amounts or another share of its table, as Adjustment::scaled() makes it.
    /// Throws Error (shape) for another number of parts.
    [[nodiscard]] WorstStep worst(const Adjustment& now);

  private:
    /// What is known of the step from one place to the next: at most so much. A bound comes first; most steps never need more.
    struct Seen {
        double excess = 0.0;
        bool made = false;
        /// Both codes came out, and one otherwise than it went in.
        bool changes = false;

        [[nodiscard]] bool is_worse_than(const RampStep& step) const {
            return made != step.made ? made : excess > step.excess;
        }
    };
    /// How much a control of a hue acts at a place.
    struct Acting {
        std::size_t control = 0;
        double weight = 0.0;
    };
    struct Place {
        std::array<int, 3> out{};
        BoundedLight light{};
        detail::HexHue hue{};
        /// Its stretch of acting_.
        std::size_t first_acting = 0, last_acting = 0;
    };

    void find_acting(std::size_t ramp);
    void take_channels(const Adjustment& now);
    [[nodiscard]] std::array<int, 3> codes_out(const Adjustment& now, std::size_t ramp,
                                               std::size_t i) const;
    void move_places(const Adjustment& now, std::size_t ramp);
    void see_step(std::size_t ramp, std::size_t i);
    [[nodiscard]] RampStep weighed_step(std::size_t ramp, std::size_t i) const;

    const RampSet* ramps_;
    StepBound bound_;
    std::size_t parts_;
    /// Controls of a hue are all that there is.
    bool hues_alone_ = false;
    std::vector<AdjustmentMove> controls_;
    std::vector<Acting> acting_;
    std::vector<std::vector<Place>> places_;
    std::vector<std::vector<Seen>> seen_;
    /// Of each ramp the places that the adjustment can move; of one ramp those that came out otherwise than before.
    std::vector<std::vector<std::size_t>> moved_;
    std::vector<std::size_t> changed_;
    /// Code out for each code in, by channel, where no hue and no table acts.
    std::array<std::vector<int>, 3> channels_;
    /// Of these, which came out otherwise than in the trial before.
    std::array<std::vector<char>, 3> otherwise_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/gradients/impl/ramp_trials.ipp"
#endif
