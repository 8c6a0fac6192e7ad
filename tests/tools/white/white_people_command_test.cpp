// `samelight white` with people: viewers, matches by eye, populations, what is doubtful about it all, and pages that say it plainly.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string tube = " --reference crt@0.3127,0.3290 ";

json panel_of(const std::string& arguments) {
    const Said said = run("white " + arguments + " --json");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return json::parse(said.out)["panels"][0];
}

/// All that the page can say.
std::string page_of(const std::string& arguments) {
    return run("white " + arguments + " --details").out;
}

std::size_t widest(const std::string& page) {
    std::istringstream lines(page);
    std::size_t result = 0;
    for (std::string line; std::getline(lines, line);) {
        result = std::max(
            result, static_cast<std::size_t>(std::count_if(line.begin(), line.end(), [](char c) {
                return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
            })));
    }
    return result;
}

double seen(const json& panel, std::size_t viewer, const std::string& candidate) {
    for (const json& s : panel["viewers"][viewer]["seen"]) {
        if (s["candidate"] == candidate) {
            return s["uv"];
        }
    }
    return std::nan("");
}

// The white dialled in is the one that was judged: the viewers' own.
TEST(WhitePeople, TheWhiteDialledInIsTheWhiteJudged) {
    for (const char* panel_name : {"oled-rgb", "oled-white", "laser-rgb", "lcd-white-led"}) {
        for (const int age : {20, 45, 65, 80}) {
            const json panel = panel_of(panel_name + tube + "--viewer " + std::to_string(age));
            EXPECT_NEAR(panel["advice"]["white"]["x"],
                        panel["viewers"][0]["target"]["x"].get<double>(), 1e-12);
            EXPECT_NEAR(panel["household_target"]["y"], panel["advice"]["white"]["y"].get<double>(),
                        1e-9);
            if (panel["advice"]["verdict"] == "MOVE") {
                EXPECT_LT(seen(panel, 0, "compromise"), seen(panel, 0, "left as it is"));
            }
        }
    }
    const std::string page = page_of("oled-rgb" + tube + "--viewer 65");
    const json panel = panel_of("oled-rgb" + tube + "--viewer 65");
    const std::string y = std::to_string(panel["household_target"]["y"].get<double>()).substr(0, 4);
    EXPECT_TRUE(page_says(page, "(for viewer A)")) << page;
    EXPECT_TRUE(page_says(page, ", y " + y)) << page;
    EXPECT_TRUE(page_says(
        page, "MOVE: it brings the white nearer to the reference for viewer A: expected is DE00 "))
        << page;
    EXPECT_TRUE(page_says(page_of("lcd-narrow-red" + tube + "--viewer 60 --viewer 65"),
                          "(for viewers A and B)"));
}

TEST(WhitePeople, ViewersWhoPullOppositeWaysAskTheEyes) {
    for (const char* panel_name : {"oled-rgb", "oled-rgb@0.3063,0.3249"}) {
        const json advice = panel_of(panel_name + tube + "--viewer 25 --viewer 65")["advice"];
        EXPECT_EQ(advice["verdict"], "ASK THE EYES") << panel_name;
        EXPECT_EQ(advice["reason"].get<std::string>().rfind(
                      "viewers A and B want whites on opposite sides", 0),
                  0U);
    }
    // The observer who pulls is named, not the last of the list.
    const json named = panel_of(
        "lcd-narrow-red" + tube +
        "--observer cie2015-2deg --observer cie2015-10deg --observer cie1931-2deg")["advice"];
    EXPECT_EQ(named["verdict"], "ASK THE EYES");
    const std::string reason = named["reason"];
    EXPECT_NE(reason.find("CIE 2015, 10 degrees"), std::string::npos) << reason;
    EXPECT_EQ(reason.find("CIE 1931"), std::string::npos) << reason;
}

// A white to set by eye is one to begin from; a white that is to be left is no order.
TEST(WhitePeople, TheNumbersAreOfferedAsTheVerdictSays) {
    EXPECT_TRUE(page_says(page_of("oled-rgb" + tube + "--viewer 45"), "dial in x 0.30"));
    const std::string ask = page_of("oled-rgb" + tube + "--viewer 25 --viewer 65");
    EXPECT_TRUE(page_says(ask, "begin from x 0.30")) << ask;
    EXPECT_FALSE(page_says(ask, "dial in")) << ask;
    const std::string leave = page_of("crt --reference crt");
    EXPECT_TRUE(page_says(leave, "LEAVE")) << leave;
    EXPECT_TRUE(page_says(leave, "leave it; it would be x ")) << leave;
    EXPECT_FALSE(page_says(leave, "dial in")) << leave;
}

