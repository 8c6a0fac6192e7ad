// Files of readings: the forms they come in, what is understood, what is refused.
#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/facts.hpp"
#include "numeric/refusals.hpp"
#include "samelight/io/readings_csv.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {
namespace {

using samelight::test::contains;
using samelight::test::refusal;

constexpr const char* plain =
    "patch,instrument,repeat,X,Y,Z\n"
    "white,reference,1,95.04,100,108.88\n"
    "white,meter,1,94.5,99.25,110.125\n"
    "red,reference,1,46,21,0.5\n"
    "red,meter,1,47.5,20.75,-0.25\n";

void expect_plain(const ReadingsFile& file) {
    ASSERT_EQ(file.rows.size(), 4U);
    const std::array<std::array<double, 3>, 4> xyz = {
        {{95.04, 100, 108.88}, {94.5, 99.25, 110.125}, {46, 21, 0.5}, {47.5, 20.75, -0.25}}};
    for (std::size_t i = 0; i < 4; ++i) {
        const InstrumentReading& r = file.rows[i].reading;
        EXPECT_EQ(r.patch, i < 2 ? "white" : "red");
        EXPECT_EQ(r.instrument, i % 2 == 0 ? Instrument::reference : Instrument::meter);
        EXPECT_EQ(r.round, 1);
        EXPECT_EQ(r.xyz, xyz.at(i)) << i;
        EXPECT_FALSE(r.time_s);
    }
    EXPECT_EQ(pair_readings(file.readings()).size(), 2U);
}

bool says(const std::vector<std::string>& sentences, std::string_view part) {
    return std::any_of(sentences.begin(), sentences.end(),
                       [&](const std::string& s) { return s.find(part) != std::string::npos; });
}

std::string replaced(std::string text, const std::string& what, const std::string& with) {
    for (std::size_t at = 0; (at = text.find(what, at)) != std::string::npos; at += with.size()) {
        text.replace(at, what.size(), with);
    }
    return text;
}

std::string utf16(const std::string& ascii, bool mark) {
    std::string bytes = mark ? "\xff\xfe" : "";
    for (const char c : ascii) {
        bytes += c;
        bytes += '\0';
    }
    return bytes;
}

TEST(ReadingsCsv, PlainForm) {
    const ReadingsFile file = parse_readings_csv(plain, "file.csv");
    expect_plain(file);
    EXPECT_EQ(file.rows[3].line, 5U);
    EXPECT_TRUE(file.warnings.empty());
    EXPECT_TRUE(says(file.understood, "2 readings of the reference and 2 of the meter, 2 patches"));
    EXPECT_TRUE(says(file.understood, "Commas between columns, decimal points."));
}

TEST(ReadingsCsv, TheSameInEveryDress) {
    const std::string text = plain;
    const std::string semicolons = replaced(replaced(text, ",", ";"), ".", ",");
    const std::vector<std::string> dresses = {
        "\xef\xbb\xbf" + text,
        replaced(text, "\n", "\r\n"),
        replaced(text, "\n", "\r"),
        utf16(text, true),
        utf16(text, false),
        semicolons,
        "\xef\xbb\xbf" + replaced(semicolons, "\n", "\r\n"),
        utf16(semicolons, true),
        replaced(text, ",", "\t"),
        replaced(replaced(text, ",", "\t"), ".", ","),
        replaced(text, "\n", ",\n"),
        replaced(text, "\n", "\n\n"),
        "# comment, with a comma\nSession,of yesterday\n" + text,
        replaced(text, "white", "\"white\""),
        replaced(text, "patch,instrument,repeat,X,Y,Z",
                 "Patch, INSTRUMENT ,Repeat,X (cd/m2),Y [cd/m\u00b2],Z (nit)"),
        replaced(text, "reference", "Reference"),
        replaced(text, "-0.25", "\u22120.25"),
    };
    for (const std::string& dress : dresses) {
        SCOPED_TRACE(dress.substr(0, 80));
        expect_plain(parse_readings_csv(dress, "file.csv"));
    }
}

TEST(ReadingsCsv, DecimalCommasInQuotedCells) {
    const ReadingsFile file = parse_readings_csv(
        "patch,instrument,X,Y,Z\nwhite,meter,\"95,04\",\"100\",\"108,88\"\n", "file.csv");
    EXPECT_EQ(file.rows[0].reading.xyz, (std::array<double, 3>{95.04, 100, 108.88}));
    EXPECT_TRUE(says(file.understood, "decimal commas"));
}

// CIE 15:2018, 7.3: X = x Y / y.
TEST(ReadingsCsv, ChromaticityAndLuminance) {
    const ReadingsFile file = parse_readings_csv(
        "patch,instrument,x,y,Y\nwhite,meter,0.3125,0.3125,100\nblack,meter,0,0,0\n", "file.csv");
    EXPECT_EQ(file.rows[0].reading.xyz, (std::array<double, 3>{100, 100, 120}));
    EXPECT_EQ(file.rows[1].reading.xyz, (std::array<double, 3>{0, 0, 0}));
    const std::string both =
        "patch,instrument,X,Y,Z,x,y\nwhite,meter,95.04,100,108.88,0.3127,0.329\n";
    const ReadingsFile of_both = parse_readings_csv(both, "file.csv");
    EXPECT_EQ(of_both.rows[0].reading.xyz[0], 95.04);
    EXPECT_TRUE(says(of_both.understood, "x and y only compared"));
    const ReadingsFile of_one =
        parse_readings_csv("patch,instrument,X,Y,Z\nwhite,meter,95.04,100,108.88\n", "file.csv");
    EXPECT_FALSE(says(of_one.understood, "x and y"));
    EXPECT_FALSE(says(file.understood, "only compared"));
    EXPECT_TRUE(contains(refusal(ErrorKind::input,
                                 [&] {
                                     static_cast<void>(parse_readings_csv(
                                         replaced(both, "0.3127", "0.3227"), "file.csv"));
                                 }),
                         "file.csv:2:30: x, y = 0.3227, 0.329 beside X, Y, Z of x, y = 0.3127"));
}

TEST(ReadingsCsv, RepeatsAreNumberedWhereTheFileDoesNot) {
    const ReadingsFile file = parse_readings_csv(
        "patch,instrument,X,Y,Z\nwhite,meter,1,1,1\nWhite,meter,1,1,1\nwhite,reference,1,1,1\n",
        "file.csv");
    EXPECT_EQ(file.rows[0].reading.round, 1);
    EXPECT_EQ(file.rows[1].reading.round, 2);
    EXPECT_EQ(file.rows[2].reading.round, 1);
    EXPECT_TRUE(says(file.understood, "No column repeat"));
}

TEST(ReadingsCsv, EveryColumn) {
    const ReadingsFile file = parse_readings_csv(
        "patch,instrument,repeat,X,Y,Z,r,g,b,bits,range,time_s,window_pct,mode,flag,operator\n"
        "white,reference,1,95,100,109,940,940,940,10,limited,12.5,10,cinema,,A\n"
        "white,meter,1,95,100,109,940,940,940,10,limited,,10,cinema,hand shook,A\n"
        "red,meter,1,46,21,0.5,,,,,,,25,vivid,,B\n",
        "file.csv");
    const ReadingRow& row = file.rows[0];
    EXPECT_EQ(row.code_values, (std::array<int, 3>{940, 940, 940}));
    EXPECT_EQ(row.bits, 10);
    EXPECT_EQ(row.range, "limited");
    EXPECT_EQ(row.reading.time_s, 12.5);
    EXPECT_EQ(row.window_pct, 10.0);
    EXPECT_EQ(row.mode, "cinema");
    EXPECT_EQ(file.rows[1].flag, "hand shook");
    EXPECT_FALSE(file.rows[1].reading.time_s);
    EXPECT_FALSE(file.rows[2].code_values);
    EXPECT_TRUE(says(file.understood, "Columns left alone: \"operator\"."));
    ASSERT_EQ(file.warnings.size(), 3U);
    EXPECT_EQ(file.warnings[0].code, "flagged");
    EXPECT_EQ(samelight::test::text_of(file.warnings[0], "flag"), "hand shook");
    EXPECT_EQ(samelight::test::number_of(file.warnings[0], "line"), 3.0);
    EXPECT_EQ(samelight::test::number_of(file.warnings[0], "readings"), 1.0);
    EXPECT_EQ(file.warnings[1].code, "several_modes");
    EXPECT_EQ(samelight::test::number_of(file.warnings[1], "modes"), 2.0);
    EXPECT_EQ(file.warnings[2].code, "several_windows");
    EXPECT_EQ(samelight::test::number_of(file.warnings[2], "least_percent"), 10.0);
    EXPECT_EQ(samelight::test::number_of(file.warnings[2], "most_percent"), 25.0);
}

void expect_refused(const std::string& text, const std::string& place, const std::string& part) {
    const std::string said =
        refusal(ErrorKind::input, [&] { static_cast<void>(parse_readings_csv(text, "file.csv")); });
    EXPECT_EQ(said.rfind("file.csv:" + place + ": ", 0), 0U) << said;
    EXPECT_TRUE(contains(said, part)) << said;
}

TEST(ReadingsCsv, RefusesWhatIsNoTableOfReadings) {
    expect_refused("", "1:1", "no heading row");
    expect_refused("wavelength_nm,red\n380,1\n", "1:1", "no heading row that names patch");
    expect_refused("patch,instrument,X,Y,Z\n", "1:1", "a heading and no reading");
    expect_refused("patch,instrument,X,Y\nwhite,meter,1,1\n", "1:1", "of X, Y, Z and x, y, Y only");
    expect_refused("patch,instrument,L\nwhite,meter,1\n", "1:1", "no columns X, Y, Z or x, y, Y");
    expect_refused("patch,instrument,X,Y,Z,X\nw,meter,1,1,1,1\n", "1:24", "a second column");
    expect_refused("patch,instrument,X,Y (fL),Z\nw,meter,1,1,1\n", "1:20", "the unit \"fl\"");
    expect_refused("patch,instrument,X,Y,Z,r,g\nw,meter,1,1,1,1,1\n", "1:1", "r, g, b");
}

TEST(ReadingsCsv, RefusesMoreRowsThanAnyVisitHas) {
    std::string text = "patch,instrument,X,Y,Z\n# a comment is no row\n";
    for (std::size_t i = 0; i < largest_readings_rows; ++i) {
        text += i % 2 == 0 ? "w,meter,1,1,1\n" : "w,reference,1,1,1\n";
    }
    EXPECT_EQ(parse_readings_csv(text, "file.csv").rows.size(), largest_readings_rows);
    expect_refused(text + "w,meter,1,1,1\n", "100003:1", "more than 100000 rows; wanted");
}

TEST(ReadingsCsv, RefusesCells) {
    const std::string head = "patch,instrument,repeat,X,Y,Z,r,g,b,bits,range,time_s,window_pct\n";
    expect_refused(head + ",meter,1,1,1,1\n", "2:1", "an empty cell; wanted the patch's name");
    expect_refused(head + "w,probe,1,1,1,1\n", "2:3", "\"probe\"; wanted reference or meter");
    expect_refused(head + "w,meter,0,1,1,1\n", "2:9", "a whole number from 1");
    expect_refused(head + "w,meter,1.5,1,1,1\n", "2:9", "a whole number from 1");
    expect_refused(head + "w,meter,1,1,one,1\n", "2:13", "\"one\"; wanted a number");
    expect_refused(head + "w,meter,1,1,nan,1\n", "2:13", "\"nan\"");
    expect_refused(head + "w,meter,1,1,1\n", "2:14", "an empty cell; wanted a number");
    expect_refused(head + "w,meter,1,1,2e9,1\n", "2:13", "up to 1e9");
    expect_refused(head + "w,meter,1,1,1,1,256,0,0,8\n", "2:17", "from 0 to 255");
    expect_refused(head + "w,meter,1,1,1,1,1,0,0,7\n", "2:23", "bits from 8 to 16");
    expect_refused(head + "w,meter,1,1,1,1,1,0,0,8,video\n", "2:25", "full or limited");
    expect_refused(head + "w,meter,1,1,1,1,,,,,,soon\n", "2:22", "\"soon\"; wanted seconds");
    expect_refused(head + "w,meter,1,1,1,1,,,,,,,0\n", "2:23", "up to 100 per cent");
    expect_refused("patch,instrument,X,Y,Z\nw,meter,1,1,1,5\n", "2:15", "6 cells under 5 headings");
    expect_refused("patch,instrument,x,y,Y\nw,meter,0.3,0,5\n", "2:13", "a y above 0");
}

TEST(ReadingsCsv, RefusesWhatCanBeReadInTwoWays) {
    expect_refused("patch;instrument;X;Y;Z\nw;meter;1,5;1;1\nw;meter;1.5;1;1\n", "3:9",
                   "a decimal point, or a decimal comma");
    expect_refused("patch;instrument;X;Y;Z\nw;meter;1,234;1,000;1\n", "2:9",
                   "may mark decimals or group thousands");
    expect_refused(
        "patch,instrument,X,Y,Z,r,g,b\nw,meter,1,1,1,253,254,255\n"
        "w,reference,1,1,1,235,236,237\n",
        "3:1", "patch w shown with 235, 236, 237, but in line 2 with 253, 254, 255");
}

// Without a column repeat the times say which reading came first, not the rows.
TEST(ReadingsCsv, NumbersRepeatsByTime) {
    std::string timed = "patch,instrument,x,y,Y,time_s\n";
    std::string untimed = "patch,instrument,x,y,Y\n";
    for (const auto& [luminance, time] :
         std::vector<std::pair<int, int>>{{100, 30}, {101, 10}, {102, 20}}) {
        const std::string row = "white,reference,0.3,0.3," + std::to_string(luminance);
        timed += row + "," + std::to_string(time) + "\n";
        untimed += row + "\n";
    }
    const std::array<int, 3> by_time = {3, 1, 2};
    const ReadingsFile with = parse_readings_csv(timed, "timed.csv");
    const ReadingsFile without = parse_readings_csv(untimed, "untimed.csv");
    for (std::size_t i = 0; i < 3; ++i) {
        EXPECT_EQ(with.rows[i].reading.round, by_time.at(i));
        EXPECT_EQ(without.rows[i].reading.round, static_cast<int>(i) + 1);
    }
}

}  // namespace
}  // namespace samelight::io
