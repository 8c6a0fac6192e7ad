// `samelight gradient`, as a person or a program calls it.
#include <cmath>
#include <sstream>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "tools/run.hpp"

namespace samelight::test {
namespace {

using nlohmann::json;

const std::string gradient_demo = SAMELIGHT_DATA "/demo/proof/";
const std::string gradient_set = quoted(gradient_demo + "client-set-adjustment.csv");
const std::string gradient_proof = quoted(gradient_demo + "client-set-smooth-proof.csv");
const std::string reds = quoted(gradient_demo + "client-set-reds.csv");
const std::string reds_before = quoted(gradient_demo + "client-set-reds-before.csv");

json answer_of(const std::string& arguments) {
    const Said said = run("gradient " + arguments + " --json");
    EXPECT_EQ(said.exit_code, 0) << said.err;
    return json::parse(said.out, nullptr, false);
}

void expect_gradient_screen(const Said& said) {
    EXPECT_EQ(said.exit_code, 0) << said.err;
    EXPECT_LE(lines(said.out), 12U) << said.out;
    std::istringstream each(said.out);
    for (std::string line; std::getline(each, line);) {
        EXPECT_LE(line.size(), 100U) << line;
    }
    EXPECT_EQ(said.out.find("nan"), std::string::npos);
}

TEST(GradientCommand, AnAdjustmentThatShowsAndTheMilderOne) {
    const std::string asked =
        "--adjustment " + gradient_set + " --readings " + gradient_proof + " --curve power:2.4";
    const Said said = run("gradient " + asked);
    expect_gradient_screen(said);
    EXPECT_EQ(said.out.rfind("It shows: the adjustment makes a jump of ", 0), 0U) << said.out;
    EXPECT_TRUE(page_says(said.out, "saturation of red")) << said.out;
    const json answer = answer_of(asked);
    EXPECT_EQ(answer["schema"], "samelight/gradient/1");
    EXPECT_EQ(answer["verdict"], "shows");
    EXPECT_EQ(answer["by"], "calculation");
    ASSERT_FALSE(answer["adjustment"]["set_to"].is_null());
    EXPECT_LE(answer["adjustment"]["set_to"]["worst_de00"].get<double>(), 3.0);
    EXPECT_EQ(answer["adjustment"]["controls"].size(), 5U);
    EXPECT_EQ(answer["adjustment"]["depths"].size(), 3U);
    EXPECT_EQ(answer["adjustment"]["trade_off"].size(), 21U);
}

TEST(GradientCommand, AMeasuredRampBeforeAndAfter) {
    const std::string asked = reds + " --before " + reds_before + " --curve power:2.4";
    const Said said = run("gradient " + asked);
    expect_gradient_screen(said);
    EXPECT_TRUE(page_says(said.out, "the adjustment made it")) << said.out;
    EXPECT_TRUE(page_says(said.out, "from R 68.7 G 0.0 B 0.0 % to R 70.3")) << said.out;
    EXPECT_EQ(answer_of(asked)["verdict"], "shows");
    const json before = answer_of(reds_before + " --curve power:2.4");
    EXPECT_EQ(before["verdict"], "does_not_show");
    EXPECT_EQ(before["measured"]["before"], "neighbours");
    // Drawn with .05 %.
    EXPECT_NEAR(before["measured"]["noise_relative"].get<double>(), 0.0005, 0.0001);
}

TEST(GradientCommand, AnAdjustmentOfNothingDoesNotShow) {
    const Scratch scratch;
    const std::string none = quoted(scratch.file("none.csv", "control,amount\ngain,0\n"));
    const json answer = answer_of("--adjustment " + none + " --bits 8");
    EXPECT_EQ(answer["verdict"], "does_not_show");
    for (const json& ramp : answer["adjustment"]["ramps"]) {
        EXPECT_EQ(ramp["neighbours_alike"], 0);
        EXPECT_EQ(ramp["steps_made"], 0);
    }
}

TEST(GradientCommand, ATableOfColoursIsReadBothWays) {
    const Scratch scratch;
    std::string text = "r_in,g_in,b_in,r_out,g_out,b_out\n";
    for (int k = 0; k < 27; ++k) {
        const int r = k / 9;
        const int g = k / 3 % 3;
        const int b = k % 3;
        // The middle of the cube pulled to red.
        const double pull = r == 1 && g == 1 && b == 1 ? 0.3 : 0.0;
        text += std::to_string(r / 2.0) + "," + std::to_string(g / 2.0) + "," +
                std::to_string(b / 2.0) + "," + std::to_string(r / 2.0 + pull) + "," +
                std::to_string(g / 2.0) + "," + std::to_string(b / 2.0) + "\n";
    }
    const std::string table = quoted(scratch.file("table.csv", text));
    const json a = answer_of("--adjustment " + table + " --bits 8");
    const json b = answer_of("--adjustment " + table + " --bits 8 --between trilinear");
    EXPECT_EQ(a["adjustment"]["controls"][0]["control"], "table");
    EXPECT_EQ(a["verdict"], "shows");
    EXPECT_NE(a["adjustment"]["ramps"], b["adjustment"]["ramps"]);
}

TEST(GradientCommand, DetailsAndReports) {
    const Scratch scratch;
    const std::string page = (scratch.path() / "page.html").string();
    const Said said = run("gradient " + reds + " --before " + reds_before + " --adjustment " +
                          gradient_set + " --bits 8 --details --report " + quoted(page));
    EXPECT_EQ(said.exit_code, 0) << said.err;
    for (const char* words :
         {"How far each control can be driven", "at other depths", "The largest jumps"}) {
        EXPECT_TRUE(page_says(said.out, words)) << words;
    }
    EXPECT_NE(slurp(page).find("Steps as measured"), std::string::npos);
    const Said client = run("gradient " + reds + " --before " + reds_before +
                            " --for client --report " + quoted(page));
    EXPECT_EQ(client.exit_code, 0) << client.err;
    EXPECT_NE(slurp(page).find("may show stripes"), std::string::npos);
}

TEST(GradientCommand, RefusesInOneLine) {
    expect_refusal(run("gradient"), 1, "neither a ramp nor --adjustment");
    expect_refusal(run("gradient --before " + reds_before), 1, "a ramp before without one after");
    expect_refusal(run("gradient --adjustment " + gradient_set + " --bits 7"), 1, "8 to 12");
    expect_refusal(run("gradient --adjustment " + gradient_set + " --gate 0"), 1, "--gate");
    expect_refusal(run("gradient --adjustment " + gradient_set + " --between cubic"), 1,
                   "--between");
    expect_refusal(run("gradient --adjustment " + gradient_set + " --readings " + gradient_proof +
                       " --readings-taken never"),
                   1, "--readings-taken");
    expect_refusal(run("gradient " + reds + " --readings " + gradient_proof), 1, "--adjustment");
    expect_refusal(run("gradient " + reds + " --before " + gradient_proof), 1, "before");
    expect_refusal(run("gradient --adjustment " + reds), 1, "client-set-reds.csv:2:1");
    expect_refusal(run("gradient --adjustment nowhere.csv --json"), 1, "nowhere.csv");
}

}  // namespace
}  // namespace samelight::test
