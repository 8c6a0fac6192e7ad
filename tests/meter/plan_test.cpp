// Planning: how many readings, which next, when to stop.
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "meter/example.hpp"
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

test::SimulatedCalibration display() {
    return {generic_panel(generic_model("oled-rgb")), test::invented_meters().front()};
}

// Half-width 0.0003 at 95 %: 11 readings at a standard deviation of .0005, 43 at .001. Second route: (1.959964 sd / h)^2.
TEST(ReadingsNeeded, KnownScatter) {
    EXPECT_EQ(readings_needed(0.0005, 0.0003), 11);
    EXPECT_EQ(readings_needed(0.001, 0.0003), 43);
    for (const double sd : {0.0002, 0.0007, 0.003}) {
        EXPECT_EQ(readings_needed(sd, 0.0003),
                  static_cast<int>(std::ceil(std::pow(1.959963985 * sd / 0.0003, 2))));
    }
    EXPECT_EQ(readings_needed(0.0001, 0.01), 1);
}

// Where the readings also have to say how much they scatter it takes a few more: the least n with t(n - 1) sd / root n <= h.
TEST(ReadingsNeeded, ScatterFromTheReadings) {
    const int n = readings_needed(0.0005, 0.0003, 0.95, ScatterKnown::from_readings);
    EXPECT_EQ(n, 14);
    EXPECT_LE(student_factor(0.95, n - 1) * 0.0005 / std::sqrt(n), 0.0003);
    EXPECT_GT(student_factor(0.95, n - 2) * 0.0005 / std::sqrt(n - 1.0), 0.0003);
    EXPECT_EQ(readings_needed(1e-9, 0.01, 0.95, ScatterKnown::from_readings), 2);
}

TEST(ReadingsNeeded, Refuses) {
    test::refusal(ErrorKind::domain, [] { static_cast<void>(readings_needed(0.001, 0.0)); });
    test::refusal(ErrorKind::domain, [] { static_cast<void>(readings_needed(0.0, 0.001)); });
    test::refusal(ErrorKind::domain, [] { static_cast<void>(readings_needed(1.0, 1e-6)); });
    test::refusal(ErrorKind::domain, [] { static_cast<void>(readings_needed(1.0, 1.0, 1.0)); });
}

FitOptions stated(CorrectionMethod method) {
    FitOptions options;
    options.method = method;
    options.noise_from = NoiseFrom::stated;
    options.stated = stated_noise(0.0005, 0.01);
    return options;
}

// Two routes: rounds foreseen, and a fit of as many rounds with the same stated noise.
TEST(MoreRounds, AgreeWithAFitOfAsManyRounds) {
    test::Random random(1);
    const auto white = display().meter({1, 1, 1});
    const auto pairs = display().read(random, 3, {0.0, 0.0});
    for (const CorrectionMethod method :
         {CorrectionMethod::four_colour, CorrectionMethod::least_squares}) {
        const Correction c = fit_correction(ReadingSet(pairs), stated(method));
        const Correction later =
            fit_correction(ReadingSet(display().read(random, 8, {0.0, 0.0})), stated(method));
        const auto foreseen = after_more_rounds(c, white, 5).half_widths();
        const auto done = certainty(later, white).half_widths();
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(foreseen.at(k), done.at(k), 1e-12);
        }
    }
}

TEST(MoreRounds, AreTheFewestThatDo) {
    test::Random random(2);
    const auto white = display().meter({1, 1, 1});
    const Correction c = fit_correction(ReadingSet(display().read(random, 3, {0.0005, 0.01})));
    for (const double wanted : {0.0008, 0.0005, 0.0003}) {
        const auto more = more_rounds_needed(c, white, wanted);
        ASSERT_TRUE(more);
        const auto larger = [&](int rounds) {
            const auto half = after_more_rounds(c, white, rounds).half_widths();
            return std::max(half[0], half[1]);
        };
        EXPECT_LE(larger(*more), wanted);
        if (*more > 0) {
            EXPECT_GT(larger(*more - 1), wanted);
        }
    }
    EXPECT_EQ(more_rounds_needed(c, white, 1.0), 0);
    EXPECT_FALSE(more_rounds_needed(c, white, 1e-8));
    test::refusal(ErrorKind::domain, [&] { static_cast<void>(more_rounds_needed(c, white, 0.0)); });
    const Correction bare = fit_correction(ReadingSet(test::example_pairs()));
    test::refusal(ErrorKind::domain,
                  [&] { static_cast<void>(more_rounds_needed(bare, white, 0.001)); });
}

