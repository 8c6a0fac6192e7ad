// Transfer functions of standard dynamic range and the perceptual quantiser: published values, a second route in long double, round
// trips to the stated bounds, order, and what is refused.
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include <gtest/gtest.h>

#include "accuracy/as_printed/transfer.hpp"
#include "numeric/check_rows.hpp"
#include "samelight/colour/luminance.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/colour/signals/transfer.hpp"
#include "samelight/colour/signals/transfer_hlg.hpp"
#include "samelight/colour/signals/transfer_pq.hpp"
#include "samelight/colour/signals/transfer_sdr.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

/// Signals from `low` to `high`, evenly, both ends included.
std::vector<double> signals(double low, double high, int count = 4001) {
    std::vector<double> result;
    for (int i = 0; i < count; ++i) {
        result.push_back(low + (high - low) * i / (count - 1));
    }
    return result;
}

/// Luminances from 1e-12 cd/m2 to `high`, evenly in their logarithm.
std::vector<double> luminances(double high) {
    std::vector<double> result = {0.0};
    for (double l = 1e-12; l < high; l *= 1.02) {
        result.push_back(l);
    }
    result.push_back(high);
    return result;
}

// ---- BT.1886 --------------------------------------------------------------------------------------

// ITU-R BT.1886, Annex 1: a and b to ten and twelve decimals, L to twelve.
TEST(Bt1886, MeetsThePublishedFormulasValues) {
    const test::CheckRows rows("checks/bt1886.csv");
    EXPECT_EQ(rows.size(), 54U);
    for (const auto& row : rows) {
        const double white = row.number("LW");
        const Bt1886 display{Luminance(white), Luminance(row.number("LB"))};
        EXPECT_NEAR(display.gain_cd_m2(), row.number("a"), 0.51e-10);
        EXPECT_NEAR(display.lift(), row.number("b"), 0.51e-12);
        const double got = display.luminance(Signal(row.number("V"))).cd_m2();
        EXPECT_NEAR(got, row.number("L"), 0.51e-12 + 4e-15 * white);
    }
    // ITU-R BT.1886, Annex 1, with its white 1 and black 0: to fifteen decimals.
    const Bt1886 unit{Luminance(1.0), Luminance(0.0)};
    EXPECT_NEAR(unit.luminance(Signal(0.18)).cd_m2(), 0.016317514686316, 0.51e-15);
}

constexpr std::array<std::array<double, 2>, 5> displays = {
    {{100.0, 0.0}, {100.0, 0.1}, {120.0, 0.5}, {350.0, 0.35}, {1.0, 0.2}}};

// Stated: 4e-15 of white; a signal 1e-14 and a luminance 1e-14 of white there and back.
TEST(Bt1886, KeepsItsStatedBounds) {
    for (const auto& [white, black] : displays) {
        const Bt1886 display{Luminance(white), Luminance(black)};
        const long double root_w = std::pow(static_cast<long double>(white), 1.0L / 2.4L);
        const long double root_b = std::pow(static_cast<long double>(black), 1.0L / 2.4L);
        for (const double v : signals(-0.3, 1.1)) {
            const double l = display.luminance(Signal(v)).cd_m2();
            // Second route: Annex 1 with a and b multiplied out, in long double.
            const long double root = std::max(0.0L, (root_w - root_b) * v + root_b);
            EXPECT_NEAR(l, static_cast<double>(std::pow(root, 2.4L)), 4e-15 * white * 1.1 * 1.1);
            const double back = display.signal(Luminance(l)).value();
            EXPECT_NEAR(back, std::max(v, -display.lift()), 1e-14);
        }
        for (const double l : luminances(1.2 * white)) {
            const Signal s = display.signal(Luminance(l));
            EXPECT_NEAR(display.luminance(s).cd_m2(), l, 1e-14 * white);
        }
    }
}

TEST(Bt1886, ClampsSubBlackAsItsFormulaSays) {
    const Bt1886 display{Luminance(100.0), Luminance(0.1)};
    EXPECT_NEAR(display.luminance(Signal(0.0)).cd_m2(), 0.1, 1e-15);
    EXPECT_GT(display.luminance(Signal(-0.05)), Luminance(0.0));
    EXPECT_EQ(display.luminance(Signal(-0.06)), Luminance(0.0));
    EXPECT_EQ(display.luminance(Signal(-1e300)), Luminance(0.0));
    EXPECT_EQ(display.signal(Luminance(0.0)).value(), -display.lift());
    EXPECT_THROW(static_cast<void>(display.signal(Luminance(-1e-9))), Error);
}

