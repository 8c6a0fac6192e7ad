// Ages as typed and as files hold them.
#include <string>

#include <gtest/gtest.h>

#include "samelight/io/ages_csv.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io {
namespace {

std::string refusal(const std::string& bytes) {
    try {
        parse_ages(bytes, "ages.csv");
    } catch (const Error& error) {
        return error.what();
    }
    return "";
}

TEST(AgesFile, AgesComeAsOftenAsTheyAreCounted) {
    const NamedAges people = parse_ages("age_years,count\n30,3\n60,1\n", "ages.csv");
    EXPECT_EQ(people.ages.quantile(0.7), 30.0);
    EXPECT_EQ(people.ages.quantile(0.8), 60.0);
    EXPECT_TRUE(people.understood.empty());
}

TEST(AgesFile, SpreadsheetsOfOtherCountriesAreRead) {
    const NamedAges people = parse_ages(
        "\xEF\xBB\xBF"
        "Alter;Anzahl\r\n25,5;10\r\n70;30\r\n",
        "a");
    EXPECT_EQ(people.ages.youngest(), 25.5);
    EXPECT_EQ(people.ages.quantile(0.2), 25.5);
    EXPECT_EQ(people.ages.quantile(0.3), 70.0);
}

TEST(AgesFile, WhomTheFormulaLeavesOutIsSaid) {
    const NamedAges people = parse_ages("10,5\n30,10\n90,2\n", "ages.csv");
    EXPECT_EQ(people.ages.youngest(), 30.0);
    EXPECT_EQ(people.ages.oldest(), 30.0);
    ASSERT_EQ(people.understood.size(), 1U);
    EXPECT_NE(people.understood[0].find("7 of 17 people"), std::string::npos);
}

TEST(AgesFile, RefusesWithTheLine) {
    EXPECT_NE(refusal("age,count\n30,2\n40,x\n").find("ages.csv:3:4"), std::string::npos);
    EXPECT_NE(refusal("30,2.5\n").find("whole number"), std::string::npos);
    EXPECT_NE(refusal("23;333333333333333332").find("ages.csv:1:4"), std::string::npos);
    EXPECT_NE(refusal("30,2,1\n").find("two columns"), std::string::npos);
    EXPECT_NE(refusal("10,2\n").find("20 to 80"), std::string::npos);
    EXPECT_NE(refusal("").find("ages.csv"), std::string::npos);
    EXPECT_NE(refusal("-3,2\n").find("age in years"), std::string::npos);
}

TEST(AgesAsTyped, AreARangeOrOneAge) {
    EXPECT_EQ(open_ages("20-70").ages.oldest(), 70.0);
    EXPECT_EQ(open_ages("65").ages.youngest(), 65.0);
    EXPECT_THROW(open_ages("70-20"), Error);
    EXPECT_THROW(open_ages("10-70"), Error);
    EXPECT_THROW(open_ages("twenty"), Error);
    EXPECT_THROW(open_ages("no/such.csv"), Error);
}

}  // namespace
}  // namespace samelight::io
