// Files of adjustments at their edges: how many controls and nodes there may be, headings and cells that don't fit, and gains without a channel.
#include <string>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/io/adjustment_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {
namespace {

std::string adjustment_refused(const std::string& text) {
    return samelight::test::refusal(
        ErrorKind::input, [&] { static_cast<void>(parse_adjustment_csv(text, "set.csv")); });
}

TEST(AdjustmentCsvEdges, TwoHundredControlsAndNoMore) {
    std::string text = "control,amount\n";
    for (int i = 0; i < 200; ++i) {
        text += "gain,1\n";
    }
    EXPECT_EQ(parse_adjustment_csv(text, "set.csv").adjustment.controls().size(), 200U);
    EXPECT_EQ(adjustment_refused(text + "gain,1\n"),
              "set.csv:202:1: more than 200 controls; wanted at most 200");
}

TEST(AdjustmentCsvEdges, CellsAndHeadingsFitEachOther) {
    EXPECT_EQ(adjustment_refused("control,amount\n# a remark\ngain,1,2\n"),
              "set.csv:3:8: more cells than headings; wanted a heading above each");
    EXPECT_EQ(adjustment_refused("amount,control\n1\n"),
              "set.csv:2:1: no control; wanted gain, offset, point, saturation, hue or lightness");
    EXPECT_EQ(adjustment_refused("control,amount\ngain\n"),
              "set.csv:2:1: no amount; wanted an amount of -1000 to 1000 per cent");
    EXPECT_EQ(adjustment_refused("control,amount,half_width_deg\ngain,1,20\n"),
              "set.csv:2:8: \"20\"; wanted nothing here: a control of a channel");
    EXPECT_EQ(adjustment_refused("control,amount,hue,half_width_deg\nhue,1,red,0.5\n"),
              "set.csv:2:11: \"0.5\"; wanted a half width of 1 to 180 degrees");
    EXPECT_EQ(adjustment_refused("control,amount,level_pct\ngain,1,30\n"),
              "set.csv:2:8: \"30\"; wanted nothing here: no point of a list");
    const std::string nothing = adjustment_refused("# remarks alone\n");
    EXPECT_TRUE(samelight::test::contains(nothing, "no line; wanted control, amount")) << nothing;
}

TEST(AdjustmentCsvEdges, ATableOfBlackSaysNothing) {
    std::string text = "r_in,g_in,b_in,r_out,g_out,b_out\n";
    for (int i = 0; i < 8; ++i) {
        text += "0,0,0,0,0,0\n";
    }
    EXPECT_TRUE(samelight::test::contains(
        adjustment_refused(text), "a table of black alone; wanted nodes from no signal to full"));
}

}  // namespace
}  // namespace samelight::io
