// Places of errors in words.
#include <string>

#include <gtest/gtest.h>

#include "samelight/assess/error_words.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

Error error_at(const std::string& place) { return {ErrorKind::domain, place, "found", "this"}; }

TEST(ErrorWords, FunctionsAreToldFromWordsAndNames) {
    for (const char* function :
         {"target_budget", "chromaticity", "match (client-set.csv)", "Lab::from_lch", "deconvolve",
          "resample (Sprague)", "correction_text: reference_from_meter", "pair_readings"}) {
        EXPECT_TRUE(assess::names_function(function)) << function;
    }
    for (const char* words :
         {"client-set.csv", "--now", "white now", "observer", "noise", "viewer A", "reference D65",
          "crt@0.3127,0.3290", "eye match (crt)", "instrument", "four-colour fit", "a_b/c_d.csv",
          "my_file.csv", "--now 0.3,0.3"}) {
        EXPECT_FALSE(assess::names_function(words)) << words;
    }
}

TEST(ErrorWords, AFunctionGivesWayToWhatWasAskedAbout) {
    EXPECT_STREQ(assess::said_of(error_at("target_budget"), {"a.csv", "b.csv"}).what(),
                 "a.csv, b.csv: found; wanted this");
    EXPECT_STREQ(assess::said_of(error_at("match (b.csv)"), {"a.csv", "b.csv"}).what(),
                 "b.csv: found; wanted this");
    EXPECT_STREQ(assess::said_of(error_at("reproduce (crt)"), {"oled-rgb", "crt@0.6,0.33"}).what(),
                 "crt@0.6,0.33: found; wanted this");
    EXPECT_STREQ(assess::said_of(error_at("correction_text: a matrix"), {"a.csv"}).what(),
                 "a.csv: a matrix: found; wanted this");
    EXPECT_STREQ(assess::said_of(error_at("lab"), {"lab"}).what(), "lab: found; wanted this");
    EXPECT_STREQ(assess::said_of(error_at("--now"), {"a.csv"}).what(), "--now: found; wanted this");
    EXPECT_EQ(assess::said_of(error_at("lab"), {"a.csv"}).kind(), ErrorKind::domain);
}

TEST(ErrorWords, AReasonHasNoFunction) {
    EXPECT_EQ(assess::reason_of(error_at("reproduce (crt)")), "found; wanted this");
    EXPECT_EQ(assess::reason_of(error_at("viewer A")), "viewer A: found; wanted this");
    EXPECT_THROW(assess::about({"a.csv"}, []() -> int { throw error_at("luv"); }), Error);
    EXPECT_EQ(assess::about({"a.csv"}, [] { return 4; }), 4);
}

}  // namespace
}  // namespace samelight
