// White by window, the limiter's onset and PQ tracking, on displays whose formulas are written once more in hdr_display.hpp.
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include "check/hdr_display.hpp"
#include "samelight/check/hdr/pq_tracking.hpp"
#include "samelight/check/hdr/window_whites.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::test {
namespace {

TEST(WindowWhites, TellPeakSteadinessColourAndSum) {
    HdrDisplay display;
    display.drift = 0.002;
    display.sum_over_white = 0.73;
    display.noise = 0.004;
    const auto whites = whites_by_window(display.windows(8));
    ASSERT_EQ(whites.size(), 8U);
    EXPECT_EQ(reference_window(whites), 3U);
    for (const WindowWhite& white : whites) {
        EXPECT_EQ(white.readings, 8);
        // The mean of eight readings: four of its standard deviations.
        const double expected = display.peak * display.limited(white.window_pct);
        EXPECT_NEAR(white.xyz[1] / expected, 1.0, 4.0 * 0.004 / std::sqrt(8.0));
        EXPECT_NEAR(white.spread, 0.004, 0.0032);
        EXPECT_NEAR(white.drift_uv, std::abs(0.002 * std::log10(white.window_pct / 10.0)), 1e-9);
        ASSERT_TRUE(white.sum_over_white);
        EXPECT_NEAR(*white.sum_over_white, 0.73, 0.01);
        ASSERT_TRUE(white.fade);
        EXPECT_EQ(*white.fade_s, 70.0);
    }
}

TEST(WindowWhites, TakeBlackOffSumsAndGoByNames) {
    std::vector<PatchReading> readings(5);
    const std::array<const char*, 5> names = {"white", "red", "green", "blue", "black"};
    const std::array<double, 5> luminances = {101.0, 23.0, 73.0, 8.0, 1.0};
    for (std::size_t i = 0; i < 5; ++i) {
        readings[i].patch = names[i];
        readings[i].xyz = {luminances[i], luminances[i], luminances[i]};
    }
    const auto whites = whites_by_window(readings);
    ASSERT_EQ(whites.size(), 1U);
    EXPECT_EQ(whites[0].window_pct, 10.0);
    EXPECT_DOUBLE_EQ(*whites[0].sum_over_white, (22.0 + 72.0 + 7.0) / 100.0);
    EXPECT_FALSE(whites[0].fade);
    readings[0].xyz[1] = 0.0;
    EXPECT_THROW(whites_by_window(readings), Error);
    EXPECT_TRUE(whites_by_window({}).empty());
}

TEST(LimiterOnset, IsFoundAboveTheNoiseAndOnlyThere) {
    for (const double holds : {2.0, 10.0, 25.0, 100.0}) {
        HdrDisplay display;
        display.holds_to = holds;
        display.noise = 0.005;
        const auto onset = limiter_onset(whites_by_window(display.windows(4)));
        EXPECT_NEAR(onset.peak_cd_m2, 1000.0, 15.0);
        if (holds == 100.0) {
            EXPECT_FALSE(onset.falls_at_pct);
            continue;
        }
        ASSERT_TRUE(onset.falls_at_pct);
        EXPECT_EQ(*onset.holds_to_pct, holds);
        EXPECT_GT(*onset.falls_at_pct, holds);
        EXPECT_NEAR(onset.largest_over_peak, display.limited(100.0), 0.02);
    }
    EXPECT_THROW(limiter_onset({}), Error);
}

TEST(PqTracking, FindsTheKneeOfARollOff) {
    for (const double programme : {2000.0, 4000.0, 10000.0}) {
        for (const double peak : {600.0, 1000.0, 1400.0}) {
            HdrDisplay display;
            display.peak = peak;
            display.programme = programme;
            const PqTracking tracking = pq_tracking(display.ladder());
            EXPECT_EQ(tracking.end, PqEnd::roll_off) << peak << " of " << programme;
            const double range = HdrDisplay::inverse_eotf(programme);
            const double knee = (1.5 * HdrDisplay::inverse_eotf(peak) / range - 0.5) * range;
            EXPECT_NEAR(tracking.roll_off.knee_signal, knee, 0.005) << peak << " of " << programme;
            EXPECT_NEAR(*tracking.roll_off.programme_cd_m2 / programme, 1.0, 0.05);
            EXPECT_NEAR(tracking.roll_off.peak_cd_m2 / peak, 1.0, 0.01);
            EXPECT_LT(tracking.roll_off.residual_itp, 0.2);
            EXPECT_LT(tracking.tracking_itp, 0.2);
        }
    }
}

TEST(PqTracking, FindsACutPeak) {
    HdrDisplay display;
    display.peak = 750.0;
    display.noise = 0.003;
    const PqTracking tracking = pq_tracking(display.ladder());
    EXPECT_EQ(tracking.end, PqEnd::clip);
    EXPECT_NEAR(tracking.clip.peak_cd_m2, 750.0, 5.0);
    EXPECT_NEAR(tracking.clip.knee_signal, HdrDisplay::inverse_eotf(750.0), 0.002);
    ASSERT_TRUE(tracking.leaves_at_signal);
    // The next grey of the ladder, 1/40 apart.
    EXPECT_GT(*tracking.leaves_at_signal, tracking.clip.knee_signal);
    EXPECT_LT(*tracking.leaves_at_signal, tracking.clip.knee_signal + 0.025);
}

TEST(PqTracking, KnowsWhetherBlackLiftsTheDarkGreys) {
    for (const bool lifted : {false, true}) {
        HdrDisplay display;
        display.programme = 4000.0;
        auto ladder = display.ladder();
        const double top = HdrDisplay::inverse_eotf(4000.0);
        const double b = HdrDisplay::inverse_eotf(0.02) / top;
        for (PatchReading& reading : ladder) {
            const double s = (*reading.signal)[0];
            // BT.2390-8, 5.4.1 (from memory): b (1 - E)^4 on top of the rolled-off signal.
            const double e = HdrDisplay::inverse_eotf(std::max(1e-9, display.grey(s))) / top;
            reading.xyz[1] = s == 0.0 ? 0.02
                             : lifted ? HdrDisplay::eotf(top * (e + b * std::pow(1.0 - e, 4.0)))
                                      : display.grey(s);
        }
        const PqTracking tracking = pq_tracking(ladder);
        EXPECT_EQ(tracking.lifted_to_cd_m2, lifted ? 0.02 : 0.0);
        EXPECT_EQ(tracking.end, PqEnd::roll_off);
        EXPECT_NEAR(*tracking.roll_off.programme_cd_m2, 4000.0, 100.0);
    }
}

TEST(PqTracking, SaysHowFarGreysAreFromPq) {
    // 10 % too bright: the difference of I of 110 and 100 cd/m2, 720 times, by the formulas written once more.
    HdrDisplay display;
    display.tracking_gain = 1.1;
    const PqTracking tracking = pq_tracking(display.ladder());
    const double at_100 =
        720.0 * (HdrDisplay::inverse_eotf(110.0) - HdrDisplay::inverse_eotf(100.0));
    EXPECT_NEAR(tracking.tracking_itp, at_100, 0.25 * at_100);
    for (const PqGrey& grey : tracking.greys) {
        if (grey.signal < 0.7) {
            EXPECT_NEAR(grey.off_itp,
                        720.0 * (HdrDisplay::inverse_eotf(1.1 * grey.pq) - grey.signal), 1e-6);
        }
    }
}

TEST(PqTracking, RefusesTooLittleAndNamesWhatNothingFits) {
    HdrDisplay display;
    auto few = display.ladder();
    few.resize(5);
    EXPECT_THROW(pq_tracking(few), Error);
    // Six bright ones are enough, five are not: fewest_pq_greys.
    const auto all = display.ladder();
    EXPECT_NO_THROW(pq_tracking({all.end() - 6, all.end()}));
    EXPECT_THROW(pq_tracking({all.end() - 5, all.end()}), Error);
    auto odd = display.ladder();
    for (PatchReading& reading : odd) {
        const double s = (*reading.signal)[0];
        reading.xyz[1] = 300.0 * s * s;
    }
    EXPECT_EQ(pq_tracking(odd).end, PqEnd::neither);
}

}  // namespace
}  // namespace samelight::test
