// Displays as they are named: options and settings that belong to no display or contradict each other, one display that can't be answered among
// others, and lists in any writing.
#include <cstddef>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

/// By a constant reference: std::quoted would fit another one better.
std::string as_typed(const std::string& text) { return quoted(text); }

/// The lights of the built-in RGB OLED in files of their own, and an odd display beside them: all invented.
class NamedDisplays : public testing::Test {
  protected:
    void SetUp() override {
        for (std::size_t k = 0; k < 3; ++k) {
            lights_.push_back(column(1 + k));
        }
        red_ = single("r.csv", "Sample", 0);
        green_ = single("g.csv", "Sample", 1);
        blue_ = single("b.csv", "Sample", 2);
        whole_ = scratch_.file("whole.csv", as_measured("oled-rgb"));
        // Its white is its blue: no white that red, green and blue make.
        std::string text = "nm,red,green,blue,white\n";
        for (std::size_t i = 0; i < nm_.size(); ++i) {
            text += nm_[i] + "," + lights_[0][i] + "," + lights_[1][i] + "," + lights_[2][i] + "," +
                    lights_[2][i] + "\n";
        }
        odd_ = scratch_.file("odd.csv", text);
    }

    std::vector<std::string> column(std::size_t number) {
        std::istringstream rows(as_measured("oled-rgb"));
        std::vector<std::string> values;
        nm_.clear();
        std::string row;
        std::getline(rows, row);
        while (std::getline(rows, row)) {
            std::istringstream cells(row);
            std::string cell;
            std::getline(cells, cell, ',');
            nm_.push_back(cell);
            for (std::size_t k = 0; k < number; ++k)
                std::getline(cells, cell, ',');
            values.push_back(cell);
        }
        return values;
    }

    [[nodiscard]] std::string single(const std::string& name, const std::string& heading,
                                     std::size_t light) const {
        std::string text = "nm," + heading + "\n";
        for (std::size_t i = 0; i < nm_.size(); ++i) {
            text += nm_[i] + "," + lights_[light][i] + "\n";
        }
        return scratch_.file(name, text);
    }

    [[nodiscard]] std::string options() const {
        return " --red " + as_typed(red_) + " --green " + as_typed(green_) + " --blue " +
               as_typed(blue_);
    }

    Scratch scratch_;
    std::vector<std::string> nm_;
    std::vector<std::vector<std::string>> lights_;
    std::string red_, green_, blue_, whole_, odd_;
};

const std::string of_few = " --people 64 ";

TEST_F(NamedDisplays, AColumnOfNoFileIsRefused) {
    expect_refusal(run("white" + options() + " --white 4"), 1,
                   "--white: \"4\" for white, a column of no file");
    expect_refusal(run("white --columns red=1 crt"), 1,
                   "--columns: \"1\" for red, a column of no file");
    expect_refusal(run("metamerism crt oled-rgb --columns red=1"), 1, "--columns: ");
    expect_refusal(run("white " + as_typed("red=" + red_ + ",green=" + green_ + ",blue=" + blue_) +
                       " --columns red=1"),
                   1, "--columns: ");
    expect_refusal(
        run("meter fit " + as_typed(std::string(SAMELIGHT_DATA) + "/demo/client-set-readings.csv") +
            " --columns red=1"),
        1, "--columns: ");
    expect_refusal(run("spectrum " + as_typed("red=" + red_) + " --columns red=1"), 1,
                   "--columns: ");
    // Where they are of use they stay: in the file of an option, in a display's own file, in the other display.
    EXPECT_EQ(run("white" + options() + " --columns red=1,green=1" + of_few).exit_code, 0);
    EXPECT_EQ(
        run("white crt " + as_typed(whole_) + " --columns red=1,green=2,blue=3" + of_few).exit_code,
        0);
    EXPECT_EQ(run("white " + as_typed(whole_) + options() + " --white 1" + of_few)
                  .err.find("a column of no file"),
              std::string::npos);
}

