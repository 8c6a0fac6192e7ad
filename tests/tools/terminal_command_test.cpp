// What reaches the terminal: names from files and arguments hold whatever somebody put there.
#include <cctype>
#include <cstdlib>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

// ECMA-48: ESC [ and U+009B begin a control sequence; a terminal that gets one obeys. Names with a bell, a backspace, a line feed, C1
// controls, and the marks that turn the direction of writing (Unicode 15, 23.2).
const std::vector<std::string> steering = {"\x1b[31mred",
                                           "a\x07",
                                           "over\x08\x08\x08",
                                           "two\nlines",
                                           "c1\xc2\x9b"
                                           "31m",
                                           "back\xe2\x80\xaewards",
                                           "line\xe2\x80\xa8separator"};

void expect_harmless(const std::string& text) {
    for (const char c : text) {
        EXPECT_TRUE(c == '\n' || static_cast<unsigned char>(c) >= 0x20U) << text;
        EXPECT_NE(c, '\x7f') << text;
    }
    for (const char* mark : {"\xc2\x9b", "\xe2\x80\xae", "\xe2\x80\xa8"}) {
        EXPECT_EQ(text.find(mark), std::string::npos) << text;
    }
}

void expect_one_line(const std::string& err) {
    expect_harmless(err);
    EXPECT_EQ(err.find('\n'), err.size() - 1) << err;
    EXPECT_LT(err.size(), 2000U);
}

TEST(Terminal, ArgumentsDontSteerIt) {
    for (const std::string& name : steering) {
        const std::string word = quoted(name);
        for (const std::string& line :
             {"white " + word, "white crt --reference " + word, "panel " + word, word,
              "meter " + word, "white crt --" + word, "white ./" + word + ".csv",
              "white crt --people " + word, "observer " + word}) {
            const Said said = run(line);
            EXPECT_NE(said.exit_code, 0) << line;
            expect_one_line(said.err);
            expect_harmless(said.out);
        }
    }
}

/// What a terminal gets while the command waits for its file; its answer goes to `answer`.
std::string terminal_meanwhile(const Scratch& scratch, const std::string& answer) {
    const std::string typescript = (scratch.path() / "typescript").string();
    const std::string line = "script -qec \"(sleep 1.7; cat " SAMELIGHT_DATA
                             "/demo/desk-display.csv) | '" SAMELIGHT_EXECUTABLE "' white - > " +
                             answer + "\" " + typescript + " > /dev/null";
    EXPECT_EQ(std::system(line.c_str()), 0);
    return slurp(typescript);
}

TEST(Terminal, WhatTakesASecondSaysSoAndTakesItBack) {
    if (std::system("command -v script > /dev/null") != 0) {
        GTEST_SKIP() << "no script to make a terminal with";
    }
    const Scratch scratch;
    const std::string answer = (scratch.path() / "answer").string();
    const std::string seen = terminal_meanwhile(scratch, answer);
    const std::size_t at = seen.find("samelight: working, 1 s");
    ASSERT_NE(at, std::string::npos) << seen;
    // Gone again: the last of it are blanks, and nothing of the answer beside it.
    EXPECT_NE(seen.find("\r                                \r", at), std::string::npos) << seen;
    EXPECT_EQ(slurp(answer).find("working"), std::string::npos);
    // Not on a terminal, nothing.
    const Said said = run("white -", "(sleep 1.2; cat " SAMELIGHT_DATA "/demo/desk-display.csv) |");
    EXPECT_EQ(said.err, "");
    EXPECT_EQ(said.out, slurp(answer));
}

TEST(Terminal, HeadingsAndFileNamesDontSteerIt) {
    const Scratch scratch;
    for (const std::string& name : steering) {
        std::string csv = "wavelength_nm,\"" + name + "\"\n";
        for (int nm = 380; nm <= 780; nm += 5) {
            csv += std::to_string(nm) + "," + std::to_string(0.5 + 0.001 * (nm % 70)) + "\n";
        }
        const std::string file = scratch.file("light.csv", csv);
        for (const std::string& line :
             {"spectrum " + quoted(file), "spectrum --json " + quoted(file),
              "white " + quoted(file), "white crt --reference " + quoted(file)}) {
            const Said said = run(line);
            expect_harmless(said.out);
            expect_harmless(said.err);
        }
    }
}

TEST(Terminal, AnErrorIsNoLongerThanPeopleRead) {
    const std::string longest(100000, 'x');
    for (const std::string& line : {"white " + longest, "white crt --reference " + longest,
                                    "panel " + longest, longest, "white crt --people " + longest}) {
        const Said said = run(line);
        EXPECT_NE(said.exit_code, 0);
        expect_one_line(said.err);
        EXPECT_NE(said.err.find("bytes left out"), std::string::npos) << said.err;
    }
    const Scratch scratch;
    std::string heading = "wavelength_nm";
    for (int i = 0; i < 20000; ++i) {
        heading += ",column" + std::to_string(i);
    }
    expect_one_line(run("white " + quoted(scratch.file("wide.csv", heading + "\n"))).err);
}

TEST(Terminal, AWordThatIsNoCommandIsSaid) {
    expect_refusal(run("foo"), 2, "no command \"foo\"; wanted one of white, ");
    expect_refusal(run("meter foo"), 2, "meter: no command \"foo\"; wanted one of ");
}

}  // namespace
}  // namespace samelight::test
