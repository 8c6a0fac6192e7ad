// Chromaticities and their differences in three diagrams: laws, round trips, observers that don't mix.
#include <array>
#include <cmath>
#include <concepts>
#include <cstddef>
#include <limits>
#include <string>
#include <type_traits>
#include <vector>

#include <gtest/gtest.h>
#ifdef SAMELIGHT_TEST_HAS_LCMS2
#include <lcms2.h>
#endif

#include "numeric/refusals.hpp"
#include "numeric/test_random.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight {
namespace {

using test::contains;
using test::Random;
using test::refusal;

const double nan = std::numeric_limits<double>::quiet_NaN();
const double inf = std::numeric_limits<double>::infinity();

// ---- Laws, for every diagram and observer ----------------------------------------------------------

// One diagram with one observer: its positions and offsets, which Any has to be told the observer of by name.
template <class O, class D>
struct Kind {
    using Observer = O;
    using Diagram = D;
    using Position = PlanePosition<O, D>;
    using Offset = PlaneOffset<O, D>;

    static Position position(double first, double second) { return make<Position>(first, second); }
    static Offset offset(double first, double second) { return make<Offset>(first, second); }
    static Position any_position(Random& random) {
        return position(random.between(-1, 1), random.between(-1, 1));
    }

  private:
    template <class Value>
    static Value make(double first, double second) {
        if constexpr (std::same_as<O, Any>) {
            return {OfObserver<Any>("someone"), first, second};
        } else {
            return {first, second};
        }
    }
};

template <class K>
class PlaneLaws : public testing::Test {};

using Kinds = testing::Types<Kind<Cie1931_2deg, DiagramXy>, Kind<Cie1931_2deg, DiagramUv1976>,
                             Kind<Cie1931_2deg, DiagramUv1960>, Kind<Cie1964_10deg, DiagramXy>,
                             Kind<Cie2015_2deg, DiagramUv1976>, Kind<Cie2015_10deg, DiagramUv1960>,
                             Kind<JuddVos1978, DiagramXy>, Kind<Any, DiagramXy>,
                             Kind<Any, DiagramUv1976>, Kind<Any, DiagramUv1960>>;
TYPED_TEST_SUITE(PlaneLaws, Kinds);

template <class Value>
void expect_near(const Value& a, const Value& b, double error) {
    EXPECT_NEAR(a.first(), b.first(), error);
    EXPECT_NEAR(a.second(), b.second(), error);
}

TYPED_TEST(PlaneLaws, OffsetsTakePositionsToPositions) {
    Random random(101);
    const auto none = TypeParam::offset(0, 0);
    for (int k = 0; k < 200; ++k) {
        const auto p = TypeParam::any_position(random);
        const auto q = TypeParam::any_position(random);
        const auto r = TypeParam::any_position(random);
        expect_near(p + (q - p), q, 1e-15);
        EXPECT_EQ(p - p, none);
        EXPECT_EQ(p + none, p);
        EXPECT_EQ((p - q), -1.0 * (q - p));
        expect_near((q - p) + (r - q), r - p, 1e-15);
        expect_near((p + (q - p)) + (r - q), p + ((q - p) + (r - q)), 1e-15);
        expect_near(3.0 * (q - p), (q - p) + (q - p) + (q - p), 1e-14);
        EXPECT_EQ((q - p).distance(), (p - q).distance());
        EXPECT_EQ((q - p).distance(), std::hypot(q.first() - p.first(), q.second() - p.second()));
        EXPECT_LE((r - p).distance(), (q - p).distance() + (r - q).distance() + 1e-15);
    }
}

TYPED_TEST(PlaneLaws, WhatIsNotFiniteIsRefused) {
    for (const double bad : {nan, inf, -inf}) {
        for (const auto& text :
             {refusal(ErrorKind::domain, [&] { TypeParam::position(bad, 0.3); }),
              refusal(ErrorKind::domain, [&] { TypeParam::position(0.3, bad); }),
              refusal(ErrorKind::domain, [&] { TypeParam::offset(bad, 0.3); }),
              refusal(ErrorKind::domain, [&] { TypeParam::offset(0.3, bad); })}) {
            EXPECT_TRUE(contains(text, to_text(bad))) << text;
            EXPECT_TRUE(contains(text, TypeParam::Diagram::name)) << text;
        }
        refusal(ErrorKind::domain, [&] { (void)(bad * TypeParam::offset(0.1, 0.1)); });
    }
}

TYPED_TEST(PlaneLaws, AnyIsEveryObserversAndBack) {
    using O = typename TypeParam::Observer;
    if constexpr (!std::same_as<O, Any>) {
        const auto p = TypeParam::position(0.25, 0.5);
        const PlanePosition<Any, typename TypeParam::Diagram> any = p;
        EXPECT_EQ(any.observer_id(), O::id);
        EXPECT_EQ(any.template as<O>(), p);
        using Other =
            std::conditional_t<std::same_as<O, Cie1931_2deg>, Cie1964_10deg, Cie1931_2deg>;
        const std::string text =
            refusal(ErrorKind::observer, [&] { (void)any.template as<Other>(); });
        EXPECT_TRUE(contains(text, std::string(O::id))) << text;
        EXPECT_TRUE(contains(text, std::string(Other::id))) << text;
    } else {
        // And two of them never mix, nor are they equal.
        const auto p = TypeParam::position(0.25, 0.5);
        const typename TypeParam::Position other(OfObserver<Any>("another"), 0.25, 0.5);
        const std::string text = refusal(ErrorKind::observer, [&] { (void)(p - other); });
        EXPECT_TRUE(contains(text, "someone")) << text;
        EXPECT_TRUE(contains(text, "another")) << text;
        refusal(ErrorKind::observer, [&] { (void)(p + (other - other)); });
        refusal(ErrorKind::observer, [&] { (void)((p - p) + (other - other)); });
        EXPECT_NE(p, other);
    }
}

// ---- From and to tristimulus values ----------------------------------------------------------------

TEST(Chromaticity, IsTheShareOfTheSum) {
    // Second route: by hand. Source: CIE 15:2018, 7.3.
    const auto c = chromaticity(Tristimulus<Cie1931_2deg>(2.0, 5.0, 3.0));
    EXPECT_EQ(c.x(), 0.2);
    EXPECT_EQ(c.y(), 0.5);
    const auto any = chromaticity(Tristimulus<Any>(OfObserver<Any>("someone"), {2.0, 5.0, 3.0}));
    EXPECT_EQ(any.observer_id(), "someone");
    EXPECT_EQ(any.x(), 0.2);
}

TEST(Chromaticity, DoesNotDependOnStrengthAndComesBackFromY) {
    Random random(102);
    for (int k = 0; k < 1000; ++k) {
        const Tristimulus<Cie2015_2deg> t(random.between(0.01, 1), random.between(0.01, 1),
                                          random.between(0.01, 1));
        const auto c = chromaticity(t);
        expect_near(chromaticity(random.between(0.1, 1e6) * t), c, 4e-16);
        const auto back = tristimulus(c, t.Y());
        for (std::size_t i = 0; i < 3; ++i) {
            EXPECT_NEAR(back.values()[i], t.values()[i], 1e-13);  // Z is 1 - x - y over y
        }
        EXPECT_EQ(back.Y(), t.Y());
    }
}

TEST(Chromaticity, NoSumAndNoYAreRefused) {
    for (const double bad : {0.0, -1.0}) {
        const std::string text = refusal(ErrorKind::domain, [&] {
            (void)chromaticity(Tristimulus<Cie1931_2deg>(bad, 0.0, 0.0));
        });
        EXPECT_TRUE(contains(text, "X + Y + Z = " + to_text(bad))) << text;
    }
    EXPECT_TRUE(
        contains(refusal(ErrorKind::domain,
                         [] { (void)tristimulus(Chromaticity<Cie1931_2deg>(0.3, 0.0), 1.0); }),
                 "y = 0"));
    refusal(ErrorKind::domain,
            [] { (void)tristimulus(Chromaticity<Cie1931_2deg>(0.3, 0.3), nan); });
    refusal(ErrorKind::domain,
            [] { (void)tristimulus(Chromaticity<Cie1931_2deg>(0.3, 0.3), inf); });
    EXPECT_EQ(tristimulus(Chromaticity<Cie1931_2deg>(0.25, 0.25)).Y(), 1.0);
}

// ---- The uniform diagrams --------------------------------------------------------------------------

// Real colours: mixtures of three monochromatic lights of an observer.
template <StandardObserver O>
std::vector<Tristimulus<O>> real_colours(std::uint64_t seed, int count) {
    Random random(seed);
    const Observer& observer = standard_observer<O>();
    std::vector<Tristimulus<O>> result;
    for (int k = 0; k < count; ++k) {
        Tristimulus<O> sum(0, 0, 0);
        for (int light = 0; light < 3; ++light) {
            const double nm = random.between(400.0, 700.0);
            const Tristimulus<O> one(observer.at(0, nm), observer.at(1, nm), observer.at(2, nm));
            sum = sum + random.between(1e-6, 1.0) * one;
        }
        result.push_back(sum);
    }
    return result;
}

TEST(UniformDiagrams, AreThoseOfTheirDefinitionInTristimulusValues) {
    // Second route: u' = 4X / (X + 15Y + 3Z), v' = 9Y / (...), v = 6Y / (...). Source: CIE 15:2018 (u', v': the 1976 uniform
    // diagram; u, v: with colour temperature).
    for (const auto& t : real_colours<Cie1931_2deg>(103, 2000)) {
        const double d = t.X() + 15.0 * t.Y() + 3.0 * t.Z();
        const auto uv = uv1976(chromaticity(t));
        EXPECT_NEAR(uv.u(), 4.0 * t.X() / d, 2e-15);
        EXPECT_NEAR(uv.v(), 9.0 * t.Y() / d, 2e-15);
        const auto old = uv1960(chromaticity(t));
        EXPECT_EQ(old.u(), uv.u());
        EXPECT_NEAR(old.v(), 6.0 * t.Y() / d, 2e-15);
    }
}

TEST(UniformDiagrams, EqualEnergy) {
    // Second route: by hand. Of X = Y = Z: u' = 4/19, v' = 9/19, v = 6/19.
    const Chromaticity<Cie1931_2deg> e(1.0 / 3.0, 1.0 / 3.0);
    EXPECT_NEAR(uv1976(e).u(), 4.0 / 19.0, 1e-16);
    EXPECT_NEAR(uv1976(e).v(), 9.0 / 19.0, 1e-16);
    EXPECT_NEAR(uv1960(e).v(), 6.0 / 19.0, 1e-16);
}

template <StandardObserver O>
void expect_round_trips(std::uint64_t seed) {
    // Bound: the docstring's, 2e-15.
    for (const auto& t : real_colours<O>(seed, 20000)) {
        const Chromaticity<O> c = chromaticity(t);
        const Uv1976<O> uv = uv1976(c);
        const Uv1960<O> old = uv1960(c);
        expect_near(chromaticity(uv), c, 2e-15);
        expect_near(chromaticity(old), c, 2e-15);
        expect_near(uv1976(chromaticity(uv)), uv, 2e-15);
        expect_near(uv1960(chromaticity(old)), old, 2e-15);
    }
}

TEST(UniformDiagrams, RoundTripsOverRealColours) {
    expect_round_trips<Cie1931_2deg>(104);
    expect_round_trips<Cie1964_10deg>(105);
    expect_round_trips<Cie2015_2deg>(106);
    expect_round_trips<Cie2015_10deg>(107);
    expect_round_trips<JuddVos1978>(108);
}

TEST(UniformDiagrams, KeepTheObserverOfAny) {
    const Chromaticity<Any> c(OfObserver<Any>("someone"), 0.3, 0.3);
    EXPECT_EQ(uv1976(c).observer_id(), "someone");
    EXPECT_EQ(chromaticity(uv1960(c)).observer_id(), "someone");
}

TEST(UniformDiagrams, PointsAtInfinityAreRefused) {
    // Second route: by hand, points on -2x + 12y + 3 = 0 and on 2u - 8v + 4 = 0 that doubles hold exactly.
    const Chromaticity<Cie1931_2deg> on_line(1.5, 0.0);
    EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { (void)uv1976(on_line); }),
                         "uv1976: -2x + 12y + 3 = 0"));
    EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { (void)uv1960(on_line); }),
                         "uv1960: -2x + 12y + 3 = 0"));
    EXPECT_TRUE(contains(
        refusal(ErrorKind::domain, [] { (void)chromaticity(Uv1960<Cie1931_2deg>(0.0, 0.5)); }),
        "2u - 8v + 4 = 0"));
    refusal(ErrorKind::domain, [] { (void)chromaticity(Uv1976<Cie1931_2deg>(-2.0, 0.0)); });
}

