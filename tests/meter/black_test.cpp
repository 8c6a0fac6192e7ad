// Black: taken off where it is more than noise, and what that does to the correction and its certainty.
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <Eigen/LU>

#include "meter/simulated_calibration.hpp"
#include "numeric/refusals.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/black.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

test::SimulatedCalibration display() {
    return {generic_panel(generic_model("lcd-white-led")), test::invented_meters().front()};
}

bool said(const std::vector<Warning>& warnings, const std::string& code) {
    return std::any_of(warnings.begin(), warnings.end(),
                       [&](const Warning& w) { return w.code == code; });
}

/// Rounds of red, green, blue, white and black on top of a leak of the light of `leak` drive, with noise of sd `noise` cd/m2 in X, Y, Z of black.
std::vector<PairedReading> leaking(test::Random& random, int rounds, double leak, double noise,
                                   const test::SimulatedNoise& patch_noise = {0.0, 0.0}) {
    const std::array<double, 3> drive = {leak, leak, 1.5 * leak};
    const auto black_r = display().reference(drive);
    const auto black_m = display().meter(drive);
    std::vector<PairedReading> pairs = display().read(random, rounds, patch_noise);
    for (PairedReading& pair : pairs) {
        for (std::size_t k = 0; k < 3; ++k) {
            pair.reference[k] += black_r.at(k);
            pair.meter[k] += black_m.at(k);
        }
    }
    for (int round = 1; round <= rounds; ++round) {
        PairedReading black{"black", black_r, black_m, round, {}};
        for (std::size_t k = 0; k < 3; ++k) {
            black.reference[k] += noise * random.normal();
            black.meter[k] += noise * random.normal();
        }
        pairs.push_back(black);
    }
    return pairs;
}

TEST(Black, TakenOffWhereItIsAboveTheNoise) {
    test::Random random(1);
    const WithoutBlack without = subtract_black(ReadingSet(leaking(random, 5, 0.01, 1e-9)));
    ASSERT_TRUE(without.black);
    EXPECT_TRUE(without.black->reference.above_noise());
    EXPECT_TRUE(without.black->meter.above_noise());
    EXPECT_TRUE(without.warnings.empty());
    EXPECT_TRUE(without.set.black().empty());
    const auto red = display().reference({1, 0, 0});
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_NEAR(without.set.pairs().front().reference.at(k), red.at(k), 1e-7);
    }
    // With black in them the primaries are no longer what they are, but light still adds: the correction is the same either way.
    const std::vector<PairedReading> pairs = leaking(random, 5, 0.01, 1e-9);
    const Correction c = fit_correction(ReadingSet(pairs));
    const Eigen::Matrix3d expected =
        display().reference_from_drive() * display().meter_from_drive().inverse();
    EXPECT_LT((c.luminance_factor * c.matrix() - expected).cwiseAbs().maxCoeff(), 1e-7);
}

TEST(Black, LeftWhereItIsNoise) {
    test::Random random(2);
    const ReadingSet set(leaking(random, 5, 0.0, 0.01));
    const WithoutBlack without = subtract_black(set);
    EXPECT_FALSE(without.black->reference.above_noise());
    EXPECT_FALSE(without.black->meter.above_noise());
    EXPECT_TRUE(said(without.warnings, "black_in_noise"));
    EXPECT_EQ(without.set.pairs().front().reference, set.pairs().front().reference);
    EXPECT_TRUE(said(fit_correction(set).warnings, "black_in_noise"));
    // Noise alone passes for black about as often as one side of a 95 % interval allows: 1 in 40.
    int taken = 0;
    for (int i = 0; i < 2000; ++i) {
        const WithoutBlack noise = subtract_black(ReadingSet(leaking(random, 4, 0.0, 0.01)));
        taken += noise.black->meter.above_noise() ? 1 : 0;
    }
    EXPECT_NEAR(taken / 2000.0, 0.025, 0.014);
}

TEST(Black, ReadOnceIsLeftAndSaid) {
    test::Random random(3);
    const WithoutBlack without = subtract_black(ReadingSet(leaking(random, 1, 0.01, 1e-9)));
    EXPECT_TRUE(said(without.warnings, "black_read_once"));
    EXPECT_FALSE(without.black->meter.above_noise());
    const WithoutBlack none = subtract_black(ReadingSet(display().read(random, 1, {})));
    EXPECT_FALSE(none.black);
}

// The noise of black is in every patch it is taken from. Two routes: derivatives against 4,000 simulations; with black this noisy it is the
// largest part for blue.
TEST(Black, ItsNoiseIsCarried) {
    test::Random random(4);
    const std::array<double, 3> blue = display().meter({0, 0, 1});
    constexpr int trials = 4000;
    double sum = 0.0;
    double stated = 0.0;
    double without_black = 0.0;
    const auto truth = xyY_from_xyz(display().reference({0, 0, 1}));
    for (int i = 0; i < trials; ++i) {
        const Correction c =
            fit_correction(ReadingSet(leaking(random, 4, 0.003, 0.02, {0.0002, 0.001})));
        if (c.noise_terms.back().patch != "black") {
            ++sum;
            continue;
        }
        const Certainty at = certainty(c, blue);
        stated += (at.covariance[0] + at.covariance[4]) / trials;
        Correction lighter = c;
        lighter.noise_terms.pop_back();
        const Certainty less = certainty(lighter, blue);
        without_black += (less.covariance[0] + less.covariance[4]) / trials;
        const auto got = xyY_from_xyz(c.corrected_xyz(blue));
        const double dx = got[0] - truth[0];
        const double dy = got[1] - truth[1];
        sum += (dx * dx + dy * dy) / trials;
    }
    // The mean of 4,000 squares of two dimensions is good to 1.6 %; second-order terms and black that was left some times may add 4 %.
    EXPECT_NEAR(sum / stated, 1.0, 0.09);
    EXPECT_GT(stated, 1.1 * without_black);
}

// Black read four times has 3 degrees of freedom. Where it is nothing beside the patches' noise, it does not decide how many there are.
TEST(Black, ItsFewRepeatsDecideOnlyWhereItsNoiseCounts) {
    test::Random random(4);
    const Correction quiet =
        fit_correction(ReadingSet(leaking(random, 4, 0.003, 1e-6, {0.0002, 0.001})));
    ASSERT_EQ(quiet.noise_terms.back().patch, "black");
    EXPECT_GT(quiet.degrees_of_freedom, 10.0);
    const Correction loud =
        fit_correction(ReadingSet(leaking(random, 4, 0.003, 0.02, {0.0002, 0.001})));
    ASSERT_EQ(loud.noise_terms.back().patch, "black");
    EXPECT_EQ(loud.degrees_of_freedom, 3.0);
}

TEST(Black, RefusesPatchesThatAreNoBrighter) {
    test::Random random(5);
    std::vector<PairedReading> pairs = leaking(random, 3, 0.01, 1e-9);
    for (PairedReading& pair : pairs) {
        if (pair.patch == "blue") {
            pair.meter = {0.1, 0.2, 0.1};
        }
    }
    const std::string text = test::refusal(
        ErrorKind::domain, [&] { static_cast<void>(subtract_black(ReadingSet(pairs))); });
    EXPECT_TRUE(test::contains(text, "patch blue, meter: no light left above black")) << text;
    test::refusal(ErrorKind::shape, [] {
        static_cast<void>(subtract_black(ReadingSet(
            {{"black", {1, 1, 1}, {1, 1, 1}, 1, {}}, {"black", {1, 1, 1}, {1, 1, 1}, 2, {}}})));
    });
}

}  // namespace
}  // namespace samelight
