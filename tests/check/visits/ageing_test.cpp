// Two visits compared: a display that aged and a meter that drifted by known amounts. What is checked against is what the simulation put in.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <vector>

#include <gtest/gtest.h>

#include "check/visits/simulated_visits.hpp"
#include "samelight/check/visits/ageing.hpp"
#include "samelight/check/visits/target_life.hpp"
#include "samelight/check/visits/visit_lights.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::test {
namespace {

constexpr TrueNoise quiet{1e-7, 1e-7, 0.0, 0.0, 3};

bool found(const Ageing& ageing, AgeingFinding finding) {
    return std::find(ageing.findings.begin(), ageing.findings.end(), finding) !=
           ageing.findings.end();
}

Ageing compared(const Pair& pair, const TrueNoise& noise) {
    AgeingRequest request{pair.then, pair.now};
    request.again_xy = noise.again_xy;
    request.again_luminance = noise.again_luminance;
    return ageing_between(request);
}

TEST(Ageing, WithoutNoiseTheEmittersLossesComeBack) {
    PseudoRandom random(1);
    const Ageing ageing = compared(read_pair({{0.97, 0.99, 0.88}}, quiet, random), quiet);
    EXPECT_NEAR(ageing.emitters[0].log_luminance.value, std::log(0.97), 1e-6);
    EXPECT_NEAR(ageing.emitters[2].against_best.value, std::log(0.88 / 0.99), 1e-6);
    EXPECT_EQ(ageing.best, 1U);
    EXPECT_EQ(ageing.aged, (std::vector<std::size_t>{0, 2}));
    // Emitters that lose light move white, and nothing else does: the parts say so. White's own move by the definition of x, y.
    const auto then = xyY_from_xyz(lights_after({})[3]);
    const auto now = xyY_from_xyz(lights_after({{0.97, 0.99, 0.88}})[3]);
    EXPECT_NEAR(ageing.parts.emitters.x.value, now[0] - then[0], 1e-6);
    EXPECT_NEAR(ageing.parts.emitters.y.value, now[1] - then[1], 1e-6);
    EXPECT_NEAR(ageing.parts.channels.x.value, 0.0, 1e-6);
    EXPECT_NEAR(ageing.parts.rest.y.value, 0.0, 1e-6);
    EXPECT_NEAR(ageing.additivity_then, 1.0, 1e-6);
    EXPECT_NEAR(ageing.additivity.value, 0.0, 1e-6);
}

TEST(Ageing, AWhiteThatIsHeldBackChangesTheSumOverIt) {
    // White at 96 % of the primaries' sum: 1 / .96 - 1 by hand.
    PseudoRandom random(12);
    Pair pair = read_pair({}, quiet, random);
    for (auto& xyz : pair.now.readings[3]) {
        for (double& value : xyz) {
            value *= 0.96;
        }
    }
    const Ageing ageing = compared(pair, quiet);
    EXPECT_NEAR(ageing.additivity.value, 1.0 / 0.96 - 1.0, 1e-6);
    EXPECT_TRUE(found(ageing, AgeingFinding::sum));
}

TEST(Ageing, HowFarThePrimariesMovedIsChiSquaredOfTheirScatter) {
    // By the definition, d' C^-1 d over the six coordinates, with x and y of the repeats nearly as one.
    constexpr std::array<std::array<double, 2>, 3> repeats = {
        {{-4e-4, -3e-4}, {1e-4, 1e-4}, {3e-4, 2e-4}}};
    constexpr std::array<std::array<double, 2>, 3> moves = {
        {{4e-4, 1e-4}, {-2e-4, 3e-4}, {0, 1e-4}}};
    const auto lights = lights_after({});
    Pair pair;
    double sxx = 0.0;
    double sxy = 0.0;
    double syy = 0.0;
    for (VisitLights* visit : {&pair.then, &pair.now}) {
        for (std::size_t k = 0; k < 4; ++k) {
            auto at = xyY_from_xyz(lights[k]);
            if (visit == &pair.now && k < 3) {
                at[0] += moves[k][0];
                at[1] += moves[k][1];
            }
            for (const auto& off : repeats) {
                visit->readings[k].push_back(xyz_from_xyY(at[0] + off[0], at[1] + off[1], at[2]));
                sxx += off[0] * off[0] / 16.0;
                sxy += off[0] * off[1] / 16.0;
                syy += off[1] * off[1] / 16.0;
            }
        }
        visit->readings[4].push_back({0.0, 0.0, 0.0});
    }
    double chi = 0.0;
    for (const auto& d : moves) {
        // Two means of three.
        const double both = 2.0 / 3.0;
        const double determinant = both * both * (sxx * syy - sxy * sxy);
        chi +=
            both * (syy * d[0] * d[0] - 2.0 * sxy * d[0] * d[1] + sxx * d[1] * d[1]) / determinant;
    }
    const Ageing ageing = compared(pair, {0.0, 0.0, 0.0, 0.0, 3});
    EXPECT_NEAR(ageing.moved / (chi / 6.0), 1.0, 2e-3);
}

TEST(Ageing, ChannelsThatDriftAreToldFromEmitters) {
    PseudoRandom random(2);
    const TrueChange change{{0.97, 0.99, 0.88}, {1.02, 1.01, 0.97}};
    const Ageing ageing = compared(read_pair(change, quiet, random), quiet);
    EXPECT_NEAR(ageing.channels[0].value, std::log(1.02 / 1.01), 1e-5);
    EXPECT_NEAR(ageing.channels[1].value, std::log(0.97 / 1.01), 1e-5);
    EXPECT_NEAR(ageing.emitters[2].against_best.value, std::log(0.88 / 0.99), 1e-6);
    // The factor of all is that of the emitters and the meter's Y together: nothing in the readings parts them.
    EXPECT_NEAR(ageing.common.value, std::log(0.99 * 1.01), 1e-6);
    EXPECT_TRUE(found(ageing, AgeingFinding::channels));
    EXPECT_FALSE(found(ageing, AgeingFinding::spectra));
    EXPECT_NEAR(ageing.parts.rest.x.value, 0.0, 1e-5);
}

TEST(Ageing, AMovedSpectrumIsNotTakenForChannels) {
    PseudoRandom random(3);
    const TrueNoise noise;
    const TrueChange change{{1.0, 1.0, 1.0}, {1.0, 1.0, 1.0}, {-0.01, 0.008}};
    const Ageing ageing = compared(read_pair(change, noise, random), noise);
    EXPECT_TRUE(found(ageing, AgeingFinding::spectra));
    EXPECT_FALSE(found(ageing, AgeingFinding::channels));
}

TEST(Ageing, MeterAndBacklightLookAlikeAndItIsSaid) {
    const TrueNoise noise;
    PseudoRandom one(4);
    PseudoRandom same(4);
    const Ageing display = compared(read_pair({{0.9, 0.9, 0.9}}, noise, one), noise);
    const Ageing meter =
        compared(read_pair({{1.0, 1.0, 1.0}, {0.9, 0.9, 0.9}}, noise, same), noise);
    EXPECT_TRUE(found(display, AgeingFinding::common));
    EXPECT_FALSE(found(display, AgeingFinding::emitters));
    EXPECT_EQ(display.findings, meter.findings);
    EXPECT_NEAR(display.common.value, meter.common.value, 1e-9);
}

/// How often what was put in lies within the stated doubt.
struct Covered {
    int inside = 0;
    double doubts = 0.0;

