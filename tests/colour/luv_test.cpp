// CIELUV: exact anchors, a second route, round trips to the stated bounds, the two singular places, and batches.
#include "samelight/colour/spaces/luv.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/spaces/luv_batch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "accuracy/as_printed/lab.hpp"
#include "colour/batch_columns.hpp"
#include "numeric/check_rows.hpp"

namespace samelight {
namespace {

using Xyz = Tristimulus<Cie1931_2deg>;
using Colour = Luv<Cie1931_2deg>;

const std::array<double, 3> d65 = {95.04, 100.0, 108.88};  // CIE 15:2018, Table T.3

Xyz white() { return {d65[0], d65[1], d65[2]}; }
Xyz light(const std::array<double, 3>& v) { return {v[0], v[1], v[2]}; }

/// Lights whose u', v' are those of real ones, from 1e-7 of the white up to it; all but a few inside the locus.
std::vector<std::array<double, 3>> real_lights(int count) {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> u(0.01, 0.6);
    std::uniform_real_distribution<double> v(0.02, 0.58);
    std::uniform_real_distribution<double> exponent(-7.0, 0.0);
    std::vector<std::array<double, 3>> result = {{0.0, 0.0, 0.0}, d65};
    while (result.size() < static_cast<std::size_t>(count)) {
        const double Y = 100.0 * std::pow(10.0, exponent(random));
        const double up = u(random);
        const double vp = v(random);
        result.push_back(
            {Y * 9.0 * up / (4.0 * vp), Y, Y * (12.0 - 3.0 * up - 20.0 * vp) / (4.0 * vp)});
    }
    return result;
}

// CIE 15:2018, 8.2.2: values that follow from its definition without rounding.
TEST(Luv, HasTheAnchorsOfItsDefinition) {
    const Colour w = luv(white(), white());
    EXPECT_NEAR(w.L(), 100.0, 1e-13);
    EXPECT_NEAR(w.u(), 0.0, 1e-12);
    EXPECT_NEAR(w.v(), 0.0, 1e-12);
    EXPECT_NEAR(luv((216.0 / 24389.0) * white(), white()).L(), 8.0, 1e-14);  // the join, (24/116)^3
    EXPECT_NEAR(luv(0.125 * white(), white()).L(), 42.0, 1e-13);             // 116 / 2 - 16
    EXPECT_NEAR(luv(0.001 * white(), white()).L(), 24389.0 / 27000.0, 1e-15);
    EXPECT_EQ(luv(Xyz(0.0, 0.0, 0.0), white()).values(), (std::array<double, 3>{0.0, 0.0, 0.0}));
}

// Stated: 5e-13. Second route: as printed, in long double.
TEST(Luv, KeepsItsStatedError) {
    for (const auto& xyz : real_lights(20000)) {
        const auto exact = test::luv_as_printed({xyz[0], xyz[1], xyz[2]}, d65);
        const Colour got = luv(light(xyz), white());
        for (std::size_t k = 0; k < 3; ++k) {
            ASSERT_NEAR(got.values()[k], static_cast<double>(exact[k]), 5e-13);
        }
    }
}

// Second route: a general-purpose colour library from npm (tests/second_route/colours.mjs), white (0.3127, 0.3290) of 203 cd/m2.
TEST(Luv, AgreesWithAnotherLibrary) {
    const test::CheckRows rows("second_route_colours.csv");
    const Xyz its_white = tristimulus(Chromaticity<Cie1931_2deg>(0.3127, 0.3290), 203.0);
    for (const auto& row : rows) {
        const Colour got = luv(Xyz(row.number("X"), row.number("Y"), row.number("Z")), its_white);
        EXPECT_NEAR(got.L(), row.number("L"), 2e-12);
        EXPECT_NEAR(got.u(), row.number("u"), 2e-12);
        EXPECT_NEAR(got.v(), row.number("v"), 2e-12);
    }
    EXPECT_EQ(rows.size(), 22U);
}

// The chromatic coordinates are 13 L* times offsets in u', v': by the diagram's own functions.
TEST(Luv, CarriesTheUniformDiagram) {
    const auto centre = uv1976(chromaticity(white()));
    for (const auto& xyz : real_lights(2000)) {
        if (xyz[1] == 0.0) {
            continue;
        }
        const Colour c = luv(light(xyz), white());
        const auto offset = uv1976(chromaticity(light(xyz))) - centre;
        EXPECT_NEAR(c.u() / (13.0 * c.L()), offset.first(), 1e-13);
        EXPECT_NEAR(c.v() / (13.0 * c.L()), offset.second(), 1e-13);
        EXPECT_NEAR(c.saturation(), 13.0 * offset.distance(), 1e-12);
        EXPECT_NEAR(c.chroma(), c.L() * c.saturation(), 1e-12);
    }
}

// Stated: lights come back to 1e-13 of their largest value.
TEST(Luv, GivesLightsBack) {
    for (const auto& xyz : real_lights(20000)) {
        const auto back = tristimulus(luv(light(xyz), white())).values();
        for (std::size_t k = 0; k < 3; ++k) {
            ASSERT_NEAR(back[k], xyz[k], 1e-13 * test::largest_of(xyz));
        }
    }
}

// Noise about black, light below 0 and lights that no eye sees are in the domain and come back too.
TEST(Luv, GivesBackWhatLiesOutsideTheLocusAndBelowBlack) {
    const std::array<std::array<double, 3>, 6> lights = {{{-1e-4, -1e-4, -1e-4},
                                                          {-2e-5, 1e-5, 3e-5},
                                                          {1.0, -0.5, 1.0},
                                                          {-20.0, 50.0, -5.0},
                                                          {80.0, 10.0, -10.0},
                                                          {500.0, 400.0, 100.0}}};
    for (const auto& xyz : lights) {
        const auto back = tristimulus(luv(light(xyz), white())).values();
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(back[k], xyz[k], 1e-12 * test::largest_of(xyz));
        }
    }
    EXPECT_LT(luv(Xyz(-1e-4, -1e-4, -1e-4), white()).L(), 0.0);
}

TEST(Luv, GivesColoursBack) {
    std::mt19937 random(12);
    std::uniform_real_distribution<double> L(0.0, 100.0);
    std::uniform_real_distribution<double> share(-0.5, 1.0);
    for (int i = 0; i < 5000; ++i) {
        const double lightness = L(random);
        const Colour c(lightness, lightness * share(random), lightness * share(random), white());
        const Colour back = luv(tristimulus(c), white());
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(back.values()[k], c.values()[k], 1e-12);
        }
    }
}

