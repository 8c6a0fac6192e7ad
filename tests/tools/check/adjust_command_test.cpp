// samelight adjust: its screen, its JSON, two passes of the demo, and what it refuses. The second route is the demo's generator, whose numbers stand
// in data/demo/proof/make_controls.py.
#include <cmath>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/first_screens.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string demo_pass =
    "adjust proof/client-set-greys.csv --controls proof/client-set-controls.csv";
const std::string demo_second_pass =
    "adjust proof/client-set-greys-2.csv --controls proof/client-set-controls.csv --moved ";

TEST(Adjust, SaysWhatToSetFirst) {
    const Said said = run_in_demo(demo_pass);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    expect_first_screen(said.out, 12);
    EXPECT_EQ(said.out.rfind("Set ", 0), 0U) << said.out;
    const json answer = json_in_demo(demo_pass);
    EXPECT_EQ(answer["schema"], "samelight/adjust/1");
    EXPECT_EQ(answer["verdict"], "set");
    for (const json& step : answer["steps"]) {
        const int steps = step["steps"].get<int>();
        const std::string words =
            step["control"].get<std::string>() + (steps > 0 ? " +" : " ") + std::to_string(steps);
        EXPECT_EQ(page_says(said.out, words), steps != 0) << words << said.out;
    }
    EXPECT_TRUE(page_says(said.out, "x " + figure(answer["white"]["after"]["x"].get<double>(), 4)));
    EXPECT_TRUE(page_says(said.out, "read the greys again"));
    expect_report(demo_pass, {figure(answer["white"]["after"]["y"].get<double>(), 4)});
}

TEST(Adjust, TheDemoLandsInTwoPasses) {
    const json first = json_in_demo(demo_pass);
    // What the generator sets for the second pass (SET) is what the first advises.
    const std::string moved = first["moved_then"].get<std::string>();
    EXPECT_EQ(moved, "red gain 3, blue gain -6, red offset -3, green offset 2, blue offset 3");
    const json second = json_in_demo(demo_second_pass + quoted(moved));
    EXPECT_GT(first["white"]["off_read_xy"].get<double>(), 0.009);
    EXPECT_LT(second["white"]["off_read_xy"].get<double>(), first["largest_step_xy"].get<double>());
    // Read again, white is where it was said to be.
    for (const char* axis : {"x", "y"}) {
        EXPECT_NEAR(second["white"]["read"][axis].get<double>(),
                    first["white"]["after"][axis].get<double>(),
                    first["white"]["doubt_95"][axis].get<double>());
    }
    // The menu's limits are counted from where it stands.
    EXPECT_EQ(second["controls"][0]["least_steps"], -33);
    EXPECT_EQ(second["controls"][2]["most_steps"], 26);
}

TEST(Adjust, PointsAreNeededOrNot) {
    const std::string asked =
        demo_second_pass +
        "'red gain 3, blue gain -6, red offset -3, green offset 2, blue offset 3' --points ";
    const json ten = json_in_demo(asked + "10");
    const json named = json_in_demo(asked + "30,70");
    ASSERT_EQ(ten["points"].size(), 10U);
    ASSERT_EQ(named["points"].size(), 2U);
    EXPECT_EQ(ten["points"][2], named["points"][0]);
    EXPECT_EQ(named["points"][0]["need"], "needed");
    EXPECT_LT(named["points"][0]["off_with_xy"].get<double>(),
              named["points"][0]["off_without_xy"].get<double>());
    EXPECT_EQ(named["points"][1]["need"], "not_needed");
    const Said said = run_in_demo(asked + "10");
    expect_first_screen(said.out, 13);
    EXPECT_TRUE(page_says(said.out, "Within 0.0015 without:")) << said.out;
}

TEST(Adjust, WithoutControlsItIsATry) {
    const Said said = run_in_demo("adjust proof/client-set-greys.csv");
    EXPECT_EQ(said.out.rfind("Try ", 0), 0U) << said.out;
    EXPECT_TRUE(page_says(said.out, "(--controls)")) << said.out;
    const json answer = json_in_demo("adjust proof/client-set-greys.csv");
    EXPECT_EQ(answer["verdict"], "set_roughly");
    EXPECT_FALSE(answer["controls_read"].get<bool>());
    EXPECT_GT(answer["white"]["doubt_95"]["x"].get<double>(), 0.002);
}

TEST(Adjust, NamesTheMenusEnd) {
    const Scratch scratch;
    std::string controls = slurp(SAMELIGHT_DATA "/demo/proof/client-set-controls.csv");
    for (std::size_t at = controls.find("-30,20"); at != std::string::npos;
         at = controls.find("-30,20")) {
        controls.replace(at, 6, "-1,1");
    }
    const std::string asked = "adjust proof/client-set-greys.csv --controls " +
                              quoted(scratch.file("controls.csv", controls));
    const json answer = json_in_demo(asked);
    EXPECT_EQ(answer["verdict"], "out_of_reach");
    EXPECT_GT(answer["out_of_reach_xy"].get<double>(), 0.004);
    EXPECT_TRUE(page_says(run_in_demo(asked).out, "Out of reach:"));
}