    void take(const Change& said, double truth) {
        inside += std::abs(said.value - truth) <= said.doubt ? 1 : 0;
        doubts += said.doubt;
    }
};

int pairs() {
    const char* asked = std::getenv("SAMELIGHT_VISIT_PAIRS");
    return asked != nullptr ? std::atoi(asked) : 2400;
}

/// Neither more nor less often than stated, give or take three standard deviations of what such a count scatters.
void expect_coverage(const Covered& c, const char* what, double stated = 0.95) {
    const double n = pairs();
    const double share = c.inside / n;
    EXPECT_NEAR(share, stated, 3.0 * std::sqrt(stated * (1.0 - stated) / n)) << what;
    if (std::getenv("SAMELIGHT_VISIT_PAIRS") != nullptr) {
        std::printf("%-24s %.4f, mean doubt %.5f\n", what, share, c.doubts / n);
    }
}

TEST(Ageing, TheStatedDoubtHoldsTheTruth) {
    const TrueChange change{{0.98, 0.99, 0.93}, {1.004, 1.0, 0.995}};
    const TrueNoise noise;
    PseudoRandom random(5);
    Covered blue;
    Covered against;
    Covered x_channel;
    Covered z_channel;
    Covered white_x;
    Covered by_emitters;
    Covered common;
    const auto then = lights_after({});
    auto now = lights_after(change);
    const auto aged = xyY_from_xyz(now[3]);
    for (std::size_t i = 0; i < 3; ++i) {
        now[3][i] *= change.channels[i];
    }
    const double moved = xyY_from_xyz(now[3])[0] - xyY_from_xyz(then[3])[0];
    int blue_named = 0;
    for (int i = 0; i < pairs(); ++i) {
        const Ageing a = compared(read_pair(change, noise, random), noise);
        blue.take(a.emitters[2].log_luminance, std::log(0.93));
        against.take(a.emitters[2].against_best,
                     std::log(0.93 / std::array<double, 3>{0.98, 0.99, 0.93}.at(a.best)));
        x_channel.take(a.channels[0], std::log(1.004));
        z_channel.take(a.channels[1], std::log(0.995));
        white_x.take(a.white.xy.x, moved);
        by_emitters.take(a.parts.emitters.x, aged[0] - xyY_from_xyz(then[3])[0]);
        common.take(a.common, std::log(std::array<double, 3>{0.98, 0.99, 0.93}.at(a.best)));
        blue_named += std::find(a.aged.begin(), a.aged.end(), 2U) != a.aged.end() ? 1 : 0;
    }
    expect_coverage(blue, "blue's light");
    // One of three comparisons, each of which gets a third of what may be wrong.
    expect_coverage(against, "blue against the best", 1.0 - 0.05 / 3.0);
    expect_coverage(x_channel, "x channel");
    expect_coverage(z_channel, "z channel");
    expect_coverage(white_x, "white's x");
    expect_coverage(by_emitters, "white's x by emitters");
    expect_coverage(common, "common factor");
    // Six per cent stand out from a noise of .4 % and three repeats.
    EXPECT_GE(blue_named, pairs() * 99 / 100);
}

TEST(Ageing, TheDoubtIsStudentsOfTheRepeatsAndNormalOfWhatIsStated) {
    // By hand: ln Y of 3 readings at each of two visits, pooled over four lights: 16 degrees of freedom. Student's t of them for 19 times in 20 is
    // 2.1199 (JCGM 100:2008, table G.2: 2.12), and 2.673 with a third of what may be wrong (t by its integral, worked out beside).
    const TrueNoise repeats{0.0002, 0.004, 0.0, 0.0, 3};
    PseudoRandom random(11);
    const Pair pair = read_pair({}, repeats, random);
    double squares = 0.0;
    for (const VisitLights* visit : {&pair.then, &pair.now}) {
        for (std::size_t k = 0; k < 4; ++k) {
            double mean = 0.0;
            for (const auto& xyz : visit->readings[k]) {
                mean += std::log(xyz[1]) / 3.0;
            }
            for (const auto& xyz : visit->readings[k]) {
                squares += (std::log(xyz[1]) - mean) * (std::log(xyz[1]) - mean);
            }
        }
    }
    const double of_change = std::sqrt(squares / 16.0 * (1.0 / 3.0 + 1.0 / 3.0));
    const Ageing by_repeats = compared(pair, repeats);
    EXPECT_EQ(by_repeats.scatter.degrees_of_freedom, 16.0);
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_NEAR(by_repeats.emitters[k].log_luminance.doubt / (2.1199 * of_change), 1.0, 1e-3);
        if (k != by_repeats.best) {
            EXPECT_NEAR(
                by_repeats.emitters[k].against_best.doubt / (2.673 * std::sqrt(2.0) * of_change),
                1.0, 1e-3);
        }
    }
    // Nearly all of it stated: 1.95996 standard deviations of setting up at two visits.
    const TrueNoise stated{1e-6, 1e-6, 0.0002, 0.01, 3};
    const Ageing by_statement = compared(read_pair({}, stated, random), stated);
    EXPECT_NEAR(by_statement.white.log_luminance.doubt, 1.95996 * std::sqrt(2.0) * 0.01, 1e-6);
}