TEST(Luv, TakesEveryLightWithoutYForBlack) {
    for (const Xyz& dark : {Xyz(0.0, 0.0, 0.0), Xyz(1.0, 0.0, 0.0), Xyz(0.0, 0.0, 2.0),
                            Xyz(3.0, 0.0, -1.0), Xyz(-0.0, -0.0, 0.0)}) {
        const Colour c = luv(dark, white());
        EXPECT_EQ(c.L(), 0.0);
        EXPECT_EQ(c.chroma(), 0.0);
        EXPECT_EQ(tristimulus(c), Xyz(0.0, 0.0, 0.0));
        EXPECT_THROW(static_cast<void>(c.saturation()), Error);
    }
}

TEST(Luv, RefusesTheSingularPlaces) {
    EXPECT_THROW(luv(Xyz(-15.0, 1.0, 0.0), white()), Error);  // X + 15Y + 3Z = 0
    EXPECT_THROW(tristimulus(Colour(0.0, 1.0, 0.0, white())), Error);
    EXPECT_THROW(tristimulus(Colour(0.0, 0.0, -1.0, white())), Error);
    // v' = 0: v* = -13 L* v'n. This white has v'n = 0.5, so that nothing here is rounded.
    const Xyz half(1.5, 1.0, 0.5);
    EXPECT_THROW(tristimulus(Colour(50.0, 0.0, -325.0, half)), Error);
    EXPECT_NO_THROW(tristimulus(Colour(50.0, 0.0, -324.0, half)));
}

