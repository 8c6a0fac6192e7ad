// Displays from single files, numbered columns and standard input, and answers that do without a bad file, through the whole command.
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::vector<std::string> lights{"red", "green", "blue", "white", "black"};

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
        whole_ = write("whole.csv", lights);
        numbered_ = write("numbered.csv", {"Measurement 1", "Measurement 2", "Measurement 3",
                                           "Measurement 4", "Measurement 5"});
        bad_ = scratch_.file("bad.csv", "no table at all\n");
        for (std::size_t k = 0; k < lights.size(); ++k) {
            singles_.push_back(write("a_" + lights[k] + ".csv", {"Sample"}, k));
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
            text += " --" + lights[k] + " " + quoted(files[k]);
        }
        return text;
    }
    [[nodiscard]] static std::string as_word(const std::vector<std::string>& files) {
        std::string text;
        for (std::size_t k = 0; k < files.size(); ++k) {
            text += (k > 0 ? "," : "") + lights[k] + "=" + files[k];
        }
        return quoted(text);
    }
    [[nodiscard]] static std::string as_list(const std::vector<std::string>& files) {
        std::string text;
        for (const std::string& file : files) {
            text += " " + quoted(file);
        }
        return text;
    }

    Scratch scratch_;
    std::vector<std::vector<std::string>> rows_;
    std::string whole_, numbered_, bad_;
    std::vector<std::string> singles_, unnamed_;
};

const std::string by_number = " --columns red=1,green=2,blue=3,white=4,black=5";

json answer_of(const Said& said) {
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return said.exit_code == 0 ? json::parse(said.out) : json();
}

TEST_F(DisplayFiles, WhiteIsTheSameInEveryForm) {
    const json whole = answer_of(run("white --json " + quoted(whole_)));
    for (const std::string& form :
         {as_options(unnamed_), as_word(unnamed_), as_list(singles_), quoted(numbered_) + by_number,
          quoted(numbered_) + " --red 1 --green 'Measurement 2' --blue 'measurement 3' --white 4 "
                              "--black 5",
          "red=" + quoted(numbered_ + "#1") + ",green=" + quoted(numbered_ + "#2") +
              ",blue=" + quoted(numbered_ + "#Measurement 3") +
              ",white=" + quoted(numbered_ + "#4") + ",black=" + quoted(numbered_ + "#5")}) {
        const json answer = answer_of(run("white --json " + form));
        ASSERT_EQ(answer["panels"].size(), 1U) << form;
        EXPECT_EQ(answer["panels"][0]["targets"], whole["panels"][0]["targets"]) << form;
        EXPECT_EQ(answer["errors"], json::array());
    }
    const Said page = run("white" + as_list(singles_));
    EXPECT_TRUE(page_says(page.out, "a_red.csv and 4 more")) << page.out;
    EXPECT_TRUE(page_says(page.out, "One display: red from ")) << page.out;
    EXPECT_TRUE(page_says(page.out, "\"Sample\" is red.")) << page.out;
}

