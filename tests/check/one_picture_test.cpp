// Readings of several modes, places and windows: one picture is kept, and what isn't is counted; the ends are of that picture.
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/readings/measured_ends.hpp"
#include "samelight/check/readings/one_picture.hpp"

namespace samelight::test {
namespace {

PatchReading of(const std::string& patch, const std::string& mode, const std::string& position,
                double window, double luminance) {
    PatchReading reading;
    reading.patch = patch;
    reading.mode = mode;
    reading.position = position;
    reading.window_pct = window;
    reading.xyz = {0.95 * luminance, luminance, 1.09 * luminance};
    return reading;
}

TEST(OnePicture, OfEquallyManyTheFirstInTheFileIsMeant) {
    const std::vector<PatchReading> readings = {
        of("white", "game", "", 10, 200), of("white", "cinema", "", 10, 120),
        of("grey-50", "game", "", 10, 40), of("grey-50", "cinema", "", 10, 24)};
    const OnePicture picture = one_picture(readings, PictureWindows::one);
    EXPECT_EQ(picture.mode, "game");
    EXPECT_EQ(picture.other_modes, 2U);
    EXPECT_EQ(picture.readings.size(), 2U);
    EXPECT_EQ(measured_ends(readings).white_cd_m2, 200.0);
}

TEST(OnePicture, TheMiddleByItsNameElseWhereMostWasRead) {
    std::vector<PatchReading> readings = {
        of("white", "", "top left", 10, 90), of("white", "", "Middle", 10, 120),
        of("white", "", "top right", 10, 95), of("grey-50", "", "", 10, 24)};
    const OnePicture named = one_picture(readings, PictureWindows::one);
    EXPECT_EQ(named.readings.size(), 2U);
    EXPECT_EQ(named.other_positions, 2U);
    EXPECT_EQ(measured_ends(readings).white_cd_m2, 120.0);
    // In another language: where most was read.
    readings = {of("Grey-100", "", "mitte", 10, 118), of("grey-50", "", "mitte", 10, 24),
                of("white", "", "oben", 10, 80)};
    EXPECT_EQ(one_picture(readings, PictureWindows::one).position, "mitte");
    EXPECT_EQ(measured_ends(readings).white_cd_m2, 118.0);
}

TEST(OnePicture, WindowsStayWhereTheyAreAskedFor) {
    const std::vector<PatchReading> readings = {
        of("white", "", "", 100, 60), of("red", "", "", 10, 25), of("blue", "", "", 10, 8)};
    EXPECT_EQ(one_picture(readings, PictureWindows::all).left_out(), 0U);
    EXPECT_EQ(one_picture(readings, PictureWindows::one).other_windows, 1U);
    // A white that was read in another window alone is better than none.
    EXPECT_EQ(measured_ends(readings).white_cd_m2, 60.0);
    EXPECT_FALSE(measured_ends(readings).black_cd_m2.has_value());
}

TEST(OnePicture, OfNothingIsNothing) {
    EXPECT_TRUE(one_picture({}, PictureWindows::one).readings.empty());
    EXPECT_FALSE(measured_ends({}).white_cd_m2.has_value());
}

}  // namespace
}  // namespace samelight::test
