// Small files of rows: how controls answer, and lists of surfaces, up to the ends of what they may hold.
#include <string>

#include <gtest/gtest.h>

#include "samelight/check/adjusting/control.hpp"
#include "samelight/io/control_readings_csv.hpp"
#include "samelight/io/patch_list_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {
namespace {

template <class Action>
std::string refused(const Action& action) {
    try {
        action();
    } catch (const Error& error) {
        return error.what();
    }
    return "";
}

TEST(ControlReadingsCsv, HoldMovesAndTheMenusLimits) {
    const auto file = parse_control_readings_csv(
        "control,steps,level_pct,X,Y,Z,least,most\n"
        ",0,80,60,63,68,,\n"
        "red gain,-10,80,57,62,68,-50,0\n"
        "red gain,10,80,63,64,68,-1000,1000\n",
        "controls.csv");
    ASSERT_EQ(file.rows.size(), 3U);
    EXPECT_FALSE(file.rows[0].control);
    EXPECT_FALSE(file.rows[0].least);
    ASSERT_TRUE(file.rows[1].control);
    EXPECT_EQ(file.rows[1].steps, -10);
    EXPECT_DOUBLE_EQ(*file.rows[1].level, 0.8);
    EXPECT_EQ(file.rows[1].xyz[1], 62.0);
    EXPECT_EQ(*file.rows[1].least, -50);
    EXPECT_EQ(*file.rows[1].most, 0);
    EXPECT_EQ(*file.rows[2].least, -1000);
    EXPECT_EQ(*file.rows[2].most, 1000);
    EXPECT_EQ(file.rows[2].line, 4U);
    for (const char* limits : {"5,10", "-1001,0", "-5,-1", "-5,1001"}) {
        const std::string text =
            "control,steps,level_pct,X,Y,Z,least,most\nred gain,10,80,63,64,68," +
            std::string(limits) + "\n";
        EXPECT_NE(refused([&] {
                      static_cast<void>(parse_control_readings_csv(text, "controls.csv"));
                  }).find("controls.csv:2"),
                  std::string::npos)
            << limits;
    }
}

std::string surfaces(const std::string& value) {
    std::string text = "wavelength_nm,paper\n";
    for (int nm = 380; nm <= 780; nm += 10) {
        text += std::to_string(nm) + "," + (nm == 560 ? value : "0.5") + "\n";
    }
    return text;
}

TEST(SurfaceLists, GoUpToTheEndsOfWhatReflects) {
    const auto last_read = [](const std::string& value) {
        const PatchList list = parse_patch_list_csv(surfaces(value), "paper.csv");
        EXPECT_EQ(list.surfaces.size(), 1U);
        return list.surfaces.size();
    };
    EXPECT_EQ(last_read("1.5"), 1U);  // fluorescence; the end itself is in
    EXPECT_EQ(last_read("0"), 1U);
    EXPECT_NE(refused([] {
                  static_cast<void>(parse_patch_list_csv(surfaces("151"), "paper.csv"));
              }).find("reflectance factors from 0 to 1.5"),
              std::string::npos);
}

}  // namespace
}  // namespace samelight::io
