// `samelight compare`, as a person or a program calls it. The demo's display aged by known amounts: red kept 97 %, green 98.5 %, blue 90 % of its light
// (data/demo/proof/make_visits.py).
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

/// The demo's earlier visit with all its light times a factor: x and y stay.
std::string visit_times(double factor) {
    std::istringstream rows(slurp(SAMELIGHT_DATA "/demo/proof/client-set-then.csv"));
    std::string text;
    for (std::string row; std::getline(rows, row);) {
        std::size_t at = row.size();
        for (int i = 0; i < 3; ++i) {
            at = row.rfind(',', at - 1);
        }
        if (row[0] == '#' || row.rfind("patch", 0) == 0) {
            text += row + "\n";
            continue;
        }
        std::istringstream values(row.substr(at + 1));
        text += row.substr(0, at);
        for (std::string value; std::getline(values, value, ',');) {
            text += "," + figure(factor * std::stod(value), 6);
        }
        text += "\n";
    }
    return text;
}

TEST(CompareCommand, HalfTheLightIsTheFirstThingSaid) {
    const Scratch scratch;
    const std::string asked =
        "compare proof/client-set-then.csv " + quoted(scratch.file("half.csv", visit_times(0.5)));
    const Said said = run_in_demo(asked);
    expect_first_screen(said.out, 13);
    EXPECT_EQ(said.out.rfind("White's light fell by half, 50.0 %", 0), 0U) << said.out;
    EXPECT_TRUE(page_says(said.out, "see to backlight, brightness and energy saving")) << said.out;
    EXPECT_FALSE(page_says(said.out, "nothing more to do")) << said.out;
    const json answer = json_in_demo(asked);
    EXPECT_EQ(answer["verdict"], "see_to_light");
    EXPECT_TRUE(answer["light"]["changed"].get<bool>());
    expect_held(answer["light"]["log_luminance"], std::log(0.5));
    const std::string page = (scratch.path() / "client.html").string();
    ASSERT_EQ(run_in_demo(asked + " --for client --report " + quoted(page)).exit_code, 0);
    EXPECT_NE(slurp(page).find("50 % less light"), std::string::npos);
    const Said doubled = run_in_demo("compare proof/client-set-then.csv " +
                                     quoted(scratch.file("twice.csv", visit_times(2.0))));
    EXPECT_EQ(doubled.out.rfind("White's light doubled", 0), 0U) << doubled.out;
}

TEST(CompareCommand, HowLongIsSaidInMonthsOrInSpansBetweenVisits) {
    const json spans = json_in_demo(demo);
    const json months = json_in_demo(demo + " --months 12");
    const double likely = spans["target_life"]["spans_if_set_now"]["likely"].get<double>();
    EXPECT_NEAR(months["target_life"]["months_if_set_now"]["likely"].get<double>(), 12.0 * likely,
                1e-9);
    EXPECT_TRUE(spans["target_life"]["months_if_set_now"].is_null());
    EXPECT_TRUE(page_says(run_in_demo(demo).out,
                          figure(likely, 1) + " times as long as lay between the visits"));
    EXPECT_TRUE(spans["correction_life"].is_null());
    const Scratch scratch;
    const std::string file = (scratch.path() / "client.json").string();
    ASSERT_EQ(run_in_demo("meter fit client-set-readings.csv --write " + quoted(file)).exit_code,
              0);
    const std::string corrected = demo + " --months 12 --correction " + quoted(file);
    const json life = json_in_demo(corrected)["correction_life"];
    EXPECT_EQ(life["of"], "then");
    EXPECT_GE(life["spans_left"]["least"].get<double>(), 0.0);
    const std::string page = unwrapped(run_in_demo(corrected).out);
    EXPECT_TRUE(page.find("How long the correction will do") != std::string::npos ||
                page.find("The correction does, at this pace,") != std::string::npos)
        << page;
}

TEST(CompareCommand, TheWhiteMayBeAnAnswersOwn) {
    const Scratch scratch;
    const Said white = run_in_demo("white client-set.csv --people 64 --json");
    const std::string file = scratch.file("white.json", white.out);
    const json named = json_in_demo(demo + " --white " + quoted(file));
    const json answer = json::parse(white.out);
    const json& advice = answer["panels"][0]["advice"]["white"];
    EXPECT_EQ(named["white"]["target_from"], "named");
    EXPECT_NEAR(named["white"]["target_xy"][0].get<double>(), advice["x"].get<double>(), 1e-12);
    EXPECT_NEAR(named["white"]["target_xy"][1].get<double>(), advice["y"].get<double>(), 1e-12);
    expect_refusal(run_in_demo(demo + " --white " + quoted(file + "#nobody")), 1, "nobody");
    expect_refusal(run_in_demo(demo + " --white nowhere.json"), 1, "nowhere.json");
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
    const std::string tiny = scratch.file("t.csv", visit_times(1e-4));
    expect_refusal(run("compare " + good + " " + tiny), 1, "cd/m2 (now)");
    expect_refusal(run("compare " + tiny + " " + good), 1, "t.csv");
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