// Columns of a viewer's line are apart even where the differences are large.
TEST(WhitePeople, AViewersColumnsAreApart) {
    const std::string page = page_of("oled-rgb --viewer 25 --viewer 70");
    const std::regex cell("([^ ]?)(0\\.[0-9]{4} DE [0-9]{2}\\.[0-9])([^ \n]?)");
    int cells = 0;
    for (std::sregex_iterator at(page.begin(), page.end(), cell), end; at != end; ++at) {
        EXPECT_EQ((*at)[1].length(), 0) << page;
        EXPECT_EQ((*at)[3].length(), 0) << page;
        ++cells;
    }
    EXPECT_GE(cells, 2) << page;
}

TEST(WhitePeople, TheWhiteAsItStandsIsTheGroupsToo) {
    // The reference is the very set as it stands.
    const json panel =
        panel_of("oled-rgb@0.305,0.320 --reference oled-rgb@0.305,0.320 --viewer 25 --viewer 65");
    for (const json& viewer : panel["viewers"]) {
        EXPECT_NEAR(viewer["target"]["x"], 0.305, 1e-9);
        EXPECT_NEAR(viewer["target"]["y"], 0.320, 1e-9);
        for (const json& s : viewer["seen"]) {
            EXPECT_LT(s["uv"].get<double>(), 1e-7);
        }
    }
    EXPECT_EQ(panel["advice"]["verdict"], "LEAVE");
}

TEST(WhitePeople, AGenericPanelIsNeverSureToNothing) {
    for (const std::string& arguments :
         {"oled-rgb@0.3063,0.3249" + tube, "oled-rgb@0.3063,0.3249" + tube + "--viewer 45",
          std::string("crt --reference crt"), "oled-white@0.3093,0.3199" + tube + "--budget"}) {
        const std::string page = page_of(arguments);
        EXPECT_FALSE(page_says(page, "within 0.000 ")) << page;
        EXPECT_FALSE(page_says(page, "within 0.0000 ")) << page;
    }
    const json native = panel_of("oled-rgb" + tube)["targets"][0]["type_range_95"];
    const json as_set = panel_of("oled-rgb@0.3063,0.3249" + tube)["targets"][0]["type_range_95"];
    EXPECT_NEAR(as_set["y"], native["y"].get<double>(), 1e-6);
}

TEST(WhitePeople, AViewersWhiteSaysHowSureItIs) {
    const json generic = panel_of("oled-rgb" + tube + "--viewer 45")["viewers"][0];
    EXPECT_GT(generic["half_width_y"].get<double>(),
              2.0 * std::sqrt(generic["covariance_xy"][3].get<double>()));  // the unit's type, too
    EXPECT_EQ(generic["deviations"]["lens_percent"], 0.0);
    EXPECT_EQ(generic["deviations"].size(), 8U);
    const json matched =
        panel_of("oled-rgb" + tube + "--viewer 45 --eye A=0.3050,0.3160")["viewers"][0];
    EXPECT_LT(matched["half_width_y"].get<double>(), generic["half_width_y"].get<double>());
    EXPECT_NE(matched["deviations"]["lens_percent"], 0.0);
    const std::string page = page_of("oled-rgb" + tube + "--viewer 45 --budget");
    EXPECT_TRUE(page_says(page, "±0.0")) << page;
    EXPECT_FALSE(page_says(page, "name the viewer")) << page;
    EXPECT_FALSE(page_says(page, "which observer describes the eye")) << page;
    EXPECT_TRUE(page_says(page, "how well the viewers' own eyes are known")) << page;
}

TEST(WhitePeople, AnImpossibleMatchByEyeIsSaid) {
    const json swapped =
        json::parse(run("white oled-rgb" + tube + "--viewer 40 --eye A=0.3185,0.3060 --json").out);
    ASSERT_FALSE(swapped["viewer_notes"].empty());
    EXPECT_EQ(swapped["viewer_notes"][0]["code"], "eye_far_from_normal");
    EXPECT_TRUE(page_says(page_of("oled-rgb" + tube + "--viewer 40 --eye A=0.3185,0.3060"),
                          "far from what any normal eye"));
    const Said odd = run("white oled-rgb" + tube + "--viewer 40 --eye A=0.2,0.5 --json");
    if (odd.exit_code == 0) {
        const json answer = json::parse(odd.out);
        EXPECT_EQ(answer["viewer_notes"][0]["code"], "eye_far_from_normal");
        EXPECT_LT(answer["panels"][0]["viewers"][0]["target"]["y"], 1.0);
    } else {
        expect_refusal(odd, 1, "match by eye");
    }
    EXPECT_TRUE(
        json::parse(run("white oled-rgb" + tube + "--viewer 40 --eye A=0.3060,0.3185 --json")
                        .out)["viewer_notes"]
            .empty());
}

