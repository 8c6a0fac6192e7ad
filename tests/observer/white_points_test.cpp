// White points of the CIE illuminants, for every standard observer, to the digits that are published or known.
#include <array>
#include <cmath>
#include <cstddef>
#include <string>

#include <gtest/gtest.h>

#include "numeric/check_rows.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/resample.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

using test::CheckRows;

// The summation of CIE 15's white points.
const Sampling by_five(380.0, 5.0, 81);

template <StandardObserver O>
void expect_published(const CheckRows& published, std::size_t row) {
    const std::string& name = published[row].text("illuminant");
    const Tristimulus<O> white = tristimulus<O>(cie_illuminant(name), by_five).scaled_to(100.0);
    EXPECT_NEAR(white.X(), published[row].number("X_pub"), 0.005) << name;
    EXPECT_NEAR(white.Y(), 100.0, 1e-12) << name;
    EXPECT_NEAR(white.Z(), published[row].number("Z_pub"), 0.005) << name;
    const Chromaticity<O> xy = chromaticity(white);
    EXPECT_NEAR(xy.x(), published[row].number("x_pub"), 5e-6) << name;
    EXPECT_NEAR(xy.y(), published[row].number("y_pub"), 5e-6) << name;
    const Uv1976<O> uv = uv1976(xy);
    EXPECT_NEAR(uv.u(), published[row].number("up_pub"), 5e-6) << name;
    EXPECT_NEAR(uv.v(), published[row].number("vp_pub"), 5e-6) << name;
}

TEST(WhitePoints, OfCie15ToEveryPrintedDigit) {
    // Source: CIE 15:2018 Table T.3, sums over 380-780 nm by 5 nm; see the table for what is from memory.
    const CheckRows published("checks/white_points.csv");
    EXPECT_EQ(published.size(), 12U);
    for (std::size_t row = 0; row < published.size(); ++row) {
        if (published[row].text("observer_deg") == "2") {
            expect_published<Cie1931_2deg>(published, row);
        } else {
            expect_published<Cie1964_10deg>(published, row);
        }
    }
}

TEST(WhitePoints, AnotherSummationGivesAnotherLastDigit) {
    // Source: ASTM E308 Table 5 (from memory), which is the sum over 360-830 nm by 1 nm. So the summation has to be said, and the
    // test above can tell: CIE 15 prints Z = 35.58 of a sum of 35.5825.
    const Sampling by_one(360.0, 1.0, 471);
    const auto two = tristimulus<Cie1931_2deg>(illuminant_a(by_one), by_one).scaled_to(100.0);
    EXPECT_NEAR(two.X(), 109.850, 5e-4);
    EXPECT_NEAR(two.Z(), 35.585, 5e-4);
    EXPECT_NEAR(tristimulus<Cie1931_2deg>(illuminant_a(), by_five).scaled_to(100.0).Z(), 35.5825,
                5e-5);
    const auto ten = tristimulus<Cie1964_10deg>(illuminant_a(by_one), by_one).scaled_to(100.0);
    EXPECT_NEAR(ten.X(), 111.144, 5e-4);
    EXPECT_NEAR(ten.Z(), 35.200, 5e-4);
}

TEST(WhitePoints, ThroughTheUsualSamplingTheySameComeOut) {
    // A light on 5 nm that enters the 1 nm sampling meets the observer at its own wavelengths only: the same sum.
    const auto light = d_illuminant(6500.0);
    const auto own = tristimulus<Cie1931_2deg>(light, by_five);
    const auto usual = tristimulus<Cie1931_2deg>(light);
    EXPECT_NEAR(usual.X(), own.X(), 1e-10 * own.X());
    EXPECT_NEAR(usual.Y(), own.Y(), 1e-10 * own.Y());
    EXPECT_NEAR(usual.Z(), own.Z(), 1e-10 * own.Z());
}

template <StandardObserver O>
void expect_equal_energy(const std::array<double, 3>& sums, double x, double y) {
    const Sampling whole(360.0, 1.0, 471);
    const Tristimulus<O> e = 0.01 * tristimulus<O>(illuminant_e(whole), whole);
    EXPECT_NEAR(e.X(), sums[0], 5e-9);
    EXPECT_NEAR(e.Y(), sums[1], 5e-9);
    EXPECT_NEAR(e.Z(), sums[2], 5e-9);
    EXPECT_NEAR(chromaticity(e).x(), x, 5e-9);
    EXPECT_NEAR(chromaticity(e).y(), y, 5e-9);
}

