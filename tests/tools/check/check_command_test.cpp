// `samelight check`, as a person or a program calls it.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "samelight/check/intent/intended_display.hpp"
#include "samelight/check/patches/signal_patch.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/numeric/text.hpp"
#include "tools/first_screens.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

constexpr const char* intent = " --white 0.3091,0.3199 --curve power:2.4";

std::string in_proof(const std::string& file) {
    return std::string(SAMELIGHT_DATA) + "/demo/proof/" + file;
}

std::vector<std::string> codes_in(const json& faults) {
    std::vector<std::string> codes;
    for (const json& fault : faults) {
        codes.push_back(fault["code"]);
    }
    std::sort(codes.begin(), codes.end());
    return codes;
}

TEST(CheckCommand, ASetThatWasPutRightPasses) {
    const std::string files = "check " + in_proof("client-set-proof.csv") + " --before " +
                              in_proof("client-set-proof-before.csv");
    const Said said = run(files + intent);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    EXPECT_EQ(said.out.find("Pass: "), 0U) << said.out;
    EXPECT_NE(said.out.find("before the work"), std::string::npos);
    EXPECT_NE(said.out.find("the white was moved on purpose"), std::string::npos);
    expect_first_screen(said.out, 12);
    const Said in_json = run(files + intent + " --json");
    ASSERT_EQ(in_json.exit_code, 0) << in_json.err;
    const json answer = json::parse(in_json.out);
    EXPECT_EQ(answer["schema"], "samelight/check/1");
    EXPECT_EQ(answer["verdict"], "pass");
    EXPECT_EQ(answer["now"]["patches"].size(), 133U);
    EXPECT_EQ(answer["now"]["noise"]["from"], "repeats");
    EXPECT_EQ(answer["now"]["screen"][0]["positions"].size(), 9U);
    // Against the plain white the very same readings would be called off.
    EXPECT_EQ(answer["now"]["plain"]["gate"]["verdict"], "fail");
}

TEST(CheckCommand, TheRuleIsSaidInTheSameWordsEverywhere) {
    const std::string line = "check " + in_proof("client-set-proof-before.csv") + intent;
    const json gate = json::parse(run(line + " --json").out)["now"]["chosen"]["gate"];
    const std::string rule = gate["rule"];
    for (const std::string& page : {line, line + " --details"}) {
        std::string text = run(page).out;
        std::replace(text.begin(), text.end(), '\n', ' ');
        EXPECT_NE(text.find(rule), std::string::npos) << text;
    }
    EXPECT_NE(rule.find("pass takes 0.977, fail 0.023"), std::string::npos) << rule;
    EXPECT_EQ(gate["verdict"], "fail");
    EXPECT_GT(gate["estimate_de00"].get<double>() - gate["guard_band_beyond_de00"].get<double>(),
              3.0);
}

TEST(CheckCommand, ASetBeforeTheWorkFailsAndTheCausesAreNamed) {
    const Said said = run("check " + in_proof("client-set-proof-before.csv") + intent);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    EXPECT_EQ(said.out.find("Fail: "), 0U) << said.out;
    expect_first_screen(said.out, 13);
    // One estimate of the white: the cause's and the figure's are the same.
    EXPECT_NE(said.out.find("White is off: x -0.0082, y -0.0085"), std::string::npos) << said.out;
    EXPECT_NE(said.out.find("White        x -0.0082, y -0.0085"), std::string::npos) << said.out;
    const json answer = json::parse(
        run("check " + in_proof("client-set-proof-before.csv") + intent + " --json").out);
    EXPECT_EQ(codes_in(answer["now"]["faults"]),
              (std::vector<std::string>{"gamma_other", "saturation_off", "white_off"}));
}

/// Codes of 16 bits that show a light; nothing where the display can't.
std::string coded_row(const IntendedDisplay& display, const Lab<Cie1931_2deg>& meant,
                      const Lab<Cie1931_2deg>& read) {
    const auto signals = display.signals(tristimulus(meant).values());
    if (signals.cut) {
        return "";
    }
    const auto codes = codes_of(signals.signal, Quantisation(16, SignalRange::full));
    const auto xyz = tristimulus(read).values();
    char row[200];
    std::snprintf(row, sizeof row, "%d,%d,%d,16,full,%.9f,%.9f,%.9f\n", codes[0], codes[1],
                  codes[2], xyz[0], xyz[1], xyz[2]);
    return row;
}

