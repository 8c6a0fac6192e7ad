// What a page says of white and greys to be set in cases that are rare: each verdict's own words, which way light goes, what isn't known. Answers are
// made by hand from that of the demo.
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "report/pages/report_page.hpp"
#include "samelight/assess/check/adjust.hpp"
#include "samelight/check/adjusting/control.hpp"
#include "samelight/check/adjusting/point_plan.hpp"
#include "samelight/report/check/adjust_answer.hpp"

namespace samelight::report::in_adjust_words {
namespace {

using assess::AdjustVerdict;
using samelight::test::ReportPage;
using samelight::test::says;

const std::string proof = SAMELIGHT_DATA "/demo/proof/";

AdjustAnswer demo() {
    static const AdjustAnswer answer = [] {
        AdjustRequest request;
        request.greys.file = proof + "client-set-greys.csv";
        request.controls = proof + "client-set-controls.csv";
        request.points = "20,50,80";
        request.intent.white = "0.3091,0.3199";
        request.intent.curve = "power:2.4";
        return answer_adjust(request);
    }();
    return answer;
}

ReportPage page(const AdjustAnswer& answer) { return ReportPage(adjust_report(answer)); }

ReportPage client(const AdjustAnswer& answer) {
    return ReportPage(adjust_report(answer, {.audience = Audience::client}));
}

void keep_all(AdjustAnswer& answer) {
    for (PlannedStep& step : answer.plan.steps) {
        step.steps = 0;
    }
}

TEST(AdjustWords, EachVerdictBeginsItsOwnWay) {
    AdjustAnswer answer = demo();
    ASSERT_EQ(answer.verdict, AdjustVerdict::set);
    EXPECT_EQ(page(answer).words("answer-verdict").rfind("Set red gain +4, ", 0), 0U)
        << page(answer).words("answer-verdict");
    EXPECT_EQ(page(answer).classes("answer-verdict"), "verdict act");
    answer.verdict = AdjustVerdict::set_roughly;
    EXPECT_EQ(page(answer).words("answer-verdict").rfind("Try red gain +4, ", 0), 0U);
    answer.verdict = AdjustVerdict::leave;
    EXPECT_EQ(page(answer).words("answer-verdict").rfind("Nothing to set", 0), 0U);
    EXPECT_EQ(page(answer).classes("answer-verdict"), "verdict leave");
    EXPECT_FALSE(page(answer).has("answer-next")) << "nothing to set, nothing to run again";
    EXPECT_FALSE(page(answer).has("answer-moved"));
    answer.verdict = AdjustVerdict::no_answer;
    EXPECT_EQ(page(answer).words("answer-verdict").rfind("Nothing can be set", 0), 0U);
    EXPECT_EQ(page(answer).classes("answer-verdict"), "verdict stop");
    EXPECT_FALSE(page(answer).has("answer-next"));
    answer = demo();
    keep_all(answer);
    EXPECT_EQ(page(answer).words("answer-verdict"), "Set the points below; gain and offset stay.");
    answer.points.clear();
    EXPECT_EQ(page(answer).words("answer-verdict"), "Set nothing: the menu's end is reached.");
}

TEST(AdjustWords, WhatLiesBeyondTheMenuNamesTheControlsAtTheirEnd) {
    AdjustAnswer answer = demo();
    EXPECT_FALSE(page(answer).has("answer-out-of-reach"));
    answer.verdict = AdjustVerdict::out_of_reach;
    answer.plan.out_of_reach_xy = 0.00714;
    answer.plan.steps[0].at_end = true;
    answer.plan.steps[0].wanted = 27.6;
    answer.plan.steps[2].at_end = true;
    answer.plan.steps[2].wanted = -41.2;
    const std::string said = page(answer).words("answer-out-of-reach");
    EXPECT_TRUE(says(said, "ends 0.0071 in x, y short of the white")) << said;
    EXPECT_TRUE(says(said, "red gain (+28 wanted), blue gain (-41 wanted)")) << said;
    EXPECT_FALSE(says(said, "green gain")) << said;
    EXPECT_TRUE(says(said, "another colour temperature")) << said;
}

TEST(AdjustWords, ControlsWithoutAnAnswerAreNamedTogether) {
    AdjustAnswer answer = demo();
    EXPECT_FALSE(page(answer).has("answer-no-answer"));
    const Control red{ControlChannel::red, ControlKind::gain};
    const Control green{ControlChannel::green, ControlKind::offset};
    const Control blue{ControlChannel::blue, ControlKind::gain};
    const std::vector<std::pair<std::vector<Control>, const char*>> cases = {
        {{red}, "Red gain doesn't answer: is the mode locked? It isn't moved"},
        {{red, green}, "Red gain and green offset don't answer: is the mode locked? They aren't "},
        {{red, green, blue}, "Red gain, green offset and blue gain don't answer"}};
    for (const auto& [controls, words] : cases) {
        answer.no_answer = controls;
        EXPECT_TRUE(says(page(answer).words("answer-no-answer"), words))
            << page(answer).words("answer-no-answer");
        EXPECT_TRUE(client(answer).has("screen-no-answer"));
    }
    // Where none answers that is the verdict, once.
    answer.verdict = AdjustVerdict::no_answer;
    EXPECT_FALSE(page(answer).has("answer-no-answer"));
    EXPECT_FALSE(client(answer).has("screen-no-answer"));
}

TEST(AdjustWords, LightSaysWhichWayItGoes) {
    AdjustAnswer answer = demo();
    for (const auto& [ratio, words, owner] :
         {std::tuple{0.93, "7.0 % less than now", "It becomes 7 % darker by that"},
          {1.042, "4.2 % more than now", "It becomes 4 % brighter by that"},
          {1.0002, "as now", "It stays as bright as it is."}}) {
        answer.plan.luminance_ratio = ratio;
        EXPECT_TRUE(says(page(answer).figure("answer-figures", "Light then"), words)) << ratio;
        EXPECT_TRUE(says(client(answer).words("screen-light"), owner))
            << client(answer).words("screen-light");
    }
    keep_all(answer);
    EXPECT_FALSE(client(answer).has("screen-light")) << "nothing is set, so nothing changes";
}

TEST(AdjustWords, PointsSayTheirStepsOrWhyNot) {
    AdjustAnswer answer = demo();
    ASSERT_EQ(answer.points.size(), 3U);
    const auto said = [&] { return page(answer).words("answer-points"); };
    for (PlannedPoint& point : answer.points) {
        point.need = PointNeed::not_needed;
    }
    EXPECT_EQ(said(), "No point is needed. Within 0.0015 without: 20, 50, 80 %.");
    answer.points[0].need = PointNeed::needed;
    answer.points[0].steps = {-1, 0, 4};
    answer.points[1].need = PointNeed::needed;
    answer.points[1].steps = {};
    answer.points[1].at_end = true;
    answer.points[2].need = PointNeed::too_dark;
    EXPECT_EQ(said(),
              "Points: 20 %: red -1, blue +4; 50 %: no whole step helps (the menu's end). "
              "Too dark to tell: 80 %.");
    const auto rows = page(answer).table("controls-points").rows;
    EXPECT_EQ(rows[0][1], "needed");
    EXPECT_EQ(rows[0][2], "-1");
    EXPECT_EQ(rows[0][4], "4");
    EXPECT_EQ(rows[2][1], "too dark");
    EXPECT_EQ(rows[2][5], "") << "what is too dark has no figure";
    answer.points[0].need = PointNeed::unsure;
    answer.points[1].need = PointNeed::not_read;
    EXPECT_EQ(said(),
              "No point is known to be needed yet. Can't tell yet, read again first: 20 %. "
              "Too dark to tell: 80 %. No greys around: 50 %.");
    EXPECT_EQ(page(answer).table("controls-points").rows[1][1], "no greys around");
}

TEST(AdjustWords, WhatIsNotKnownIsSaid) {
    AdjustAnswer answer = demo();
    const auto unknown = [&] {
        const ReportPage shown = page(answer);
        return shown.has("answer-unknown") ? shown.words("answer-unknown") : "";
    };
    EXPECT_EQ(unknown(), "");
    answer.counted_from_greys = true;
    EXPECT_TRUE(says(unknown(), "can't serve the next pass")) << unknown();
    EXPECT_TRUE(says(page(answer).words("answer-next"), "run this once more."))
        << "not with the same controls";
    EXPECT_FALSE(page(answer).has("answer-moved"));
    answer.points[0].need = PointNeed::needed;
    EXPECT_TRUE(says(unknown(), "the points' steps are a first try")) << unknown();
    answer.point_controls_read = true;
    EXPECT_FALSE(says(unknown(), "first try"));
    answer = demo();
    answer.controls_read = false;
    EXPECT_TRUE(says(unknown(), "1.1 % of a channel's light")) << unknown();
    EXPECT_TRUE(says(unknown(), "(--controls)"));
    answer = demo();
    answer.moved_then.clear();
    EXPECT_TRUE(says(page(answer).words("answer-next"), "with the same controls."));
    EXPECT_FALSE(page(answer).has("answer-moved"));
}

TEST(AdjustWords, WhatItRestsOnIsCounted) {
    AdjustAnswer answer = demo();
    const auto rests = [&] { return page(answer).words("foundation-rests-on"); };
    const std::string plain = rests();
    EXPECT_TRUE(says(plain, "(" + std::to_string(answer.noise.repeats) + " repeats)"));
    for (const char* words :
         {"no repeats", "one level alone", "50 steps", "left out", "no black"}) {
        EXPECT_FALSE(says(plain, words)) << words << ": " << plain;
    }
    answer.noise.repeats = 0;
    answer.black_read = false;
    answer.left_out = 7;
    answer.corrected = true;
    answer.replies[0].levels.resize(1);
    answer.replies[1].least.reset();
    const std::string said = rests();
    for (const char* words :
         {"no repeats: readings are taken to scatter by 0.3 %.", "no black read", ", corrected,",
          "Some were read at one level alone", "50 steps are taken to be possible",
          "7 readings are no greys and left out"}) {
        EXPECT_TRUE(says(said, words)) << words << ": " << said;
    }
    // A limit that isn't known is a question mark in the table.
    EXPECT_EQ(page(answer).table("controls-steps").rows[1][5].substr(0, 5), "? to ");
}

TEST(AdjustWords, WhoeverOwnsTheDisplayIsToldHowFarItIsOff) {
    AdjustAnswer answer = demo();
    answer.plan.greys.back().off_read = 0.0071;
    answer.plan.greys.back().off_after = 0.0019;
    const auto set = [&] { return client(answer).words("screen-set"); };
    EXPECT_TRUE(says(set(),
                     "off by what can be seen now; once the menu's colour controls are set "
                     "it is off by less than can be seen"))
        << set();
    answer.plan.greys.back().off_read = 0.004;
    EXPECT_TRUE(says(set(), "off by what is seen side by side now")) << set();
    answer.verdict = AdjustVerdict::out_of_reach;
    answer.plan.greys.back().off_after = 0.0031;
    EXPECT_TRUE(says(set(),
                     "don't go far enough: after setting them it is off by what is seen "
                     "side by side"))
        << set();
    answer.verdict = AdjustVerdict::no_answer;
    EXPECT_TRUE(says(set(), "do nothing in the mode that was measured")) << set();
    EXPECT_FALSE(says(client(answer).words("screen-greys"), "then")) << "nothing will be set";
    answer.verdict = AdjustVerdict::leave;
    EXPECT_TRUE(says(set(), "Nothing is changed.")) << set();
    EXPECT_TRUE(client(answer).has("screen-chosen"));
    answer.white_chosen = false;
    EXPECT_FALSE(client(answer).has("screen-chosen"));
}

TEST(AdjustWords, TheWorstGreyIsNamedButWhiteAndWhatIsTooDark) {
    AdjustAnswer answer = demo();
    for (PlannedGrey& grey : answer.plan.greys) {
        grey.off_after = 0.001;
        grey.off_read = 0.002;
    }
    answer.plan.greys.front().off_after = 0.5;
    answer.plan.greys.front().too_dark = true;
    answer.plan.greys.back().off_after = 0.4;
    answer.plan.greys[4].off_after = 0.0033;
    answer.plan.greys[4].doubt = {0.0004, 0.0009, 0.0};
    answer.plan.greys[5].off_read = 0.0088;
    const auto level = [&](std::size_t k) {
        return std::to_string(static_cast<int>(100.0 * answer.plan.greys[k].level + 0.5)) + " %";
    };
    EXPECT_EQ(page(answer).figure("answer-figures", "Greys then"),
              "off by 0.0033 at worst (" + level(4) + ", give or take 0.0009); now 0.0088 (" +
                  level(5) + ")");
}

}  // namespace
}  // namespace samelight::report::in_adjust_words
