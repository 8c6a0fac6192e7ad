// First screens and reports of every command but white: short, narrow, the answer first; the report has the figures of the JSON.
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/first_screens.hpp"
#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

constexpr const char* four_of_the_demo =
    "grading-monitor.csv client-set.csv desk-display.csv foyer-display.csv";

TEST(FirstScreens, MetamerismOfFourDisplaysIsTwelveLines) {
    const std::string asked = std::string("metamerism ") + four_of_the_demo + " --people 64";
    const Said said = run_in_demo(asked);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    expect_first_screen(said.out, 14);
    const json answer = json_in_demo(asked);
    const json& best = answer["pairs"][answer["rankings"][0]["pairs_best_first"][0].get<int>()];
    const std::string page = unwrapped(said.out);
    EXPECT_LT(page.find("agree best"), page.find("agree worst"));
    EXPECT_TRUE(page_says(rows_of(said.out).front(), "desk-display.csv and ")) << said.out;
    EXPECT_EQ(best["first"].get<std::string>(), "desk-display.csv");
    EXPECT_TRUE(page_says(said.out, "At best, at the reference's white, DE"));
    EXPECT_TRUE(page_says(said.out, "people's eyes differ"));
    std::vector<std::string> means;
    for (const json& pair : answer["pairs"]) {
        for (const int setting : {0, 1}) {
            means.push_back(
                figure(pair["settings"][setting]["white"]["de00"]["mean"].get<double>(), 1));
            EXPECT_TRUE(page_says(said.out, means.back())) << said.out;
        }
    }
    const std::string report = expect_report(asked, means);
    EXPECT_NE(report.find("class=\"cell\""), std::string::npos) << "pairs are a shaded matrix";
    EXPECT_NE(report.find("Spectra of the whites"), std::string::npos);
}

TEST(FirstScreens, ASpectrumIsALineALightAndHowItWasRead) {
    const std::string asked = "spectrum client-set.csv";
    const Said said = run_in_demo(asked);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    expect_first_screen(said.out, 11);
    EXPECT_NE(rows_of(said.out).front().find("client-set.csv: 5 lights, 380-780 nm by 2 nm"),
              std::string::npos);
    for (const char* words : {"Read so: ", "Semicolons between columns, decimal commas.",
                              "W/(sr m² nm)", "are kept as noise", "Black noise around zero"}) {
        EXPECT_TRUE(page_says(said.out, words)) << words << "\n" << said.out;
    }
    std::vector<std::string> figures;
    const json answer = json_in_demo(asked);
    for (const json& column : answer["columns"]) {
        if (column["noise_alone"]) continue;
        const json& first = column["chromaticities"][0];
        const std::string x = figure(first["x"].get<double>(), 4);
        const std::string y = figure(first["y"].get<double>(), 4);
        EXPECT_TRUE(page_says(said.out, column["name"].get<std::string>() + " " + x + " " + y))
            << said.out;
        figures.insert(figures.end(), {x, y});
    }
    EXPECT_EQ(figures.size(), 8U);
    EXPECT_NE(expect_report(asked, figures).find("class=\"ink-"), std::string::npos);
}

/// 60 lights that rise, with so much scatter.
std::string many_lights(double scatter) {
    std::string csv = "wavelength_nm";
    for (int k = 0; k < 60; ++k)
        csv += ",lamp " + std::to_string(k);
    for (int nm = 400; nm <= 700; nm += 10) {
        csv += "\n" + std::to_string(nm);
        for (int k = 0; k < 60; ++k) {
            csv += "," + figure((1.0 + k) * (nm / 400.0 + scatter * ((7 * nm / 10 + k) % 5)), 6);
        }
    }
    return csv + "\n";
}

