// The digits of readings: found, counted as noise, and never taken for a fault.
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include <gtest/gtest.h>

#include "meter/simulated_calibration.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/outliers.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/readings/resolution.hpp"
#include "samelight/meter/selection/plan.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

using Triples = std::vector<std::array<double, 3>>;

double rounded(double value, double step) { return step * std::round(value / step); }

/// x and y to so many places, Y to one.
std::array<double, 3> written_as_xyY(const std::array<double, 3>& xyz, double step) {
    const auto v = xyY_from_xyz(xyz);
    return xyz_from_xyY(rounded(v[0], step), rounded(v[1], step), rounded(v[2], 0.1));
}

std::array<double, 3> written_as_xyz(const std::array<double, 3>& xyz, double step) {
    return {rounded(xyz[0], step), rounded(xyz[1], step), rounded(xyz[2], step)};
}

test::SimulatedCalibration rounded_display() {
    return {generic_panel(generic_model("oled-rgb")), test::invented_meters().front()};
}

std::vector<PairedReading> written_down(std::vector<PairedReading> pairs, double step) {
    for (PairedReading& pair : pairs) {
        pair.reference = written_as_xyY(pair.reference, step);
        pair.meter = written_as_xyY(pair.meter, step);
    }
    return pairs;
}

TEST(Resolution, IsReadOffTheDigits) {
    const Resolution xy =
        resolution_of(Triples{xyz_from_xyY(0.3127, 0.329, 120.1), xyz_from_xyY(0.64, 0.33, 25.0),
                              xyz_from_xyY(0.15, 0.0601, 8.72)});
    EXPECT_EQ(xy.xyz, 0.0);
    EXPECT_NEAR(xy.xy, 1e-4, 1e-18);
    EXPECT_NEAR(xy.luminance, 0.01, 1e-17);
    const Resolution xyz = resolution_of(Triples{{95, 100, 109}, {46.3, 21, 0.5}, {0, 0, 0}});
    EXPECT_NEAR(xyz.xyz, 0.1, 1e-16);
    EXPECT_EQ(xyz.xy, 0.0);
    // As many digits as a double has: nothing to count.
    EXPECT_FALSE(resolution_of(Triples{{95.04 / 3.0, 100.0 / 7.0, 1.0 / 3.0}}).known());
    EXPECT_FALSE(resolution_of(Triples{}).known());
}

// Against rounding itself: many lights near one another, each written down, have this scatter.
TEST(Resolution, CovarianceIsThatOfRoundedValues) {
    test::Random random(31);
    const std::array<double, 3> light = {19.3, 21.7, 6.4};
    constexpr int count = 20000;
    for (const bool as_xyz : {true, false}) {
        Triples written;
        std::array<double, 9> sum{};
        for (int i = 0; i < count; ++i) {
            std::array<double, 3> xyz = light;
            for (double& v : xyz) {
                v += random.between(-0.5, 0.5);
            }
            const auto w = as_xyz ? written_as_xyz(xyz, 0.1) : written_as_xyY(xyz, 0.001);
            const auto a = xyY_from_xyz(w);
            const auto b = xyY_from_xyz(xyz);
            const std::array<double, 3> d = {a[0] - b[0], a[1] - b[1], a[2] / b[2] - 1.0};
            for (std::size_t k = 0; k < 9; ++k) {
                sum.at(k) += d.at(k / 3) * d.at(k % 3) / count;
            }
            written.push_back(w);
        }
        const Resolution found = resolution_of(written);
        const auto c = found.covariance(xyY_from_xyz(light));
        for (std::size_t k = 0; k < 9; ++k) {
            // Four standard errors of 20,000 draws, and 1 % for lights that are not all the same.
            EXPECT_NEAR(c.at(k), sum.at(k), 0.05 * std::sqrt(c.at(k / 3 * 4) * c.at(k % 3 * 4)));
        }
        EXPECT_NEAR(found.step(xyY_from_xyz(light), 0), std::sqrt(12.0 * c[0]), 1e-15);
    }
}

// Three places in x and y are five times the noise here: most repeats agree, and their scatter says nothing. The regions must hold the truth all the same.
TEST(Resolution, RegionsHoldTheTruthOfRoundedReadings) {
    const test::SimulatedCalibration calibration = rounded_display();
    test::Random random(32);
    constexpr int trials = 400;
    int held = 0;
    int false_alarms = 0;
    for (int i = 0; i < trials; ++i) {
        // Another light each time, so that it lies anywhere between two steps.
        const std::array<double, 3> drive = {random.between(0.9, 1.0), random.between(0.9, 1.0),
                                             random.between(0.9, 1.0)};
        std::vector<test::Shown> patches = test::rgbw();
        patches[3].drive = drive;
        const ReadingSet set(
            written_down(calibration.read(random, 3, {0.0002, 0.0}, patches), 0.001));
        const Correction c = fit_correction(set);
        ASSERT_TRUE(c.covariance);
        const auto truth = xyY_from_xyz(calibration.reference(drive));
        held += certainty(c, calibration.meter(drive)).region_contains(truth[0], truth[1]) ? 1 : 0;
        false_alarms += odd_readings(set).empty() ? 0 : 1;
        for (const Warning& w : c.warnings) {
            for (const Fact& fact : w.facts) {
                const auto* number = std::get_if<double>(&fact.value);
                EXPECT_TRUE(number == nullptr || std::isfinite(*number)) << w.code << fact.name;
            }
            false_alarms += w.code == "noise_differs" ? 1 : 0;
        }
    }
    EXPECT_GE(held, trials * 93 / 100);
    EXPECT_LE(false_alarms, trials * 3 / 100);
}

