// `samelight white` from a display in numbers: readings at the edge of what is possible, types that can't make the white, and the words of
// what is refused.
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string for_some = " --people 64 ";
// The primaries of IEC 61966-2-1:1999.
const std::string srgb_primaries = "red=0.64,0.33 green=0.3,0.6 blue=0.15,0.06 ";

bool warned_reading(const json& panel, const std::string& code) {
    for (const json& warning : panel["warnings"]) {
        if (warning["code"] == code) return true;
    }
    return false;
}

json panels_in_numbers(const std::string& primaries, const std::string& more = "") {
    const Said said = run("white --primaries " + quoted(primaries) + more + for_some + " --json");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return json::parse(said.out)["panels"];
}

// Invented readings; beyond 630 nm the spectral locus lies so near to x + y = 1 that four decimals make it that (the z of CIE 1931 is below .00005 there).
// Second route: the same in a file.
TEST(WhiteReadings, ALasersRedInFourDecimalsIsNoSlip) {
    const std::string how = " --type laser-rgb";
    const json typed = panels_in_numbers(
        "red=0.7171,0.2829,27.041 green=0.1136,0.8262,67.9 blue=0.1349,0.0407,5.1 "
        "white=0.3127,0.3290,100",
        how)[0];
    const Scratch scratch;
    const std::string file = scratch.file("read.csv",
                                          "name,x,y,Y\nred,0.7171,0.2829,27.041\n"
                                          "green,0.1136,0.8262,67.9\nblue,0.1349,0.0407,5.1\n"
                                          "white,0.3127,0.3290,100\n");
    const Said said = run("white " + quoted(file) + how + for_some + " --json");
    const json read = json::parse(said.out)["panels"][0];
    for (const char* axis : {"x", "y"}) {
        EXPECT_NEAR(typed["targets"][0][axis], read["targets"][0][axis].get<double>(), 1e-9);
    }
    // Beyond what noise does both refuse.
    expect_refusal(run("white --primaries 'red=0.73,0.29 green=0.1136,0.8262 blue=0.1349,0.0407 "
                       "white=0.3127,0.3290'" +
                       how),
                   1, "--primaries: \"0.73,0.29\"");
}

TEST(WhiteReadings, ATypeThatCantMakeTheWhiteLeavesTheOthers) {
    const json panels = panels_in_numbers(srgb_primaries + "white=0.23,0.33");
    ASSERT_FALSE(panels.empty());
    double sum = 0.0;
    for (const json& panel : panels) {
        EXPECT_NE(panel["type"]["name"], "lcd-white-led");
        sum += panel["type"]["probability"].get<double>();
    }
    EXPECT_NEAR(sum, 1.0, 0.01);
    expect_refusal(
        run("white --type lcd-white-led --primaries " + quoted(srgb_primaries + "white=0.23,0.33")),
        1, "display: a white that most units of the type lcd-white-led can't make");
}

// Duv by hand from the nearest point of Planck's locus: 0.103 and 0.004; CIE 15:2018 gives no colour temperature beyond 0.05.
TEST(WhiteReadings, AWhiteThatIsNoneIsSaidAndLeft) {
    const json far = panels_in_numbers(srgb_primaries + "white=0.395,0.195", " --type lcd-ccfl")[0];
    EXPECT_TRUE(warned_reading(far, "read_white_is_no_white"));
    EXPECT_EQ(far["advice"]["verdict"], "LEAVE");
    const json near =
        panels_in_numbers(srgb_primaries + "white=0.3127,0.329", " --type lcd-ccfl")[0];
    EXPECT_FALSE(warned_reading(near, "read_white_is_no_white"));
}

TEST(WhiteReadings, WhatBlackLeavesNothingOfIsNamed) {
    const std::string lights =
        "red=0.64,0.33,21 green=0.3,0.6,71 blue=0.15,0.06,7 white=0.3127,0.329,99";
    expect_refusal(run("white --primaries " + quoted(lights + " black=0.3,0.3,21")), 1,
                   "--primaries: red no brighter than black");
    const std::string how = " --type crt";
    EXPECT_EQ(panels_in_numbers(lights, how)[0]["targets"],
              panels_in_numbers(lights + " black=0,0,0", how)[0]["targets"]);
}

TEST(WhiteReadings, LuminancesAreOfAllLightsOrNone) {
    expect_refusal(run("white --primaries "
                       "'red=0.64,0.33,21 green=0.3,0.6 blue=0.15,0.06,7 white=0.3127,0.329,99'"),
                   1, "--primaries: a luminance (Y) of some lights and not of others");
}

TEST(WhiteReadings, AReferencesYIsSaidNotToCount) {
    const Said with = run("white crt --json --reference 0.3127,0.329,100" + for_some);
    const json reference = json::parse(with.out)["reference"];
    EXPECT_NE(reference["understood"].dump().find("the Y of 100 isn't used"), std::string::npos);
    const Said wrong = run("white crt --reference 0.8,0.4");
    expect_refusal(wrong, 1, "--reference: \"0.8,0.4\"");
    EXPECT_EQ(wrong.err.find("x,y,Y"), std::string::npos) << wrong.err;
}

TEST(WhiteReadings, LightsAreTypedInEveryLanguage) {
    const std::string how = " --type crt";
    EXPECT_EQ(panels_in_numbers("ROT=0.64,0.33 G=0.3,0.6 blau=0.15,0.06 weiß=0.3127,0.329",
                                how)[0]["targets"],
              panels_in_numbers(srgb_primaries + "white=0.3127,0.329", how)[0]["targets"]);
    expect_refusal(run("white --primaries 'rot=0.64,0.33 red=0.64,0.33'"), 1, "a second \"red=");
}

TEST(WhiteReadings, NamesAreHeadedAsInOtherFilesAndATableAcrossIsToldWhatIsWanted) {
    const Scratch scratch;
    for (const char* heading : {"Color", "Sample", "patch"}) {
        const std::string file = scratch.file(
            "headed.csv", std::string(heading) +
                              ",x,y,Y\nred,.6754,.3244,27.24\ngreen,.1566,.7696,57.04\n"
                              "blue,.1426,.0348,3.722\nwhite,.3154,.3322,88.01\n");
        const Said said = run("white --people 16 " + quoted(file));
        EXPECT_EQ(said.exit_code, 0) << said.err;
        EXPECT_TRUE(page_says(said.out, "only oled-rgb reads so")) << said.out;
    }
    const std::string across =
        scratch.file("across.csv", "light,R,G,B,W\nx,.675,.157,.143,.315\ny,.324,.77,.035,.332\n");
    expect_refusal(run("white " + quoted(across)), 1, "headed name,x,y,Y");
}

}  // namespace
}  // namespace samelight::test
