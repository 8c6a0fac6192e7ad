// The verdict on a correction, for calibrations whose truth is known.
#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "meter/simulated_calibration.hpp"
#include "numeric/refusals.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/readings/drift.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

test::SimulatedCalibration display(const std::string& panel, std::size_t meter = 0) {
    return {generic_panel(generic_model(panel)), test::invented_meters().at(meter)};
}

std::vector<test::Shown> with_proof() {
    std::vector<test::Shown> patches = test::rgbw();
    patches.push_back({"yellow", {1, 1, 0}});
    patches.push_back({"grey", {0.5, 0.5, 0.5}});
    return patches;
}

FitJudgement judged(const ReadingSet& set, const FitOptions& options = {}) {
    const Correction c = fit_correction(set, options);
    return judge_use(set, c, judge_fit(set, c, options));
}

constexpr test::SimulatedNoise usual_noise{0.0002, 0.004};

TEST(FitVerdict, UseWhereColoursLeftOutProveIt) {
    test::Random random(1);
    const auto found =
        judged(ReadingSet(display("oled-rgb").read(random, 5, usual_noise, with_proof())));
    EXPECT_EQ(found.verdict, FitVerdict::use) << code_of(found.reason);
    EXPECT_LT(found.proof_after, 0.001);
    EXPECT_GT(found.proof_before, 0.003);
    EXPECT_EQ(found.reason, FitReason::proven) << code_of(found.reason);
    EXPECT_EQ(found.proof_count, 2U);  // yellow and grey
    EXPECT_FALSE(found.near_one_white);
    EXPECT_FALSE(found.raw_channels);
}

TEST(FitVerdict, UnprovenWithoutSuchColours) {
    test::Random random(1);
    const auto found = judged(ReadingSet(display("oled-rgb").read(random, 5, usual_noise)));
    EXPECT_EQ(found.verdict, FitVerdict::use_unproven) << code_of(found.reason);
    EXPECT_EQ(found.reason, FitReason::unproven) << code_of(found.reason);
    EXPECT_EQ(found.proof_after, 0.0);
    EXPECT_EQ(found.proof_count, 0U);
}

// A meter that reads as the reference does: the correction is nothing but noise, in 95 of 100 calibrations and more.
TEST(FitVerdict, NotNeededWhereTheMeterIsRight) {
    const test::SimulatedCalibration same(generic_panel(generic_model("oled-rgb")),
                                          {"right", {0, 0, 0}, {1, 1, 1}});
    test::Random random(4);
    int not_needed = 0;
    constexpr int trials = 60;
    for (int i = 0; i < trials; ++i) {
        const auto found = judged(ReadingSet(same.read(random, 5, usual_noise, with_proof())));
        not_needed += found.verdict == FitVerdict::not_needed ? 1 : 0;
        EXPECT_NE(found.verdict, FitVerdict::use_unproven);
    }
    EXPECT_GT(not_needed, trials / 2);
}

// The primaries of one type, the proof of another: the correction moves colours that the meter read right.
TEST(FitVerdict, NotWhereItMakesTheProofWorse) {
    test::Random random(2);
    std::vector<PairedReading> pairs =
        display("oled-rgb").read(random, 4, usual_noise, with_proof());
    for (PairedReading& pair : pairs) {
        if (pair.patch == "yellow" || pair.patch == "grey") {
            pair.meter = test::SimulatedCalibration::noisy(pair.reference, random, usual_noise);
        }
    }
    const auto found = judged(ReadingSet(pairs));
    EXPECT_EQ(found.verdict, FitVerdict::do_not_use) << code_of(found.reason);
    EXPECT_EQ(found.reason, FitReason::no_better_than_none) << code_of(found.reason);
    EXPECT_GT(found.proof_after, found.proof_before);
}

TEST(FitVerdict, ReadAgainAfterAnOddReadingOrDrift) {
    test::Random random(3);
    std::vector<test::Shown> patches = with_proof();
    patches.push_back({"white", {1, 1, 1}});
    const std::vector<PairedReading> steady =
        display("oled-rgb").read(random, 5, usual_noise, patches);
    EXPECT_EQ(judged(ReadingSet(steady)).verdict, FitVerdict::use);

    std::vector<PairedReading> odd = steady;
    const auto green = xyY_from_xyz(odd[8].reference);
    odd[8].reference = xyz_from_xyY(green[0] + 0.01, green[1], green[2]);
    const auto found = judged(ReadingSet(odd));
    EXPECT_EQ(found.verdict, FitVerdict::read_again) << code_of(found.reason);
    EXPECT_EQ(found.reason, FitReason::odd_reading) << code_of(found.reason);
    ASSERT_TRUE(found.odd_reading);
    EXPECT_EQ(found.odd_reading->patch, odd[8].patch);
    EXPECT_EQ(found.again_patch, odd[8].patch);
    EXPECT_EQ(found.again_round, odd[8].round);

    // In the third round white moves by .0016 in x for both instruments, eight times the usual_noise; neither end is odd by itself.
    std::vector<PairedReading> drifting = steady;
    for (const auto& [at, moved] : {std::pair<std::size_t, double>{17, -0.0008}, {20, 0.0008}}) {
        ASSERT_EQ(drifting[at].patch, "white");
        for (auto* xyz : {&drifting[at].reference, &drifting[at].meter}) {
            const auto v = xyY_from_xyz(*xyz);
            *xyz = xyz_from_xyY(v[0] + moved, v[1], v[2]);
        }
    }
    const auto after = judged(ReadingSet(drifting));
    EXPECT_EQ(after.verdict, FitVerdict::read_again) << code_of(after.reason);
    EXPECT_EQ(after.reason, FitReason::drift) << code_of(after.reason);
    EXPECT_FALSE(after.odd_reading);
    EXPECT_EQ(after.again_patch, "");
    EXPECT_EQ(after.again_round, 3);
}