TEST(Bt1886, RefusesADisplayWithoutContrast) {
    EXPECT_THROW((Bt1886{Luminance(1.0), Luminance(1.0)}), Error);
    EXPECT_THROW((Bt1886{Luminance(1.0), Luminance(2.0)}), Error);
    EXPECT_THROW((Bt1886{Luminance(1.0), Luminance(-0.1)}), Error);
    EXPECT_THROW((Bt1886{Luminance(0.0), Luminance(0.0)}), Error);
}

// ---- sRGB -----------------------------------------------------------------------------------------

// IEC 61966-2-1:1999: both branches by its printed constants, in long double.
TEST(Srgb, MeetsTheFormulasOfItsStandard) {
    for (const double v : signals(0.0, 1.2)) {
        const long double s = v;
        const long double light = v <= 0.04045 ? s / 12.92L : std::pow((s + 0.055L) / 1.055L, 2.4L);
        EXPECT_NEAR(Srgb::light(Signal(v)).value(), static_cast<double>(light), 2e-15);
        const long double signal =
            v <= 0.0031308 ? 12.92L * s : 1.055L * std::pow(s, 1.0L / 2.4L) - 0.055L;
        EXPECT_NEAR(Srgb::signal(LinearLight(v)).value(), static_cast<double>(signal), 2e-15);
    }
    EXPECT_EQ(Srgb::light(Signal(0.0)).value(), 0.0);
    EXPECT_EQ(Srgb::light(Signal(1.0)).value(), 1.0);
    EXPECT_NEAR(Srgb::signal(LinearLight(1.0)).value(), 1.0, 2e-15);
}

// IEC 61966-2-1/Amd 1 (sYCC): odd (from memory).
TEST(Srgb, IsOdd) {
    for (const double v : signals(0.0, 1.2, 401)) {
        EXPECT_EQ(Srgb::light(Signal(-v)).value(), -Srgb::light(Signal(v)).value());
        EXPECT_EQ(Srgb::signal(LinearLight(-v)).value(), -Srgb::signal(LinearLight(v)).value());
    }
}

// Stated: 1e-14 there and back, except across the join of the branches: 3e-8 for a signal, 2.4e-9 for light.
TEST(Srgb, ComesBackWithinItsStatedBounds) {
    for (const double v : signals(-1.2, 1.2, 40001)) {
        EXPECT_NEAR(Srgb::signal(Srgb::light(Signal(v))).value(), v, 1e-14);
        EXPECT_NEAR(Srgb::light(Srgb::signal(LinearLight(v))).value(), v, 1e-14);
    }
    double signal_step = 0.0;
    for (const double v : signals(0.040449, 0.040451, 20001)) {
        const double step = std::abs(Srgb::signal(Srgb::light(Signal(v))).value() - v);
        signal_step = std::max(signal_step, step);
    }
    EXPECT_LT(signal_step, 3e-8);
    EXPECT_GT(signal_step, 1e-8);  // it is there: the standard's constants are rounded
    double light_step = 0.0;
    for (const double l : signals(0.0031307, 0.0031309, 20001)) {
        const double step = std::abs(Srgb::light(Srgb::signal(LinearLight(l))).value() - l);
        light_step = std::max(light_step, step);
    }
    EXPECT_LT(light_step, 2.4e-9);
}

// ---- A plain power ----------------------------------------------------------------------------------

TEST(PlainGamma, IsThePowerBetweenBlackAndWhite) {
    for (const double exponent : {0.45, 1.0, 1.8, 2.2, 2.4, 2.6, 10.0}) {
        for (const auto& [white, black] : displays) {
            const PlainGamma curve(exponent, Luminance(white), Luminance(black));
            EXPECT_EQ(curve.luminance(Signal(0.0)).cd_m2(), black);
            EXPECT_NEAR(curve.luminance(Signal(1.0)).cd_m2(), white, 4e-15 * white);
            for (const double v : signals(0.0, 1.0, 401)) {
                // Common practice, no source: written out in long double.
                const long double l =
                    static_cast<long double>(black) +
                    (static_cast<long double>(white) - black) *
                        std::pow(static_cast<long double>(v), static_cast<long double>(exponent));
                const double got = curve.luminance(Signal(v)).cd_m2();
                EXPECT_NEAR(got, static_cast<double>(l), 4e-15 * white);
                // Odd about black.
                EXPECT_NEAR(curve.luminance(Signal(-v)).cd_m2(), 2.0 * black - got, 4e-15 * white);
                EXPECT_NEAR(curve.luminance(curve.signal(Luminance(got))).cd_m2(), got,
                            1e-14 * white);
            }
        }
        const PlainGamma no_black(exponent);
        for (const double v : signals(-1.1, 1.1)) {
            EXPECT_NEAR(no_black.signal(no_black.luminance(Signal(v))).value(), v, 1e-14);
        }
    }
}

