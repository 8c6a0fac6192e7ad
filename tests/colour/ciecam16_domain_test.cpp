// CIECAM16, CAM16 and CAM16-UCS: white, black, round trips over the domain and its edges, what is refused.
#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <string>

#include <gtest/gtest.h>

#include "colour/ciecam16_colours.hpp"
#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/colour/appearance/ciecam16.hpp"
#include "samelight/colour/appearance/ciecam16_formulas.hpp"
#include "samelight/colour/appearance/ciecam16_viewing.hpp"
#include "samelight/colour/appearance/hue.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight {
namespace {

using test::cam::display_colours;
using test::cam::light;
using test::cam::O;
using test::cam::plain;
using test::cam::Xyz;

TEST(Ciecam16, TakesTheWhiteForWhite) {
    for (const double adapting : {0.1, 10.0, 318.31}) {
        ViewingConditions<O> v = plain(adapting);
        EXPECT_NEAR(Ciecam16<O>(v).appearance(v.white).J(), 100.0, 1e-12);
        EXPECT_NEAR(Ciecam16<O>(v).ucs(v.white).J(), 100.0, 1e-12);
        v.discounting = Discounting::complete;
        const Ciecam16<O> model(v);
        // The colour of the light wholly discounted: its greys have no chroma.
        for (const double part : {0.001, 0.2, 1.0}) {
            EXPECT_NEAR(model.appearance(part * v.white).C(), 0.0, 1e-9);
        }
    }
}

// Where the eye ends the conditions do: beyond, single precision would hold no more of the formulas than 0 / 0. Own bounds.
TEST(Ciecam16, RefusesConditionsThatNobodySeesUnder) {
    const auto refused = [](double ViewingConditions<O>::*what, double value) {
        ViewingConditions<O> v = plain(10.0);
        v.*what = value;
        try {
            return Ciecam16<O>(v).appearance(v.white).J() > 100.1;
        } catch (const Error& error) {
            return error.kind() == ErrorKind::domain;
        }
    };
    using V = ViewingConditions<O>;
    const double nan = std::nan("");
    for (const double beyond : {0.0, -1.0, 9e-7, 1.1e9, nan}) {
        EXPECT_TRUE(refused(&V::adapting_luminance_cd_m2, beyond)) << beyond;
    }
    for (const double beyond : {0.0, -20.0, 9e-4, 1.1e6, nan}) {
        EXPECT_TRUE(refused(&V::background_percent, beyond)) << beyond;
        EXPECT_TRUE(refused(&V::white_percent, beyond)) << beyond;
    }
    EXPECT_FALSE(refused(&V::adapting_luminance_cd_m2, 1e-6));
    EXPECT_FALSE(refused(&V::adapting_luminance_cd_m2, 1e9));
    EXPECT_FALSE(refused(&V::background_percent, 1e-3));
}

// CIE 248:2022, 6.2: below 0.26 and above 150 the compression of a response is a straight line. Whites' own go through other code than colours', so
// that a white of such responses, with no adaptation, is white only where both have the lines alike.
TEST(Ciecam16, TakesAWhiteOfExtremeResponsesForWhite) {
    for (const Xyz& white : {Xyz(480.3, 100.0, 0.1), Xyz(95.0, 100.0, 400.0)}) {
        ViewingConditions<O> v = plain(10.0);
        v.white = white;
        v.surround = Surround(0.0, 0.69, 1.0);
        EXPECT_NEAR(Ciecam16<O>(v).appearance(white).J(), 100.0, 1e-10) << white.X();
        EXPECT_LT(Ciecam16<O>(v).appearance(0.5 * white).J(), 90.0);
    }
    for (const auto& [F, c, Nc] : {std::array{-0.1, 0.69, 1.0}, std::array{1.1, 0.69, 1.0},
                                   std::array{1.0, 0.0, 1.0}, std::array{1.0, 0.69, -1.0},
                                   std::array{1.0, std::numeric_limits<double>::infinity(), 1.0},
                                   std::array{1.0, 0.69, std::nan("")}}) {
        EXPECT_THROW(Surround(F, c, Nc), Error) << F << ' ' << c << ' ' << Nc;
    }
}

TEST(Ciecam16, TakesBlackForBlack) {
    const auto check = [](const auto& model) {
        const auto black = model.appearance(Xyz(0.0, 0.0, 0.0));
        EXPECT_EQ(black.J(), 0.0);
        EXPECT_EQ(black.C(), 0.0);
        EXPECT_EQ(black.h(), 0.0);
        EXPECT_EQ(black.s(), 0.0);
        EXPECT_EQ(black.Q(), 0.0);
        EXPECT_EQ(black.M(), 0.0);
        EXPECT_EQ(model.ucs(Xyz(0.0, 0.0, 0.0)).values(), (std::array<double, 3>{0.0, 0.0, 0.0}));
        EXPECT_EQ(model.tristimulus(attribute::Lightness{0.0}, attribute::Chroma{0.0},
                                    attribute::HueAngle{123.0}),
                  Xyz(0.0, 0.0, 0.0));
        EXPECT_EQ(model.tristimulus(attribute::Brightness{0.0}, attribute::Saturation{50.0},
                                    attribute::HueAngle{123.0}),
                  Xyz(0.0, 0.0, 0.0));
    };
    check(Ciecam16<O>(plain()));
    check(Cam16<O>(plain()));
}

// CIE 248:2022: no step where the straight lines begin, and no kink at the upper one.
TEST(Ciecam16, CompressesWithoutAStep) {
    const auto k = Ciecam16<O>(plain()).parameters();
    const auto f = [&](double q) { return detail::cam_compress<CamVersion::ciecam16>(q, k); };
    EXPECT_NEAR(f(0.26 - 1e-12), f(0.26), 1e-10);
    EXPECT_NEAR(f(150.0 + 1e-12), f(150.0), 1e-10);
    EXPECT_NEAR((f(150.0 + 1e-3) - f(150.0)) / 1e-3, (f(150.0) - f(150.0 - 1e-3)) / 1e-3, 1e-6);
    EXPECT_EQ(f(0.0), 0.0);
    EXPECT_DOUBLE_EQ(f(-0.1), -f(0.1));
    double before = f(-50.0);
    for (double q = -49.99; q < 1000.0; q += 0.01) {
        ASSERT_GT(f(q), before);
        before = f(q);
    }
    for (const double q : {-300.0, -1e-9, 0.0, 1e-9, 0.2, 0.26, 1.0, 100.0, 150.0, 1e3, 1e6}) {
        EXPECT_NEAR(detail::cam_expand<CamVersion::ciecam16>(f(q), k), q, 1e-13 * std::abs(q));
    }
    const auto g = [&](double q) { return detail::cam_compress<CamVersion::cam16>(q, k); };
    for (const double q : {-300.0, -1e-9, 0.0, 1e-9, 0.2, 0.26, 1.0, 100.0, 150.0, 1e3}) {
        EXPECT_NEAR(detail::cam_expand<CamVersion::cam16>(g(q), k), q, 1e-12 * std::abs(q));
    }
}

/// Whether all ways back give the light, to `bound` of the white.
template <CamVersion version>
void expect_round_trips(const AppearanceModel<O, version>& model, const std::array<double, 3>& xyz,
                        double bound) {
    namespace at = attribute;
    const auto a = model.appearance(light(xyz));
    const std::array<Xyz, 7> back = {
        model.tristimulus(at::Lightness{a.J()}, at::Chroma{a.C()}, at::HueAngle{a.h()}),
        model.tristimulus(at::Lightness{a.J()}, at::Colourfulness{a.M()},
                          at::HueAngle{a.h() - 720.0}),
        model.tristimulus(at::Lightness{a.J()}, at::Saturation{a.s()}, at::HueAngle{a.h()}),
        model.tristimulus(at::Brightness{a.Q()}, at::Chroma{a.C()}, at::HueComposition{a.H()}),
        model.tristimulus(at::Brightness{a.Q()}, at::Colourfulness{a.M()}, at::HueAngle{a.h()}),
        model.tristimulus(at::Brightness{a.Q()}, at::Saturation{a.s()}, at::HueComposition{a.H()}),
        model.tristimulus(model.ucs(light(xyz)))};
    for (const Xyz& t : back) {
        for (std::size_t k = 0; k < 3; ++k) {
            ASSERT_NEAR(t.values()[k], xyz[k], bound);
        }
    }
}

// Stated: 1e-11 of the white between black and white; the white has 100 here.
TEST(Ciecam16, GivesLightsBack) {
    for (const double adapting : {0.2, 40.0, 1000.0}) {
        const Ciecam16<O> model(plain(adapting));
        const Cam16<O> old(plain(adapting));
        for (const auto& xyz : display_colours(2000)) {
            expect_round_trips(model, xyz, 1e-9);
            expect_round_trips(old, xyz, 1e-9);
        }
        for (const auto& xyz : display_colours(500, 10.0)) {
            expect_round_trips(model, xyz, 1e-8);
        }
    }
}

// Stated: every real colour has attributes. All are sums of spectral lights, whose responses are not below 0 (but for one at 360 nm,
// by 1e-11), and sums keep that; so it is enough to ask the spectral ones.
TEST(Ciecam16, GivesEveryRealColourAttributes) {
    const Observer& observer = standard_observer<O>();
    const Matrix3 responses = response_from_xyz(AdaptationTransform::cat16);
    for (const double adapting : {0.2, 40.0, 1000.0}) {
        const Ciecam16<O> model(plain(adapting));
        const Cam16<O> old(plain(adapting));
        for (std::size_t i = 0; i < observer.row(0).size(); ++i) {
            const Xyz t(observer.row(0)[i], observer.row(1)[i], observer.row(2)[i]);
            for (const double response : detail::times(responses, t.values())) {
                EXPECT_GE(response, -2e-11) << i;
            }
            for (const double level : {1e-3, 1.0, 1e3, 1e6}) {
                EXPECT_NO_THROW(static_cast<void>(model.appearance(level * t))) << i;
                EXPECT_NO_THROW(static_cast<void>(old.ucs(level * t))) << i;
            }
        }
    }
}

// Outside the locus and below 0, where attributes exist: they do or the light is refused, and what has them comes back.
TEST(Ciecam16, GivesBackOrRefusesWhatLiesOutside) {
    const Ciecam16<O> model(plain());
    std::mt19937 random(42);
    std::uniform_real_distribution<double> any(-30.0, 130.0);
    int given = 0;
    int refused = 0;
    for (int i = 0; i < 20000; ++i) {
        const std::array<double, 3> xyz = {any(random), any(random), any(random)};
        const auto s = detail::cam_signals<CamVersion::ciecam16, double>(xyz, model.parameters());
        if (!std::isfinite(s.achromatic) || !std::isfinite(s.t_power)) {
            ++refused;
            EXPECT_THROW(static_cast<void>(model.appearance(light(xyz))), Error);
            EXPECT_THROW(static_cast<void>(model.ucs(light(xyz))), Error);
        } else if (s.achromatic > 1e-3 && s.t_power < 1e4) {
            ++given;
            expect_round_trips(model, xyz, 1e-7);
        }
    }
    EXPECT_GT(given, 8000);
    EXPECT_GT(refused, 2000);
    // Deep blue and yellow outside the locus, with a value below 0 each.
    expect_round_trips(model, {20.0, -0.5, 100.0}, 1e-8);
    expect_round_trips(model, {60.0, 80.0, -0.5}, 1e-8);
}

TEST(Ciecam16, ComposesHues) {
    // Unique hues: CIE 248:2022, table of h and H.
    EXPECT_NEAR(detail::cam_hue_composition(20.14), 0.0, 1e-12);
    EXPECT_NEAR(detail::cam_hue_composition(90.0), 100.0, 1e-12);
    EXPECT_NEAR(detail::cam_hue_composition(164.25), 200.0, 1e-12);
    EXPECT_NEAR(detail::cam_hue_composition(237.53), 300.0, 1e-12);
    EXPECT_NEAR(detail::cam_hue_composition(20.14 - 1e-9), 400.0, 1e-6);
    for (double h = 0.0; h < 360.0; h += 0.37) {
        const double H = detail::cam_hue_composition(h);
        EXPECT_GE(H, 0.0);
        EXPECT_LT(H, 400.0);
        EXPECT_NEAR(std::remainder(detail::cam_hue_angle(H) - h, 360.0), 0.0, 1e-10);
    }
    double before = -1.0;
    for (double h = 20.14; h < 380.14; h += 0.1) {
        const double H = detail::cam_hue_composition(h >= 360.0 ? h - 360.0 : h);
        EXPECT_GT(H, before);
        before = H;
    }
}

// Li et al. 2017: J' = 1.7 J / (1 + 0.007 J), M' = ln(1 + 0.0228 M) / 0.0228.
TEST(CamUcs, FollowsFromTheAttributes) {
    const Ciecam16<O> model(plain());
    for (const auto& xyz : display_colours(500)) {
        const auto a = model.appearance(light(xyz));
        const auto u = model.ucs(light(xyz));
        EXPECT_NEAR(u.J(), 1.7 * a.J() / (1.0 + 0.007 * a.J()), 1e-12);
        EXPECT_NEAR(std::hypot(u.a(), u.b()), std::log1p(0.0228 * a.M()) / 0.0228, 1e-11);
        if (a.M() > 0.1) {
            EXPECT_NEAR(detail::hue_degrees(u.a(), u.b()), a.h(), 1e-9);
        }
    }
}

TEST(CamUcs, KeepsPositionsAndOffsetsApart) {
    using Ucs = CamUcs<O, CamVersion::ciecam16>;
    const Ucs p(50.0, 3.0, 4.0);
    const Ucs q(48.0, 0.0, -2.0);
    EXPECT_DOUBLE_EQ((p - q).distance(), 7.0);  // 2, 3, 6
    EXPECT_EQ((p - p).distance(), 0.0);
    EXPECT_EQ(q + (p - q), p);
    EXPECT_EQ(2.0 * (p - q) + (q - p), p - q);
    EXPECT_THROW(Ucs(std::numeric_limits<double>::quiet_NaN(), 0.0, 0.0), Error);
    const Tristimulus<Any> white = Xyz(95.05, 100.0, 108.88);
    const Tristimulus<Any> white_10deg = Tristimulus<Cie1964_10deg>(94.81, 100.0, 107.32);
    const Ciecam16<Any> model({.white = white, .adapting_luminance_cd_m2 = 40.0});
    const Ciecam16<Any> model_10deg({.white = white_10deg, .adapting_luminance_cd_m2 = 40.0});
    EXPECT_EQ(model.ucs(white).observer_id(), O::id);
    EXPECT_THROW(static_cast<void>(model.appearance(white_10deg)), Error);
    EXPECT_THROW(static_cast<void>(model.ucs(white) - model_10deg.ucs(white_10deg)), Error);
    EXPECT_THROW(static_cast<void>(model.tristimulus(model_10deg.ucs(white_10deg))), Error);
}

std::string refusal(const ViewingConditions<O>& v) {
    try {
        static_cast<void>(Ciecam16<O>(v));
    } catch (const Error& e) {
        EXPECT_EQ(e.kind(), ErrorKind::domain);
        return e.what();
    }
    return "";
}

TEST(Ciecam16, RefusesConditionsThatAreNone) {
    ViewingConditions<O> v = plain();
    EXPECT_EQ(refusal(v), "");
    v.adapting_luminance_cd_m2 = 0.0;
    EXPECT_NE(refusal(v).find("adapting luminance 0"), std::string::npos);
    v = plain();
    v.background_percent = -1.0;
    EXPECT_NE(refusal(v).find("background -1"), std::string::npos);
    v = plain();
    v.white_percent = std::numeric_limits<double>::infinity();
    EXPECT_NE(refusal(v).find("white inf"), std::string::npos);
    v = plain();
    v.white = Xyz(95.0, 0.0, 108.0);
    EXPECT_NE(refusal(v), "");
    v.white = Xyz(1.0, 1.0, 100.0);  // R of CAT16 is below 0
    EXPECT_NE(refusal(v).find("response"), std::string::npos);
    EXPECT_THROW(Surround(1.1, 0.69, 1.0), Error);
    EXPECT_THROW(Surround(1.0, 0.0, 1.0), Error);
    EXPECT_THROW(Surround(1.0, 0.69, std::numeric_limits<double>::quiet_NaN()), Error);
    EXPECT_NO_THROW(Surround(0.0, 0.6, 0.9));
}

TEST(Ciecam16, RefusesColoursAndAttributesThatAreNone) {
    namespace at = attribute;
    const Ciecam16<O> model(plain());
    EXPECT_THROW(static_cast<void>(model.appearance(Xyz(0.0, 0.0, 100.0))), Error);   // A below 0
    EXPECT_THROW(static_cast<void>(model.appearance(Xyz(-1.0, -1.0, -1.0))), Error);  // A below 0
    EXPECT_THROW(static_cast<void>(model.appearance(Xyz(60.0, 70.0, -40.0))),
                 Error);  // denominator of t
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const double bad : {-1.0, nan, std::numeric_limits<double>::infinity()}) {
        EXPECT_THROW(static_cast<void>(
                         model.tristimulus(at::Lightness{bad}, at::Chroma{1}, at::HueAngle{0})),
                     Error);
        EXPECT_THROW(static_cast<void>(
                         model.tristimulus(at::Brightness{bad}, at::Chroma{1}, at::HueAngle{0})),
                     Error);
        EXPECT_THROW(static_cast<void>(
                         model.tristimulus(at::Lightness{50}, at::Chroma{bad}, at::HueAngle{0})),
                     Error);
        EXPECT_THROW(static_cast<void>(model.tristimulus(at::Lightness{50}, at::Colourfulness{bad},
                                                         at::HueAngle{0})),
                     Error);
        EXPECT_THROW(static_cast<void>(model.tristimulus(at::Lightness{50}, at::Saturation{bad},
                                                         at::HueAngle{0})),
                     Error);
    }
    EXPECT_THROW(
        static_cast<void>(model.tristimulus(at::Lightness{50}, at::Chroma{1}, at::HueAngle{nan})),
        Error);
    EXPECT_THROW(static_cast<void>(
                     model.tristimulus(at::Lightness{50}, at::Chroma{1}, at::HueComposition{401})),
                 Error);
    // Black with a chroma; a chroma that no light of this hue has; lighter than any J'.
    EXPECT_THROW(
        static_cast<void>(model.tristimulus(at::Lightness{0}, at::Chroma{1}, at::HueAngle{0})),
        Error);
    EXPECT_THROW(
        static_cast<void>(model.tristimulus(at::Lightness{50}, at::Chroma{1e6}, at::HueAngle{270})),
        Error);
    EXPECT_THROW(
        static_cast<void>(model.tristimulus(CamUcs<O, CamVersion::ciecam16>(243.0, 0.0, 0.0))),
        Error);
}

}  // namespace
}  // namespace samelight
