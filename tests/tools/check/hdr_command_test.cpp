// samelight hdr: its screen, its JSON and what it refuses. The second route is the demo's generator, whose numbers stand in
// data/demo/proof/make_hdr.py.
#include <cmath>
#include <sstream>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/first_screens.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string hdr_demo = "hdr proof/client-set-hdr.csv --white 0.3127,0.3290";

TEST(Hdr, SaysPeakWhiteLimiterAndPq) {
    const Said said = run_in_demo(hdr_demo);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    expect_first_screen(said.out, 14);
    for (const char* words : {"Peak", "holds light back from 25 %", "10 % still has the peak",
                              "of white", "rolled off"}) {
        EXPECT_TRUE(page_says(said.out, words)) << words << said.out;
    }
}

TEST(Hdr, JsonHasWhatTheGeneratorPutIn) {
    const json answer = json_in_demo(hdr_demo);
    EXPECT_EQ(answer["schema"], "samelight/hdr/1");
    ASSERT_EQ(answer["windows"].size(), 8U);
    EXPECT_EQ(answer["reference_window_pct"], 10.0);
    const json& full = answer["windows"][7];
    // Means of fades of 0, 1.2 and 2.4 %.
    EXPECT_NEAR(full["Y_cd_m2"].get<double>(), 1040.0 * 0.24 * 0.988, 2.0);
    EXPECT_NEAR(full["fade_relative"].get<double>(), -0.024, 0.008);
    EXPECT_EQ(full["fade_s"], 40.0);
    EXPECT_NEAR(full["sum_over_white"].get<double>(), (0.165 + 0.52 + 0.058) / 0.988, 0.006);
    // Chosen white 0.3127, 0.3290; the generator's 0.3134, 0.3283.
    EXPECT_NEAR(answer["windows"][3]["off_chosen_xy"].get<double>(), std::hypot(0.0007, 0.0007),
                0.0004);
    EXPECT_EQ(answer["limiter"]["holds_to_pct"], 10.0);
    EXPECT_EQ(answer["limiter"]["falls_at_pct"], 25.0);
    const json& tracking = answer["tracking"];
    EXPECT_EQ(tracking["end"], "roll_off");
    EXPECT_NEAR(tracking["roll_off"]["programme_cd_m2"].get<double>(), 4000.0, 120.0);
    EXPECT_NEAR(tracking["roll_off"]["peak_cd_m2"].get<double>(), 1040.0, 10.0);
    EXPECT_LT(tracking["tracking_de_itp"].get<double>(), 0.3);
    expect_report(hdr_demo, {figure(full["Y_cd_m2"].get<double>(), 1)});
}

TEST(Hdr, ItsPageWithDetailsHasEveryWindowAndGrey) {
    const Said said = run_in_demo(hdr_demo + " --details");
    for (const char* words : {"White by window", "100 %", "Greys of PQ", "75 %", "Rests on"}) {
        EXPECT_TRUE(page_says(said.out, words)) << words << said.out;
    }
}

TEST(Hdr, TellsWhiteThatDoesNotHold) {
    EXPECT_EQ(run_in_demo("hdr proof/client-set-hdr.csv --white 0.3000,0.3150")
                  .out.rfind("White is off in HDR", 0),
              0U);
}

TEST(Hdr, OneReadingOfWhiteIsNoneThatHolds) {
    const Scratch scratch;
    const std::string one =
        quoted(scratch.file("one.csv", "level_pct,x,y,Y\n100,0.3127,0.329,700\n"));
    const Said said = run("hdr " + one);
    EXPECT_EQ(said.out.rfind("Can't tell", 0), 0U) << said.out << said.err;
    for (const char* words :
         {"read full white in windows of", "a ladder of greys in PQ, 6 at least",
          "The file has no window_pct", "6 are wanted"}) {
        EXPECT_TRUE(page_says(said.out, words)) << words << said.out;
    }
    const json answer = json::parse(run("hdr " + one + " --json").out);
    EXPECT_EQ(answer["verdict"], "cannot_tell");
    EXPECT_EQ(answer["missing"], json::parse(R"(["windows","greys"])"));
    EXPECT_EQ(answer["no_tracking"], "few_greys");
    EXPECT_EQ(answer["greys_read"], 1);
    EXPECT_EQ(answer["greys_wanted"], 6);
    EXPECT_EQ(answer["windows_supposed"], 1);
}

