// Displays from single files, numbered columns and standard input, and answers that do without a bad file, through the whole command.
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::vector<std::string> light_names{"red", "green", "blue", "white", "black"};

/// By a constant reference: std::quoted would fit another one better.
std::string in_quotes(const std::string& text) { return quoted(text); }

/// The same invented display in every form that a test asks for: the built-in RGB OLED with a white and a black.
class DisplayFiles : public testing::Test {
  protected:
    void SetUp() override {
        std::istringstream rows(as_measured("oled-rgb"));
        std::string line;
        std::getline(rows, line);
        while (std::getline(rows, line)) {
            std::istringstream cells(line);
            std::vector<std::string> row;
            for (std::string cell; std::getline(cells, cell, ',');) {
                row.push_back(cell);
            }
            const double sum =
                std::stod("0" + row[1]) + std::stod("0" + row[2]) + std::stod("0" + row[3]);
            std::ostringstream white;
            std::ostringstream black;
            white.precision(12);
            black.precision(12);
            white << sum;
            black << 1e-4 * sum;
            row.push_back(white.str());
            row.push_back(black.str());
            rows_.push_back(row);
        }
        whole_ = write("whole.csv", light_names);
        numbered_ = write("numbered.csv", {"Measurement 1", "Measurement 2", "Measurement 3",
                                           "Measurement 4", "Measurement 5"});
        bad_ = scratch_.file("bad.csv", "no table at all\n");
        for (std::size_t k = 0; k < light_names.size(); ++k) {
            singles_.push_back(write("a_" + light_names[k] + ".csv", {"Sample"}, k));
            unnamed_.push_back(write(std::to_string(k + 1) + ".csv", {"Sample"}, k));
        }
    }

    /// Columns under some headings, from light `first` on.
    [[nodiscard]] std::string write(const std::string& name,
                                    const std::vector<std::string>& headings,
                                    std::size_t first = 0) const {
        std::string text = "nm";
        for (const std::string& heading : headings) {
            text += "," + heading;
        }
        for (const std::vector<std::string>& row : rows_) {
            text += "\n" + row[0];
            for (std::size_t k = 0; k < headings.size(); ++k) {
                text += "," + row[1 + first + k];
            }
        }
        return scratch_.file(name, text + "\n");
    }

    /// Options or a word that name the files.
    [[nodiscard]] std::string as_options(const std::vector<std::string>& files) const {
        std::string text;
        for (std::size_t k = 0; k < files.size(); ++k) {
            text += " --" + light_names[k] + " " + in_quotes(files[k]);
        }
        return text;
    }
    [[nodiscard]] static std::string as_word(const std::vector<std::string>& files) {
        std::string text;
        for (std::size_t k = 0; k < files.size(); ++k) {
            text += (k > 0 ? "," : "") + light_names[k] + "=" + files[k];
        }
        return in_quotes(text);
    }
    [[nodiscard]] static std::string as_list(const std::vector<std::string>& files) {
        std::string text;
        for (const std::string& file : files) {
            text += " " + in_quotes(file);
        }
        return text;
    }

    Scratch scratch_;
    std::vector<std::vector<std::string>> rows_;
    std::string whole_, numbered_, bad_;
    std::vector<std::string> singles_, unnamed_;
};

const std::string by_number = " --columns red=1,green=2,blue=3,white=4,black=5";

json answered(const Said& said) {
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return said.exit_code == 0 ? json::parse(said.out) : json();
}

