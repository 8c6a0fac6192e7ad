// `samelight white` from the numbers that are at hand on site: x, y of the white now and of the reference, a match by eye of nobody in
// particular; and `samelight meter choose` from a correction alone.
#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdio>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string numbers_folder = SAMELIGHT_DATA "/demo/";
const std::string numbers_client_set = quoted(numbers_folder + "client-set.csv");
const std::string from_numbers_tube = " --reference crt@0.3127,0.3290 ";

json white_from_numbers(const std::string& arguments) {
    const Said said = run("white " + arguments + " --json");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return json::parse(said.out);
}

bool warned_numbers(const json& warnings, const std::string& code) {
    for (const json& warning : warnings) {
        if (warning["code"] == code) {
            return true;
        }
    }
    return false;
}

// Second route: the display with its white set to the same x, y.
TEST(WhiteNumbers, AWhiteNowInNumbersIsMadeOfThePanelsSpectra) {
    for (const std::string& panel : {numbers_client_set, std::string("oled-white")}) {
        const json read =
            white_from_numbers(panel + from_numbers_tube + "--now 0.3100,0.3250")["panels"][0];
        const json set =
            white_from_numbers(panel + "@0.3100,0.3250" + from_numbers_tube)["panels"][0];
        EXPECT_EQ(read["targets"], set["targets"]);
        EXPECT_EQ(read["budget"], set["budget"]);
        EXPECT_NEAR(read["targets"][0]["left_to_go"]["delta_x"].get<double>(),
                    read["targets"][0]["x"].get<double>() - 0.3100, 1e-12);
        EXPECT_EQ(read["white_set_to"]["from"], "reading");
        EXPECT_EQ(set["white_set_to"]["from"], "setting");
        EXPECT_NE(read["rests_on"].get<std::string>().find("taken to be made"), std::string::npos);
    }
}

TEST(WhiteNumbers, ALuminanceIsCarriedOn) {
    const json panel = white_from_numbers(numbers_client_set + from_numbers_tube +
                                          "--now 0.3127,0.3290,120")["panels"][0];
    EXPECT_EQ(panel["white_set_to"]["luminance"], 120.0);
    const double ratio = panel["targets"][0]["luminance_ratio"];
    char said[32];
    std::snprintf(said, sizeof said, "its Y is then %.1f", 120.0 * ratio);
    EXPECT_TRUE(page_says(
        run("white " + numbers_client_set + from_numbers_tube + "--now 0.3127,0.3290,120").out,
        said));
}

TEST(WhiteNumbers, AWrongWhiteNowIsBlamedOnItself) {
    expect_refusal(run("white " + numbers_client_set + " --now 0.9,0.9"), 1, "--now: \"0.9,0.9\"");
    expect_refusal(run("white " + numbers_client_set + " --now 0.3,0.3,-4"), 1,
                   "--now: \"0.3,0.3,-4\"");
    expect_refusal(run("white " + numbers_client_set + " --now 0.3"), 1, "");
    expect_refusal(run("white " + numbers_client_set + " --now 0.7,0.25"), 1, "--now 0.7,0.25: ");
    expect_refusal(run("white " + numbers_client_set + " crt --now 0.31,0.32"), 1,
                   "--now: 2 panels");
}

// D65's own x, y: CIE 15:2018, Table 3 (0.31272, 0.32903).
TEST(WhiteNumbers, AReferenceInNumbersIsReadAsDaylight) {
    const json named = white_from_numbers(numbers_client_set + " --reference D65");
    const json typed = white_from_numbers(numbers_client_set + " --reference 0.31272,0.32903");
    EXPECT_NEAR(typed["panels"][0]["targets"][0]["x"], named["panels"][0]["targets"][0]["x"], 1e-4);
    EXPECT_NEAR(typed["panels"][0]["targets"][0]["y"], named["panels"][0]["targets"][0]["y"], 1e-4);
    EXPECT_TRUE(warned_numbers(typed["reference"]["warnings"], "reference_read_as_daylight"));
    EXPECT_FALSE(warned_numbers(named["reference"]["warnings"], "reference_read_as_daylight"));
    const std::string page = run("white " + numbers_client_set + " --reference 0.3127,0.3290").out;
    EXPECT_TRUE(page_says(page, "Give NAME@x,y for a display as it is set.")) << page;
    expect_refusal(run("white " + numbers_client_set + " --reference 0.4476,0.4074"), 1,
                   "--reference 0.4476,0.4074: ");
    expect_refusal(run("white " + numbers_client_set + " --reference 0.8,0.4"), 1, "--reference: ");
    EXPECT_EQ(run("metamerism crt oled-rgb --people 64 --reference 0.3127,0.3290").exit_code, 0);
}