TEST_F(DisplayFiles, EveryCommandThatReadsADisplayTakesThem) {
    const json pairs = answer_of(run("metamerism --json crt " + quoted(whole_)));
    const json pairs_word = answer_of(run("metamerism --json crt " + as_word(unnamed_)));
    const json pairs_options = answer_of(run("metamerism --json crt" + as_options(unnamed_)));
    const json pairs_numbered =
        answer_of(run("metamerism --json crt " + quoted(numbered_) + by_number));
    for (const json& other : {pairs_word, pairs_options, pairs_numbered}) {
        EXPECT_EQ(other["pairs"], pairs["pairs"]);
    }
    const std::string model = "meter model cie1931-2deg --json ";
    const json modelled = answer_of(run(model + quoted(whole_)));
    for (const std::string& form : {as_word(unnamed_), as_options(unnamed_), as_list(singles_),
                                    quoted(numbered_) + by_number}) {
        EXPECT_EQ(answer_of(run(model + form))["correction"], modelled["correction"]) << form;
    }
    const std::string kept = (scratch_.path() / "kept.json").string();
    ASSERT_EQ(
        run("meter model cie1931-2deg " + quoted(whole_) + " --write " + quoted(kept)).exit_code,
        0);
    const std::string choose = "meter choose --json --correction " + quoted(kept) + " ";
    const json chosen = answer_of(run(choose + quoted(whole_)));
    for (const std::string& form : {as_word(unnamed_), quoted(numbered_) + by_number}) {
        json other = answer_of(run(choose + form));
        EXPECT_EQ(other["panels"][0]["best"], chosen["panels"][0]["best"]) << form;
    }
    const json spectrum = answer_of(run("spectrum --json " + quoted(whole_)));
    const json numbered = answer_of(run("spectrum --json " + quoted(numbered_) + by_number));
    EXPECT_EQ(numbered["columns"], spectrum["columns"]);
    const json files = answer_of(run("spectrum --json" + as_options(unnamed_)));
    EXPECT_EQ(files["schema"], "samelight/spectra/1");
    ASSERT_EQ(files["files"].size(), 5U);
    for (std::size_t k = 0; k < 5; ++k) {
        EXPECT_EQ(files["files"][k]["columns"][0], spectrum["columns"][k]);
    }
}

TEST_F(DisplayFiles, WhatDoesntGoTogetherIsSaid) {
    expect_refusal(run("white " + quoted(numbered_)), 1, "--columns red=1,green=2,blue=3");
    expect_refusal(run("white " + quoted(numbered_) + " --columns red=1,green=2,blue=9"), 1,
                   "no column 9 for blue (columns: 1 \"Measurement 1\"");
    expect_refusal(run("white " + quoted(numbered_) + " --columns 1,2,3"), 1,
                   "--columns: \"1,2,3\"; wanted ROLE=COLUMN");
    expect_refusal(run("white" + as_list({unnamed_[0], unnamed_[1]})), 1,
                   "neither its heading nor the file's name says which");
    expect_refusal(run("white" + as_list({singles_[0], singles_[1]})), 1, "no column blue");
    expect_refusal(run("white --red " + quoted(unnamed_[0])), 1, "no column green");
    expect_refusal(run("white --columns red=1"), 2, "PANEL is required");
    expect_refusal(run("meter model cie1931-2deg crt oled-rgb"), 1, "2 displays; wanted one");
}

TEST_F(DisplayFiles, AFileThatIsReadIsNotWrittenOn) {
    const Said said =
        run("meter model cie1931-2deg " + as_word(unnamed_) + " --write " + quoted(unnamed_[2]));
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
    const std::string good = quoted(whole_);
    const std::string bad = quoted(bad_);
    for (const std::string& command :
         {"white " + bad + " " + good, "white " + good + " " + bad,
          "metamerism crt " + bad + " " + good, "spectrum " + bad + " " + good}) {
        expect_partial(run(command), {"bad.csv:1:1: no table"});
        const Said said = run(command + " --json");
        expect_partial(said, {"bad.csv:1:1: no table"});
        const json answer = json::parse(said.out);
        ASSERT_EQ(answer["errors"].size(), 1U) << command;
        EXPECT_EQ(answer["errors"][0]["line"], 1);
        EXPECT_EQ(answer["errors"][0]["place"], bad_);
        EXPECT_NE(answer["errors"][0]["message"].get<std::string>().find("; wanted "),
                  std::string::npos);
    }
    const json alone = answer_of(run("white --json " + good));
    const json beside = json::parse(run("white --json " + bad + " " + good).out);
    EXPECT_EQ(beside["panels"], alone["panels"]);
    const Said table = run("metamerism --csv crt " + good + " " + bad);
    expect_partial(table, {"bad.csv:1:1: no table"});
    EXPECT_EQ(lines(table.out), lines(run("metamerism --csv crt " + good).out));
}

