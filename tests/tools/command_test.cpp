// The command as a person or a program calls it: answers, errors, exit codes.
#include <algorithm>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

// The trade's own experience (common practice, no source), through the whole command: about x 0.3067, y 0.3180 for a monitor with
// separate OLED emitters against a tube at 0.3127, 0.3290; another target for a narrow-line-red LCD.
TEST(White, SaysWhatTheTradeKnows) {
    const Said said =
        run("white oled-rgb lcd-narrow-red oled-white --reference crt@0.3127,0.3290 --json");
    ASSERT_EQ(said.exit_code, 0) << said.err;
    const json answer = json::parse(said.out);
    EXPECT_EQ(answer["schema"], "samelight/white/1");
    EXPECT_NEAR(answer["reference"]["x"], 0.3127, 1e-12);
    const json& oled = answer["panels"][0]["targets"][0];
    EXPECT_EQ(oled["observer"], "cie2015-2deg");
    EXPECT_NEAR(oled["x"], 0.3067, 0.003);
    EXPECT_NEAR(oled["y"], 0.3180, 0.003);
    EXPECT_GT(answer["panels"][1]["targets"][0]["y"].get<double>() - oled["y"].get<double>(),
              0.003);
    EXPECT_EQ(answer["panels"][2]["targets"][0]["drive"].size(), 4U);
}

TEST(White, JsonHasThePromisedKeys) {
    const json answer = json::parse(run("white oled-rgb --observer cie1964-10deg --json").out);
    for (const char* key : {"name", "x", "y"}) {
        EXPECT_TRUE(answer["reference"].contains(key)) << key;
    }
    EXPECT_EQ(answer["reference"]["name"], "D65");
    const json& panel = answer["panels"][0];
    EXPECT_EQ(panel["name"], "oled-rgb");
    EXPECT_NEAR(panel["native_white"]["x"], 0.3127, 1e-9);
    EXPECT_TRUE(panel["warnings"].is_array());
    const json& target = panel["targets"][0];
    for (const char* key : {"observer", "x", "y", "delta_x", "delta_y", "cct_k", "duv", "drive",
                            "luminance_ratio", "in_gamut"}) {
        EXPECT_TRUE(target.contains(key)) << key;
    }
    EXPECT_DOUBLE_EQ(std::max({target["drive"][0].get<double>(), target["drive"][1].get<double>(),
                               target["drive"][2].get<double>()}),
                     1.0);
    EXPECT_NEAR(target["delta_x"].get<double>(),
                target["x"].get<double>() - answer["reference"]["x"].get<double>(), 1e-15);
    EXPECT_TRUE(target["in_gamut"]);
}

TEST(White, FilesThatTheCommandItselfPrintsGiveTheSameAnswer) {
    const Scratch scratch;
    const std::string file =
        scratch.file("my panel.csv", as_measured("oled-rgb"));  // a space in its name
    const json measured = json::parse(run("white " + quoted(file) + " --json").out);
    const json generic = json::parse(run("white oled-rgb --json").out);
    for (std::size_t i = 0; i < 2; ++i) {
        for (const char* key : {"x", "y", "luminance_ratio"}) {
            EXPECT_NEAR(measured["panels"][0]["targets"][i][key],
                        generic["panels"][0]["targets"][i][key].get<double>(), 1e-12)
                << key;
        }
    }
    EXPECT_EQ(measured["panels"][0]["kind"], "measured");
    EXPECT_EQ(generic["panels"][0]["kind"], "generic");
    const std::string model = scratch.file("model.csv", run("panel oled-rgb").out);
    const json still = json::parse(run("white " + quoted(model) + " --json").out);
    EXPECT_EQ(still["panels"][0]["kind"], "generic") << "its first line says so";
    EXPECT_TRUE(still["panels"][0]["targets"][0].contains("type_range_95"));
    EXPECT_TRUE(generic["panels"][0]["targets"][0].contains("type_range_95"));
    EXPECT_FALSE(measured["panels"][0]["targets"][0].contains("type_range_95"));
}

