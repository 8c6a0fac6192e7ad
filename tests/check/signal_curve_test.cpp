// From signal to light and back: the standards' own tables through one value.
#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "numeric/check_rows.hpp"
#include "samelight/check/intent/signal_curve.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

CurveOptions curve(CurveKind kind, double white, double black = 0.0) {
    CurveOptions options;
    options.kind = kind;
    options.white_cd_m2 = white;
    options.black_cd_m2 = black;
    return options;
}

// ITU-R BT.1886, Annex 1.
TEST(SignalCurve, MeetsTheTableOfBt1886) {
    for (const auto& row : test::CheckRows("checks/bt1886.csv")) {
        const double white = row.number("LW");
        if (row.number("LB") >= 0.1 * white) {
            continue;
        }
        const SignalCurve display(curve(CurveKind::bt1886, white, row.number("LB")));
        EXPECT_NEAR(display.grey(row.number("V")), row.number("L"), 1e-11 * white + 1e-12);
    }
}

// SMPTE ST 2084:2014; ITU-R BT.2100-2, Table 4.
TEST(SignalCurve, MeetsTheTableOfPqUpToThePeak) {
    const SignalCurve full(curve(CurveKind::pq, 10000.0));
    const SignalCurve thousand(curve(CurveKind::pq, 1000.0));
    std::size_t seen = 0;
    for (const auto& row : test::CheckRows("checks/pq_st2084.csv")) {
        const double luminance = row.number("cd_m2");
        const double signal = row.number("E_prime");
        if (luminance > 0.0) {
            EXPECT_NEAR(full.grey(signal) / luminance, 1.0, 1e-7) << luminance;
            EXPECT_NEAR(thousand.grey(signal), std::min(luminance, 1000.0), 1e-7 * luminance);
            ++seen;
        }
    }
    EXPECT_GT(seen, 15U);
}

// ITU-R BT.2100-2, Table 5: OOTF gamma of 1.2 at 1,000 cd/m2, so that a grey of scene light 1/12 (signal 0.5) shows 1000 / 12^1.2.
TEST(SignalCurve, ShowsHlgWithTheSystemGammaOfItsPeak) {
    const SignalCurve display(curve(CurveKind::hlg, 1000.0));
    EXPECT_NEAR(display.grey(0.5), 1000.0 * std::pow(1.0 / 12.0, 1.2), 1e-6);
    EXPECT_NEAR(display.grey(1.0), 1000.0, 1e-4);
    const auto red = display.light({0.5, 0.0, 0.0});
    // Y_S = 0.2627 R; R_D = peak Y_S^0.2 R_S
    EXPECT_NEAR(red[0], 1000.0 * std::pow(0.2627 / 12.0, 0.2) / 12.0, 1e-6);
    EXPECT_NEAR(red[1], 0.0, 1e-9);
}

// Second route: the Hermite spline of ITU-R BT.2390-8, 5.4.1 (from memory) by its defining properties and its value at T = 1/2.
TEST(SignalCurve, RollsPqOffFromTheProgrammesPeakToTheDisplays) {
    CurveOptions options = curve(CurveKind::pq, 600.0);
    options.programme_peak_cd_m2 = 4000.0;
    const SignalCurve display(options);
    const SignalCurve standard(curve(CurveKind::pq, 10000.0));
    const double knee = display.knee().value();
    const double range =
        SignalCurve(curve(CurveKind::pq, 4000.0)).signals({4000, 4000, 4000}).signal[0];
    const double most = SignalCurve(curve(CurveKind::pq, 600.0)).signals({600, 600, 600}).signal[0];
    EXPECT_NEAR(knee, 1.5 * most - 0.5 * range, 1e-9);
    for (const double signal : {0.1, 0.3, 0.5, knee}) {
        EXPECT_NEAR(display.grey(signal) / standard.grey(signal), 1.0, 1e-9) << signal;
    }
    EXPECT_NEAR(display.grey(range), 600.0, 1e-6);
    EXPECT_NEAR(display.grey(0.5 * (range + 1.0)), 600.0, 1e-6);
    const double h = 1e-4;
    EXPECT_NEAR((display.grey(knee + h) - display.grey(knee)) /
                    (standard.grey(knee + h) - standard.grey(knee)),
                1.0, 2e-3);
    // p(1/2) = (knee + most) / 2 + (1 - knee) / 8, in the programme's range
    const double k = knee / range;
    const double m = most / range;
    const double middle = 0.5 * (k + m) + 0.125 * (1.0 - k);
    EXPECT_NEAR(display.grey(0.5 * (knee + range)), standard.grey(middle * range), 1e-6);
    double last = -1.0;
    for (int i = 0; i <= 1000; ++i) {
        const double now = display.grey(i / 1000.0);
        EXPECT_GE(now, last);
        last = now;
    }
}

TEST(SignalCurve, BringsEverySignalBack) {
    for (const CurveKind kind :
         {CurveKind::bt1886, CurveKind::power, CurveKind::srgb, CurveKind::pq, CurveKind::hlg}) {
        CurveOptions options = curve(kind, 500.0, 0.05);
        if (kind == CurveKind::pq) {
            options.programme_peak_cd_m2 = 1000.0;
        }
        const SignalCurve display(options);
        for (const auto& signal : {std::array{0.2, 0.5, 0.7}, std::array{0.05, 0.3, 0.6},
                                   std::array{1.0, 1.0, 1.0}, std::array{0.4, 0.4, 0.4}}) {
            if (kind == CurveKind::pq && signal[0] == 1.0) {
                continue;  // beyond the programme's peak
            }
            const auto back = display.signals(display.light(signal));
            EXPECT_FALSE(back.cut) << code_of(kind);
            for (std::size_t i = 0; i < 3; ++i) {
                EXPECT_NEAR(back.signal[i], signal[i], 1e-8) << code_of(kind);
            }
        }
        EXPECT_TRUE(display.signals({600.0, 100.0, 100.0}).cut) << code_of(kind);
        EXPECT_NEAR(display.grey(0.0), 0.05, 1e-9) << code_of(kind);
    }
}

TEST(SignalCurve, RefusesWhatIsNoDisplay) {
    EXPECT_THROW(SignalCurve(curve(CurveKind::bt1886, 0.0)), Error);
    EXPECT_THROW(SignalCurve(curve(CurveKind::bt1886, 100.0, 20.0)), Error);
    EXPECT_THROW(SignalCurve(curve(CurveKind::pq, 20000.0)), Error);
    EXPECT_THROW(SignalCurve(curve(CurveKind::pq, 1000.0, 50.0)), Error);
    EXPECT_THROW(static_cast<void>(SignalCurve(curve(CurveKind::srgb, 100.0)).grey(1.2)), Error);
    EXPECT_THROW(static_cast<void>(SignalCurve(curve(CurveKind::srgb, 100.0)).grey(NAN)), Error);
}

}  // namespace
}  // namespace samelight