TEST(WhitePeople, ThePopulationSeesTheFieldAskedFor) {
    const json large = panel_of("oled-rgb" + tube + "--observer cie2015-10deg")["population"];
    const json small = panel_of("oled-rgb" + tube)["population"];
    const json between = panel_of("oled-rgb" + tube + "--observer cie2006:40:4.5")["population"];
    EXPECT_EQ(large["field_deg"], 10.0);
    EXPECT_EQ(small["field_deg"], 2.0);
    EXPECT_EQ(between["field_deg"], 4.5);
    EXPECT_NE(large["mean"]["x"], small["mean"]["x"]);
    const std::string page = page_of("oled-rgb" + tube + "--observer cie1964-10deg");
    EXPECT_TRUE(page_says(page, "1,024 computed people, 20 to 70 years, evenly, seeing 10 degrees"))
        << page;
    EXPECT_FALSE(page_says(page, "Sobol")) << page;
}

TEST(WhitePeople, PeopleFewAndMany) {
    expect_refusal(run("white oled-rgb --people 1000000"), 1, "1 to 100000");
    const Said negative = run("white oled-rgb --people -1");
    expect_refusal(negative, 1, "-1 people; wanted 1 to 100000");
    const json one = panel_of("oled-rgb" + tube + "--people 1")["population"];
    EXPECT_EQ(one["people"], 1);
    EXPECT_TRUE(one["people_for_mean"].is_null());
    EXPECT_EQ(one["pair_share"], 0.0);
    EXPECT_TRUE(page_says(page_of("oled-rgb" + tube + "--people 1"), "one computed person"));
    const std::string few = page_of("oled-rgb" + tube + "--people 8");
    EXPECT_TRUE(page_says(few, "More than 8 people are needed")) << few;
    EXPECT_FALSE(page_says(page_of("crt" + tube), "visibly off"));
}

TEST(WhitePeople, NothingIsLeftOutInSilence) {
    const Scratch scratch;
    std::string text = "wavelength_nm,white\n";
    for (int nm = 380; nm <= 780; nm += 5) {
        text += std::to_string(nm) + "," + (nm >= 480 && nm <= 520 ? "1" : "0") + "\n";
    }
    const std::string cyan = scratch.file("cyan.csv", text);
    const json panel = panel_of("lcd-white-led --reference " + quoted(cyan) + " --viewer 25");
    EXPECT_TRUE(std::any_of(panel["warnings"].begin(), panel["warnings"].end(),
                            [](const json& w) { return w["code"] == "not_judged"; }));
    const Said room = run("white lcd-white-led oled-rgb --json --reference " + quoted(cyan));
    EXPECT_EQ(room.exit_code, 0) << room.err;
    EXPECT_EQ(json::parse(room.out)["room_warnings"][0]["code"], "room_left_out");
    EXPECT_TRUE(page_says(page_of("lcd-white-led oled-rgb --reference " + quoted(cyan)),
                          "Setting the displays together is left out"));
    const json people = panel_of("oled-rgb" + tube)["population"];
    EXPECT_EQ(people["outside_gamut"], 0);
    EXPECT_EQ(people["without_target"], 0);
}

TEST(WhitePeople, CountsNamedViewersAndNamesTheWorstPair) {
    const std::string three = "oled-white" + tube + "--viewer 25 --viewer 45 --viewer 65";
    const std::string page = page_of(three);
    const json viewers = panel_of(three)["viewers"];
    EXPECT_GT(viewers[0]["disagreement"][2], viewers[0]["disagreement"][1]);
    EXPECT_TRUE(page_says(page, "u'v' apart: A and C")) << page;
    EXPECT_FALSE(page_says(page, "in 10 viewers")) << page;
    const std::string budget = page_of("oled-rgb" + tube + "--budget");
    EXPECT_TRUE(page_says(budget, "stray light up to 0.0002 and noise of 0.0005")) << budget;
}

// Who has set the white by eye isn't asked to; and what no normal eye would set moves nothing.
TEST(WhitePeople, AdviceKnowsWhoHasMatched) {
    const std::string two = "oled-rgb" + tube + "--viewer 30 --viewer 60 ";
    EXPECT_TRUE(page_says(page_of(two), "--eye A=x,y")) << page_of(two);
    EXPECT_TRUE(page_says(page_of(two + "--eye A=0.3055,0.3170"), "--eye B=x,y"));
    const std::string one = page_of("oled-rgb" + tube + "--viewer 30 --eye A=0.3055,0.3170");
    EXPECT_FALSE(page_says(one, "--eye A=x,y")) << one;
    const std::string wild = "oled-rgb" + tube + "--viewer 30 --eye A=.25,.4";
    EXPECT_EQ(panel_of(wild)["advice"]["verdict"], "LEAVE");
    EXPECT_TRUE(page_says(page_of(wild), "no ground to move it")) << page_of(wild);
    EXPECT_FALSE(page_says(page_of(wild), "dial in"));
    // A noisy instrument leaves the match less sure.
    const Scratch scratch;
    const std::string measured = quoted(scratch.file("set.csv", as_measured("oled-rgb"))) + tube +
                                 "--viewer 30 --eye A=0.3055,0.3170";
    EXPECT_GT(panel_of(measured + " --noise 0.01")["viewers"][0]["half_width_x"].get<double>(),
              1.5 * panel_of(measured)["viewers"][0]["half_width_x"].get<double>());
}

