// The bootstrap: what it draws, that each draw is a fit, and that it agrees with derivatives where both hold.
#include <array>
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/QR>

#include "meter/simulated_calibration.hpp"
#include "numeric/refusals.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/bootstrap.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/pair_columns.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"

namespace samelight {
namespace {

test::SimulatedCalibration boot_display() {
    return {generic_panel(generic_model("oled-rgb")), test::invented_meters().front()};
}

struct Many {
    std::vector<std::array<double, 3>> meter, reference;
    std::vector<PairedReading> pairs;
};

Many many(int count, const test::SimulatedNoise& noise) {
    test::Random random(17);
    Many m;
    for (int i = 0; i < count; ++i) {
        const std::array<double, 3> drive = {random.between(0.1, 1), random.between(0.1, 1),
                                             random.between(0.1, 1)};
        m.meter.push_back(
            test::SimulatedCalibration::noisy(boot_display().meter(drive), random, noise));
        m.reference.push_back(
            test::SimulatedCalibration::noisy(boot_display().reference(drive), random, noise));
        m.pairs.push_back(
            {"patch " + std::to_string(i), m.reference.back(), m.meter.back(), 1, {}});
    }
    return m;
}

// Second route: the same draws, rows gathered, Householder QR.
TEST(BootstrapPatches, EachResampleIsTheFitOfItsRows) {
    const Many m = many(21, {0.001, 0.01});
    constexpr std::size_t count = 37;  // no multiple of eight
    const Bootstrap b = bootstrap_patches(PairColumns(m.meter, m.reference), count, 5);
    ASSERT_EQ(b.xyz_from_meter.size(), count);
    EXPECT_EQ(b.dependent, 0U);
    detail::IndexDraws draws(5);
    for (const std::array<double, 9>& got : b.xyz_from_meter) {
        Eigen::MatrixXd x(21, 3);
        Eigen::MatrixXd y(21, 3);
        std::array<std::uint32_t, 21> drawn{};
        draws.fill(drawn, 21);
        for (Eigen::Index i = 0; i < 21; ++i) {
            const std::size_t at = drawn.at(static_cast<std::size_t>(i));
            for (std::size_t k = 0; k < 3; ++k) {
                x(i, static_cast<Eigen::Index>(k)) = m.meter[at].at(k);
                y(i, static_cast<Eigen::Index>(k)) = m.reference[at].at(k);
            }
        }
        const Eigen::Matrix3d expected = x.colPivHouseholderQr().solve(y).transpose();
        for (std::size_t k = 0; k < 9; ++k) {
            EXPECT_NEAR(got.at(k), expected(static_cast<int>(k) / 3, static_cast<int>(k) % 3),
                        1e-11);
        }
    }
}

TEST(BootstrapPatches, DrawsEveryPatchEvenly) {
    detail::IndexDraws draws(1);
    std::array<int, 7> seen{};
    constexpr int total = 70000;
    std::vector<std::uint32_t> drawn(total);
    draws.fill(drawn, 7);
    for (const std::uint32_t d : drawn) {
        ++seen.at(d);
    }
    for (const int n : seen) {
        EXPECT_NEAR(n, total / 7, 4.0 * std::sqrt(total / 7.0));
    }
}

TEST(BootstrapPatches, LeavesOutDependentDrawsAndCountsThem) {
    const std::vector<std::array<double, 3>> three = {{60, 30, 1}, {20, 70, 10}, {20, 5, 110}};
    const Bootstrap b = bootstrap_patches(PairColumns(three, three), 10000, 2);
    EXPECT_EQ(b.xyz_from_meter.size() + b.dependent, 10000U);
    // All three of three in three draws: 3! / 3^3 = 2 / 9.
    EXPECT_NEAR(static_cast<double>(b.xyz_from_meter.size()), 10000.0 * 2.0 / 9.0,
                4.0 * std::sqrt(10000.0 * 2.0 / 9.0 * 7.0 / 9.0));
    const Bootstrap again = bootstrap_patches(PairColumns(three, three), 10000, 2);
    EXPECT_EQ(again.xyz_from_meter, b.xyz_from_meter);
    EXPECT_NE(bootstrap_patches(PairColumns(three, three), 10000, 3).dependent, 0U);
}

// Two routes to the uncertainty of a fit from 140 patches: derivatives with the residuals' noise, and 10,000 resamples. They assume different
// things (derivatives one noise in x, y and Y for all patches), so agree to a quarter.
TEST(BootstrapPatches, AgreesWithDerivatives) {
    const Many m = many(140, {0.0005, 0.003});
    FitOptions options;
    options.method = CorrectionMethod::least_squares;
    options.noise_from = NoiseFrom::residuals;
    const Correction c = fit_correction(ReadingSet(m.pairs), options);
    const Certainty a = certainty(c, boot_display().meter({1, 1, 1}));
    const Moments b = bootstrap_patches(PairColumns(m.meter, m.reference))
                          .corrected(boot_display().meter({1, 1, 1}));
    EXPECT_NEAR(b.covariance.standard(0) / std::sqrt(a.covariance[0]), 1.0, 0.25);
    EXPECT_NEAR(b.covariance.standard(1) / std::sqrt(a.covariance[4]), 1.0, 0.25);
    EXPECT_NEAR(b.covariance.standard(2) / std::sqrt(a.covariance[8]), 1.0, 0.25);
    EXPECT_NEAR(b.mean[0], a.xy[0], 5e-5);
}

// With many repeats both see the same scatter: each patch's own, up to the factor (n - 1) / n.
TEST(BootstrapRepeats, AgreesWithDerivativesForEveryMethod) {
    test::Random random(19);
    constexpr int rounds = 30;
    const ReadingSet set(boot_display().read(random, rounds, {0.0005, 0.005}));
    for (const CorrectionMethod method :
         {CorrectionMethod::four_colour, CorrectionMethod::three_colour,
          CorrectionMethod::least_squares, CorrectionMethod::white_exact_least_squares,
          CorrectionMethod::white_only}) {
        FitOptions options;
        options.method = method;
        options.noise_from = NoiseFrom::each_patch;
        const Certainty a =
            certainty(fit_correction(set, options), boot_display().meter({1, 1, 1}));
        const Moments b =
            bootstrap_repeats(set, options, 2000).corrected(boot_display().meter({1, 1, 1}));
        const double shrink = std::sqrt((rounds - 1.0) / rounds);
        for (int k = 0; k < 3; ++k) {
            // The standard deviation of 2,000 is good to 1.6 %.
            EXPECT_NEAR(b.covariance.standard(k) /
                            (shrink * std::sqrt(a.covariance.at(static_cast<std::size_t>(4 * k)))),
                        1.0, 0.065)
                << code_of(method) << " " << k;
        }
    }
}

TEST(Bootstrap, Refuses) {
    const Many m = many(5, {});
    test::refusal(ErrorKind::domain, [&] {
        static_cast<void>(bootstrap_patches(PairColumns(m.meter, m.reference), 0));
    });
    test::Random random(1);
    const ReadingSet set(boot_display().read(random, 2, {}));
    test::refusal(ErrorKind::domain, [&] { static_cast<void>(bootstrap_repeats(set, {}, 0)); });
    test::refusal(ErrorKind::shape, [&] {
        static_cast<void>(
            bootstrap_patches(PairColumns(m.meter, m.reference), 1).corrected({1, 1, 1}));
    });
}

}  // namespace
}  // namespace samelight