// Ten thousand columns are for nobody to read at once.
TEST(FirstScreens, ManyLightsAreNotAllOnTheFirstScreen) {
    const Scratch scratch;
    const std::string file = quoted(scratch.file("lamps.csv", many_lights(0.0)));
    const Said said = run_in_demo("spectrum " + file);
    EXPECT_LE(rows_of(said.out).size(), 50U) << said.out;
    EXPECT_TRUE(page_says(said.out, "The first 40 of 60 lights."));
    EXPECT_TRUE(page_says(run_in_demo("spectrum " + file + " --details").out, "lamp 59 CIE 1931"));
    const std::string noisy = quoted(scratch.file("noisy.csv", many_lights(0.05)));
    const Said doubtful = run_in_demo("spectrum " + noisy);
    EXPECT_LE(rows_of(doubtful.out).size(), 60U) << doubtful.out;
    EXPECT_TRUE(page_says(doubtful.out, "lamp 7 ")) << doubtful.out;
    EXPECT_TRUE(page_says(doubtful.out, "And 57 more of these kinds.")) << doubtful.out;
}

TEST(FirstScreens, AModelledCorrectionSaysWhetherToUseIt) {
    const std::string asked =
        "meter model cie1931-2deg client-set.csv --observer cie2015-2deg --reference D65";
    const Said said = run_in_demo(asked);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    expect_first_screen(said.out, 14);
    EXPECT_EQ(said.out.rfind("Use this correction on ", 0), 0U) << said.out;
    EXPECT_TRUE(page_says(said.out, "How sure: "));
    EXPECT_FALSE(page_says(said.out, "reference_from_meter")) << "the matrix is a reason";
    const json answer = json_in_demo(asked);
    std::vector<std::string> figures;
    for (const json& row : answer["reference_from_meter"]) {
        for (const json& value : row)
            figures.push_back(figure(value.get<double>(), 6));
    }
    EXPECT_EQ(figures.size(), 9U);
    expect_report(asked, figures);
}

TEST(FirstScreens, ATableOfCorrectionsSaysWhetherTheyMayBeUsedElsewhere) {
    const std::string asked = "meter choose --table --meter cie1964-10deg crt oled-rgb laser-rgb";
    const Said said = run_in_demo(asked);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    expect_first_screen(said.out, 12);
    EXPECT_TRUE(page_says(rows_of(said.out).front(), "correction"));
    std::vector<std::string> figures;
    const json answer = json_in_demo(asked);
    for (const json& panel : answer["panels"]) {
        figures.push_back(figure(panel["without_correction"]["white_xy"].get<double>(), 4));
        EXPECT_TRUE(page_says(said.out, figures.back()));
    }
    expect_report(asked, figures);
}

TEST(FirstScreens, AChoiceIsVerdictFiguresCautions) {
    const Scratch scratch;
    const std::string kept = quoted((scratch.path() / "kept.json").string());
    ASSERT_EQ(
        run_in_demo("meter fit client-set-readings.csv --panel client-set.csv --write " + kept)
            .exit_code,
        0);
    const std::string asked = "meter choose client-set.csv --correction " + kept;
    const Said one = run_in_demo(asked);
    ASSERT_EQ(one.exit_code, 0) << one.err;
    expect_first_screen(one.out, 12);
    EXPECT_NE(rows_of(one.out).front().find("client-set.csv: safe. Use "), std::string::npos);
    const json with = json_in_demo(asked)["panels"][0];
    const std::string off = figure(with["with"][0]["expected_error"]["white_xy"].get<double>(), 4);
    EXPECT_TRUE(page_says(one.out, off)) << one.out;
    expect_report(asked, {off});
    const Said several =
        run_in_demo("meter choose crt oled-rgb laser-rgb client-set.csv --correction " + kept);
    ASSERT_EQ(several.exit_code, 0) << several.err;
    expect_first_screen(several.out, 12);
    EXPECT_TRUE(page_says(several.out, "client-set.csv safe ")) << several.out;
    EXPECT_TRUE(page_says(several.out, "crt measure this panel none ")) << several.out;
    const Said keep =
        run_in_demo(asked + " --reference-white 0.3127,0.3290 --meter-white 0.3130,0.3295");
    expect_first_screen(keep.out, 14);
    EXPECT_EQ(keep.out.rfind("Keep ", 0), 0U) << keep.out;
}

