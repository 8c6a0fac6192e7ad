// Files of adjustments: what is understood, and what is refused where.
#include <string>

#include <gtest/gtest.h>

#include "samelight/io/adjustment_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::test {
namespace {

Adjustment parsed(const std::string& text) {
    return io::parse_adjustment_csv(text, "set.csv").adjustment;
}

std::string refusal(const std::string& text) {
    try {
        static_cast<void>(parsed(text));
    } catch (const Error& error) {
        return error.what();
    }
    return "nothing refused";
}

TEST(AdjustmentCsv, ControlsInAnyOrderOfColumns) {
    const Adjustment a = parsed(
        "# a set\namount,control,channel,level_pct,hue,half_width_deg\n-4,gain,red,,,\n1.5,point,,30,,\n"
        "20,Saturation,,,green,25\n-6,hue,,,300,\n");
    ASSERT_EQ(a.controls().size(), 4U);
    EXPECT_EQ(a.controls()[0].kind, MoveKind::gain);
    EXPECT_EQ(a.controls()[0].channel, MoveChannel::red);
    EXPECT_EQ(a.controls()[0].amount, -4.0);
    EXPECT_EQ(a.controls()[1].channel, MoveChannel::all);
    EXPECT_EQ(a.controls()[1].level_pct, 30.0);
    EXPECT_EQ(a.controls()[2].hue_deg, 120.0);
    EXPECT_EQ(a.controls()[2].half_width_deg, 25.0);
    EXPECT_EQ(a.controls()[3].hue_deg, 300.0);
    EXPECT_EQ(a.controls()[3].half_width_deg, 60.0);
}

TEST(AdjustmentCsv, SemicolonsWithDecimalCommas) {
    EXPECT_EQ(parsed("control;amount\noffset;0,5\n").controls()[0].amount, 0.5);
}

std::string table_text(int last, bool shuffled) {
    std::string text = "r_in,g_in,b_in,r_out,g_out,b_out\n";
    for (int i = 0; i < 8; ++i) {
        const int k = shuffled ? (5 * i + 3) % 8 : i;
        const int r = (k / 4) * last;
        const int g = (k / 2 % 2) * last;
        const int b = (k % 2) * last;
        text += std::to_string(r) + "," + std::to_string(g) + "," + std::to_string(b) + "," +
                std::to_string(g) + "," + std::to_string(r) + "," + std::to_string(b) + "\n";
    }
    return text;
}

TEST(AdjustmentCsv, TablesOfSignalsAndOfCodesInAnyOrder) {
    for (const int last : {1, 255, 1023}) {
        for (const bool shuffled : {false, true}) {
            const Adjustment a = parsed(table_text(last, shuffled));
            ASSERT_TRUE(a.table());
            EXPECT_EQ(a.table()->nodes, 2U);
            const auto out = a.apply({0.2, 0.6, 0.9});
            EXPECT_NEAR(out[0], 0.6, 1e-12);
            EXPECT_NEAR(out[1], 0.2, 1e-12);
            EXPECT_NEAR(out[2], 0.9, 1e-12);
        }
    }
}

TEST(AdjustmentCsv, RefusesInOneLineWithThePlace) {
    const std::string head = "control,channel,level_pct,hue,half_width_deg,amount\n";
    EXPECT_EQ(refusal(head + "gain,red,,,,much\n"),
              "set.csv:2:13: \"much\"; wanted an amount of -1000 to 1000 per cent");
    EXPECT_EQ(refusal(head + "tint,red,,,,1\n"),
              "set.csv:2:1: \"tint\"; wanted gain, offset, point, saturation, hue or lightness");
    EXPECT_EQ(refusal(head + "gain,white,,,,1\n"),
              "set.csv:2:6: \"white\"; wanted red, green, blue or all");
    EXPECT_EQ(refusal(head + "gain,red,,,,1\nsaturation,red,,red,,1\n"),
              "set.csv:3:12: \"red\"; wanted nothing here: a control of a hue");
    EXPECT_EQ(refusal(head + "hue,,,orange,,1\n").rfind("set.csv:2:7: \"orange\"; wanted red", 0),
              0U);
    EXPECT_EQ(refusal(head + "hue,,,red,,181\n"),
              "set.csv:2:12: \"181\"; wanted an amount of -180 to 180 degrees");
    EXPECT_NE(refusal(head + "point,red,,,,1\n").find("set.csv:2:1: no level_pct"),
              std::string::npos);
    EXPECT_NE(refusal(head + "point,red,30,,,1\npoint,,30,,,2\n").find("set.csv:3"),
              std::string::npos);
    EXPECT_NE(refusal("control,amount,amount\n").find("set.csv:1:16: a second column"),
              std::string::npos);
    EXPECT_NE(refusal("control,sum\ngain,1\n").find("set.csv:1:9: \"sum\""), std::string::npos);
    EXPECT_NE(refusal("control\ngain\n").find("no column amount"), std::string::npos);
    EXPECT_NE(refusal(head).find("no row below the heading"), std::string::npos);
    EXPECT_EQ(refusal("").rfind("set.csv", 0), 0U);
}

TEST(AdjustmentCsv, RefusesTablesThatAreNoGrid) {
    const std::string whole = table_text(255, false);
    EXPECT_NE(refusal(whole.substr(0, whole.size() - 24)).find("rows of a table"),
              std::string::npos);
    EXPECT_NE(refusal(whole + "0,0,0,0,0,0\n").find("rows of a table"), std::string::npos);
    std::string twice = whole;
    twice.replace(twice.find("\n255,255,255,"), 13, "\n0,0,0,");
    EXPECT_NE(refusal(twice).find("a second row of one node"), std::string::npos);
    std::string odd = whole;
    odd.replace(odd.find("\n255,255,255,"), 13, "\n255,255,99,");
    EXPECT_NE(refusal(odd).find("a node at 99"), std::string::npos);
    EXPECT_NE(refusal("r_in,g_in,b_in\n0,0,0\n").find("no column r_out"), std::string::npos);
}

}  // namespace
}  // namespace samelight::test
