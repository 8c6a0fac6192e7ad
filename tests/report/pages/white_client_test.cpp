// What whoever owns a display is told of its white, verdict by verdict: what was set, what it costs in light, what may still be seen. Answers are made by
// hand from that of the demo.
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "report/pages/report_page.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/report/white_answer.hpp"
#include "samelight/white/people.hpp"

namespace samelight::report::in_white_client {
namespace {

using samelight::test::ReportPage;
using samelight::test::says;

const std::string demo = SAMELIGHT_DATA "/demo/";

WhiteAnswer asked(const std::vector<std::string>& viewers) {
    WhiteRequest request;
    request.panels = {demo + "client-set.csv"};
    request.reference = "crt@0.3127,0.3290";
    request.viewers = viewers;
    request.people = 128;
    return answer_white(request);
}

WhiteAnswer alone() {
    static const WhiteAnswer answer = asked({});
    return answer;
}

WhiteAnswer household() {
    static const WhiteAnswer answer = asked({"45:4", "62:10"});
    return answer;
}

ReportPage client(const WhiteAnswer& answer) {
    return ReportPage(white_report(answer, {.audience = Audience::client}));
}

std::string done(const WhiteAnswer& answer) { return client(answer).words("display-1-done"); }

void judge(WhiteAnswer& answer, Verdict verdict, AdviceReason reason) {
    answer.panels[0].advice->verdict = verdict;
    answer.panels[0].advice->reason = reason;
}

TEST(WhiteForTheOwner, EachVerdictIsSaidInItsOwnWords) {
    WhiteAnswer answer = alone();
    judge(answer, Verdict::move, AdviceReason::nearer);
    const std::string number = "x " + to_text(answer.panels[0].dialled().xy.x(), 4) + ", y " +
                               to_text(answer.panels[0].dialled().xy.y(), 4);
    EXPECT_EQ(done(answer),
              "The white of this screen is to look like the reference "
              "(crt@0.3127,0.3290): the meter then reads " +
                  number + ".");
    EXPECT_EQ(client(answer).words("display-1-number"),
              "The reference's own number is x 0.3127, y 0.3290.");
    EXPECT_TRUE(client(answer).has("numbers-why")) << "another number than the reference's";
    judge(answer, Verdict::ask_the_eyes, AdviceReason::opposed);
    EXPECT_TRUE(says(done(answer), "is to be set by eye, side by side with the reference"));
    EXPECT_TRUE(says(done(answer), number + " is where to begin."));
    judge(answer, Verdict::leave, AdviceReason::too_little);
    EXPECT_TRUE(says(done(answer),
                     "stays at the reference's own number, x 0.3127, y 0.3290: moving "
                     "it would bring nothing"));
    EXPECT_FALSE(client(answer).has("display-1-number"));
    EXPECT_FALSE(client(answer).has("display-1-light")) << "what isn't moved costs no light";
    EXPECT_FALSE(client(answer).has("numbers-why"));
    answer.panels[0].as_it_stands = true;
    EXPECT_TRUE(says(done(answer), "The white of this screen stays as it is: moving it"));
    judge(answer, Verdict::leave, AdviceReason::column_misread);
    EXPECT_TRUE(
        says(done(answer), "is left alone for now: the measurements contradict each other"));
    EXPECT_FALSE(client(answer).has("display-1-people")) << "what may be seen isn't known yet";
    answer.reference.name = "D65";
    judge(answer, Verdict::ask_the_eyes, AdviceReason::opposed);
    EXPECT_TRUE(says(done(answer), "side by side with daylight, the white that programmes are"));
}

TEST(WhiteForTheOwner, WhatItCostsInLightIsRounded) {
    WhiteAnswer answer = alone();
    judge(answer, Verdict::move, AdviceReason::nearer);
    Target& target = answer.panels[0].targets.targets.front();
    target.luminance_ratio = 0.927;
    EXPECT_EQ(client(answer).words("display-1-light"),
              "This takes about 7 % of the light of the screen's brightest white.");
    answer.panels[0].as_it_stands = true;
    EXPECT_TRUE(
        says(client(answer).words("display-1-light"), "the light of the white as it stood"));
    target.luminance_ratio = 0.996;
    EXPECT_TRUE(says(client(answer).words("display-1-light"), "This takes next to nothing of"));
    target.luminance_ratio.reset();
    EXPECT_FALSE(client(answer).has("display-1-light"));
}

TEST(WhiteForTheOwner, ViewersHearWhatTheyMayStillSee) {
    WhiteAnswer answer = household();
    judge(answer, Verdict::move, AdviceReason::nearer);
    CandidateWhite& white = answer.panels[0].viewer_group->people.candidates.back();
    white.expected[0].de00 = 0.6;
    white.expected[0].de00_low = 0.1;
    white.expected[0].de00_high = 1.5;
    white.expected[1].de00 = 3.4;
    white.expected[1].de00_low = 1.2;
    white.expected[1].de00_high = 5.0;
    const std::string people = client(answer).words("display-1-people");
    EXPECT_TRUE(says(people, "Viewer A, in their forties: most likely no difference.")) << people;
    EXPECT_TRUE(says(people, "Viewer B, in their sixties: a difference side by side")) << people;
    EXPECT_TRUE(
        says(client(answer).words("display-1-people-lead"), "Then each viewer may still see"));
    white.expected[0].de00_high = 3.2;
    EXPECT_TRUE(says(client(answer).words("display-1-people"),
                     "Viewer A, in their forties: anything from no difference to a clear one"));
    judge(answer, Verdict::ask_the_eyes, AdviceReason::opposed);
    EXPECT_TRUE(says(client(answer).words("display-1-people-lead"), "At the start each viewer"));
    // The ends of the formula stand for younger and older people, whose decade isn't known.
    answer.viewers[0].eye.likeliest.conditions.age_years = 80.0;
    answer.viewers[1].age_known = false;
    EXPECT_TRUE(says(client(answer).words("display-1-people"), "Viewer A: "));
    EXPECT_TRUE(says(client(answer).words("display-1-people"), "Viewer B: "));
}

TEST(WhiteForTheOwner, DoubtAboutTheMeasurementIsTold) {
    WhiteAnswer answer = alone();
    EXPECT_FALSE(client(answer).has("display-1-doubtful"));
    for (const char* code : {"sampling_coarse", "noisy", "clipped"}) {
        answer.panels[0].targets.warnings = {Warning{code}};
        EXPECT_TRUE(client(answer).has("display-1-doubtful")) << code;
    }
    answer.panels[0].targets.warnings = {Warning{"negative_noise"}};
    EXPECT_FALSE(client(answer).has("display-1-doubtful"));
}

TEST(WhiteForTheOwner, AScreenThatCannotShowItSaysItsNearest) {
    WhiteRequest request;
    request.panels = {demo + "client-set.csv"};
    request.reference = "laser-rgb@0.20,0.62";
    request.people = 64;
    const WhiteAnswer answer = answer_white(request);
    ASSERT_TRUE(answer.panels[0].dialled().outside.has_value());
    const auto nearest = answer.panels[0].dialled().outside->nearest;
    EXPECT_EQ(done(answer),
              "This screen can't show a white that looks like the reference "
              "(laser-rgb@0.2000,0.6200). The nearest that it can show reads x " +
                  to_text(nearest.x(), 4) + ", y " + to_text(nearest.y(), 4) + ".");
    for (const char* id : {"display-1-number", "display-1-people", "display-1-light"}) {
        EXPECT_FALSE(client(answer).has(id)) << id;
    }
}

}  // namespace
}  // namespace samelight::report::in_white_client
