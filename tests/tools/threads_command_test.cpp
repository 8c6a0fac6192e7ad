// --threads: the answer is the same for any number of threads, byte by byte, and so is what is refused.
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "tools/run.hpp"

namespace samelight {
namespace {

const std::string demo = "'" SAMELIGHT_DATA "/demo/";

/// What the command says of these words with --threads 1, which is what it says with others and without.
void expect_same_words(const std::string& words) {
    const test::Said alone = test::run(words + " --threads 1");
    ASSERT_EQ(alone.exit_code, 0) << alone.err;
    EXPECT_GT(alone.out.size(), 100U);
    for (const std::string threads : {" --threads 2", " --threads 3", " --threads 8", ""}) {
        const test::Said said = test::run(words + threads);
        EXPECT_EQ(said.exit_code, 0) << words << threads;
        EXPECT_TRUE(said.out == alone.out) << words << threads;
        EXPECT_EQ(said.err, alone.err) << words << threads;
    }
}

TEST(ThreadsOfTheCommand, WhitesAreTheSame) {
    expect_same_words("white " + demo + "grading-monitor.csv' " + demo + "client-set.csv' " + demo +
                      "desk-display.csv' --people 300 --reference crt@0.3127,0.3290 --json");
    expect_same_words("white " + demo + "client-set.csv' --viewer 45:4 --viewer unknown --json");
}

TEST(ThreadsOfTheCommand, ADisplayInNumbersIsTheSame) {
    expect_same_words("white " + demo + "bar-screen.csv' --people 100 --json");
}

TEST(ThreadsOfTheCommand, LinesOfJsonAreTheSame) {
    expect_same_words("white " + demo + "client-set.csv' oled-rgb " + demo +
                      "tablet.csv' --people 100 --lines-of-json");
}

TEST(ThreadsOfTheCommand, ComparisonsAreTheSame) {
    const std::string panels = demo + "client-set.csv' oled-rgb";
    expect_same_words("metamerism " + panels + " --people 100 --viewer 30 --json");
    expect_same_words("metamerism " + panels + " crt --people 100 --details");
}

TEST(ThreadsOfTheCommand, CorrectionsAreTheSame) {
    expect_same_words("meter fit " + demo + "client-set-readings.csv' --resamples 700 --json");
}

TEST(ThreadsOfTheCommand, ProofsAndAdjustmentsAreTheSame) {
    expect_same_words(
        "check " + demo +
        "proof/client-set-proof-before.csv' --white 0.3091,0.3199 --curve power:2.4 --json");
    expect_same_words("gradient --adjustment " + demo +
                      "proof/client-set-adjustment.csv' --bits 8 --json");
}

TEST(ThreadsOfTheCommand, TheSameDisplayIsRefused) {
    // Two that can't be answered: the first is named.
    const std::string words = "white laser-rgb oled-rgb@0.05,0.05 crt@0.05,0.06 --people 50";
    const test::Said alone = test::run(words + " --threads 1");
    for (const std::string threads : {" --threads 2", " --threads 8"}) {
        const test::Said said = test::run(words + threads);
        EXPECT_EQ(said.exit_code, alone.exit_code);
        EXPECT_EQ(said.err, alone.err);
        EXPECT_EQ(said.out, alone.out);
    }
    EXPECT_NE(alone.exit_code, 0);
}

TEST(ThreadsOfTheCommand, AWordThatIsNoNumberIsRefused) {
    const test::Said said = test::run("white oled-rgb --threads many");
    EXPECT_EQ(said.exit_code, 2);
    EXPECT_NE(said.err.find("--threads"), std::string::npos) << said.err;
}

}  // namespace
}  // namespace samelight
