// What is said of HDR in cases that are rare: each verdict, each end of PQ, what wasn't read. Answers are made by hand from that of the demo.
#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "report/pages/report_page.hpp"
#include "samelight/assess/check/hdr.hpp"
#include "samelight/check/hdr/pq_tracking.hpp"
#include "samelight/report/check/hdr_answer.hpp"

namespace samelight::report::in_hdr_words {
namespace {

using assess::HdrMissing;
using assess::HdrVerdict;
using samelight::test::ReportPage;
using samelight::test::says;

HdrAnswer demo() {
    static const HdrAnswer answer = [] {
        HdrRequest request;
        request.readings.file = SAMELIGHT_DATA "/demo/proof/client-set-hdr.csv";
        request.white = "0.3127,0.3290";
        return answer_hdr(request);
    }();
    return answer;
}

ReportPage page(const HdrAnswer& answer) { return ReportPage(hdr_report(answer)); }

ReportPage client(const HdrAnswer& answer) {
    return ReportPage(hdr_report(answer, {.audience = Audience::client}));
}

TEST(HdrWords, EachVerdictHasItsOwn) {
    struct Case {
        HdrVerdict verdict;
        const char *words, *mood, *owner;
    };
    const std::vector<Case> cases = {
        {HdrVerdict::white_off, "White is off in HDR", "verdict act",
         "isn't the one that was chosen"},
        {HdrVerdict::pq_off, "PQ isn't followed", "verdict act",
         "darker or brighter than they are"},
        {HdrVerdict::white_moves, "White moves with the window", "verdict look",
         "changes its tint"},
        {HdrVerdict::holds, "As it should be", "verdict done", "does what it is meant to do"},
        {HdrVerdict::holds_in_part, "PQ is followed to the knee", "verdict look", "not all was"},
        {HdrVerdict::cannot_tell, "Can't tell", "verdict look", "Too little was measured"}};
    HdrAnswer answer = demo();
    answer.missing = {HdrMissing::windows};
    for (const Case& one : cases) {
        answer.verdict = one.verdict;
        EXPECT_EQ(page(answer).classes("answer-verdict"), one.mood);
        for (const Case& other : cases) {
            EXPECT_EQ(page(answer).words("answer-verdict").rfind(other.words, 0) == 0,
                      other.verdict == one.verdict)
                << page(answer).words("answer-verdict");
            EXPECT_EQ(says(client(answer).words("screen-holds"), other.owner),
                      other.verdict == one.verdict)
                << client(answer).words("screen-holds");
        }
    }
    answer.missing = {HdrMissing::windows, HdrMissing::greys};
    EXPECT_TRUE(says(page(answer).words("answer-verdict"),
                     "read full white in windows of 2, 10, 25, 50 and 100 %, and a ladder of greys "
                     "in PQ, 6 at least."));
    answer.verdict = HdrVerdict::holds_in_part;
    answer.tracking.reset();
    EXPECT_EQ(page(answer).words("answer-verdict").rfind("White holds in every window", 0), 0U);
}

TEST(HdrWords, TheEndOfPqSaysWhatFits) {
    HdrAnswer answer = demo();
    PqTracking& tracking = *answer.tracking;
    tracking.clip.peak_cd_m2 = 812.0;
    tracking.clip.residual_itp = 0.4;
    tracking.clip.knee_cd_m2 = 812.0;
    tracking.clip.knee_signal = 0.73;
    tracking.roll_off.peak_cd_m2 = 1039.0;
    tracking.roll_off.programme_cd_m2 = 4000.0;
    tracking.roll_off.residual_itp = 0.9;
    const auto pq = [&] { return page(answer).figure("answer-figures", "PQ"); };
    tracking.end = PqEnd::clip;
    EXPECT_EQ(pq(),
              "to 812 cd/m2 (73 % of the signal), then cut at 812 cd/m2 (fits to 0.4 DE ITP)");
    EXPECT_TRUE(says(page(answer).words("answer-advice"), "let the player tone-map to 812 cd/m2."));
    EXPECT_TRUE(says(client(answer).words("screen-end"), "shows as plain white"));
    tracking.end = PqEnd::either;
    EXPECT_TRUE(says(pq(),
                     "then cut at 812 cd/m2, or rolled off to 1039 cd/m2 as from a programme "
                     "of 4000 cd/m2: both fit (fits to 0.4 DE ITP)"))
        << pq();
    EXPECT_FALSE(client(answer).has("screen-end"));
    tracking.end = PqEnd::neither;
    EXPECT_TRUE(says(pq(), "neither a cut nor a roll-off of BT.2390 fits (0.4 DE ITP left)"));
    EXPECT_FALSE(says(page(answer).words("answer-advice"), "player")) << "nothing is known of it";
    tracking.end = PqEnd::roll_off;
    tracking.roll_off.residual_itp = 0.1;
    EXPECT_TRUE(says(page(answer).words("answer-advice"), "does it twice"));
    EXPECT_TRUE(says(client(answer).words("screen-end"), "should leave that to it"));
    // Where PQ isn't followed that is said once, with how far.
    tracking.tracking_itp = 7.31;
    tracking.worst_tracking_itp = 19.4;
    EXPECT_TRUE(says(pq(), "not followed, off by 7.3 DE ITP up to ")) << pq();
    EXPECT_TRUE(says(pq(), "at worst 19.4;")) << pq();
    EXPECT_TRUE(says(page(answer).figure("answer-figures", "Beyond that"), " at most,"));
}

TEST(HdrWords, WindowsSayTheirLimiterAndTheirWhite) {
    HdrAnswer answer = demo();
    answer.limiter->falls_at_pct.reset();
    answer.limiter->fall = 0.02;
    EXPECT_TRUE(says(page(answer).figure("answer-figures", "100 % window"),
                     "no limiter: no window is darker by more than 2 %"));
    EXPECT_FALSE(says(page(answer).words("answer-advice"), "windows of up to"));
    EXPECT_FALSE(says(client(answer).words("screen-peak"), "holds its light back"));
    answer = demo();
    EXPECT_TRUE(says(page(answer).words("answer-advice"),
                     "Read white and greys in windows of up to "
                     "10 %."));
    EXPECT_TRUE(
        says(client(answer).words("screen-peak"), "about 1,040 cd/m2 in small bright parts"))
        << client(answer).words("screen-peak");
    EXPECT_TRUE(says(client(answer).words("screen-peak"), "about 245 cd/m2 where a large part"))
        << client(answer).words("screen-peak");
    for (assess::HdrWhite& white : answer.whites) {
        white.readings = 1;
        white.fade.reset();
        white.sum_over_white = 0.97;
        white.xyz = {white.xyz[0] * 0.01, white.xyz[1] * 0.01, white.xyz[2] * 0.01};
    }
    EXPECT_EQ(page(answer).figure("answer-figures", "Peak"),
              "10.4 cd/m2 in a window of 10 %; read once");
    EXPECT_FALSE(says(page(answer).words("answer-figures"), "Fading"));
    EXPECT_EQ(page(answer).figure("answer-figures", "R + G + B"), "97 % of white in 1 %");
    EXPECT_FALSE(client(answer).has("screen-white-emitter"));
    EXPECT_TRUE(client(demo()).has("screen-white-emitter")) << "74 % of white";
    EXPECT_TRUE(says(client(answer).words("screen-peak"), "about 10 cd/m2"));
    answer.limiter->noise = 0.0;
    EXPECT_TRUE(says(page(answer).words("foundation-rests-on"), "No repeats: how steady"));
    answer.whites.resize(1);
    answer.whites[0].off_chosen_xy.reset();
    answer.reference = 0;
    answer.limiter.reset();
    EXPECT_FALSE(says(page(answer).figure("answer-figures", "White"), "moves by"));
    EXPECT_FALSE(says(page(answer).figure("answer-figures", "White"), "from the chosen white"));
}

TEST(HdrWords, WhyPqCannotBeToldIsCounted) {
    HdrAnswer answer = demo();
    answer.tracking.reset();
    answer.ladder.obstacle = NoPqTracking::few_greys;
    answer.ladder.greys.resize(4);
    answer.ladder.too_dark = 0;
    const auto said = [&] { return page(answer).words("answer-few-greys"); };
    EXPECT_TRUE(says(said(),
                     "4 greys were read of 0.05 cd/m2 or more, full white counted; 6 are "
                     "wanted"))
        << said();
    answer.ladder.too_dark = 2;
    EXPECT_TRUE(says(said(), "(and 2 darker)")) << said();
    answer.ladder.greys.resize(1);
    answer.ladder.greys[0].signal = 0.5;
    EXPECT_TRUE(says(said(), "1 grey was read of 0.05")) << said();
    answer.ladder.greys[0].signal = 1.0;
    EXPECT_TRUE(says(said(), "full white is the only grey that was read")) << said();
    answer.ladder.greys.clear();
    EXPECT_TRUE(says(said(), "no grey was read of 0.05")) << said();
    answer.ladder.obstacle = NoPqTracking::bright_black;
    answer.ladder.black_cd_m2 = 3.456;
    EXPECT_TRUE(says(said(), "black reads 3.46 cd/m2, too bright")) << said();
    answer.ladder.obstacle = NoPqTracking::beyond_pq;
    EXPECT_TRUE(says(said(), "above 10,000 cd/m2")) << said();
    EXPECT_FALSE(page(demo()).has("answer-few-greys"));
}

TEST(HdrWords, WindowsThatWereSupposedAreCounted) {
    HdrAnswer answer = demo();
    EXPECT_FALSE(page(answer).has("answer-windows-supposed"));
    answer.readings = 68;
    answer.windows_supposed = 1;
    EXPECT_EQ(page(answer).words("answer-windows-supposed"),
              "1 of 68 readings names no window_pct and is taken to be of a window of 10 %.");
    answer.windows_supposed = 20;
    EXPECT_EQ(page(answer).words("answer-windows-supposed"),
              "20 of 68 readings name no window_pct and are taken to be of a window of 10 %.");
    answer.windows_supposed = 68;
    EXPECT_TRUE(says(page(answer).words("answer-windows-supposed"), "The file has no window_pct"));
}

}  // namespace
}  // namespace samelight::report::in_hdr_words