TEST_F(DisplayFiles, WhiteIsTheSameInEveryForm) {
    const json whole = answered(run("white --json " + in_quotes(whole_)));
    for (const std::string& form :
         {as_options(unnamed_), as_word(unnamed_), as_list(singles_),
          in_quotes(numbered_) + by_number,
          in_quotes(numbered_) +
              " --red 1 --green 'Measurement 2' --blue 'measurement 3' --white 4 "
              "--black 5",
          "red=" + in_quotes(numbered_ + "#1") + ",green=" + in_quotes(numbered_ + "#2") +
              ",blue=" + in_quotes(numbered_ + "#Measurement 3") +
              ",white=" + in_quotes(numbered_ + "#4") + ",black=" + in_quotes(numbered_ + "#5")}) {
        const json answer = answered(run("white --json " + form));
        ASSERT_EQ(answer["panels"].size(), 1U) << form;
        EXPECT_EQ(answer["panels"][0]["targets"], whole["panels"][0]["targets"]) << form;
        EXPECT_EQ(answer["errors"], json::array());
    }
    const Said page = run("white --details" + as_list(singles_));
    EXPECT_TRUE(page_says(page.out, "a_red.csv and 4 more")) << page.out;
    EXPECT_TRUE(page_says(page.out, "One display: red from ")) << page.out;
    EXPECT_TRUE(page_says(page.out, "\"Sample\" is red.")) << page.out;
}

TEST_F(DisplayFiles, EveryCommandThatReadsADisplayTakesThem) {
    const json pairs = answered(run("metamerism --json crt " + in_quotes(whole_)));
    const json pairs_word = answered(run("metamerism --json crt " + as_word(unnamed_)));
    const json pairs_options = answered(run("metamerism --json crt" + as_options(unnamed_)));
    const json pairs_numbered =
        answered(run("metamerism --json crt " + in_quotes(numbered_) + by_number));
    for (const json& other : {pairs_word, pairs_options, pairs_numbered}) {
        EXPECT_EQ(other["pairs"][0]["sees_most"], pairs["pairs"][0]["sees_most"]);
        EXPECT_EQ(other["pairs"][0]["least_white_mean_de00"],
                  pairs["pairs"][0]["least_white_mean_de00"]);
    }
    const std::string model = "meter model cie1964-10deg --json ";
    const json modelled = answered(run(model + in_quotes(whole_)));
    for (const std::string& form : {as_word(unnamed_), as_options(unnamed_), as_list(singles_),
                                    in_quotes(numbered_) + by_number}) {
        EXPECT_EQ(answered(run(model + form))["reference_from_meter"],
                  modelled["reference_from_meter"])
            << form;
    }
    const std::string kept = (scratch_.path() / "kept.json").string();
    ASSERT_EQ(run("meter model cie1964-10deg " + in_quotes(whole_) + " --write " + in_quotes(kept))
                  .exit_code,
              0);
    const std::string choose = "meter choose --json --correction " + in_quotes(kept) + " ";
    const json chosen = answered(run(choose + in_quotes(whole_)));
    for (const std::string& form : {as_word(unnamed_), in_quotes(numbered_) + by_number}) {
        json other = answered(run(choose + form));
        EXPECT_EQ(other["panels"][0]["expected_error"], chosen["panels"][0]["expected_error"])
            << form;
    }
    const json spectrum = answered(run("spectrum --json " + in_quotes(whole_)));
    const json numbered = answered(run("spectrum --json " + in_quotes(numbered_) + by_number));
    EXPECT_EQ(numbered["columns"], spectrum["columns"]);
    const json files = answered(run("spectrum --json" + as_options(unnamed_)));
    EXPECT_EQ(files["schema"], "samelight/spectra/1");
    ASSERT_EQ(files["files"].size(), 5U);
    for (std::size_t k = 0; k < 5; ++k) {
        EXPECT_EQ(files["files"][k]["columns"][0], spectrum["columns"][k]);
    }
}

TEST_F(DisplayFiles, WhatDoesntGoTogetherIsSaid) {
    expect_refusal(run("white " + in_quotes(numbered_)), 1, "--columns red=1,green=2,blue=3");
    expect_refusal(run("white " + in_quotes(numbered_) + " --columns red=1,green=2,blue=9"), 1,
                   "no column 9 for blue (columns: 1 \"Measurement 1\"");
    expect_refusal(run("white " + in_quotes(numbered_) + " --columns 1,2,3"), 1,
                   "--columns: \"1,2,3\"; wanted ROLE=COLUMN");
    expect_refusal(run("white" + as_list({unnamed_[0], unnamed_[1]})), 1,
                   "neither its heading nor the file's name says which");
    expect_refusal(run("white" + as_list({singles_[0], singles_[1]})), 1, "no column blue");
    expect_refusal(run("white --red " + in_quotes(unnamed_[0])), 1, "no file for green, blue");
    expect_refusal(run("white " + in_quotes(whole_) + " --black " + in_quotes(unnamed_[4])), 1,
                   "--black: " + unnamed_[4] + ", and no file for red, green, blue");
    expect_refusal(run("white --columns red=1"), 2, "PANEL is required");
    expect_refusal(run("meter model cie1931-2deg crt oled-rgb"), 1, "2 displays; wanted one");
}

