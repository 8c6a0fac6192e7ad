// What the reader of patches asks about: copies of rows, units, ranges; the names that columns go by, and dates.
#include <algorithm>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/io/patch_list_csv.hpp"
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/io/text_for_people.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {
namespace {

PatchReadingsFile read_text(const std::string& text, const UnsaidCodes& unsaid = {}) {
    return parse_patch_readings_csv(text, "visit.csv", unsaid);
}

/// The number `fact` of the warning of that code; -1 without such a warning.
double said(const std::vector<Warning>& warnings, const std::string& code,
            const std::string& fact) {
    const auto found = std::find_if(warnings.begin(), warnings.end(),
                                    [&](const Warning& w) { return w.code == code; });
    const double* number = found == warnings.end() ? nullptr : found->find<double>(fact);
    return number == nullptr ? -1.0 : *number;
}

std::string refusal(const std::string& text) {
    try {
        static_cast<void>(read_text(text));
    } catch (const Error& error) {
        return error.what();
    }
    return "taken";
}

TEST(ReadingDoubts, CopiesOfRowsCountOnce) {
    const auto file = read_text(
        "patch,repeat,X,Y,Z\n"
        "white,1,95.0471,100.003,108.884\n"
        "white,2,95.0471,100.003,108.884\n"
        "white,3,95.0512,100.011,108.879\n"
        "grey-50,1,20.0311,21.0713,22.9504\n"
        "grey-50,2,20.0311,21.0713,22.9504\n"
        "black,1,0.0213,0.0224,0.0271\n"
        "black,2,0.0213,0.0224,0.0271\n");
    EXPECT_EQ(file.rows.size(), 5U) << "blacks of three digits are kept";
    EXPECT_EQ(said(file.warnings, "same_rows", "rows"), 2.0);
    EXPECT_EQ(said(file.warnings, "same_rows", "line"), 3.0);
}

TEST(ReadingDoubts, RepeatsOfFewDigitsAreNoCopies) {
    const auto file = read_text("patch,x,y,Y\nwhite,.3127,.3290,100.2\nwhite,.3127,.3290,100.2\n");
    EXPECT_EQ(file.rows.size(), 2U);
    EXPECT_TRUE(file.warnings.empty());
    // Of the same time they are, if no other row has that time.
    const auto timed = read_text(
        "patch,time_s,x,y,Y\nwhite,10,.3127,.3290,100.2\nwhite,10,.3127,.3290,100.2\n"
        "white,20,.3127,.3290,100.2\n");
    EXPECT_EQ(timed.rows.size(), 2U);
    EXPECT_EQ(said(timed.warnings, "same_rows", "rows"), 1.0);
    const auto no_clock = read_text(
        "patch,time_s,x,y,Y\nwhite,0,.3127,.3290,100.2\nwhite,0,.3127,.3290,100.2\n"
        "red,0,.6400,.3300,21.2\n");
    EXPECT_EQ(no_clock.rows.size(), 3U) << "one time for all tells nothing";
    // At other times even all digits may come again.
    EXPECT_EQ(read_text("patch,time_s,X,Y,Z\nwhite,1,95.0471,100.003,108.884\n"
                        "white,2,95.0471,100.003,108.884\n")
                  .rows.size(),
              2U);
}

TEST(ReadingDoubts, LevelsOfOneAreRefusedWhereTheyAreTooBright) {
    const std::string shares =
        refusal("level_pct,x,y,Y\n0,.3,.3,0.05\n0.5,.3127,.329,20\n1,.3127,.329,100\n");
    EXPECT_NE(shares.find("visit.csv:4"), std::string::npos) << shares;
    EXPECT_NE(shares.find("per cent"), std::string::npos) << shares;
    EXPECT_EQ(shares.find('\n'), std::string::npos) << shares;
    // A ramp just above black, in a room with some light.
    // Without black: the darkest isn't twenty times darker, but no display shows 120 cd/m2 at 1 %.
    EXPECT_NE(refusal("level_pct,x,y,Y\n0.5,.3127,.329,25\n0.6,.3127,.329,35\n1,.3127,.329,120\n"),
              "taken");
    EXPECT_EQ(refusal("level_pct,x,y,Y\n0,.3,.3,1.9\n0.5,.3,.3,1.95\n1,.3,.3,2.1\n"), "taken");
    EXPECT_NE(refusal("r_pct,g_pct,b_pct,x,y,Y\n1,0,0,.64,.33,21\n0,0,0,.3,.3,.02\n"), "taken");
    const auto list = parse_patch_list_csv("name,level\na,0.1\nb,0.5\nc,1\n", "list.csv");
    EXPECT_EQ(said(list.warnings, "levels_look_like_shares", "levels"), 3.0);
    EXPECT_TRUE(parse_patch_list_csv("name,level\na,10\nb,1\n", "list.csv").warnings.empty());
}

TEST(ReadingDoubts, WindowsOfOneAreAskedAbout) {
    const auto file = read_text(
        "patch,window_pct,x,y,Y\nwhite,0.01,.31,.33,900\nwhite,0.1,.31,.33,800\nwhite,1,.31,.33,200\n");
    EXPECT_EQ(said(file.warnings, "windows_look_like_shares", "least"), 0.01);
    EXPECT_EQ(said(file.warnings, "windows_look_like_shares", "most"), 1.0);
    EXPECT_TRUE(read_text("patch,window_pct,x,y,Y\nwhite,1,.31,.33,900\nwhite,10,.31,.33,800\n")
                    .warnings.empty());
    EXPECT_TRUE(read_text("patch,window,x,y,Y\nwhite,1,.31,.33,900\n").warnings.empty());
}

// ITU-R BT.2100-2, Table 9: 64 to 940 at 10 bits; ITU-R BT.709-6, 5.6: 16 to 235 at 8.
TEST(ReadingDoubts, CodesOfExactlyLimitedRangeAreAskedAbout) {
    const std::string eight = "r,g,b,x,y,Y\n16,16,16,.3,.3,.02\n235,235,235,.3127,.329,100\n";
    EXPECT_EQ(said(read_text(eight).warnings, "codes_look_limited", "most"), 235.0);
    const std::string ten = "r,g,b,x,y,Y\n64,64,64,.3,.3,.02\n940,940,940,.3127,.329,100\n";
    EXPECT_EQ(said(read_text(ten).warnings, "codes_look_limited", "least"), 64.0);
    UnsaidCodes named;
    named.range_named = true;
    EXPECT_TRUE(read_text(eight, named).warnings.empty());
    EXPECT_TRUE(read_text("r,g,b,range,x,y,Y\n16,16,16,full,.3,.3,.02\n235,235,235,full,.3127,.329,"
                          "100\n")
                    .warnings.empty());
    EXPECT_TRUE(
        read_text("r,g,b,x,y,Y\n0,0,0,.3,.3,.02\n235,235,235,.3127,.329,100\n").warnings.empty());
    EXPECT_EQ(
        said(parse_patch_list_csv("name,r,g,b\nk,16,16,16\nw,235,235,235\n", "l.csv").warnings,
             "codes_look_limited", "least"),
        16.0);
}

TEST(ReadingDoubts, ColumnsGoByOtherNamesWhereTheirOwnIsMissing) {
    const auto names = read_text("Name,level (%),x,y,Lv (cd/m2),window\nw,100,.3127,.329,100,10\n");
    ASSERT_EQ(names.rows.size(), 1U);
    EXPECT_EQ(names.rows[0].patch, "w");
    EXPECT_DOUBLE_EQ(names.rows[0].signal->at(1), 1.0);
    EXPECT_NEAR(names.rows[0].xyz[1], 100.0, 1e-12);
    EXPECT_DOUBLE_EQ(*names.rows[0].window_pct, 10.0);
    const auto light = read_text("sample,x,y,luminance\nred,.64,.33,21\n");
    EXPECT_NEAR(light.rows[0].xyz[1], 21.0, 1e-12);
    EXPECT_EQ(light.rows[0].patch, "red");
    const auto shares = read_text("r_pct,g_pct,b_pct,x,y,Y\n100,50,0,.5,.4,40\n");
    EXPECT_DOUBLE_EQ(shares.rows[0].signal->at(0), 1.0);
    EXPECT_DOUBLE_EQ(shares.rows[0].signal->at(1), 0.5);
    EXPECT_DOUBLE_EQ(shares.rows[0].signal->at(2), 0.0);
    // Its own name goes first, wherever it stands.
    EXPECT_EQ(read_text("name,patch,x,y,Y\nother,red,.64,.33,21\n").rows[0].patch, "red");
    EXPECT_NE(refusal("patch,r_pct,g_pct,x,y,Y\na,1,1,.3,.3,1\n").find("r_pct, g_pct, b_pct"),
              std::string::npos);
    EXPECT_NE(refusal("r_pct,g_pct,b_pct,x,y,Y\n1,120,1,.3,.3,1\n").find("0 to 109"),
              std::string::npos);
    EXPECT_NE(
        refusal("level_pct,r_pct,g_pct,b_pct,x,y,Y\n1,2,3,4,.3,.3,1\n").find("one of the two"),
        std::string::npos);
    EXPECT_NE(refusal("patch,Lv (fl),x,y\na,1,.3,.3\n").find("cd/m2"), std::string::npos);
    const auto list = parse_patch_list_csv("name,r,g,b\nsky,100,120,200\n", "list.csv");
    EXPECT_EQ(list.signals[0].name, "sky");
}

// ISO 8601-1:2019, 5.2.2 and 5.3. Days by the calendar: 2000-03-01 is day 11017 (30 years of 365 days, 7 leap days, 60 days).
TEST(ReadingDates, AreUnderstood) {
    const auto file = read_text(
        "date,patch,time,x,y,Y\n2000-03-01,white,14:05:22.5,.3127,.329,100\n,red,5,.64,.33,21\n");
    EXPECT_EQ(file.rows[0].day, 11017);
    EXPECT_NEAR(*file.rows[0].time_s, 11017 * 86400.0 + 14 * 3600 + 5 * 60 + 22.5, 1e-6);
    EXPECT_FALSE(file.rows[1].day);
    EXPECT_EQ(*file.rows[1].time_s, 5.0);
    const auto both = read_text(
        "time_s,patch,x,y,Y\n2026-03-14T10:00:00+01:00,white,.3127,.329,100\n"
        "2026-03-15 10:00Z,white,.3127,.329,100\n");
    EXPECT_EQ(*both.rows[1].day - *both.rows[0].day, 1);
    EXPECT_NEAR(*both.rows[1].time_s - *both.rows[0].time_s, 86400.0, 1e-6);
    EXPECT_EQ(date_text(*both.rows[0].day), "2026-03-14");
    EXPECT_EQ(date_text(0), "1970-01-01");
    EXPECT_EQ(date_text(11016), "2000-02-29");
    EXPECT_NE(std::find(both.understood.begin(), both.understood.end(),
                        "Read on 2026-03-14, the last on 2026-03-15."),
              both.understood.end());
}

TEST(ReadingDates, InOtherFormsAreLeftAloneAndThatIsSaid) {
    for (const std::string date :
         {"14/03/2026", "2026-02-30", "2026-3-14", "20260314", "14.03.2026", "2026-13-01"}) {
        const auto file = read_text("date,patch,x,y,Y\n" + date + ",white,.3127,.329,100\n");
        EXPECT_FALSE(file.rows[0].day) << date;
        EXPECT_NE(std::find_if(file.understood.begin(), file.understood.end(),
                               [](const std::string& s) { return s.starts_with("Dates like"); }),
                  file.understood.end())
            << date;
    }
    EXPECT_NE(refusal("patch,time,x,y,Y\nwhite,25:61,.3,.3,1\n").find("seconds, or a time"),
              std::string::npos);
}

}  // namespace
}  // namespace samelight::io
