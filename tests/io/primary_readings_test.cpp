// Tables of a display's red, green, blue and white in numbers: what their headings and rows mean, and what is refused.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/io/primary_readings_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {
namespace {

/// The primaries and white of IEC 61966-2-1:1999; luminances by its RGB to XYZ matrix.
const std::string srgb_rows =
    "red,0.64,0.33,21.26\ngreen,0.30,0.60,71.52\nblue,0.15,0.06,7.22\nwhite,0.3127,0.3290,100\n";
const std::string srgb_xyz_rows =
    "red,41.24,21.26,1.93\ngreen,35.76,71.52,11.92\nblue,18.05,7.22,95.05\n"
    "white,95.05,100,108.90\n";

NamedPrimaryReadings primaries_in(const std::string& text) {
    const auto read = parse_primary_readings(text, "read.csv");
    EXPECT_TRUE(read.has_value()) << text;
    return *read;
}

void expect_primaries_refused(const std::string& text, const std::string& place,
                              const std::string& part) {
    try {
        static_cast<void>(parse_primary_readings(text, "read.csv"));
        ADD_FAILURE() << text;
    } catch (const Error& error) {
        const std::string said = error.what();
        EXPECT_EQ(said.rfind(place + ": ", 0), 0U) << said;
        EXPECT_NE(said.find(part), std::string::npos) << said;
    }
}

TEST(PrimaryReadingsCsv, ALuminanceHasSeveralNames) {
    for (const char* heading :
         {"Y", "L", "Lv", "luminance", "Luminance cd/m2", "Lv (cd/m2)", "Y [nits]", "Y (%)"}) {
        const auto read = primaries_in("light,x,y," + std::string(heading) + "\n" + srgb_rows);
        ASSERT_TRUE(read.readings.luminances_known()) << heading;
        EXPECT_NEAR(*read.readings.primaries[1].luminance, 71.52, 1e-12) << heading;
    }
    EXPECT_FALSE(primaries_in("light,x,y,duration\n" + srgb_rows).readings.luminances_known());
}

TEST(PrimaryReadingsCsv, NeedANameAndXYOrXYZInTheirHeadings) {
    // What lacks one of them is no such table, and some other reader's.
    const std::string rows = "red,1,2,3\ngreen,1,2,3\nblue,1,2,3\nwhite,1,2,3\n";
    for (const char* headings : {"name,x,duration,Y", "name,duration,y,Y", "name,X,Y,duration",
                                 "name,duration,Y,Z", "duration,x,y,Y"}) {
        EXPECT_FALSE(parse_primary_readings(headings + ("\n" + rows), "read.csv")) << headings;
    }
}

TEST(PrimaryReadingsCsv, AnotherObserversValuesAreRefused) {
    for (const char* heading : {"x (10),y (10),Y (10)", "x10,y10,Y10", "x_10,y_10,Y_10",
                                "x [10°],y,Y", "x (CIE 1964),y,Y", "x (2015),y,Y"}) {
        expect_primaries_refused("name," + std::string(heading) + "\n" + srgb_rows, "read.csv:1:6",
                                 "observer");
    }
    expect_primaries_refused("name,x,y,Y (10)\n" + srgb_rows, "read.csv:1:10", "observer");
    expect_primaries_refused("name,x (nm),y,Y\n" + srgb_rows, "read.csv:1:6", "unit");
    expect_primaries_refused("name,x,y,Y (lm)\n" + srgb_rows, "read.csv:1:10", "unit");
    for (const char* heading : {"x (2),y (2),Y (2)", "x2,y2,Y2", "x (CIE 1931),y (1931),Y",
                                "x [CIE 1931 2°],y [2 deg],Y"}) {
        EXPECT_EQ(
            primaries_in("name," + std::string(heading) + "\n" + srgb_rows).readings.white.xy.x(),
            0.3127)
            << heading;
    }
}

TEST(PrimaryReadingsCsv, AColumnStandsThereOnce) {
    expect_primaries_refused("light,x,y,Y,name\n" + srgb_rows, "read.csv:1:13", "a second column");
    expect_primaries_refused("name,light,x,y,Y\n" + srgb_rows, "read.csv:1:6", "a second column");
    expect_primaries_refused("name,x,y,Y,x,y,Y\n" + srgb_rows, "read.csv:1:12", "a second column");
}

TEST(PrimaryReadingsCsv, XyBesideXyzMustSayTheSame) {
    const auto with_xy = [](const char* green) {
        return "name,X,Y,Z,x,y\nred,41.24,21.26,1.93,0.64,0.33\ngreen,35.76,71.52,11.92," +
               std::string(green) +
               "\nblue,18.05,7.22,95.05,0.15,0.06\nwhite,95.05,100,108.9,0.3127,0.329\n"
               "black,0,0,0,0,0\n";
    };
    EXPECT_NEAR(primaries_in(with_xy("0.30,0.60")).readings.primaries[1].xy.x(), 0.3, 1e-4);
    expect_primaries_refused(with_xy("0.31,0.60"), "read.csv:3:1", "by X, Y, Z x 0.3000");
    expect_primaries_refused(with_xy("0.60,0.30"), "read.csv:3:1", "by X, Y, Z");
    // A luminance beside Y: in any unit, but the same one.
    const auto with_lv = [](const char* green) {
        return "name,X,Y,Z,Lv\nred,41.24,21.26,1.93,42.5\ngreen,35.76,71.52,11.92," +
               std::string(green) + "\nblue,18.05,7.22,95.05,14.4\nwhite,95.05,100,108.9,200\n";
    };
    EXPECT_NEAR(*primaries_in(with_lv("143")).readings.primaries[1].luminance, 71.52, 1e-12);
    expect_primaries_refused(with_lv("71"), "read.csv:3:25", "a luminance of 71 beside a Y of");
}

TEST(PrimaryReadingsCsv, ABlackTooDarkToBeReadIsNone) {
    const PrimaryReadings without = primaries_in("name,x,y,Y\n" + srgb_rows).readings;
    for (const char* black :
         {"black,0,0,0\n", "black,0.3127,0.329,0\n", "black,,,0\n", "black,---,---,0.00\n"}) {
        const PrimaryReadings read = primaries_in("name,x,y,Y\n" + srgb_rows + black).readings;
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_LT((read.primaries.at(k).xy - without.primaries.at(k).xy).distance(), 1e-12);
        }
    }
    const std::string xyz = "name,X,Y,Z\n" + srgb_xyz_rows;
    EXPECT_NEAR(*primaries_in(xyz + "black,0,0,0\n").readings.white.luminance, 100.0, 1e-12);
    // Noise around zero.
    EXPECT_NEAR(*primaries_in(xyz + "black,-0.01,-0.02,0.01\n").readings.white.luminance, 100.02,
                1e-12);
    // By hand: 21.26 - 1 over 41.24 - 1 + 21.26 - 1 + 1.93 - 1.
    EXPECT_NEAR(primaries_in(xyz + "black,1,1,1\n").readings.primaries[0].xy.y(), 20.26 / 61.43,
                1e-12);
}