TEST(CheckCommand, PublishedPairsOfDe00) {
    // Sharma, Wu & Dalal 2005, Color Res. Appl. 30:21, Table 1: those pairs whose first colour BT.2020 holds. Without pairs 9 to 16, which lie
    // beside the formula's jump, where half a code decides. Half a code of 16 bits moves a* and b* by up to 0.003, and DE00 by as much.
    std::ifstream table(std::string(SAMELIGHT_TEST_DATA) + "/checks/ciede2000_pairs.csv");
    const IntendedDisplay display(RgbEncoding::of<Bt2020>(),
                                  SignalCurve({CurveKind::power, 100.0, 0.0, 2.4}));
    const auto w = display.white();
    const Tristimulus<Cie1931_2deg> white(w[0], w[1], w[2]);
    std::string csv = "r,g,b,bits,range,X,Y,Z\n";
    std::vector<double> published;
    const Scratch scratch;
    for (std::string line; std::getline(table, line);) {
        std::replace(line.begin(), line.end(), ',', ' ');
        std::istringstream cells(line);
        std::array<double, 8> v{};
        bool whole = true;
        for (double& value : v) {
            whole = whole && static_cast<bool>(cells >> value);
        }
        if (!whole || (v[0] >= 9.0 && v[0] <= 16.0)) {
            continue;
        }
        const std::string row =
            coded_row(display, {v[1], v[2], v[3], white}, {v[4], v[5], v[6], white});
        if (row.empty()) {
            continue;
        }
        published.push_back(v[7]);
        const std::string file = scratch.file("pair.csv", csv + row);
        const Said said = run("check " + file +
                              " --encoding bt2020 --curve power:2.4 --peak 100 --black 0 --json");
        ASSERT_EQ(said.exit_code, 0) << said.err;
        const json answer = json::parse(said.out);
        EXPECT_NEAR(answer["now"]["patches"][0]["chosen"]["de00"].get<double>(), v[7], 0.004)
            << line;
    }
    EXPECT_GE(published.size(), 15U);
}

std::vector<std::vector<std::string>> rows_of_table(const std::string& file) {
    std::ifstream table(std::string(SAMELIGHT_TEST_DATA) + "/checks/" + file);
    std::vector<std::vector<std::string>> rows;
    for (std::string line; std::getline(table, line);) {
        std::istringstream cells(line);
        rows.emplace_back();
        for (std::string cell; std::getline(cells, cell, ',');) {
            rows.back().push_back(cell);
        }
    }
    return rows;
}

TEST(CheckCommand, StepsOfBt2124ComeOut) {
    // ITU-R BT.2124-0 by the table beside the tests: greys on D65 read as the second light of each row. Half a code of 16 bits of the intended grey is 0.0055.
    std::string csv = "r,g,b,bits,range,X,Y,Z\n";
    std::vector<double> published;
    for (const auto& row : rows_of_table("delta_e_itp.csv")) {
        if (row.size() < 9 || row[0][0] == 'Y' || row[0][0] == '#') {
            continue;
        }
        const double y = std::pow(std::stod(row[0]) / 10000.0, 2610.0 / 16384.0);
        const double signal = std::pow(
            (3424.0 / 4096.0 + 2413.0 / 128.0 * y) / (1.0 + 2392.0 / 128.0 * y), 2523.0 / 32.0);
        const std::string code = std::to_string(std::lround(65535.0 * signal));
        const Scratch scratch;
        const std::string file =
            scratch.file("one.csv", csv + code + "," + code + "," + code + ",16,full," + row[5] +
                                        "," + row[6] + "," + row[7] + "\n");
        const Said said =
            run("check '" + file + "' --encoding bt2020 --curve pq --peak 10000 --black 0 --json");
        ASSERT_EQ(said.exit_code, 0) << said.err;
        const json patch = json::parse(said.out)["now"]["patches"][0];
        EXPECT_NEAR(patch["chosen"]["de_itp"].get<double>(), std::stod(row[8]), 0.006) << row[1];
        published.push_back(std::stod(row[8]));
    }
    EXPECT_GE(published.size(), 20U);
}