// A white that no mixture of the panel's lights makes is another display's.
TEST(WhitePeople, TheWhiteOfAnotherDisplayIsNoticed) {
    const Scratch scratch;
    const auto white_file = [&](const std::string& name) {
        std::istringstream rows(as_measured(name));
        std::string text;
        std::getline(rows, text);
        text = "wavelength_nm,white\n";
        for (std::string row; std::getline(rows, row);) {
            double nm = 0, r = 0, g = 0, b = 0;
            if (std::sscanf(row.c_str(), "%lf,%lf,%lf,%lf", &nm, &r, &g, &b) == 4) {
                text += std::to_string(nm) + "," + std::to_string(1e3 * (r + g + 0.9 * b)) + "\n";
            }
        }
        return quoted(scratch.file(name + ".csv", text));
    };
    const auto warned = [](const std::string& arguments) {
        const json warnings = panel_of(arguments)["warnings"];
        return std::any_of(warnings.begin(), warnings.end(),
                           [](const json& w) { return w["code"] == "now_of_another_display"; });
    };
    EXPECT_FALSE(warned("oled-rgb --now " + white_file("oled-rgb")));
    for (const char* other : {"lcd-white-led", "lcd-narrow-red", "oled-quantum-dot"}) {
        EXPECT_TRUE(warned("oled-rgb --now " + white_file(other))) << other;
    }
}

TEST(WhitePeople, ACoarseFileBringsItsStep) {
    const Scratch scratch;
    std::istringstream fine(as_measured("lcd-narrow-red"));
    std::string coarse;
    for (std::string line; std::getline(fine, line);) {
        const bool number = !line.empty() && line[0] >= '0' && line[0] <= '9';
        if (!number || line.find("0,") == 2) {  // every 10 nm
            coarse += line + "\n";
        }
    }
    const std::string file = scratch.file("coarse.csv", coarse);
    const json budget = panel_of(quoted(file) + tube)["budget"];
    EXPECT_EQ(budget["step_nm"], 10.0);
    double size = 0.0;
    for (const json& part : budget["parts"]) {
        if (part["code"] == "sampling") {
            size = std::sqrt(part["covariance_xy"][0].get<double>() +
                             part["covariance_xy"][3].get<double>());
        }
    }
    EXPECT_GT(size, 0.0005);
}

// The README's row of shares by type is what the command says.
TEST(WhitePeople, TheSharesOfTheReadmeAreThese) {
    std::istringstream readme(slurp(std::filesystem::path(SAMELIGHT_DATA) / ".." / "README.md"));
    std::string row;
    while (std::getline(readme, row) && row.find("LCD, narrow-line red |") == std::string::npos) {
    }
    std::getline(readme, row);  // |---|
    std::getline(readme, row);
    std::replace(row.begin(), row.end(), '|', ' ');
    std::istringstream cells(row);
    for (const char* panel_name : {"lcd-narrow-red", "lcd-white-led", "lcd-quantum-dot",
                                   "oled-white", "oled-rgb", "oled-quantum-dot", "laser-rgb"}) {
        double said = 0.0;
        ASSERT_TRUE(cells >> said) << row;
        EXPECT_NEAR(panel_of(panel_name + tube)["population"]["pair_share"], said, 0.005001)
            << panel_name;
    }
}

TEST(WhitePeople, PagesAndHelpAreWithin100Columns) {
    EXPECT_LE(widest(run("white --help").out), 100U) << run("white --help").out;
    for (const std::string& arguments :
         {"oled-rgb" + tube + "--viewer 45.123456789:3.14159265358979 --budget",
          "laser-rgb oled-white@0.3093,0.3199" + tube + "--viewer 25.5:9.95 --viewer 80:10",
          "oled-rgb" + tube + "--observer cie2006:45.25:3.75 --people 7"}) {
        const std::string page = page_of(arguments);
        EXPECT_LE(widest(page), 100U) << page;
        EXPECT_FALSE(page.empty());
    }
}

}  // namespace
}  // namespace samelight::test