/// The demo's controls, those whose names begin so read as if nothing had been moved.
std::string controls_locked(const std::string& start) {
    std::istringstream rows(slurp(SAMELIGHT_DATA "/demo/proof/client-set-controls.csv"));
    std::string text;
    int toggled = 0;
    for (std::string row; std::getline(rows, row);) {
        std::vector<std::string> cells;
        std::istringstream in(row);
        for (std::string cell; std::getline(in, cell, ',');) {
            cells.push_back(cell);
        }
        const bool one = !cells.empty() && cells[0].find(' ') != std::string::npos &&
                         row[0] != '#' && row.rfind(start, 0) == 0;
        if (one) {
            // The two readings of 0 steps, in turn.
            const bool white = cells[2] == "100";
            const bool second = toggled++ % 2 == 1;
            row = cells[0] + "," + cells[1] + "," + cells[2] +
                  (white    ? (second ? ",0.3063,0.3218,139.44" : ",0.3060,0.3222,139.71")
                   : second ? ",0.3115,0.3223,8.2099"
                            : ",0.3114,0.3226,8.2297") +
                  ",-30,20";
        }
        text += row + "\n";
    }
    return text;
}

TEST(Adjust, AControlThatDoesNotAnswerIsNamedAndNotMoved) {
    const Scratch scratch;
    const std::string asked = "adjust proof/client-set-greys.csv --controls " +
                              quoted(scratch.file("locked.csv", controls_locked("red gain")));
    const Said said = run_in_demo(asked);
    EXPECT_EQ(said.exit_code, 0) << said.err;
    expect_first_screen(said.out, 14);
    EXPECT_TRUE(page_says(said.out, "Red gain doesn't answer: is the mode locked?")) << said.out;
    EXPECT_FALSE(page_says(said.out, "red gain +")) << said.out;
    EXPECT_FALSE(page_says(said.out, "red gain -")) << said.out;
    const json answer = json_in_demo(asked);
    EXPECT_EQ(answer["no_answer"], json::parse(R"(["red gain"])"));
    EXPECT_EQ(answer["steps"].size(), 5U);
    EXPECT_EQ(answer["verdict"], "set");
    EXPECT_FALSE(answer["controls"][0]["answers"].get<bool>());
    EXPECT_TRUE(answer["controls"][1]["answers"].get<bool>());
}

TEST(Adjust, AMenuThatIsLockedIsSaidFirst) {
    const Scratch scratch;
    const std::string asked = "adjust proof/client-set-greys.csv --controls " +
                              quoted(scratch.file("locked.csv", controls_locked("")));
    const Said said = run_in_demo(asked);
    EXPECT_EQ(said.out.rfind("Nothing can be set", 0), 0U) << said.out << said.err;
    EXPECT_TRUE(page_says(said.out, "is the mode locked?")) << said.out;
    EXPECT_FALSE(page_says(said.out, "read the greys again")) << said.out;
    const json answer = json_in_demo(asked);
    EXPECT_EQ(answer["verdict"], "no_answer");
    EXPECT_EQ(answer["no_answer"].size(), 6U);
    EXPECT_TRUE(answer["steps"].empty());
}

TEST(Adjust, LeavesAloneWhatIsRight) {
    const Scratch scratch;
    std::string greys = "level_pct,x,y,Y\n";
    for (const int level : {20, 40, 60, 80, 100}) {
        greys += std::to_string(level) + ",0.3127,0.3290," +
                 figure(100.0 * std::pow(level / 100.0, 2.4), 4) + "\n";
    }
    const Said said = run("adjust " + quoted(scratch.file("greys.csv", greys)));
    EXPECT_EQ(said.out.rfind("Nothing to set", 0), 0U) << said.out << said.err;
}

TEST(Adjust, RefusesInOneLine) {
    const Scratch scratch;
    const auto greys = [&scratch](const std::string& rows) {
        return quoted(scratch.file("greys.csv", "level_pct,x,y,Y\n" + rows));
    };
    const std::string good = greys("50,0.31,0.32,20\n100,0.31,0.32,100\n");
    const auto controls = [&scratch](const std::string& rows) {
        return " --controls " +
               quoted(scratch.file("controls.csv", "control,steps,level_pct,x,y,Y,least\n" + rows));
    };
    const auto refused = [](const std::string& asked, const std::string& part) {
        expect_refusal(run("adjust " + asked), 1, part);
        expect_refusal(run("adjust " + asked + " --json"), 1, part);
    };
    refused(good + " --points 1", "--points");
    refused(good + " --points 10,5", "--points");
    refused(good + " --points ten", "--points");
    refused(good + " --moved 'red gain'", "--moved");
    refused(good + " --moved 'red gain 1, red gain 2'", "second");
    refused(good + " --moved 'red gain 900' " + controls("red gain,5,100,0.33,0.32,101,-3\n"),
            "0 steps");
    refused(good + controls("tint,5,100,0.33,0.32,101,\n"), "controls.csv:2:1");
    refused(good + controls("red gain,half,100,0.33,0.32,101,\n"), "controls.csv:2:10");
    refused(good + controls("red offset,5,,0.33,0.32,101,\n"), "level");
    refused(good + controls("red gain,5,100,0.33,0.32,101,3\n"), "-1000 to 0");
    refused(good + controls("red gain,5,70,0.33,0.32,101,\n"), "70 %");
    refused(good + controls("red gain,0,100,0.33,0.32,101,\n"), "moved");
    refused(good + " --controls nowhere.csv", "nowhere.csv");
    refused(greys("50,0.31,0.32,20\n"), "no reading of white");
    refused(greys("50,0.31,0.32,20\n100,0.7,0.29,100\n"), "white");
    refused(greys("100,0.31,0.32,0\n"), "white");
    // So small that its ratios overflow, or larger than any display's.
    for (const char* white : {"1e-300", "1e-310", "0.001", "1e9"}) {
        refused(greys("50,0.31,0.32,0.0001\n100,0.31,0.32," + std::string(white) + "\n"),
                "greys.csv");
    }
    expect_refusal(run("adjust"), 2, "GREYS");
}

}  // namespace
}  // namespace samelight::test
