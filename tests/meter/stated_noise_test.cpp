// Noise stated for x and y alone: what is said of Y comes from the repeats, or is not said.
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "meter/simulated_calibration.hpp"
#include "numeric/refusals.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/selection/plan.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

test::SimulatedCalibration stated_display() {
    return {generic_panel(generic_model("oled-rgb")), test::invented_meters().front()};
}

FitOptions xy_stated(CorrectionMethod method = CorrectionMethod::four_colour) {
    FitOptions options;
    options.method = method;
    options.noise_from = NoiseFrom::stated;
    options.stated = stated_noise(0.0002);
    return options;
}

// Calibrations whose truth is known: the half-width of Y holds it 19 times in 20. Of 1,000 draws with that chance 929 to 971 hold it, 997 times
// in 1,000 (binomial, 3 standard deviations); first derivatives and one common scatter leave no more off.
TEST(StatedNoise, YIsAsSureAsTheRepeatsSay) {
    test::Random random(31);
    const auto white = stated_display().reference({1, 1, 1});
    const auto meter = stated_display().meter({1, 1, 1});
    int held = 0;
    constexpr int trials = 1000;
    for (int i = 0; i < trials; ++i) {
        const Correction c = fit_correction(
            ReadingSet(stated_display().read(random, 3, {0.0002, 0.003})), xy_stated());
        const Certainty at = certainty(c, meter);
        held += std::abs(at.luminance / white[1] - 1.0) <= at.half_widths()[2] ? 1 : 0;
        EXPECT_TRUE(std::isinf(at.xy_degrees_of_freedom));
        EXPECT_LT(at.luminance_degrees_of_freedom, 12.0);
    }
    EXPECT_GE(held, 929);
    EXPECT_LE(held, 971);
}

// What is stated is stated: x and y are as with noise stated whole, for a method that does not feel Y.
TEST(StatedNoise, XAndYAreAsStated) {
    test::Random random(32);
    const ReadingSet set(stated_display().read(random, 4, {0.0002, 0.003}));
    const auto meter = stated_display().meter({1, 1, 1});
    FitOptions whole = xy_stated();
    whole.stated = stated_noise(0.0002, 0.003);
    const Certainty a = certainty(fit_correction(set, xy_stated()), meter);
    const Certainty b = certainty(fit_correction(set, whole), meter);
    for (const std::size_t k : {0U, 1U, 4U}) {
        EXPECT_NEAR(a.covariance.at(k), b.covariance.at(k), 1e-6 * b.covariance[0]);
    }
    const auto next = next_patches(fit_correction(set, xy_stated()), {meter});
    ASSERT_EQ(next.size(), 4U);  // each once
    EXPECT_NEAR(next.front().reduction, 1.0 - std::sqrt(4.0 / 5.0),
                1e-6);  // the point is not quite the mean of the readings
    // The scatter of one reading to come has Y's in it: of one reading of .003.
    const Certainty one = certainty(fit_correction(set, xy_stated()), meter, 1.0);
    EXPECT_NEAR(std::sqrt(one.covariance[8] - a.covariance[8]), 0.003, 0.0015);
}

TEST(StatedNoise, WithoutRepeatsYIsUnknown) {
    test::Random random(33);
    const ReadingSet set(stated_display().read(random, 1, {0.0002, 0.003}));
    const auto meter = stated_display().meter({1, 1, 1});
    const Correction c = fit_correction(set, xy_stated());
    ASSERT_TRUE(c.covariance);
    EXPECT_FALSE(c.covariance->luminance_known);
    const Certainty at = certainty(c, meter);
    EXPECT_TRUE(std::isinf(at.half_widths()[2]));
    EXPECT_LT(at.half_widths()[0], 0.001);
    test::refusal(ErrorKind::shape, [&] {
        static_cast<void>(fit_correction(set, xy_stated(CorrectionMethod::three_colour)));
    });
}

}  // namespace
}  // namespace samelight