TEST(PrimaryReadingsCsv, ABlackThatIsNoneIsRefusedWhereItStands) {
    expect_primaries_refused("name,X,Y,Z\n" + srgb_xyz_rows + "black,-1,-1,-1\n", "read.csv:6:1",
                             "below zero");
    expect_primaries_refused("name,x,y,Y\n" + srgb_rows + "black,0.3,0.3,-1\n", "read.csv:6:1",
                             "below zero");
    expect_primaries_refused("name,x,y,Y\n" + srgb_rows + "black,0.3,0.3,22\n", "read.csv:2:1",
                             "red no brighter than black");
    expect_primaries_refused(
        "name,x,y\nred,0.64,0.33\ngreen,0.3,0.6\nblue,0.15,0.06\n"
        "white,0.31,0.33\nblack,0.3,0.3\n",
        "read.csv:6:1", "a black of which only x, y are given");
}

TEST(PrimaryReadingsCsv, ALightWithoutLightIsRefusedWhereItStands) {
    expect_primaries_refused(
        "name,x,y,Y\nred,0.64,0.33,21\ngreen,0.3,0.6,71\nblue,0.15,0.06,7\nwhite,0.31,0.33,0\n",
        "read.csv:5:1", "white without light");
    expect_primaries_refused(
        "name,x,y,Y\nred,0.64,0.33,21\ngreen,0.3,0.6,71\nblue,0.15,0.06,7\nwhite,0.31,0,100\n",
        "read.csv:5:1", "y of 0");
}

TEST(PrimaryReadingsCsv, LightsHaveTheirNamesInEveryLanguage) {
    const PrimaryReadings english = primaries_in("name,x,y,Y\n" + srgb_rows).readings;
    const PrimaryReadings other = primaries_in(
                                      "name,x,y,Y\nweiß,0.3127,0.3290,100\nR,0.64,0.33,21.26\n"
                                      "VERDE,0.30,0.60,71.52\n蓝,0.15,0.06,7.22\nnoir,0,0,0\n")
                                      .readings;
    EXPECT_LT((english.white.xy - other.white.xy).distance(), 1e-12);
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_LT((english.primaries.at(k).xy - other.primaries.at(k).xy).distance(), 1e-12) << k;
    }
    expect_primaries_refused("name,x,y,Y\nrot,0.64,0.33,21\nred,0.64,0.33,21\n", "read.csv:3:1",
                             "a second \"red\"");
}

}  // namespace
}  // namespace samelight::io