TEST(White, ThePageGivesUnitsFourPlacesAndTypesThree) {
    const Scratch scratch;
    const std::string file = scratch.file("set.csv", as_measured("oled-rgb"));
    const std::string page = run("white " + quoted(file) + " oled-rgb --details").out;
    EXPECT_NE(page.find("dial in x 0.30"), std::string::npos) << page;
    const json answer = json::parse(run("white oled-rgb --json").out);
    const auto places = [](double value, int n) {
        std::array<char, 16> text{};
        std::snprintf(text.data(), text.size(), "%.*f", n, value);
        return std::string(text.data());
    };
    const double x = answer["panels"][0]["targets"][0]["x"];
    EXPECT_NE(page.find(" " + places(x, 4) + " "), std::string::npos) << page;
    EXPECT_NE(page.find(" " + places(x, 3) + " "), std::string::npos) << page;
    for (std::size_t at = 0, end = 0; (end = page.find('\n', at)) != std::string::npos;
         at = end + 1) {
        const std::string line = page.substr(at, end - at);
        EXPECT_LE(
            std::count_if(line.begin(), line.end(),
                          [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }),
            100)
            << line;
    }
}

TEST(White, TheWhiteAsItStandsSaysWhatIsLeftAndThenMatched) {
    const Scratch scratch;
    const std::string now = scratch.file("now.csv", [] {
        // The generic panel's own white, all three at full drive.
        const std::string csv = run("panel oled-rgb").out;
        std::string text = "wavelength_nm,white\n";
        std::istringstream rows(csv);
        for (std::string row; std::getline(rows, row);) {
            double nm = 0, r = 0, g = 0, b = 0;
            if (std::sscanf(row.c_str(), "%lf,%lf,%lf,%lf", &nm, &r, &g, &b) == 4) {
                text += std::to_string(nm) + "," + std::to_string(1e3 * (r + g + b)) + "\n";
            }
        }
        return text;
    }());
    const Said said = run("white oled-rgb --now " + quoted(now) + " --json");
    ASSERT_EQ(said.exit_code, 0) << said.err;
    const json left = json::parse(said.out)["panels"][0]["targets"][0]["left_to_go"];
    EXPECT_FALSE(left["matched"]);
    EXPECT_LT(left["light_change_percent"]["red"], -1.0);
    EXPECT_NEAR(left["light_change_percent"]["blue"], 0.0, 1e-9);
    EXPECT_NE(run("white oled-rgb --now " + quoted(now)).out.find("Left to go"), std::string::npos);
    EXPECT_NE(
        run("white oled-rgb --noise 0.05 --now " + quoted(now)).out.find("DONE: what is left"),
        std::string::npos);
    expect_refusal(run("white oled-rgb oled-white --now " + quoted(now)), 1, "one panel");
}

TEST(White, NeverSaysToDialInWhatCannotBeReached) {
    const Scratch scratch;
    std::string csv = "wavelength_nm,light\n";
    for (int nm = 380; nm <= 780; nm += 5) {
        csv += std::to_string(nm) + (nm >= 480 && nm <= 540 ? ",1\n" : ",0\n");
    }
    const std::string cyan = scratch.file("cyan.csv", csv);
    const std::string page = run("white lcd-white-led --reference " + quoted(cyan)).out;
    EXPECT_EQ(page.find("dial in"), std::string::npos) << page;
    EXPECT_NE(page.find("can't be reached; the nearest is "), std::string::npos) << page;
    EXPECT_FALSE(json::parse(run("white lcd-white-led --json --reference " + quoted(cyan))
                                 .out)["panels"][0]["targets"][0]["in_gamut"]);
}

TEST(White, ViewersHaveWhitesOfTheirOwnAndAVerdict) {
    const json answer = json::parse(
        run("white oled-rgb --reference crt@0.3127,0.3290 --viewer 25 --viewer 65:2 --json").out);
    const json& panel = answer["panels"][0];
    ASSERT_EQ(panel["viewers"].size(), 2U);
    EXPECT_EQ(panel["viewers"][1]["name"], "B");
    // The older viewer wants y higher: the lens has yellowed.
    EXPECT_GT(panel["viewers"][1]["target"]["y"].get<double>(),
              panel["viewers"][0]["target"]["y"].get<double>() + 0.01);
    const json& seen = panel["viewers"][0]["seen"];
    ASSERT_EQ(seen.size(), 3U);
    const auto worst = [&](std::size_t candidate) {
        return std::max(panel["viewers"][0]["seen"][candidate]["uv"].get<double>(),
                        panel["viewers"][1]["seen"][candidate]["uv"].get<double>());
    };
    EXPECT_LE(worst(2), worst(0));  // the compromise leaves nobody worse off than the worst before
    EXPECT_LE(worst(2), worst(1));
    EXPECT_TRUE(panel["advice"]["verdict"] == "MOVE" || panel["advice"]["verdict"] == "LEAVE" ||
                panel["advice"]["verdict"] == "ASK THE EYES");
    EXPECT_GT(panel["population"]["pair_share"], 0.5);
    // The reference itself needs no move, for anyone.
    const json same = json::parse(run("white crt --reference crt@0.3127,0.3290 --json").out);
    EXPECT_EQ(same["panels"][0]["advice"]["verdict"], "LEAVE");
    EXPECT_EQ(same["panels"][0]["population"]["pair_share"], 0.0);
}

