// Keep last year's correction or not, from one white.
#include <cmath>

#include <gtest/gtest.h>

#include "meter/simulated_calibration.hpp"
#include "numeric/test_random.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/meter/selection/keep.hpp"
#include "samelight/meter/selection/keep_verdict.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

constexpr std::array<double, 2> white = {0.3127, 0.3290};

PairedWhite moved(double dx, double dy, double noise = 0.0005, int readings = 1) {
    return {white, {white[0] + dx, white[1] + dy}, noise, readings};
}

TEST(KeepOrRefit, KeepsWhatHoldsAndDropsWhatDoesNot) {
    const Correction unit;
    EXPECT_EQ(keep_or_refit(unit, moved(0.0003, -0.0003, 0.0005, 2)).verdict, Keep::keep);
    EXPECT_EQ(keep_or_refit(unit, moved(0.004, 0.003)).verdict, Keep::refit);
    EXPECT_EQ(keep_or_refit(unit, moved(0.0, 0.0, 0.0005, 2)).verdict, Keep::keep);
    // Beyond the limit, but within what noise may do.
    const KeepVerdict again = keep_or_refit(unit, moved(0.0026, 0.0));
    EXPECT_EQ(again.verdict, Keep::read_again);
    EXPECT_GT(again.readings_wanted, 1);
    EXPECT_LE(again.readings_wanted, 100);
    // The same distance from so many readings is beyond doubt.
    EXPECT_EQ(keep_or_refit(unit, moved(0.0026, 0.0, 0.0005, again.readings_wanted)).verdict,
              Keep::refit);
    // Instruments that scatter this much can't say that it holds.
    EXPECT_EQ(keep_or_refit(unit, moved(0.0, 0.0, 0.004)).verdict, Keep::read_again);
}

// What the page says of the doubt is what the verdict goes by: a white that may be further off than the limit, 19 times in 20, is not kept.
TEST(KeepOrRefit, KeepsOnlyWhatTheDoubtAllows) {
    constexpr double limit = 0.0011;
    test::Random random(14);
    for (int i = 0; i < 200; ++i) {
        const KeepVerdict v = keep_or_refit(
            Correction{}, moved(random.between(-0.003, 0.003), random.between(-0.003, 0.003),
                                random.between(0.0001, 0.002), 1 + i % 4));
        EXPECT_NEAR(v.uv_uncertainty, 1.959964 * v.uv_sd, 1e-6 * v.uv_sd);
        EXPECT_EQ(v.verdict == Keep::keep, v.uv <= limit && v.uv_uncertainty <= limit);
        EXPECT_EQ(v.verdict == Keep::refit, v.uv - v.uv_uncertainty > limit);
        EXPECT_EQ(v.within_limit, v.uv <= limit);
        EXPECT_EQ(v.own_uv_uncertainty, 0.0);
    }
    // One reading of a white that is right: it probably holds, and two readings settle it.
    const KeepVerdict once = keep_or_refit(Correction{}, moved(0.0, 0.0));
    EXPECT_EQ(once.verdict, Keep::read_again);
    EXPECT_TRUE(once.within_limit);
    EXPECT_EQ(once.readings_wanted, 2);
}

/// A correction that changes nothing, sure of x and y to `sd` by so many degrees of freedom.
Correction sure_to(double sd, double freedom) {
    Correction c;
    c.covariance = ParameterCovariance{};
    // Elements (0, k) and (1, k) carry x and y of light whose X + Y + Z is kept.
    for (const std::size_t row : {0U, 1U, 2U}) {
        c.covariance->elements[9 * (3 * row) + 3 * row] = sd * sd;
    }
    c.degrees_of_freedom = freedom;
    return c;
}

