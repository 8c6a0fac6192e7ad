// `samelight compare`, as a person or a program calls it. The demo's display aged by known amounts: red kept 97 %, green 98.5 %, blue 90 % of its light
// (data/demo/proof/make_visits.py).
#include <cmath>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/first_screens.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string demo = "compare proof/client-set-then.csv proof/client-set-now-year.csv";

/// What was put in lies within the stated doubt.
void expect_held(const json& change, double truth) {
    EXPECT_LE(std::abs(change["change"].get<double>() - truth),
              change["expanded_uncertainty"].get<double>())
        << change << " " << truth;
}

TEST(CompareCommand, TheFirstScreenSaysWhatToDoAndWhatAged) {
    const Said said = run_in_demo(demo + " --months 12");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    expect_first_screen(said.out, 13);
    EXPECT_EQ(said.out.rfind("Set the white again:", 0), 0U) << said.out;
    EXPECT_TRUE(page_says(said.out, "Blue lost ")) << said.out;
    EXPECT_TRUE(page_says(said.out, "Today: white, set it, white again, greys: ")) << said.out;
}

TEST(CompareCommand, TheEmittersLossesLieWithinTheirDoubt) {
    const json answer = json_in_demo(demo);
    EXPECT_EQ(answer["schema"], "samelight/compare/1");
    EXPECT_EQ(answer["verdict"], "set_white");
    EXPECT_EQ(answer["best_kept"], "green");
    EXPECT_EQ(answer["aged"].back(), "blue");
    const json& emitters = answer["emitters"];
    expect_held(emitters[2]["log_luminance_against_best"], std::log(0.90 / 0.985));
    expect_held(emitters[0]["log_luminance_against_best"], std::log(0.97 / 0.985));
    // Meter and display together: the gain of the meter, 99 %, is in all three.
    expect_held(emitters[2]["log_luminance"], std::log(0.90 * 0.99));
    EXPECT_TRUE(answer["target_life"]["months_left"].is_null());
    EXPECT_EQ(answer["scatter"]["from"], "repeats");
}

TEST(CompareCommand, ACorrectionIsJudged) {
    const Scratch scratch;
    const std::string file = (scratch.path() / "client.json").string();
    ASSERT_EQ(run_in_demo("meter fit client-set-readings.csv --write " + quoted(file)).exit_code,
              0);
    const json answer = json_in_demo(demo + " --correction " + quoted(file));
    EXPECT_EQ(answer["correction"], "holds") << answer.dump(1);
    expect_held(answer["emitters"][2]["log_luminance_against_best"], std::log(0.90 / 0.985));
    const json two =
        json_in_demo(demo + " --correction " + quoted(file) + " --then-correction " + quoted(file));
    EXPECT_EQ(two["correction"], "holds") << "one file named twice is one correction";
}

TEST(CompareCommand, SpectraPartMeterAndDisplay) {
    // The same spectra at both visits: whatever the meter says moved is then its own.
    const json answer =
        json_in_demo(demo + " --then-spectra client-set.csv --now-spectra client-set.csv");
    EXPECT_EQ(answer["by_spectra"]["display_white_xy"]["x"]["change"], 0.0);
    EXPECT_NEAR(answer["by_spectra"]["meter_white_xy"]["x"]["change"].get<double>(),
                answer["white"]["xy"]["x"]["change"].get<double>(), 1e-12);
    EXPECT_EQ(answer["emitters"][0]["moved_nm"], 0.0);
}

TEST(CompareCommand, TheSameVisitTwiceIsNoChange) {
    const json answer =
        json_in_demo("compare proof/client-set-then.csv proof/client-set-then.csv --months 12");
    EXPECT_EQ(answer["verdict"], "leave");
    EXPECT_TRUE(answer["findings"].empty());
    EXPECT_EQ(answer["today_min"], 0.0);
    const Said page =
        run_in_demo("compare proof/client-set-then.csv proof/client-set-then.csv --months 12");
    EXPECT_TRUE(page_says(page.out, "No emitter lost light")) << page.out;
    EXPECT_TRUE(page_says(page.out, "Today there is nothing more to do.")) << page.out;
}

TEST(CompareCommand, ReportsForBothReaders) {
    const std::string page = expect_report(demo + " --months 12", {"blue", "red"});
    EXPECT_NE(page.find("tell apart: a meter that lost gain"), std::string::npos);
    const Scratch scratch;
    const std::string file = (scratch.path() / "client.html").string();
    ASSERT_EQ(run_in_demo(demo + " --months 12 --for client --report " + quoted(file)).exit_code,
              0);
    const std::string client = slurp(file);
    EXPECT_NE(client.find("Your display"), std::string::npos);
    EXPECT_EQ(client.find("chi squared"), std::string::npos);
    EXPECT_EQ(client.find("u', v'"), std::string::npos);
}

TEST(CompareCommand, BadInputIsOneLine) {
    const Scratch scratch;
    const std::string white_only = scratch.file("w.csv", "patch,X,Y,Z\nwhite,95,100,108\n");
    const std::string dark =
        scratch.file("d.csv", "patch,X,Y,Z\nwhite,0,0,0\nred,0,0,0\ngreen,0,0,0\nblue,0,0,0\n");
    const std::string other = scratch.file(
        "o.csv",
        "patch,X,Y,Z,mode\nwhite,95,100,108,game\nred,41,21,2,game\ngreen,36,72,12,game\nblue,18,7,95,game\n");
    const std::string good = std::string(SAMELIGHT_DATA) + "/demo/proof/client-set-then.csv";
    const std::string both = "compare " + quoted(good) + " " + quoted(good);
    expect_refusal(run("compare " + good + " " + white_only), 1, "red, green, blue");
    expect_refusal(run("compare " + dark + " " + dark), 1, "above black");
    expect_refusal(run("compare " + good + " " + other), 1, "mode");
    expect_refusal(run("compare " + good + " /nowhere.csv"), 1, "/nowhere.csv");
    expect_refusal(run(both + " --months 0"), 1, "--months");
    expect_refusal(run(both + " --limit 0"), 1, "--limit");
    expect_refusal(run(both + " --white 0.3"), 1, "--white");
    expect_refusal(run(both + " --white 0.9,0.9"), 1, "--white");
    expect_refusal(run(both + " --mode game"), 1, "game");
    expect_refusal(run(both + " --then-spectra " + good), 1, "--now-spectra");
    expect_refusal(run(both + " --then-correction " + good), 1, "--correction");
    expect_refusal(run(both + " --correction " + good), 1, "client-set-then.csv");
    expect_refusal(run("compare " + good), 2, "NOW");
    expect_refusal(run(both + " --months 0 --json"), 1, "--months");
}

}  // namespace
}  // namespace samelight::test