TEST_F(DisplayFiles, AFileThatIsReadIsNotWrittenOn) {
    const Said said =
        run("meter model cie1931-2deg " + as_word(unnamed_) + " --write " + in_quotes(unnamed_[2]));
    expect_refusal(said, 1, "a file that was read");
}

// ---- One bad file among several ------------------------------------------------------------------

/// An answer on standard output, one line for each thing that is wrong, and the code for bad input.
void expect_partial(const Said& said, const std::vector<std::string>& parts) {
    EXPECT_EQ(said.exit_code, 1);
    EXPECT_FALSE(said.out.empty());
    EXPECT_EQ(lines(said.err), parts.size()) << said.err;
    for (const std::string& part : parts) {
        EXPECT_NE(said.err.find(part), std::string::npos) << said.err << "\nlacks " << part;
    }
}

TEST_F(DisplayFiles, TheGoodOnesAreAnsweredBesideABadOne) {
    const std::string good = in_quotes(whole_);
    const std::string bad = in_quotes(bad_);
    for (const std::string& command :
         {"white " + bad + " " + good, "white " + good + " " + bad,
          "metamerism crt " + bad + " " + good, "spectrum " + bad + " " + good}) {
        expect_partial(run(command), {"bad.csv:1:1: no table"});
        const Said said = run(command + " --json");
        expect_partial(said, {"bad.csv:1:1: no table"});
        const json answer = json::parse(said.out);
        ASSERT_EQ(answer["errors"].size(), 1U) << command;
        EXPECT_EQ(answer["errors"][0]["line"], 1);
        EXPECT_EQ(answer["errors"][0]["where"], bad_);
        EXPECT_NE(answer["errors"][0]["message"].get<std::string>().find("; wanted "),
                  std::string::npos);
    }
    const json alone = answered(run("white --json " + good));
    const json beside = json::parse(run("white --json " + bad + " " + good).out);
    EXPECT_EQ(beside["panels"], alone["panels"]);
    const Said table = run("metamerism --csv crt " + good + " " + bad);
    EXPECT_EQ(table.exit_code, 1);
    EXPECT_NE(table.err.find("samelight: " + bad_ + ":1:1: no table"), std::string::npos)
        << table.err;
    EXPECT_EQ(lines(table.out), lines(run("metamerism --csv crt " + good).out));
}

TEST_F(DisplayFiles, AnAnswerThatCantBeWrittenIsSaidFirst) {
    const std::string err = (scratch_.path() / "err").string();
    const std::string line = "'" SAMELIGHT_EXECUTABLE "' white " + in_quotes(whole_) + " " +
                             in_quotes(bad_) + " >/dev/full 2>" + in_quotes(err);
    const int status = std::system(line.c_str());
    EXPECT_EQ(WIFEXITED(status) ? WEXITSTATUS(status) : -1, 1);
    EXPECT_EQ(slurp(err).rfind("samelight: standard output can't be written", 0), 0U) << slurp(err);
}