TEST(Luv, RefusesWhatIsNoWhiteAndNoNumber) {
    EXPECT_THROW(luv(white(), Xyz(0.0, 0.0, 0.0)), Error);
    EXPECT_THROW(luv(white(), Xyz(1.0, 0.0, 1.0)), Error);
    EXPECT_THROW(luv(white(), Xyz(-20.0, 1.0, 0.0)), Error);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_THROW(luv(white(), Xyz(nan, 1.0, 1.0)), Error);
    EXPECT_THROW(luv(Xyz(nan, 1.0, 1.0), white()), Error);
    EXPECT_THROW(Colour(nan, 0.0, 0.0, white()), Error);
    EXPECT_THROW(Colour(50.0, 0.0, 0.0, Xyz(0.0, 0.0, 0.0)), Error);
}

// CIE 15:2018, 8.2.2.
TEST(Luv, MeasuresDifferencesChromaAndHue) {
    const Colour a(50.0, 3.0, 4.0, white());
    EXPECT_EQ(a.chroma(), 5.0);
    EXPECT_NEAR(a.hue_deg(), 53.13010235415598, 1e-12);  // atan(4/3)
    EXPECT_EQ(Colour(50.0, 0.0, 0.0, white()).hue_deg(), 0.0);
    EXPECT_NEAR(Colour(50.0, 0.0, -1.0, white()).hue_deg(), 270.0, 1e-12);
    EXPECT_LT(Colour(50.0, 1.0, -1e-300, white()).hue_deg(), 360.0);
    const Colour b(48.0, 0.0, -2.0, white());
    EXPECT_DOUBLE_EQ((a - b).distance(), 7.0);  // 2, 3, 6
    EXPECT_EQ((a - b).distance(), (b - a).distance());
    EXPECT_EQ((a - a).distance(), 0.0);
    EXPECT_EQ(b + (a - b), a);
    EXPECT_EQ((2.0 * (a - b) + (b - a)).distance(), (a - b).distance());
}

TEST(Luv, KeepsWhitesAndObserversApart) {
    const Colour a(50.0, 3.0, 4.0, white());
    const Colour other(50.0, 3.0, 4.0, Xyz(96.42, 100.0, 82.51));
    EXPECT_THROW(static_cast<void>(a - other), Error);
    const Tristimulus<Any> any = white();
    const Tristimulus<Any> any_10deg = Tristimulus<Cie1964_10deg>(94.81, 100.0, 107.32);
    EXPECT_THROW(luv(any, any_10deg), Error);
    EXPECT_EQ(luv(any, any).observer_id(), Cie1931_2deg::id);
    EXPECT_THROW(static_cast<void>(luv(any, any) - luv(any_10deg, any_10deg)), Error);
}

TEST(Luv, DoesNotDependOnTheUnit) {
    for (const auto& xyz : real_lights(500)) {
        const Colour one = luv(light(xyz), white());
        const Colour other = luv(0.01 * light(xyz), 0.01 * white());
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(other.values()[k], one.values()[k], 1e-12);
        }
    }
}

TEST(Luv, RisesWithLight) {
    double before = -std::numeric_limits<double>::infinity();
    for (int i = -200; i <= 4000; ++i) {
        const double now = luv((i / 20000.0) * white(), white()).L();
        ASSERT_GT(now, before);
        before = now;
    }
}

// ---- Batches --------------------------------------------------------------------------------------

template <class T>
class LuvBatch : public testing::Test {
  protected:
    static constexpr bool is_float = std::is_same_v<T, float>;
};
using Numbers = testing::Types<float, double>;
TYPED_TEST_SUITE(LuvBatch, Numbers);