TEST(Ageing, NothingIsSeenInNoiseAlone) {
    const TrueNoise noise;
    PseudoRandom random(6);
    int emitters = 0;
    int colours = 0;
    for (int i = 0; i < pairs(); ++i) {
        const Ageing a = compared(read_pair({}, noise, random), noise);
        emitters += a.aged.empty() ? 0 : 1;
        colours += a.moved > a.moved_limit || a.left > a.left_limit ? 1 : 0;
    }
    // Five in a hundred for each question, the second being two.
    const double n = pairs();
    EXPECT_LE(emitters / n, 0.05 + 3.0 * std::sqrt(0.05 * 0.95 / n));
    EXPECT_LE(colours / n, 0.10 + 3.0 * std::sqrt(0.10 * 0.90 / n));
}

TEST(Ageing, TwoCorrectionsTellMeterAndDisplayApart) {
    // The meter's channels drifted between the visits; each visit's correction takes that out.
    Correction then;
    then.observer = "cie1931-2deg";
    Correction now = then;
    now.reference_from_meter = {1.0 / 1.02, 0, 0, 0, 1, 0, 0, 0, 1.0 / 0.97};
    AgeingRequest request;
    PseudoRandom random(7);
    const Pair pair = read_pair({{1.0, 1.0, 0.9}}, quiet, random);
    request.then = pair.then;
    request.now = pair.now;
    request.then_correction = then;
    request.now_correction = now;
    const Ageing ageing = ageing_between(request);
    ASSERT_TRUE(ageing.by_corrections);
    const auto aged = lights_after({{1.0, 1.0, 0.9}})[3];
    const auto truly = xyY_from_xyz(aged);
    const auto read = xyY_from_xyz({1.02 * aged[0], aged[1], 0.97 * aged[2]});
    EXPECT_NEAR(ageing.by_corrections->meter.x.value, read[0] - truly[0], 1e-6);
    EXPECT_NEAR(ageing.by_corrections->meter.y.value, read[1] - truly[1], 1e-6);
    EXPECT_NEAR(ageing.by_corrections->display.x.value,
                truly[0] - xyY_from_xyz(lights_after({})[3])[0], 1e-6);
}