TEST(WhitePoints, OfEqualEnergyAreTheSumsOfTheTables) {
    // Second route: sums over 360-830 nm by 1 nm of copies of the tables of ISO/CIE 11664-1, eight decimals.
    expect_equal_energy<Cie1931_2deg>({106.86546949, 106.8569171, 106.89225128}, 0.33331438,
                                      0.33328771);
    expect_equal_energy<Cie1964_10deg>({116.64851951, 116.6618771, 116.67398051}, 0.33329636,
                                       0.33333453);
    // Source: CIE 170-2:2015: a third to five decimals (sums 113.0423 and 118.5181).
    const Sampling whole(390.0, 1.0, 441);
    const auto two = 0.01 * tristimulus<Cie2015_2deg>(illuminant_e(whole), whole);
    EXPECT_NEAR(two.Y(), 113.0423, 5e-5);
    EXPECT_NEAR(chromaticity(two).x(), 1.0 / 3.0, 5e-6);
    EXPECT_NEAR(chromaticity(two).y(), 1.0 / 3.0, 5e-6);
    const auto ten = 0.01 * tristimulus<Cie2015_10deg>(illuminant_e(whole), whole);
    EXPECT_NEAR(ten.Y(), 118.5181, 5e-5);
    EXPECT_NEAR(chromaticity(ten).x(), 1.0 / 3.0, 5e-6);
    EXPECT_NEAR(chromaticity(ten).y(), 1.0 / 3.0, 5e-6);
}

// Half a unit of the sixth decimal; and 1e-7 for the illuminants, which the other programs took from CIE 15's printed table and
// which are formulas here (A has six figures there: that moves the Judd-Vos x by 9e-8).
template <StandardObserver O>
void expect_xy(const Spectrum& light, const Sampling& grid, double x, double y, const char* name) {
    const auto c = chromaticity(tristimulus<O>(light, grid));
    EXPECT_NEAR(c.x(), x, 6e-7) << name;
    EXPECT_NEAR(c.y(), y, 6e-7) << name;
}

TEST(WhitePoints, Of2015ToSixDecimals) {
    struct Case {
        const char* name;
        double x2, y2, x10, y10;
    };
    // Second route: an independent program, from the illuminants of CIE 15:2018 Table T.1 by 5 nm, interpolated linearly to 1 nm,
    // and the tables of CIE 170-2:2015; sums over 390-780 nm; seven decimals.
    const Sampling by_one(390.0, 1.0, 391);
    for (const Case& c : {Case{"A", 0.4527436, 0.4087921, 0.4529133, 0.4051970},
                          Case{"D50", 0.3484822, 0.3608629, 0.3481684, 0.3595935},
                          Case{"D65", 0.3134519, 0.3308019, 0.3137859, 0.3312748},
                          Case{"D75", 0.2988367, 0.3163943, 0.2994837, 0.3178219}}) {
        const Spectrum light =
            resample(cie_illuminant(c.name), by_one, Interpolation::linear).spectrum;
        expect_xy<Cie2015_2deg>(light, by_one, c.x2, c.y2, c.name);
        expect_xy<Cie2015_10deg>(light, by_one, c.x10, c.y10, c.name);
    }
}

TEST(WhitePoints, Of2015AndIlluminantAOverTheWholeTable) {
    // Second route: another independent program, sums over 390-830 nm by 1 nm, six decimals. A alone is defined that far here.
    const Sampling by_one(390.0, 1.0, 441);
    const Spectrum a =
        resample(illuminant_a({390.0, 5.0, 89}), by_one, Interpolation::linear).spectrum;
    expect_xy<Cie2015_2deg>(a, by_one, 0.452745, 0.408791, "A");
    expect_xy<Cie2015_10deg>(a, by_one, 0.452915, 0.405196, "A");
}

TEST(WhitePoints, OfJuddVosToSixDecimals) {
    struct Case {
        const char* name;
        double x, y;
    };
    // Second route: an independent program, illuminants of CIE 15:2018 Table T.1 and the table of Vos 1978 (Color Res. Appl.
    // 3:125), sums over 380-780 nm by 5 nm, six decimals.
    for (const Case& c : {Case{"A", 0.449308, 0.412742}, Case{"C", 0.313731, 0.322915},
                          Case{"D50", 0.349204, 0.365615}, Case{"D65", 0.315992, 0.335036},
                          Case{"D75", 0.302171, 0.320276}, Case{"E", 0.334889, 0.336327}}) {
        expect_xy<JuddVos1978>(cie_illuminant(c.name), by_five, c.x, c.y, c.name);
    }
}

}  // namespace
}  // namespace samelight