// JCGM 100:2008, G.3 and table G.2: t for 95 % is 2.78 for 4 degrees of freedom, 1.96 for infinitely many; G.4.1 for the sum.
TEST(KeepOrRefit, UsesStudentsFactorForTheCorrectionsOwnDoubt) {
    const KeepVerdict v = keep_or_refit(sure_to(0.001, 4.0), moved(0.002, 0.0, 1e-9));
    EXPECT_NEAR(v.own_uv_uncertainty / v.uv_sd, 2.776, 0.001);
    EXPECT_NEAR(v.uv_uncertainty / v.own_uv_uncertainty, 1.0, 1e-6);
    const KeepVerdict noisy = keep_or_refit(sure_to(0.001, 4.0), moved(0.002, 0.0, 0.01));
    EXPECT_LT(noisy.uv_uncertainty / noisy.uv_sd, 2.0);
}

// Readings that are asked for come to an end: either they settle it or it is said that none would.
TEST(KeepOrRefit, NeverAsksForReadingsWithoutEnd) {
    test::Random random(15);
    for (int i = 0; i < 100; ++i) {
        const Correction stored = sure_to(random.between(0.0, 0.003), random.between(2.0, 30.0));
        PairedWhite read = moved(random.between(-0.003, 0.003), random.between(-0.003, 0.003),
                                 random.between(0.0001, 0.003));
        KeepVerdict v = keep_or_refit(stored, read);
        int asked = 0;
        for (; v.verdict == Keep::read_again; ++asked) {
            ASSERT_GT(v.readings_wanted, read.readings);
            ASSERT_LT(asked, 101);
            read.readings = v.readings_wanted;  // and the means come out the same
            v = keep_or_refit(stored, read);
        }
        EXPECT_LE(asked, 8);
    }
    // A correction that is itself surer of nothing than of the limit.
    const KeepVerdict own = keep_or_refit(sure_to(0.004, 8.0), moved(0.0005, 0.0, 0.0001));
    EXPECT_EQ(own.verdict, Keep::too_unsure);
    EXPECT_GT(own.own_uv_uncertainty, 0.0011);
    EXPECT_STREQ(code_of(Keep::too_unsure), "too unsure, make a new one");
    // More readings than a clamp to 100 allows.
    EXPECT_NO_THROW(static_cast<void>(keep_or_refit(Correction{}, moved(0.0011, 0.0, 0.05, 1000))));
}

// A white just beyond the limit is told from it once the doubt is a quarter of the limit; one further beyond as soon as the doubt doesn't reach back.
TEST(KeepOrRefit, AsksForAsManyReadingsAsTellTheWhiteFromTheLimit) {
    constexpr double limit = 0.002;
    int near = 0;
    int far = 0;
    for (double dx = 0.0025; dx < 0.006; dx += 0.0001) {
        const KeepVerdict v = keep_or_refit(Correction{}, moved(dx, 0.0, 0.001), limit);
        if (v.verdict != Keep::read_again || v.within_limit) {
            continue;
        }
        const double beyond = std::max(0.25 * limit, v.uv - limit);
        ++(beyond > 0.25 * limit ? far : near);
        // The doubt of a mean of n: the factor of 95 % of the normal distribution, over the root of n.
        const double n = std::pow(1.959964 * v.uv_sd / beyond, 2);
        EXPECT_EQ(v.readings_wanted, std::max(2, static_cast<int>(std::ceil(n)))) << dx;
    }
    EXPECT_GE(near, 3);
    EXPECT_GE(far, 3);
}