#ifdef SAMELIGHT_TEST_HAS_LCMS2
TEST(Chromaticity, AgreesWithLittleCms) {
    // Second route: Little CMS.
    for (const auto& t : real_colours<Cie1931_2deg>(109, 1000)) {
        const cmsCIEXYZ xyz = {t.X(), t.Y(), t.Z()};
        cmsCIExyY other;
        cmsXYZ2xyY(&other, &xyz);
        const auto c = chromaticity(t);
        EXPECT_NEAR(c.x(), other.x, 1e-15);
        EXPECT_NEAR(c.y(), other.y, 1e-15);
        cmsCIEXYZ back;
        cmsxyY2XYZ(&back, &other);
        const auto own = tristimulus(c, t.Y());
        EXPECT_NEAR(own.X(), back.X, 1e-14 * back.X + 1e-15);
        EXPECT_NEAR(own.Z(), back.Z, 1e-12 * back.Z + 1e-14);
    }
}
#endif

// CIE 15:2018, 7.3, by hand: X = x Y / y, Z = (1 - x - y) Y / y.
TEST(Chromaticity, LightOfAReadingInXAndY) {
    EXPECT_EQ(xyz_from_xyY(0.25, 0.5, 80.0), (std::array<double, 3>{40.0, 80.0, 40.0}));
    const double infinite = std::numeric_limits<double>::infinity();
    for (const auto& [x, y, Y] :
         {std::array{0.3, 0.0, 1.0}, std::array{0.3, -0.1, 1.0}, std::array{infinite, 0.3, 1.0},
          std::array{0.3, infinite, 1.0}, std::array{0.3, 0.3, std::nan("")}}) {
        EXPECT_THROW(static_cast<void>(xyz_from_xyY(x, y, Y)), Error) << x << ' ' << y << ' ' << Y;
    }
}

}  // namespace
}  // namespace samelight