TEST_F(DisplayFiles, SeveralBadOnesAreAllSaid) {
    const std::string gone = in_quotes((scratch_.path() / "gone.csv").string());
    expect_partial(run("white " + gone + " " + in_quotes(whole_) + " " + in_quotes(bad_)),
                   {"gone.csv: no such file", "bad.csv:1:1: no table"});
    const Said none = run("white " + gone + " " + in_quotes(bad_));
    EXPECT_EQ(none.exit_code, 1);
    EXPECT_EQ(none.out, "");
    EXPECT_EQ(lines(none.err), 2U) << none.err;
    const Said too_few = run("metamerism " + in_quotes(whole_) + " " + in_quotes(bad_));
    expect_refusal(too_few, 1, "bad.csv:1:1: no table");
    EXPECT_EQ(run("spectrum " + gone + " " + in_quotes(bad_)).out, "");
    // For programs, too: the same lines, and the first in the place of the only one.
    for (const std::string command : {"white ", "spectrum "}) {
        const Said listed = run(command + gone + " " + in_quotes(bad_) + " --json");
        EXPECT_EQ(listed.exit_code, 1);
        const json answer = json::parse(listed.out);
        EXPECT_EQ(answer["schema"], "samelight/error/1");
        ASSERT_EQ(answer["errors"].size(), 2U) << listed.out;
        std::string said;
        for (const json& error : answer["errors"]) {
            said += "samelight: " + error["message"].get<std::string>() + "\n";
        }
        EXPECT_EQ(said, listed.err);
        json first = answer["errors"][0];
        first.erase("message");
        EXPECT_EQ(answer["error"], first);
        EXPECT_EQ(answer["errors"][1]["file"], bad_);
    }
}

TEST_F(DisplayFiles, AWhiteSetByEyeNeedsTheFirstDisplay) {
    expect_refusal(run("white " + in_quotes(bad_) + " " + in_quotes(whole_) +
                       " --viewer 40 --eye A=0.31,0.32"),
                   1, "bad.csv:1:1: no table");
}

TEST_F(DisplayFiles, MeterChooseDoesWithoutBadCorrectionsAndDisplays) {
    const std::string kept = (scratch_.path() / "kept.json").string();
    ASSERT_EQ(run("meter model cie1931-2deg crt --write " + in_quotes(kept)).exit_code, 0);
    const std::string asked = " --correction " + in_quotes(kept) + " --correction " +
                              in_quotes(bad_) + " crt " + in_quotes(bad_);
    expect_partial(run("meter choose" + asked), {"no JSON", "no table"});
    const json answer = json::parse(run("meter choose --json" + asked).out);
    EXPECT_EQ(answer["errors"].size(), 2U);
    EXPECT_EQ(answer["corrections"].size(), 1U);
    expect_partial(run("meter choose --table --meter cie1931-2deg crt oled-rgb " + in_quotes(bad_)),
                   {"no table"});
}

// ---- Standard input --------------------------------------------------------------------------------

TEST_F(DisplayFiles, ADashIsStandardInput) {
    const std::string from = " < " + in_quotes(whole_);
    const json whole = answered(run("white --json " + in_quotes(whole_)));
    json piped = answered(run("white --json -" + from));
    EXPECT_EQ(piped["panels"][0]["name"], "standard input");
    EXPECT_EQ(piped["panels"][0]["targets"], whole["panels"][0]["targets"]);
    EXPECT_EQ(answered(run("white --json red=-,green=-,blue=-,white=-,black=-" +
                           from))["panels"][0]["targets"],
              whole["panels"][0]["targets"]);
    EXPECT_EQ(answered(run("spectrum --json -" + from))["columns"],
              answered(run("spectrum --json " + in_quotes(whole_)))["columns"]);
    EXPECT_EQ(run("metamerism crt -" + from).exit_code, 0);
    EXPECT_EQ(run("meter model cie1931-2deg -" + from).exit_code, 0);
    EXPECT_EQ(run("white crt --reference -@0.3127,0.3290" + from).exit_code, 0);
    EXPECT_EQ(run("white crt --now - < " + in_quotes(unnamed_[3])).exit_code, 0);
    const std::string ages = scratch_.file("ages.csv", "age,people\n30,5\n40,5\n");
    EXPECT_EQ(run("white crt --ages - < " + in_quotes(ages)).exit_code, 0);
    const std::string kept = (scratch_.path() / "kept.json").string();
    ASSERT_EQ(run("meter model cie1931-2deg crt --write " + in_quotes(kept)).exit_code, 0);
    EXPECT_EQ(run("meter choose crt --correction - < " + in_quotes(kept)).exit_code, 0);
}

