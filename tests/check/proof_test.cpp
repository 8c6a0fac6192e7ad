// Names and signals, repeats, windows, positions, greys, and the measures of one patch.
#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "check/simulated_display.hpp"
#include "samelight/check/faults/display_model.hpp"
#include "samelight/check/faults/model_fit.hpp"
#include "samelight/check/faults/session_faults.hpp"
#include "samelight/check/proof/grey_track.hpp"
#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/check/proof/proof_readings.hpp"
#include "samelight/check/proof/proof_side.hpp"
#include "samelight/check/proof/proof_targets.hpp"
#include "samelight/check/proof/uniformity.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/propagation.hpp"

namespace samelight::test {
namespace {

const Quantisation eight_bits{8, SignalRange::full};

SignalNames names_of(const IntendedDisplay& intended) {
    return {proof_patches(intended, eight_bits), eight_bits};
}

PatchReading named_reading(const std::string& name, const Three& xyz) {
    PatchReading reading;
    reading.patch = name;
    reading.xyz = xyz;
    return reading;
}

TEST(ProofNames, PlainOnesAndThoseOfTheList) {
    const SignalNames names = names_of(sdr_intent());
    const auto signal = [&](const std::string& name) {
        const auto shown = names.shown(named_reading(name, {}));
        return shown ? shown->signal : Three{-1, -1, -1};
    };
    EXPECT_EQ(signal("White"), (Three{1, 1, 1}));
    EXPECT_EQ(signal("BLACK"), (Three{0, 0, 0}));
    // Half the signal is code 127.5: 128 of 255.
    EXPECT_NEAR(signal("gray 50 %")[0], 128.0 / 255.0, 1e-12);
    EXPECT_EQ(signal("50%"), signal("grey_50"));
    EXPECT_EQ(signal(" grey  _50 "), signal("grey-50"));
    EXPECT_EQ(signal("red"), (Three{1, 0, 0}));
    EXPECT_EQ(signal("red-100-100"), (Three{1, 0, 0}));
    EXPECT_EQ(signal("no such"), (Three{-1, -1, -1}));
    EXPECT_EQ(signal("grey-200"), (Three{-1, -1, -1}));
    EXPECT_EQ(signal(""), (Three{-1, -1, -1}));
}

TEST(ProofReadingsSorted, RefuseAnUnknownNameInOneLine) {
    PatchReading reading = named_reading("mystery", {1, 1, 1});
    reading.line = 12;
    try {
        sort_readings({reading}, names_of(sdr_intent()), {95, 100, 108}, {"visit.csv"});
        FAIL();
    } catch (const Error& error) {
        EXPECT_EQ(std::string(error.what()).find("visit.csv:12: "), 0U) << error.what();
        EXPECT_EQ(std::string(error.what()).find('\n'), std::string::npos);
    }
}

TEST(ProofReadingsSorted, NameRepeatsThatDisagree) {
    std::vector<PatchReading> readings;
    PseudoRandom random(3);
    for (const char* name : {"white", "grey-50", "grey-20", "red"}) {
        for (int repeat = 0; repeat < 4; ++repeat) {
            Three xyz{95, 100, 108};
            for (double& value : xyz) {
                value *= 1.0 + 0.002 * draw_normal(random);
            }
            readings.push_back(named_reading(name, xyz));
            readings.back().line = readings.size() + 1;
        }
    }
    readings[6].xyz[0] *= 1.05;
    const ProofReadings sorted =
        sort_readings(readings, names_of(sdr_intent()), {95, 100, 108}, {"visit.csv"});
    ASSERT_EQ(sorted.odd_repeats.size(), 1U);
    EXPECT_EQ(sorted.odd_repeats[0].patch, "grey-50");
    EXPECT_EQ(sorted.odd_repeats[0].line, 8U);
    EXPECT_EQ(sorted.points[1].count, 3U);
    EXPECT_EQ(sorted.noise.from, ProofNoiseFrom::repeats);
    // Of 0.2 %: 8 degrees of freedom of the stated and 36 steps, within a third.
    EXPECT_NEAR(sorted.noise.relative, 0.002, 0.0007);
    EXPECT_EQ(repeat_faults(sorted).front().kind, FaultKind::repeats_disagree);
}

TEST(ProofReadingsSorted, TwoOddRepeatsBesideEachOtherAreAChangeAndNoSlip) {
    // Wherever in the order the two stand; a single one is a slip wherever it stands.
    const auto odd_at = [](std::vector<std::size_t> off) {
        std::vector<PatchReading> readings;
        for (std::size_t repeat = 0; repeat < 7; ++repeat) {
            const double way = repeat % 2 == 0 ? 1.0005 : 0.9995;
            readings.push_back(named_reading("grey-50", {way * 95, way * 100, way * 108}));
        }
        for (const std::size_t i : off) {
            readings[i].xyz[0] *= 1.08;
        }
        return sort_readings(readings, names_of(sdr_intent()), {95, 100, 108}, {"x"})
            .odd_repeats.size();
    };
    for (std::size_t i = 0; i < 7; ++i) {
        EXPECT_EQ(odd_at({i}), 1U) << i;
    }
    for (std::size_t i = 0; i < 6; ++i) {
        EXPECT_EQ(odd_at({i, i + 1}), 0U) << i;
    }
    EXPECT_EQ(odd_at({0, 6}), 2U);
}

TEST(ProofTargetLists, TakeALightWithoutZAndRefuseOnesBelowZero) {
    const auto listed = [](double z) {
        std::vector<PatchReading> rows = {named_reading("white", {95, 100, 108}),
                                          named_reading("red", {40.0, 20.0, z})};
        return ProofTargets(rows, names_of(sdr_intent()), {"targets.csv"});
    };
    // Digits of x, y, Y may leave it a ten-thousandth of the sum below 0: then it is 0.
    for (const double z : {0.0, -0.005, 0.004}) {
        const auto red = listed(z).target({1.0, 0.0, 0.0}, 100.0);
        ASSERT_TRUE(red) << z;
        EXPECT_NEAR((*red)[2], std::max(0.0, z), 1e-12);
        EXPECT_NEAR((*red)[0], 40.0, 1e-12);
    }
    EXPECT_THROW(listed(-0.007), Error);
}

TEST(ProofReadingsSorted, WindowsAndPositionsStandApart) {
    std::vector<PatchReading> readings;
    const auto add = [&](const char* name, double y, double window, const char* position) {
        readings.push_back(named_reading(name, {0.95 * y, y, 1.08 * y}));
        readings.back().window_pct = window;
        readings.back().position = position;
    };
    add("white", 100, 10, "centre");
    add("grey-50", 20, 10, "centre");
    add("black", 0, 10, "centre");
    add("white", 30, 100, "centre");
    add("white", 80, 10, "top left");
    add("white", 97, 10, "right");
    const ProofReadings sorted =
        sort_readings(readings, names_of(sdr_intent()), {95, 100, 108}, {"visit.csv"});
    EXPECT_EQ(sorted.points.size(), 3U);
    EXPECT_EQ(sorted.points[0].xyz[1], 100.0);
    // The limiter: 30 % of the light in the full window.
    const auto windows = window_faults(sorted);
    ASSERT_EQ(windows.size(), 1U);
    EXPECT_NEAR(windows[0].measured, 0.3, 1e-12);
    EXPECT_EQ(windows[0].other, "100");
    const auto screen = uniformity(sorted.placed, sdr_intent());
    ASSERT_EQ(screen.size(), 1U);
    ASSERT_EQ(screen[0].positions.size(), 3U);
    EXPECT_EQ(screen[0].positions[0].position, "centre");
    const auto uneven = screen_faults(screen);
    ASSERT_EQ(uneven.size(), 1U);
    EXPECT_EQ(uneven[0].kind, FaultKind::uneven_luminance);
    EXPECT_EQ(uneven[0].other, "top left");
}

/// What add_drift() finds of a display without a fault, but for its light while readings `drift[0]` to `drift[1]` were taken.
PatchFindings drift_of(const ProofReadings& sorted, const IntendedDisplay& intended) {
    const ModelFit fit(sorted.points, sorted.noise, intended);
    PatchFindings found;
    found.explained.assign(sorted.points.size(), 0);
    add_drift(sorted, fit, ModelState{}, found);
    return found;
}

TEST(Drift, TheReadingsInItAreSpokenFor) {
    const IntendedDisplay intended = sdr_intent();
    Injected faults;
    faults.drift = Three{30, 60, 1.06};
    const auto readings = simulated_visit(intended, proof_patches(intended, eight_bits), faults,
                                          {1e-4, 1e-6, 4, 1, 16});
    const ProofReadings sorted =
        sort_readings(readings, names_of(intended), intended.white(), {"x"});
    const PatchFindings found = drift_of(sorted, intended);
    ASSERT_EQ(found.faults.size(), 1U);
    EXPECT_EQ(found.faults[0].kind, FaultKind::drift);
    EXPECT_NEAR(found.faults[0].measured, 0.06, 0.003);
    std::size_t inside = 0;
    for (std::size_t i = 0; i < sorted.points.size(); ++i) {
        const ProofPoint& point = sorted.points[i];
        const bool in_it = point.order >= 30 && point.order < 60;
        if (!in_it || point.xyz[1] > 0.02 * intended.white()[1]) {
            EXPECT_EQ(found.explained[i] != 0, in_it) << point.shown.name;
        }
        inside += found.explained[i] != 0 ? 1 : 0;
    }
    EXPECT_EQ(found.faults[0].patches, inside);
    EXPECT_GT(inside, 15U);
}

TEST(Drift, OfAPatchReadAgainAndAgainToo) {
    // White after every five patches; from its fourth to its sixth reading there is 4 % more light.
    const IntendedDisplay intended = sdr_intent();
    const auto list = proof_patches(intended, eight_bits);
    std::vector<PatchReading> readings;
    std::vector<std::size_t> whites;
    for (std::size_t i = 0; readings.size() < 60; ++i) {
        if (readings.size() % 6 == 0) {
            whites.push_back(readings.size());
            readings.push_back(named_reading("white", intended.white()));
            continue;
        }
        readings.push_back(named_reading("", intended.xyz(list[i].signal)));
        readings.back().signal = list[i].signal;
    }
    for (std::size_t i = whites[3]; i <= whites[5]; ++i) {
        for (double& value : readings[i].xyz) {
            value *= 1.04;
        }
    }
    const ProofReadings sorted =
        sort_readings(readings, names_of(intended), intended.white(), {"x"});
    const PatchFindings found = drift_of(sorted, intended);
    ASSERT_EQ(found.faults.size(), 1U);
    EXPECT_NEAR(found.faults[0].measured, 0.04, 1e-9);
    for (std::size_t i = 0; i < sorted.points.size(); ++i) {
        const std::size_t order = sorted.points[i].order;
        EXPECT_EQ(found.explained[i] != 0, order >= whites[3] && order <= whites[5]) << order;
    }
}

TEST(ColourGapMeasures, WithoutLightnessIsBlindToLuminance) {
    const Three white{95, 100, 108};
    const Three meant{30, 40, 20};
    const ColourGap gap = colour_gap({33, 44, 22}, meant, white);
    EXPECT_GT(gap.de00, 1.0);
    EXPECT_NEAR(gap.de00_without_lightness, 0.0, 1e-9);
    EXPECT_NEAR(gap.duv(), 0.0, 1e-12);
    EXPECT_NEAR(*gap.luminance, 0.1, 1e-12);
    EXPECT_THROW(colour_gap(meant, meant, {0, 1, 1}), Error);
}

TEST(ColourGapMeasures, BlackHasNoChromaticity) {
    const ColourGap gap = colour_gap({0, 0, 0}, {0, 0, 0}, {95, 100, 108});
    EXPECT_EQ(gap.de00, 0.0);
    EXPECT_FALSE(gap.uv);
    EXPECT_FALSE(gap.luminance);
}

TEST(Summaries, AreWhatTheDefinitionsSay) {
    // By hand: 5, 1, 2 and 4; between the order statistics 95 % lies at 0.95 (n - 1) (Hyndman & Fan 1996, definition 7, from memory).
    std::vector<ColourGap> gaps(4);
    const std::array<double, 4> sizes{5.0, 1.0, 2.0, 4.0};
    for (std::size_t i = 0; i < gaps.size(); ++i) {
        gaps[i].de00 = sizes[i];
        gaps[i].de00_without_lightness = 0.5 * sizes[i];
        gaps[i].de_itp = 3.0 * sizes[i];
        if (i > 0) {
            gaps[i].uv = std::array{0.003 * sizes[i], -0.004 * sizes[i]};
        }
    }
    const std::array groups{SignalGroup::grey, SignalGroup::skin, SignalGroup::grey,
                            SignalGroup::grey};
    const std::vector<GroupSummary> found = summaries(gaps, groups);
    ASSERT_EQ(found.size(), 3U);  // no saturated ones
    EXPECT_EQ(found[0].group, "greys");
    EXPECT_EQ(found[0].count, 3U);
    EXPECT_NEAR(found[0].de00.mean, 11.0 / 3.0, 1e-14);
    EXPECT_NEAR(found[0].de00.percentile_95, 4.0 + 0.9, 1e-13);
    EXPECT_EQ(found[0].de00.largest, 5.0);
    EXPECT_EQ(found[0].de00.at, 0U);
    EXPECT_EQ(found[0].duv.at, 3U) << "the first has no u', v'";
    EXPECT_NEAR(found[0].duv.largest, 0.020, 1e-14);
    EXPECT_NEAR(found[0].duv.mean, 0.015, 1e-14);
    EXPECT_EQ(found[1].group, "skin");
    EXPECT_EQ(found[1].de00.mean, 1.0);
    EXPECT_EQ(found[1].de00.at, 1U);
    EXPECT_EQ(found[2].group, "all");
    EXPECT_NEAR(found[2].de00_without_lightness.mean, 1.5, 1e-14);
    EXPECT_NEAR(found[2].de_itp.largest, 15.0, 1e-13);
    EXPECT_NEAR(found[2].de_itp.percentile_95, 3.0 * 4.85, 1e-12);
    EXPECT_THROW(summaries(gaps, std::array{SignalGroup::grey}), Error);
}

TEST(Greys, GammaOfAPowerIsItsExponent) {
    // By its definition: light of a power of 2.2 against an intent of 2.4.
    std::vector<PatchReading> readings;
    const IntendedDisplay intended = sdr_intent();
    for (const int percent : {0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100}) {
        PatchReading r = named_reading("grey", intended.white());
        const double s = percent / 100.0;
        r.signal = Three{s, s, s};
        for (double& value : r.xyz) {
            value *= std::pow(s, 2.2);
        }
        readings.push_back(r);
    }
    const GreyTrack track =
        grey_track(sort_readings(readings, names_of(intended), intended.white(), {"x"}), intended);
    EXPECT_NEAR(*track.gamma, 2.2, 1e-9);
    EXPECT_NEAR(*track.intended_gamma, 2.4, 1e-9);
    EXPECT_NEAR(*track.levels[5].gamma, 2.2, 1e-9);
    EXPECT_LT(track.largest_duv, 1e-9);
}

TEST(Greys, LeastMeasurableIsWhereDrawnReadingsScatterByTheGate) {
    // Second route: readings drawn at that luminance lie within the gate 19 times in 20.
    const ProofNoise noise;
    const Three day{95, 100, 108};
    const Three lamp{110, 100, 35};  // about illuminant A (CIE 15:2018, table 9.1)
    for (const Three& white : {day, lamp}) {
        const double least = least_measurable_luminance(white, noise, chromaticity_gate);
        PseudoRandom random(5);
        const auto uv = [](const Three& xyz) {
            const double sum = xyz[0] + 15 * xyz[1] + 3 * xyz[2];
            return std::array<double, 2>{4 * xyz[0] / sum, 9 * xyz[1] / sum};
        };
        int within = 0;
        constexpr int draws = 4000;
        for (int i = 0; i < draws; ++i) {
            Three xyz{0.01 * white[0] * least, least, 0.01 * white[2] * least};
            const auto at = uv(xyz);
            for (double& value : xyz) {
                value += noise.standard_deviation(value) * draw_normal(random);
            }
            const auto there = uv(xyz);
            within += std::hypot(there[0] - at[0], there[1] - at[1]) < chromaticity_gate ? 1 : 0;
        }
        // The errors' ellipse isn't round, which the mean of the variances leaves out: a little less than 95 % lie within.
        EXPECT_NEAR(within / static_cast<double>(draws), 0.95, 0.03) << white[2];
    }
}

TEST(ModelFitMisfit, IsCauchysSumOfTheDistancesAndWhatRefiningReturns) {
    const IntendedDisplay intended = sdr_intent();
    Injected faults;
    faults.gains[2] *= 1.05;
    const auto readings =
        simulated_visit(intended, proof_patches(intended, eight_bits), faults, {});
    const ProofReadings sorted =
        sort_readings(readings, names_of(intended), intended.white(), {"x"});
    const ModelFit fit(sorted.points, sorted.noise, intended);
    // Holland & Welsch 1977 (from memory), with the limit of 6 standard deviations.
    const auto by_definition = [&](const ModelState& state) {
        double sum = 0.0;
        for (const auto& distance : fit.distances(state)) {
            sum += 36.0 * std::log(1.0 + distance.z * distance.z / 36.0);
        }
        return sum;
    };
    ModelState state;
    const double before = fit.misfit(state);
    EXPECT_NEAR(before / by_definition(state), 1.0, 1e-12);
    const double after = fit.refine(state, {ModelNumber::gain_red, ModelNumber::gain_blue}, 10);
    EXPECT_LT(after, 0.2 * before);
    EXPECT_NEAR(after, by_definition(state), 1e-9 * before);
    EXPECT_NEAR(fit.misfit(state), after, 1e-9 * before);
    state.at(ModelNumber::gain_red) = std::numeric_limits<double>::quiet_NaN();
    EXPECT_TRUE(std::isinf(fit.misfit(state)));
}

TEST(Proof, AGateOnOnesOwnIntentIsPassed) {
    const IntendedDisplay intended = sdr_intent();
    const auto list = proof_patches(intended, eight_bits);
    const auto readings = simulated_visit(intended, list, {}, {});
    const ProofReadings sorted =
        sort_readings(readings, names_of(intended), intended.white(), {"x"});
    const ProofSide side = prove(sorted, intended, {});
    EXPECT_EQ(side.gate.verdict, GateVerdict::pass);
    ASSERT_EQ(side.groups.size(), 4U);
    EXPECT_EQ(side.groups.back().count, 133U);
    EXPECT_EQ(side.groups[0].count + side.groups[1].count + side.groups[2].count <= 133U, true);
    // Against another white the same display is off, as anybody will be told who measures it so.
    const ProofSide other =
        prove(sorted, intended.with_white(Chromaticity<Cie1931_2deg>(0.3127, 0.3290)), {});
    EXPECT_EQ(other.gate.verdict, GateVerdict::fail);
}

}  // namespace
}  // namespace samelight::test
