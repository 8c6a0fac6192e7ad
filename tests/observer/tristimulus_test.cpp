// Tristimulus values: linear, of one observer, and the sum they are said to be.
#include <array>
#include <cmath>
#include <concepts>
#include <cstddef>
#include <limits>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "numeric/test_random.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

// What a temporary lends would be gone: it gives copies.
static_assert(
    std::is_same_v<decltype(std::declval<Tristimulus<Cie1931_2deg>>().column()), Eigen::Vector3d>);
static_assert(std::is_same_v<decltype(std::declval<Sensitivities>().rows()), Sensitivities::Rows>);

using test::contains;
using test::Random;
using test::refusal;

const double nan = std::numeric_limits<double>::quiet_NaN();
const double inf = std::numeric_limits<double>::infinity();

template <class O>
class TristimulusLaws : public testing::Test {
  protected:
    // A value of O, which Any has to be told by name.
    static Tristimulus<O> value(double X, double Y, double Z, const char* observer = "someone") {
        if constexpr (std::same_as<O, Any>) {
            return {OfObserver<Any>(observer), {X, Y, Z}};
        } else {
            (void)observer;
            return {X, Y, Z};
        }
    }
    static Tristimulus<O> random_value(Random& random) {
        return value(random.between(-1, 2), random.between(-1, 2), random.between(-1, 2));
    }
};

using Observers =
    testing::Types<Cie1931_2deg, Cie1964_10deg, Cie2015_2deg, Cie2015_10deg, JuddVos1978, Any>;
TYPED_TEST_SUITE(TristimulusLaws, Observers);

template <class O>
void expect_near(const Tristimulus<O>& a, const Tristimulus<O>& b, double error) {
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_NEAR(a.values()[k], b.values()[k], error);
    }
}

TYPED_TEST(TristimulusLaws, AreThoseOfAVectorSpace) {
    Random random(91);
    const auto none = TestFixture::value(0, 0, 0);
    for (int k = 0; k < 200; ++k) {
        const auto a = TestFixture::random_value(random);
        const auto b = TestFixture::random_value(random);
        const auto c = TestFixture::random_value(random);
        const double s = random.between(-3, 3);
        EXPECT_EQ(a + b, b + a);
        expect_near((a + b) + c, a + (b + c), 1e-15);
        EXPECT_EQ(a + none, a);
        EXPECT_EQ(a - a, none);
        expect_near((a - b) + b, a, 1e-15);
        EXPECT_EQ(1.0 * a, a);
        expect_near(s * (a + b), s * a + s * b, 1e-14);
        EXPECT_EQ(2.0 * a, a + a);
    }
}

TYPED_TEST(TristimulusLaws, TheThreeValuesHaveNamesAndAColumn) {
    const auto t = TestFixture::value(1, 2, 3);
    EXPECT_EQ(t.X(), 1.0);
    EXPECT_EQ(t.Y(), 2.0);
    EXPECT_EQ(t.Z(), 3.0);
    EXPECT_EQ(t.column()[2], 3.0);
    EXPECT_NE(t, TestFixture::value(1, 2, 3.5));
}

TYPED_TEST(TristimulusLaws, ScaledToKeepsTheColour) {
    const auto t = TestFixture::value(1, 2, 3).scaled_to(100.0);
    expect_near(t, TestFixture::value(50, 100, 150), 1e-12);
    for (const double bad : {0.0, -1.0}) {
        EXPECT_TRUE(contains(
            refusal(ErrorKind::domain, [&] { (void)TestFixture::value(1, bad, 3).scaled_to(1.0); }),
            "Y " + to_text(bad)));
    }
    refusal(ErrorKind::domain, [] { (void)TestFixture::value(1, 2, 3).scaled_to(inf); });
    refusal(ErrorKind::domain, [] { (void)TestFixture::value(1, 2, 3).scaled_to(nan); });
}

TYPED_TEST(TristimulusLaws, WhatIsNotFiniteIsRefused) {
    for (const double bad : {nan, inf, -inf}) {
        for (std::size_t k = 0; k < 3; ++k) {
            std::array<double, 3> v = {1.0, 2.0, 3.0};
            v[k] = bad;
            const std::string text =
                refusal(ErrorKind::domain, [&] { TestFixture::value(v[0], v[1], v[2]); });
            EXPECT_TRUE(contains(text, to_text(bad))) << text;
        }
        refusal(ErrorKind::domain, [&] { (void)(bad * TestFixture::value(1, 2, 3)); });
    }
    const double huge = std::numeric_limits<double>::max();
    const auto most = TestFixture::value(huge, huge, huge);
    refusal(ErrorKind::domain, [&] { (void)(most + most); });
}

template <StandardObserver S>
void expect_round_trip_through_any() {
    const Tristimulus<S> tagged(1, 2, 3);
    const Tristimulus<Any> any = tagged;  // freely
    EXPECT_EQ(any.observer_id(), S::id);
    EXPECT_EQ(any.values(), tagged.values());
    EXPECT_EQ(any.as<S>(), tagged);
    EXPECT_EQ(tagged.template as<S>(), tagged);
}