TEST_F(NamedDisplays, InAStreamAnOptionOfNoUseIsSaidAtTheEnd) {
    const Said said = run("white --lines-of-json crt --type crt --columns red=1" + of_few);
    EXPECT_EQ(said.exit_code, 1);
    std::istringstream in(said.out);
    std::vector<json> found;
    for (std::string line; std::getline(in, line);)
        found.push_back(json::parse(line));
    ASSERT_EQ(found.size(), 4U) << said.out;
    EXPECT_TRUE(found[1].contains("targets"));
    EXPECT_EQ(found[2]["error"]["where"], "--type crt");
    EXPECT_EQ(found[3]["error"]["where"], "--columns");
    EXPECT_EQ(lines(said.err), 2U) << said.err;
    const std::string readings = as_typed(scratch_.file(
        "n.csv", "name,x,y\nred,.64,.33\ngreen,.3,.6\nblue,.15,.06\nwhite,.3127,.329\n"));
    EXPECT_EQ(run("white --lines-of-json crt " + readings + " --type crt" + of_few).exit_code, 0);
    EXPECT_EQ(run("white --lines-of-json crt " + as_typed(whole_) +
                  " --columns red=1,green=2,blue=3" + of_few)
                  .exit_code,
              0);
    // What no display could be is said before any.
    const Said unknown = run("white --lines-of-json crt --type nothing");
    EXPECT_EQ(unknown.exit_code, 1);
    EXPECT_EQ(lines(unknown.out), 1U) << unknown.out;
    EXPECT_EQ(json::parse(unknown.out)["error"]["where"], "--type nothing");
}

TEST_F(NamedDisplays, ATypeOfNothingIsSaidBesideWhatCantBeRead) {
    const Said said = run("white crt nofile.csv --type crt --json" + of_few);
    EXPECT_EQ(said.exit_code, 1);
    const json errors = json::parse(said.out)["errors"];
    ASSERT_EQ(errors.size(), 2U) << said.out;
    EXPECT_EQ(errors[0]["where"], "nofile.csv");
    EXPECT_EQ(errors[1]["where"], "--type crt");
}

// Second route: the other display alone, and the stream.
TEST_F(NamedDisplays, OneThatCantBeAnsweredStandsAmongTheErrors) {
    const json alone = json::parse(run("white oled-white --json" + of_few).out)["panels"][0];
    for (const std::string& bad :
         {whole_ + "@0.9,0.05", std::string("crt@0.7,0.25"), odd_, odd_ + "@0.1,0.05"}) {
        const Said said = run("white --json " + as_typed(bad) + " oled-white" + of_few);
        EXPECT_EQ(said.exit_code, 1) << bad;
        const json answer = json::parse(said.out);
        ASSERT_TRUE(answer.contains("panels")) << said.out;
        ASSERT_EQ(answer["panels"].size(), 1U) << bad;
        EXPECT_EQ(answer["panels"][0], alone);
        ASSERT_EQ(answer["errors"].size(), 1U) << said.out;
        EXPECT_EQ(answer["errors"][0]["where"], bad);
        EXPECT_EQ(lines(said.err), 1U) << said.err;
        const Said stream = run("white --lines-of-json " + as_typed(bad) + " oled-white" + of_few);
        EXPECT_EQ(stream.exit_code, 1);
        EXPECT_EQ(lines(stream.out), 3U) << stream.out;
    }
    // None left: an error, of each.
    const Said none = run("white --json crt@0.7,0.25 " + as_typed(odd_));
    EXPECT_EQ(none.exit_code, 1);
    EXPECT_EQ(json::parse(none.out)["errors"].size(), 2U) << none.out;
}

TEST_F(NamedDisplays, SingleFilesAreSetToOneWhite) {
    const std::string rest = " " + as_typed(blue_) + of_few;
    expect_refusal(
        run("white " + as_typed(red_ + "@0.3,0.3") + " " + as_typed(green_ + "@0.32,0.33") + rest),
        1, green_ + "@0.32,0.33: a second white as set, after " + red_ + "@0.3,0.3");
    const Said same =
        run("white " + as_typed(red_ + "@0.3,0.3") + " " + as_typed(green_ + "@0.3,0.3") + rest);
    EXPECT_EQ(same.exit_code, 0) << same.err;
}

TEST_F(NamedDisplays, AMissingFileOfADisplayIsOneFailure) {
    const Said said = run("white --json " + as_typed(red_) + " " + as_typed(green_) + " " +
                          as_typed(blue_) + " nofile.csv");
    expect_refusal(said, 1, "nofile.csv: no such file; " + red_ + " and 2 more");
    EXPECT_EQ(json::parse(said.out)["errors"].size(), 1U);
}

