#pragma once
// Drift: what happened to white while the colours of a round were read. Own rules.
#include <cmath>
#include <cstddef>
#include <vector>

#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How far white may move within a round before the round is marked (common practice, no source).
/// Relative.
inline constexpr double drift_limit_luminance = 0.01;
inline constexpr double drift_limit_xy = 0.0005;

/// White at the end of a round against white at its beginning, as one instrument read it.
struct WhiteDrift {
    int round = 1;
    Instrument instrument = Instrument::reference;
    /// Relative change of Y.
    double luminance = 0.0;
    /// Change of x and y.
    double x = 0.0, y = 0.0;
    /// More than any round of 99 in 100 calibrations on a steady display shows, by the readings' usual scatter; true where that is unknown.
    bool luminance_beyond_noise = true, xy_beyond_noise = true;
    /// Whether the luminance moved by more than its limit.
    [[nodiscard]] bool luminance_marked() const {
        return std::abs(luminance) > drift_limit_luminance;
    }
    /// Whether the chromaticity moved by more than its limit.
    [[nodiscard]] bool xy_marked() const { return std::hypot(x, y) > drift_limit_xy; }
    /// True where Y changed by over 1 % or x, y moved by over .0005.
    [[nodiscard]] bool marked() const { return luminance_marked() || xy_marked(); }
    /// True where what is marked is more than scatter.
    [[nodiscard]] bool beyond_noise() const {
        return (luminance_marked() && luminance_beyond_noise) || (xy_marked() && xy_beyond_noise);
    }
};

/// White's change within a round, the middle one of all rounds: what a display does that keeps warming up or dimming.
struct SteadyDrift {
    std::size_t rounds = 0;
    WhiteDrift middle = {
        /// Round 0; the change marked and beyond the noise of that many rounds.
        0};
};

/// The change of white in every round that read it twice or more, for both instruments; rounds ascending, the reference first. First and last go by time
/// where all of a round's whites have one, else by their order. Empty where no round has two whites: then drift is unknown, not absent.
SAMELIGHT_API std::vector<WhiteDrift> white_drift(const ReadingSet& set);

/// The middle of the rounds' changes of white by each instrument, where there are three rounds or more and it is over the limits and over what scatter does to
/// the middle of so many (1 % over both instruments; the median's standard deviation is 1.2533 times the mean's): white moves the same way
/// in most rounds. No single round makes it. Empty where nothing moves so, or where the scatter is unknown.
/// @param drift  white_drift(set)
SAMELIGHT_API std::vector<SteadyDrift> steady_drift(const ReadingSet& set,
                                                    const std::vector<WhiteDrift>& drift);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/drift.ipp"
#endif
