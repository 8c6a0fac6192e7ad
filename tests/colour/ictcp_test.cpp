// ICtCp and its colour difference: published values, a second route, round trips to the stated bounds, and batches.
#include "samelight/colour/spaces/ictcp.hpp"
#include "samelight/colour/luminance.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/colour/signals/transfer_hlg.hpp"
#include "samelight/colour/signals/transfer_pq.hpp"
#include "samelight/colour/spaces/ictcp_batch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <vector>

#include <gtest/gtest.h>

#include "colour/batch_columns.hpp"
#include "numeric/check_rows.hpp"

namespace samelight {
namespace {

using Rgb = LinearRgb<Bt2020>;
using Xyz = Tristimulus<Cie1931_2deg>;

Rgb rgb(const std::array<double, 3>& v) { return {v[0], v[1], v[2]}; }

/// Linear BT.2020 light from 1e-4 of `peak` up to it and a little outside the triangle; black, white and the primaries first.
std::vector<std::array<double, 3>> lights(double peak, int count) {
    std::mt19937 random(41);
    std::uniform_real_distribution<double> any(-0.01, 1.0);
    std::uniform_real_distribution<double> exponent(-4.0, 0.0);
    std::vector<std::array<double, 3>> result = {
        {0.0, 0.0, 0.0}, {peak, peak, peak}, {peak, 0.0, 0.0}, {0.0, peak, 0.0}, {0.0, 0.0, peak}};
    while (result.size() < static_cast<std::size_t>(count)) {
        const double scale = peak * std::pow(10.0, exponent(random));
        result.push_back({scale * any(random), scale * any(random), scale * any(random)});
    }
    return result;
}

// ITU-R BT.2100-2, Table 7 (PQ): to the twelve decimals of the table.
TEST(Ictcp, MeetsThePublishedFormulasValues) {
    const test::CheckRows rows("checks/ictcp.csv");
    for (const auto& row : rows) {
        const auto got =
            ictcp<PqIctcp>(Rgb(row.number("R_cd_m2"), row.number("G"), row.number("B")));
        EXPECT_NEAR(got.I(), row.number("I"), 0.51e-12) << row.text("case");
        EXPECT_NEAR(got.Ct(), row.number("Ct"), 0.51e-12) << row.text("case");
        EXPECT_NEAR(got.Cp(), row.number("Cp"), 0.51e-12) << row.text("case");
    }
    EXPECT_EQ(rows.size(), 13U);
    // One more by the same table, to eight decimals.
    const auto c = ictcp<PqIctcp>(Rgb(0.45620519, 0.03081071, 0.04091952));
    EXPECT_NEAR(c.I(), 0.07351364, 0.51e-8);
    EXPECT_NEAR(c.Ct(), 0.00475253, 0.51e-8);
    EXPECT_NEAR(c.Cp(), 0.09351596, 0.51e-8);
}

// ITU-R BT.2100-2, Table 7: the rows of its matrices sum to 4096 (L, M, S and I) and to 0 (CT, CP), so that grey has the signal of
// its luminance for I and no CT, CP; with HLG as with PQ. Errors as stated, 1e-13.
TEST(Ictcp, TakesGreyToItsSignalAlone) {
    for (const double l : {0.0, 1e-3, 0.18, 1.0, 100.0, 10000.0}) {
        const auto c = ictcp<PqIctcp>(Rgb(l, l, l));
        EXPECT_NEAR(c.I(), Pq::signal(Luminance(l)).value(), 1e-13);
        EXPECT_NEAR(c.Ct(), 0.0, 1e-13);
        EXPECT_NEAR(c.Cp(), 0.0, 1e-13);
    }
    for (const double e : {0.0, 1e-3, 1.0 / 12.0, 0.18, 1.0}) {
        const auto c = ictcp<HlgIctcp>(Rgb(e, e, e));
        EXPECT_NEAR(c.I(), HlgScene::signal(LinearLight(e)).value(), 1e-13);
        EXPECT_NEAR(c.Ct(), 0.0, 1e-13);
        EXPECT_NEAR(c.Cp(), 0.0, 1e-13);
    }
}

// ITU-R BT.2100-2, Table 7 (HLG): written out for one colour, from its whole numbers and the OETF of Table 5, in long double.
TEST(Ictcp, OfHlgMeetsItsTableWrittenOut) {
    const std::array<long double, 3> e = {0.7L, 0.2L, 0.05L};
    const auto oetf = [](long double x) {
        constexpr long double a = 0.17883277L;
        return x <= 1.0L / 12.0L
                   ? std::sqrt(3.0L * x)
                   : a * std::log(12.0L * x - (1.0L - 4.0L * a)) + 0.5L - a * std::log(4.0L * a);
    };
    const long double l = oetf((1688 * e[0] + 2146 * e[1] + 262 * e[2]) / 4096);
    const long double m = oetf((683 * e[0] + 2951 * e[1] + 462 * e[2]) / 4096);
    const long double s = oetf((99 * e[0] + 309 * e[1] + 3688 * e[2]) / 4096);
    const auto got = ictcp<HlgIctcp>(Rgb(0.7, 0.2, 0.05));
    EXPECT_NEAR(got.I(), static_cast<double>((l + m) / 2), 1e-14);
    EXPECT_NEAR(got.Ct(), static_cast<double>((3625 * l - 7465 * m + 3840 * s) / 4096), 1e-14);
    EXPECT_NEAR(got.Cp(), static_cast<double>((9500 * l - 9212 * m - 288 * s) / 4096), 1e-14);
}

// Second route: a general-purpose colour library from npm (tests/second_route/colours.mjs), which goes from X, Y, Z to L, M, S by a
// matrix of its own with 16 decimals.
TEST(Ictcp, AgreesWithAnotherLibrary) {
    const test::CheckRows rows("second_route_colours.csv");
    std::vector<Xyz> all;
    for (const auto& row : rows) {
        all.emplace_back(row.number("X"), row.number("Y"), row.number("Z"));
    }
    std::size_t i = 0;
    for (const auto& row : rows) {
        const auto got = ictcp<PqIctcp>(linear_rgb<Bt2020>(all[i]));
        EXPECT_NEAR(got.I(), row.number("I"), 1e-13);
        EXPECT_NEAR(got.Ct(), row.number("Ct"), 1e-13);
        EXPECT_NEAR(got.Cp(), row.number("Cp"), 1e-13);
        const Xyz& before = all[(i + all.size() - 1) % all.size()];
        EXPECT_NEAR(delta_e_itp(all[i], before), row.number("dE_ITP"), 1e-10);
        ++i;
    }
    EXPECT_EQ(i, 22U);
}

// ---- The colour difference ------------------------------------------------------------------------

// ITU-R BT.2124-0: X, Y, Z in cd/m2 to dE_ITP. The table's X, Y, Z have ten decimals, which leaves up to 2e-7 in its darkest rows.
TEST(DeltaEItp, MeetsThePublishedFormulasValues) {
    const test::CheckRows rows("checks/delta_e_itp.csv");
    for (const auto& row : rows) {
        const Xyz a(row.number("X1"), row.number("Y1"), row.number("Z1"));
        const Xyz b(row.number("X2"), row.number("Y2"), row.number("Z2"));
        EXPECT_NEAR(delta_e_itp(a, b), row.number("dE_ITP"), 2e-7) << row.text("change");
    }
    EXPECT_EQ(rows.size(), 30U);
    // One more pair, in ICtCp (the formula of BT.2124-0; that the pair itself stands there is not confirmed). Its coordinates are
    // printed to 1e-10, half of which in each weighs up to 6e-8.
    const Ictcp<PqIctcp> a(0.4885468072, -0.04739350675, 0.07475401302);
    const Ictcp<PqIctcp> b(0.4899203231, -0.04567508203, 0.07361341775);
    EXPECT_NEAR(delta_e_itp(a, b), 1.426572247, 6e-8);
}

// ITU-R BT.2124-0: 720 a unit of I and of CP, 360 one of CT.
TEST(DeltaEItp, WeighsItsThreeAxes) {
    const Ictcp<PqIctcp> grey(0.5, 0.0, 0.0);
    EXPECT_NEAR(delta_e_itp(grey, Ictcp<PqIctcp>(0.51, 0.0, 0.0)), 7.2, 1e-13);
    EXPECT_NEAR(delta_e_itp(grey, Ictcp<PqIctcp>(0.5, 0.01, 0.0)), 3.6, 1e-13);
    EXPECT_NEAR(delta_e_itp(grey, Ictcp<PqIctcp>(0.5, 0.0, -0.01)), 7.2, 1e-13);
}

TEST(DeltaEItp, IsADistance) {
    const auto all = lights(1000.0, 60);
    for (const auto& a : all) {
        EXPECT_EQ(delta_e_itp(rgb(a), rgb(a)), 0.0);
        for (const auto& b : all) {
            const double d = delta_e_itp(rgb(a), rgb(b));
            EXPECT_EQ(d, delta_e_itp(rgb(b), rgb(a)));
            EXPECT_GE(d, 0.0);
            for (const auto& c : {all[0], all[1], all[7]}) {
                EXPECT_LE(d, delta_e_itp(rgb(a), rgb(c)) + delta_e_itp(rgb(c), rgb(b)) + 1e-10);
            }
        }
    }
}

TEST(DeltaEItp, ComesFromTheDifferenceOfTwoColours) {
    const Ictcp<PqIctcp> a(0.5, 0.02, -0.03);
    const Ictcp<PqIctcp> b(0.4, 0.01, 0.04);
    const IctcpOffset<PqIctcp> d = a - b;
    EXPECT_NEAR(delta_e_itp(a, b), 720.0 * std::hypot(d.dI, 0.5 * d.dCt, d.dCp), 1e-12);
    EXPECT_EQ(a - a, (IctcpOffset<PqIctcp>{0.0, 0.0, 0.0}));
}

// ---- There and back -------------------------------------------------------------------------------

// Stated: PQ 1e-12 of the largest of R, G, B.
TEST(Ictcp, GivesDisplayLightBack) {
    for (const auto& v : lights(10000.0, 20000)) {
        const Rgb back = linear_bt2020(ictcp<PqIctcp>(rgb(v)));
        for (std::size_t k = 0; k < 3; ++k) {
            ASSERT_NEAR(back.values()[k], v[k], 1e-12 * test::largest_of(v) + 1e-20);
        }
    }
}

// Stated: HLG 1e-13 of the largest.
TEST(Ictcp, GivesSceneLightBack) {
    for (const auto& v : lights(1.0, 20000)) {
        const Rgb back = linear_bt2020(ictcp<HlgIctcp>(rgb(v)));
        for (std::size_t k = 0; k < 3; ++k) {
            ASSERT_NEAR(back.values()[k], v[k], 1e-13 * test::largest_of(v));
        }
    }
}

// Light whose L, M or S lies below 0: noise about black, a colour far outside BT.2020. The odd transfer functions carry it.
TEST(Ictcp, GivesBackWhatLiesFarOutside) {
    const std::array<std::array<double, 3>, 4> far = {
        {{-1e-3, 2e-3, -1e-3}, {-5e-3, -5e-3, -5e-3}, {-100.0, 50.0, 3.0}, {10.0, -30.0, 400.0}}};
    for (const auto& v : far) {
        const Rgb pq = linear_bt2020(ictcp<PqIctcp>(rgb(v)));
        const Rgb hlg = linear_bt2020(ictcp<HlgIctcp>(0.01 * rgb(v)));
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(pq.values()[k], v[k], 1e-12 * test::largest_of(v));
            EXPECT_NEAR(hlg.values()[k], 0.01 * v[k], 1e-13 * test::largest_of(v));
        }
    }
    EXPECT_LT(ictcp<PqIctcp>(Rgb(-1e-3, -1e-3, -1e-3)).I(), 0.0);
}

TEST(Ictcp, GivesItsMatricesBack) {
    for (const Matrix3& m : {detail::lms_from_bt2020, detail::ictcp_from_signals<PqIctcp>(),
                             detail::ictcp_from_signals<HlgIctcp>()}) {
        const Matrix3 identity = detail::product(m, detail::inverse(m));
        for (std::size_t i = 0; i < 3; ++i) {
            for (std::size_t k = 0; k < 3; ++k) {
                EXPECT_NEAR(identity[i][k], i == k ? 1.0 : 0.0, 1e-15);
            }
        }
    }
}

TEST(Ictcp, RefusesWhatThePerceptualQuantiserDoesNotReach) {
    EXPECT_THROW(ictcp<PqIctcp>(Rgb(3e4, 3e4, 3e4)), Error);
    EXPECT_NO_THROW(ictcp<PqIctcp>(Rgb(2e4, 2e4, 2e4)));
    EXPECT_THROW(linear_bt2020(Ictcp<PqIctcp>(1.2, 0.0, 0.0)), Error);
    EXPECT_THROW(linear_bt2020(Ictcp<PqIctcp>(0.5, 3.0, 0.0)), Error);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_THROW(Ictcp<PqIctcp>(nan, 0.0, 0.0), Error);
    EXPECT_THROW(Ictcp<HlgIctcp>(0.0, 0.0, std::numeric_limits<double>::infinity()), Error);
}

// ---- Batches --------------------------------------------------------------------------------------

template <class T>
class IctcpBatch : public testing::Test {
  protected:
    static constexpr bool is_float = std::is_same_v<T, float>;

