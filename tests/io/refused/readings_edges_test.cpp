// Readings of strangers at their edges: lights in numbers that are none, dates that never were, and flags. Days since 1970 by the Gregorian calendar,
// by hand: 2026-03-14 is 20,526 (56 years of 365 days, 14 leap days, 72 days of 2026).
#include <string>

#include <gtest/gtest.h>

#include "io/spectral_files.hpp"
#include "numeric/refusals.hpp"
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/io/primary_readings_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {
namespace {

std::string lights_refused(const std::string& text) {
    return samelight::test::refusal(
        ErrorKind::input, [&] { static_cast<void>(parse_primary_readings(text, "read.csv")); });
}

TEST(ReadingsEdges, LightsInNumbersThatAreNone) {
    const std::string xyz = "name,X,Y,Z\nred,41.24,21.26,1.93\ngreen,35.76,71.52,11.92\n";
    EXPECT_EQ(lights_refused(xyz + "blue,0,0,0\nwhite,95.05,100,108.9\n"),
              "read.csv:4:1: X + Y + Z of 0; wanted X, Y, Z of a light");
    EXPECT_EQ(lights_refused(xyz + "blue,18.05,7.22\nwhite,95.05,100,108.9\n"),
              "read.csv:4:1: a row that ends too early; wanted a number below each heading");
    EXPECT_EQ(lights_refused(xyz + "blue,18.05,7.22,many\n"),
              "read.csv:4:17: \"many\"; wanted a number");
    const std::string xy = "x,y,name\n0.64,0.33,red\n0.3,0.6,green\n";
    EXPECT_EQ(lights_refused(xy + "0.15,0,blue\n0.3127,0.329,white\n"),
              "read.csv:4:1: y of 0; wanted a y above 0");
    EXPECT_EQ(lights_refused(xy + "0.15,0.06\n0.3127,0.329,white\n"),
              "read.csv:4:1: a row without a name; wanted a name below its heading");
}

PatchReadingsFile dated(const std::string& date) {
    return parse_patch_readings_csv(
        "patch,X,Y,Z,date\nwhite,95.05,100,108.9," + date + "\nblack,0.1,0.1,0.1,\n", "p.csv");
}

TEST(ReadingsEdges, DatesThatNeverWereAreLeftAloneAndSaid) {
    EXPECT_EQ(dated("2026-03-14").rows[0].day, 20526);
    EXPECT_TRUE(test::says(dated("2026-03-14").understood, "Read on 2026-03-14."));
    EXPECT_EQ(dated("2026-03-14T09:30:01.5+01:00").rows[0].day, 20526);
    EXPECT_EQ(dated("2024-02-29").rows[0].day, 20526 - 2 * 365 - 14);
    for (const char* none :
         {"2026-02-30", "2025-02-29", "2026-13-01", "2026-3-14", "14.3.2026", "2026-03-14T25:00",
          "2026-03-14T09:60", "2026-03-14T09:30:61", "2026-03-14T09:30:01.", "2026-03-14T09:30x",
          "2026-03-14x", "yesterday"}) {
        const PatchReadingsFile file = dated(none);
        EXPECT_FALSE(file.rows[0].day) << none;
        EXPECT_TRUE(
            test::says(file.understood, "Dates like \"" + std::string(none) + "\" left alone"))
            << none << test::joined(file.understood);
    }
}

TEST(ReadingsEdges, FlagsAreCountedAndTheFirstIsSaid) {
    const PatchReadingsFile file = parse_patch_readings_csv(
        "patch,X,Y,Z,flag\nwhite,95.05,100,108.9,\nred,41,21,2,too dark\nblue,18,7,95,noisy\n",
        "p.csv");
    ASSERT_EQ(file.warnings.size(), 1U);
    EXPECT_EQ(file.warnings[0],
              (Warning{"flagged", {{"readings", 2.0}, {"flag", "too dark"}, {"line", 3.0}}}));
}

}  // namespace
}  // namespace samelight::io
