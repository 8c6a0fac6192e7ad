// What the commands of a proof ask about their files: units, copies, ranges, names, dates, and patches that two visits don't share.
#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/first_screens.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string doubts_demo = SAMELIGHT_DATA "/demo/proof/";

std::string demo_text(const std::string& name) {
    std::ifstream file(doubts_demo + name);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

/// A page's words, without its line breaks.
std::string words_of(const std::string& asked) {
    const Said said = run(asked);
    EXPECT_EQ(said.exit_code, 0) << asked << ": " << said.err;
    std::string text = said.out;
    std::replace(text.begin(), text.end(), '\n', ' ');
    for (std::size_t at; (at = text.find("  ")) != std::string::npos;) {
        text.erase(at, 1);
    }
    return text;
}

void expect_said(const std::string& asked, const std::string& part) {
    const std::string text = words_of(asked);
    EXPECT_NE(text.find(part), std::string::npos) << asked << "\n" << text;
}

std::string with_date(const std::string& text, const std::string& date) {
    std::stringstream lines(text);
    std::string result;
    for (std::string line; std::getline(lines, line);) {
        const bool comment = line.starts_with("#");
        result += line + (comment ? "" : line.find("patch") == 0 ? ",date" : "," + date) + "\n";
    }
    return result;
}

TEST(ReadingsDoubts, BeforeIsComparedByThePatchesThatBothHave) {
    const Scratch scratch;
    std::stringstream lines(demo_text("client-set-proof-before.csv"));
    std::string part;
    std::size_t left_out = 0;
    for (std::string line; std::getline(lines, line);) {
        // Colours alone: greys are left out.
        const bool grey = line.starts_with("grey-");
        left_out += grey ? 1 : 0;
        part += grey ? "" : line + "\n";
    }
    ASSERT_GT(left_out, 10U);
    part += "mine,10,20,30,8,full,1.00,1.10,1.20,10,1,centre\n";
    const std::string before = scratch.file("before.csv", part);
    const std::string asked = "check " + doubts_demo + "client-set-proof.csv --curve power:2.4" +
                              " --peak 140 --before " + before;
    expect_said(asked, "by the 120 patches in both");
    expect_said(asked, "13 are read now alone, 1 before alone");
    const json answer = json::parse(run(asked + " --json").out);
    EXPECT_EQ(answer["compared"]["patches_in_both"], 120);
    EXPECT_EQ(answer["compared"]["patches_only_now"], 13);
    EXPECT_EQ(answer["compared"]["patches_only_before"], 1);
    // By hand, of the patches of the answer.
    double sum = 0.0;
    for (const json& patch : answer["now"]["patches"]) {
        if (!patch["patch"].get<std::string>().starts_with("grey-")) {
            sum += patch["chosen"]["de00"].get<double>();
        }
    }
    EXPECT_NEAR(answer["compared"]["now_de00"]["mean"].get<double>(), sum / 120.0, 1e-9);
    EXPECT_EQ(words_of("check " + doubts_demo + "client-set-proof.csv --curve power:2.4 --before " +
                       doubts_demo + "client-set-proof-before.csv")
                  .find("in both"),
              std::string::npos);
}

TEST(ReadingsDoubts, RelativeLuminancesAreAskedAbout) {
    const Scratch scratch;
    const std::string relative = scratch.file(
        "relative.csv",
        "patch,x,y,Y\nwhite,.3127,.3290,1\ngrey-50,.3127,.3290,0.19\nred,.64,.33,0.2126\n"
        "green,.30,.60,0.7152\nblue,.15,.06,0.0722\nblack,.3127,.3290,0.0001\n");
    expect_said("check " + relative + " --curve power:2.4", "white reads 1, so Y looks relative");
    const Said hdr = run("hdr " + relative);
    EXPECT_NE(hdr.exit_code, 0);
    EXPECT_NE(hdr.err.find("Y in cd/m2"), std::string::npos) << hdr.err;
    EXPECT_EQ(lines(hdr.err), 1U) << hdr.err;
    const std::string hundred =
        scratch.file("hundred.csv", "patch,x,y,Y\nwhite,.3127,.3290,100\nred,.64,.33,21.26\n");
    expect_said("check " + hundred, "white reads 100, so Y looks relative");
    const std::string read =
        scratch.file("read.csv", "patch,x,y,Y\nwhite,.3127,.3290,100.1\nred,.64,.33,21.26\n");
    EXPECT_EQ(words_of("check " + read).find("relative"), std::string::npos);
}

TEST(ReadingsDoubts, ListsOfTargetsSayWhatIsCutAndKeepTheirNames) {
    const Scratch scratch;
    const std::string limited = scratch.file(
        "limited.csv",
        "name,r,g,b,bits,range\nsuper white,1000,1000,1000,10,limited\nmid,500,500,500,10,limited\n");
    expect_said("targets --patches " + limited, "the signals of 1 patch, super white, lie beyond");
    const std::string csv = (scratch.path() / "t.csv").string();
    expect_said("targets --bits 10 --range limited --patches " + limited + " --write " + csv,
                "the codes of 1 patch, super white, lie above white");
    std::ifstream file(csv);
    std::stringstream written;
    written << file.rdbuf();
    EXPECT_NE(written.str().find("\nmid,greys,500"), std::string::npos) << written.str();
    const std::string narrow =
        scratch.file("narrow.csv", "name,r,g,b\nblack,16,16,16\nwhite,235,235,235\n");
    expect_said("targets --patches " + narrow, "look like limited range");
    EXPECT_EQ(words_of("targets --range full --patches " + narrow).find("limited range"),
              std::string::npos);
    EXPECT_EQ(words_of("targets --range limited --patches " + narrow).find("!"), std::string::npos);
}

TEST(ReadingsDoubts, NamesThatCheckTakesAreTakenByGradientAndAdjust) {
    const Scratch scratch;
    const std::string proof = scratch.file(
        "proof.csv",
        "name,x,y,Lv\nWhite,.3127,.3290,100.2\n75 %,.3127,.3290,52.6\nGrey_50,.3127,.3290,20.9\n"
        "gray 25,.3127,.3290,4.6\nred-50-100,.45,.33,50\nRed,.64,.33,21.2\nGreen,.30,.60,71.5\n"
        "Blue,.15,.06,7.2\nblack,.30,.30,0.02\n");
    EXPECT_EQ(run("check " + proof).exit_code, 0);
    expect_said("gradient --adjustment " + doubts_demo + "client-set-adjustment.csv --readings " +
                    proof + " --details",
                "8 patches, read");
    const Said adjust = run("adjust " + proof + " --json");
    ASSERT_EQ(adjust.exit_code, 0) << adjust.err;
    EXPECT_EQ(json::parse(adjust.out)["greys"].size(), 5U) << adjust.out;
}

TEST(ReadingsDoubts, DatesStandForMonths) {
    const Scratch scratch;
    const std::string then =
        scratch.file("then.csv", with_date(demo_text("client-set-then.csv"), "2025-03-01"));
    const std::string now =
        scratch.file("now.csv", with_date(demo_text("client-set-now-year.csv"), "2026-03-01"));
    const std::string asked = "compare " + then + " " + now;
    const json dated = json::parse(run(asked + " --json").out);
    EXPECT_NEAR(dated["months_between"].get<double>(), 12.0, 0.02);
    EXPECT_EQ(words_of(asked).find("--months"), std::string::npos);
    EXPECT_EQ(words_of(asked + " --months 12").find("as typed"), std::string::npos);
    expect_said(asked + " --months 6", "The months as typed, 6, aren't");
    EXPECT_EQ(json::parse(run(asked + " --months 6 --json").out)["months_between"], 6.0);
    const Said exchanged = run("compare " + now + " " + then);
    EXPECT_NE(exchanged.exit_code, 0);
    EXPECT_NE(exchanged.err.find("the earlier visit first"), std::string::npos) << exchanged.err;
    expect_said("check " + doubts_demo + "client-set-proof.csv --curve power:2.4 --details" +
                    " --before " +
                    scratch.file("before.csv",
                                 with_date(demo_text("client-set-proof-before.csv"), "2026-03-01")),
                "before the work");
    expect_said(
        "check " +
            scratch.file("a.csv", with_date(demo_text("client-set-proof.csv"), "2025-03-01")) +
            " --before " +
            scratch.file("b.csv",
                         with_date(demo_text("client-set-proof-before.csv"), "2026-03-01")),
        "Are the two files exchanged?");
}

TEST(ReadingsDoubts, CopiedRowsAreSaidOnce) {
    const Scratch scratch;
    const std::string text = demo_text("client-set-then.csv");
    const std::size_t row = text.find("\nwhite,") + 1;
    const std::string copy = text.substr(row, text.find('\n', row) - row + 1);
    const std::string copied = scratch.file("then.csv", text + copy + copy);
    expect_said("compare " + copied + " " + doubts_demo + "client-set-now-year.csv",
                "2 rows say the same as an earlier one");
}

}  // namespace
}  // namespace samelight::test
