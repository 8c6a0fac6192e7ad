// What is typed is taken as it stands: names, values, numbers; and nothing that was said is ignored without a word.
// Second route: the same answer asked for in the plain way.
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/meter/meter_files.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

std::string last_word(const std::string& line) { return line.substr(line.rfind(' ') + 1); }

TEST(Arguments, NamesInBracketsAreNamesOfFiles) {
    const Scratch scratch;
    const std::string in = "cd " + quoted(scratch.path().string()) + " && ";
    std::ofstream(scratch.path() / "a.csv") << as_measured("crt");
    std::ofstream(scratch.path() / "[a.csv]") << as_measured("oled-rgb");
    std::ofstream(scratch.path() / "[a.csv,b.csv]") << as_measured("laser-rgb");
    const auto answer = [&](const std::string& arguments) {
        return json::parse(run(arguments, in).out);
    };
    const json tube = answer("white a.csv --json");
    const json bracketed = answer("white '[a.csv]' --json");
    EXPECT_EQ(bracketed["panels"][0]["name"], "[a.csv]");
    EXPECT_EQ(bracketed["panels"][0]["targets"],
              answer("white ./[a.csv] --json")["panels"][0]["targets"]);
    EXPECT_NE(bracketed["panels"][0]["targets"], tube["panels"][0]["targets"]);
    const json both = answer("metamerism '[a.csv]' '[a.csv,b.csv]' --people 20 --json");
    EXPECT_EQ(both["panels"].size(), 2U);
    EXPECT_EQ(both["panels"][1]["name"], "[a.csv,b.csv]");
    EXPECT_EQ(answer("spectrum '[a.csv]' --json")["columns"].size(), 3U);
    // Where there is none, it is missed under the name that was typed.
    expect_refusal(run("white '[none.csv]'", in), 1, "[none.csv]: no such file");
    expect_refusal(run("spectrum '[none.csv]'", in), 1, "[none.csv]: no such file");
    expect_refusal(run("meter fit '[none.csv]'", in), 1, "[none.csv]: no such file");
    expect_refusal(run("meter choose crt --correction '[none.json]'", in), 1,
                   "[none.json]: no such file");
    expect_refusal(run("white crt '[28]'", in), 1, "\"[28]\"");
    expect_refusal(run("panel '[a]' '[b]'"), 2, "[b]");
    expect_refusal(run("white crt --viewer '[28,64]'"), 1, "\"[28,64]\"");
    expect_refusal(run("white crt --observer '[a,b]'"), 1, "\"[a,b]\"");
}

TEST(Arguments, AnOptionTakesOneValue) {
    // What follows --viewer 28 is another display, as on the page of options.
    const json answer = json::parse(run("white oled-rgb --viewer 28 crt --json").out);
    EXPECT_EQ(answer["panels"].size(), 2U);
    EXPECT_EQ(answer.at("panels").at(0).at("viewers").size(), 1U);
}

TEST(Arguments, AnEmptyValueIsRefused) {
    const Scratch scratch;
    const std::string in = "cd " + quoted(scratch.path().string()) + " && ";
    const std::vector<std::string> options = {
        "white crt --reference",
        "white crt --observer",
        "white crt --now",
        "white crt --noise",
        "white crt --viewer",
        "white crt --ages",
        "white crt --people",
        "white crt --instrument",
        "metamerism crt oled-rgb --deviations",
        "metamerism crt oled-rgb --field",
        "spectrum a.csv --bandwidth",
        "spectrum a.csv --corrected",
        "meter fit a.csv --write",
        "meter fit a.csv --panel",
        "meter fit a.csv --note",
        "meter model cie1931-2deg crt --write",
        "meter model cie1931-2deg crt --reference",
        "meter choose crt --correction",
        "meter choose crt --meter",
        "meter choose crt --under",
    };
    for (const std::string& option : options) {
        const std::string name = last_word(option);
        for (const char* value : {"= --json", " ''"}) {
            expect_refusal(run(option + value, in), 2, name + ": an empty value");
        }
        expect_refusal(run(option + " --json", in), 2, name + ": no value, but --json behind it");
    }
    expect_refusal(run("white crt --now --", in), 2, "--now: no value, but -- behind it");
    expect_refusal(run("white crt --now -h", in), 2, "--now: no value, but -h behind it");
    for (const char* line : {"white ''", "panel ''", "observer ''", "spectrum ''", "meter fit ''",
                             "meter model cie1931-2deg ''", "white -- ''", "''"}) {
        expect_refusal(run(line, in), 2, "an empty value");
    }
    EXPECT_TRUE(std::filesystem::is_empty(scratch.path())) << "something was written";
}