TEST(PlainGamma, RefusesOtherExponents) {
    EXPECT_THROW(PlainGamma(0.0), Error);
    EXPECT_THROW(PlainGamma(-2.2), Error);
    EXPECT_THROW(PlainGamma(11.0), Error);
    EXPECT_THROW(PlainGamma{std::numeric_limits<double>::quiet_NaN()}, Error);
    EXPECT_THROW(PlainGamma(2.2, Luminance(1.0), Luminance(-0.1)), Error);
    EXPECT_THROW(PlainGamma(2.2, Luminance(1.0), Luminance(1.0)), Error);
}

// ---- The perceptual quantiser -----------------------------------------------------------------------

// SMPTE ST 2084:2014 and ITU-R BT.2100-2, Table 4: signals to twelve decimals.
TEST(Pq, MeetsThePublishedFormulasValues) {
    const test::CheckRows rows("checks/pq_st2084.csv");
    EXPECT_EQ(rows.size(), 32U);
    for (const auto& row : rows) {
        const Luminance l(row.number("cd_m2"));
        EXPECT_NEAR(Pq::signal(l).value(), row.number("E_prime"), 0.51e-12) << l.cd_m2();
    }
    EXPECT_EQ(Pq::signal(Luminance(10000.0)).value(), 1.0);
    EXPECT_EQ(Pq::luminance(Signal(1.0)).cd_m2(), 10000.0);
    EXPECT_EQ(Pq::luminance(Signal(0.0)).cd_m2(), 0.0);
    // The signal of no light, to nine digits (SMPTE ST 2084:2014: c1^m2).
    EXPECT_NEAR(Pq::signal(Luminance(0.0)).value(), 7.30955903e-7, 0.51e-15);
}

// ITU-R BT.2408, reference levels (from memory): HDR white 203 cd/m2 is 58 % PQ, an 18 % grey card 26 cd/m2 is 38 % PQ.
TEST(Pq, MeetsTheReferenceLevels) {
    EXPECT_EQ(std::round(100.0 * Pq::signal(Luminance(203.0)).value()), 58.0);
    EXPECT_EQ(std::round(100.0 * Pq::signal(Luminance(26.0)).value()), 38.0);
}

// Stated: luminance 2e-14 relative + 1e-20 cd/m2; signal 1e-14 relative. Second route: the formulas as printed, in long double.
TEST(Pq, KeepsItsStatedErrors) {
    for (const double v : signals(0.0, 1.1, 20001)) {
        const double exact = static_cast<double>(test::pq_luminance_as_printed(v));
        EXPECT_NEAR(Pq::luminance(Signal(v)).cd_m2(), exact, 2e-14 * exact + 1e-20) << v;
    }
    for (const double l : luminances(26556.0)) {
        const double exact = static_cast<double>(test::pq_signal_as_printed(l));
        EXPECT_NEAR(Pq::signal(Luminance(l)).value(), exact, 1e-14 * exact) << l;
    }
}

// Stated: a luminance from 1e-6 cd/m2 up comes back to 5e-14 relative, a signal from 1e-5 up to 1e-14.
TEST(Pq, ComesBackWithinItsStatedBounds) {
    for (const double l : luminances(26556.0)) {
        const double back = Pq::luminance(Pq::signal(Luminance(l))).cd_m2();
        EXPECT_NEAR(back, l, 5e-14 * l + (l < 1e-6 ? 1e-19 : 0.0)) << l;
    }
    for (const double v : signals(1e-5, 1.1, 20001)) {
        EXPECT_NEAR(Pq::signal(Pq::luminance(Signal(v))).value(), v, 1e-14) << v;
    }
    EXPECT_NEAR(Pq::luminance(Pq::signal(Luminance(0.0))).cd_m2(), 0.0, 1e-20);
}

