// What `samelight white` says of a display in numbers whose type isn't known: as people read it, and as the README asks it.
#include <fstream>
#include <iterator>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

Said white_of_primaries(const std::string& primaries, const std::string& more = "") {
    return run("white --people 64 --primaries \"" + primaries + "\" " + more);
}

// The README's own line, word for word: its numbers belong to one display, which is like no standard.
TEST(WhiteTypes, TheLineInTheReadmeIsAnswered) {
    std::ifstream file(SAMELIGHT_DATA "/../README.md");
    const std::string readme{std::istreambuf_iterator<char>(file), {}};
    const std::string begin = "samelight white --primaries ";
    const std::size_t at = readme.find(begin);
    ASSERT_NE(at, std::string::npos);
    const std::size_t end = readme.find('\n', at);
    const Said said = run(readme.substr(at + 10, end - at - 10) + " --json");
    ASSERT_EQ(said.exit_code, 0) << said.err;
    const json answer = json::parse(said.out);
    ASSERT_EQ(answer["panels"].size(), 1U);
    EXPECT_EQ(answer["panels"][0]["type"]["name"], "oled-rgb");
    EXPECT_EQ(answer["panels"][0]["warnings"], json::array());
    EXPECT_EQ(answer["types_apart"]["warnings"], json::array());
}

TEST(WhiteTypes, TheNearestTypeIsntSaidToReadSo) {
    const Said none =
        white_of_primaries("red=.68,.3199 green=.265,.69 blue=.15,.06 white=.314,.351");
    ASSERT_EQ(none.exit_code, 0) << none.err;
    EXPECT_TRUE(page_says(none.out, "comes nearest, though none of its units reads so"))
        << none.out;
    EXPECT_FALSE(page_says(none.out, "only lcd-narrow-red")) << none.out;
    const Said one = run("white --people 64 " + quoted(SAMELIGHT_DATA "/demo/bar-screen.csv"));
    EXPECT_TRUE(page_says(one.out, "Of the 9 types known here only oled-rgb reads so; look"))
        << one.out;
}

TEST(WhiteTypes, AStandardsPrimariesAreSaidOnceAndNamed) {
    const std::string read = "red=.64,.33 green=.3,.6 blue=.15,.06 white=.3127,.329";
    const Said unknown = white_of_primaries(read);
    ASSERT_EQ(unknown.exit_code, 0) << unknown.err;
    const std::string said = "Red, green and blue are those of ITU-R BT.709";
    EXPECT_TRUE(page_says(unknown.out, said)) << unknown.out;
    const Said type = white_of_primaries(read, "--type lcd-white-led");
    EXPECT_TRUE(page_says(type.out, said)) << type.out;
    const json programs = json::parse(white_of_primaries(read, "--json").out);
    EXPECT_EQ(programs["types_apart"]["warnings"][0]["code"], "primaries_of_standard");
    EXPECT_EQ(programs["types_apart"]["warnings"].size(), 1U);
    for (const json& panel : programs["panels"]) {
        for (const json& warning : panel["warnings"]) {
            EXPECT_NE(warning["code"], "primaries_of_standard");
        }
    }
}

// A look at the white can't tell the type, since people differ by more than two types' whites do.
TEST(WhiteTypes, AnEyeChoosesAWhiteAndNoType) {
    const Said said = white_of_primaries("red=.64,.33 green=.3,.6 blue=.15,.06 white=.3127,.329");
    EXPECT_FALSE(page_says(said.out, "it is lcd")) << said.out;
    EXPECT_TRUE(page_says(said.out, "which can't be seen: any of them will do") ||
                page_says(said.out, "Keep the one that looks nearer, whatever the type"))
        << said.out;
}

}  // namespace
}  // namespace samelight::test