// On a steady display usual_noise alone marks most calibrations as drifting; 1 in 100 may be taken for more than usual_noise. The scatter is itself an
// estimate, which may double that: 400 calibrations, at most 4 in 100.
TEST(FitVerdict, NoiseIsNotTakenForDrift) {
    test::Random random(10);
    std::vector<test::Shown> patches = with_proof();
    patches.push_back({"white", {1, 1, 1}});
    const test::SimulatedCalibration calibration = display("oled-rgb");
    constexpr int trials = 400;
    int marked = 0;
    int beyond = 0;
    for (int i = 0; i < trials; ++i) {
        const auto drift =
            white_drift(ReadingSet(calibration.read(random, 5, usual_noise, patches)));
        marked +=
            std::any_of(drift.begin(), drift.end(), [](const WhiteDrift& d) { return d.marked(); })
                ? 1
                : 0;
        beyond += std::any_of(drift.begin(), drift.end(),
                              [](const WhiteDrift& d) { return d.beyond_noise(); })
                      ? 1
                      : 0;
    }
    EXPECT_GT(marked, trials / 2);
    EXPECT_LE(beyond, 16);
}

// A dimming display: the four-colour method does not feel it, least squares does.
TEST(FitVerdict, DriftInLuminanceAloneCountsForMethodsThatFeelIt) {
    test::Random random(6);
    std::vector<test::Shown> patches = with_proof();
    patches.push_back({"white", {1, 1, 1}});
    std::vector<PairedReading> pairs =
        display("oled-rgb").read(random, 5, {0.0002, 0.001}, patches);
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        const double dimmed = 1.0 - 0.005 * static_cast<double>(i % patches.size());
        for (std::size_t k = 0; k < 3; ++k) {
            pairs[i].reference[k] *= dimmed;
            pairs[i].meter[k] *= dimmed;
        }
    }
    const auto found = judged(ReadingSet(pairs));
    EXPECT_EQ(found.verdict, FitVerdict::use) << code_of(found.reason);
    FitOptions options;
    options.method = CorrectionMethod::least_squares;
    EXPECT_EQ(judged(ReadingSet(pairs), options).verdict, FitVerdict::read_again);
}

TEST(FitVerdict, ReadOnceAndUnprovenIsNotEnough) {
    test::Random random(9);
    const auto found = judged(ReadingSet(display("oled-rgb").read(random, 1, usual_noise)));
    EXPECT_EQ(found.verdict, FitVerdict::read_again) << code_of(found.reason);
}

// Readings that scatter by .004 can't prove that a meter is right, even where it is: they must not send anybody away content.
TEST(FitVerdict, TooMuchNoiseIsNoProofOfARightMeter) {
    const test::SimulatedCalibration same(generic_panel(generic_model("oled-rgb")),
                                          {"right", {0, 0, 0}, {1, 1, 1}});
    test::Random random(12);
    int cannot_tell = 0;
    constexpr int trials = 40;
    for (int i = 0; i < trials; ++i) {
        const ReadingSet set(same.read(random, 3, {0.004, 0.004}));
        const Correction c = fit_correction(set);
        const auto none = detail::against_none(set, c);
        const auto found = judge_use(set, c, judge_fit(set, c));
        EXPECT_NE(found.verdict, FitVerdict::not_needed) << code_of(found.reason);
        EXPECT_FALSE(none.within_noise);
        if (none.cannot_tell) {
            ++cannot_tell;
            EXPECT_EQ(found.verdict, FitVerdict::read_again);
            EXPECT_GT(none.widest, detail::widest_telling_region);
        }
    }
    EXPECT_GT(cannot_tell, trials / 2);
}

// Raw channels are no X, Y, Z on any display: what is not asked of the first must not be asked of the others.
TEST(FitVerdict, RawChannelsElsewhere) {
    test::Random random(13);
    std::vector<PairedReading> pairs =
        display("oled-rgb").read(random, 3, usual_noise, with_proof());
    for (PairedReading& pair : pairs) {
        for (double& channel : pair.meter) {
            channel *= 40.0;  // counts
        }
    }
    FitOptions options;
    options.check_readings = false;
    const Correction c = fit_correction(ReadingSet(pairs), options);
    EXPECT_THROW(static_cast<void>(judge_elsewhere(c, ReadingSet(pairs))), Error);
    EXPECT_EQ(judge_elsewhere(c, ReadingSet(pairs), MeterValues::raw_channels).verdict,
              OtherVerdict::use);
}

// The figures of the field: the matrix of another unit of the type serves, that of another type may be worse than none.
TEST(FitVerdict, Elsewhere) {
    test::Random random(5);
    const Correction c =
        fit_correction(ReadingSet(display("oled-rgb").read(random, 5, usual_noise, with_proof())));
    const auto again = judge_elsewhere(
        c, ReadingSet(display("oled-rgb").read(random, 5, usual_noise, with_proof())));
    EXPECT_EQ(again.verdict, OtherVerdict::use) << again.after.xy.root_mean_square;
    EXPECT_EQ(again.after.count, 6U);
    for (const char* other : {"lcd-white-led", "lcd-narrow-red", "lcd-quantum-dot", "oled-white"}) {
        const auto there = judge_elsewhere(
            c, ReadingSet(display(other).read(random, 5, usual_noise, with_proof())));
        EXPECT_NE(there.verdict, OtherVerdict::use) << other;
        EXPECT_EQ(there.verdict == OtherVerdict::do_not_use,
                  there.after.xy.root_mean_square >= there.before.xy.root_mean_square);
    }
}

}  // namespace
}  // namespace samelight
