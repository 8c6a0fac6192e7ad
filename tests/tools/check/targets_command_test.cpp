// `samelight targets`, as a person or a program calls it.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string targets_demo = std::string(SAMELIGHT_DATA) + "/demo/";

void expect_targets_refused(const std::string& arguments, const std::string& part) {
    const Said said = run("targets " + arguments);
    EXPECT_NE(said.exit_code, 0) << arguments;
    EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
    EXPECT_NE(said.err.find(part), std::string::npos) << said.err;
}

// SMPTE RP 177:1993, BT.709: red at full drive has Y 0.2126 of white; the chosen white stands for D65.
TEST(TargetsCommand, WritesWhatTheInstrumentMustRead) {
    const Scratch scratch;
    const std::string csv = (scratch.path() / "targets.csv").string();
    const Said said = run("targets --peak 120 --bits 10 --range limited --write '" + csv + "'");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    EXPECT_EQ(said.out.rfind("White replaced", 0), 0U) << said.out;
    const std::string text = slurp(csv);
    EXPECT_NE(text.find("\ngrey-100,greys,940,940,940,10,limited,0.31270,0.32900,120,shown\n"),
              std::string::npos)
        << text.substr(0, 400);
    EXPECT_NE(text.find("\nred-100-100,saturated,940,64,64,10,limited,0.64000,0.33000,25.5167"),
              std::string::npos);
    EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 135);
}

// The file that it writes is a list of patches and a file of readings as well.
TEST(TargetsCommand, TakesBackWhatItWrote) {
    const Scratch scratch;
    const std::string csv = (scratch.path() / "targets.csv").string();
    EXPECT_EQ(run("targets --write '" + csv + "'").exit_code, 0);
    const json first = json::parse(run("targets --json").out);
    const json again = json::parse(run("targets --patches '" + csv + "' --json").out);
    ASSERT_EQ(first["targets"].size(), again["targets"].size());
    for (std::size_t i = 0; i < first["targets"].size(); ++i) {
        EXPECT_EQ(first["targets"][i]["codes"], again["targets"][i]["codes"]);
        EXPECT_EQ(first["targets"][i]["xyz_cd_m2"], again["targets"][i]["xyz_cd_m2"]);
    }
}

TEST(TargetsCommand, TakesTheWhiteFromAnAnswer) {
    const Scratch scratch;
    const Said white = run("white '" + targets_demo + "client-set.csv' --people 64 --json");
    const std::string file = scratch.file("white.json", white.out);
    const json answer = json::parse(white.out);
    const json targets = json::parse(run("targets --white '" + file + "' --json").out);
    const auto xyz = targets["white_xyz_cd_m2"].get<std::vector<double>>();
    const double sum = xyz[0] + xyz[1] + xyz[2];
    const json& advice = answer["panels"][0]["advice"]["white"];
    EXPECT_NEAR(xyz[0] / sum, advice["x"].get<double>(), 1e-12);
    EXPECT_NEAR(xyz[1] / sum, advice["y"].get<double>(), 1e-12);
    EXPECT_TRUE(targets["white_chosen"].get<bool>());
    expect_targets_refused("--white '" + file + "#nobody'", "no display nobody");
}

// For the demo's pairs, over real surfaces, every patch matched leaves viewers less than the white alone.
TEST(TargetsCommand, SaysWhatMatchingEveryPatchBuys) {
    // What README says of the four, to its two digits.
    struct Bought {
        std::string panel;
        double alike, replaced;
    };
    for (const auto& [panel, alike, replaced] :
         {Bought{"client-set.csv", 1.85, 1.89}, Bought{"foyer-display.csv", 1.17, 1.18},
          Bought{"desk-display.csv", 1.62, 1.64}, Bought{"tablet.csv", 2.18, 2.20}}) {
        const json targets =
            json::parse(run("targets '" + targets_demo + panel + "' --reference '" + targets_demo +
                            "grading-monitor.csv' --json")
                            .out);
        EXPECT_EQ(targets["kind"], "seen_alike") << panel;
        EXPECT_GT(targets["gain"]["surfaces"].get<int>(), 100) << panel;
        EXPECT_LT(targets["gain"]["seen_alike_de00"].get<double>(),
                  targets["gain"]["white_replaced_de00"].get<double>())
            << panel;
        EXPECT_NEAR(targets["gain"]["seen_alike_de00"].get<double>(), alike, 0.0051) << panel;
        EXPECT_NEAR(targets["gain"]["white_replaced_de00"].get<double>(), replaced, 0.0051)
            << panel;
    }
}

TEST(TargetsCommand, RefusesInOneLine) {
    expect_targets_refused("--curve gamma", "bt1886, power:EXPONENT");
    expect_targets_refused("--curve power", "power:EXPONENT");
    expect_targets_refused("--curve power:x", "a number behind the colon");
    expect_targets_refused("--encoding nobody", "bt709");
    expect_targets_refused("--bits 7", "8 to 16");
    expect_targets_refused("--range narrow", "full or limited");
    expect_targets_refused("--peak 0", "above 0");
    expect_targets_refused("--patches none.csv", "none.csv");
    expect_targets_refused("oled-rgb", "no --reference");
    expect_targets_refused("oled-rgb --reference crt --white .3,.3", "what looks alike decides");
    expect_targets_refused("--white '" + targets_demo + "client-set.csv'",
                           "no answer about whites");
}

}  // namespace
}  // namespace samelight::test