TEST(Hdr, FewGreysAreCounted) {
    const Scratch scratch;
    const std::string few = quoted(scratch.file(
        "few.csv",
        "level_pct,window_pct,x,y,Y\n100,10,0.3127,0.329,700\n100,50,0.3127,0.329,690\n"
        "50,10,0.3127,0.329,92\n25,10,0.3127,0.329,5\n3,10,0.3127,0.329,0.01\n"));
    const Said said = run("hdr " + few);
    EXPECT_EQ(said.out.rfind("White holds in every window", 0), 0U) << said.out << said.err;
    EXPECT_TRUE(page_says(said.out, "3 greys were read of 0.05 cd/m2 or more")) << said.out;
    EXPECT_TRUE(page_says(said.out, "(and 1 darker); 6 are wanted")) << said.out;
    EXPECT_FALSE(page_says(said.out, "window_pct")) << said.out;
    EXPECT_EQ(json::parse(run("hdr " + few + " --json").out)["verdict"], "holds_in_part");
}

TEST(Hdr, PqThatIsNotFollowedIsSaidOnce) {
    const Scratch scratch;
    std::istringstream rows(slurp(SAMELIGHT_DATA "/demo/proof/client-set-hdr.csv"));
    std::string text;
    for (std::string row; std::getline(rows, row);) {
        // Greys, the last of whose cells is their luminance, a third brighter.
        const std::size_t at = row.rfind(',');
        const bool grey = row[0] == ',';
        text +=
            (grey ? row.substr(0, at + 1) + figure(1.33 * std::stod(row.substr(at + 1)), 6) : row) +
            "\n";
    }
    const std::string asked = "hdr " + quoted(scratch.file("bright.csv", text));
    const Said said = run(asked);
    EXPECT_EQ(said.out.rfind("PQ isn't followed", 0), 0U) << said.out << said.err;
    EXPECT_TRUE(page_says(said.out, "PQ not followed, off by")) << said.out;
    EXPECT_FALSE(page_says(said.out, "PQ to ")) << said.out;
    EXPECT_EQ(json::parse(run(asked + " --json").out)["verdict"], "pq_off");
}

TEST(Hdr, RefusesInOneLine) {
    const Scratch scratch;
    const auto file = [&scratch](const std::string& text) {
        return quoted(scratch.file("readings.csv", text));
    };
    const auto refused = [](const std::string& asked, const std::string& part) {
        expect_refusal(run("hdr " + asked), 1, part);
        expect_refusal(run("hdr " + asked + " --json"), 1, part);
    };
    refused(file("level_pct,x,y,Y\n50,0.31,0.33,100\n"), "no full white");
    refused(file("level_pct,x,y,Y\n100,0.31,0.33,0\n"), "one of 0.1 to 100000 cd/m2");
    refused(file("level_pct,x,y,Y\n100,0.31,0.33,abc\n"), "readings.csv:2:15");
    refused(file("level_pct,x,y,Y\n100,0.31,0.33,1e-300\n"), "readings.csv: a full white of");
    refused(file("level_pct,x,y,Y\n100,0.31,0.33,1e9\n"), "up to 20000 cd/m2");
    refused(file("level_pct,window_pct,x,y,Y\n100,0,0.31,0.33,5\n"), "readings.csv:2:5");
    refused(file("level_pct,x,y,Y\n100,0.31,0.33,100\n") + " --white 2,3", "--white");
    refused("nowhere.csv", "nowhere.csv");
    expect_refusal(run("hdr"), 2, "READINGS");
}

}  // namespace
}  // namespace samelight::test