// The docstring: odd; a signal within 7.3e-7 of 0 is no light.
TEST(Pq, IsOddAndDarkAboutZero) {
    for (const double v : signals(1e-3, 1.1, 401)) {
        EXPECT_EQ(Pq::luminance(Signal(-v)).cd_m2(), -Pq::luminance(Signal(v)).cd_m2());
        EXPECT_EQ(Pq::signal(Luminance(-v)).value(), -Pq::signal(Luminance(v)).value());
    }
    EXPECT_EQ(Pq::luminance(Signal(7.3e-7)).cd_m2(), 0.0);
    EXPECT_EQ(Pq::luminance(Signal(-7.3e-7)).cd_m2(), 0.0);
    EXPECT_EQ(Pq::luminance(Signal(1e-300)).cd_m2(), 0.0);
    EXPECT_GT(Pq::luminance(Signal(8e-7)).cd_m2(), 0.0);
}

TEST(Pq, RefusesWhatLiesBeyondSuperWhite) {
    EXPECT_NO_THROW(static_cast<void>(Pq::luminance(Signal(1.1))));
    EXPECT_THROW(static_cast<void>(Pq::luminance(Signal(1.11))), Error);
    EXPECT_THROW(static_cast<void>(Pq::luminance(Signal(-1.11))), Error);
    EXPECT_NO_THROW(static_cast<void>(Pq::signal(Luminance(26557.0))));
    EXPECT_THROW(static_cast<void>(Pq::signal(Luminance(26558.0))), Error);
    EXPECT_THROW(static_cast<void>(Pq::signal(Luminance(-26558.0))), Error);
}

// ---- All of them ------------------------------------------------------------------------------------

template <class F>
void expect_rising(double low, double high, const F& f) {
    double before = -std::numeric_limits<double>::infinity();
    for (const double x : signals(low, high, 3001)) {
        const double now = f(x);
        ASSERT_GT(now, before) << x;
        before = now;
    }
}

// Second route: a general-purpose colour library from npm (tests/second_route/colours.mjs). Its HLG takes c rounded to eight
// decimals, 4.7e-10 above the exact one.
TEST(Transfer, AgreesWithAnotherLibrary) {
    const test::CheckRows rows("second_route_transfer.csv");
    for (const auto& row : rows) {
        const double x = row.number("x");
        EXPECT_NEAR(Srgb::light(Signal(x)).value(), row.number("srgb_light"), 2e-14);
        EXPECT_NEAR(Srgb::signal(LinearLight(x)).value(), row.number("srgb_signal"), 2e-14);
        EXPECT_NEAR(Pq::signal(Luminance(10000.0 * x)).value(), row.number("pq_signal"), 2e-13);
        const double l = Pq::luminance(Signal(x)).cd_m2();
        EXPECT_NEAR(l, row.number("pq_cd_m2"), 5e-12 * l);
        EXPECT_NEAR(HlgScene::signal(LinearLight(x)).value(), row.number("hlg_signal"), 5e-10);
        EXPECT_NEAR(HlgScene::light(Signal(x)).value(), row.number("hlg_light"), 3e-9);
    }
    EXPECT_EQ(rows.size(), 21U);
}

TEST(Transfer, RisesEverywhereInBothDirections) {
    const PlainGamma gamma(2.2, Luminance(80.0), Luminance(0.1));
    expect_rising(-1.0, 1.1, [&](double v) { return gamma.luminance(Signal(v)).cd_m2(); });
    expect_rising(-1.0, 90.0, [&](double l) { return gamma.signal(Luminance(l)).value(); });
    expect_rising(-1.0, 1.1, [](double v) { return Srgb::light(Signal(v)).value(); });
    expect_rising(-1.0, 1.1, [](double l) { return Srgb::signal(LinearLight(l)).value(); });
    const Bt1886 display{Luminance(100.0), Luminance(0.1)};
    expect_rising(-display.lift(), 1.1,
                  [&](double v) { return display.luminance(Signal(v)).cd_m2(); });
    expect_rising(0.0, 120.0, [&](double l) { return display.signal(Luminance(l)).value(); });
    expect_rising(1e-6, 1.1, [](double v) { return Pq::luminance(Signal(v)).cd_m2(); });
    expect_rising(-1.1, -1e-6, [](double v) { return Pq::luminance(Signal(v)).cd_m2(); });
    expect_rising(-26000.0, 26000.0, [](double l) { return Pq::signal(Luminance(l)).value(); });
    expect_rising(0.0, 1e-6, [](double l) { return Pq::signal(Luminance(l)).value(); });
}

}  // namespace
}  // namespace samelight
