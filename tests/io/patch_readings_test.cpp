// Files of patch readings and lists of patches: what is understood, and what is refused in one line.
#include <array>
#include <string>

#include <gtest/gtest.h>

#include "samelight/io/patch_list_csv.hpp"
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {
namespace {

PatchReadingsFile parsed(const std::string& text) {
    return parse_patch_readings_csv(text, "visit.csv");
}

void expect_refused(const std::string& text, const std::string& part) {
    try {
        static_cast<void>(parsed(text));
        ADD_FAILURE() << "taken: " << text;
    } catch (const Error& error) {
        const std::string what = error.what();
        EXPECT_NE(what.find(part), std::string::npos) << what;
        EXPECT_EQ(what.find('\n'), std::string::npos) << what;
    }
}

// ITU-R BT.2100-2, Table 9: limited range at 10 bits is 64 to 940.
TEST(PatchReadings, TakeCodesLevelsOrNames) {
    const auto codes =
        parsed("patch,r,g,b,bits,range,x,y,Y\nwhite,940,940,940,10,limited,.3127,.329,100\n");
    ASSERT_EQ(codes.rows.size(), 1U);
    EXPECT_DOUBLE_EQ(codes.rows[0].signal->at(0), 1.0);
    EXPECT_EQ(codes.rows[0].quantisation->bits(), 10);
    EXPECT_NEAR(codes.rows[0].xyz[1], 100.0, 1e-12);
    const auto levels = parsed(
        "level_pct,X,Y,Z,window_pct,mode,position,time,repeat\n50,20,21,22,10,night,top left,3.5,2\n");
    EXPECT_DOUBLE_EQ(levels.rows[0].signal->at(2), 0.5);
    EXPECT_EQ(levels.rows[0].position, "top left");
    EXPECT_EQ(levels.rows[0].mode, "night");
    EXPECT_EQ(levels.rows[0].repeat, 2);
    EXPECT_DOUBLE_EQ(*levels.rows[0].time_s, 3.5);
    EXPECT_DOUBLE_EQ(*levels.rows[0].window_pct, 10.0);
    const auto names = parsed("patch,x,y,Y\ngrey-50,.31,.33,20\n");
    EXPECT_FALSE(names.rows[0].signal);
    EXPECT_EQ(names.rows[0].patch, "grey-50");
    EXPECT_EQ(names.rows[0].line, 2U);
}

TEST(PatchReadings, SayWhichDepthAndRangeTheyTookCodesToHave) {
    const auto eight = parsed("r,g,b,X,Y,Z\n255,255,255,95,100,108\n");
    EXPECT_DOUBLE_EQ(eight.rows[0].signal->at(0), 1.0);
    const auto ten = parsed("r,g,b,X,Y,Z\n1023,0,0,95,100,108\n");
    EXPECT_DOUBLE_EQ(ten.rows[0].signal->at(0), 1.0);
    std::string said;
    for (const std::string& sentence : ten.understood) {
        said += sentence + "\n";
    }
    EXPECT_NE(said.find("10 bits"), std::string::npos) << said;
    EXPECT_NE(said.find("full range"), std::string::npos) << said;
}

TEST(PatchReadings, AreReadAsInstrumentsExportThem) {
    const auto file = parsed(
        "\xEF\xBB\xBFSession of spring\r\nPatch;x;y;Y (nit);Instrument\r\nRot;0,640;0,330;21,26;meter\r\n");
    EXPECT_EQ(file.rows[0].patch, "Rot");
    EXPECT_NEAR(file.rows[0].xyz[1], 21.26, 1e-12);
    // A black that the instrument couldn't read.
    for (const char* black : {"0,0,0", ",,0", ",,0.0000", "---,---,0", "NaN,NaN,0.00", "-,,0"}) {
        const auto dark = parsed("patch,x,y,Y\nwhite,.3,.3,90\nblack," + std::string(black) + "\n");
        EXPECT_EQ(dark.rows.at(1).xyz, (std::array{0.0, 0.0, 0.0})) << black;
    }
}

TEST(PatchReadings, RefuseInOneLine) {
    expect_refused("patch,Y\nwhite,100\n", "columns X, Y, Z or x, y, Y");
    expect_refused("colour,shade\nwhite,100\n", "no heading row");
    expect_refused("patch,x,y,Y\n", "no reading");
    expect_refused("patch,x,y,Y\n,.3,.3,1\n", "visit.csv:2:");
    expect_refused("patch,level_pct,x,y,Y\nw,120,.3,.3,1\n", "0 to 109");
    expect_refused("patch,r,g,b,level_pct,x,y,Y\nw,1,1,1,50,.3,.3,1\n", "one of the two");
    expect_refused("patch,r,g,b,bits,X,Y,Z\nw,300,0,0,8,1,1,1\n", "255");
    expect_refused("patch,instrument,X,Y,Z\nw,meter,1,1,1\nw,reference,1,1,1\n",
                   "one instrument's readings");
    expect_refused("patch,X,Y,Z\nw,1,nan,1\n", "a number");
    // Only where nothing was read; a light has a colour, and half a colour is a slip.
    expect_refused("patch,x,y,Y\nblack,,,0.001\n", "an empty cell");
    expect_refused("patch,x,y,Y\nblack,.31,,0\n", "an empty cell");
    expect_refused("patch,x,y,Y\nblack,dark,,0\n", "dark");
}

TEST(PatchLists, HoldSignalsOrSurfaces) {
    const auto signals =
        parse_patch_list_csv("patch,r,g,b\nsky,100,120,200\n,10,10,10\n", "list.csv");
    ASSERT_EQ(signals.signals.size(), 2U);
    EXPECT_EQ(signals.signals[0].name, "sky");
    EXPECT_EQ(signals.signals[1].name, "patch-2");
    EXPECT_EQ(signals.signals[1].group, SignalGroup::grey);
    EXPECT_NEAR(signals.signals[0].signal[2], 200.0 / 255.0, 1e-12);
    // Values beside the signals are left alone, even empty ones.
    EXPECT_EQ(parse_patch_list_csv("patch,level_pct,X,Y,Z\ng,50,,,\n", "list.csv").signals.size(),
              1U);
    const auto surfaces = parse_patch_list_csv(
        "wavelength_nm,leaf,brick\n400,5,10\n500,10,12\n600,8,30\n700,50,40\n", "list.csv");
    ASSERT_EQ(surfaces.surfaces.size(), 2U);
    EXPECT_NEAR(surfaces.surfaces[1].reflectance.at(600.0), 0.30, 1e-12);
    EXPECT_THROW(static_cast<void>(parse_patch_list_csv("patch,x\na,1\n", "list.csv")), Error);
    EXPECT_THROW(static_cast<void>(parse_patch_list_csv("patch,r,g,b\na,,,\n", "list.csv")), Error);
    EXPECT_THROW(static_cast<void>(parse_patch_list_csv(
                     "wavelength_nm,a\n400,500\n500,900\n600,2\n", "list.csv")),
                 Error);
}

}  // namespace
}  // namespace samelight::io
