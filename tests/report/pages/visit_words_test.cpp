// What is said of a visit's plan in cases that are rare: steps, what is left out, displays that aren't warm. Answers are made by hand from a plan.
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "report/pages/report_page.hpp"
#include "report/visit/page/visit_words.hpp"
#include "samelight/check/visits/visit_plan.hpp"
#include "samelight/check/visits/warm_up.hpp"
#include "samelight/report/check/visit_answer.hpp"

namespace samelight::report::in_visit_words {
namespace {

using samelight::test::ReportPage;
using samelight::test::says;

VisitPage planned(const std::vector<std::string>& displays, double minutes) {
    VisitTyped typed;
    typed.displays = displays;
    typed.minutes = minutes;
    typed.on_for_min = 60.0;
    typed.hdr = true;
    return answer_visit(typed);
}

ReportPage page(const VisitPage& answer) { return ReportPage(visit_report(answer)); }

ReportPage client(const VisitPage& answer) {
    return ReportPage(visit_report(answer, {.audience = Audience::client}));
}

TEST(VisitWords, MinutesAndClocks) {
    EXPECT_EQ(minutes_in_words(44.2), "45 min");
    EXPECT_EQ(minutes_in_words(45.0), "45 min");
    EXPECT_EQ(minutes_in_words(59.5), "1 h");
    EXPECT_EQ(minutes_in_words(111.2), "1 h 52 min");
    EXPECT_EQ(clock_of(5.4), "0:05");
    EXPECT_EQ(clock_of(125.0), "2:05");
}

TEST(VisitWords, StepsSayHowOftenAndWithWhat) {
    const VisitPage answer = planned({"hall:hdr"}, 300.0);
    VisitPlanStep step = answer.plan.steps.front();
    const auto of = [&](VisitStep wanted) {
        for (const VisitPlanStep& found : answer.plan.steps) {
            if (found.step == wanted) return found;
        }
        ADD_FAILURE() << step_in_a_word(wanted);
        return answer.plan.steps.front();
    };
    EXPECT_EQ(step_in_words(of(VisitStep::white_first)), "white, 3 times with both instruments");
    EXPECT_EQ(step_in_words(of(VisitStep::white_again)),
              "white again, twice with both instruments: does it stand as set?");
    EXPECT_EQ(step_in_words(of(VisitStep::set_white)), "set white to its target");
    EXPECT_EQ(
        step_in_words(of(VisitStep::primaries)),
        "red, green, blue, white, twice with both instruments; their mixtures with the meter");
    EXPECT_EQ(step_in_words(of(VisitStep::black)), "black, 3 times with both instruments");
    EXPECT_EQ(step_in_words(of(VisitStep::greys)), "13 greys, once with the meter");
    EXPECT_EQ(step_in_words(of(VisitStep::proof)), "proof: 120 colours, once with the meter");
    EXPECT_TRUE(says(step_in_words(of(VisitStep::windows)), "white in windows of 1, 2, 5, 10"))
        << step_in_words(of(VisitStep::windows));
    EXPECT_EQ(step_in_a_table(of(VisitStep::windows)), "8 windows, grey between them");
    EXPECT_EQ(step_in_a_word(VisitStep::windows), "windows");
    step = of(VisitStep::primaries);
    step.readings.with_reference = 0;
    step.readings.rounds = 1;
    EXPECT_EQ(step_in_words(step),
              "red, green, blue, white, cyan, magenta, yellow, once with the meter");
    step.readings.patches.resize(4);
    EXPECT_EQ(step_in_words(step), "red, green, blue, white, once with the meter");
    EXPECT_EQ(step_in_a_table(step), "red, green, blue, white");
    step.step = VisitStep::warm_up;
    step.minutes = 0.0;
    EXPECT_EQ(step_in_words(step), "it is warm by now: white stands still, or wait");
    step.minutes = 3.0;
    EXPECT_EQ(step_in_words(step), "wait until white is steady: read it every minute");
}

TEST(VisitWords, WhatIsLeftOutIsNamedWithItsDisplayAndMode) {
    VisitPage answer = planned({"lounge:cinema", "hall"}, 300.0);
    const std::vector<std::pair<VisitOmission, const char*>> cases = {
        {VisitOmission::windows_few, "lounge, cinema: 4 windows instead of 8"},
        {VisitOmission::proof_few, "lounge, cinema: 32 colours of the proof instead of 120"},
        {VisitOmission::greys_few, "lounge, cinema: 7 greys instead of 13"},
        {VisitOmission::mixtures, "lounge, cinema: cyan, magenta and yellow"},
        {VisitOmission::windows, "lounge, cinema: all windows"},
        {VisitOmission::proof, "lounge, cinema: all colours of the proof"},
        {VisitOmission::mode, "lounge, cinema: the whole mode"},
        {VisitOmission::display, "lounge: the whole display"}};
    EXPECT_FALSE(page(answer).has("answer-left-out"));
    for (const auto& [what, words] : cases) {
        EXPECT_EQ(left_out_in_words(answer.visit, {what, 0, 0, 7.0}), words);
        answer.plan.left_out.push_back({what, 0, 0, 7.0});
    }
    answer.plan.left_out[4].minutes = 31.0;
    // All of it is longer than a line: what saves most, and how many more.
    EXPECT_EQ(page(answer).words("answer-left-out"),
              "Left out: lounge, cinema: all windows (31 min) and 7 more.");
    EXPECT_TRUE(says(page(answer).words("steps-left-out"), "greys instead of 13 (7 min); lounge"));
    answer.plan.left_out = {{VisitOmission::mixtures, 0, 0, 0.0}};
    EXPECT_EQ(page(answer).words("answer-left-out"),
              "Left out, to have the time: lounge, cinema: cyan, magenta and yellow.");
}

TEST(VisitWords, WarmingUpSaysWhatToDo) {
    WarmUp warm_up;
    warm_up.span_min = 16.0;
    warm_up.moves = {WarmUpMove{-0.00087, 0.0001}, WarmUpMove{0.00056, 0.0001},
                     WarmUpMove{0.0153, 0.002}};
    warm_up.verdict = WarmUpVerdict::begin;
    const std::string moved =
        "In 10 minutes white moves x -0.0009 and y +0.0006, its luminance "
        "+1.5 % (limits 0.0005 and 1 %).";
    EXPECT_EQ(warm_up_in_words(warm_up), moved);
    warm_up.verdict = WarmUpVerdict::wait;
    EXPECT_TRUE(says(warm_up_in_words(warm_up), "No end of it is to be seen yet."));
    warm_up.wait = WarmUpWait{6.2, 5.1, 75.0};
    EXPECT_TRUE(says(warm_up_in_words(warm_up), "Steady in about 7 min (6 min to 1 h 15 min)."));
    warm_up.verdict = WarmUpVerdict::read_longer;
    EXPECT_EQ(warm_up_in_words(warm_up),
              "The readings span 16.0 min: read white for 10 minutes at least.");
    warm_up.verdict = WarmUpVerdict::read_more_often;
    EXPECT_TRUE(says(warm_up_in_words(warm_up), "to tell a movement of 0.0005: read white more"));
    // Of several displays the first screen has a line, and each stands below.
    VisitPage answer = planned({"lounge", "hall", "study", "attic"}, 300.0);
    for (const WarmUpVerdict verdict :
         {WarmUpVerdict::begin, WarmUpVerdict::wait, WarmUpVerdict::read_longer,
          WarmUpVerdict::read_more_often}) {
        warm_up.verdict = verdict;
        answer.warm_ups[static_cast<std::size_t>(verdict)] = warm_up;
    }
    EXPECT_EQ(page(answer).words("answer-warm-ups"),
              "Steady: lounge. Not steady, wait: hall. Read on: study. Read more often: attic.");
    EXPECT_EQ(page(answer).words("answer-warm-up-2").rfind("hall: ", 0), 0U);
    EXPECT_FALSE(says(visit_page(answer), "The readings span")) << "below the first screen";
}

TEST(VisitWords, WaitingIsSaidWhereItIsWorthSaving) {
    VisitPage answer = planned({"lounge"}, 300.0);
    EXPECT_FALSE(page(answer).has("answer-waiting"));
    answer.plan.waiting_min = 31.5;
    EXPECT_EQ(page(answer).words("answer-waiting").rfind("32 min of it are waiting:", 0), 0U);
    answer.visit.instruments = VisitInstruments::meter;
    EXPECT_FALSE(page(answer).has("answer-lamp"));
    EXPECT_FALSE(page(answer).has("steps-evening-before"));
    EXPECT_FALSE(says(page(answer).words("foundation-rests-on"), "by the reference"));
}

TEST(VisitWords, WhoeverOwnsTheDisplaysHearsWhenAndWhich) {
    VisitPage answer = planned({"lounge", "hall"}, 300.0);
    EXPECT_EQ(client(answer).words("visit-length"), "The visit takes about " +
                                                        minutes_in_words(answer.plan.total_min) +
                                                        ". Measured and set: lounge, hall.");
    EXPECT_EQ(client(answer).words("visit-warm"),
              "Please leave them switched on until the visit is over.");
    EXPECT_FALSE(client(answer).has("visit-left-out"));
    answer.visit.on_for_min = 10.0;
    EXPECT_TRUE(says(client(answer).words("visit-warm"), "switch them on 45 min before the visit"));
    answer.visit.displays[0].steady_in_min = 0.0;
    answer.visit.displays[1].steady_in_min = 12.0;
    EXPECT_TRUE(says(client(answer).words("visit-warm"), "leave them switched on"));
    std::erase_if(answer.plan.steps, [](const VisitPlanStep& step) { return step.display == 1; });
    EXPECT_EQ(client(answer).words("visit-left-out"), "There is no time this once for: hall.");
    answer.plan.missing_min = 12.0;
    EXPECT_TRUE(
        says(client(answer).words("visit-length"), "The time at hand is too short: at least"));
    EXPECT_FALSE(client(answer).has("visit-left-out"));
}

}  // namespace
}  // namespace samelight::report::in_visit_words
