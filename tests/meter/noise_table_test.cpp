// What noise does to a correction by each method, simulated and by derivatives; the reason why the four-colour method is the default.
#include <array>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "meter/simulated_calibration.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"

namespace samelight {
namespace {

constexpr std::array<CorrectionMethod, 3> methods = {
    CorrectionMethod::four_colour, CorrectionMethod::least_squares, CorrectionMethod::three_colour};
constexpr std::array<double, 3> luminance_noise = {0.0, 0.01, 0.03};
constexpr double xy_noise = 0.0005;

/// The four patches, white at a share of the luminance that red, green and blue would give together.
std::vector<test::Shown> patches(double white_share) {
    std::vector<test::Shown> shown = test::rgbw();
    shown[3].drive = {white_share, white_share, white_share};
    return shown;
}

test::SimulatedCalibration display(const test::InventedMeter& meter) {
    return {generic_panel(generic_model("oled-rgb")), meter};
}

/// Root mean square error of the corrected white in x, y, with its own standard error.
struct Simulated {
    double error, standard_error;
};

Simulated simulate_error(const test::SimulatedCalibration& calibration, CorrectionMethod method,
                         double luminance_sd, double white_share, int trials) {
    test::Random random(2024);
    FitOptions options;
    options.method = method;
    double sum = 0.0;
    double squares = 0.0;
    for (int i = 0; i < trials; ++i) {
        const ReadingSet set(
            calibration.read(random, 1, {xy_noise, luminance_sd}, patches(white_share)));
        const auto white = fit_correction(set, options).corrected_xyz(calibration.meter({1, 1, 1}));
        const double d = test::xy_distance_to(white, calibration.reference({1, 1, 1}));
        sum += d * d;
        squares += d * d * d * d;
    }
    const double n = trials;
    const double mean = sum / n;
    // The root halves the relative error of the mean square.
    const double relative = 0.5 * std::sqrt((squares / n - mean * mean) / n) / mean;
    return {std::sqrt(mean), std::sqrt(mean) * relative};
}

/// The same by derivatives, around the readings without noise.
double propagated_error(const test::SimulatedCalibration& calibration, CorrectionMethod method,
                        double luminance_sd, double white_share) {
    test::Random random(1);
    FitOptions options;
    options.method = method;
    options.noise_from = NoiseFrom::stated;
    options.stated = stated_noise(xy_noise, luminance_sd);
    const Correction c = fit_correction(
        ReadingSet(calibration.read(random, 1, {0.0, 0.0}, patches(white_share))), options);
    const Certainty white = certainty(c, calibration.meter({1, 1, 1}));
    return std::sqrt(white.covariance[0] + white.covariance[4]);
}

TEST(InventedMeters, MissTheirTargetByAboutFivePercent) {
    for (const test::InventedMeter& meter : test::invented_meters()) {
        EXPECT_NEAR(test::f1_prime(meter), 0.05, 0.005) << meter.name;
    }
    // Source: ISO/CIE 19476:2014 gives f1' = 0 for V itself.
    EXPECT_LT(test::f1_prime({"none", {0, 0, 0}, {1, 1, 1}}), 1e-15);
    // V shifted by 2 nm: 3.807 % and -2 nm: 3.862 %, computed apart from this code, with illuminant A and V on 380-780 nm by 1 nm.
    EXPECT_NEAR(test::f1_prime({"V + 2 nm", {2, 2, 2}, {1, 1, 1}}), 0.03807, 5e-6);
    EXPECT_NEAR(test::f1_prime({"V - 2 nm", {-2, -2, -2}, {1, 1, 1}}), 0.03862, 5e-6);
}

// Two routes: 4,000 simulated calibrations, one reading a patch, against derivatives; within four standard errors of the simulation and the 1 %
// that second-order terms may add.
TEST(NoiseTable, SimulationAndDerivativesAgree) {
    for (const test::InventedMeter& meter : test::invented_meters()) {
        const test::SimulatedCalibration calibration = display(meter);
        const bool first = meter.name == test::invented_meters().front().name;
        if (first) {
            std::printf("sd .0005 in x and y; error of white in x, y (root mean square), %s\n",
                        meter.name.c_str());
        }
        for (const double white_share : {1.0, 0.68}) {
            for (const CorrectionMethod method : methods) {
                for (const double noise : luminance_noise) {
                    const double expected =
                        propagated_error(calibration, method, noise, white_share);
                    const Simulated got =
                        simulate_error(calibration, method, noise, white_share, first ? 4000 : 500);
                    EXPECT_NEAR(got.error, expected, 4.0 * got.standard_error + 0.01 * expected)
                        << meter.name << ", " << code_of(method) << ", " << noise;
                    if (first) {
                        std::printf(
                            "  white at %.2f, %-14s luminance noise %.0f %%: %.5f +- %.5f "
                            "(derivatives %.5f)\n",
                            white_share, code_of(method), 100.0 * noise, got.error,
                            got.standard_error, expected);
                    }
                }
            }
        }
    }
}

// The project's own figures for one such meter, computed on other generic spectra, so to 12 %: four-colour .0010 whatever the luminance noise,
// three-colour .0034, .0045 and .0103. Those of least squares, .0013, .0019 and .0043, depend on how bright white is beside red, green and
// blue: they hold for white at about two thirds of their sum, as automatic brightness limiting leaves it; with the full sum they are lower.
TEST(NoiseTable, TheProjectsFigures) {
    constexpr std::array<double, 3> three = {0.0034, 0.0045, 0.0103};
    constexpr std::array<double, 3> squares = {0.0013, 0.0019, 0.0043};
    const test::SimulatedCalibration calibration = display(test::invented_meters().front());
    for (std::size_t i = 0; i < 3; ++i) {
        const double noise = luminance_noise.at(i);
        EXPECT_NEAR(
            propagated_error(calibration, CorrectionMethod::four_colour, noise, 1.0) / 0.0010, 1.0,
            0.05);
        EXPECT_NEAR(
            propagated_error(calibration, CorrectionMethod::three_colour, noise, 1.0) / three.at(i),
            1.0, 0.12);
        EXPECT_NEAR(propagated_error(calibration, CorrectionMethod::least_squares, noise, 0.68) /
                        squares.at(i),
                    1.0, 0.12);
    }
}

// What holds for every invented meter.
TEST(NoiseTable, TheOrderOfTheMethods) {
    for (const test::InventedMeter& meter : test::invented_meters()) {
        const test::SimulatedCalibration calibration = display(meter);
        const auto error = [&](CorrectionMethod method, double noise, double white_share) {
            return propagated_error(calibration, method, noise, white_share);
        };
        const double four = error(CorrectionMethod::four_colour, 0.0, 1.0);
        double before = four;
        for (const double noise : luminance_noise) {
            EXPECT_NEAR(error(CorrectionMethod::four_colour, noise, 1.0), four, 1e-15);
            const double squares = error(CorrectionMethod::least_squares, noise, 1.0);
            EXPECT_GT(squares, before) << meter.name << " " << noise;
            EXPECT_LT(squares, error(CorrectionMethod::least_squares, noise, 0.68));
            EXPECT_LT(error(CorrectionMethod::least_squares, noise, 0.68),
                      error(CorrectionMethod::three_colour, noise, 1.0));
            before = squares;
        }
    }
}

}  // namespace
}  // namespace samelight