TEST(FirstScreens, AFitIsTheVerdictItsReasonAndWhatToReadNext) {
    const std::string asked = "meter fit client-set-readings.csv";
    const Said said = run_in_demo(asked);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    expect_first_screen(said.out, 12);
    EXPECT_EQ(said.out.rfind("Use this correction on this display. On the 3 colours that it was "
                             "not made from",
                             0),
              0U)
        << said.out;
    EXPECT_TRUE(page_says(said.out, "No more readings are needed. Corrected x and y are sure to "))
        << said.out;
    EXPECT_FALSE(page_says(said.out, "OTHER METHODS"));
    const json verdict = json_in_demo(asked)["verdict"];
    const std::string after = figure(verdict["left_out_xy_after"].get<double>(), 4);
    EXPECT_TRUE(page_says(said.out, "Colours left out " + after + " in x, y")) << said.out;
    const std::string report =
        expect_report(asked, {after, figure(verdict["left_out_xy_before"].get<double>(), 4)});
    EXPECT_NE(report.find("an arrow from what the corrected meter says"), std::string::npos);
    // What must come down is said once.
    const Said noisy = run_in_demo("meter fit grading-monitor-readings.csv --want 0.00001");
    expect_first_screen(noisy.out, 12);
    const std::string words = unwrapped(noisy.out);
    const std::size_t first = words.find("the noise must come down first");
    EXPECT_NE(first, std::string::npos) << noisy.out;
    EXPECT_EQ(words.find("the noise must come down first", first + 1), std::string::npos);
}

TEST(FirstScreens, TwoThingsAreNeverWrittenIntoOne) {
    const Scratch scratch;
    const std::string file = quoted((scratch.path() / "one").string());
    const std::string model = "meter model cie1931-2deg oled-rgb";
    const std::string spectrum = "spectrum client-set.csv --shift 0.3";
    const std::string fit = "meter fit client-set-readings.csv";
    const std::vector<std::pair<std::string, std::string>> both = {
        {model, "--write"}, {fit, "--write"}, {spectrum, "--corrected"}};
    for (const auto& [asked, option] : both) {
        expect_refusal(run_in_demo(asked + " --report - " + option + " -"), 2,
                       "can't both be on standard output");
        expect_refusal(run_in_demo(asked + " --report " + file + " " + option + " " + file), 2,
                       "wanted two files");
        const Said page = run_in_demo(asked + " --report - " + option + " " + file);
        EXPECT_EQ(page.out.rfind("<!DOCTYPE html>", 0), 0U);
        EXPECT_FALSE(page.err.empty()) << "the page goes to standard error";
        EXPECT_EQ(page.exit_code, 0);
    }
    expect_refusal(run_in_demo("metamerism crt oled-rgb --csv --report -"), 2,
                   "--csv can't both be on standard output");
    expect_refusal(run_in_demo("metamerism crt client-set.csv --report client-set.csv"), 1,
                   "another file");
    for (const char* asked : {"metamerism crt oled-rgb", "meter choose oled-rgb",
                              "meter choose --table --meter cie1931-2deg"}) {
        expect_refusal(run_in_demo(std::string(asked) + " --json --report -"), 2,
                       "can't both be on standard output");
    }
}

// The note of a correction is the report's, too; one that would stand nowhere is refused.
TEST(FirstScreens, ANoteStandsOnTheReport) {
    const Said said =
        run_in_demo("meter model cie1931-2deg oled-rgb --note 'read in the dark' --report -");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    EXPECT_NE(said.out.find("read in the dark"), std::string::npos);
    EXPECT_EQ(run_in_demo("meter model cie1931-2deg oled-rgb --note 'read in the dark'").exit_code,
              2);
    EXPECT_NE(run_in_demo("metamerism crt oled-rgb --people 20 --note one --note two --report -")
                  .out.find("two"),
              std::string::npos);
}

}  // namespace
}  // namespace samelight::test