TEST(Ageing, SpectraTellThemApartToo) {
    PseudoRandom random(8);
    const TrueChange change{{0.95, 0.95, 0.85}, {1.02, 1.05, 0.97}};
    const Pair pair = read_pair(change, quiet, random);
    AgeingRequest request{pair.then, pair.now};
    request.spectra = SpectraLights{lights_after({}), lights_after(change)};
    const Ageing ageing = ageing_between(request);
    ASSERT_TRUE(ageing.by_spectra);
    EXPECT_NEAR(ageing.by_spectra->meter_log_luminance.value, std::log(1.05), 1e-6);
    const auto aged = lights_after(change)[3];
    EXPECT_NEAR(
        ageing.by_spectra->meter.x.value,
        xyY_from_xyz({1.02 * aged[0], 1.05 * aged[1], 0.97 * aged[2]})[0] - xyY_from_xyz(aged)[0],
        1e-6);
}

TEST(Ageing, OneCorrectionForBothHardlyCounts) {
    PseudoRandom random(9);
    const TrueNoise noise;
    const Pair pair = read_pair({}, noise, random);
    Correction correction;
    correction.covariance.emplace();
    for (std::size_t i = 0; i < 9; ++i) {
        correction.covariance->elements[10 * i] = 0.01 * 0.01;
    }
    AgeingRequest request{pair.then, pair.now};
    request.then_correction = correction;
    request.one_correction = true;
    const double alone = ageing_between({pair.then, pair.now}).white.xy.x.doubt;
    const double one = ageing_between(request).white.xy.x.doubt;
    request.now_correction = correction;
    request.one_correction = false;
    const double two = ageing_between(request).white.xy.x.doubt;
    EXPECT_LT(one, 1.02 * alone);
    EXPECT_GT(two, 3.0 * one);
}

