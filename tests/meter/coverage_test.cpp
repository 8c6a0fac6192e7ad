// Whether what is said 19 times in 20 is true 19 times in 20, over simulated calibrations whose truth is known.
#include <array>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "meter/simulated_calibration.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/bootstrap.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/selection/plan.hpp"
#include "samelight/numeric/distributions.hpp"

namespace samelight {
namespace {

constexpr test::SimulatedNoise noise{0.0005, 0.01};

test::SimulatedCalibration covered_display() {
    return {generic_panel(generic_model("oled-rgb")), test::invented_meters().front()};
}

struct Coverage {
    double region = 0.0, x = 0.0, y = 0.0, luminance = 0.0;
};

/// Shares of calibrations in which the 95 % region, and the half-widths of x, y and Y, hold the truth; one entry a colour.
std::vector<Coverage> coverage(const FitOptions& options, int rounds, int trials,
                               const std::vector<test::Shown>& patches,
                               const std::vector<std::array<double, 3>>& drives) {
    const test::SimulatedCalibration calibration = covered_display();
    test::Random random(31);
    std::vector<Coverage> shares(drives.size());
    const double one = 1.0 / trials;
    for (int i = 0; i < trials; ++i) {
        const Correction c =
            fit_correction(ReadingSet(calibration.read(random, rounds, noise, patches)), options);
        for (std::size_t k = 0; k < drives.size(); ++k) {
            const auto truth = xyY_from_xyz(calibration.reference(drives[k]));
            const Certainty at = certainty(c, calibration.meter(drives[k]));
            const auto half = at.half_widths();
            shares[k].region += at.region_contains(truth[0], truth[1]) ? one : 0.0;
            shares[k].x += std::abs(at.xy[0] - truth[0]) <= half[0] ? one : 0.0;
            shares[k].y += std::abs(at.xy[1] - truth[1]) <= half[1] ? one : 0.0;
            shares[k].luminance += std::abs(at.luminance / truth[2] - 1.0) <= half[2] ? one : 0.0;
        }
    }
    return shares;
}

void expect_coverage(const FitOptions& options, int rounds, int trials,
                     const std::vector<test::Shown>& patches = test::rgbw()) {
    const std::vector<std::array<double, 3>> drives = {{1, 1, 1}, {0.7, 0.4, 0.3}};
    const std::vector<Coverage> shares = coverage(options, rounds, trials, patches, drives);
    for (std::size_t k = 0; k < shares.size(); ++k) {
        const Coverage& c = shares[k];
        std::printf("  %-26s %2d repeats, %s: x, y together %.3f, x %.3f, y %.3f, Y %.3f\n",
                    code_of(options.method), rounds, k == 0 ? "white" : "skin ", c.region, c.x, c.y,
                    c.luminance);
        for (const double share : {c.region, c.x, c.y, c.luminance}) {
            EXPECT_GT(share, 0.93) << code_of(options.method) << ", " << rounds << " repeats";
            EXPECT_LT(share, 0.97) << code_of(options.method) << ", " << rounds << " repeats";
        }
    }
}

// The default: 10,000 calibrations at 3, 5 and 10 repeats. The standard error of a share is .002.
TEST(Coverage, FourColour) {
    for (const int rounds : {3, 5, 10}) {
        expect_coverage({}, rounds, 10000);
    }
}

// The other methods, 4,000 calibrations each: the standard error of a share is .0035.
TEST(Coverage, OtherMethods) {
    for (const CorrectionMethod method :
         {CorrectionMethod::three_colour, CorrectionMethod::least_squares,
          CorrectionMethod::weighted_least_squares, CorrectionMethod::white_exact_least_squares}) {
        for (const int rounds : {3, 5, 10}) {
            FitOptions options;
            options.method = method;
            expect_coverage(options, rounds, 4000);
        }
    }
}

/// Blue four times as noisy as the rest, red twice.
std::vector<test::Shown> uneven() {
    std::vector<test::Shown> patches = test::rgbw();
    patches[0].noise_factor = 2.0;
    patches[2].noise_factor = 4.0;
    return patches;
}

// Patches that scatter differently need each patch's own repeats; pooled, white's region would be too large.
TEST(Coverage, EachPatchByItself) {
    FitOptions options;
    options.noise_from = NoiseFrom::each_patch;
    for (const int rounds : {6, 10}) {
        expect_coverage(options, rounds, 2000, uneven());
    }
    // Three repeats leave two degrees of freedom: true, and of little use.
    const auto few = coverage(options, 3, 2000, uneven(), {{1, 1, 1}});
    EXPECT_NEAR(few[0].region, 0.95, 0.02);
    const auto pooled = coverage({}, 6, 1000, uneven(), {{1, 1, 1}});
    EXPECT_GT(pooled[0].region, 0.985) << "pooled noise says too much about white here";
}

// The noise of the reading that is corrected, counted as well: truth against one more reading.
TEST(Coverage, OfASingleCorrectedReading) {
    const test::SimulatedCalibration calibration = covered_display();
    test::Random random(5);
    for (const int rounds : {3, 10}) {
        constexpr int trials = 3000;
        int inside = 0;
        for (int i = 0; i < trials; ++i) {
            const Correction c =
                fit_correction(ReadingSet(calibration.read(random, rounds, noise)));
            const auto reading =
                test::SimulatedCalibration::noisy(calibration.meter({0.9, 1, 0.8}), random, noise);
            const auto truth = xyY_from_xyz(calibration.reference({0.9, 1, 0.8}));
            inside += certainty(c, reading, 1.0).region_contains(truth[0], truth[1]) ? 1 : 0;
        }
        EXPECT_NEAR(inside / static_cast<double>(trials), 0.95, 0.02) << rounds;
    }
}

// Beside it the bootstrap of repeats. Two routes: n draws from n readings have (n - 1) / n of their covariance and a normal ellipse in place of
// Hotelling's, so for white the region holds the truth with the probability that F(2, n - 2) is below chi squared times
// (n - 2) / (2 n), which for two degrees in the numerator is 1 - (1 + chi squared / n)^(-(n - 2) / 2).
TEST(Coverage, TheBootstrapOfFewRepeatsIsTooSure) {
    const test::SimulatedCalibration calibration = covered_display();
    const double chi_squared = chi_squared_quantile(0.95, 2.0);
    for (const int rounds : {3, 5, 10}) {
        constexpr int trials = 500;
        test::Random random(77);
        int inside = 0;
        for (int i = 0; i < trials; ++i) {
            const ReadingSet set(calibration.read(random, rounds, noise));
            const Bootstrap b = bootstrap_repeats(set, {}, 400, static_cast<std::uint64_t>(i));
            const auto truth = xyY_from_xyz(calibration.reference({1, 1, 1}));
            inside += b.region(calibration.meter({1, 1, 1})).contains(truth[0], truth[1]) ? 1 : 0;
        }
        const double share = inside / static_cast<double>(trials);
        const double n = rounds;
        const double expected = 1.0 - std::pow(1.0 + chi_squared / n, -0.5 * (n - 2.0));
        std::printf("  bootstrap, %2d repeats, white: x, y together %.3f (expected %.3f)\n", rounds,
                    share, expected);
        EXPECT_NEAR(share, expected, 4.0 * std::sqrt(expected * (1.0 - expected) / trials));
    }
}

// Reading until the half-width is small enough favours chance agreement. How much, is measured; the rule may cost two in a hundred.
TEST(Coverage, WithTheStopRule) {
    const test::SimulatedCalibration calibration = covered_display();
    test::Random random(8);
    constexpr int trials = 1500;
    int inside = 0;
    double rounds_read = 0.0;
    for (int i = 0; i < trials; ++i) {
        std::vector<PairedReading> pairs = calibration.read(random, 2, noise);
        for (int round = 3;; ++round) {
            for (PairedReading pair : calibration.read(random, 1, noise)) {
                pair.round = round;
                pairs.push_back(pair);
            }
            const Correction c = fit_correction(ReadingSet(pairs));
            const Certainty white = certainty(c, calibration.meter({1, 1, 1}));
            const auto half = white.half_widths();
            if (std::max(half[0], half[1]) <= 0.0006 || round == 60) {
                EXPECT_LT(round, 60);
                const auto truth = xyY_from_xyz(calibration.reference({1, 1, 1}));
                inside += white.region_contains(truth[0], truth[1]) ? 1 : 0;
                rounds_read += static_cast<double>(round) / trials;
                break;
            }
        }
    }
    const double share = inside / static_cast<double>(trials);
    std::printf("  stopped at +-.0006 after %.1f rounds: white, x, y together %.3f\n", rounds_read,
                share);
    EXPECT_GT(share, 0.93);
    EXPECT_LT(share, 0.97);
}

}  // namespace
}  // namespace samelight
