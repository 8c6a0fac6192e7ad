// `samelight check --targets`: each patch against its own row of what `samelight targets` wrote.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "samelight/numeric/text.hpp"
#include "tools/first_screens.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string demo_sets = std::string(SAMELIGHT_DATA) + "/demo/";

std::string quoted(const std::string& file) { return "'" + file + "'"; }

/// Targets of the owner's set beside the reference, as the command writes them.
std::string alike_targets(const Scratch& scratch) {
    const std::string csv = (scratch.path() / "targets.csv").string();
    const Said said = run("targets " + demo_sets + "client-set.csv --reference " + demo_sets +
                          "grading-monitor.csv --write " + quoted(csv));
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return csv;
}

/// Readings that are the targets with luminance times `light`, and of red's light so much more as a gain set too high gives: BT.709's red in BT.1886's curve without black.
std::string read_as(const std::string& targets, double light, double red) {
    std::istringstream lines(slurp(targets));
    std::ostringstream readings;
    std::string line;
    std::getline(lines, line);
    std::getline(lines, line);
    readings << "patch,r,g,b,bits,range,X,Y,Z\n";
    while (std::getline(lines, line)) {
        std::vector<std::string> cells;
        std::istringstream row(line);
        for (std::string cell; std::getline(row, cell, ',');) {
            cells.push_back(cell);
        }
        const double x = std::stod(cells[7]);
        const double y = std::stod(cells[8]);
        const double luminance = std::stod(cells[9]);
        const double scale = luminance > 0.0 ? luminance / y : 0.0;
        std::array<double, 3> xyz{x * scale, luminance, (1.0 - x - y) * scale};
        const double more = red * 100.0 * std::pow(std::stod(cells[2]) / 255.0, 2.4);
        constexpr std::array<double, 3> of_red{0.4124, 0.2126, 0.0193};
        for (std::size_t i = 0; i < 3; ++i) {
            xyz.at(i) = (xyz.at(i) + more * of_red.at(i)) * light;
        }
        readings << cells[0] << ',' << cells[2] << ',' << cells[3] << ',' << cells[4] << ','
                 << cells[5] << ',' << cells[6] << ',' << to_text(xyz[0], 9) << ','
                 << to_text(xyz[1], 9) << ',' << to_text(xyz[2], 9) << '\n';
    }
    return readings.str();
}

json checked(const std::string& arguments) {
    const Said said = run("check " + arguments + " --json");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return json::parse(said.out);
}

// A set that reads its own targets is right; about the same white alone, by the rule of the signals, the same readings are not: that is what the list is for.
TEST(CheckTargets, ASetThatReadsItsOwnTargetsPassesWithoutAFault) {
    const Scratch scratch;
    const std::string targets = alike_targets(scratch);
    const std::string readings = scratch.file("readings.csv", read_as(targets, 1.7, 0.0));
    const std::string arguments = quoted(readings) + " --targets " + quoted(targets);
    const json answer = checked(arguments);
    EXPECT_EQ(answer["verdict"], "pass");
    // Five digits of x, y and six of Y in the file.
    EXPECT_LT(answer["now"]["chosen"]["gate"]["largest_de00"], 0.05);
    EXPECT_TRUE(answer["now"]["faults"].empty()) << answer["now"]["faults"];
    EXPECT_EQ(answer["now"]["readings_without_target"], 0);
    EXPECT_EQ(answer["white_chosen"], true);
    const auto white = answer["now"]["chosen"]["white_xyz_cd_m2"];
    const double sum = white[0].get<double>() + white[1].get<double>() + white[2].get<double>();
    const json about_white =
        checked(quoted(readings) + " --white " + to_text(white[0].get<double>() / sum, 5) + "," +
                to_text(white[1].get<double>() / sum, 5));
    EXPECT_GT(about_white["now"]["chosen"]["gate"]["largest_de00"], 0.5);
    const Said said = run("check " + arguments);
    EXPECT_NE(said.out.find("each patch by its own target of"), std::string::npos) << said.out;
    EXPECT_NE(said.out.find("seen alike"), std::string::npos) << said.out;
    expect_first_screen(said.out, 12);
}

TEST(CheckTargets, CausesAreFoundAboutTheTargets) {
    const Scratch scratch;
    const std::string targets = alike_targets(scratch);
    const std::string readings = scratch.file("readings.csv", read_as(targets, 1.0, 0.04));
    const json answer = checked(quoted(readings) + " --targets " + quoted(targets));
    ASSERT_FALSE(answer["now"]["faults"].empty());
    EXPECT_EQ(answer["now"]["faults"][0]["code"], "white_off");
    EXPECT_EQ(answer["now"]["faults"].size(), 1U) << answer["now"]["faults"];
    // The white of the targets with 4 % more of red, worked out by hand: x 0.3160 to 0.3187.
    EXPECT_NEAR(answer["now"]["faults"][0]["delta_x"].get<double>(), 0.0027, 0.0003);
}

