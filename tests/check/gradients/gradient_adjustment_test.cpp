// What an adjustment makes of signals.
#include <array>
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/gradients/adjustment.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::test {
namespace {

using Signals = std::array<double, 3>;

AdjustmentMove of_channel(MoveKind kind, MoveChannel channel, double amount, double level = 0.0) {
    AdjustmentMove move;
    move.kind = kind;
    move.channel = channel;
    move.amount = amount;
    move.level_pct = level;
    return move;
}

AdjustmentMove of_hue(MoveKind kind, double hue, double amount, double width = 60.0) {
    AdjustmentMove move;
    move.kind = kind;
    move.hue_deg = hue;
    move.amount = amount;
    move.half_width_deg = width;
    return move;
}

void expect_signals(const Signals& found, const Signals& wanted) {
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_NEAR(found[i], wanted[i], 1e-12) << i;
    }
}

TEST(GradientAdjustment, NothingChangesNothing) {
    EXPECT_TRUE(Adjustment().is_none());
    expect_signals(Adjustment().apply({0.1, 0.7, 1.0}), {0.1, 0.7, 1.0});
    expect_signals(Adjustment({of_hue(MoveKind::hue, 0.0, 0.0)}).apply({0.9, 0.2, 0.1}),
                   {0.9, 0.2, 0.1});
}

TEST(GradientAdjustment, GainActsAtTheTopOffsetAtTheBottom) {
    const Adjustment gain({of_channel(MoveKind::gain, MoveChannel::red, -10.0)});
    expect_signals(gain.apply({1.0, 1.0, 1.0}), {0.9, 1.0, 1.0});
    expect_signals(gain.apply({0.0, 0.5, 0.0}), {0.0, 0.5, 0.0});
    const Adjustment offset({of_channel(MoveKind::offset, MoveChannel::all, 4.0)});
    expect_signals(offset.apply({0.0, 0.5, 1.0}), {0.04, 0.52, 1.0});
    // What leaves the signal's range is cut.
    expect_signals(
        Adjustment({of_channel(MoveKind::gain, MoveChannel::all, 50.0)}).apply({0.5, 0.8, 0.0}),
        {0.75, 1.0, 0.0});
}

TEST(GradientAdjustment, PointsAreJoinedByStraightLines) {
    const Adjustment list({of_channel(MoveKind::point, MoveChannel::green, 2.0, 20.0),
                           of_channel(MoveKind::point, MoveChannel::green, -4.0, 60.0)});
    expect_signals(list.apply({0.2, 0.2, 0.2}), {0.2, 0.22, 0.2});
    expect_signals(list.apply({0.4, 0.4, 0.4}), {0.4, 0.39, 0.4});
    expect_signals(list.apply({0.1, 0.1, 0.1}), {0.1, 0.11, 0.1});
    expect_signals(list.apply({0.8, 0.8, 0.8}), {0.8, 0.78, 0.8});
    expect_signals(list.apply({1.0, 1.0, 0.0}), {1.0, 1.0, 0.0});
}

TEST(GradientAdjustment, ControlsOfAHueFadeToTheirEndAndLeaveGreys) {
    const Adjustment saturation({of_hue(MoveKind::saturation, 120.0, 50.0)});
    // Saturation .4 of pure green becomes .6; half way to yellow it gains half of that; at yellow nothing.
    expect_signals(saturation.apply({0.3, 0.5, 0.3}), {0.2, 0.5, 0.2});
    expect_signals(saturation.apply({0.4, 0.5, 0.3}), {0.375, 0.5, 0.25});
    expect_signals(saturation.apply({0.5, 0.5, 0.3}), {0.5, 0.5, 0.3});
    expect_signals(saturation.apply({0.5, 0.5, 0.5}), {0.5, 0.5, 0.5});
    const Adjustment hue({of_hue(MoveKind::hue, 0.0, 30.0)});
    expect_signals(hue.apply({0.8, 0.2, 0.2}), {0.8, 0.5, 0.2});
    const Adjustment lightness({of_hue(MoveKind::lightness, 240.0, -50.0)});
    expect_signals(lightness.apply({0.0, 0.0, 0.8}), {0.0, 0.0, 0.4});
    // Half saturated: half of it.
    expect_signals(lightness.apply({0.4, 0.4, 0.8}), {0.3, 0.3, 0.6});
}

TEST(GradientAdjustment, AHueIsWhereTheHexagonHasIt) {
    // Six colours of saturation 0.75 whose middle channel is a sixth of the way up: 10 degrees off red, green and blue. Each is reached by a control
    // of 5 degrees at its own hue alone: saturation 0.9, with the middle channel still a sixth of the way up.
    struct OnTheHexagon {
        double hue;
        Signals signal, wanted;
    };
    const std::vector<OnTheHexagon> all = {
        {10.0, {0.8, 0.3, 0.2}, {0.8, 0.2, 0.08}},  {110.0, {0.3, 0.8, 0.2}, {0.2, 0.8, 0.08}},
        {130.0, {0.2, 0.8, 0.3}, {0.08, 0.8, 0.2}}, {230.0, {0.2, 0.3, 0.8}, {0.08, 0.2, 0.8}},
        {250.0, {0.3, 0.2, 0.8}, {0.2, 0.08, 0.8}}, {350.0, {0.8, 0.2, 0.3}, {0.8, 0.08, 0.2}}};
    for (const OnTheHexagon& control : all) {
        const Adjustment turned({of_hue(MoveKind::saturation, control.hue, 20.0, 5.0)});
        for (const OnTheHexagon& colour : all) {
            expect_signals(turned.apply(colour.signal),
                           colour.hue == control.hue ? colour.wanted : colour.signal);
        }
    }
}

SignalTable table_of(std::size_t nodes, TableReading reading, Signals (*f)(const Signals&)) {
    SignalTable table{nodes, {}, reading};
    for (std::size_t r = 0; r < nodes; ++r) {
        for (std::size_t g = 0; g < nodes; ++g) {
            for (std::size_t b = 0; b < nodes; ++b) {
                const double last = static_cast<double>(nodes - 1);
                table.out.push_back(f({static_cast<double>(r) / last, static_cast<double>(g) / last,
                                       static_cast<double>(b) / last}));
            }
        }
    }
    return table;
}

Signals mixed(const Signals& s) {
    return {0.7 * s[0] + 0.2 * s[1] + 0.1 * s[2], 0.1 + 0.8 * s[1],
            0.9 * s[2] - 0.05 * s[0] + 0.05};
}
Signals squared(const Signals& s) { return {s[0] * s[1], s[1] * s[1], s[0] * s[2]}; }

TEST(GradientAdjustment, TablesAreExactAtNodesAndForWhatIsLinear) {
    for (const TableReading reading : {TableReading::trilinear, TableReading::tetrahedral}) {
        const SignalTable linear = table_of(5, reading, mixed);
        for (const Signals& s :
             {Signals{0.1, 0.63, 0.9}, Signals{0.0, 1.0, 0.37}, Signals{0.5, 0.5, 0.5}}) {
            expect_signals(read_table(linear, s), mixed(s));
        }
        const SignalTable bent = table_of(5, reading, squared);
        expect_signals(read_table(bent, {0.25, 0.75, 1.0}), squared({0.25, 0.75, 1.0}));
    }
}

TEST(GradientAdjustment, BetweenNodesTheTwoWaysDiffer) {
    // One cube of r g: trilinear gives the product, tetrahedra the smaller of both along each face.
    const Signals at = {0.25, 0.5, 0.0};
    EXPECT_NEAR(read_table(table_of(2, TableReading::trilinear, squared), at)[0], 0.125, 1e-12);
    EXPECT_NEAR(read_table(table_of(2, TableReading::tetrahedral, squared), at)[0], 0.25, 1e-12);
}

TEST(GradientAdjustment, ScalesEachPart) {
    const Adjustment whole({of_channel(MoveKind::gain, MoveChannel::red, -10.0)},
                           table_of(3, TableReading::tetrahedral, mixed));
    ASSERT_EQ(whole.parts(), 2U);
    expect_signals(whole.scaled(0.0).apply({0.3, 0.4, 0.5}), {0.3, 0.4, 0.5});
    expect_signals(whole.scaled(1.0).apply({0.3, 0.4, 0.5}), whole.apply({0.3, 0.4, 0.5}));
    const Signals s = {0.3, 0.4, 0.5};
    const Signals half = whole.only(1, 0.5).apply(s);
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_NEAR(half[i], 0.5 * (s[i] + mixed(s)[i]), 1e-12);
    }
    expect_signals(whole.only(0, -20.0).apply({1.0, 1.0, 1.0}), {0.8, 1.0, 1.0});
    EXPECT_THROW(static_cast<void>(whole.only(2, 1.0)), Error);
    EXPECT_THROW(static_cast<void>(whole.scaled(std::vector<double>{1.0})), Error);
}

TEST(GradientAdjustment, RefusesWhatIsOutsideItsRanges) {
    EXPECT_THROW(Adjustment({of_hue(MoveKind::hue, 0.0, 181.0)}), Error);
    EXPECT_THROW(Adjustment({of_hue(MoveKind::saturation, 0.0, std::nan(""))}), Error);
    EXPECT_THROW(Adjustment({of_hue(MoveKind::saturation, 0.0, 10.0, 0.0)}), Error);
    EXPECT_THROW(Adjustment({of_channel(MoveKind::point, MoveChannel::all, 1.0, 101.0)}), Error);
    EXPECT_THROW(Adjustment({of_channel(MoveKind::point, MoveChannel::all, 1.0, 50.0),
                             of_channel(MoveKind::point, MoveChannel::red, 1.0, 50.0)}),
                 Error);
    EXPECT_THROW(Adjustment({}, SignalTable{3, {{0.0, 0.0, 0.0}}}), Error);
}

}  // namespace
}  // namespace samelight::test
