// Columns exchanged in both instruments, and luminances that are far apart.
#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "meter/example.hpp"
#include "meter/simulated_calibration.hpp"
#include "numeric/facts.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/correction/fit_quality.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/readings/column_checks.hpp"
#include "samelight/meter/readings/reading_checks.hpp"
#include "samelight/meter/readings/readings.hpp"

namespace samelight {
namespace {

/// x and y exchanged in what was written down as x, y, Y.
std::vector<PairedReading> with_x_for_y(std::vector<PairedReading> pairs) {
    for (PairedReading& pair : pairs) {
        for (auto* xyz : {&pair.reference, &pair.meter}) {
            const auto v = xyY_from_xyz(*xyz);
            *xyz = xyz_from_xyY(v[1], v[0], v[2]);
        }
    }
    return pairs;
}

TEST(ColumnChecks, FindXForYInBothInstruments) {
    test::Random random(51);
    for (const GenericModel& model : generic_models()) {
        for (const test::InventedMeter& meter : test::invented_meters()) {
            const auto pairs = test::SimulatedCalibration(generic_panel(model), meter)
                                   .read(random, 3, {0.0002, 0.004}, test::with_yellow_and_grey());
            EXPECT_FALSE(check_columns(ReadingSet(pairs))) << model.name() << " " << meter.name;
            const ReadingSet set(with_x_for_y(pairs));
            EXPECT_FALSE(check_readings(set)) << "no comparison of the instruments shows it";
            const auto found = check_columns(set);
            ASSERT_TRUE(found) << model.name() << " " << meter.name;
            EXPECT_EQ(found->columns, ExchangedColumns::x_and_y);
            EXPECT_EQ(found->shown_by, ExchangeShownBy::additivity);
            EXPECT_LT(found->mended_xy, found->given_xy / 3.0);
            const Warning warning = exchange_warning(*found);
            EXPECT_EQ(warning.code, "columns_look_exchanged");
            EXPECT_EQ(test::text_of(warning, "columns"), "xy");
            EXPECT_EQ(test::text_of(warning, "shown_by"), "additivity");
            EXPECT_EQ(test::number_of(warning, "mended_xy"), found->mended_xy);
            EXPECT_EQ(test::number_of(warning, "given_xy"), found->given_xy);
            const Correction c = fit_correction(set);
            EXPECT_EQ(judge_use(set, c, judge_fit(set, c)).verdict, FitVerdict::read_again);
        }
    }
}

// X, Y and Z of lights add in whatever order they stand; which colour has most of which tells.
TEST(ColumnChecks, FindOtherOrdersInBothInstruments) {
    struct Case {
        std::array<std::size_t, 3> order;
        const char* columns;
    };
    const std::vector<Case> cases = {{{1, 0, 2}, "XY"},
                                     {{2, 1, 0}, "XZ"},
                                     {{0, 2, 1}, "YZ"},
                                     {{1, 2, 0}, "XYZ"},
                                     {{2, 0, 1}, "XYZ"}};
    for (const Case& c : cases) {
        std::vector<PairedReading> pairs = test::example_pairs();
        for (PairedReading& pair : pairs) {
            for (auto* xyz : {&pair.reference, &pair.meter}) {
                // No zero luminance, which would be refused for itself.
                *xyz = {(*xyz)[c.order[0]], std::max((*xyz)[c.order[1]], 1e-3), (*xyz)[c.order[2]]};
            }
        }
        const auto found = check_columns(ReadingSet(pairs));
        ASSERT_TRUE(found) << c.columns;
        EXPECT_EQ(found->instruments, ExchangedIn::both);
        const Warning warning = exchange_warning(*found);
        EXPECT_EQ(test::text_of(warning, "columns"), c.columns);
        EXPECT_EQ(test::text_of(warning, "instruments"), "both");
        EXPECT_EQ(test::text_of(warning, "shown_by"), "names");
    }
    EXPECT_FALSE(check_columns(ReadingSet(test::example_pairs())));
}

// A white emitter lifts white's luminance to twice that of red, green and blue, and may tint it: no columns are to blame.
TEST(ColumnChecks, LeaveWhiteEmittersAlone) {
    const test::SimulatedCalibration display(generic_panel(generic_model("oled-white")),
                                             test::invented_meters().front());
    for (const double tint : {-0.03, 0.0, 0.03}) {
        test::Random random(52);
        std::vector<PairedReading> pairs = display.read(random, 3, {0.0002, 0.004});
        for (PairedReading& pair : pairs) {
            for (auto* xyz : {&pair.reference, &pair.meter}) {
                const auto v = xyY_from_xyz(*xyz);
                if (pair.patch == "white") {
                    *xyz = xyz_from_xyY(v[0] + tint, v[1] + tint, 2.0 * v[2]);
                }
            }
        }
        EXPECT_FALSE(check_columns(ReadingSet(pairs))) << tint;
        EXPECT_EQ(check_columns(ReadingSet(with_x_for_y(pairs))).has_value(), true) << tint;
    }
}

TEST(ColumnChecks, LuminancesFarApartAreSaid) {
    for (const auto& [factor, off_percent] :
         {std::pair<double, double>{1.28, 28.0}, {0.783, -21.7}, {1.09, 0.0}, {0.91, 0.0}}) {
        std::vector<PairedReading> pairs = test::example_pairs();
        for (PairedReading& pair : pairs) {
            pair.meter = pair.reference;
            for (double& v : pair.meter) {
                v *= factor;
            }
        }
        const auto warning = check_luminances(ReadingSet(pairs));
        ASSERT_EQ(warning.has_value(), off_percent != 0.0) << factor;
        if (warning) {
            EXPECT_NEAR(test::number_of(*warning, "off_percent"), off_percent, 1e-9);
            const Correction c = fit_correction(ReadingSet(pairs));
            EXPECT_EQ(c.warnings.front().code, "luminances_apart");
        }
    }
}

}  // namespace
}  // namespace samelight