TEST(White, AMatchByEyeOutweighsTheAgeFormula) {
    const std::string start =
        "white oled-rgb oled-white --reference crt@0.3127,0.3290 --viewer 40 --json";
    const json before = json::parse(run(start).out);
    const json after = json::parse(run(start + " --eye A=0.3040,0.3100").out);
    const auto target = [](const json& answer, std::size_t panel) {
        return answer["panels"][panel]["viewers"][0]["target"];
    };
    EXPECT_NEAR(target(after, 0)["y"], 0.3100, 0.001);  // what was seen ...
    EXPECT_LT(target(after, 1)["y"].get<double>(),
              target(before, 1)["y"].get<double>() - 0.001);  // ... moves the unseen panel too
    EXPECT_LT(after["panels"][1]["viewers"][0]["covariance_xy"][3],
              before["panels"][1]["viewers"][0]["covariance_xy"][3]);
}

TEST(White, SaysWhatTheDoubtIsMadeOf) {
    const std::string start = "white oled-rgb --reference crt@0.3127,0.3290 ";
    const json budget = json::parse(run(start + "--json").out)["panels"][0]["budget"];
    double sum = 0.0;
    for (const json& part : budget["parts"]) {
        sum += part["covariance_xy"][0].get<double>();
    }
    EXPECT_NEAR(sum, budget["covariance_xy"][0].get<double>(), 1e-15);
    EXPECT_FALSE(budget["people"].is_null());
    const json worse =
        json::parse(run(start + "--json --instrument bandwidth=20,shift=2 --floor 0.002")
                        .out)["panels"][0]["budget"];
    EXPECT_GT(worse["half_width_x"], budget["half_width_x"]);
    const std::string page = run(start + "--budget").out;
    EXPECT_NE(page.find("How sure "), std::string::npos) << page;
    EXPECT_NE(page.find("never added: how people differ"), std::string::npos) << page;
    expect_refusal(run(start + "--instrument bandwith=5"), 1, "bandwidth");
    expect_refusal(run(start + "--instrument bandwidth=x"), 1, "bandwidth=x");
    expect_refusal(run(start + "--instrument stray=2"), 1, "0 to 0.1");
    expect_refusal(run(start + "--floor -1"), 1, "0 to 0.1");
    expect_refusal(run(start + "--floor 1e300"), 1, "0 to 0.1");
}

TEST(White, SetsSeveralDisplaysTogether) {
    const json answer = json::parse(
        run("white oled-rgb lcd-white-led --reference crt@0.3127,0.3290 --people 256 --json").out);
    ASSERT_EQ(answer["room"].size(), 4U);
    EXPECT_EQ(answer["room"][1]["whites"][0]["x"], answer["panels"][0]["targets"][0]["x"]);
    EXPECT_LE(answer["room"][3]["between_mean_uv"].get<double>(),
              answer["room"][1]["between_mean_uv"].get<double>());
    EXPECT_NEAR(answer["room"][0]["whites"][0]["x"], 0.3127, 1e-9) << "as now";
    EXPECT_EQ(answer["room_recommended"], "all together");
    EXPECT_FALSE(json::parse(run("white oled-rgb --json").out).contains("room"));
}