// u' = 4x / (-2x + 12y + 3), v' = 9y / (-2x + 12y + 3), CIE 15:2018, eq. 8.13-8.14: distances and derivatives against it.
TEST(KeepOrRefit, MeasuresInUv) {
    const KeepVerdict v = keep_or_refit(Correction{}, moved(0.001, 0.0));
    const auto uv = [](double x, double y) {
        const double d = -2.0 * x + 12.0 * y + 3.0;
        return std::array<double, 2>{4.0 * x / d, 9.0 * y / d};
    };
    const auto a = uv(0.3127, 0.3290);
    const auto b = uv(0.3137, 0.3290);
    EXPECT_NEAR(v.uv, std::hypot(b[0] - a[0], b[1] - a[1]), 1e-14);
    EXPECT_NEAR(v.xy, 0.001, 1e-15);
    const Eigen::Matrix2d d = detail::uv_by_xy(0.3127, 0.3290);
    constexpr double h = 1e-6;
    for (int k = 0; k < 2; ++k) {
        const auto p = uv(0.3127 + (k == 0 ? h : 0.0), 0.3290 + (k == 1 ? h : 0.0));
        const auto q = uv(0.3127 - (k == 0 ? h : 0.0), 0.3290 - (k == 1 ? h : 0.0));
        EXPECT_NEAR(d(0, k), (p[0] - q[0]) / (2.0 * h), 1e-8);
        EXPECT_NEAR(d(1, k), (p[1] - q[1]) / (2.0 * h), 1e-8);
    }
}

// A correction that holds is dropped in at most 1 case in 40 by a white read as noisily as stated; its own uncertainty counts.
TEST(KeepOrRefit, RarelyDropsACorrectionThatHolds) {
    test::Random random(11);
    const test::SimulatedCalibration set(generic_panel(generic_model("oled-rgb")),
                                         test::invented_meters()[0]);
    constexpr double noise = 0.0008;
    int dropped = 0;
    constexpr int trials = 400;
    for (int i = 0; i < trials; ++i) {
        const Correction stored = fit_correction(ReadingSet(set.read(random, 5, {noise, 0.0})));
        const auto r = xyY_from_xyz(set.noisy(set.reference({1, 1, 1}), random, {noise, 0.0}));
        const auto m = xyY_from_xyz(
            stored.corrected_xyz(set.noisy(set.meter({1, 1, 1}), random, {noise, 0.0})));
        const KeepVerdict v = keep_or_refit(stored, {{r[0], r[1]}, {m[0], m[1]}, noise, 1});
        dropped += v.verdict == Keep::refit ? 1 : 0;
        EXPECT_GT(v.uv_sd,
                  keep_or_refit(Correction{}, {{r[0], r[1]}, {m[0], m[1]}, noise, 1}).uv_sd);
    }
    EXPECT_LE(dropped, trials / 40);
}

TEST(KeepOrRefit, KnowsTheWayBack) {
    const Panel panel = generic_panel(generic_model("lcd-white-led"));
    const test::SimulatedCalibration set(panel, test::invented_meters()[1]);
    test::Random random(1);
    const Correction c = fit_correction(ReadingSet(set.read(random, 1, {0.0, 0.0})));
    const auto meter = set.meter({1, 1, 1});
    const auto corrected = xyY_from_xyz(c.corrected_xyz(meter));
    const auto raw = xyY_from_xyz(uncorrected_white(c, {corrected[0], corrected[1]}));
    const auto said = xyY_from_xyz(meter);
    EXPECT_NEAR(raw[0], said[0], 1e-12);
    EXPECT_NEAR(raw[1], said[1], 1e-12);
}

TEST(KeepOrRefit, RefusesWhatIsNoWhite) {
    EXPECT_THROW(static_cast<void>(keep_or_refit(Correction{}, {{0.7, 0.4}, white, 0.0005, 1})),
                 Error);
    EXPECT_THROW(static_cast<void>(keep_or_refit(Correction{}, {white, {0.0, 0.3}, 0.0005, 1})),
                 Error);
    EXPECT_THROW(static_cast<void>(keep_or_refit(Correction{}, {white, white, 0.0, 1})), Error);
    EXPECT_THROW(static_cast<void>(keep_or_refit(Correction{}, {white, white, 0.0005, 0})), Error);
    EXPECT_THROW(static_cast<void>(keep_or_refit(Correction{}, {white, white}, 0.0)), Error);
}

}  // namespace
}  // namespace samelight