TEST_F(DisplayFiles, SeveralBadOnesAreAllSaid) {
    const std::string gone = quoted((scratch_.path() / "gone.csv").string());
    expect_partial(run("white " + gone + " " + quoted(whole_) + " " + quoted(bad_)),
                   {"gone.csv: no such file", "bad.csv:1:1: no table"});
    const Said none = run("white " + gone + " " + quoted(bad_));
    EXPECT_EQ(none.exit_code, 1);
    EXPECT_EQ(none.out, "");
    EXPECT_EQ(lines(none.err), 2U) << none.err;
    const Said too_few = run("metamerism " + quoted(whole_) + " " + quoted(bad_));
    expect_refusal(too_few, 1, "bad.csv:1:1: no table");
    EXPECT_EQ(run("spectrum " + gone + " " + quoted(bad_)).out, "");
}

TEST_F(DisplayFiles, AWhiteSetByEyeNeedsTheFirstDisplay) {
    expect_refusal(
        run("white " + quoted(bad_) + " " + quoted(whole_) + " --viewer 40 --eye A=0.31,0.32"), 1,
        "bad.csv:1:1: no table");
}

TEST_F(DisplayFiles, MeterChooseDoesWithoutBadCorrectionsAndDisplays) {
    const std::string kept = (scratch_.path() / "kept.json").string();
    ASSERT_EQ(run("meter model cie1931-2deg crt --write " + quoted(kept)).exit_code, 0);
    const std::string asked =
        " --correction " + quoted(kept) + " --correction " + quoted(bad_) + " crt " + quoted(bad_);
    expect_partial(run("meter choose" + asked), {"no JSON", "no table"});
    const json answer = json::parse(run("meter choose --json" + asked).out);
    EXPECT_EQ(answer["errors"].size(), 2U);
    EXPECT_EQ(answer["corrections"].size(), 1U);
    expect_partial(run("meter choose --table --meter cie1931-2deg crt oled-rgb " + quoted(bad_)),
                   {"no table"});
}

// ---- Standard input --------------------------------------------------------------------------------

TEST_F(DisplayFiles, ADashIsStandardInput) {
    const std::string from = " < " + quoted(whole_);
    const json whole = answer_of(run("white --json " + quoted(whole_)));
    json piped = answer_of(run("white --json -" + from));
    EXPECT_EQ(piped["panels"][0]["name"], "standard input");
    EXPECT_EQ(piped["panels"][0]["targets"], whole["panels"][0]["targets"]);
    EXPECT_EQ(answer_of(run("white --json red=-,green=-,blue=-,white=-,black=-" +
                            from))["panels"][0]["targets"],
              whole["panels"][0]["targets"]);
    EXPECT_EQ(answer_of(run("spectrum --json -" + from))["columns"],
              answer_of(run("spectrum --json " + quoted(whole_)))["columns"]);
    EXPECT_EQ(run("metamerism crt -" + from).exit_code, 0);
    EXPECT_EQ(run("meter model cie1931-2deg -" + from).exit_code, 0);
    EXPECT_EQ(run("white crt --reference -@0.3127,0.3290" + from).exit_code, 0);
    EXPECT_EQ(run("white crt --now - < " + quoted(unnamed_[3])).exit_code, 0);
    const std::string ages = scratch_.file("ages.csv", "age,people\n30,5\n40,5\n");
    EXPECT_EQ(run("white crt --ages - < " + quoted(ages)).exit_code, 0);
    const std::string kept = (scratch_.path() / "kept.json").string();
    ASSERT_EQ(run("meter model cie1931-2deg crt --write " + quoted(kept)).exit_code, 0);
    EXPECT_EQ(run("meter choose crt --correction - < " + quoted(kept)).exit_code, 0);
}

TEST_F(DisplayFiles, StandardInputIsReadOnceAndCalledSo) {
    const std::string from = " < " + quoted(whole_);
    expect_partial(run("white - -" + from), {"standard input: named a second time"});
    expect_refusal(run("white - --reference -" + from), 1, "standard input: named a second time");
    expect_refusal(run("spectrum - < " + quoted(bad_)), 1, "standard input:1:1: no table");
    expect_refusal(run("white - < /dev/null"), 1, "standard input");
    expect_refusal(run("white crt --ages - < " + quoted(bad_)), 1, "standard input");
    expect_refusal(run("meter fit - < " + quoted(bad_)), 1, "standard input");
}

}  // namespace
}  // namespace samelight::test