TEST_F(NamedDisplays, ALightTakenAgainstItsHeadingIsSaid) {
    const std::string white = single("w.csv", "Weiß", 2);
    const auto codes = [](const Said& said) {
        std::string all;
        const json answer = json::parse(said.out);
        for (const json& warning : answer["panels"][0]["warnings"]) {
            all += warning["code"].get<std::string>() + " ";
        }
        return all;
    };
    const std::string first = "white --json 'red=" + red_ + ",green=" + green_ + ",blue=";
    const Said against = run(first + white + "'" + of_few);
    EXPECT_EQ(against.exit_code, 0) << against.err;
    EXPECT_NE(codes(against).find("light_called_otherwise"), std::string::npos);
    EXPECT_NE(against.out.find("was taken for blue, as asked"), std::string::npos);
    for (const char* heading : {"Sample", "blue", "BLAU"}) {
        const Said said = run(first + single("named.csv", heading, 2) + "'" + of_few);
        EXPECT_EQ(codes(said).find("light_called_otherwise"), std::string::npos) << heading;
    }
    // In columns, too.
    const Said swapped = run("white --json " + as_typed(odd_) +
                             " --columns red=red,green=green,blue=white" + of_few);
    EXPECT_NE(swapped.out.find("\\\"white\\\" was taken for blue"), std::string::npos)
        << swapped.err;
}

// What is wrong is said once, of what was typed.
TEST_F(NamedDisplays, RefusalsNameWhatWasTyped) {
    EXPECT_EQ(run("nobody").err.rfind("samelight: no command \"nobody\"", 0), 0U);
    expect_refusal(run("white --red " + as_typed(red_)), 1, "red=FILE,green=FILE,blue=FILE,...,");
    expect_refusal(
        run("meter fit " + as_typed(std::string(SAMELIGHT_DATA) + "/demo/client-set-readings.csv") +
            " --noise 0,001"),
        1, "--noise: \"0,001\"");
    for (const char* now : {"0,3127;0,329", "nan,nan", "0.31;0.33", "inf,0.3"}) {
        expect_refusal(run("white crt --now '" + std::string(now) + "'"), 1,
                       "--now: \"" + std::string(now) + "\"");
    }
}

std::string in_utf16(const std::string& ascii, bool little, bool mark) {
    std::string bytes = !mark ? "" : little ? "\xff\xfe" : "\xfe\xff";
    for (const char c : ascii) {
        if (!little) bytes += '\0';
        bytes += c;
        if (little) bytes += '\0';
    }
    return bytes;
}

// Second route: the names typed.
TEST_F(NamedDisplays, AListMayBeWrittenAsAnyTextFile) {
    const std::string expected = run("white oled-rgb laser-rgb crt --json" + of_few).out;
    std::vector<std::string> lists = {"oled-rgb\rlaser-rgb\rcrt\r", "oled-rgb\rlaser-rgb\r\r\ncrt",
                                      "\xef\xbb\xbfoled-rgb\r\nlaser-rgb\ncrt"};
    for (const bool little : {true, false}) {
        for (const bool mark : {true, false}) {
            lists.push_back(in_utf16("oled-rgb\r\nlaser-rgb\r\ncrt\r\n", little, mark));
            lists.push_back(in_utf16("oled-rgb\rlaser-rgb\rcrt", little, mark));
        }
    }
    for (std::size_t i = 0; i < lists.size(); ++i) {
        const std::string list = as_typed(scratch_.file("list", lists[i]));
        EXPECT_EQ(run("white --panels-from " + list + " --json" + of_few).out, expected) << i;
        EXPECT_EQ(run("white --panels-from - --json" + of_few + "<" + list).out, expected) << i;
    }
    // Lines are counted as a CSV reader counts them.
    const std::string faulty =
        as_typed(scratch_.file("faulty", std::string("crt\r\n\roled\0\r", 12)));
    expect_refusal(run("white --panels-from " + faulty), 1, "faulty:3: a zero byte");
}

}  // namespace
}  // namespace samelight::test
