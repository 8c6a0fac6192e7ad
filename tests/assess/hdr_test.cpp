// What is thought of a display in HDR, and what is missing to think more. The second route is the display of check/hdr_display.hpp.
#include "samelight/assess/check/hdr.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "check/hdr_display.hpp"
#include "samelight/check/hdr/pq_tracking.hpp"
#include "samelight/colour/xyY.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::test {
namespace {

std::vector<PatchReading> all_of(HdrDisplay display) {
    std::vector<PatchReading> readings = display.windows(2);
    for (const PatchReading& grey : display.ladder()) {
        readings.push_back(grey);
    }
    return readings;
}

assess::HdrAnswer thought_of(std::vector<PatchReading> readings) {
    return assess::answer_hdr({std::move(readings), {}});
}

TEST(HdrVerdict, AllThatIsWrongIsNamedByWhatIsWrong) {
    using assess::HdrVerdict;
    EXPECT_EQ(thought_of(all_of({})).verdict, HdrVerdict::holds);
    HdrDisplay bright;
    bright.tracking_gain = 1.3;
    EXPECT_EQ(thought_of(all_of(bright)).verdict, HdrVerdict::pq_off);
    HdrDisplay drifting;
    drifting.drift = 0.004;
    EXPECT_EQ(thought_of(all_of(drifting)).verdict, HdrVerdict::white_moves);
    // The white of hdr_display.hpp is u' 0.1978, v' 0.4683, about D65: 0.3127, 0.3290 (CIE 15:2018).
    EXPECT_EQ(assess::answer_hdr({all_of({}), {{0.3127, 0.3290}}}).verdict, HdrVerdict::holds);
    EXPECT_EQ(assess::answer_hdr({all_of({}), {{0.3127, 0.3330}}}).verdict, HdrVerdict::white_off);
}

TEST(HdrFading, IsThatOfTheWindowWhichLosesMostOfThoseThatLoseOverTwoPerCent) {
    assess::HdrAnswer answer;
    const auto add = [&](double window_pct, std::optional<double> fade) {
        assess::HdrWhite white{};
        white.window_pct = window_pct;
        white.fade = fade;
        answer.whites.push_back(white);
    };
    add(1.0, {});
    add(2.0, 0.05);
    add(5.0, -0.019);
    EXPECT_EQ(answer.fading(), nullptr);
    add(10.0, -0.03);
    add(25.0, -0.05);
    add(50.0, -0.04);
    ASSERT_NE(answer.fading(), nullptr);
    EXPECT_EQ(answer.fading()->window_pct, 25.0);
}

TEST(HdrVerdict, OneReadingOfWhiteTellsNothing) {
    HdrDisplay display;
    const assess::HdrAnswer answer = thought_of({display.reading({1, 1, 1}, 10.0, 700.0)});
    EXPECT_EQ(answer.verdict, assess::HdrVerdict::cannot_tell);
    EXPECT_EQ(answer.missing, (std::vector<assess::HdrMissing>{assess::HdrMissing::windows,
                                                               assess::HdrMissing::greys}));
    EXPECT_EQ(answer.ladder.obstacle, NoPqTracking::few_greys);
    EXPECT_EQ(answer.windows_supposed, 0U);
}

TEST(HdrVerdict, WhatWasNotReadIsNoneOfWhatHolds) {
    HdrDisplay display;
    const assess::HdrAnswer windows = thought_of(display.windows(2));
    EXPECT_EQ(windows.verdict, assess::HdrVerdict::holds_in_part);
    EXPECT_EQ(windows.missing, std::vector<assess::HdrMissing>{assess::HdrMissing::greys});
    const assess::HdrAnswer greys = thought_of(display.ladder());
    EXPECT_EQ(greys.verdict, assess::HdrVerdict::holds_in_part);
    EXPECT_EQ(greys.missing, std::vector<assess::HdrMissing>{assess::HdrMissing::windows});
}

TEST(HdrVerdict, ReadingsWithoutAWindowAreCounted) {
    std::vector<PatchReading> readings = all_of({});
    for (std::size_t i = 0; i < 5; ++i) {
        readings[i].window_pct.reset();
    }
    EXPECT_EQ(thought_of(readings).windows_supposed, 5U);
}

TEST(PqLadder, SaysHowManyGreysThereAreAndWhatIsInTheWay) {
    HdrDisplay display;
    std::vector<PatchReading> ladder = display.ladder();
    const PqLadder whole = pq_ladder(ladder);
    EXPECT_FALSE(whole.obstacle);
    // 41 levels; of those above 0, PQ gives less than 0.05 cd/m2 to the ones below 0.0607 of the signal (ST 2084, written once more there).
    std::size_t dark = 0;
    for (int i = 1; i <= 40; ++i) {
        dark += HdrDisplay::eotf(i / 40.0) < 0.05 ? 1 : 0;
    }
    EXPECT_EQ(whole.too_dark, dark);
    EXPECT_EQ(whole.greys.size(), 40U - dark);
    const std::vector<PatchReading> few(ladder.end() - 3, ladder.end());
    EXPECT_EQ(pq_ladder(few).obstacle, NoPqTracking::few_greys);
    EXPECT_EQ(pq_ladder(few).greys.size(), 3U);
    EXPECT_EQ(pq_ladder({}).greys.size(), 0U);
    for (const double black : {30.0, 300.0}) {
        ladder.front().xyz[1] = black;
        EXPECT_EQ(pq_ladder(ladder).obstacle, NoPqTracking::bright_black) << black;
        EXPECT_THROW(static_cast<void>(pq_tracking(ladder)), Error);
    }
    ladder.front().xyz[1] = 0.0;
    ladder.back().xyz[1] = 12000.0;
    EXPECT_EQ(pq_ladder(ladder).obstacle, NoPqTracking::beyond_pq);
}

TEST(PqLadder, WhatHasNoObstacleIsTracked) {
    // Blacks and peaks of all sizes: either a reason stands there, or a tracking is made, and nothing is thrown.
    for (const double peak : {1.0, 20.0, 100.0, 1000.0, 4000.0, 9999.0}) {
        for (const double black : {0.0, 0.001, 0.05, 0.5, 2.0, 10.0, 90.0}) {
            HdrDisplay display;
            display.peak = peak;
            std::vector<PatchReading> ladder = display.ladder();
            ladder.front().xyz[1] = black;
            if (!pq_ladder(ladder).obstacle) {
                EXPECT_NO_THROW(static_cast<void>(pq_tracking(ladder))) << peak << " " << black;
            }
        }
    }
}

}  // namespace
}  // namespace samelight::test
