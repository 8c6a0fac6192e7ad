// What is said of two visits in cases that are rare: each verdict's own words, which way light and white went, how long what holds. Answers are made by
// hand from that of the demo.
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "report/pages/report_page.hpp"
#include "samelight/assess/check/compare.hpp"
#include "samelight/check/visits/ageing.hpp"
#include "samelight/check/visits/target_life.hpp"
#include "samelight/check/visits/visit_steps.hpp"
#include "samelight/report/check/compare_answer.hpp"

namespace samelight::report::in_compare_words {
namespace {

using assess::CompareVerdict;
using assess::CorrectionState;
using samelight::test::ReportPage;
using samelight::test::says;

const std::string proof = SAMELIGHT_DATA "/demo/proof/";

ComparePage demo() {
    static const ComparePage answer = [] {
        CompareTyped typed;
        typed.then = proof + "client-set-then.csv";
        typed.now = proof + "client-set-now-year.csv";
        typed.months = 12.0;
        return answer_compare(typed);
    }();
    return answer;
}

std::string words(const ComparePage& answer, const std::string& id) {
    return ReportPage(compare_report(answer)).words(id);
}

std::string client(const ComparePage& answer, const std::string& id) {
    return ReportPage(compare_report(answer, {.audience = Audience::client})).words(id);
}

ComparePage judged(CompareVerdict verdict, double distance) {
    ComparePage answer = demo();
    answer.verdict = verdict;
    answer.life.distance_now = {distance, 0.9 * distance, 1.1 * distance};
    return answer;
}

TEST(CompareWords, EachVerdictSaysHowFarWhiteIsFromWhere) {
    const ComparePage leave = judged(CompareVerdict::leave, 0.001);
    EXPECT_EQ(words(leave, "answer-verdict"),
              "Leave the white as it is: it is 0.0010 (0.0009 to 0.0011) in u', v' from where it "
              "was then, less than 0.0030.");
    ComparePage again = judged(CompareVerdict::read_again, 0.003);
    again.target_named = true;
    EXPECT_EQ(words(again, "answer-verdict"),
              "Read the white again before you touch it: it is 0.0030 (0.0027 to 0.0033) in u', v' "
              "from its target, too near 0.0030 to tell.");
    const ComparePage set = judged(CompareVerdict::set_white, 0.005);
    EXPECT_TRUE(says(words(set, "answer-verdict"), "Set the white again: it is 0.0050"));
    EXPECT_TRUE(says(words(set, "answer-verdict"), "more than 0.0030."));
    const ComparePage first = judged(CompareVerdict::correct_first, 0.005);
    EXPECT_TRUE(says(words(first, "answer-verdict"), "Make the correction again first:"));
    EXPECT_TRUE(says(words(first, "answer-verdict"), "can't be trusted until then."));
    EXPECT_FALSE(ReportPage(compare_report(first)).has("answer-life"))
        << "how long white stays isn't known by a meter that isn't trusted";
    EXPECT_TRUE(says(client(leave, "answer-verdict"), "still shows its white as it was set"));
    EXPECT_TRUE(says(client(leave, "answer-verdict"), "in 12 months than matters"));
    EXPECT_TRUE(says(client(set, "answer-verdict"), "further than it should, and is set again"));
    EXPECT_TRUE(says(client(again, "answer-verdict"), "so little that it is measured once more"));
    EXPECT_TRUE(says(client(first, "answer-verdict"), "Our meter is put right first,"));
}

ComparePage with_light(CompareVerdict verdict, double factor, assess::LightOwner owner) {
    ComparePage answer = judged(verdict, 0.001);
    answer.light.changed = true;
    answer.light.owner = owner;
    answer.light.log_luminance = {std::log(factor), 0.01};
    return answer;
}

TEST(CompareWords, LightThatChangedComesFirstAndSaysWhichWay) {
    const ComparePage less =
        with_light(CompareVerdict::see_to_light, 0.8, assess::LightOwner::display);
    // 20 per cent less; the doubt of the logarithm times what is left.
    EXPECT_EQ(
        words(less, "answer-verdict"),
        "White's light fell by 20.0 % (± 0.8): see to backlight, brightness and energy saving "
        "(it is the display's, not the meter's). Leave its colour: it is 0.0010 (0.0009 to "
        "0.0011) in u', v' from where it was then, less than 0.0030.");
    EXPECT_TRUE(says(client(less, "answer-verdict"),
                     "gives 20 % less light than when it was set "
                     "in 12 months. Its settings are looked at"));
    const ComparePage more =
        with_light(CompareVerdict::set_white, 1.25, assess::LightOwner::either);
    EXPECT_TRUE(says(words(more, "answer-verdict"),
                     "White's light rose by 25.0 % (± 1.2), and its colour moved: ") ||
                says(words(more, "answer-verdict"),
                     "White's light rose by 25.0 % (± 1.3), and its colour moved: "))
        << words(more, "answer-verdict");
    EXPECT_TRUE(says(words(more, "answer-verdict"),
                     "read another light to know that it isn't the "
                     "meter; then set the white again"));
    EXPECT_TRUE(says(client(more, "answer-verdict"), "25 % more light"));
    EXPECT_TRUE(says(client(more, "answer-verdict"), "Its settings, and our meter, are looked at"));
    const ComparePage wrong =
        with_light(CompareVerdict::correct_first, 0.7, assess::LightOwner::either);
    EXPECT_TRUE(says(words(wrong, "answer-verdict"), "fell by 30.0 %"));
    EXPECT_TRUE(says(words(wrong, "answer-verdict"), "and the correction doesn't hold: "));
    EXPECT_TRUE(says(words(wrong, "answer-verdict"), "then make the correction again"));
    ComparePage near = less;
    near.life.distance_now = {0.0029, 0.0027, 0.0031};
    EXPECT_TRUE(says(words(near, "answer-verdict"), "too near 0.0030 to tell before that."));
}

TEST(CompareWords, EmittersAreToldMostFirst) {
    ComparePage answer = demo();
    answer.ageing.aged = {0, 2};
    answer.ageing.best = 1;
    answer.ageing.emitters[0].against_best = {std::log(0.97), 0.005};
    answer.ageing.emitters[2].against_best = {std::log(0.90), 0.005};
    EXPECT_EQ(words(answer, "answer-emitters"),
              "Blue lost 10.0 % (± 0.5), red 3.0 % (± 0.5) of its light against green, which kept "
              "most, unless controls were moved between the visits.");
    EXPECT_TRUE(says(client(answer, "answer-emitters"),
                     "red has lost about 3 %, blue has lost about "
                     "10 % of its light"));
    answer.ageing.aged.clear();
    answer.ageing.emitters[0].against_best.doubt = 0.008;
    EXPECT_EQ(words(answer, "answer-emitters"),
              "No emitter lost light against the others, as far as 0.8 % can be told.");
    EXPECT_TRUE(says(client(answer, "answer-emitters"), "have kept their light alike"));
}

TEST(CompareWords, WhatIsCommonIsToldFromNothing) {
    ComparePage answer = demo();
    answer.ageing.common = {std::log(0.96), 0.01};
    EXPECT_TRUE(says(words(answer, "answer-common"), "all three read darker by 4.0 % (± 1.0)"));
    answer.ageing.common = {std::log(1.05), 0.01};
    EXPECT_TRUE(says(words(answer, "answer-common"), "all three read brighter by 5.0 %"));
    answer.ageing.common = {std::log(1.005), 0.01};
    EXPECT_TRUE(says(words(answer, "answer-common"), "can't tell from nothing"));
    MeterApart apart;
    apart.meter_log_luminance = {std::log(0.94), 0.01};
    answer.ageing.by_spectra = apart;
    EXPECT_TRUE(
        says(words(answer, "answer-common"), "the meter reads less light than then by 6.0 %"));
    answer.ageing.by_spectra->meter_log_luminance = {std::log(1.03), 0.01};
    EXPECT_TRUE(
        says(words(answer, "answer-common"), "the meter reads more light than then by 3.0 %"));
    EXPECT_TRUE(says(words(answer, "answer-common"), "that is the meter's, not the display's"));
    const auto parts = ReportPage(compare_report(answer)).table("answer-white").rows;
    ASSERT_EQ(parts.size(), 2U);
    EXPECT_EQ(parts[0][0], "by the display (by the spectra)");
    EXPECT_EQ(parts[1][0], "by the meter (by the spectra)");
    answer.ageing.by_spectra.reset();
    answer.ageing.by_corrections = apart;
    EXPECT_EQ(ReportPage(compare_report(answer)).table("answer-white").rows[1][0],
              "by the meter (by the two corrections)");
}

TEST(CompareWords, OdditiesAreEachToldOnce) {
    ComparePage answer = demo();
    answer.ageing.findings.clear();
    EXPECT_FALSE(ReportPage(compare_report(answer)).has("answer-odd"));
    answer.ageing.channels = {Change{0.012, 0.001}, Change{-0.034, 0.001}};
    answer.ageing.findings = {AgeingFinding::channels};
    EXPECT_TRUE(says(words(answer, "answer-odd"), "X +1.2 % and Z -3.4 % against Y."));
    answer.ageing.additivity_then = 1.003;
    answer.ageing.additivity = {-0.1, 0.01};
    answer.ageing.findings = {AgeingFinding::spectra, AgeingFinding::sum};
    const std::string said = words(answer, "answer-odd");
    EXPECT_TRUE(says(said, "their spectra changed, a colour control was moved")) << said;
    EXPECT_TRUE(says(said, "together are 100.3 % of white then and 90.3 % now")) << said;
    EXPECT_FALSE(says(said, "channels drift:")) << said;
    answer.ageing.parts.known = false;
    EXPECT_TRUE(ReportPage(compare_report(answer)).has("answer-sum"));
    EXPECT_EQ(ReportPage(compare_report(answer)).table("answer-white").rows.size(), 2U)
        << "the emitters' part means nothing there";
}

TEST(CompareWords, TheCorrectionsStateIsSaid) {
    ComparePage answer = demo();
    MeterApart apart;
    apart.meter = {Change{0.0021, 0.0002}, Change{-0.0013, 0.0002}};
    answer.ageing.by_corrections = apart;
    const std::vector<std::pair<CorrectionState, const char*>> cases = {
        {CorrectionState::none, "No correction was named"},
        {CorrectionState::holds, "still holds: the primaries' x, y stand where they stood"},
        {CorrectionState::make_again, "doesn't hold any longer: read the primaries with both"},
        {CorrectionState::both_hold, "The correction of then would still do"},
        {CorrectionState::first_expired,
         "use the new one: between them white moved x +0.0021, y "
         "-0.0013, which is the meter's."}};
    for (const auto& [state, said] : cases) {
        answer.correction = state;
        for (const auto& [other, its] : cases) {
            EXPECT_EQ(says(words(answer, "answer-correction"), its), state == other)
                << words(answer, "answer-correction");
        }
    }
    answer.correction = CorrectionState::holds;
    answer.ageing.by_spectra = apart;
    EXPECT_TRUE(says(words(answer, "answer-correction"), "by the spectra the meter reads"));
}

TEST(CompareWords, HowLongIsSaidWithItsRange) {
    ComparePage answer = judged(CompareVerdict::leave, 0.001);
    answer.life.months = Horizon{7.4, 4.2, 14.0};
    EXPECT_EQ(words(answer, "answer-life"),
              "At this pace white stays within 0.0030 for about 7 months (4 to 14) more.");
    EXPECT_TRUE(says(client(answer, "answer-next"), "measured again within 4 months."));
    answer.life.months = Horizon{7.4, 1.2, {}};
    EXPECT_TRUE(says(words(answer, "answer-life"), "about 7 months (1 to no end in sight)"));
    EXPECT_TRUE(says(client(answer, "answer-next"), "within 1 month."));
    answer.life.months = Horizon{{}, 30.0, {}};
    EXPECT_TRUE(says(words(answer, "answer-life"),
                     "years, as far as can be told (30 months to no end in sight)"));
    answer.life.months = Horizon{1.2, 0.4, 5.0};
    EXPECT_TRUE(says(words(answer, "answer-life"), "for about 1 month (0 to 5) more."));
    EXPECT_EQ(client(answer, "answer-next"), "It should be measured again soon.");
    answer.life.months.reset();
    answer.life.spans = Horizon{0.62, 0.5, 0.7};
    EXPECT_EQ(
        words(answer, "answer-life"),
        "At this pace white stays within 0.0030 for about 0.6 times as long as lay between the "
        "visits (0.5 to 0.7) more. --months, what lay between, says it in months.");
    answer.life.spans = Horizon{{}, 3.0, {}};
    EXPECT_TRUE(says(words(answer, "answer-life"), "many times as long as lay between the visits"));
}

TEST(CompareWords, ThePaceIsSaidWithBothItsEnds) {
    ComparePage answer = judged(CompareVerdict::leave, 0.001);
    answer.life.rate_per_year = LikelyRange{0.00123, 0.00061, 0.00187};
    EXPECT_TRUE(says(words(answer, "figures-rate"),
                     "White moves 0.0012 in u', v' a year (0.0006 to 0.0019);"))
        << words(answer, "figures-rate");
    answer.life.rate_per_year.reset();
    EXPECT_FALSE(ReportPage(compare_report(answer)).has("figures-rate"));
}

TEST(CompareWords, HowLongTheCorrectionDoesIsSaidAsFarAsItIsKnown) {
    ComparePage answer = judged(CompareVerdict::leave, 0.001);
    EXPECT_FALSE(ReportPage(compare_report(answer)).has("answer-correction-life"));
    assess::CorrectionLife life;
    life.months = Horizon{9.0, 6.0, 20.0};
    const auto said = [&] {
        answer.correction_life = life;
        return words(answer, "answer-correction-life");
    };
    EXPECT_EQ(said(), "The correction does, at this pace, for about 9 months (6 to 20) more.");
    life.of_now = true;
    life.months = Horizon{9.0, 6.0, {}};
    EXPECT_EQ(said(), "Today's correction does, at this pace, for at least 6 months more.");
    life.months = Horizon{9.0, 1.3, {}};
    EXPECT_TRUE(says(said(), "for at least 1 month more."));
    life.months = Horizon{{}, {}, {}};
    EXPECT_TRUE(says(said(), "longer than anybody can say"));
    life.months = Horizon{5.0, 0.5, {}};
    EXPECT_TRUE(says(said(), "How long today's correction will do, these readings can't say"));
    life.months.reset();
    life.of_now = false;
    life.spans = Horizon{2.0, 0.5, {}};
    EXPECT_TRUE(says(said(), "for at least 0.5 times the span between the visits more"));
    life.spans = Horizon{2.0, 0.05, {}};
    EXPECT_TRUE(says(said(), "How long the correction will do, these readings can't say"));
}

TEST(CompareWords, WhatIsKnownOfTheScatterIsSaid) {
    ComparePage answer = demo();
    EXPECT_TRUE(says(words(answer, "foundation-how-sure"), "from repeats with 16 degrees"));
    answer.ageing.scatter.stated = true;
    EXPECT_TRUE(
        says(words(answer, "foundation-how-sure"), "supposed: read each light three times"));
    answer.months_between = 11.96;
    EXPECT_TRUE(says(words(answer, "foundation-files"), ", 12 months later."));
    answer.moved_nm = {{0.25, -0.1, 1.5}};
    const auto lights = ReportPage(compare_report(answer)).table("figures-lights");
    EXPECT_EQ(lights.headings.back(), "MIDDLE MOVED, nm");
    EXPECT_EQ(lights.rows[0].back(), "+0.25");
    EXPECT_EQ(lights.rows[1].back(), "-0.10");
    EXPECT_EQ(lights.rows[2].back(), "+1.50");
    answer.today.clear();
    EXPECT_EQ(words(answer, "answer-today"), "Today there is nothing more to do.");
}

}  // namespace
}  // namespace samelight::report::in_compare_words