TEST(TristimulusAny, IsEveryObserversAndBack) {
    expect_round_trip_through_any<Cie1931_2deg>();
    expect_round_trip_through_any<Cie1964_10deg>();
    expect_round_trip_through_any<Cie2015_2deg>();
    expect_round_trip_through_any<Cie2015_10deg>();
    expect_round_trip_through_any<JuddVos1978>();
}

TEST(TristimulusAny, TheWrongWayBackNamesBoth) {
    const Tristimulus<Any> any = Tristimulus<Cie1964_10deg>(1, 2, 3);
    const std::string text = refusal(ErrorKind::observer, [&] { (void)any.as<Cie1931_2deg>(); });
    EXPECT_TRUE(contains(text, "cie1964-10deg")) << text;
    EXPECT_TRUE(contains(text, "cie1931-2deg")) << text;
}

TEST(TristimulusAny, MixingObserversNamesBoth) {
    const Tristimulus<Any> a = Tristimulus<Cie1931_2deg>(1, 2, 3);
    const Tristimulus<Any> b(OfObserver<Any>("viewer-a-60s"), {1, 2, 3});
    for (const std::string& text : {refusal(ErrorKind::observer, [&] { (void)(a + b); }),
                                    refusal(ErrorKind::observer, [&] { (void)(a - b); })}) {
        EXPECT_TRUE(contains(text, "cie1931-2deg")) << text;
        EXPECT_TRUE(contains(text, "viewer-a-60s")) << text;
    }
    EXPECT_NE(a, b) << "equal numbers of two observers are not equal values";
    EXPECT_NO_THROW((void)(b + b));
}

// ---- The sum -------------------------------------------------------------------------------------

TEST(TristimulusSum, IsTheSumOfProductsTimesTheStep) {
    // Second route: the same sum in long double. Source: CIE 15:2018, 7.1. Bound: the docstring's, 1e-13 relative.
    Random random(92);
    for (const Observer* observer : named_observers()) {
        for (const Sampling& grid :
             {Sampling(), Sampling(380.0, 5.0, 81), Sampling(360.0, 0.1, 4701)}) {
            const auto values = random.values(static_cast<std::size_t>(grid.count()), 0.0, 1.0);
            const SampledLight light{grid, values, 0.0};
            const Tristimulus<Any> t = tristimulus(*observer, light);
            EXPECT_EQ(t.observer_id(), observer->id());
            for (std::size_t k = 0; k < 3; ++k) {
                long double sum = 0.0L;
                long double size = 0.0L;
                for (int i = 0; i < grid.count(); ++i) {
                    const long double product =
                        static_cast<long double>(observer->at(k, grid.wavelength_nm(i))) *
                        values[static_cast<std::size_t>(i)];
                    sum += product;
                    size += std::abs(product);
                }
                const auto expected = static_cast<double>(sum * grid.step_nm());
                EXPECT_NEAR(t.values()[k], expected,
                            1e-13 * static_cast<double>(size * grid.step_nm()));
            }
            EXPECT_EQ(tristimulus(observer->on(grid), light), t);
        }
    }
}

TEST(TristimulusSum, OfAStandardObserverIsTheSameByTagAndByValue) {
    const SampledLight light = rebin(d_illuminant(6500.0), Sampling());
    const Tristimulus<Cie2015_10deg> by_tag = tristimulus<Cie2015_10deg>(light);
    EXPECT_EQ(tristimulus(standard_observer<Cie2015_10deg>(), light).as<Cie2015_10deg>(), by_tag);
    EXPECT_EQ(tristimulus<Cie2015_10deg>(d_illuminant(6500.0)), by_tag);
}

TEST(TristimulusSum, LightsAddAndSoDoTheirValues) {
    Random random(93);
    const Sampling grid;
    const auto a = random.values(401, 0.0, 1.0);
    const auto b = random.values(401, 0.0, 1.0);
    std::vector<double> both(401);
    for (std::size_t i = 0; i < both.size(); ++i) {
        both[i] = a[i] + 2.0 * b[i];
    }
    const auto of = [&](const std::vector<double>& v) {
        return tristimulus<Cie1931_2deg>(SampledLight{grid, v, 0.0});
    };
    expect_near(of(both), of(a) + 2.0 * of(b), 1e-12);
}

TEST(TristimulusSum, MixingSamplingsIsRefusedAndNamesBoth) {
    const SampledLight light = rebin(illuminant_a(), Sampling(380.0, 5.0, 81));
    const Sensitivities other = standard_observer<Cie1931_2deg>().on(Sampling());
    const std::string text = refusal(ErrorKind::shape, [&] { (void)tristimulus(other, light); });
    EXPECT_TRUE(contains(text, "380-780 nm by 1 nm")) << text;
    EXPECT_TRUE(contains(text, "380-780 nm by 5 nm")) << text;
}

TEST(TristimulusSum, ConesGiveLMS) {
    // Second route: by hand. Light at one wavelength only, 1 a nm.
    const Spectrum line(std::vector<double>{549.0, 550.0, 551.0}, {0.0, 1.0, 0.0});
    const Tristimulus<Any> lms = tristimulus(cie2006_cones_2deg(), rebin(line, Sampling()));
    EXPECT_EQ(lms.observer_id(), "cie2006-2deg");
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_NEAR(lms.values()[k], cie2006_cones_2deg().row(k)[160], 1e-15);
    }
}

}  // namespace
}  // namespace samelight