// The doubt about the age enters, and a match by eye takes most of it away.
TEST(WhiteNumbers, AMatchByEyeNeedsNoAge) {
    const json alone =
        white_from_numbers(numbers_client_set + from_numbers_tube + "--eye 0.3060,0.3185");
    const json lettered =
        white_from_numbers(numbers_client_set + from_numbers_tube + "--eye A=0.3060,0.3185");
    EXPECT_EQ(alone["panels"], lettered["panels"]);
    EXPECT_TRUE(warned_numbers(alone["viewer_notes"], "viewer_age_unknown"));
    const json viewer = alone["panels"][0]["viewers"][0];
    EXPECT_TRUE(viewer["age_years"].is_null());
    const json unmatched = white_from_numbers(numbers_client_set + from_numbers_tube +
                                              "--viewer unknown")["panels"][0]["viewers"][0];
    const json aged = white_from_numbers(numbers_client_set + from_numbers_tube +
                                         "--viewer 45")["panels"][0]["viewers"][0];
    EXPECT_GT(unmatched["half_width_y"].get<double>(), aged["half_width_y"].get<double>());
    EXPECT_LT(viewer["half_width_y"].get<double>(), 0.5 * aged["half_width_y"].get<double>());
    EXPECT_TRUE(page_says(
        run("white " + numbers_client_set + from_numbers_tube + "--eye 0.3060,0.3185").out,
        "A: any age, 2 deg"));
}

TEST(WhiteNumbers, MatchesByEyeSayWhomTheyMiss) {
    expect_refusal(run("white oled-rgb --eye B=0.31,0.32"), 1, "no white by viewer A");
    expect_refusal(run("white oled-rgb --viewer 40 --eye B=0.31,0.32"), 1, "one more --viewer AGE");
    expect_refusal(run("white oled-rgb --eye A=white"), 1, "--eye A=white: ");
    expect_refusal(run("metamerism oled-rgb crt --viewer unknown"), 1, "an age");
}

/// What an instrument reads of the invented grading monitor, by `samelight spectrum`.
std::string readings_of_monitor(const char* separator, bool decimal_commas) {
    const Said said = run("spectrum " + quoted(numbers_folder + "grading-monitor.csv") + " --json");
    std::string text = std::string("light") + separator + "x" + separator + "y\n";
    const json file = json::parse(said.out);
    for (const json& column : file["columns"]) {
        std::string name = column["name"];
        name.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(name.front())));
        if (name == "black") {
            continue;
        }
        char row[80];
        std::snprintf(row, sizeof row, "%s%s%.4f%s%.4f\n", name.c_str(), separator,
                      column["chromaticities"][0]["x"].get<double>(), separator,
                      column["chromaticities"][0]["y"].get<double>());
        text += row;
    }
    if (decimal_commas) {
        std::replace(text.begin(), text.end(), '.', ',');
    }
    return text;
}

// Second route: the monitor's own spectra.
TEST(WhiteNumbers, ADisplayInNumbersComesNearItsSpectra) {
    const Scratch scratch;
    const json own = white_from_numbers(quoted(numbers_folder + "grading-monitor.csv") +
                                        from_numbers_tube)["panels"][0];
    const std::string file = quoted(scratch.file("read.csv", readings_of_monitor(",", false)));
    const json read =
        white_from_numbers(file + " --type oled-rgb" + from_numbers_tube)["panels"][0];
    EXPECT_EQ(read["kind"], "readings");
    EXPECT_EQ(read["type"]["name"], "oled-rgb");
    for (const char* axis : {"x", "y"}) {
        EXPECT_NEAR(read["targets"][0][axis], own["targets"][0][axis].get<double>(),
                    read["targets"][0]["type_range_95"][axis].get<double>())
            << axis;
    }
    EXPECT_LT(read["targets"][0]["type_range_95"]["y"], 0.0015);
    EXPECT_NE(read["rests_on"].get<std::string>().find("bent until it reads"), std::string::npos);
    // The same in another country's habits, and of unknown type.
    const std::string other = quoted(scratch.file("andere.csv", readings_of_monitor(";", true)));
    const json unknown = white_from_numbers(other + from_numbers_tube);
    EXPECT_EQ(unknown["panels"][0]["targets"], read["targets"]);
    EXPECT_TRUE(unknown.contains("types_apart"));
    const std::string page = run("white " + other + from_numbers_tube + "--details").out;
    EXPECT_TRUE(page_says(page, "oled-rgb")) << page;
    EXPECT_TRUE(page_says(page, "diffraction grating")) << page;
    EXPECT_TRUE(page_says(page, "Units of this type that read so differ")) << page;
}

