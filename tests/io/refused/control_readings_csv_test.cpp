// Files of control readings: what is understood, and what is refused where. Rows by hand; tristimulus values from x, y, Y by CIE 15:2018.
#include <string>

#include <gtest/gtest.h>

#include "io/spectral_files.hpp"
#include "numeric/refusals.hpp"
#include "samelight/io/control_readings_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {
namespace {

const std::string controls_heading = "control,steps,level_pct,patch,x,y,Y,least,most\n";

ControlReadingsFile controls_in(const std::string& text) {
    return parse_control_readings_csv(text, "menu.csv");
}

void expect_controls_refused(const std::string& text, const std::string& wanted) {
    EXPECT_EQ(
        samelight::test::refusal(ErrorKind::input, [&] { static_cast<void>(controls_in(text)); }),
        wanted);
}

TEST(ControlReadingsCsv, EachColumnIsWhatItSays) {
    const ControlReadingsFile file = controls_in(controls_heading +
                                                 ",0,100,,0.25,0.5,80,,\n"
                                                 "red gain,-5,,white,0.25,0.5,80,-20,30\n"
                                                 "blue offset,3,,grey-30,0.25,0.5,8,0,0\n");
    ASSERT_EQ(file.rows.size(), 3U);
    EXPECT_FALSE(file.rows[0].control);
    EXPECT_EQ(file.rows[0].level, 1.0);
    EXPECT_FALSE(file.rows[0].least);
    EXPECT_EQ(file.rows[0].xyz, (std::array<double, 3>{40.0, 80.0, 40.0}));
    ASSERT_TRUE(file.rows[1].control);
    EXPECT_EQ(file.rows[1].control->kind, ControlKind::gain);
    EXPECT_EQ(file.rows[1].steps, -5);
    EXPECT_EQ(file.rows[1].level, 1.0);
    EXPECT_EQ(file.rows[1].least, -20);
    EXPECT_EQ(file.rows[1].most, 30);
    EXPECT_EQ(file.rows[1].line, 3U);
    EXPECT_EQ(file.rows[2].control->kind, ControlKind::offset);
    EXPECT_EQ(file.rows[2].level, 0.3);
    EXPECT_TRUE(test::says(file.understood, "3 readings of controls."));
}

TEST(ControlReadingsCsv, RowsStillToBeReadAreLeftOutAndSaid) {
    const ControlReadingsFile file =
        controls_in(controls_heading + "red gain,5,100,,0.25,0.5,80,,\nblue gain,5,100,,,,,,\n");
    EXPECT_EQ(file.rows.size(), 1U);
    EXPECT_TRUE(test::says(file.understood, "1 row not read: left out."))
        << test::joined(file.understood);
    expect_controls_refused(controls_heading + "red gain,5,100,,,,,,\nblue gain,5,100,,,,,,\n",
                            "menu.csv:1:1: a list of 2 rows, of which none is read; wanted one "
                            "control moved a row, and what was read");
}

TEST(ControlReadingsCsv, RefusesInOneLineWithThePlace) {
    const std::string good = ",0,100,,0.25,0.5,80,,\n";
    expect_controls_refused(
        controls_heading + good + "red gain,5,120,,0.25,0.5,80,,\n",
        "menu.csv:3:12: \"120\"; wanted above 0, up to 109 per cent of the signal");
    expect_controls_refused(
        controls_heading + good + "red gain,5,0,,0.25,0.5,80,,\n",
        "menu.csv:3:12: \"0\"; wanted above 0, up to 109 per cent of the signal");
    expect_controls_refused(controls_heading + good + "red gain,5,,red,0.25,0.5,80,,\n",
                            "menu.csv:3:13: \"red\"; wanted white or a grey (grey-30)");
    expect_controls_refused(controls_heading + good + "red gain,5,,black,0.25,0.5,80,,\n",
                            "menu.csv:3:13: \"black\"; wanted white or a grey (grey-30)");
    expect_controls_refused(
        controls_heading + good + "tint,5,100,,0.25,0.5,80,,\n",
        "menu.csv:3:1: \"tint\"; wanted red, green or blue with gain, offset or point LEVEL");
    expect_controls_refused(
        controls_heading + good + ",5,100,,0.25,0.5,80,,\n",
        "menu.csv:3:1: an empty cell; wanted red, green or blue with gain, offset or point LEVEL");
    expect_controls_refused(
        controls_heading + good + "red gain,0.5,100,,0.25,0.5,80,,\n",
        "menu.csv:3:10: \"0.5\"; wanted a whole number of steps, -1000 to 1000");
    expect_controls_refused(controls_heading + good + "red offset,5,,,0.25,0.5,80,,\n",
                            "menu.csv:3:14: an offset without a level; wanted the grey at which it "
                            "was read, in level_pct or patch");
    expect_controls_refused(controls_heading + good + "red gain,5,100,,0.25,0.5,80,2,\n",
                            "menu.csv:3:29: \"2\"; wanted a whole number of steps, -1000 to 0");
    expect_controls_refused(controls_heading + good + "red gain,5,100,,0.25,0.5,80,,-2\n",
                            "menu.csv:3:30: \"-2\"; wanted a whole number of steps, 0 to 1000");
    expect_controls_refused(controls_heading + good + "red gain,5,100,,0.25,0,80,,\n",
                            "menu.csv:3:22: y = 0; wanted a y above 0");
    expect_controls_refused(
        controls_heading + good,
        "menu.csv:1:1: no row with a control that was moved; wanted one control "
        "moved a row, steps other than 0");
    std::string many = controls_heading;
    for (int i = 0; i < 2001; ++i) {
        many += "red gain,5,100,,0.25,0.5,80,,\n";
    }
    expect_controls_refused(
        many, "menu.csv:2002:1: more than 2000 readings of controls; wanted 2000 at most");
    expect_controls_refused(
        "control,x,y,Y\nred gain,0.25,0.5,80\n",
        "menu.csv:1:1: no heading row that names control and steps; wanted a heading "
        "row with control, steps and X, Y, Z (or x, y, Y)");
}

}  // namespace
}  // namespace samelight::io