TEST(CheckCommand, TheTableOfHlgIsMet) {
    // ITU-R BT.2100-2, Table 5, by the table beside the tests: what it says is read, and nothing is off. At 1000 cd/m2: beyond 2000 the library takes the gamma of BT.2390, not that of the table.
    std::string csv = "level_pct,x,y,Y\n";
    for (const auto& row : rows_of_table("hlg_bt2100.csv")) {
        if (row.size() == 5 && row[0] == "eotf_grey" && row[1] == "1000" && row[2] == "0.005") {
            csv += std::to_string(100.0 * std::stod(row[3])) + ",.3127,.329," + row[4] + "\n";
        }
    }
    const Scratch scratch;
    const Said said = run("check '" + scratch.file("hlg.csv", csv) +
                          "' --encoding bt2020 --curve hlg --peak 1000 --black 0.005 --json");
    ASSERT_EQ(said.exit_code, 0) << said.err;
    const json patches = json::parse(said.out)["now"]["patches"];
    ASSERT_GE(patches.size(), 5U);
    for (const json& patch : patches) {
        EXPECT_NEAR(patch["chosen"]["luminance_relative"].get<double>(), 0.0, 1e-6) << patch;
        EXPECT_LT(patch["chosen"]["de_itp"].get<double>(), 1e-3) << patch;
    }
}

TEST(CheckCommand, TheOwnerIsToldThatTheWhiteWasMoved) {
    const Scratch scratch;
    const std::string page = (scratch.path() / "page.html").string();
    const Said said =
        run("check " + in_proof("client-set-proof.csv") + " --before " +
            in_proof("client-set-proof-before.csv") + intent + " --for client --report " + page);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    const std::string html = slurp(page);
    EXPECT_NE(html.find("moved on purpose"), std::string::npos);
    EXPECT_NE(html.find("no fault of the screen"), std::string::npos);
    EXPECT_EQ(html.find("JCGM"), std::string::npos);
}

// Codes that the file says nothing of are as the line says.
TEST(CheckCommand, CodesOfNoDepthAndRangeAreAsTheLineSays) {
    const Scratch scratch;
    const std::string targets = (scratch.path() / "targets.csv").string();
    ASSERT_EQ(
        run("targets --peak 100 --bits 10 --range limited --write '" + targets + "'").exit_code, 0);
    std::istringstream lines(slurp(targets));
    std::string line;
    std::getline(lines, line);
    std::getline(lines, line);
    std::string bare = "r,g,b,x,y,Y\n";
    while (std::getline(lines, line)) {
        std::vector<std::string> cells;
        std::istringstream row(line);
        for (std::string cell; std::getline(row, cell, ',');) {
            cells.push_back(cell);
        }
        bare += cells[2] + "," + cells[3] + "," + cells[4] + "," + cells[7] + "," + cells[8] + "," +
                cells[9] + "\n";
    }
    const std::string file = scratch.file("bare.csv", bare);
    const json said = json::parse(run("check '" + file + "' --bits 10 --range limited --json").out);
    EXPECT_EQ(said["verdict"], "pass") << said["now"]["faults"];
    const json unsaid = json::parse(run("check '" + file + "' --json").out);
    EXPECT_EQ(unsaid["verdict"], "fail");
    const json patches = json::parse(
        run("targets --patches '" + scratch.file("list.csv", "patch,r,g,b\nwhite,940,940,940\n") +
            "' --bits 10 --range limited --json")
            .out);
    EXPECT_EQ(patches["targets"][0]["codes"], (std::vector<int>{940, 940, 940}));
}

