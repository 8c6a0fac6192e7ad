// CIECAM16 and CAM16: worked examples, and a second route as printed.
#include "samelight/colour/appearance/ciecam16.hpp"
#include "samelight/colour/appearance/ciecam16_viewing.hpp"

#include <array>
#include <cmath>
#include <numbers>
#include <string>

#include <gtest/gtest.h>

#include "accuracy/as_printed/ciecam16.hpp"
#include "colour/ciecam16_colours.hpp"
#include "numeric/check_rows.hpp"

namespace samelight {
namespace {

using test::cam::display_colours;
using test::cam::light;
using test::cam::O;
using test::cam::plain;
using test::cam::Xyz;

const std::string examples_file = "checks/ciecam16_examples.csv";

ViewingConditions<O> conditions(const test::CheckRow& row) {
    return {.white = Xyz(row.number("Xw"), row.number("Yw"), row.number("Zw")),
            .adapting_luminance_cd_m2 = row.number("LA"),
            .background_percent = row.number("Yb")};
}
template <CamVersion version>
void expect_example(const test::CheckRow& row) {
    const AppearanceModel<O, version> model(conditions(row));
    const Xyz t(row.number("X"), row.number("Y"), row.number("Z"));
    const auto got = model.appearance(t);
    const auto ucs = model.ucs(t);
    const auto meets = [&](double value, const char* name) {
        EXPECT_NEAR(value, row.number(name), 5.1e-9) << name << " of case " << row.text("case");
    };
    meets(got.J(), "J");
    meets(got.C(), "C");
    meets(got.h(), "h");
    meets(got.s(), "s");
    meets(got.Q(), "Q");
    meets(got.M(), "M");
    meets(got.H(), "H");
    meets(ucs.J(), "Jprime");
    meets(ucs.a(), "aprime");
    meets(ucs.b(), "bprime");
    const auto& p = model.parameters();
    meets(p.FL, "FL");
    meets(p.D, "D");
    meets(p.n, "n");
    meets(p.z, "z");
    meets(p.Nbb, "Nbb");
}

// Second route: inputs of published examples, 8 decimals computed from the formulas (see the file). H by the table of unique hues
// of CIECAM16; an older form of its last quarter would give 398.03 and 311.25 in cases 2 and 4.
TEST(Ciecam16, MeetsTheExamplesToEveryDigit) {
    const test::CheckRows rows(examples_file);
    EXPECT_EQ(rows.size(), 5U);
    for (const auto& row : rows) {
        expect_example<CamVersion::ciecam16>(row);
        expect_example<CamVersion::cam16>(row);
    }
}

// CIE 248:2022: the worked example with its 4 published decimals.
TEST(Ciecam16, MeetsThePublishedExample) {
    const Ciecam16<O> model({.white = Xyz(96.46, 100.0, 108.62),
                             .adapting_luminance_cd_m2 = 40.0,
                             .background_percent = 16.0});
    const auto got = model.appearance(Xyz(60.70, 49.60, 10.29));
    EXPECT_NEAR(got.J(), 70.4406, 5.1e-5);
    EXPECT_NEAR(got.C(), 58.6035, 5.1e-5);
    EXPECT_NEAR(got.h(), 57.9145, 5.1e-5);
    EXPECT_NEAR(got.s(), 54.5604, 5.1e-5);
    EXPECT_NEAR(got.Q(), 172.1555, 5.1e-5);
    EXPECT_NEAR(got.M(), 51.2479, 5.1e-5);
    EXPECT_NEAR(got.H(), 50.7425, 5.1e-5);
}

// Where the versions part. Second route: values from the tests of a general-purpose library, computed again from the formulas.
TEST(Ciecam16, PartsFromCam16FarOutside) {
    const auto v = plain(4.074366543152521);
    const Xyz t(61.45276998, 7.00421901, 82.2406738);
    const auto old = Cam16<O>(v).appearance(t);
    EXPECT_NEAR(old.J(), 21.03801957, 5.1e-9);
    EXPECT_NEAR(old.C(), 457.78881613, 5.1e-9);
    EXPECT_NEAR(old.h(), 350.06445098, 5.1e-9);
    const auto now = Ciecam16<O>(v).appearance(t);
    EXPECT_NEAR(now.J(), 2.21284261, 5.1e-9);
    EXPECT_NEAR(now.C(), 597.36632756, 5.1e-9);
    EXPECT_NEAR(now.h(), 352.03514376, 5.1e-9);
}

template <CamVersion version>
void expect_as_printed(const ViewingConditions<O>& v) {
    const AppearanceModel<O, version> model(v);
    for (const auto& xyz : display_colours(500, 3.0)) {
        if (xyz[1] == 0.0) {
            continue;  // the hue of black is nothing to compare
        }
        const auto want = test::cam::as_printed(v, xyz, version == CamVersion::ciecam16);
        const auto got = model.appearance(light(xyz));
        const auto ucs = model.ucs(light(xyz));
        const std::array<double, 9> values = {got.J(), got.C(), got.h(), got.s(), got.Q(),
                                              got.M(), ucs.J(), ucs.a(), ucs.b()};
        for (std::size_t k = 0; k < values.size(); ++k) {
            if (k == 2 && got.C() < 1e-9) {
                continue;  // grey
            }
            const double to_grey = k == 2 ? got.C() : k == 3 ? got.s() : 10.0;
            const double slack =
                k == 3 && got.s() < 1e-3 ? 2e-5 : 1e-11 * std::fmax(1.0, 10.0 / to_grey);
            ASSERT_NEAR(values[k], static_cast<double>(want[k]), slack) << "attribute " << k;
        }
    }
}

// Stated: 1e-11; of h and s near grey 10/C and 10/s times that; at grey itself 2e-5 of s, and h is anything. Second route: the
// formulas as printed, in long double, under many conditions.
TEST(Ciecam16, KeepsItsStatedError) {
    for (const auto& surround : {Surround::average(), Surround::dim(), Surround::dark()}) {
        for (const double adapting : {0.2, 4.0, 40.0, 1000.0}) {
            for (const auto discounting : {Discounting::by_formula, Discounting::complete}) {
                ViewingConditions<O> v = plain(adapting);
                v.surround = surround;
                v.discounting = discounting;
                v.background_percent = adapting == 4.0 ? 5.0 : 20.0;
                expect_as_printed<CamVersion::ciecam16>(v);
                expect_as_printed<CamVersion::cam16>(v);
            }
        }
    }
}

// Table of CIE 248:2022 (and of Li et al. 2017), from memory.
TEST(Ciecam16, KnowsTheSurrounds) {
    EXPECT_EQ(Surround::average(), Surround(1.0, 0.69, 1.0));
    EXPECT_EQ(Surround::dim(), Surround(0.9, 0.59, 0.9));
    EXPECT_EQ(Surround::dark(), Surround(0.8, 0.525, 0.8));
}

TEST(Ciecam16, DoesNotDependOnTheUnit) {
    // A display of 203 cd/m2, its colours in cd/m2.
    ViewingConditions<O> v = plain();
    v.white = 2.03 * v.white;
    const Ciecam16<O> in_cd_m2(v);
    const Ciecam16<O> in_percent(plain());
    for (const auto& xyz : display_colours(300)) {
        const auto a = in_cd_m2.appearance(2.03 * light(xyz));
        const auto b = in_percent.appearance(light(xyz));
        EXPECT_NEAR(a.J(), b.J(), 1e-11);
        EXPECT_NEAR(a.M(), b.M(), 1e-10);
    }
    // A paper white of 85 %: the same as giving white and colours on that scale.
    const ViewingConditions<O> paper = {
        .white = Xyz(80.0, 85.0, 90.0), .adapting_luminance_cd_m2 = 40.0, .white_percent = 85.0};
    EXPECT_NEAR(Ciecam16<O>(paper).appearance(Xyz(20.0, 21.0, 15.0)).C(),
                static_cast<double>(test::cam::as_printed(paper, {20.0, 21.0, 15.0}, true)[1]),
                1e-11);
}

}  // namespace
}  // namespace samelight
