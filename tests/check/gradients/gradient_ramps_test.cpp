// Ramps of all codes, drive limits and the trade-off, against counts and searches of the plainest kind.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/gradients/coded_ramp.hpp"
#include "samelight/check/gradients/drive_limit.hpp"
#include "samelight/check/gradients/ramp_trials.hpp"
#include "samelight/check/gradients/trade_off.hpp"
#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/spaces/lab.hpp"

namespace samelight::test {
namespace {

IntendedDisplay plain_display() { return {RgbEncoding::of<Bt709>(), SignalCurve({})}; }

AdjustmentMove a_move(MoveKind kind, double amount, double hue = 0.0, double width = 60.0) {
    AdjustmentMove move;
    move.kind = kind;
    move.amount = amount;
    move.hue_deg = hue;
    move.half_width_deg = width;
    move.level_pct = 40.0;
    return move;
}

std::vector<AdjustmentMove> some_moves() {
    std::vector<AdjustmentMove> moves = {a_move(MoveKind::gain, -8.0),
                                         a_move(MoveKind::gain, 3.0),
                                         a_move(MoveKind::offset, 2.0),
                                         a_move(MoveKind::point, 4.0),
                                         a_move(MoveKind::saturation, 80.0),
                                         a_move(MoveKind::saturation, 90.0, 120.0, 15.0),
                                         a_move(MoveKind::hue, 50.0, 180.0),
                                         a_move(MoveKind::hue, -90.0, 60.0, 30.0),
                                         a_move(MoveKind::hue, 90.0, 60.0, 30.0),
                                         a_move(MoveKind::offset, -4.0),
                                         a_move(MoveKind::lightness, 40.0, 300.0)};
    moves[0].channel = MoveChannel::red;
    moves[2].channel = MoveChannel::blue;
    return moves;
}

/// Out of one code in, in the plainest way: gain of the channel alone.
int gained_code(int code, double gain_pct) {
    return static_cast<int>(
        std::floor(std::clamp(code * (1.0 + gain_pct / 100.0), 0.0, 255.0) + 0.5));
}

TEST(GradientRamps, LostCodesReversalsAndRunsAreABruteForceCount) {
    const RampSet set(CodedDisplay(plain_display(), 8));
    for (const AdjustmentMove& move : some_moves()) {
        const Adjustment adjustment({move});
        const auto found = set.findings(adjustment);
        for (std::size_t r = 0; r < found.size(); ++r) {
            const auto& in = set.ramps()[r].codes;
            std::vector<std::array<int, 3>> out;
            for (const auto& codes : in) {
                const auto s =
                    adjustment.apply({codes[0] / 255.0, codes[1] / 255.0, codes[2] / 255.0});
                out.push_back({static_cast<int>(std::lround(s[0] * 255.0)),
                               static_cast<int>(std::lround(s[1] * 255.0)),
                               static_cast<int>(std::lround(s[2] * 255.0))});
            }
            for (std::size_t k = 0; k < 3; ++k) {
                std::array<bool, 256> seen_in{};
                std::array<bool, 256> seen_out{};
                std::size_t reversals = 0;
                for (std::size_t i = 0; i < in.size(); ++i) {
                    seen_in.at(static_cast<std::size_t>(in[i][k])) = true;
                    seen_out.at(static_cast<std::size_t>(out[i][k])) = true;
                    if (i > 0 && (in[i][k] - in[i - 1][k]) * (out[i][k] - out[i - 1][k]) < 0) {
                        ++reversals;
                    }
                }
                const auto count = [](const auto& seen) {
                    return static_cast<std::size_t>(std::count(seen.begin(), seen.end(), true));
                };
                EXPECT_EQ(found[r].channels[k].in, count(seen_in));
                EXPECT_EQ(found[r].channels[k].out, count(seen_out));
                EXPECT_EQ(found[r].channels[k].reversals, reversals);
            }
            double jump = 0.0;
            const double least = 1e-3 * set.display().colour({255, 255, 255}).xyz[1];
            for (std::size_t i = 1; i < out.size(); ++i) {
                const auto a = set.display().colour(out[i - 1]).xyz;
                const auto b = set.display().colour(out[i]).xyz;
                if (a[1] >= least && b[1] >= least) {
                    const double of_a = a[0] + a[1] + a[2];
                    const double of_b = b[0] + b[1] + b[2];
                    jump = std::max(
                        jump, std::hypot(a[0] / of_a - b[0] / of_b, a[1] / of_a - b[1] / of_b));
                }
            }
            EXPECT_NEAR(found[r].jump.distance, jump, 1e-12);
            std::size_t merged = 0;
            std::size_t longest = 0;
            std::size_t longest_from = 0;
            for (std::size_t i = 0; i < out.size(); ++i) {
                merged += i > 0 && out[i] == out[i - 1] ? 1 : 0;
                std::size_t run = 1;
                while (i + run < out.size() && out[i + run] == out[i]) {
                    ++run;
                }
                if (run > longest) {
                    longest = run;
                    longest_from = i;
                }
            }
            EXPECT_EQ(found[r].merged, merged);
            EXPECT_EQ(found[r].flat.length, longest);
            EXPECT_EQ(found[r].flat.index, longest_from);
        }
    }
}

TEST(GradientRamps, AGainLosesTheCodesThatItMust) {
    const RampSet set(CodedDisplay(plain_display(), 8));
    AdjustmentMove move = a_move(MoveKind::gain, -8.0);
    move.channel = MoveChannel::red;
    std::map<int, int> out;
    for (int code = 0; code < 256; ++code) {
        ++out[gained_code(code, -8.0)];
    }
    const auto found = set.findings(Adjustment({move}));
    EXPECT_EQ(found[0].channels[0].lost(), 256 - out.size());
    EXPECT_EQ(found[0].channels[0].lost(), 20U);
    EXPECT_EQ(found[0].channels[1].lost(), 0U);
}

TEST(GradientRamps, ReversalsAppearWhereAHueIsFolded) {
    const RampSet set(CodedDisplay(plain_display(), 8));
    std::size_t reversals = 0;
    for (const auto& ramp : set.findings(Adjustment({a_move(MoveKind::hue, -90.0, 60.0, 30.0)}))) {
        reversals += ramp.reversals();
    }
    EXPECT_GT(reversals, 10U);
    for (const auto& ramp : set.findings(Adjustment())) {
        EXPECT_EQ(ramp.reversals(), 0U);
        EXPECT_EQ(ramp.merged, 0U);
        EXPECT_EQ(ramp.made, 0U);
        EXPECT_LE(ramp.worst.excess, 0.0);
    }
}

TEST(GradientRamps, NeighboursDifferByOneCode) {
    for (const CodedRamp& ramp : gradient_ramps(8)) {
        ASSERT_GT(ramp.codes.size(), 100U);
        for (std::size_t i = 1; i < ramp.codes.size(); ++i) {
            int most = 0;
            for (std::size_t k = 0; k < 3; ++k) {
                most = std::max(most, std::abs(ramp.codes[i][k] - ramp.codes[i - 1][k]));
            }
            EXPECT_EQ(most, 1);
        }
    }
}

TEST(GradientRamps, TheWorstIsTheWorstOfAll) {
    const RampSet set(CodedDisplay(plain_display(), 8));
    for (const AdjustmentMove& move : some_moves()) {
        const Adjustment adjustment({move});
        const WorstStep worst = set.worst(adjustment);
        const auto found = set.findings(adjustment);
        bool made = false;
        double excess = -1e9;
        for (const RampFindings& ramp : found) {
            made = made || ramp.worst.made;
        }
        for (const RampFindings& ramp : found) {
            if (ramp.worst.made == made) {
                excess = std::max(excess, ramp.worst.excess);
            }
        }
        EXPECT_EQ(worst.step.made, made);
        EXPECT_EQ(worst.step.excess, excess);
    }
}

/// A control of saturation at its end, the kind that shows in practice (fact of the trade, no source).
TEST(GradientRamps, ASaturationAtItsEndShowsAndAMildOneDoesNot) {
    const RampSet set(CodedDisplay(plain_display(), 10));
    const Adjustment end({a_move(MoveKind::saturation, 100.0, 0.0, 12.0)});
    const WorstStep worst = set.worst(end);
    EXPECT_TRUE(worst.step.made);
    EXPECT_GT(worst.step.gained()[1], 1.0);
    EXPECT_LT(worst.step.gained()[0], 1.0);
    EXPECT_FALSE(set.worst(end.scaled(0.2)).step.made);
}

/// All 1024 amounts, one after the other.
double fine_limit(const RampSet& set, const Adjustment& adjustment, double end) {
    RampTrials trials(set, adjustment);
    for (int k = 1; k <= 1024; ++k) {
        if (trials.worst(adjustment.only(0, end * k / 1024.0)).step.made) {
            return end * (k - 1) / 1024.0;
        }
    }
    return end;
}

void expect_limits(int bits, const std::vector<AdjustmentMove>& moves) {
    const RampSet set(CodedDisplay(plain_display(), bits));
    for (const AdjustmentMove& move : moves) {
        const Adjustment adjustment({move});
        const DriveLimit limit = drive_limit(set, adjustment, 0);
        const double fine = fine_limit(set, adjustment, limit.end);
        EXPECT_NEAR(limit.limit, fine, std::abs(limit.end) / 1024.0) << code_of(move.kind);
        EXPECT_EQ(limit.first.has_value(), fine != limit.end);
        if (limit.first) {
            EXPECT_TRUE(limit.first->step.made);
        }
    }
}

TEST(GradientRamps, TheDriveLimitIsThatOfAFineSearch) {
    expect_limits(8, some_moves());
    expect_limits(10, some_moves());
}

TEST(GradientRamps, ALimitInTheMiddleIsThatOfAFineSearch) {
    // At 9 bits this one shows neither at once nor never.
    std::vector<AdjustmentMove> moves = {a_move(MoveKind::gain, -8.0)};
    moves[0].channel = MoveChannel::green;
    expect_limits(9, moves);
}

/// A panel with too pale a red, read; what is wanted is the display as meant.
TradeQuestion pale_red(const CodedDisplay& display) {
    TradeQuestion question;
    question.white = display.display().white();
    const auto add = [&](const char* name, const std::array<double, 3>& s) {
        const double pale = 0.08 * std::max(0.0, s[0] - std::max(s[1], s[2]));
        question.colours.push_back({name, s,
                                    display.display().xyz({s[0], s[1] + pale, s[2] + pale}),
                                    display.display().xyz(s)});
    };
    add("white", {1.0, 1.0, 1.0});
    add("pale red", {1.0, 0.5, 0.5});
    add("red", {1.0, 0.25, 0.25});
    add("green", {0.25, 1.0, 0.25});
    question.gate = 1.0;
    return question;
}

double worst_by_hand(const CodedDisplay& display, const Adjustment& now, const TradeQuestion& q) {
    double worst = 0.0;
    using Xyz = Tristimulus<Cie1931_2deg>;
    const Xyz white(q.white[0], q.white[1], q.white[2]);
    for (const ProvedColour& c : q.colours) {
        std::array<int, 3> codes{};
        for (std::size_t k = 0; k < 3; ++k) {
            codes[k] = static_cast<int>(std::lround(c.signal[k] * display.last_code()));
        }
        const auto then = display.colour(codes).xyz;
        const auto light = display.colour(display.adjusted(codes, now)).xyz;
        std::array<double, 3> v{};
        for (std::size_t k = 0; k < 3; ++k) {
            v[k] = std::max(0.0, c.read[k] + light[k] - then[k]);
        }
        worst = std::max(worst, delta_e_2000(lab(Xyz(c.wanted[0], c.wanted[1], c.wanted[2]), white),
                                             lab(Xyz(v[0], v[1], v[2]), white)));
    }
    return worst;
}

TEST(GradientRamps, TheMilderAdjustmentKeepsTheGate) {
    const CodedDisplay display(plain_display(), 9);
    const RampSet set(display);
    const Adjustment end({a_move(MoveKind::saturation, 100.0, 0.0, 12.0)});
    const TradeQuestion question = pale_red(display);
    const TradeOff trade = trade_off(set, end, question);
    EXPECT_GT(worst_by_hand(display, Adjustment(), question), question.gate);
    EXPECT_TRUE(trade.curve.back().step.step.made);
    ASSERT_TRUE(trade.mildest);
    ASSERT_NE(trade.best(), nullptr);
    for (const TradePoint* point : {&*trade.mildest, &*trade.part_by_part}) {
        const double worst = worst_by_hand(display, end.scaled(point->shares), question);
        EXPECT_LE(worst, question.gate);
        EXPECT_NEAR(worst, *point->worst_de00, 1e-9);
    }
    // No hundredth below keeps it.
    for (int share = 0; share / 100.0 < trade.mildest->shares[0] - 1e-9; ++share) {
        EXPECT_GT(worst_by_hand(display, end.scaled(share / 100.0), question), question.gate);
    }
    EXPECT_FALSE(trade.free.step.step.made);
    EXPECT_GT(trade.free.shares[0], 0.0);
    EXPECT_EQ(trade.curve.size(), 21U);
}

TEST(GradientRamps, WithoutAGateThatIsKeptNothingIsRecommended) {
    const CodedDisplay display(plain_display(), 8);
    const RampSet set(display);
    TradeQuestion question = pale_red(display);
    question.gate = 0.05;
    const TradeOff none = trade_off(set, Adjustment({a_move(MoveKind::gain, -5.0)}), question);
    EXPECT_FALSE(none.mildest);
    EXPECT_EQ(none.best(), nullptr);
    question.colours.clear();
    const TradeOff blind = trade_off(set, Adjustment({a_move(MoveKind::gain, -5.0)}), question);
    EXPECT_FALSE(blind.curve.back().worst_de00);
    EXPECT_EQ(blind.best(), nullptr);
}

TEST(GradientRamps, HlgIsShownWithItsSystemGamma) {
    CurveOptions hlg;
    hlg.kind = CurveKind::hlg;
    hlg.white_cd_m2 = 1000.0;
    const CodedDisplay display(IntendedDisplay(RgbEncoding::of<Bt2020>(), SignalCurve(hlg)), 10);
    const auto xyz = display.colour({700, 300, 100}).xyz;
    const auto plain = display.display().xyz({700 / 1023.0, 300 / 1023.0, 100 / 1023.0});
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_NEAR(xyz[k], plain[k], 1e-9 * plain[k]);
    }
}

}  // namespace
}  // namespace samelight::test
