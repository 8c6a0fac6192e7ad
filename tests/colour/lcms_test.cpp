// Second route: CIELAB and colour differences beside Little CMS, a general-purpose library, over random colours.
#if defined(SAMELIGHT_TEST_HAS_LCMS2) && __has_include(<lcms2.h>)

#include <array>
#include <cmath>
#include <random>

#include <gtest/gtest.h>
#include <lcms2.h>

#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/differences/difference_batch.hpp"
#include "samelight/colour/differences/difference_formulas.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight {
namespace {

using Xyz = Tristimulus<Cie1931_2deg>;
using Colour = Lab<Cie1931_2deg>;

const cmsCIEXYZ lcms_white = {95.04, 100.0, 108.88};
Xyz white() { return {lcms_white.X, lcms_white.Y, lcms_white.Z}; }

class BesideLittleCms : public testing::Test {
  protected:
    /// A random colour, every fifth near grey.
    cmsCIELab colour() {
        const double shrink = ++count_ % 5 == 0 ? 0.01 : 1.0;
        return {lightness_(random_), shrink * plane_(random_), shrink * plane_(random_)};
    }
    /// One close to it, or, every other time, another.
    cmsCIELab partner(const cmsCIELab& of) {
        if (++count_ % 2 == 0) {
            return colour();
        }
        return {std::abs(of.L + step_(random_)), of.a + step_(random_), of.b + step_(random_)};
    }
    double ratio() { return ratio_(random_); }
    static Colour ours(const cmsCIELab& c) { return {c.L, c.a, c.b, white()}; }

  private:
    std::mt19937 random_{91};
    std::uniform_real_distribution<double> lightness_{0.01, 100.0};
    std::uniform_real_distribution<double> plane_{-120.0, 120.0};
    std::uniform_real_distribution<double> ratio_{0.0, 1.2};
    std::normal_distribution<double> step_{0.0, 2.0};
    int count_ = 0;
};

TEST_F(BesideLittleCms, Lab) {
    for (int i = 0; i < 20000; ++i) {
        const double dark = i % 3 == 0 ? 0.01 : 1.0;  // below the join as well
        const cmsCIEXYZ xyz = {dark * ratio() * lcms_white.X, dark * ratio() * lcms_white.Y,
                               dark * ratio() * lcms_white.Z};
        cmsCIELab want;
        cmsXYZ2Lab(&lcms_white, &want, &xyz);
        const Colour got = lab(Xyz(xyz.X, xyz.Y, xyz.Z), white());
        ASSERT_NEAR(got.L(), want.L, 1e-12);
        ASSERT_NEAR(got.a(), want.a, 1e-12);
        ASSERT_NEAR(got.b(), want.b, 1e-12);
        cmsCIEXYZ back;
        cmsLab2XYZ(&lcms_white, &back, &want);
        const auto light = tristimulus(Colour(want.L, want.a, want.b, white()));
        ASSERT_NEAR(light.X(), back.X, 1e-12);
        ASSERT_NEAR(light.Y(), back.Y, 1e-12);
        ASSERT_NEAR(light.Z(), back.Z, 1e-12);
    }
}

TEST_F(BesideLittleCms, ChromaAndHue) {
    for (int i = 0; i < 5000; ++i) {
        const cmsCIELab c = colour();
        cmsCIELCh want;
        cmsLab2LCh(&want, &c);
        ASSERT_NEAR(ours(c).chroma(), want.C, 1e-12);
        ASSERT_NEAR(ours(c).hue_deg(), want.h, 1e-12);
    }
}

TEST_F(BesideLittleCms, DifferenceOf1976) {
    for (int i = 0; i < 20000; ++i) {
        const cmsCIELab p = colour();
        const cmsCIELab q = partner(p);
        ASSERT_NEAR(delta_e_ab(ours(p), ours(q)), cmsDeltaE(&p, &q), 1e-12);
    }
}

// Pairs whose hues lie within 1e-6 degrees of opposite are left out: there the formula jumps.
TEST_F(BesideLittleCms, Ciede2000) {
    int compared = 0;
    for (int i = 0; i < 20000; ++i) {
        const cmsCIELab p = colour();
        const cmsCIELab q = partner(p);
        const auto t = detail::ciede2000_terms(detail::LabOf<double>{p.L, p.a, p.b},
                                               detail::LabOf<double>{q.L, q.a, q.b});
        if (std::abs(std::abs(t.h1 - t.h2) - 180.0) < 1e-6) {
            continue;
        }
        ++compared;
        ASSERT_NEAR(delta_e_2000(ours(p), ours(q)), cmsCIE2000DeltaE(&p, &q, 1.0, 1.0, 1.0), 1e-11);
        ASSERT_NEAR(delta_e_2000(ours(p), ours(q), {2.0, 0.7, 1.3}),
                    cmsCIE2000DeltaE(&p, &q, 2.0, 0.7, 1.3), 1e-11);
    }
    EXPECT_GT(compared, 19900);
}

TEST_F(BesideLittleCms, Cmc) {
    for (int i = 0; i < 20000; ++i) {
        const cmsCIELab p = colour();
        const cmsCIELab q = partner(p);
        ASSERT_NEAR(delta_e_cmc(ours(p), ours(q)), cmsCMCdeltaE(&p, &q, 2.0, 1.0), 1e-10);
        ASSERT_NEAR(delta_e_cmc(ours(p), ours(q), {1.0, 1.0}), cmsCMCdeltaE(&p, &q, 1.0, 1.0),
                    1e-10);
    }
}

// Little CMS weighs by the geometric mean of both chromas, with the constants for textiles and kL = 1: the same as the standard's
// form where the two chromas are equal.
TEST_F(BesideLittleCms, Cie94OfEqualChromas) {
    const Cie94Weights weights = {1.0, 1.0, 1.0, 0.048, 0.014};
    for (int i = 0; i < 5000; ++i) {
        const cmsCIELab p = colour();
        const double turn = ratio();
        const cmsCIELab q = {colour().L, p.a * std::cos(turn) - p.b * std::sin(turn),
                             p.a * std::sin(turn) + p.b * std::cos(turn)};
        ASSERT_NEAR(delta_e_94(ours(p), ours(q), weights), cmsCIE94DeltaE(&p, &q), 1e-10);
    }
}

}  // namespace
}  // namespace samelight

#endif