// Two routes: the gain foreseen for one more pair of a patch, and the fit with that pair.
TEST(NextPatches, AgreeWithReadingThem) {
    test::Random random(3);
    const auto white = display().meter({1, 1, 1});
    const auto pairs = display().read(random, 3, {0.0, 0.0});
    for (const CorrectionMethod method :
         {CorrectionMethod::four_colour, CorrectionMethod::three_colour,
          CorrectionMethod::least_squares}) {
        const Correction c = fit_correction(ReadingSet(pairs), stated(method));
        const std::vector<NextPatch> next = next_patches(c, {white});
        EXPECT_EQ(next.size(), method == CorrectionMethod::three_colour ? 3U : 4U);
        for (std::size_t i = 0; i < next.size(); ++i) {
            if (i > 0) {
                EXPECT_GE(next[i].standard_uncertainty, next[i - 1].standard_uncertainty);
            }
            std::vector<PairedReading> more = pairs;
            for (const PairedReading& pair : pairs) {
                if (pair.patch == next[i].patch && pair.round == 1) {
                    more.push_back(pair);
                }
            }
            const Certainty then =
                certainty(fit_correction(ReadingSet(more), stated(method)), white);
            EXPECT_NEAR(next[i].standard_uncertainty,
                        std::sqrt(then.covariance[0] + then.covariance[4]), 1e-12);
        }
    }
}

TEST(NextPatches, ForTheFourColourMethodWhiteIsReadFromWhite) {
    test::Random random(4);
    const Correction c = fit_correction(ReadingSet(display().read(random, 3, {0.0, 0.0})),
                                        stated(CorrectionMethod::four_colour));
    const auto next = next_patches(c, {display().meter({1, 1, 1})});
    EXPECT_EQ(next.front().patch, "white");
    EXPECT_NEAR(next.front().reduction, 1.0 - std::sqrt(3.0 / 4.0), 1e-9);
    EXPECT_NEAR(next[1].reduction, 0.0, 1e-9);
    // For blue it is blue, and for both whichever helps more; never nothing.
    EXPECT_EQ(next_patches(c, {display().meter({0, 0, 1})}).front().patch, "blue");
    const auto both = next_patches(c, {display().meter({1, 1, 1}), display().meter({0, 0, 1})});
    EXPECT_GT(both.front().reduction, 0.01);
    test::refusal(ErrorKind::shape, [&] { static_cast<void>(next_patches(c, {})); });
}

TEST(AdviseStop, EveryAdvice) {
    test::Random random(5);
    const auto white = display().meter({1, 1, 1});
    const auto rounds = [&](int n) {
        return fit_correction(ReadingSet(display().read(random, n, {0.0005, 0.01})));
    };
    EXPECT_EQ(advise_stop(rounds(2), white, {1.0}).reason, StopReason::too_few);
    const Correction five = rounds(5);
    const StopAdvice reached = advise_stop(five, white, {0.002});
    EXPECT_TRUE(reached.stop);
    EXPECT_EQ(reached.reason, StopReason::reached);
    EXPECT_EQ(reached.more_rounds, 0);
    const StopAdvice on = advise_stop(five, white, {0.0004});
    EXPECT_FALSE(on.stop);
    EXPECT_EQ(on.reason, StopReason::go_on);
    ASSERT_TRUE(on.more_rounds);
    EXPECT_GT(*on.more_rounds, 0);
    const StopAdvice floor = advise_stop(five, white, {0.0004, 3.5 * on.half_width});
    EXPECT_TRUE(floor.stop);
    EXPECT_EQ(floor.reason, StopReason::below_floor);
    EXPECT_EQ(advise_stop(five, white, {0.0004, 2.9 * on.half_width}).reason, StopReason::go_on);
    EXPECT_EQ(advise_stop(five, white, {1e-8}).reason, StopReason::out_of_reach);
    // Five pairs leave about 2.1 sqrt(2 / 5) .0005 = .0007; a third of it takes nine times as many, 40 rounds more.
    const StopAdvice far = advise_stop(five, white, {on.half_width / 3.0});
    EXPECT_EQ(far.reason, StopReason::out_of_reach);
    EXPECT_FALSE(far.more_rounds);
    test::refusal(ErrorKind::domain, [&] {
        static_cast<void>(advise_stop(five, white, {0.001, -1.0}));
    });
}

}  // namespace
}  // namespace samelight
