// The four-colour method, its neighbours that use chromaticities, and what is refused.
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <Eigen/LU>

#include "meter/example.hpp"
#include "meter/simulated_calibration.hpp"
#include "numeric/facts.hpp"
#include "numeric/refusals.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/correction/fit_four_colour.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

// Worked example, computed apart from this code from the equations of Ohno & Hardis 1997; no published one is known. Its X, Y, Z have
// eight decimals, so that 1e-9 is what they can give.
TEST(FourColour, WorkedExample) {
    const Correction c = fit_correction(ReadingSet(test::example_pairs()));
    const std::array<double, 9> expected = {
        0.9083714969660276,  0.07615240237163202, 0.02603571984976938,
        0.01571147184018106, 1.018835056224561,   -0.016402565262247523,
        -0.0234383944301491, 0.06096474037396204, 0.9487326946413872};
    for (std::size_t k = 0; k < 9; ++k) {
        EXPECT_NEAR(c.reference_from_meter.at(k), expected.at(k), 1e-9) << k;
    }
    EXPECT_NEAR(c.luminance_factor, 0.992484741354, 1e-9);
    const std::array<double, 9> scaled = {
        0.9015448502198457,  0.07558009737130936,  0.025840054681068494,
        0.01559339606559573, 1.0111782472596142,   -0.016279295741846944,
        -0.023262248833764,  0.060506574581777016, 0.9416027230554203};
    for (std::size_t k = 0; k < 9; ++k) {
        EXPECT_NEAR(c.xyz_from_meter().at(k), scaled.at(k), 1e-9) << k;
    }
    const test::CheckRows table("checks/fourcolour_example.csv");
    double worst_before = 0.0;
    for (std::size_t i = 0; i < test::example_rows; ++i) {
        const auto pair = test::example_pairs(i, 1).front();
        const auto corrected = corrected_reading(c, pair.meter).xyz.values();
        const std::array<const char*, 3> columns = {"corrected_X", "corrected_Y", "corrected_Z"};
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(corrected.at(k), table[i].number(columns.at(k)), 1e-7) << i;
        }
        EXPECT_LT(test::xy_distance_to(corrected, pair.reference), 1e-9) << i;
        worst_before = std::max(
            worst_before, std::abs(xyY_from_xyz(pair.meter)[0] - xyY_from_xyz(pair.reference)[0]));
        worst_before = std::max(
            worst_before, std::abs(xyY_from_xyz(pair.meter)[1] - xyY_from_xyz(pair.reference)[1]));
    }
    EXPECT_NEAR(worst_before, 0.0622, 5e-5);
    const detail::ColourTriangle meter = [&] {
        const ReadingSet set(test::example_pairs());
        Eigen::Matrix3d p;
        for (Eigen::Index k = 0; k < 3; ++k) {
            p.col(k) =
                detail::chromaticity_column(set.patches()[static_cast<std::size_t>(k)].meter);
        }
        return detail::colour_triangle(p, detail::chromaticity_column(set.patches()[3].meter));
    }();
    EXPECT_NEAR(meter.amount[0], 0.3066947434660359, 1e-9);
    EXPECT_NEAR(meter.amount[1], 0.25326814267109576, 1e-9);
    EXPECT_NEAR(meter.amount[2], 0.44003711386286837, 1e-9);
}

// Law: luminance errors of 1 to 8 % a reading leave the matrix alone; a matrix from three tristimulus values they don't (0.0265 in the
// example's own computation with other errors of that size).
TEST(FourColour, BlindToLuminanceErrors) {
    const std::vector<PairedReading> right = test::example_pairs();
    std::vector<PairedReading> wrong = right;
    const std::array<double, 8> factor = {1.01, 0.92, 1.05, 0.97, 1.08, 0.95, 1.02, 0.93};
    for (std::size_t i = 0; i < 4; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            wrong[i].reference[k] *= factor.at(i);
            wrong[i].meter[k] *= factor.at(4 + i);
        }
    }
    const Correction a = fit_correction(ReadingSet(right));
    const Correction b = fit_correction(ReadingSet(wrong));
    for (std::size_t k = 0; k < 9; ++k) {
        EXPECT_NEAR(a.reference_from_meter.at(k), b.reference_from_meter.at(k), 1e-12);
    }
    EXPECT_NEAR(b.luminance_factor / a.luminance_factor, factor[3] / factor[7], 1e-12);

    FitOptions three;
    three.method = CorrectionMethod::three_colour;
    const auto white = fit_correction(ReadingSet(wrong), three).corrected_xyz(right[3].meter);
    EXPECT_GT(test::xy_distance_to(white, right[3].reference), 0.005);
}