// A list for two modes, filled in: each is judged by itself, and which it is stands on the first screen.
TEST(CheckCommand, OneModeIsJudgedAndNamed) {
    const Scratch scratch;
    std::string rows = "level_pct,mode,X,Y,Z\n";
    for (const std::string mode : {"cinema", "game"}) {
        const double blue = mode == "game" ? 1.2 : 1.0;
        for (const int level : {0, 20, 40, 60, 80, 100}) {
            const double y = 100.0 * std::pow(level / 100.0, 2.4);
            rows += std::to_string(level) + "," + mode + "," + to_text(0.95047 * y) + "," +
                    to_text(y) + "," + to_text(1.08883 * blue * y) + "\n";
        }
    }
    const std::string file = "'" + scratch.file("modes.csv", rows) + "'";
    const Said cinema = run("check " + file + " --curve power:2.4");
    EXPECT_EQ(cinema.out.find("Pass"), 0U) << cinema.out;
    EXPECT_NE(cinema.out.find("Judged is mode cinema alone; 6 readings of other modes"),
              std::string::npos)
        << cinema.out;
    EXPECT_EQ(run("check " + file + " --curve power:2.4 --mode Game").out.find("Fail"), 0U);
    const Said none = run("check " + file + " --mode night");
    EXPECT_EQ(none.exit_code, 1);
    EXPECT_NE(none.err.find("--mode: \"night\""), std::string::npos) << none.err;
    EXPECT_NE(none.err.find("cinema, game"), std::string::npos) << none.err;
    // The other commands of the proof keep to one picture, too, and say so.
    const Said adjust = run("adjust " + file + " --curve power:2.4");
    EXPECT_EQ(adjust.out.find("Nothing to set"), 0U) << adjust.out;
    EXPECT_NE(adjust.out.find("in mode cinema; readings left out: 6 of other modes"),
              std::string::npos)
        << adjust.out;
    EXPECT_NE(run("hdr " + file).out.find("readings left out: 6 of other modes"),
              std::string::npos);
    EXPECT_NE(run("adjust " + file + " --curve power:2.4 --mode game").out.find("blue gain"),
              std::string::npos);
}

TEST(CheckCommand, BadInputIsOneLine) {
    const Scratch scratch;
    const std::string unknown = scratch.file("unknown.csv", "patch,X,Y,Z\nmystery,1,2,3\n");
    const std::string dark = scratch.file("dark.csv", "patch,X,Y,Z\nwhite,0,0,0\n");
    for (const std::string& line :
         {unknown, dark, std::string("nowhere.csv"), in_proof("client-set-proof.csv") + " --gate 0",
          in_proof("client-set-proof.csv") + " --bits 7",
          in_proof("client-set-proof.csv") + " --range odd",
          in_proof("client-set-proof.csv") + " --before nowhere.csv"}) {
        const Said said = run("check " + line);
        EXPECT_NE(said.exit_code, 0) << line;
        EXPECT_EQ(std::count(said.err.begin(), said.err.end(), '\n'), 1) << said.err;
        EXPECT_EQ(said.out, "");
    }
    EXPECT_NE(run("check " + unknown).err.find(":2"), std::string::npos);
}

std::vector<std::string> codes_of_file(const std::string& file, const std::string& options) {
    const Said said = run("check '" + file + "' " + options + " --json");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return codes_in(json::parse(said.out)["now"]["faults"]);
}

TEST(CheckCommand, GreysWithoutBlackSayWhatIsSupposed) {
    const Scratch scratch;
    std::string csv = "level_pct,x,y,Y\n";
    for (const int level : {5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100}) {
        csv += std::to_string(level) + ",.3127,.329," +
               std::to_string(0.3 + 119.7 * std::pow(level / 100.0, 2.4)) + "\n";
    }
    const std::string file = scratch.file("greys.csv", csv);
    const std::string text = run("check '" + file + "' --curve power:2.4").out;
    EXPECT_EQ(text.find("Brightness"), std::string::npos) << text;
    std::string line = text;
    std::replace(line.begin(), line.end(), '\n', ' ');
    EXPECT_NE(line.find("Black wasn't read: 0 cd/m2 supposed."), std::string::npos) << text;
    expect_first_screen(text, 13);
    const auto codes = codes_of_file(file, "--curve power:2.4");
    EXPECT_EQ(std::count(codes.begin(), codes.end(), "offset"), 0);
    const std::string one =
        run("check '" + scratch.file("one.csv", "patch,X,Y,Z\ngrey-50,20,21,23\n") + "'").out;
    EXPECT_NE(one.find("the DE00 of the only patch read is"), std::string::npos) << one;
    EXPECT_NE(one.find("100 cd/m2 supposed"), std::string::npos) << one;
}