TEST(White, TellsTheDifferencesOfThePeopleAskedFor) {
    const Scratch scratch;
    const std::string ages = scratch.file("ages.csv", "age,people\n65,4\n70,2\n85,1\n");
    const std::string start = "white oled-rgb --reference crt@0.3127,0.3290 --json ";
    const json all = json::parse(run(start).out);
    const json old = json::parse(run(start + "--ages " + quoted(ages)).out);
    EXPECT_GT(old["panels"][0]["population"]["mean"]["y"].get<double>(),
              all["panels"][0]["population"]["mean"]["y"].get<double>() + 0.005);
    EXPECT_NE(old["viewer_notes"][0]["message"].get<std::string>().find("1 of 7"),
              std::string::npos);
    const json wide = json::parse(run(start + "--spread literature").out);
    EXPECT_GT(wide["panels"][0]["population"]["covariance_xy"][0],
              all["panels"][0]["population"]["covariance_xy"][0]);
    expect_refusal(run("white oled-rgb --ages 5-90"), 1, "20-70");
    expect_refusal(run("white oled-rgb --people 0"), 1, "1 to 100000");
    expect_refusal(run("white oled-rgb --spread wide"), 1, "literature");
}

TEST(White, ViewersOutOfRangeAreMovedOrRefused) {
    const json young = json::parse(run("white oled-rgb --viewer 19 --json").out);
    EXPECT_EQ(young["panels"][0]["viewers"][0]["age_years"], 20.0);
    EXPECT_EQ(young["viewer_notes"][0]["code"], "viewer_age_moved");
    EXPECT_NE(run("white oled-rgb --viewer 81").out.find("worked out for 80 years"),
              std::string::npos);
    expect_refusal(run("white oled-rgb --viewer 40:0.5"), 1, "1 to 10 degrees");
    expect_refusal(run("white oled-rgb --viewer 40:30"), 1, "1 to 10 degrees");
    expect_refusal(run("white oled-rgb --viewer forty"), 1, "AGE");
    expect_refusal(run("white oled-rgb --viewer 40 --eye B=0.31,0.32"), 1, "A=x,y");
}

TEST(White, RefusesWithOneLine) {
    expect_refusal(run("white oled-rbg"), 1, "oled-rgb");
    expect_refusal(run("white no/such/file.csv"), 1, "no/such/file.csv");
    expect_refusal(run("white oled-rgb --reference D39"), 1, "D39");
    expect_refusal(run("white oled-rgb --reference crt@0.9,0.3"), 1, "@0.9,0.3");
    expect_refusal(run("white oled-rgb --reference crt@0.1,0.8"), 1, "gamut");
    expect_refusal(run("white oled-rgb --observer cie1932"), 1, "cie1931-2deg");
    expect_refusal(run("white oled-rgb --noise 0"), 1, "noise");
    expect_refusal(run("white"), 2, "PANEL");
    expect_refusal(run("wihte oled-rgb"), 2, "");
    expect_refusal(run("white oled-rgb --no-such-option"), 2, "--no-such-option");
    expect_refusal(run(""), 2, "");
}

TEST(White, BadFilesAreRefusedWithOneLine) {
    const Scratch scratch;
    const std::string two = scratch.file("two.csv", "wavelength_nm,red,green\n400,1,2\n700,2,1\n");
    expect_refusal(run("white " + quoted(two)), 1, "blue");
    const std::string empty = scratch.file("empty.csv", "");
    expect_refusal(run("white " + quoted(empty)), 1, "empty.csv");
    expect_refusal(run("white " + quoted(scratch.path().string())), 1, "");
    std::string same = "wavelength_nm,red,green,blue\n";
    for (int nm = 380; nm <= 780; nm += 10) {
        const std::string value = std::to_string(1 + (nm % 50));
        same += std::to_string(nm) + "," + value + "," + value + "," + value + "\n";
    }
    expect_refusal(run("white " + quoted(scratch.file("same.csv", same))), 1,
                   "depend on each other");
}

