// RGB encodings: published matrices, round trips, and what is refused.
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <string>

#include <gtest/gtest.h>

#include "numeric/check_rows.hpp"

namespace samelight {
namespace {

template <class E>
class RgbOf : public testing::Test {};
using Encodings = testing::Types<Bt709, Bt2020, P3D65, P3Cinema, SmpteC, Ebu3213, Ntsc1953>;
TYPED_TEST_SUITE(RgbOf, Encodings);

void expect_matrix(const test::CheckRow& row, const char* prefix, const Matrix3& m) {
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t k = 0; k < 3; ++k) {
            const std::string column = prefix + std::to_string(i + 1) + std::to_string(k + 1);
            EXPECT_NEAR(m[i][k], row.number(column), 0.51e-10) << row.text("space") << column;
        }
    }
}

// SMPTE RP 177:1993, with each standard's printed primaries: to the ten decimals of the table.
TYPED_TEST(RgbOf, HasItsPublishedMatrices) {
    const test::CheckRows rows("checks/rgb_npm.csv");
    int met = 0;
    for (const auto& row : rows) {
        if (row.text("space") == TypeParam::id) {
            ++met;
            expect_matrix(row, "M", xyz_from_rgb<TypeParam>);
            expect_matrix(row, "Minv", rgb_from_xyz<TypeParam>);
        }
    }
    EXPECT_EQ(met, 1);
}

TYPED_TEST(RgbOf, ShowsItsWhiteAndItsPrimaries) {
    const auto expect_xy = [](const LinearRgb<TypeParam>& c, const std::array<double, 2>& xy) {
        const auto got = chromaticity(tristimulus(c));
        EXPECT_NEAR(got.x(), xy[0], 1e-15);
        EXPECT_NEAR(got.y(), xy[1], 1e-15);
    };
    expect_xy({1.0, 1.0, 1.0}, TypeParam::primaries.white);
    expect_xy({1.0, 0.0, 0.0}, TypeParam::primaries.red);
    expect_xy({0.0, 1.0, 0.0}, TypeParam::primaries.green);
    expect_xy({0.0, 0.0, 1.0}, TypeParam::primaries.blue);
    EXPECT_NEAR(tristimulus(LinearRgb<TypeParam>(1.0, 1.0, 1.0)).Y(), 1.0, 1e-15);
}

// Stated: 1e-14 of the largest value, colours outside the triangle and black included.
TYPED_TEST(RgbOf, GivesEveryValueBack) {
    std::mt19937 random(20);
    std::uniform_real_distribution<double> any(-1.0, 2.0);
    for (int i = 0; i < 20000; ++i) {
        const double scale = std::pow(10.0, i % 9 - 4);
        const LinearRgb<TypeParam> c(scale * any(random), scale * any(random), scale * any(random));
        const auto back = linear_rgb<TypeParam>(tristimulus(c));
        for (std::size_t k = 0; k < 3; ++k) {
            ASSERT_NEAR(back.values()[k], c.values()[k], 2.0 * scale * 1e-14);
        }
    }
    const LinearRgb<TypeParam> black(0.0, 0.0, 0.0);
    EXPECT_EQ(linear_rgb<TypeParam>(tristimulus(black)), black);
}

TYPED_TEST(RgbOf, IsTheSameAtRunTime) {
    const RgbEncoding encoding = RgbEncoding::of<TypeParam>();
    // The compiler's own arithmetic and the processor's differ where products and sums are fused: a few roundings of
    // numbers up to 10.
    constexpr double roundings = 1e-14;
    for (std::size_t i = 0; i < 3; ++i) {
        for (std::size_t j = 0; j < 3; ++j) {
            EXPECT_NEAR(encoding.xyz_from_rgb()[i][j], xyz_from_rgb<TypeParam>[i][j], roundings);
            EXPECT_NEAR(encoding.rgb_from_xyz()[i][j], rgb_from_xyz<TypeParam>[i][j], roundings);
        }
    }
    EXPECT_EQ(encoding.title(), TypeParam::title);
    const LinearRgb<TypeParam> c(0.2, 0.7, -0.1);
    const auto xyz = tristimulus(c);
    EXPECT_NEAR(encoding.tristimulus(c.values()).X(), xyz.X(), roundings);
    EXPECT_NEAR(encoding.tristimulus(c.values()).Y(), xyz.Y(), roundings);
    EXPECT_NEAR(encoding.tristimulus(c.values()).Z(), xyz.Z(), roundings);
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_NEAR(encoding.linear_rgb(xyz)[i], linear_rgb<TypeParam>(xyz).values()[i], roundings);
    }
}

TYPED_TEST(RgbOf, RefusesWhatIsNotFinite) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_THROW(LinearRgb<TypeParam>(nan, 0.0, 0.0), Error);
    EXPECT_THROW(LinearRgb<TypeParam>(0.0, std::numeric_limits<double>::infinity(), 0.0), Error);
}

using Xy = Chromaticity<Cie1931_2deg>;

// SMPTE RP 177:1993, with primaries of no standard: their light must add to the white.
TEST(RgbEncoding, MakesAnyPrimariesAddToAnyWhite) {
    const Xy white(0.28, 0.30);
    const RgbEncoding e("a panel", {Xy(0.66, 0.32), Xy(0.25, 0.66), Xy(0.15, 0.05), white});
    const auto sum = e.tristimulus({1, 0, 0}) + e.tristimulus({0, 1, 0}) + e.tristimulus({0, 0, 1});
    EXPECT_NEAR(sum.Y(), 1.0, 1e-15);
    EXPECT_NEAR(chromaticity(sum).x(), white.x(), 1e-15);
    EXPECT_NEAR(chromaticity(sum).y(), white.y(), 1e-15);
}

template <class Make>
void expect_refused(ErrorKind kind, const Make& make) {
    try {
        make();
        FAIL() << "not refused";
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), kind) << error.what();
        EXPECT_NE(std::string(error.what()).find("a panel"), std::string::npos);
    }
}

TEST(RgbEncoding, RefusesPrimariesOnOneLineAndAWhiteOutside) {
    const Xy r(0.64, 0.33);
    const Xy g(0.30, 0.60);
    const Xy b(0.15, 0.06);
    const Xy d65(0.3127, 0.3290);
    expect_refused(ErrorKind::singular, [&] { RgbEncoding("a panel", {r, g, r, d65}); });
    expect_refused(ErrorKind::singular, [&] {
        RgbEncoding("a panel", {Xy(0.1, 0.1), Xy(0.2, 0.2), Xy(0.4, 0.4), d65});
    });
    expect_refused(ErrorKind::domain, [&] { RgbEncoding("a panel", {r, g, b, Xy(0.7, 0.3)}); });
    expect_refused(ErrorKind::domain, [&] { RgbEncoding("a panel", {r, g, b, Xy(0.3, 0.0)}); });
    EXPECT_NO_THROW(RgbEncoding("a panel", {r, g, b, d65}));
    EXPECT_NO_THROW(RgbEncoding("a panel", {b, r, g, d65}));  // either sense of rotation
}

}  // namespace
}  // namespace samelight