TEST(CheckCommand, WhatIsCutAbove100IsNoWrongRange) {
    const Scratch scratch;
    std::string csv = "r,g,b,bits,range,x,y,Y\n";
    for (int code = 16; code <= 254; code += 7) {
        const std::string c = std::to_string(code);
        const double light = std::pow(std::min(1.0, (code - 16) / 219.0), 2.4);
        csv +=
            c + "," + c + "," + c + ",8,limited,.3127,.329," + std::to_string(120.0 * light) + "\n";
    }
    csv += "235,235,235,8,limited,.3127,.329,120\n";
    const auto codes = codes_of_file(scratch.file("limited.csv", csv), "--curve power:2.4");
    EXPECT_EQ(std::count(codes.begin(), codes.end(), "wrong_range"), 0);
    EXPECT_EQ(std::count(codes.begin(), codes.end(), "clipped"), 1);
}

TEST(CheckCommand, PaleRedsAreNoDrift) {
    const auto codes = codes_of_file(in_proof("client-set-smooth-proof.csv"), "--curve power:2.4");
    EXPECT_EQ(std::count(codes.begin(), codes.end(), "drift"), 0);
    EXPECT_EQ(std::count(codes.begin(), codes.end(), "white_off"), 1);
}

// White elsewhere on the screen, in a limiter's windows and in another mode is another white: the greys are judged by their own.
TEST(CheckCommand, TakesWhiteWhereAndAsTheGreysWereRead) {
    const Scratch scratch;
    std::string csv = "level_pct,x,y,Y,window_pct,mode,position\n";
    for (const int level : {5, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100}) {
        csv += std::to_string(level) + ",.3127,.329," +
               std::to_string(120.0 * std::pow(level / 100.0, 2.4)) + ",10,cinema,centre\n";
    }
    csv +=
        "100,.3127,.329,60,50,cinema,centre\n100,.3127,.329,30,100,cinema,centre\n"
        "100,.3127,.329,105,10,cinema,top left\n100,.290,.300,200,10,game,centre\n";
    const Said said =
        run("check '" + scratch.file("greys.csv", csv) + "' --curve power:2.4 --json");
    ASSERT_EQ(said.exit_code, 0) << said.err;
    const json answer = json::parse(said.out);
    EXPECT_NEAR(answer["now"]["chosen"]["white_xyz_cd_m2"][1].get<double>(), 120.0, 1e-9);
    EXPECT_LT(answer["now"]["chosen"]["gate"]["largest_de00"].get<double>(), 0.01);
}

// The demo's panel has P3's primaries, a white emitter and a limiter from a window of 25 %.
TEST(CheckCommand, AGamutSmallerThanTheEncodingsIsOneLine) {
    const std::string read = "check " + in_proof("client-set-hdr.csv") + " --curve pq";
    const Said said = run(read + " --encoding bt2020 --peak 1039");
    ASSERT_EQ(said.exit_code, 0) << said.err;
    EXPECT_NE(said.out.find("The panel's gamut, about p3-d65, is smaller"), std::string::npos)
        << said.out;
    EXPECT_NE(said.out.find("Outside: red, green, blue. Inside: 21 patches"), std::string::npos)
        << said.out;
    EXPECT_EQ(said.out.find("stands alone"), std::string::npos) << said.out;
    EXPECT_EQ(said.out.find("isn't where it is meant"), std::string::npos) << said.out;
    expect_first_screen(said.out, 13);
    const json answer = json::parse(run(read + " --encoding bt2020 --peak 1039 --json").out);
    const json& now = answer["now"];
    EXPECT_EQ(codes_in(now["faults"]),
              (std::vector<std::string>{"gamut_smaller", "limiter", "other_roll_off",
                                        "white_emitter"}));
    EXPECT_EQ(now["outside_gamut"], json({"red", "green", "blue"}));
    // The figure that is named is the largest that is shown.
    EXPECT_EQ(now["faults"][0]["measured"], now["chosen"]["gate"]["largest_de00"]);
    // One limiter, though each patch was read in every window.
    const json own = json::parse(run(read + " --encoding p3-d65 --json").out);
    const std::vector<std::string> codes = codes_in(own["now"]["faults"]);
    EXPECT_EQ(std::count(codes.begin(), codes.end(), "limiter"), 1);
}

}  // namespace
}  // namespace samelight::test