TEST(Arguments, AValueThatBeginsWithDashesIsTakenWhereItIsMeant) {
    const Scratch scratch;
    const std::string in = "cd " + quoted(scratch.path().string()) + " && ";
    EXPECT_EQ(run("meter model cie1931-2deg crt --write=--json", in).exit_code, 0);
    EXPECT_TRUE(std::filesystem::exists(scratch.path() / "--json"));
    expect_refusal(run("spectrum -- --none.csv", in), 1, "--none.csv: no such file");
    const std::string file = quoted(scratch.file("crt.csv", as_measured("crt")));
    EXPECT_EQ(run("spectrum " + file + " --shift -0.5").exit_code, 0);
    EXPECT_EQ(run("spectrum " + file + " --shift +0.5").out,
              run("spectrum " + file + " --shift 0.5").out);
}

TEST(Arguments, NumbersAreDecimal) {
    const auto people = [](const std::string& count) {
        const Said said = run("white crt --json --people " + count);
        EXPECT_EQ(said.exit_code, 0) << said.err;
        return json::parse(said.out)["panels"][0]["population"];
    };
    const json ten = people("10");
    EXPECT_EQ(people("010"), ten);
    EXPECT_EQ(people("0010"), ten);
    EXPECT_NE(people("8"), ten);
    const auto refused = [](const std::string& option, const std::string& value) {
        expect_refusal(run(option + " " + value), 2, last_word(option) + ": \"");
    };
    for (const char* option :
         {"white crt --people", "metamerism crt oled-rgb --people", "meter fit x --resamples",
          "meter fit x --seed", "meter choose crt --readings"}) {
        refused(option, "0x10");
        refused(option, "99999999999999999999999");
    }
    for (const char* value :
         {"0X1F", "0b11", "1e3", "10.0", "' 10'", "'10 '", "nan", "1,000", "+-1", "+"}) {
        refused("white crt --people", value);
    }
    refused("meter fit x --seed", "-1");
    for (const char* option :
         {"white crt --noise", "white crt --floor", "metamerism crt oled-rgb --field",
          "spectrum x.csv --bandwidth", "spectrum x.csv --shift", "meter fit x --want",
          "meter fit x --reference-off", "meter choose crt --mismatch", "meter choose crt --limit",
          "meter choose crt --noise"}) {
        refused(option, "0x10");
        refused(option, "nan");
    }
    for (const char* value :
         {"0x1p-3", "inf", "-infinity", "' 1'", "1.0.0", "1,5", "1e999", "+-1"}) {
        refused("white crt --noise", value);
    }
}

TEST(Arguments, WhatWouldHaveNoSayIsRefused) {
    const Scratch scratch;
    const std::string meter =
        quoted(scratch.file("meter.csv", rows_in_order({0, 1, 2}, {1.0, 1.0, 1.0})));
    const std::string table = "meter choose --table --meter " + meter + " ";
    for (const char* option :
         {"--correction x.json", "--mismatch 4", "--reference-white 0.3,0.3",
          "--meter-white 0.3,0.3", "--under x.json", "--noise 0.001", "--readings 2"}) {
        const std::string name = std::string(option).substr(0, std::string(option).find(' '));
        expect_refusal(run(table + option), 2, name + ": has no say in --table");
    }
    for (const char* option : {"--under x.json", "--noise 0.001", "--readings 2"}) {
        const std::string name = std::string(option).substr(0, std::string(option).find(' '));
        expect_refusal(run(std::string("meter choose crt ") + option), 2, name + ": has no say");
    }
    expect_refusal(run("meter choose crt --mismatch 4 --meter " + meter), 2,
                   "--mismatch: has no say with --meter");
    for (const char* option : {"--display", "--meter-instrument", "--date", "--note"}) {
        expect_refusal(run("meter model " + meter + " crt " + option + " x"), 2,
                       std::string(option) + " requires --write");
    }
    for (const char* option : {"--reference-instrument", "--picture-mode", "--window", "--level"}) {
        expect_refusal(run("meter fit x.csv " + std::string(option) + " x"), 2,
                       std::string(option) + " requires --write");
    }
    expect_refusal(run("meter model cie1931-2deg crt --scale-on-a"), 1,
                   "an observer, and rows to be scaled");
}

}  // namespace
}  // namespace samelight::test