TEST(Ageing, AWhiteThatIsNoSumIsNotTracedToThePrimaries) {
    PseudoRandom random(12);
    Pair pair = read_pair({{1.0, 1.0, 0.9}}, quiet, random);
    for (VisitLights* visit : {&pair.then, &pair.now}) {
        for (Xyz& white : visit->readings[3]) {
            white = {white[0] + 60.0, white[1] + 63.0, white[2] + 68.0};
        }
    }
    const Ageing ageing = ageing_between({pair.then, pair.now});
    EXPECT_FALSE(ageing.parts.known);
    EXPECT_EQ(ageing.aged, std::vector<std::size_t>{2});
}

TEST(Ageing, WhatCannotBeComparedIsRefused) {
    PseudoRandom random(10);
    Pair pair = read_pair({}, quiet, random);
    pair.now.readings[2].clear();
    EXPECT_THROW(ageing_between({pair.then, pair.now}), Error);
    AgeingRequest request{pair.then, pair.then};
    request.again_xy = -1.0;
    EXPECT_THROW(ageing_between(request), Error);
}

TEST(TargetLife, AStraightWayIsFollowedToTheLimit) {
    TargetLifeRequest request{{{0.3127, 0.3290}}, {0.3127, 0.3290}, {0.3127, 0.3280}};
    request.degrees_of_freedom = 20.0;
    request.months = 12.0;
    request.then_covariance = request.now_covariance = {1e-14, 0, 0, 1e-14};
    const TargetLife life = target_life(request);
    // u', v' by CIE 15's formulas: (0.3127, 0.3290) is 0.19783, 0.46832; (0.3127, 0.3280) 0.19824, 0.46784 (second route by hand).
    const double du =
        4 * 0.3127 / (-2 * 0.3127 + 12 * 0.3280 + 3) - 4 * 0.3127 / (-2 * 0.3127 + 12 * 0.3290 + 3);
    const double dv =
        9 * 0.3280 / (-2 * 0.3127 + 12 * 0.3280 + 3) - 9 * 0.3290 / (-2 * 0.3127 + 12 * 0.3290 + 3);
    const double distance = std::hypot(du, dv);
    EXPECT_NEAR(life.distance_now.likely, distance, 1e-12);
    EXPECT_NEAR(life.rate_per_year->likely, distance, 1e-9);
    EXPECT_NEAR(life.months->likely.value(), 12.0 * (0.003 / distance - 1.0), 1e-6);
    request.months.reset();
    EXPECT_FALSE(target_life(request).months);
    request.target.reset();
    EXPECT_NEAR(target_life(request).distance_now.likely, distance, 1e-12);
    EXPECT_EQ(target_life(request).distance_then.most, 0.0);
    request.target = {{0.0, 0.3}};
    EXPECT_THROW(target_life(request), Error);
}

TEST(TargetLife, ItsRangeHoldsTheTruth) {
    // White goes from its target along a line; both readings of it scatter.
    PseudoRandom random(11);
    constexpr double sd = 0.0002;
    int inside = 0;
    const std::array<double, 2> step{0.0004, -0.0010};
    constexpr std::array<double, 2> target{0.3127, 0.3290};
    TargetLifeRequest request{target, {}, {}};
    request.then_covariance = request.now_covariance = {sd * sd, 0, 0, sd * sd};
    request.degrees_of_freedom = 16.0;
    request.months = 12.0;
    request.then = target;
    request.now = {0.3127 + step[0], 0.3290 + step[1]};
    TargetLifeRequest exact = request;
    exact.then_covariance = exact.now_covariance = {1e-14, 0, 0, 1e-14};
    const double truth = target_life(exact).months->likely.value();
    constexpr int tried = 500;
    for (int i = 0; i < tried; ++i) {
        for (std::size_t k = 0; k < 2; ++k) {
            request.then[k] = target[k] + sd * draw_normal(random);
            request.now[k] = target[k] + step[k] + sd * draw_normal(random);
        }
        const Horizon months = target_life(request).months.value();
        inside += months.least.value_or(1e9) <= truth && truth <= months.most.value_or(1e9) ? 1 : 0;
    }
    EXPECT_NEAR(inside / static_cast<double>(tried), 0.95, 3.0 * std::sqrt(0.95 * 0.05 / tried));
}

}  // namespace
}  // namespace samelight::test
