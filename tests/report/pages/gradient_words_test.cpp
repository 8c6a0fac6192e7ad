// What is said of gradients in cases that are rare: by measurement and worked out, what to take back, what is lost. Answers are made by hand from that of
// the demo.
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "report/gradient/page/gradient_words.hpp"
#include "report/pages/report_page.hpp"
#include "samelight/assess/check/gradient.hpp"
#include "samelight/report/check/gradient_answer.hpp"

namespace samelight::report::in_gradient_words {
namespace {

using samelight::test::ReportPage;
using samelight::test::says;

const std::string proof = SAMELIGHT_DATA "/demo/proof/";

GradientAnswer demo() {
    static const GradientAnswer answer = [] {
        GradientRequest request;
        request.adjustment = proof + "client-set-adjustment.csv";
        request.readings = proof + "client-set-smooth-proof.csv";
        request.intent.curve = "power:2.4";
        return answer_gradient(request);
    }();
    return answer;
}

ReportPage page(const GradientAnswer& answer) { return ReportPage(gradient_report(answer)); }

std::string client(const GradientAnswer& answer) {
    return ReportPage(gradient_report(answer, {.audience = Audience::client}))
        .words("answer-verdict");
}

/// A ramp of greys, of whose steps one jumps.
GradientAnswer measured(StepVerdict verdict) {
    GradientAnswer answer = demo();
    answer.adjustment.reset();
    answer.verdict = verdict;
    answer.by_measurement = true;
    MeasuredStep step;
    step.from.signal = {0.5, 0.5, 0.5};
    step.to.signal = {0.51, 0.505, 0.51};
    step.from.xyz = {19.0, 20.0, 21.0};
    step.jump = 2.34;
    step.expanded = 0.56;
    step.judged = true;
    step.verdict = verdict;
    step.before.luminance = 0.8;
    step.after.luminance = 3.1;
    MeasuredFindings ramp;
    ramp.steps = {MeasuredStep{}, step};
    ramp.steps[0].reversed = true;
    ramp.steps[0].flat = true;
    ramp.worst = 1;
    ramp.unjudged = 1;
    ramp.reversals = 1;
    ramp.flat = 1;
    ramp.longest_flat = 1;
    ramp.verdict = verdict;
    assess::MeasuredGradients found;
    found.ramps = {ramp};
    found.noise = 0.0042;
    answer.measured = found;
    return answer;
}

TEST(GradientWords, WhatWasMeasuredSaysHowFarItJumps) {
    GradientAnswer answer = measured(StepVerdict::shows);
    EXPECT_EQ(
        page(answer).words("answer-verdict"),
        "It shows: one step of the measured ramp jumps by 2.3 +/- 0.6 visible steps more than "
        "its neighbours.");
    EXPECT_EQ(page(answer).classes("answer-verdict"), "verdict stop");
    EXPECT_EQ(page(answer).figure("answer-where", "Where"),
              "from 50.0 % to R 51.0 G 50.5 B 51.0 %; read as x 0.3167, y 0.3333, 20.0 cd/m2");
    EXPECT_TRUE(says(page(answer).words("answer-do"), "name the adjustment, --adjustment"));
    EXPECT_TRUE(says(page(answer).words("answer-how-sure"), "scatters by 0.42 %, assumed: repeat"));
    EXPECT_TRUE(says(page(answer).words("answer-how-sure"), "tell whose the jumps are"));
    EXPECT_TRUE(says(page(answer).words("answer-how-sure"), "1 of 2 steps isn't judged"));
    EXPECT_TRUE(says(client(answer), "may show stripes"));
    const auto rows = page(answer).table("measured-steps-1").rows;
    ASSERT_EQ(rows.size(), 2U);
    // What is judged comes first, the largest jump before the others.
    EXPECT_EQ(rows[0], (std::vector<std::string>{"50.0 50.0 50.0", "51.0 50.5 51.0", "0.8", "3.1",
                                                 "2.3", "0.6", "0.0000", "shows"}));
    EXPECT_EQ(rows[1].back(), "not judged, reversed, flat");
    EXPECT_EQ(page(answer).table("measured-steps-1").headings[2], "EXPECTED");
    EXPECT_EQ(page(answer).words("measured-ramp-1"),
              "Greys: 2 steps, 1 of them gone flat (1 in a row), 1 reversed.");
    answer.measured->before_measured = true;
    answer.measured->noise_known = true;
    answer.measured->ramps[0].unjudged = 0;
    EXPECT_TRUE(
        says(page(answer).words("answer-verdict"), "more than before: the adjustment made it."));
    EXPECT_EQ(page(answer).words("answer-how-sure"),
              "By measurement; one reading scatters by 0.42 %, from repeats.");
    EXPECT_EQ(page(answer).table("measured-steps-1").headings[2], "BEFORE");
}

TEST(GradientWords, WhatMeasuringCannotTellAsksForMoreReadings) {
    const GradientAnswer open = measured(StepVerdict::cannot_tell);
    EXPECT_EQ(page(open).words("answer-verdict").rfind("Can't tell: the largest jump is 2.3", 0),
              0U);
    EXPECT_EQ(page(open).classes("answer-verdict"), "verdict look");
    EXPECT_EQ(page(open).words("answer-do"),
              "Measure each code between those two, each five times.");
    EXPECT_TRUE(says(client(open), "couldn't be told"));
    EXPECT_EQ(page(open).table("measured-steps-1").rows[0].back(), "can't tell");
    const GradientAnswer smooth = measured(StepVerdict::does_not_show);
    EXPECT_TRUE(says(page(smooth).words("answer-verdict"), "no step of the measured ramp jumps"));
    EXPECT_TRUE(says(page(smooth).words("answer-verdict"), "(at most 2.3 +/- 0.6 visible steps)"));
    EXPECT_FALSE(page(smooth).has("answer-do")) << "there is nothing to do";
    EXPECT_FALSE(page(smooth).figure("answer-where", "Most").empty());
    EXPECT_TRUE(says(client(smooth), "adds no visible stripes"));
}

TEST(GradientWords, WhatIsWorkedOutSaysWhatWasThereBefore) {
    GradientAnswer answer = demo();
    RampFindings& ramp = answer.adjustment->ramps[answer.adjustment->worst];
    ramp.worst.before = {};
    ramp.worst.after = {};
    ramp.worst.before.colour = 1.4;
    ramp.worst.after.colour = 3.2;
    EXPECT_TRUE(says(page(answer).words("answer-verdict"),
                     "a jump of 3.2 visible steps at 10 bits; without it that step is 1.4."));
    ramp.worst.before.colour = 0.4;
    EXPECT_TRUE(says(page(answer).words("answer-verdict"), "without it none is seen there (0.4)."));
    ramp.kind = RampKind::grey;
    EXPECT_TRUE(says(page(answer).words("answer-verdict"), "3.2 visible steps of tint at 10 bits"));
    ramp.worst.made = false;
    ramp.worst.excess = 0.44;
    EXPECT_TRUE(says(page(answer).words("answer-verdict"),
                     "It doesn't show: the adjustment makes no visible step at 10 bits (it adds at "
                     "most 0.4 of a step"));
    EXPECT_TRUE(says(page(answer).words("answer-do"), "It is smooth, but the worst colour"));
    EXPECT_TRUE(says(page(answer).words("answer-do"), "adjust again."));
    answer.gate = 90.0;
    EXPECT_EQ(page(answer).words("answer-do").rfind("Leave it: the worst colour", 0), 0U);
}

TEST(GradientWords, WhatToTakeBackNamesEachPart) {
    GradientAnswer answer = demo();
    TradeOff& trade = answer.adjustment->trade;
    ASSERT_TRUE(trade.best() != nullptr);
    TradePoint best = *trade.best();
    trade.part_by_part.reset();
    const auto said = [&](const std::vector<double>& shares) {
        best.shares = shares;
        trade.mildest = best;
        return page(answer).words("answer-do");
    };
    EXPECT_EQ(
        said({0.35, 0.35, 0.35, 0.35, 0.35}).rfind("Take the whole adjustment back to 35 %:", 0),
        0U);
    EXPECT_EQ(said({0.0, 0.0, 0.0, 0.0, 0.0}).rfind("Leave the adjustment out:", 0), 0U);
    EXPECT_EQ(said({1.0, 1.0, 1.0, 1.0, 1.0}).rfind("Keep the adjustment as it is:", 0), 0U);
    // Gains of red and blue of -4 and -6 %, half of each; what stays whole isn't named.
    EXPECT_EQ(said({0.5, 0.5, 1.0, 1.0, 1.0})
                  .rfind("Take back gain of red to -2.0 %, gain of blue to -3.0 %: the worst", 0),
              0U)
        << said({0.5, 0.5, 1.0, 1.0, 1.0});
    EXPECT_TRUE(says(said({0.5, 0.5, 0.5, 0.5, 0.4}), " and 1 more (--details):"));
    EXPECT_TRUE(says(said({0.5, 0.5, 1.0, 1.0, 1.0}), "no step is made."));
    best.step.step.made = true;
    best.step.step.before = {};
    best.step.step.after = {};
    best.step.step.after.colour = 1.7;
    EXPECT_TRUE(says(said({0.5, 0.5, 1.0, 1.0, 1.0}),
                     "the largest jump is still 1.7 steps. No smoother one that keeps the gate"));
    trade.mildest.reset();
    EXPECT_TRUE(says(page(answer).words("answer-do"), "No part of this adjustment keeps the gate"));
    EXPECT_TRUE(says(page(answer).words("answer-do"), "Adjust otherwise."));
    EXPECT_FALSE(page(answer).has("controls-milder"));
    answer.colours.clear();
    EXPECT_TRUE(
        says(page(answer).words("answer-do"), "up to there no step is made. What that costs"));
}

TEST(GradientWords, LimitsNameTheFurthestFirst) {
    GradientAnswer answer = demo();
    auto& limits = answer.adjustment->limits;
    const DriveLimit shows = limits[3];
    ASSERT_TRUE(shows.beyond());
    for (const std::size_t k : {0U, 1U}) {
        limits[k].first = shows.first;
        limits[k].limit = (k == 0 ? 0.5 : 0.25) * limits[k].set;
    }
    // Shares of what is set: .5, .25 and .32; the furthest beyond its limit is the second.
    EXPECT_EQ(
        page(answer).words("answer-limits"),
        "Alone, gain of blue shows beyond -1.5 % (set -6.0 %); saturation of red shows beyond "
        "+32.1 % (set +100.0 %); 1 more.");
    for (DriveLimit& limit : limits) {
        limit.first.reset();
    }
    EXPECT_FALSE(page(answer).has("answer-limits"));
    for (assess::DepthFindings& depth : answer.adjustment->depths) {
        depth.longest_flat = 1;
    }
    EXPECT_TRUE(says(page(answer).words("answer-codes"), "none shown as one colour"));
    EXPECT_TRUE(
        says(page(answer).words("answer-codes"), "at 8 bits it shows; at 12 bits it doesn't"));
}

TEST(GradientWords, HuesAndLightsAreNamed) {
    EXPECT_EQ(hue_words(0.0), "red");
    EXPECT_EQ(hue_words(14.9), "red");
    EXPECT_EQ(hue_words(30.0), "between red and yellow");
    EXPECT_EQ(hue_words(46.0), "yellow");
    EXPECT_EQ(hue_words(330.0), "between magenta and red");
    EXPECT_EQ(hue_words(350.0), "red");
    EXPECT_EQ(hue_words(-60.0), "magenta");
    EXPECT_EQ(hue_words(480.0), "green");
    EXPECT_EQ(light_words({0.0, 0.0, 0.0}), "no light");
    EXPECT_EQ(light_words({0.19, 0.2, 0.21}), "x 0.3167, y 0.3333, 0.200 cd/m2");
    EXPECT_EQ(codes_words(std::array<int, 3>{7, 7, 7}), "code 7");
    EXPECT_EQ(codes_words(std::array<int, 3>{7, 8, 7}), "R 7 G 8 B 7");
    AdjustmentMove move;
    move.kind = MoveKind::point;
    move.level_pct = 30.0;
    move.channel = MoveChannel::all;
    EXPECT_EQ(control_words(move), "point at 30 %");
    move.channel = MoveChannel::green;
    EXPECT_EQ(control_words(move), "point at 30 % of green");
}

}  // namespace
}  // namespace samelight::report::in_gradient_words
