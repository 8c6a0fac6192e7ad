// What is said of a proof in cases that are rare: each verdict, what to read again first, what is left out. Answers are made by hand from that of the demo.
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "report/pages/report_page.hpp"
#include "samelight/assess/check/check.hpp"
#include "samelight/check/faults/fault.hpp"
#include "samelight/check/proof/conformity.hpp"
#include "samelight/report/check/check_answer.hpp"

namespace samelight::report::in_check_words {
namespace {

using assess::CheckReason;
using assess::CheckVerdict;
using samelight::test::ReportPage;
using samelight::test::says;

const std::string proof = SAMELIGHT_DATA "/demo/proof/";

CheckAnswer demo() {
    static const CheckAnswer answer = [] {
        CheckRequest request;
        request.readings.file = proof + "client-set-proof.csv";
        request.before = proof + "client-set-proof-before.csv";
        request.intent.white = "0.3091,0.3199";
        request.intent.curve = "power:2.4";
        return answer_check(request);
    }();
    return answer;
}

ReportPage page(const CheckAnswer& answer) { return ReportPage(check_report(answer)); }

ReportPage client(const CheckAnswer& answer) {
    return ReportPage(check_report(answer, {.audience = Audience::client}));
}

Fault fault(FaultKind kind) {
    Fault found;
    found.kind = kind;
    found.measured = 0.05;
    found.channel = FaultChannel::red;
    found.patch = "grey-50";
    found.other = "grey-60";
    return found;
}

TEST(CheckWords, EachVerdictSaysWhy) {
    struct Case {
        CheckVerdict verdict;
        CheckReason reason;
        const char *begins, *says, *mood, *owner;
    };
    const std::vector<Case> cases = {
        {CheckVerdict::pass, CheckReason::conformity, "Pass: ", "(grey-70), the gate 3.00.",
         "verdict done", "shows what it is meant to show."},
        {CheckVerdict::fail, CheckReason::conformity, "Fail: ", "; 4 are over it.", "verdict act",
         "doesn't yet show all"},
        {CheckVerdict::cannot_tell, CheckReason::conformity, "Can't tell: ",
         ": too near for these readings.", "verdict look", "can't tell on which side of the limit"},
        {CheckVerdict::read_again, CheckReason::doubtful_patches,
         "Read again: ", "; without readings that are in doubt it would pass.", "verdict look",
         "taken again before"},
        {CheckVerdict::read_again, CheckReason::instrument,
         "Read again: ", ", and that looks like the instrument, not the set.", "verdict look",
         "taken again before"},
        {CheckVerdict::read_again, CheckReason::correction, "Read again: ",
         ", as a correction of another set has it.", "verdict look", "taken again before"}};
    for (const Case& one : cases) {
        CheckAnswer answer = demo();
        answer.verdict = one.verdict;
        answer.reason = one.reason;
        answer.over_gate = 4;
        const std::string said = page(answer).words("answer-verdict");
        EXPECT_EQ(said.rfind(one.begins, 0), 0U) << said;
        EXPECT_TRUE(says(said, "the largest DE00 of 133 patches is 0.97 (grey-70), the gate 3.00"));
        EXPECT_EQ(page(answer).classes("answer-verdict"), one.mood);
        for (const Case& other : cases) {
            const bool same = &other == &one;
            if (same) {
                EXPECT_TRUE(says(said, other.says)) << said;
            } else if (std::string(other.says).size() > 30) {
                EXPECT_FALSE(says(said, other.says)) << said;
            }
        }
        EXPECT_TRUE(says(client(answer).words("screen-verdict"), one.owner));
    }
    CheckAnswer one = demo();
    one.verdict = CheckVerdict::fail;
    one.over_gate = 1;
    EXPECT_TRUE(says(page(one).words("answer-verdict"), "; 1 is over it."));
}

TEST(CheckWords, CausesBeyondThreeStandBelowAndWhatTheCorrectionDoesIsReadAgainFirst) {
    CheckAnswer answer = demo();
    answer.verdict = CheckVerdict::fail;
    answer.now.found.faults = {fault(FaultKind::white_off), fault(FaultKind::gamma_other),
                               fault(FaultKind::clipped), fault(FaultKind::drift)};
    answer.now.found.unexplained = 2;
    const std::string first = check_page(answer);
    EXPECT_TRUE(says(first, "White is off")) << first;
    EXPECT_TRUE(says(first, "Red is clipped")) << first;
    EXPECT_FALSE(says(first, "The light drifted")) << first;
    EXPECT_TRUE(says(check_page(answer, {100, Level::reason}), "The light drifted"));
    EXPECT_EQ(
        page(answer).words("answer-unexplained"),
        "2 patches of those are off in a way that no cause known here explains: see the table.");
    answer.now.found.unexplained = 1;
    EXPECT_EQ(page(answer).words("answer-unexplained").rfind("1 patch of those is off", 0), 0U);
    answer.now.found.faults.clear();
    answer.over_gate = 7;
    EXPECT_EQ(page(answer).words("answer-unexplained").rfind("7 patches of those are off", 0), 0U);
    answer.verdict = CheckVerdict::read_again;
    answer.reason = CheckReason::correction;
    answer.now.found.faults = {fault(FaultKind::white_off), fault(FaultKind::gamma_other)};
    const std::string again = check_page(answer);
    EXPECT_TRUE(says(again, "what is still off then is the set's own.")) << again;
    EXPECT_FALSE(says(again, "White is off")) << "it isn't set before it is read again: " << again;
    EXPECT_TRUE(says(again, "The curve is")) << again;
    EXPECT_FALSE(page(answer).has("answer-unexplained"));
    answer.reason = CheckReason::instrument;
    answer.now.found.faults = {fault(FaultKind::instrument_off), fault(FaultKind::gamma_other)};
    answer.corrected = true;
    EXPECT_TRUE(says(page(answer).words("answer-cause-1"),
                     "Read again with the correction for this very set, or without one."));
    answer.corrected = false;
    EXPECT_TRUE(
        says(page(answer).words("answer-cause-1"), "Name the correction for this very set"));
}

TEST(CheckWords, PatchesThatThePanelCannotShowAreCountedApart) {
    CheckAnswer answer = demo();
    answer.now.found.outside_gamut = {14, 16, 18, 20};
    GateAnswer inside;
    inside.largest = 1.234;
    const auto said = [&](GateVerdict verdict) {
        inside.verdict = verdict;
        answer.now.inside_gamut = inside;
        return page(answer).words("answer-gamut");
    };
    const auto name = [&](std::size_t k) { return answer.now.readings.points[k].shown.name; };
    EXPECT_EQ(said(GateVerdict::pass),
              "Outside: " + name(14) + ", " + name(16) + ", " + name(18) +
                  " and 1 more. Inside: 129 patches, largest DE00 1.23, which "
                  "passes.");
    EXPECT_TRUE(says(said(GateVerdict::fail), "which fails."));
    EXPECT_TRUE(says(said(GateVerdict::cannot_tell), "too near the gate to tell."));
    answer.now.found.outside_gamut = {14};
    EXPECT_EQ(said(GateVerdict::pass).rfind("Outside: " + name(14) + ". Inside: 132 patches", 0),
              0U);
}

TEST(CheckWords, WhatIsLeftOutAndSupposedIsSaid) {
    CheckAnswer answer = demo();
    for (const char* id : {"answer-mode", "answer-targets", "answer-compared"}) {
        EXPECT_FALSE(page(answer).has(id)) << id;
    }
    answer.now.readings.in_other_modes = 1;
    answer.now.readings.mode = "cinema";
    EXPECT_EQ(page(answer).words("answer-mode"),
              "Judged is mode cinema alone; 1 reading of other modes: --mode NAME.");
    answer.now.readings.in_other_modes = 12;
    answer.now.readings.mode.clear();
    EXPECT_EQ(page(answer).words("answer-mode"),
              "Judged is what names no mode alone; 12 readings of other modes: --mode NAME.");
    answer.now.without_target = 1;
    EXPECT_EQ(page(answer).words("answer-targets"),
              "1 reading has no target of its own and is left out.");
    answer.now.without_target = 3;
    EXPECT_EQ(page(answer).words("answer-targets"),
              "3 readings have no target of their own and are left out.");
    answer.white_supposed = true;
    answer.black_supposed = true;
    answer.now.readings.noise.from = ProofNoiseFrom::stated;
    const std::string sure = page(answer).words("answer-how-sure");
    EXPECT_TRUE(says(sure, "White wasn't read: 100 cd/m2 supposed.")) << sure;
    EXPECT_TRUE(says(sure, "Black wasn't read: 0 cd/m2 supposed.")) << sure;
    EXPECT_TRUE(says(sure, "Noise assumed (0.2 %)")) << sure;
    EXPECT_TRUE(says(sure, "No correction named.")) << sure;
    answer.corrected = true;
    EXPECT_FALSE(says(page(answer).words("answer-how-sure"), "No correction named."));
    answer.targets = "targets.csv (seen alike)";
    EXPECT_TRUE(says(page(answer).figure("answer-figures", "Judged by"),
                     "each patch by its own target of targets.csv (seen alike)"));
}

TEST(CheckWords, BeforeAndNowAreComparedByWhatBothHave) {
    CheckAnswer answer = demo();
    answer.shared->in_both = 40;
    answer.shared->only_now = 93;
    answer.shared->only_before = 2;
    answer.shared->before.back().de00.mean = 3.456;
    answer.shared->before.back().de00.largest = 9.876;
    answer.shared->now.back().de00.mean = 0.321;
    answer.shared->now.back().de00.largest = 1.5;
    EXPECT_EQ(page(answer).words("answer-compared"),
              "Before the work, by the 40 patches in both: DE00 3.46 on average, largest 9.88; now "
              "0.32 on average, largest 1.50. 93 are read now alone, 2 before alone.");
    EXPECT_FALSE(says(page(answer).figure("answer-figures", "DE00"), "before the work"));
    EXPECT_TRUE(says(client(answer).words("screen-shown"),
                     "Of the 40 that were measured before the work as well the average was off by "
                     "enough to be noticed (in the trade's measure 3.5, now 0.3)."))
        << client(answer).words("screen-shown");
    answer.shared->in_both = 0;
    EXPECT_TRUE(says(page(answer).words("answer-compared"), "have no patch in common"));
    EXPECT_FALSE(page(answer).has("groups-before"));
    EXPECT_EQ(page(answer).picture("groups-chart").key(),
              (std::vector<std::string>{"mean", "largest"}));
    EXPECT_FALSE(says(client(answer).words("screen-shown"), "the work as well"));
}

TEST(CheckWords, WhoeverOwnsTheDisplayHearsWhatIsLeft) {
    CheckAnswer answer = demo();
    MeasureSummary& all = answer.now.chosen.groups.back().de00;
    const std::vector<std::pair<double, const char*>> seen = {
        {0.9, "too little for anybody to see"},
        {1.9, "seen side by side at best"},
        {2.9, "few would notice it"},
        {3.1, "enough to be noticed"}};
    for (const auto& [de, words] : seen) {
        all.mean = de;
        EXPECT_TRUE(says(client(answer).words("screen-shown"), "On average they are off by ") &&
                    says(client(answer).words("screen-shown"), words))
            << de;
    }
    EXPECT_TRUE(says(client(answer).words("screen-white"), "call it off, by 5.0 in the trade's"));
    answer.now.found.faults = {fault(FaultKind::white_off),      fault(FaultKind::channel_gamma),
                               fault(FaultKind::channel_offset), fault(FaultKind::clipped),
                               fault(FaultKind::crushed),        fault(FaultKind::limiter)};
    EXPECT_FALSE(client(answer).has("screen-left")) << "it passes";
    answer.verdict = CheckVerdict::fail;
    const std::string left = client(answer).words("screen-left");
    EXPECT_TRUE(says(left, "White has a slight tint.")) << left;
    EXPECT_TRUE(says(left, "darkest details")) << left;
    EXPECT_FALSE(says(left, "dims itself")) << "four are enough: " << left;
    EXPECT_EQ(left.find("Some greys"), left.rfind("Some greys")) << "the same once: " << left;
}

TEST(CheckWords, TheScreenSaysWhereItIsDarkestAndWhetherTheTargetHolds) {
    CheckAnswer answer = demo();
    Uniformity& screen = answer.now.screen[0];
    EXPECT_TRUE(says(page(answer).words("answer-screen"), "the white target holds everywhere."));
    screen.largest_luminance = -0.123;
    screen.luminance_at = 2;
    screen.largest_duv = 0.0061;
    screen.duv_at = 3;
    screen.largest_target_duv = 0.0056;
    screen.target_at = 4;
    EXPECT_EQ(page(answer).words("answer-screen"),
              "Screen: up to -12 % (" + screen.positions[2].position + ") and 0.0061 in u'v' (" +
                  screen.positions[3].position +
                  ") from the centre; the white target is missed by "
                  "0.0056 at " +
                  screen.positions[4].position + ".");
}

}  // namespace
}  // namespace samelight::report::in_check_words