TEST_F(DisplayFiles, StandardInputIsReadOnceAndCalledSo) {
    const std::string from = " < " + in_quotes(whole_);
    expect_partial(run("white - -" + from), {"standard input: named a second time"});
    expect_refusal(run("white - --reference -" + from), 1, "standard input: named a second time");
    expect_refusal(run("spectrum - < " + in_quotes(bad_)), 1, "standard input:1:1: no table");
    expect_refusal(run("white - < /dev/null"), 1, "standard input");
    expect_refusal(run("white crt --ages - < " + in_quotes(bad_)), 1, "standard input");
    expect_refusal(run("meter fit - < " + in_quotes(bad_)), 1, "standard input");
}

// ---- Displays one after another ------------------------------------------------------------------

/// The lines of an answer, without the first, which is of all displays.
std::vector<json> display_lines(const Said& said) {
    std::vector<json> result;
    std::istringstream in(said.out);
    std::string line;
    std::getline(in, line);
    while (std::getline(in, line)) {
        result.push_back(json::parse(line));
    }
    return result;
}

TEST_F(DisplayFiles, AStreamTakesThemInEveryFormOfOneWord) {
    const json whole = answered(run("white --json " + in_quotes(whole_)))["panels"][0];
    const std::string word = as_word(unnamed_);
    const std::string list = scratch_.file(
        "list", numbered_ + "\n" + word.substr(1, word.size() - 2) + "\n" + bad_ + "\nnobody\n");
    const Said said = run("white --lines-of-json --panels-from " + in_quotes(list) + by_number +
                          as_options({light_names.size(), numbered_}) + " " + in_quotes(numbered_));
    expect_partial(said, {"bad.csv:1:1: no table", "nobody"});
    const std::vector<json> found = display_lines(said);
    ASSERT_EQ(found.size(), 6U) << said.out;
    for (const std::size_t good : {0U, 1U, 2U, 5U}) {
        EXPECT_EQ(found[good]["targets"], whole["targets"]) << good;
    }
    EXPECT_EQ(found[3]["error"]["file"], bad_);
    EXPECT_EQ(found[4]["name"], "nobody");
    // The display of the options alone, and what is wrong with it: before anything where it is what was typed.
    EXPECT_EQ(display_lines(run("white --lines-of-json" + as_options(unnamed_))).size(), 1U);
    const Said gone =
        run("white crt --lines-of-json --red gone.csv --green gone.csv --blue gone.csv");
    expect_partial(gone, {"gone.csv: no such file"});
    EXPECT_EQ(display_lines(gone).back()["error"]["file"], "gone.csv");
    const Said slip = run("white crt --lines-of-json --black gone.csv");
    EXPECT_EQ(slip.exit_code, 1);
    EXPECT_EQ(json::parse(slip.out)["error"]["where"], "--black");
}

TEST_F(DisplayFiles, AListTakesStandardInputForItself) {
    const std::string list = " < " + in_quotes(scratch_.file("list", "oled-rgb\n-\nlaser-rgb\n"));
    const std::string twice = "standard input: named a second time";
    const Said said = run("white - crt --lines-of-json --panels-from -" + list);
    expect_partial(said, {twice, twice});
    const std::vector<json> found = display_lines(said);
    ASSERT_EQ(found.size(), 5U) << said.out;
    EXPECT_EQ(found[0]["name"], "-");
    EXPECT_EQ(found[3]["error"]["where"], "standard input");
    EXPECT_EQ(found[4]["name"], "laser-rgb");
    expect_partial(run("white crt --panels-from -" + list), {twice});
    const Said reference = run("white crt --lines-of-json --reference - --panels-from -" + list);
    EXPECT_EQ(reference.exit_code, 1);
    EXPECT_EQ(json::parse(reference.out)["error"]["where"], "standard input");
    // A list from elsewhere leaves it to a display.
    const std::string file = scratch_.file("one", "-\n");
    const Said named =
        run("white --lines-of-json --panels-from " + in_quotes(file) + " < " + in_quotes(whole_));
    EXPECT_EQ(named.exit_code, 0) << named.err;
    EXPECT_EQ(display_lines(named).at(0)["name"], "standard input");
}

}  // namespace
}  // namespace samelight::test
