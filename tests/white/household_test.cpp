// What viewers see of a white, the white that suits them best, and whether to move it at all.
#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/display/generic_panel.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/white/advice.hpp"
#include "samelight/white/household.hpp"
#include "samelight/white/target.hpp"

namespace samelight {
namespace {

using Xy = Chromaticity<Cie1931_2deg>;

Reference tube() {
    return display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
}

Panel oled() { return generic_panel(generic_model("oled-rgb")); }

ConeConditions aged(double years, double field = 2.0) {
    return {years, field, Pupil::small, PeakDensities::three_decimals};
}

Viewer viewer(const char* name, double years) { return {name, eye_of_age(aged(years))}; }

TEST(WhiteJudge, APersonSeesNothingBetweenTheirOwnTargetAndTheReference) {
    const Panel panel = oled();
    for (const double age : {25.0, 65.0}) {
        const Individual person{aged(age), {}};
        const Target target = white_target(panel, tube(), cone_observer(person));
        const WhiteJudge judge(panel, tube(), std::vector{person});
        const SeenDifference seen = judge.seen(target.xy).front();
        EXPECT_LT(seen.uv, 1e-9);
        EXPECT_LT(seen.de00, 1e-6);
        EXPECT_GT(judge.seen({target.xy.x(), target.xy.y() + 0.01}).front().de00, 1.0);
        EXPECT_NEAR((judge.reference_xy() - tube().xy()).distance(), 0.0, 1e-12);
    }
}

TEST(WhiteJudge, LooksAndDifferencesAreTheSameThing) {
    const std::vector<Individual> people = {{aged(30.0), {}}, {aged(70.0), {}}};
    const WhiteJudge judge(oled(), tube(), people);
    const Xy setting(0.310, 0.322);
    const auto shown = judge.looks(setting);
    const auto wanted = judge.reference_looks();
    const auto seen = judge.seen(setting, false);
    for (std::size_t i = 0; i < people.size(); ++i) {
        EXPECT_NEAR(std::hypot(shown[i][0] - wanted[i][0], shown[i][1] - wanted[i][1]), seen[i].uv,
                    1e-15);
        EXPECT_TRUE(std::isnan(seen[i].de00));
    }
}

TEST(WhiteJudge, RefusesNobodyAndWhatCannotBeShown) {
    EXPECT_THROW(WhiteJudge(oled(), tube(), std::vector<Individual>{}), Error);
    const WhiteJudge judge(oled(), tube(), std::vector{Individual{aged(40.0), {}}});
    EXPECT_THROW(static_cast<void>(judge.seen({0.05, 0.05})), Error);
}

TEST(Household, OneViewersCompromiseIsTheirOwnTarget) {
    const Household home = judge_household(oled(), tube(), {viewer("A", 45.0)}, tube().xy());
    EXPECT_LT((home.candidates[2].xy - home.targets[0].xy).distance(), 3e-6);
    EXPECT_LT((home.candidates[1].xy - home.targets[0].xy).distance(), 1e-12);
    EXPECT_EQ(home.disagreement[0][0], 0.0);
}

// Second route: a fine grid about the answer holds nothing better.
TEST(Household, NoNeighbouringWhiteSuitsTheWorstOffBetter) {
    const std::vector<Viewer> viewers = {viewer("A", 25.0), viewer("B", 45.0), viewer("C", 70.0)};
    const Household home = judge_household(oled(), tube(), viewers, tube().xy());
    std::vector<Individual> people;
    for (const Viewer& v : viewers) {
        people.push_back(v.eye.likeliest);
    }
    const WhiteJudge judge(oled(), tube(), people);
    const CandidateWhite& best = home.candidates[2];
    double least = 1.0;
    for (int i = -20; i <= 20; ++i) {
        for (int j = -20; j <= 20; ++j) {
            double worst = 0.0;
            for (const SeenDifference& s :
                 judge.seen({best.xy.x() + 2e-4 * i, best.xy.y() + 2e-4 * j}, false)) {
                worst = std::max(worst, s.uv);
            }
            least = std::min(least, worst);
        }
    }
    EXPECT_GE(least, best.largest_uv() - 1e-7);
    EXPECT_LE(best.largest_uv(), home.candidates[0].largest_uv());
    EXPECT_LE(best.largest_uv(), home.candidates[1].largest_uv());
}

TEST(Household, RulesMakeSmallWhatTheySay) {
    const std::vector<Individual> people = {
        {aged(25.0), {}}, {aged(27.0), {}}, {aged(29.0), {}}, {aged(75.0), {}}};
    const WhiteJudge judge(oled(), tube(), people);
    const Xy start = white_target(oled(), tube(), cone_observer(people[1])).xy;
    const auto figures = [&](Compromise rule) {
        std::vector<double> uv;
        for (const SeenDifference& s : judge.seen(compromise_white(judge, start, rule), false)) {
            uv.push_back(s.uv);
        }
        return std::pair(mean(uv), *std::max_element(uv.begin(), uv.end()));
    };
    const auto [mean_by_mean, largest_by_mean] = figures(Compromise::mean);
    const auto [mean_by_largest, largest_by_largest] = figures(Compromise::largest);
    EXPECT_LT(mean_by_mean, mean_by_largest);
    EXPECT_LT(largest_by_largest, largest_by_mean);
}

// Second route: a simulation of two normal clouds.
TEST(Household, DisagreementIsTheProbabilityThatASimulationFinds) {
    const PredictedTarget a{{0.3100, 0.3200}, {9e-6, 3e-6, 3e-6, 2.5e-5}};
    const PredictedTarget b{{0.3130, 0.3260}, {4e-6, 0.0, 0.0, 1.6e-5}};
    std::mt19937_64 words(7);
    std::normal_distribution<double> normal;
    const auto draw = [&](const PredictedTarget& t) {
        const double l11 = std::sqrt(t.covariance[0]);
        const double l21 = t.covariance[1] / l11;
        const double l22 = std::sqrt(t.covariance[3] - l21 * l21);
        const double z1 = normal(words);
        const double z2 = normal(words);
        return uv1976(Xy(t.xy.x() + l11 * z1, t.xy.y() + l21 * z1 + l22 * z2));
    };
    constexpr int trials = 200000;
    int apart = 0;
    for (int i = 0; i < trials; ++i) {
        apart += (draw(a) - draw(b)).distance() > 0.004 ? 1 : 0;
    }
    const double share = static_cast<double>(apart) / trials;
    // Four standard errors of the simulation, and as much again for u'v' not being quite linear in x, y.
    EXPECT_NEAR(disagreement(a, b, 0.004), share, 0.008);
    EXPECT_EQ(disagreement(a, {a.xy, {}}, 10.0), 0.0);
    const PredictedTarget sure{{0.31, 0.32}, {}};
    EXPECT_EQ(disagreement(sure, {{0.33, 0.32}, {}}, 0.004), 1.0);
    EXPECT_EQ(disagreement(sure, sure, 0.004), 0.0);
}

WhiteJudge young_and_old() {
    return WhiteJudge(oled(), tube(),
                      std::vector{Individual{aged(25.0), {}}, Individual{aged(30.0), {}},
                                  Individual{aged(70.0), {}}});
}

TEST(Advice, MovesWhereItHelpsMostAndCanBeRead) {
    const Xy target = white_target(oled(), tube(), cone_observer({aged(28.0), {}})).xy;
    const Advice advice = advise(young_and_old(), {target, tube().xy(), 0.0005, {}, ""});
    EXPECT_EQ(advice.verdict, Verdict::move);
    EXPECT_GT(advice.helped, 0.5);
    EXPECT_FALSE(advice.reason.empty());
}

TEST(Advice, LeavesWhatTheInstrumentCannotTell) {
    const Advice advice =
        advise(young_and_old(), {{0.3125, 0.3288}, {0.3127, 0.3290}, 0.0005, {}, ""});
    EXPECT_EQ(advice.verdict, Verdict::leave);
    EXPECT_NE(advice.reason.find("less than the instrument can tell"), std::string::npos);
}

TEST(Advice, LeavesWhatWouldHelpFew) {
    // Away from everyone's white.
    const Advice advice =
        advise(young_and_old(), {{0.325, 0.350}, {0.3060, 0.3185}, 0.0005, {}, ""});
    EXPECT_EQ(advice.verdict, Verdict::leave);
    EXPECT_LE(advice.helped, 0.5);
}

TEST(Advice, AsksTheEyesWhereOthersPullTheOtherWay) {
    const Xy stands(0.310, 0.322);
    const Advice advice = advise(
        young_and_old(), {{0.306, 0.318}, stands, 0.0005, {{0.313, 0.326}}, "a large white"});
    EXPECT_EQ(advice.verdict, Verdict::ask_the_eyes);
    EXPECT_NE(advice.reason.find("a large white"), std::string::npos);
    // Another that pulls the same way doesn't.
    EXPECT_NE(
        advise(young_and_old(), {{0.306, 0.318}, stands, 0.0005, {{0.305, 0.319}}, "it"}).verdict,
        Verdict::ask_the_eyes);
}

}  // namespace
}  // namespace samelight
