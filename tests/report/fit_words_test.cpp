// What a fit's verdict and plan say, and a choice, each form once, to the letter: programs and people's notes quote these lines.
#include <limits>
#include <set>
#include <string>

#include <gtest/gtest.h>

#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit_verdict.hpp"
#include "samelight/meter/readings/outliers.hpp"
#include "samelight/meter/selection/choice.hpp"
#include "samelight/meter/selection/plan.hpp"
#include "samelight/report/choice_words.hpp"
#include "samelight/report/fit_words.hpp"

using namespace samelight;
using report::sentence;

namespace {

FitJudgement judged(FitReason reason) {
    FitJudgement result;
    result.reason = reason;
    result.proof_before = 0.00812;
    result.proof_after = 0.00043;
    result.proof_count = 2;
    return result;
}

TEST(FitWords, Proof) {
    FitJudgement found = judged(FitReason::proven);
    EXPECT_EQ(sentence(found),
              "On the 2 colours that it was not made from it leaves 0.0004 in x, y; without it the "
              "meter is off by 0.0081.");
    found.reason = FitReason::same_either_way;
    EXPECT_EQ(sentence(found),
              "On the 2 colours that it was not made from it leaves 0.0004 in x, y; without it the "
              "meter is off by 0.0081. That is the same, as far as anything can be read.");
    found.reason = FitReason::no_better_than_none;
    found.proof_count = 1;
    found.near_one_white = true;
    found.raw_channels = true;
    EXPECT_EQ(sentence(found),
              "On the colour near that white that it was not made from it leaves 0.0004 in x, y; "
              "without it the meter's raw channels are no colours.");
    found = judged(FitReason::unproven);
    EXPECT_EQ(sentence(found),
              "No colour was left over to prove it: read two more, such as yellow and a mid grey.");
    found.near_one_white = true;
    EXPECT_EQ(sentence(found),
              "No other colour near that white was read to prove it: read a mid grey.");
    found = judged(FitReason::too_noisy_to_tell);
    found.known_to = 0.00551;
    EXPECT_EQ(sentence(found),
              "Nothing can be told: these readings scatter so much that the corrected colours are "
              "known to 0.0055 in x, y at best, and the meter without it is no further off.");
}

TEST(FitWords, WhatToReadAgain) {
    StopAdvice advice;
    advice.reason = StopReason::read_again;
    FitJudgement found = judged(FitReason::odd_reading);
    found.again_patch = "red";
    found.again_round = 2;
    OddReading odd;
    odd.patch = "red";
    odd.round = 2;
    odd.reading = 1;
    odd.readings_in_round = 2;
    found.odd_reading = odd;
    EXPECT_EQ(sentence(found),
              "The reading of red (first) in round 2 does not go with the others.");
    EXPECT_EQ(
        sentence(advice, found),
        "Read red of round 2 again, with both instruments, and put it in the place of the odd "
        "reading.");
    found = judged(FitReason::odd_patch);
    found.again_patch = "grey";
    EXPECT_EQ(sentence(found), "The patch grey does not go with the others.");
    EXPECT_EQ(
        sentence(advice, found),
        "Read grey again, with both instruments, and put it in the place of the odd reading.");
    found = judged(FitReason::drift);
    found.again_round = 3;
    EXPECT_EQ(sentence(found), "White drifted while round 3 was read.");
    EXPECT_EQ(sentence(advice, found),
              "Read the whole of round 3 again, once the display holds still, and put it in the "
              "place of this one.");
    found = judged(FitReason::odd_luminance);
    found.again_patch = "blue";
    EXPECT_EQ(sentence(found), "Y of blue can't be what was shown (see below).");
    EXPECT_EQ(sentence(advice, found),
              "Look at Y of blue in the file: where it was written down wrong, mend it there; else "
              "read blue again with both instruments, at the drive of the others.");
    EXPECT_EQ(sentence(advice, judged(FitReason::read_once)),
              "Read every colour again, three times or more.");
    EXPECT_EQ(sentence(advice, judged(FitReason::steady_drift)),
              "Let the display warm up until white holds still, then read all rounds again.");
}

// What is mended otherwise has words of its own for that; the rest goes by the patch and the round.
TEST(FitWords, EachReasonHasItsOwn) {
    StopAdvice advice;
    advice.reason = StopReason::read_again;
    std::set<std::string> codes;
    std::set<std::string> sentences;
    for (int i = 0; i <= static_cast<int>(FitReason::too_noisy_to_use); ++i) {
        const FitJudgement found = judged(static_cast<FitReason>(i));
        codes.insert(code_of(found.reason));
        sentences.insert(sentence(found));
        EXPECT_EQ(sentence(advice, found) != "Read every colour again, three times or more.",
                  is_mended_otherwise(found.reason))
            << code_of(found.reason);
    }
    EXPECT_EQ(codes.size(), 17U);
    EXPECT_EQ(sentences.size(), 16U);  // the proof reads alike whether it is for or against
    EXPECT_STREQ(code_of(FitReason::too_noisy_to_use), "too_noisy_to_use");
}

TEST(FitWords, WhetherToReadOn) {
    StopAdvice advice;
    advice.half_width = 0.000423;
    advice.wanted = 0.0003;
    advice.floor_xy = 0.00151;
    advice.more_rounds = 4;
    const auto said = [&](StopReason reason) {
        advice.reason = reason;
        return sentence(advice, judged(FitReason::proven));
    };
    EXPECT_EQ(said(StopReason::reached), "Corrected x and y are sure to 0.00042: enough.");
    EXPECT_EQ(said(StopReason::below_floor),
              "Corrected x and y are sure to 0.00042, less than a third of the 0.00151 that no "
              "reading improves: more readings are not worth it.");
    EXPECT_EQ(said(StopReason::too_few), "Read every patch 3 times or more.");
    EXPECT_EQ(said(StopReason::go_on),
              "Corrected x and y are sure to 0.00042: about 4 more rounds for 0.00030.");
    const std::string noise = sentence(judged(FitReason::too_noisy_to_use));
    EXPECT_EQ(said(StopReason::out_of_reach),
              "Corrected x and y are sure to 0.00042, not to 0.00030. " + noise);
    EXPECT_EQ(noise.rfind("More rounds alone won't do, the noise must come down first:", 0), 0U);
    EXPECT_EQ(said(StopReason::do_not_use).rfind("More readings of these colours won't mend", 0),
              0U);
    advice.half_width = 4e-6;
    EXPECT_EQ(said(StopReason::reached), "Corrected x and y are sure to 0.00001 or less: enough.");
    EXPECT_STREQ(code_of(StopReason::do_not_use), "do_not_use");
    EXPECT_STREQ(code_of(StopReason::reached), "reached");
}

TEST(ChoiceWords, EachReasonHasItsOwn) {
    std::set<std::string> codes;
    std::set<std::string> said;
    const auto add = [&](auto why) {
        codes.insert(code_of(why));
        said.insert(report::words_of(why));
    };
    for (int i = 0; i <= static_cast<int>(CannotJudge::no_light); ++i) {
        add(static_cast<CannotJudge>(i));
    }
    for (int i = 0; i < 3; ++i) {
        add(static_cast<NotSafe>(i));
        add(static_cast<NotAtAll>(i));
    }
    EXPECT_EQ(codes.size(), 12U);
    EXPECT_EQ(said.size(), 12U);
    EXPECT_EQ(report::words_of(CannotJudge::cones),
              "gives cone responses, which have no u'v' to judge by");
    EXPECT_STREQ(code_of(CannotJudge::no_light), "no_light");
    EXPECT_STREQ(code_of(NotSafe::white_not_settled), "white_not_settled");
    EXPECT_STREQ(code_of(NotAtAll::never_confirmed), "never_confirmed");
}

}  // namespace
