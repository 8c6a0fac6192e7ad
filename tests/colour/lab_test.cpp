// CIELAB: exact anchors, the formula as printed by another route, round trips, chroma and hue, what is refused.
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <vector>

#include <gtest/gtest.h>

#include "accuracy/as_printed/lab.hpp"

namespace samelight {
namespace {

using Xyz = Tristimulus<Cie1931_2deg>;
using Colour = Lab<Cie1931_2deg>;

const std::array<double, 3> d65 = {95.04, 100.0, 108.88};  // CIE 15:2018, Table T.3

Xyz white() { return {d65[0], d65[1], d65[2]}; }
Xyz light(const std::array<double, 3>& v) { return {v[0], v[1], v[2]}; }

/// Ratios to the white from 1e-9 to 1; a sixth of them below 0, down to -0.01.
std::vector<std::array<double, 3>> lights(int count) {
    std::mt19937 random(21);
    std::uniform_real_distribution<double> exponent(-9.0, 0.0);
    std::uniform_int_distribution<int> die(1, 6);
    std::vector<std::array<double, 3>> result = {{0.0, 0.0, 0.0}, d65};
    while (result.size() < static_cast<std::size_t>(count)) {
        std::array<double, 3> xyz{};
        for (std::size_t k = 0; k < 3; ++k) {
            xyz[k] =
                (die(random) == 1 ? -0.01 * d65[k] : d65[k]) * std::pow(10.0, exponent(random));
        }
        result.push_back(xyz);
    }
    return result;
}

// CIE 15:2018, 8.2.1: values that follow from its definition without rounding.
TEST(Lab, HasTheAnchorsOfItsDefinition) {
    const Colour w = lab(white(), white());
    EXPECT_NEAR(w.L(), 100.0, 1e-13);
    EXPECT_NEAR(w.a(), 0.0, 1e-13);
    EXPECT_NEAR(w.b(), 0.0, 1e-13);
    EXPECT_NEAR(lab((216.0 / 24389.0) * white(), white()).L(), 8.0, 1e-14);  // the join, (24/116)^3
    EXPECT_NEAR(lab(0.125 * white(), white()).L(), 42.0, 1e-13);             // 116 / 2 - 16
    EXPECT_NEAR(lab(0.001 * white(), white()).L(), 24389.0 / 27000.0, 1e-14);
    EXPECT_NEAR(lab(8.0 * white(), white()).L(), 216.0,
                1e-12);  // 116 x 2 - 16: brighter than the white
    // X an eighth and Z a 27th of the white's: a* = 500 (1/2 - 1), b* = 200 (1 - 1/3).
    const Colour c = lab(Xyz(d65[0] / 8.0, d65[1], d65[2] / 27.0), white());
    EXPECT_NEAR(c.a(), -250.0, 1e-12);
    EXPECT_NEAR(c.b(), 400.0 / 3.0, 1e-12);
    const Colour black = lab(Xyz(0.0, 0.0, 0.0), white());
    EXPECT_NEAR(black.L(), 0.0, 1e-14);
    EXPECT_EQ(black.a(), 0.0);
    EXPECT_EQ(black.b(), 0.0);
}

// Stated: 2e-13. Second route: as printed, in long double.
TEST(Lab, KeepsItsStatedError) {
    for (const auto& xyz : lights(20000)) {
        const auto exact = test::lab_as_printed({xyz[0], xyz[1], xyz[2]}, d65);
        const auto got = lab(light(xyz), white()).values();
        for (std::size_t k = 0; k < 3; ++k) {
            ASSERT_NEAR(got[k], static_cast<double>(exact[k]), 2e-13);
        }
    }
}

// Stated: lights come back to 1e-14 of the white, those below 0 and outside the locus included.
TEST(Lab, GivesLightsBack) {
    for (const auto& xyz : lights(20000)) {
        const auto back = tristimulus(lab(light(xyz), white())).values();
        for (std::size_t k = 0; k < 3; ++k) {
            ASSERT_NEAR(back[k], xyz[k], 1e-14 * d65[k]);
        }
    }
}

TEST(Lab, GivesColoursBack) {
    std::mt19937 random(22);
    std::uniform_real_distribution<double> L(-20.0, 200.0);
    std::uniform_real_distribution<double> plane(-300.0, 300.0);
    for (int i = 0; i < 20000; ++i) {
        const Colour c(L(random), plane(random), plane(random), white());
        const auto back = lab(tristimulus(c), white()).values();
        for (std::size_t k = 0; k < 3; ++k) {
            ASSERT_NEAR(back[k], c.values()[k], 2e-12);
        }
    }
}

TEST(Lab, RisesWithLightWithoutAStepAtTheJoin) {
    double before = -std::numeric_limits<double>::infinity();
    for (int i = -200; i <= 4000; ++i) {
        const double now = lab((i / 20000.0) * white(), white()).L();
        ASSERT_GT(now, before);
        before = now;
    }
    const double join = 216.0 / 24389.0;
    const double below = lab(join * (1.0 - 1e-12) * white(), white()).L();
    const double above = lab(join * (1.0 + 1e-12) * white(), white()).L();
    EXPECT_NEAR(above, below, 1e-10);
}

TEST(Lab, DoesNotDependOnTheUnit) {
    for (const auto& xyz : lights(500)) {
        const auto one = lab(light(xyz), white()).values();
        const auto other = lab(0.01 * light(xyz), 0.01 * white()).values();
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(other[k], one[k], 2e-13);
        }
    }
}

// CIE 15:2018, 8.2.1: chroma and hue angle.
TEST(Lab, MeasuresChromaAndHue) {
    const Colour c(50.0, 3.0, 4.0, white());
    EXPECT_EQ(c.chroma(), 5.0);
    EXPECT_NEAR(c.hue_deg(), 53.13010235415598, 1e-12);  // atan(4/3)
    EXPECT_NEAR(Colour(50.0, -3.0, 4.0, white()).hue_deg(), 180.0 - 53.13010235415598, 1e-12);
    EXPECT_NEAR(Colour(50.0, -3.0, -4.0, white()).hue_deg(), 180.0 + 53.13010235415598, 1e-12);
    EXPECT_NEAR(Colour(50.0, 3.0, -4.0, white()).hue_deg(), 360.0 - 53.13010235415598, 1e-12);
    EXPECT_EQ(Colour(50.0, -1.0, 0.0, white()).hue_deg(), 180.0);
    EXPECT_EQ(Colour(50.0, -1.0, -0.0, white()).hue_deg(), 180.0);
    // Grey has no hue: 0, whatever the signs of its zeros; and an angle of almost nothing below 0 must not become 360.
    for (const double a : {0.0, -0.0}) {
        for (const double b : {0.0, -0.0}) {
            EXPECT_EQ(Colour(50.0, a, b, white()).hue_deg(), 0.0);
        }
    }
    EXPECT_LT(Colour(50.0, 1.0, -1e-300, white()).hue_deg(), 360.0);
    EXPECT_GT(Colour(50.0, 1.0, -1e-10, white()).hue_deg(), 359.0);
}

TEST(Lab, IsMadeFromLightnessChromaAndHue) {
    std::mt19937 random(23);
    std::uniform_real_distribution<double> hue(0.0, 359.999);
    std::uniform_real_distribution<double> chroma(1e-3, 200.0);
    for (int i = 0; i < 2000; ++i) {
        const double h = hue(random);
        const double C = chroma(random);
        const Colour c = Colour::from_lch(40.0, C, h, white());
        EXPECT_NEAR(c.chroma(), C, 1e-13 * C);
        EXPECT_NEAR(c.hue_deg(), h, 1e-12 * 360.0);
        EXPECT_EQ(c.L(), 40.0);
    }
    EXPECT_NEAR(Colour::from_lch(40.0, 10.0, -90.0, white()).b(), -10.0, 1e-13);
    EXPECT_EQ(Colour::from_lch(40.0, 0.0, 77.0, white()).chroma(), 0.0);
}

TEST(Lab, KeepsPositionsAndOffsetsApart) {
    const Colour p(50.0, 3.0, 4.0, white());
    const Colour q(48.0, 0.0, -2.0, white());
    EXPECT_DOUBLE_EQ((p - q).distance(), 7.0);  // 2, 3, 6
    EXPECT_EQ((p - q).distance(), (q - p).distance());
    EXPECT_EQ((p - p).distance(), 0.0);
    EXPECT_EQ(q + (p - q), p);
    EXPECT_EQ(2.0 * (p - q) + (q - p), p - q);
    EXPECT_EQ((p - q).da(), 3.0);
}

TEST(Lab, KeepsWhitesAndObserversApart) {
    const Colour p(50.0, 3.0, 4.0, white());
    const Colour other(50.0, 3.0, 4.0, Xyz(96.42, 100.0, 82.51));
    EXPECT_THROW(static_cast<void>(p - other), Error);
    const Tristimulus<Any> any = white();
    const Tristimulus<Any> any_10deg = Tristimulus<Cie1964_10deg>(94.81, 100.0, 107.32);
    EXPECT_THROW(lab(any, any_10deg), Error);
    EXPECT_EQ(lab(any, any).observer_id(), Cie1931_2deg::id);
    try {
        static_cast<void>(lab(any, any) - lab(any_10deg, any_10deg));
        FAIL();
    } catch (const Error& e) {
        EXPECT_EQ(e.kind(), ErrorKind::observer);
    }
}

TEST(Lab, RefusesWhatIsNoWhiteAndNoNumber) {
    EXPECT_THROW(lab(white(), Xyz(0.0, 0.0, 0.0)), Error);
    EXPECT_THROW(lab(white(), Xyz(95.0, 0.0, 108.0)), Error);
    EXPECT_THROW(lab(white(), Xyz(-1.0, 100.0, 108.0)), Error);
    EXPECT_THROW(lab(white(), Xyz(95.0, 100.0, 0.0)), Error);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinity = std::numeric_limits<double>::infinity();
    EXPECT_THROW(Colour(nan, 0.0, 0.0, white()), Error);
    EXPECT_THROW(Colour(50.0, infinity, 0.0, white()), Error);
    EXPECT_THROW(Colour(50.0, 0.0, 0.0, Xyz(0.0, 0.0, 0.0)), Error);
    EXPECT_THROW(Colour::from_lch(50.0, -1.0, 0.0, white()), Error);
    EXPECT_THROW(Colour::from_lch(50.0, nan, 0.0, white()), Error);
    try {
        static_cast<void>(lab(white(), Xyz(95.0, -1.0, 108.0)));
        FAIL();
    } catch (const Error& e) {
        EXPECT_EQ(e.kind(), ErrorKind::domain);
        EXPECT_STREQ(e.what(), "lab: white 95, -1, 108; wanted a white with X, Y and Z above 0");
    }
}

}  // namespace
}  // namespace samelight