    /// Stated: forward 1e-14 and 2e-6; back, of the largest + `dark`, 5e-14 and 2e-5.
    template <class Kind>
    static void expect_scalar(double peak, double dark) {
        test::OwnedColumns3<T> in(lights(peak, 2003));
        test::OwnedColumns3<T> out(in.size());
        test::OwnedColumns3<T> back(in.size());
        ictcp_from_bt2020<Kind>(in.span(), out.span());
        bt2020_from_ictcp<Kind>(out.span(), back.span());
        double worst_forward = 0.0;
        double worst_back = 0.0;
        for (std::size_t i = 0; i < in.size(); ++i) {
            const auto wanted = ictcp<Kind>(rgb(in.row(i))).values();
            const auto got = out.row(i);
            const auto light = linear_bt2020(Ictcp<Kind>(got[0], got[1], got[2])).values();
            for (std::size_t k = 0; k < 3; ++k) {
                ASSERT_FALSE(std::isnan(got[k]) || std::isnan(back.row(i)[k]));
                worst_forward = std::max(worst_forward, std::abs(got[k] - wanted[k]));
                worst_back = std::max(worst_back, std::abs(back.row(i)[k] - light[k]) /
                                                      (test::largest_of(light) + dark));
            }
        }
        EXPECT_LT(worst_forward, is_float ? 2e-6 : 1e-14);
        EXPECT_LT(worst_back, is_float ? 2e-5 : 5e-14);
    }