// Stated: 1e-12 and 2e-4 to L*, u*, v*; 1e-12 and 5e-6 of the largest of X, Y, Z back.
TYPED_TEST(LuvBatch, AgreesWithTheScalarFunctions) {
    test::OwnedColumns3<TypeParam> xyz(real_lights(1003));
    test::OwnedColumns3<TypeParam> forward(xyz.size());
    test::OwnedColumns3<TypeParam> back(xyz.size());
    luv_from_xyz(xyz.span(), white(), forward.span());
    xyz_from_luv(forward.span(), white(), back.span());
    double worst_forward = 0.0;
    double worst_back = 0.0;
    for (std::size_t i = 0; i < xyz.size(); ++i) {
        const auto wanted = luv(light(xyz.row(i)), white()).values();
        const auto got = forward.row(i);
        const auto light_wanted = tristimulus(Colour(got[0], got[1], got[2], white())).values();
        for (std::size_t k = 0; k < 3; ++k) {
            worst_forward = std::max(worst_forward, std::abs(got[k] - wanted[k]));
            if (test::largest_of(light_wanted) > 0.0) {
                worst_back = std::max(worst_back, std::abs(back.row(i)[k] - light_wanted[k]) /
                                                      test::largest_of(light_wanted));
            }
        }
    }
    EXPECT_LT(worst_forward, this->is_float ? 2e-4 : 1e-12);
    EXPECT_LT(worst_back, this->is_float ? 5e-6 : 1e-12);
    EXPECT_EQ(back.row(0), (std::array<double, 3>{0.0, 0.0, 0.0}));  // black, through and back
}

TYPED_TEST(LuvBatch, GivesNanForNanAndOnlyThereAndWhereTheScalarThrows) {
    constexpr TypeParam nan = std::numeric_limits<TypeParam>::quiet_NaN();
    for (std::size_t k = 0; k < 3; ++k) {
        test::OwnedColumns3<TypeParam> xyz(real_lights(37));
        xyz.set(5, k, nan);
        xyz.set(36, k, nan);
        test::OwnedColumns3<TypeParam> out(xyz.size());
        luv_from_xyz(xyz.span(), white(), out.span());
        for (std::size_t i = 0; i < xyz.size(); ++i) {
            EXPECT_EQ(test::any_nan(out.row(i)), i == 5 || i == 36) << i;
        }
        xyz_from_luv(xyz.span(), white(), out.span());  // any numbers will do
        EXPECT_TRUE(test::any_nan(out.row(5)));
        EXPECT_TRUE(test::any_nan(out.row(36)));
    }
    test::OwnedColumns3<TypeParam> singular({{-15.0, 1.0, 0.0}, {3.0, 0.0, -1.0}, {1.0, 1.0, 1.0}});
    test::OwnedColumns3<TypeParam> out(3);
    luv_from_xyz(singular.span(), white(), out.span());
    EXPECT_TRUE(std::isnan(out.row(0)[1]) && std::isnan(out.row(0)[2]));
    EXPECT_EQ(out.row(1), (std::array<double, 3>{0.0, 0.0, 0.0}));
    EXPECT_FALSE(test::any_nan(out.row(2)));
    test::OwnedColumns3<TypeParam> no_colour({{0.0, 1.0, 0.0}, {0.0, 0.0, 1.0}, {0.0, 0.0, 0.0}});
    xyz_from_luv(no_colour.span(), white(), out.span());
    EXPECT_TRUE(std::isnan(out.row(0)[0]) && std::isnan(out.row(0)[2]));
    EXPECT_TRUE(std::isnan(out.row(1)[0]) && std::isnan(out.row(1)[2]));
    EXPECT_EQ(out.row(2), (std::array<double, 3>{0.0, 0.0, 0.0}));
}

TYPED_TEST(LuvBatch, RefusesColumnsOfDifferentLengthsAndAWhiteThatIsNone) {
    test::OwnedColumns3<TypeParam> three(3);
    test::OwnedColumns3<TypeParam> four(4);
    EXPECT_THROW(luv_from_xyz(three.span(), white(), four.span()), Error);
    EXPECT_THROW(xyz_from_luv(three.span(), white(), four.span()), Error);
    EXPECT_THROW(luv_from_xyz(three.span(), Xyz(0.0, 0.0, 0.0), three.span()), Error);
    EXPECT_EQ(four.row(0)[0], -777.0);  // nothing written
}

}  // namespace
}  // namespace samelight
