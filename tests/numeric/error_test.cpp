// The one exception type: what it says and what kind it is.
#include <stdexcept>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

TEST(Error, SaysWhereWhatAndWhatWasWantedInOneLine) {
    const Error error(ErrorKind::domain, "daylight_series", "temperature 3000 K",
                      "4000 to 25000 K");
    EXPECT_STREQ(error.what(), "daylight_series: temperature 3000 K; wanted 4000 to 25000 K");
}

TEST(Error, KeepsItsKindThroughACatchAsRuntimeError) {
    for (const ErrorKind kind : {ErrorKind::domain, ErrorKind::shape, ErrorKind::singular,
                                 ErrorKind::observer, ErrorKind::input, ErrorKind::system}) {
        bool caught = false;
        try {
            throw Error(kind, "here", "this", "that");
        } catch (const std::runtime_error& error) {
            caught = true;
            const auto* own = dynamic_cast<const Error*>(&error);
            ASSERT_NE(own, nullptr);
            EXPECT_EQ(own->kind(), kind);
            EXPECT_EQ(std::string(own->what()), "here: this; wanted that");
        }
        EXPECT_TRUE(caught);
    }
}

TEST(Error, KeepsItsPartsForPrograms) {
    const Error error(ErrorKind::input, ErrorPlace{"set.csv", 12, 3}, "\"x\"", "a number");
    EXPECT_STREQ(error.what(), "set.csv:12:3: \"x\"; wanted a number");
    EXPECT_EQ(error.place().name, "set.csv");
    EXPECT_EQ(error.place().line, 12);
    EXPECT_EQ(error.place().column, 3);
    EXPECT_EQ(error.found(), "\"x\"");
    EXPECT_EQ(error.wanted(), "a number");
    const Error copy = error;  // outlives what it was copied from
    EXPECT_EQ(copy.place().name, "set.csv");
}

TEST(Error, ReadsLineAndColumnOffAPlaceInWords) {
    const auto place = [](const char* where) {
        return Error(ErrorKind::input, where, "this", "that").place();
    };
    EXPECT_EQ(place("a:b.csv:7:2").text(), "a:b.csv:7:2");
    EXPECT_EQ(place("a:b.csv:7:2").line, 7);
    EXPECT_EQ(place("a:b.csv:7:2").column, 2);
    EXPECT_EQ(place("a.csv:7").line, 7);
    EXPECT_EQ(place("a.csv:7").column, 0);
    EXPECT_EQ(place("observer \"cie2006:45:x\"").line, 0);
    EXPECT_EQ(place("white_target").name, "white_target");
    EXPECT_EQ(place("").text(), "");
    EXPECT_EQ(place("12:").text(), "12:");
}

TEST(Warning, AreEqualWhereCodeAndFactsAre) {
    const Warning warning{"noisy", {{"column", std::string("red")}, {"noise_percent", 2.0}}};
    EXPECT_EQ(warning, Warning(warning));
    EXPECT_NE(warning, (Warning{"clipped", warning.facts}));
    EXPECT_NE(warning,
              (Warning{"noisy", {{"column", std::string("red")}, {"noise_percent", 3.0}}}));
    EXPECT_NE(warning, (Warning{"noisy"}));
}

TEST(Warning, AFactIsFoundByNameAndType) {
    const Warning warning{"noisy",
                          {{"column", std::string("red")},
                           {"noise_percent", 2.0},
                           {"lines_nm", std::vector<double>{546.0, 578.0}}}};
    ASSERT_NE(warning.find<double>("noise_percent"), nullptr);
    EXPECT_EQ(*warning.find<double>("noise_percent"), 2.0);
    ASSERT_NE(warning.find<std::string>("column"), nullptr);
    EXPECT_EQ(*warning.find<std::string>("column"), "red");
    ASSERT_NE(warning.find<std::vector<double>>("lines_nm"), nullptr);
    EXPECT_EQ(warning.find<std::string>("noise_percent"), nullptr);
    EXPECT_EQ(warning.find<double>("none"), nullptr);
}

}  // namespace
}  // namespace samelight
