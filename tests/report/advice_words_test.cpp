// What the verdict on moving a white says, and a budget, each form once, to the letter: programs and people's notes quote these lines.
#include <cstddef>
#include <set>
#include <string>

#include <gtest/gtest.h>

#include "samelight/report/advice_words.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/uncertainty.hpp"

using namespace samelight;
using report::sentence;

namespace {

constexpr const char* by_eye = "et it by eye, side by side with the reference.";

/// From .00592 to .00214, seen nearer by 53.4 in 100 and further by 36.
Advice advice_for(Verdict verdict, AdviceReason reason) {
    Advice advice{verdict, reason, 0.534, {0.31, 0.32}};
    advice.sight = {0.00592, 0.00214, 0.001, 0.9, 0.6, 0.1};
    advice.people = {0.534, 0.106, 0.36, 0.49, 0.001, 1024};
    advice.to_move_xy = 0.00094;
    advice.de00_before = 5.04;
    advice.de00_after = 3.06;
    return advice;
}

TEST(AdviceWords, OfAPopulation) {
    EXPECT_EQ(
        sentence(advice_for(Verdict::move, AdviceReason::nearer)),
        "as it is it looks DE00 5.0 off on average, after the move 3.1; of 100 viewers 53 see it clearly "
        "nearer, 11 no difference, 36 clearly further.");
    EXPECT_NE(
        sentence(advice_for(Verdict::move, AdviceReason::nearer), report::MovedFrom::reference_xy)
            .find("at the reference's x, y it looks DE00 5.0 off on average, after the move 3.1;"),
        std::string::npos);
    Advice little = advice_for(Verdict::move, AdviceReason::nearer);
    little.de00_after = 4.06;
    EXPECT_TRUE(sentence(little).ends_with(" A small gain.")) << sentence(little);
    little.de00_after = 5.2;
    EXPECT_TRUE(sentence(little).ends_with(" In DE00 nothing is gained.")) << sentence(little);
    Advice unsure = advice_for(Verdict::move, AdviceReason::nearer);
    unsure.uncertain_along_xy = 0.0031;
    EXPECT_NE(
        sentence(unsure).find(" It is the likelier side, not a sure one: what isn't known along "
                              "its way, ±0.0031 in x, y, is more than the move, 0.0009."),
        std::string::npos);
    EXPECT_EQ(
        report::weighed(unsure).find(
            "Weighed over all that isn't known: for the average eye the move takes it from 0.0059 to "
            "0.0021 u'v' off the right white."),
        0U);
    EXPECT_EQ(sentence(advice_for(Verdict::leave, AdviceReason::helps_too_few)),
              "moving it would help only 49 in 100 viewers.");
    EXPECT_EQ(sentence(advice_for(Verdict::ask_the_eyes, AdviceReason::helps_too_few)),
              std::string("moving it would help only 49 in 100 viewers: s") + by_eye);
    EXPECT_EQ(sentence(advice_for(Verdict::leave, AdviceReason::below_instrument)),
              "what there is to move, 0.0009 in x, y, is less than the instrument can tell.");
    EXPECT_EQ(sentence(advice_for(Verdict::leave, AdviceReason::too_little)),
              "as it is it looks 0.0059 u'v' off to a typical viewer, and moving it would win "
              "0.0038 of that, too little to see.");
    Advice worse = advice_for(Verdict::leave, AdviceReason::too_little);
    worse.sight.after = 0.007;
    EXPECT_EQ(sentence(worse),
              "as it is it looks 0.0059 u'v' off to a typical viewer, and moving it would win "
              "0.0000 of that, too little to see.");
}

TEST(AdviceWords, OfNamedViewers) {
    Advice advice = advice_for(Verdict::move, AdviceReason::nearer_to_worst_off);
    advice.viewer_count = 2;
    advice.viewers_nearer = {"A"};
    advice.viewers_further = {"B"};
    EXPECT_EQ(sentence(advice),
              "it brings the white nearer to the reference for viewer A, at the cost of viewer B"
              ": whoever is worst off is expected to see DE00 5.0 as it is, after the move 3.1.");
    advice.viewers_nearer = {"A", "B"};
    advice.viewers_further = {};
    EXPECT_EQ(
        sentence(advice),
        "it brings the white nearer to the reference for both viewers: whoever is worst off is "
        "expected to see DE00 5.0 as it is, after the move 3.1.");
    advice.viewer_count = 1;
    advice.viewers_nearer = {"A"};
    EXPECT_EQ(
        sentence(advice),
        "it brings the white nearer to the reference for viewer A: expected is DE00 5.0 as it is, "
        "after the move 3.1.");
    advice.viewer_count = 2;
    advice.reason = AdviceReason::too_little_for_worst_off;
    EXPECT_EQ(sentence(advice),
              "moving it would win 0.0038 u'v' for whoever is worst off, too little to see.");
    advice.sight.after = 0.006;
    EXPECT_EQ(sentence(advice), "moving it would not help whoever is worst off.");
}

TEST(AdviceWords, AskTheEyes) {
    Advice advice = advice_for(Verdict::ask_the_eyes, AdviceReason::opposed);
    advice.opposed = {"viewer B", "viewer C"};
    advice.viewer_count = 2;
    EXPECT_EQ(
        sentence(advice),
        std::string("viewers B and C want whites on opposite sides; this one lies between. S") +
            by_eye);
    advice.opposed = {"CIE 2015, 2 degrees", "CIE 2015, 10 degrees"};
    advice.viewer_count = 0;
    EXPECT_EQ(
        sentence(advice),
        std::string(
            "for CIE 2015, 2 degrees, and CIE 2015, 10 degrees, it should go opposite ways, and numbers can't choose. S") +
            by_eye);
    advice.reason = AdviceReason::direction_unsure;
    EXPECT_EQ(sentence(advice),
              std::string("as it is it looks 0.0059 u'v' off to a typical viewer, but which way "
                          "isn't sure enough: moving it by these numbers is expected to win 0.0038 "
                          "of that. S") +
                  by_eye);
    advice.viewer_count = 1;
    advice.sight.after = advice.sight.before;
    EXPECT_EQ(sentence(advice),
              std::string("as it is it looks 0.0059 u'v' off to the viewer, but which "
                          "way isn't sure enough: moving it by these numbers isn't expected to "
                          "win anything. S") +
                  by_eye);
}

// Whatever is to be put right first, and each reason has a code of its own.
TEST(AdviceWords, EachReasonHasItsOwn) {
    std::set<std::string> codes;
    std::set<std::string> sentences;
    for (int i = 0; i <= static_cast<int>(AdviceReason::eye_far_from_normal); ++i) {
        Advice advice = advice_for(Verdict::leave, static_cast<AdviceReason>(i));
        advice.misread_primary = 2;
        codes.insert(code_of(advice.reason));
        sentences.insert(sentence(advice));
        EXPECT_EQ(sentence(advice).back(), '.') << code_of(advice.reason);
    }
    EXPECT_EQ(codes.size(), 17U);
    EXPECT_EQ(sentences.size(), 17U);
    EXPECT_EQ(sentences.count("blue was misread, it seems; see below, and measure it again."), 1U);
    EXPECT_STREQ(code_of(AdviceReason::eye_far_from_normal), "eye_far_from_normal");
    EXPECT_STREQ(code_of(AdviceReason::now_of_another_type), "now_of_another_type");
}

TEST(AdviceWords, SaysHalvesSoThatTheyFitTheVerdict) {
    EXPECT_EQ(report::share_of_viewers(0.5), "half of the viewers");
    EXPECT_EQ(report::share_of_viewers(0.501), "just over half of the viewers");
    EXPECT_EQ(report::share_of_viewers(0.499), "just under half of the viewers");
    EXPECT_EQ(report::share_of_viewers(0.51), "51 in 100 viewers");
    EXPECT_EQ(report::share_of_viewers(0.9999), "99 in 100 viewers");
    EXPECT_EQ(report::share_of_viewers(1.0), "100 in 100 viewers");
}

TEST(BudgetWords, EachRemedyHasItsOwn) {
    std::set<std::string> codes;
    std::set<std::string> said;
    for (int i = 0; i <= static_cast<int>(BudgetRemedy::none_viewers_named); ++i) {
        BudgetPart part{"sampling", {}, static_cast<BudgetRemedy>(i)};
        part.viewer = "C";
        codes.insert(code_of(part.remedy));
        said.insert(report::remedy_of(part));
    }
    EXPECT_EQ(codes.size(), 15U);
    EXPECT_EQ(said.size(), 15U);
    EXPECT_EQ(said.count("let viewer C set the white by eye, side by side with the reference"), 1U);
    EXPECT_STREQ(code_of(BudgetRemedy::none_viewers_named), "none_viewers_named");
    EXPECT_EQ(report::title_of({"sampling", {}, BudgetRemedy::finer_step}),
              "the step of the spectra");
    EXPECT_EQ(report::title_of({"panel_spectrum", {}, BudgetRemedy::measure_unit}),
              "the panel's spectrum, taken from its type");
    EXPECT_EQ(report::title_of({"panel_spectrum", {}, BudgetRemedy::measure_spectra}),
              "the panel's spectrum, its type's bent to what was read");
    EXPECT_EQ(report::title_of({"one_of_later", {}, BudgetRemedy::measure_unit}), "one_of_later");
}

}  // namespace