TEST(WhiteNumbers, ADisplayInNumbersCanBeTyped) {
    const std::string typed =
        "--primaries 'red=0.6798,0.3200,25 green=0.1467,0.7699,66; blue=0.1423,0.0352,4 "
        "white=0.3100,0.3283,95' ";
    const json read =
        white_from_numbers(typed + "--type oled-rgb" + from_numbers_tube)["panels"][0];
    const Scratch scratch;
    const std::string file = quoted(scratch.file(
        "read.csv",
        "# invented\nname,x,y,Y (cd/m2)\nwhite,0.3100,0.3283,95\nblue,0.1423,0.0352,4\n"
        "green,0.1467,0.7699,66\nred,0.6798,0.3200,25\n"));
    const json from_file =
        white_from_numbers(file + " --type oled-rgb" + from_numbers_tube)["panels"][0];
    for (const char* axis : {"x", "y"}) {
        EXPECT_NEAR(read["targets"][0][axis], from_file["targets"][0][axis].get<double>(), 1e-9);
    }
    EXPECT_EQ(run("white " + file + "@0.31,0.32 --type oled-rgb").exit_code, 0);
    EXPECT_EQ(run("white " + typed + "--now 0.31,0.32,90").exit_code, 0);
}

// A type that reads alike by a second one is offered with it, and the page says what decides.
TEST(WhiteNumbers, OfAnUnknownDisplayEachTypeThatReadsSoIsSaid) {
    const std::string page =
        run("white --primaries 'red=0.640,0.330 green=0.300,0.600 blue=0.150,0.060 "
            "white=0.3127,0.3290'" +
            from_numbers_tube)
            .out;
    EXPECT_TRUE(page_says(page, "a look at the display decides") || page_says(page, "only "))
        << page;
    EXPECT_TRUE(page_says(page, "grating")) << page;
}

TEST(WhiteNumbers, DisplaysInNumbersThatAreNoneAreRefused) {
    const Scratch scratch;
    const auto refused = [&](const std::string& rows, const std::string& part) {
        const std::string file = scratch.file("bad.csv", rows);
        expect_refusal(run("white " + quoted(file)), 1, part);
    };
    refused("name,x,y\nred,0.64,0.33\ngreen,0.3,0.6\nblue,0.15,0.06\n", "no row white");
    refused("name,x,y\nred,0.64,0.33\nred,0.3,0.6\n", "bad.csv:3:1");
    refused("name,x,y\nred,0.64,abc\n", "bad.csv:2:10");
    refused("name,x,y\nmauve,0.64,0.33\n", "red, green, blue, white or black");
    refused("name,x,y\nred,0.3,0.6\ngreen,0.64,0.33\nblue,0.15,0.06\nwhite,0.31,0.33\n",
            "each other's names");
    refused(
        "name,x,y\nred,0.64,0.33\ngreen,0.3,0.6\nblue,0.15,0.06\nwhite,0.31,0.33\n"
        "black,0.3,0.3\n",
        "a black of which only x, y are given");
    expect_refusal(run("white --primaries 'red=0.64,0.33'"), 1, "--primaries: no green");
    expect_refusal(run("white --primaries 'red=0.64'"), 1, "--primaries: ");
    expect_refusal(run("white oled-rgb --primaries 'red=0.64,0.33'"), 1, "--primaries");
    expect_refusal(run("white oled-rgb --type oled-rgb"), 1, "--type oled-rgb");
    const std::string good = quoted(scratch.file(
        "good.csv",
        "name,x,y\nred,0.68,0.32\ngreen,0.1467,0.7699\nblue,0.1423,0.0352\nwhite,0.31,0.3283\n"));
    expect_refusal(run("white " + good + " --type oled"), 1, "--type oled: ");
    expect_refusal(run("white " + good + " crt"), 1, "--type");
}

const std::string numbers_of_oled =
    "name,x,y\nred,0.68,0.32\ngreen,0.1467,0.7699\nblue,0.1423,0.0352\nwhite,0.31,0.3283\n";