// Readings of the field: white .0070 off in x, y, three rounds that agree to the fourth place, or move together in x alone.
std::vector<PairedReading> agreeing_rounds(double moved_x) {
    const std::array<const char*, 4> names = {"white", "red", "green", "blue"};
    const std::array<std::array<double, 3>, 4> reference = {
        {{0.3127, 0.3290, 120.1}, {0.64, 0.33, 25.0}, {0.3, 0.6, 86.0}, {0.15, 0.06, 8.7}}};
    const std::array<std::array<double, 3>, 4> meter = {{{0.3060, 0.3310, 116.0},
                                                         {0.6521, 0.322, 24.3},
                                                         {0.318, 0.596, 84.0},
                                                         {0.158, 0.071, 8.1}}};
    std::vector<PairedReading> pairs;
    for (int round = 1; round <= 3; ++round) {
        const double dx = moved_x * (round - 2);
        for (std::size_t i = 0; i < names.size(); ++i) {
            const auto& r = reference.at(i);
            const auto& m = meter.at(i);
            pairs.push_back({names.at(i),
                             xyz_from_xyY(r[0] + dx, r[1], r[2]),
                             xyz_from_xyY(m[0] + dx, m[1], m[2]),
                             round,
                             {}});
        }
    }
    return pairs;
}

TEST(Resolution, AgreeingRepeatsDoNotMakeAMeterRight) {
    for (const double moved : {0.0, 0.0001}) {
        const ReadingSet set(agreeing_rounds(moved));
        const Correction c = fit_correction(set);
        const FitJudgement found = judge_use(set, c, judge_fit(set, c));
        EXPECT_EQ(found.verdict, FitVerdict::use_unproven) << code_of(found.reason);
        const Certainty white = certainty(c, set.patches()[0].pairs[0].meter);
        EXPECT_TRUE(std::isfinite(white.region().semi_major));
        // One step of .0001 of both instruments: uniform over a step each, of standard deviation .0001 sqrt(2 / 12).
        EXPECT_GE(white.half_widths()[1], 1.9 * 0.0001 * std::sqrt(2.0 / 12.0));
        EXPECT_LT(white.half_widths()[1], 0.0003);
        EXPECT_FALSE(white.region_contains(0.3060, 0.3310));
        // A plan knows that no reading takes rounding away.
        EXPECT_GE(after_more_rounds(c, set.patches()[0].pairs[0].meter, 1000).half_widths()[1],
                  1.9 * 0.0001 * std::sqrt(2.0 / 12.0));
        for (const NextPatch& next : next_patches(c, {set.patches()[0].pairs[0].meter})) {
            EXPECT_TRUE(std::isfinite(next.reduction));
        }
        EXPECT_EQ(next_patches(c, {set.patches()[0].pairs[0].meter}).size(), 4U);
    }
    // Weights from repeats that agree: the digits give them.
    FitOptions options;
    options.method = CorrectionMethod::weighted_least_squares;
    const Correction weighted = fit_correction(ReadingSet(agreeing_rounds(0.0)), options);
    EXPECT_TRUE(weighted.covariance);
    // Noise as stated has rounding in it already.
    FitOptions stated;
    stated.noise_from = NoiseFrom::stated;
    stated.stated = stated_noise(0.0002, 0.002);
    const Correction c = fit_correction(ReadingSet(agreeing_rounds(0.0)), stated);
    EXPECT_EQ(c.noise.size(), 1U);
}

// Black taken off leaves numbers with other digits than were written down.
TEST(Resolution, SurvivesBlack) {
    std::vector<PairedReading> pairs = agreeing_rounds(0.0);
    for (PairedReading& pair : pairs) {
        for (auto* xyz : {&pair.reference, &pair.meter}) {
            *xyz = written_as_xyz(*xyz, 0.1);
        }
    }
    for (int round = 1; round <= 3; ++round) {
        pairs.push_back({"black", {0.3, 0.3, 0.4}, {0.3, round == 1 ? 0.2 : 0.3, 0.4}, round, {}});
    }
    const ReadingSet set(pairs);
    const WithoutBlack light = subtract_black(set);
    EXPECT_NEAR(light.set.resolution().meter.xyz, 0.1, 1e-16);
    ASSERT_TRUE(light.black);
    EXPECT_NEAR(*light.black->reference.noise, 0.05, 1e-12);  // half a step, where repeats agree
    EXPECT_TRUE(light.black->reference.above_noise());
}

}  // namespace
}  // namespace samelight