// Two routes: for an additive display without noise every exact method finds the matrix that the spectra give, A_reference A_meter^-1.
TEST(FourColour, FindsWhatTheSpectraSay) {
    for (const GenericModel& model : generic_models()) {
        const Panel panel = generic_panel(model);
        if (panel.white_is_base()) {
            continue;
        }
        for (const test::InventedMeter& meter : test::invented_meters()) {
            const test::SimulatedCalibration display(panel, meter);
            test::Random random(1);
            const ReadingSet set(display.read(random, 1, {0.0, 0.0}));
            const Eigen::Matrix3d expected =
                display.reference_from_drive() * display.meter_from_drive().inverse();
            for (const CorrectionMethod method :
                 {CorrectionMethod::four_colour, CorrectionMethod::three_colour,
                  CorrectionMethod::least_squares, CorrectionMethod::white_exact_least_squares}) {
                FitOptions options;
                options.method = method;
                const Correction c = fit_correction(set, options);
                EXPECT_LT((c.luminance_factor * c.matrix() - expected).cwiseAbs().maxCoeff(), 1e-10)
                    << model.name() << ", " << meter.name << ", " << code_of(method);
                // The matrix keeps the sum of white.
                const auto white = xyY_from_xyz(display.meter({1, 1, 1}));
                EXPECT_NEAR((c.matrix() * detail::chromaticity_column(white)).sum(), 1.0, 1e-12);
            }
        }
    }
}

TEST(FourColour, PatchesBeyondTheFourProveIt) {
    const Correction c = fit_correction(ReadingSet(test::example_pairs(0, test::example_rows)));
    ASSERT_EQ(c.residuals.size(), test::example_rows);
    for (std::size_t i = 0; i < test::example_rows; ++i) {
        EXPECT_EQ(c.residuals[i].fitted, i < 4);
        EXPECT_LT(c.residuals[i].after.xy(), 1e-9);
        EXPECT_GT(c.residuals[i].before.xy(), 0.001);
        ASSERT_TRUE(c.residuals[i].after.de00);
        EXPECT_LT(*c.residuals[i].after.de00, 1e-5);
        EXPECT_GT(*c.residuals[i].before.de00, 0.1);
    }
    EXPECT_EQ(c.warnings.size(), 1U);
    EXPECT_EQ(c.warnings.front().code, "no_repeats");
    EXPECT_FALSE(c.covariance);
}

TEST(FourColour, RefusesTooFewOrDependentPatches) {
    std::string text = refusal(ErrorKind::shape, [] {
        static_cast<void>(fit_correction(ReadingSet(test::example_pairs(0, 3))));
    });
    EXPECT_TRUE(contains(text, "four-colour: no patch named \"white\"")) << text;
    std::vector<PairedReading> twice = test::example_pairs();
    twice[1] = twice[0];
    twice[1].patch = "green";
    text =
        refusal(ErrorKind::singular, [&] { static_cast<void>(fit_correction(ReadingSet(twice))); });
    EXPECT_TRUE(contains(text, "depend on each other")) << text;
    // Yellow under the name of white lies on the side of the triangle.
    std::vector<PairedReading> yellow = test::example_pairs();
    yellow[3] = test::example_pairs(5, 1).front();
    yellow[3].patch = "white";
    text = refusal(ErrorKind::singular,
                   [&] { static_cast<void>(fit_correction(ReadingSet(yellow))); });
    EXPECT_TRUE(contains(text, "not inside the triangle")) << text;
    FitOptions options;
    options.method = CorrectionMethod::spectra;
    refusal(ErrorKind::domain,
            [&] { static_cast<void>(fit_correction(ReadingSet(test::example_pairs()), options)); });
}

TEST(WhiteOnly, MovesByTheOffsetAndSaysWhereItHolds) {
    const std::vector<PairedReading> pairs = test::example_pairs();
    FitOptions options;
    options.method = CorrectionMethod::white_only;
    const Correction c = fit_correction(ReadingSet({pairs[3]}), options);
    const auto m = xyY_from_xyz(pairs[3].meter);
    const auto r = xyY_from_xyz(pairs[3].reference);
    // The offset is the same for any chromaticity near it, and white itself is exact.
    for (const double dx : {0.0, 0.004, -0.006}) {
        const Corrected near = corrected_reading(c, xyz_from_xyY(m[0] + dx, m[1] - dx, m[2]));
        const auto got = xyY_from_xyz(near.xyz.values());
        EXPECT_NEAR(got[0] - (m[0] + dx), r[0] - m[0], 1e-14);
        EXPECT_NEAR(got[1] - (m[1] - dx), r[1] - m[1], 1e-14);
        EXPECT_TRUE(near.warnings.empty());
    }
    EXPECT_NEAR(corrected_reading(c, pairs[3].meter).xyz.Y(), r[2], 1e-12 * r[2]);
    const Corrected far = corrected_reading(c, xyz_from_xyY(m[0] + 0.009, m[1] + 0.009, m[2]));
    ASSERT_EQ(far.warnings.size(), 1U);
    EXPECT_EQ(far.warnings.front().code, "outside_validity");
    EXPECT_NEAR(test::number_of(far.warnings.front(), "distance_xy"), 0.009 * std::sqrt(2.0),
                1e-12);
    EXPECT_NEAR(test::number_of(far.warnings.front(), "near_x"), m[0], 1e-15);
    ASSERT_FALSE(c.warnings.empty());
    EXPECT_EQ(c.warnings.front().code, "white_only");
}

TEST(Apply, CarriesTheObserverAndRefusesNonsense) {
    const Correction c = fit_correction(ReadingSet(test::example_pairs(), {}, "cie2015-2deg"));
    EXPECT_EQ(corrected_reading(c, {1, 2, 3}).xyz.observer_id(), "cie2015-2deg");
    refusal(ErrorKind::domain, [&] {
        static_cast<void>(corrected_reading(c, {1.0, std::nan(""), 1.0}));
    });
}

}  // namespace
}  // namespace samelight
