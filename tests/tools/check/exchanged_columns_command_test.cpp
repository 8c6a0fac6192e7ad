// Exchanged headings of x and y, as every command of a proof takes them, and a white typed as y, x.
#include <algorithm>
#include <fstream>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include "tools/first_screens.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

std::string shown_file(const std::string& name) {
    return std::string(SAMELIGHT_DATA) + "/demo/proof/" + name;
}

/// The demo's file with the two headings exchanged, and nothing else.
std::string with_headings_exchanged(const Scratch& scratch, const std::string& name) {
    std::ifstream file(shown_file(name));
    std::stringstream text;
    text << file.rdbuf();
    std::string content = text.str();
    const std::size_t xyz = content.find("X,Y,Z");
    content.replace(xyz == std::string::npos ? content.find("x,y,Y") : xyz, 5,
                    xyz == std::string::npos ? "y,x,Y" : "Y,X,Z");
    return scratch.file(name, content);
}

void expect_refused_in_one_line(const Said& said, const std::string& file) {
    EXPECT_NE(said.exit_code, 0) << said.out;
    EXPECT_NE(said.err.find(file), std::string::npos) << said.err;
    EXPECT_NE(said.err.find("look exchanged"), std::string::npos) << said.err;
    EXPECT_NE(said.err.find("exchange the two headings"), std::string::npos) << said.err;
    EXPECT_EQ(said.err.find('\n'), said.err.size() - 1) << said.err;
}

TEST(ExchangedHeadings, AreRefusedWherePrimariesWereRead) {
    const Scratch scratch;
    const std::string proof = with_headings_exchanged(scratch, "client-set-proof.csv");
    expect_refused_in_one_line(run("check " + proof), proof);
    expect_refused_in_one_line(
        run("check " + shown_file("client-set-proof.csv") + " --before " + proof), proof);
    const std::string hdr = with_headings_exchanged(scratch, "client-set-hdr.csv");
    expect_refused_in_one_line(run("hdr " + hdr), hdr);
    const std::string then = with_headings_exchanged(scratch, "client-set-then.csv");
    const std::string now = with_headings_exchanged(scratch, "client-set-now-year.csv");
    expect_refused_in_one_line(run("compare " + then + " " + now), then);
    expect_refused_in_one_line(run("compare " + shown_file("client-set-then.csv") + " " + now),
                               now);
}

TEST(ExchangedHeadings, OfGreysAloneAreAskedAboutOnTheFirstScreen) {
    const Scratch scratch;
    const std::string greys = with_headings_exchanged(scratch, "client-set-greys.csv");
    const std::string controls = with_headings_exchanged(scratch, "client-set-controls.csv");
    const Said adjust =
        run("adjust " + greys + " --controls " + shown_file("client-set-controls.csv"));
    ASSERT_EQ(adjust.exit_code, 0) << adjust.err;
    EXPECT_NE(adjust.out.find("! " + greys.substr(0, 20)), std::string::npos) << adjust.out;
    EXPECT_NE(adjust.out.find("with x and y exchanged"), std::string::npos) << adjust.out;
    const Said moved =
        run("adjust " + shown_file("client-set-greys.csv") + " --controls " + controls);
    EXPECT_NE(moved.out.find("with x and y exchanged"), std::string::npos) << moved.out;
    EXPECT_EQ(run("adjust " + shown_file("client-set-greys.csv") + " --controls " +
                  shown_file("client-set-controls.csv"))
                  .out.find("exchanged"),
              std::string::npos);
}

TEST(ExchangedHeadings, OfTargetsAreRefused) {
    const Scratch scratch;
    const std::string csv = (scratch.path() / "t.csv").string();
    ASSERT_EQ(run("targets --bits 8 --write " + csv).exit_code, 0);
    std::ifstream file(csv);
    std::stringstream text;
    text << file.rdbuf();
    std::string content = text.str();
    content.replace(content.find("x,y,Y"), 5, "y,x,Y");
    const std::string wrong = scratch.file("wrong.csv", content);
    expect_refused_in_one_line(
        run("check " + shown_file("client-set-proof.csv") + " --targets " + wrong), wrong);
}

TEST(ExchangedWhite, IsAskedAboutByEveryCommandThatTakesOne) {
    const std::string asked = "did you mean 0.3127, 0.3290?";
    for (const std::string& command :
         {"check " + shown_file("client-set-proof.csv"), "hdr " + shown_file("client-set-hdr.csv"),
          "adjust " + shown_file("client-set-greys.csv"),
          "compare " + shown_file("client-set-then.csv") + " " +
              shown_file("client-set-now-year.csv"),
          "gradient --adjustment " + shown_file("client-set-adjustment.csv"),
          std::string("targets")}) {
        const Said said = run(command + " --white 0.3290,0.3127");
        ASSERT_EQ(said.exit_code, 0) << command << ": " << said.err;
        std::string text = said.out;
        std::replace(text.begin(), text.end(), '\n', ' ');
        EXPECT_NE(text.find(asked), std::string::npos) << command << ": " << said.out;
        EXPECT_EQ(run(command + " --white 0.3127,0.3290").out.find("did you mean"),
                  std::string::npos)
            << command;
    }
}

}  // namespace
}  // namespace samelight::test