TEST(WhiteNumbers, ReadingsComeFromStandardInput) {
    const Scratch scratch;
    const std::string file = quoted(scratch.file("read.csv", numbers_of_oled));
    const std::string how = " --type oled-rgb" + from_numbers_tube + "--people 64";
    const json by_name = white_from_numbers(file + how)["panels"][0];
    const json piped = white_from_numbers("-" + how + " <" + file)["panels"][0];
    EXPECT_EQ(piped["name"], "standard input");
    EXPECT_EQ(piped["targets"], by_name["targets"]);
    const Said set = run("white" + how + " --json -- -@0.31,0.32 <" + file);
    EXPECT_EQ(json::parse(set.out)["panels"][0]["white_set_to"]["x"], 0.31) << set.err;
}

// Displays in numbers stand among others where their type is named, in the order in which they were.
TEST(WhiteNumbers, OfANamedTypeDisplaysInNumbersStandAmongOthers) {
    const Scratch scratch;
    const std::string file = scratch.file("read.csv", numbers_of_oled);
    const json all = white_from_numbers("crt " + quoted(file) + " lcd-white-led --type oled-rgb" +
                                        from_numbers_tube + "--people 64")["panels"];
    ASSERT_EQ(all.size(), 3U);
    EXPECT_EQ(all[0]["kind"], "generic");
    EXPECT_EQ(all[1]["kind"], "readings");
    EXPECT_EQ(all[1]["name"], file);
    EXPECT_EQ(all[2]["kind"], "generic");
}

TEST(WhiteNumbers, AFaultyFileOfReadingsLeavesTheOthers) {
    const Scratch scratch;
    const std::string good = quoted(scratch.file("good.csv", numbers_of_oled));
    const std::string bad = scratch.file("bad.csv", "name,x,y\nred,0.64,abc\n");
    const std::string unlike = scratch.file(
        "unlike.csv", "name,x,y\nred,0.3,0.6\ngreen,0.64,0.33\nblue,0.15,0.06\nwhite,0.31,0.33\n");
    const Said said = run("white " + good + " " + quoted(bad) + " " + quoted(unlike) +
                          " --type oled-rgb --people 64 --json");
    EXPECT_EQ(said.exit_code, 1);
    const json answer = json::parse(said.out);
    EXPECT_EQ(answer["panels"].size(), 1U);
    ASSERT_EQ(answer["errors"].size(), 2U) << said.out;
    EXPECT_NE(said.err.find(bad + ":2:10: "), std::string::npos) << said.err;
    EXPECT_NE(said.err.find(unlike + ": primaries under each other's names"), std::string::npos)
        << said.err;
}

TEST(WhiteNumbers, ADisplayInNumbersStandsAlone) {
    const Scratch scratch;
    const std::string typed =
        "--primaries 'red=0.68,0.32 green=0.1467,0.7699 blue=0.1423,0.0352 white=0.31,0.3283'";
    const std::string light = quoted(scratch.file("light.csv", "nm,red\n380,1\n780,1\n"));
    const std::string files = " --red " + light + " --green " + light + " --blue " + light;
    expect_refusal(run("white " + typed + files), 1, "--primaries: another display beside it");
    expect_refusal(run("white " + typed + " --columns red=1"), 1,
                   "--primaries: columns of a file beside it");
    const std::string file = scratch.file("good.csv", numbers_of_oled);
    expect_refusal(run("white " + quoted(file) + " --columns red=1"), 1,
                   file + ": a table of readings");
    expect_refusal(run("metamerism crt " + quoted(file)), 1, file);
}

TEST(WhiteNumbers, ACorrectionAloneIsJudgedOnItsOwnDisplay) {
    const Scratch scratch;
    const std::string readings = quoted(numbers_folder + "client-set-readings.csv");
    const std::string file = quoted((scratch.path() / "kept.json").string());
    ASSERT_EQ(run("meter fit " + readings + " --panel " + numbers_client_set + " --write " + file)
                  .exit_code,
              0);
    // Second route: the display named beside it.
    const json both = json::parse(
        run("meter choose " + numbers_client_set + " --correction " + file + " --json").out);
    for (const std::string& how : {file, "--correction " + file}) {
        const Said said = run("meter choose " + how + " --json");
        ASSERT_EQ(said.exit_code, 0) << said.err;
        const json alone = json::parse(said.out);
        EXPECT_EQ(alone["panels"][0]["verdict"], both["panels"][0]["verdict"]);
        EXPECT_NEAR(alone["panels"][0]["with"][0]["expected_error"]["white_xy"],
                    both["panels"][0]["with"][0]["expected_error"]["white_xy"].get<double>(), 1e-4);
    }
    ASSERT_EQ(run("meter fit " + readings + " --write " + file).exit_code, 0);
    expect_refusal(run("meter choose " + file), 1, "no spectra of the display");
    expect_refusal(run("meter choose"), 2, "PANEL");
}

}  // namespace
}  // namespace samelight::test