TEST(Panel, ListsAndPrints) {
    const std::string list = run("panel").out;
    for (const char* name :
         {"crt", "lcd-ccfl", "lcd-white-led", "lcd-narrow-red", "lcd-quantum-dot", "oled-rgb",
          "oled-white", "oled-quantum-dot", "laser-rgb"}) {
        EXPECT_NE(list.find(name), std::string::npos) << name;
        const Said csv = run(std::string("panel ") + name);
        EXPECT_EQ(csv.exit_code, 0);
        EXPECT_NE(csv.out.find("wavelength_nm,red,green,blue"), std::string::npos);
        EXPECT_NE(csv.out.find("generic model"), std::string::npos);
    }
    const json all = json::parse(run("panel --json").out);
    EXPECT_EQ(all["schema"], "samelight/panel/1");
    EXPECT_EQ(all["panels"].size(), 9U);
    EXPECT_EQ(json::parse(run("panel oled-white --json").out)["spectra"]["white"].size(), 401U);
    expect_refusal(run("panel nobody"), 1, "oled-rgb");
}

TEST(Observer, ListsAndPrints) {
    const json all = json::parse(run("observer --json").out);
    for (const json& observer : all["observers"]) {
        const Said csv = run("observer " + observer["id"].get<std::string>());
        EXPECT_EQ(csv.exit_code, 0);
        EXPECT_NE(csv.out.find("\nwavelength_nm,"), std::string::npos);
    }
    // CIE 1931 at 555 nm: y = 1 (ISO/CIE 11664-1).
    EXPECT_NE(run("observer cie1931-2deg").out.find("\n555,0.5120501,1,0.00574"),
              std::string::npos);
    expect_refusal(run("observer nobody"), 1, "cie1931-2deg");
}

TEST(Spectrum, SaysWhatAFileHoldsAndWhatIsDoubtful) {
    const Scratch scratch;
    const std::string fine = scratch.file("fine.csv", as_measured("lcd-narrow-red"));
    const json good = json::parse(run("spectrum " + quoted(fine) + " --json").out);
    EXPECT_EQ(good["schema"], "samelight/spectrum/1");
    EXPECT_EQ(good["columns"][0]["name"], "red");
    EXPECT_TRUE(good["columns"][0]["sampling"]["sound"]);
    EXPECT_EQ(good["columns"][0]["chromaticities"].size(), 5U);
    // The same at every 10 nm: the line is lost between the samples, and the guard says so.
    std::string coarse = "wavelength_nm,red,green,blue\n";
    std::istringstream rows(slurp(fine));
    for (std::string row; std::getline(rows, row);) {
        if (!row.empty() && std::isdigit(static_cast<unsigned char>(row[0])) != 0 &&
            row.substr(2, 2) == "0,") {
            coarse += row + "\n";
        }
    }
    const std::string file = scratch.file("coarse.csv", coarse);
    const json bad = json::parse(run("spectrum " + quoted(file) + " --json").out);
    EXPECT_FALSE(bad["columns"][0]["sampling"]["sound"]);
    EXPECT_LE(bad["columns"][0]["sampling"]["wanted_step_nm"], 5.0);
    EXPECT_NE(run("spectrum " + quoted(file)).out.find("too coarsely"), std::string::npos);
    EXPECT_NE(run("white " + quoted(file)).out.find("too coarsely"), std::string::npos);
}

TEST(Command, HelpAndVersion) {
    const Said help = run("--help");
    EXPECT_EQ(help.exit_code, 0);
    for (const char* name : {"white", "panel", "observer", "spectrum"}) {
        EXPECT_NE(help.out.find(name), std::string::npos);
        EXPECT_EQ(run(std::string(name) + " --help").exit_code, 0);
    }
    EXPECT_EQ(run("--version").exit_code, 0);
}

// Locale has no say: the same bytes under a decimal-comma locale.
TEST(Command, SaysTheSameUnderADecimalCommaLocale) {
    EXPECT_EQ(run("white oled-rgb", "LC_ALL=de_DE.UTF-8").out,
              run("white oled-rgb", "LC_ALL=C").out);
    EXPECT_EQ(run("panel oled-rgb", "LC_ALL=de_DE.UTF-8").out,
              run("panel oled-rgb", "LC_ALL=C").out);
}

TEST(Command, SaysSoWhenNobodyTakesItsOutput) {
    const Scratch scratch;
    const std::string err = (scratch.path() / "err").string();
    const std::string line = "'" SAMELIGHT_EXECUTABLE "' panel >/dev/full 2>" + quoted(err);
    EXPECT_EQ(WEXITSTATUS(std::system(line.c_str())), 1);
    EXPECT_NE(slurp(err).find("standard output"), std::string::npos);
}

}  // namespace
}  // namespace samelight::test
