#pragma once
// What an adjustment gains in accuracy against what it makes visible: how mild it may be.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/check/gradients/adjustment.hpp"
#include "samelight/check/gradients/coded_ramp.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A patch that was read, and what it was meant to be. CIE 1931 X, Y, Z in cd/m2.
struct ProvedColour {
    std::string name;
    /// R', G', B', 0 to 1.
    std::array<double, 3> signal{};
    std::array<double, 3> read{}, wanted{};
};

/// When the patches were read.
enum class ReadWhen {
    /// Without the adjustment.
    without,
    /// With the whole of it.
    with
};

/// "without" or "with".
inline const char* code_of(ReadWhen when) { return when == ReadWhen::without ? "without" : "with"; }

/// What is to be kept.
struct TradeQuestion {
    std::vector<ProvedColour> colours;
    ReadWhen when = ReadWhen::without;
    /// X, Y, Z of the white, cd/m2: the reference white of CIEDE2000.
    std::array<double, 3> white{};
    /// CIEDE2000 that no colour shall exceed, above 0.
    double gate = 3.0;
};

/// One strength of the adjustment.
struct TradePoint {
    /// Of each part, as Adjustment::scaled().
    std::vector<double> shares = {};
    /// CIEDE2000 of the worst colour, and which; absent without colours.
    std::optional<double> worst_de00 = {};
    std::size_t worst_colour = 0;
    /// RampSet::worst()
    WorstStep step = {};
};

/// What there is to choose from.
struct TradeOff {
    /// All parts in equal shares, from none to the whole by a twentieth.
    std::vector<TradePoint> curve = {};
    /// Equal shares, by a hundredth: the least whose worst colour is under the gate.
    std::optional<TradePoint> mildest = {};
    /// Each part taken back by itself as far as the gate lets it, by twentieths, the part with the largest step of its own first, until no step is
    /// made: from the whole where that keeps the gate, else from `mildest`, else from the shares found to leave the worst colour least.
    std::optional<TradePoint> part_by_part = {};
    /// Equal shares, by a hundredth: the most up to which no step is made.
    TradePoint free = {};

    /// What to set: of `mildest` and `part_by_part` the one that makes no step, or else the one that gains least over before; without a gate that is
    /// kept anywhere, nothing.
    [[nodiscard]] const TradePoint* best() const;
};

/// What the colours are by prediction: each as it was read, and the change that the adjustment makes of its light on the display as it is meant to
/// be.
/// Error: as good as that display; to 1e-12 where it behaves as meant. Returns X, Y, Z in cd/m2. Throws Error (domain) for signals outside 0 to 1.
/// Own rule.
SAMELIGHT_API std::vector<std::array<double, 3>> predicted_colours(const CodedDisplay& display,
                                                                   const Adjustment& whole,
                                                                   const Adjustment& now,
                                                                   const TradeQuestion& question);

/// The trade-off of an adjustment. Without colours `mildest` and `part_by_part` are absent. Throws Error (domain) for a gate that isn't above 0, a
/// white without light, signals outside 0 to 1. Own rule.
SAMELIGHT_API TradeOff trade_off(const RampSet& ramps, const Adjustment& adjustment,
                                 const TradeQuestion& question);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/gradients/impl/trade_off.ipp"
#endif