    template <class Kind>
    static void expect_nan_laws() {
        constexpr T nan = std::numeric_limits<T>::quiet_NaN();
        for (std::size_t k = 0; k < 3; ++k) {
            test::OwnedColumns3<T> in(lights(1.0, 37));
            in.set(3, k, nan);
            in.set(36, k, nan);
            test::OwnedColumns3<T> out(in.size());
            test::OwnedColumns3<T> back(in.size());
            ictcp_from_bt2020<Kind>(in.span(), out.span());
            bt2020_from_ictcp<Kind>(out.span(), back.span());
            for (std::size_t i = 0; i < in.size(); ++i) {
                EXPECT_EQ(test::any_nan(out.row(i)), i == 3 || i == 36);
                EXPECT_EQ(test::any_nan(back.row(i)), i == 3 || i == 36);
            }
        }
    }
};
using Numbers = testing::Types<float, double>;
TYPED_TEST_SUITE(IctcpBatch, Numbers);

TYPED_TEST(IctcpBatch, AgreesWithTheScalarFunctions) {
    this->template expect_scalar<PqIctcp>(10000.0, 1.0);
    this->template expect_scalar<HlgIctcp>(1.0, 0.01);
}

TYPED_TEST(IctcpBatch, GivesNanForNanOnly) {
    this->template expect_nan_laws<PqIctcp>();
    this->template expect_nan_laws<HlgIctcp>();
}

TYPED_TEST(IctcpBatch, GivesNanWhereTheScalarThrows) {
    test::OwnedColumns3<TypeParam> in({{3e4, 3e4, 3e4}, {1.0, 1.0, 1.0}});
    test::OwnedColumns3<TypeParam> out(2);
    ictcp_from_bt2020<PqIctcp>(in.span(), out.span());
    EXPECT_TRUE(test::any_nan(out.row(0)));
    EXPECT_FALSE(test::any_nan(out.row(1)));
    test::OwnedColumns3<TypeParam> bright({{1.2, 0.0, 0.0}, {0.5, 0.0, 0.0}});
    bt2020_from_ictcp<PqIctcp>(bright.span(), out.span());
    EXPECT_TRUE(test::any_nan(out.row(0)));
    EXPECT_FALSE(test::any_nan(out.row(1)));
}

// Stated for the difference: 1e-12 and 1e-4.
TYPED_TEST(IctcpBatch, MeasuresDifferencesAsTheScalarFunctionDoes) {
    auto rows = lights(1000.0, 1003);
    test::OwnedColumns3<TypeParam> light(rows);
    std::reverse(rows.begin(), rows.end());
    test::OwnedColumns3<TypeParam> other_light(rows);
    test::OwnedColumns3<TypeParam> a(rows.size());
    test::OwnedColumns3<TypeParam> b(rows.size());
    ictcp_from_bt2020<PqIctcp>(light.span(), a.span());
    ictcp_from_bt2020<PqIctcp>(other_light.span(), b.span());
    std::vector<TypeParam> got(rows.size());
    delta_e_itp(a.span(), b.span(), std::span<TypeParam>(got));
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const auto p = a.row(i);
        const auto q = b.row(i);
        const double wanted =
            delta_e_itp(Ictcp<PqIctcp>(p[0], p[1], p[2]), Ictcp<PqIctcp>(q[0], q[1], q[2]));
        ASSERT_NEAR(static_cast<double>(got[i]), wanted, this->is_float ? 1e-4 : 1e-12);
    }
    a.set(17, 1, std::numeric_limits<TypeParam>::quiet_NaN());
    delta_e_itp(a.span(), b.span(), std::span<TypeParam>(got));
    EXPECT_TRUE(std::isnan(got[17]));
    EXPECT_FALSE(std::isnan(got[16]) || std::isnan(got[18]));
    std::vector<TypeParam> too_short(3);
    EXPECT_THROW(delta_e_itp(a.span(), b.span(), std::span<TypeParam>(too_short)), Error);
}

TYPED_TEST(IctcpBatch, RefusesColumnsOfDifferentLengths) {
    test::OwnedColumns3<TypeParam> three(3);
    test::OwnedColumns3<TypeParam> four(4);
    EXPECT_THROW(ictcp_from_bt2020<PqIctcp>(three.span(), four.span()), Error);
    EXPECT_THROW(bt2020_from_ictcp<HlgIctcp>(three.span(), four.span()), Error);
    EXPECT_EQ(four.row(0)[0], -777.0);  // nothing written
}

}  // namespace
}  // namespace samelight
