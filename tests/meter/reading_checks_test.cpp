// Mistakes that readings give away: exchanged columns, exchanged patches, mixed units.
#include <array>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "meter/example.hpp"
#include "meter/simulated_calibration.hpp"
#include "numeric/refusals.hpp"
#include "numeric/test_random.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/reading_checks.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

std::string refused(const std::vector<PairedReading>& pairs) {
    return refusal(ErrorKind::input, [&] { static_cast<void>(fit_correction(ReadingSet(pairs))); });
}

// Every exchange of the columns of either instrument is found and named, in the example and on every generic panel.
TEST(ReadingChecks, FindsSwappedColumns) {
    std::vector<std::vector<PairedReading>> all = {test::example_pairs()};
    test::Random random(5);
    for (const GenericModel& model : generic_models()) {
        all.push_back(
            test::SimulatedCalibration(generic_panel(model), test::invented_meters().front())
                .read(random, 1, {}));
    }
    struct Case {
        std::array<std::size_t, 3> order;
        const char* said;
    };
    const std::vector<Case> cases = {{{1, 0, 2}, "X and Y (or x and y) of one"},
                                     {{2, 1, 0}, "X and Z of one"},
                                     {{0, 2, 1}, "Y and Z of one"},
                                     {{1, 2, 0}, "shifted by a column"},
                                     {{2, 0, 1}, "shifted by a column"}};
    for (const auto& right : all) {
        ASSERT_NO_THROW(static_cast<void>(fit_correction(ReadingSet(right))));
        for (const Case& c : cases) {
            for (const bool meter : {true, false}) {
                std::vector<PairedReading> pairs = right;
                for (PairedReading& pair : pairs) {
                    auto& xyz = meter ? pair.meter : pair.reference;
                    // No zero luminance, which would be refused for itself.
                    xyz = {xyz[c.order[0]], std::max(xyz[c.order[1]], 1e-3), xyz[c.order[2]]};
                }
                const std::string text = refused(pairs);
                EXPECT_TRUE(contains(text, "look swapped")) << text;
                EXPECT_TRUE(contains(text, c.said)) << c.said << ": " << text;
            }
        }
    }
}

TEST(ReadingChecks, FindsxyYTakenForXYZ) {
    std::vector<PairedReading> pairs = test::example_pairs();
    for (PairedReading& pair : pairs) {
        pair.meter = xyY_from_xyz(pair.meter);
    }
    const std::string text = refused(pairs);
    EXPECT_TRUE(contains(text, "X, Y, Z are x, y, Y in the columns of the meter")) << text;
}

TEST(ReadingChecks, FindsSwappedPatches) {
    std::vector<PairedReading> pairs = test::example_pairs();
    std::swap(pairs[0].meter, pairs[1].meter);
    const std::string text = refused(pairs);
    EXPECT_TRUE(contains(text, "patches red and green of one instrument are exchanged")) << text;
}

TEST(ReadingChecks, FindsMixedUnits) {
    std::vector<PairedReading> relative = test::example_pairs();
    for (PairedReading& pair : relative) {
        for (double& v : pair.meter) {
            v /= 100.0;  // white is 1
        }
    }
    std::string text = refused(relative);
    EXPECT_TRUE(contains(text, "units that look mixed")) << text;
    EXPECT_TRUE(contains(text, "cd/m2")) << text;

    std::vector<PairedReading> each = test::example_pairs();
    for (PairedReading& pair : each) {
        const double Y = pair.meter[1];
        for (double& v : pair.meter) {
            v *= 100.0 / Y;  // every patch is 100
        }
    }
    text = refused(each);
    EXPECT_TRUE(contains(text, "units that look mixed")) << text;
}

// What is only a bad meter, or a noisy one, passes.
TEST(ReadingChecks, LeavesPoorMetersAlone) {
    test::Random random(9);
    for (const GenericModel& model : generic_models()) {
        for (const test::InventedMeter& meter : test::invented_meters()) {
            const ReadingSet set(test::SimulatedCalibration(generic_panel(model), meter)
                                     .read(random, 1, {0.002, 0.1}));
            EXPECT_FALSE(check_readings(set)) << model.name() << " " << meter.name;
        }
    }
}

// Three raw channels are no X, Y, Z: said, and accepted where asked for.
TEST(ReadingChecks, WarnsOfInstrumentsFarApart) {
    std::vector<PairedReading> pairs = test::example_pairs(0, 6);
    for (PairedReading& pair : pairs) {
        const auto m = pair.meter;
        pair.meter = {0.8 * m[0] + 0.5 * m[2], m[1] + 0.3 * m[0], 0.2 * m[1] + 0.3 * m[2]};
    }
    const ReadingSet set(pairs);
    const auto warning = check_readings(set);
    ASSERT_TRUE(warning);
    EXPECT_EQ(warning->code, "instruments_far_apart");
    FitOptions options;
    options.method = CorrectionMethod::least_squares;
    const Correction c = fit_correction(set, options);
    EXPECT_EQ(c.warnings.front().code, "instruments_far_apart");
    options.check_readings = false;
    EXPECT_NE(fit_correction(set, options).warnings.front().code, "instruments_far_apart");
    for (const PatchResidual& r : c.residuals) {
        EXPECT_LT(r.after.xy(), 1e-6) << "any three independent channels can be corrected";
    }
}

}  // namespace
}  // namespace samelight