TEST(CheckTargets, PatchesOfAListOfOnesOwnAreKnownByName) {
    const Scratch scratch;
    const std::string list = scratch.file(
        "list.csv", "patch,r,g,b\nwhite,255,255,255\nlantern red,200,40,30\nmoss,60,90,40\n");
    const std::string targets = (scratch.path() / "targets.csv").string();
    ASSERT_EQ(run("targets --patches " + quoted(list) + " --peak 100 --white 0.31,0.32 --write " +
                  quoted(targets))
                  .exit_code,
              0);
    const json meant = json::parse(
        run("targets --patches " + quoted(list) + " --peak 100 --white 0.31,0.32 --json").out);
    std::string rows = "patch,X,Y,Z\n";
    for (const json& target : meant["targets"]) {
        const json& xyz = target["xyz_cd_m2"];
        rows += target["patch"].get<std::string>() + "," + xyz[0].dump() + "," + xyz[1].dump() +
                "," + xyz[2].dump() + "\n";
    }
    rows += "blue,10,4,50\n";
    const json answer =
        checked(quoted(scratch.file("readings.csv", rows)) + " --targets " + quoted(targets));
    EXPECT_EQ(answer["now"]["patches"].size(), 3U);
    EXPECT_EQ(answer["now"]["readings_without_target"], 1);
    EXPECT_LT(answer["now"]["chosen"]["gate"]["largest_de00"], 0.02);
}

// The household's readings without the correction that they were made for.
TEST(CheckTargets, OfAWrongInstrumentTheFirstScreenNamesNothingElse) {
    const Scratch scratch;
    const std::string arguments =
        "check " + demo_sets + "household/proof.csv --targets " + quoted(alike_targets(scratch));
    const Said said = run(arguments);
    EXPECT_EQ(said.out.find("Read again"), 0U) << said.out;
    EXPECT_EQ(said.out.find("White is off"), std::string::npos) << said.out;
    EXPECT_NE(run(arguments + " --details").out.find("White is off"), std::string::npos);
    expect_first_screen(said.out, 13);
}

// Red of P3 has z = 0: by the digits of the file its Z comes out just below 0.
TEST(CheckTargets, OfP3AreReadBack) {
    const Scratch scratch;
    for (const std::string encoding : {"p3-d65", "p3-cinema", "bt2020"}) {
        const std::string csv = (scratch.path() / "p3.csv").string();
        ASSERT_EQ(
            run("targets --peak 100 --encoding " + encoding + " --write " + quoted(csv)).exit_code,
            0);
        const json answer =
            checked(quoted(csv) + " --targets " + quoted(csv) + " --encoding " + encoding);
        EXPECT_EQ(answer["verdict"], "pass") << encoding;
        EXPECT_LT(answer["now"]["chosen"]["gate"]["largest_de00"], 0.05) << encoding;
        // Their white is the encoding's own: none was moved.
        EXPECT_TRUE(answer["now"]["plain"].is_null()) << encoding;
    }
}

TEST(CheckTargets, Refuses) {
    const Scratch scratch;
    const std::string white = "patch,X,Y,Z\nwhite,95,100,108\n";
    const std::string readings = quoted(scratch.file("readings.csv", white));
    const auto refused = [&](const std::string& arguments, const std::string& part) {
        const Said said = run("check " + readings + " " + arguments);
        EXPECT_NE(said.exit_code, 0) << arguments;
        EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
        EXPECT_NE(said.err.find(part), std::string::npos) << said.err;
    };
    const std::string good = quoted(scratch.file("good.csv", white));
    refused("--targets " + good + " --white 0.31,0.32", "--white");
    refused("--targets " + quoted(scratch.file("red.csv", "patch,X,Y,Z\nred,40,20,2\n")),
            "without a full white");
    refused("--targets " + quoted(scratch.file("odd.csv", white + "mystery,40,20,2\n")),
            "odd.csv:3: a target of \"mystery\"");
    refused("--targets " + quoted((scratch.path() / "none.csv").string()), "none.csv");
    const std::string red = quoted(scratch.file("reds.csv", "patch,X,Y,Z\nred,40,20,2\n"));
    const Said said = run("check " + red + " --targets " + good);
    EXPECT_NE(said.err.find("no patch that the targets have"), std::string::npos) << said.err;
}

TEST(CheckTargetsCommand, AreJudgedByTheCurveTheyWereMadeFor) {
    const Scratch scratch;
    const std::string csv = (scratch.path() / "targets.csv").string();
    const Said made =
        run("targets --peak 120 --curve power:2.2 --encoding p3-d65 --write " + quoted(csv));
    ASSERT_EQ(made.exit_code, 0) << made.err;
    EXPECT_NE(made.out.find("power 2.2, P3-D65"), std::string::npos) << made.out;
    expect_first_screen(made.out, 12);
    const std::string check = "check " + quoted(csv) + " --targets " + quoted(csv);
    const std::string judged = "power 2.2, P3-D65, white x 0.3127, y 0.3290";
    for (const std::string typed : {"", " --curve power:2.2", " --encoding p3-d65"}) {
        const Said said = run(check + typed);
        ASSERT_EQ(said.exit_code, 0) << said.err;
        EXPECT_EQ(said.out.find("Pass: "), 0U) << said.out;
        EXPECT_NE(said.out.find(judged), std::string::npos) << typed << said.out;
    }
    for (const std::string typed : {" --curve power:2.4", " --encoding bt2020"}) {
        const Said said = run(check + typed);
        EXPECT_EQ(said.exit_code, 1) << typed;
        EXPECT_NE(said.err.find("for which the targets were made"), std::string::npos) << said.err;
    }
    // Without targets the defaults are named, too.
    const Said plain = run("check " + quoted(csv));
    EXPECT_NE(plain.out.find("BT.1886, BT.709, white x 0.3127, y 0.3290"), std::string::npos)
        << plain.out;
}

}  // namespace
}  // namespace samelight::test
