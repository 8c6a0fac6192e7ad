// What viewers see of a white, the white that suits them best, and whether to move it at all.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/meter/selection/choose.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/kernels_batch.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/door.hpp"
#include "samelight/white/advice.hpp"
#include "samelight/white/compromise.hpp"
#include "samelight/white/household.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/opposed.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

namespace samelight {
namespace {

using Xy = Chromaticity<Cie1931_2deg>;

Reference household_tube() {
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
        const Target target = white_target(panel, household_tube(), cone_observer(person));
        const WhiteJudge judge(panel, household_tube(), std::vector{person});
        const SeenDifference seen = judge.seen(target.xy).front();
        EXPECT_LT(seen.uv, 1e-9);
        EXPECT_LT(seen.de00, 1e-6);
        EXPECT_GT(judge.seen({target.xy.x(), target.xy.y() + 0.01}).front().de00, 1.0);
        EXPECT_NEAR((judge.reference_xy() - household_tube().xy()).distance(), 0.0, 1e-12);
    }
}

TEST(WhiteJudge, LooksAndDifferencesAreTheSameThing) {
    const std::vector<Individual> people = {{aged(30.0), {}}, {aged(70.0), {}}};
    const WhiteJudge judge(oled(), household_tube(), people);
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
    EXPECT_THROW(WhiteJudge(oled(), household_tube(), std::vector<Individual>{}), Error);
    const WhiteJudge judge(oled(), household_tube(), std::vector{Individual{aged(40.0), {}}});
    EXPECT_THROW(static_cast<void>(judge.seen({0.05, 0.05})), Error);
}

TEST(Household, OneViewersCompromiseIsTheirOwnTarget) {
    const Household home =
        judge_household(oled(), household_tube(), {viewer("A", 45.0)}, household_tube().xy());
    EXPECT_EQ(home.compromise().xy, home.targets[0].xy);
    EXPECT_LT(home.compromise().largest_uv(), 1e-9);
    EXPECT_LT((home.candidates[1].xy - home.targets[0].xy).distance(), 1e-12);
    EXPECT_EQ(home.disagreement[0][0], 0.0);
}

/// The largest distance that anyone sees at the best place of a grid of 81 x 81 points, `step` apart, about `about`.
double least_on_grid(const WhiteJudge& judge, const Xy& about, double step) {
    double least = 1.0;
    for (int i = -40; i <= 40; ++i) {
        for (int j = -40; j <= 40; ++j) {
            double worst = 0.0;
            for (const SeenDifference& s :
                 judge.seen({about.x() + step * i, about.y() + step * j}, false)) {
                worst = std::max(worst, s.uv);
            }
            least = std::min(least, worst);
        }
    }
    return least;
}

// Second route: grids about the answer, .006 wide and .00002 wide, hold nothing better. Two viewers have a kink for a valley, on
// which a search in fixed directions stops; lasers have it sharpest.
TEST(Household, NoOtherWhiteSuitsTheWorstOffBetter) {
    const auto expect_best = [](const char* panel_name, const std::vector<double>& ages) {
        const Panel panel = generic_panel(generic_model(panel_name));
        std::vector<Viewer> viewers;
        std::vector<Individual> people;
        for (const double age : ages) {
            viewers.push_back(viewer("A", age));
            people.push_back(viewers.back().eye.likeliest);
        }
        const Household home =
            judge_household(panel, household_tube(), viewers, household_tube().xy());
        const WhiteJudge judge(panel, household_tube(), people);
        const double reached = home.compromise().largest_uv();
        for (const double step : {7.5e-5, 2.5e-7}) {
            EXPECT_GE(least_on_grid(judge, home.compromise().xy, step), reached - 1e-8)
                << panel_name << ages.size() << " " << step;
        }
        EXPECT_LE(reached, home.candidates[0].largest_uv());
        EXPECT_LE(reached, home.candidates[1].largest_uv());
        return reached;
    };
    EXPECT_LT(expect_best("oled-rgb", {25.0, 65.0}), 0.005375);
    EXPECT_LT(expect_best("laser-rgb", {20.0, 50.0, 80.0}), 0.018606);
    expect_best("oled-rgb", {25.0, 45.0, 70.0});
    expect_best("laser-rgb", {25.0, 65.0});
    expect_best("oled-white", {20.0, 33.0, 50.0, 80.0});
}

// A white as it stands that is the reference itself: everybody's target is that white, whatever their eyes, and from there every
// match is one to it.
TEST(Household, StartsFromTheWhiteAsItStands) {
    const Panel panel = oled();
    const Reference as_set = display_reference(panel, {0.305, 0.320});
    HouseholdOptions options;
    options.base.now = as_set.light;
    const std::vector<Viewer> viewers = {viewer("A", 25.0), viewer("B", 65.0)};
    const Household home = judge_household(panel, as_set, viewers, as_set.xy(), options);
    for (std::size_t i = 0; i < viewers.size(); ++i) {
        EXPECT_LT((home.targets[i].xy - as_set.xy()).distance(), 1e-9);
        EXPECT_LT(home.targets[i].covariance[0] + home.targets[i].covariance[3], 1e-16);
        for (const CandidateWhite& candidate : home.candidates) {
            EXPECT_LT(candidate.seen[i].uv, 1e-7) << candidate.name;
        }
    }
    EXPECT_EQ(home.disagreement[0][1], 0.0);
    // Second route: white_target() from the same white, where that is another light than the panel's own primaries make.
    const Panel set = generic_panel(generic_model("lcd-white-led"));
    const SampledLight other{set.sampling(), set_white(set, {0.305, 0.320}).light, 0.0};
    options.base.now = other;
    TargetOptions from;
    from.now = other;
    const Household moved =
        judge_household(panel, household_tube(), viewers, {0.305, 0.320}, options);
    for (std::size_t i = 0; i < viewers.size(); ++i) {
        const Target own =
            white_target(panel, household_tube(), cone_observer(viewers[i].eye.likeliest), from);
        EXPECT_LT((moved.targets[i].xy - own.xy).distance(), 1e-9);
    }
}

TEST(Household, RulesMakeSmallWhatTheySay) {
    const std::vector<Individual> people = {
        {aged(25.0), {}}, {aged(27.0), {}}, {aged(29.0), {}}, {aged(75.0), {}}};
    const WhiteJudge judge(oled(), household_tube(), people);
    const Xy start = white_target(oled(), household_tube(), cone_observer(people[1])).xy;
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

/// Second route to the probability within a circle: along the narrow axis instead of the wide one, by 40,000 midpoints.
double within_by_other_axis(double radius, const Eigen::Vector2d& m, double narrow, double wide) {
    constexpr int points = 40000;
    const double low = std::max(-radius, m[0] - 9.0 * narrow);
    const double high = std::min(radius, m[0] + 9.0 * narrow);
    if (high <= low) {
        return 0.0;
    }
    const double from = std::asin(low / radius);
    const double to = std::asin(high / radius);
    double sum = 0.0;
    for (int i = 0; i < points; ++i) {
        const double angle = from + (to - from) * (i + 0.5) / points;
        const double at = radius * std::sin(angle);
        const double half = radius * std::cos(angle);
        const double z = (at - m[0]) / narrow;
        sum += half * std::exp(-0.5 * z * z) *
               (std::erf((half - m[1]) / (wide * std::sqrt(2.0))) +
                std::erf((half + m[1]) / (wide * std::sqrt(2.0))));
    }
    return sum * 0.5 * (to - from) / points / (narrow * std::sqrt(2.0 * std::numbers::pi));
}

TEST(Household, ProbabilityWithinACircleIsWithinItsBound) {
    double worst = 0.0;
    for (const double wide : {0.003, 0.1, 1.0, 3.0, 30.0}) {
        for (const double ratio : {1.0, 0.3, 0.02, 0.001}) {
            for (const double x : {0.0, 0.4, 0.999, 1.0, 1.7}) {
                for (const double y : {0.0, 0.6, 1.2}) {
                    Eigen::Matrix2d covariance = Eigen::Matrix2d::Zero();
                    covariance(0, 0) = wide * ratio * wide * ratio;
                    covariance(1, 1) = wide * wide;
                    const Eigen::Vector2d mean(x, y);
                    const double error =
                        std::abs(detail::probability_within(1.0, mean, covariance) -
                                 within_by_other_axis(1.0, mean, wide * ratio, wide));
                    worst = std::max(worst, error);
                    EXPECT_LT(error, 1e-9) << wide << " " << ratio << " " << x << " " << y;
                }
            }
        }
    }
    std::printf("probability within a circle: worst difference %.2e\n", worst);
    // From outside: for equal spreads about the centre it is the distribution of Rayleigh, 1 - exp(-r^2 / 2 sd^2).
    for (const double sd : {1e-6, 0.01, 0.5, 2.0}) {
        const Eigen::Matrix2d covariance = Eigen::Matrix2d::Identity() * sd * sd;
        EXPECT_NEAR(detail::probability_within(1.0, Eigen::Vector2d::Zero(), covariance),
                    1.0 - std::exp(-0.5 / (sd * sd)), 1e-12);
    }
    // A line: what lies within the chord.
    Eigen::Matrix2d line = Eigen::Matrix2d::Zero();
    line(1, 1) = 1.0;
    EXPECT_NEAR(detail::probability_within(1.0, {0.6, 0.0}, line), std::erf(0.8 / std::sqrt(2.0)),
                1e-9);
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
    return WhiteJudge(oled(), household_tube(),
                      std::vector{Individual{aged(25.0), {}}, Individual{aged(30.0), {}},
                                  Individual{aged(70.0), {}}});
}

TEST(Advice, MovesWhereItHelpsMostAndCanBeRead) {
    const Xy target = white_target(oled(), household_tube(), cone_observer({aged(28.0), {}})).xy;
    const Advice advice = advise(young_and_old(), {target, household_tube().xy(), 0.0005});
    EXPECT_EQ(advice.verdict, Verdict::move);
    EXPECT_GT(advice.helped, 0.5);
    EXPECT_EQ(advice.white, target);
    EXPECT_EQ(advice.reason,
              "it brings the white nearer to the reference: for a typical viewer from " +
                  to_text(advice.sight.before, 4) + " to " + to_text(advice.sight.after, 4) +
                  " u'v' away; of 100 viewers 67 see it nearer, 33 further, 0 no difference.");
    EXPECT_GT(advice.sight.gain(), uv_step_radius);
    // The same move for a household: whoever is worst off, C, would be worse off still.
    const Advice named =
        advise(young_and_old(), {target, household_tube().xy(), 0.0005, {}, {"A", "B", "C"}});
    EXPECT_EQ(named.verdict, Verdict::leave);
    EXPECT_EQ(named.reason, "moving it would not help whoever is worst off.");
}

// A household goes by the largest difference that anyone sees, as its compromise does; nobody has a veto for what nobody can see.
TEST(Advice, OfAHouseholdGoesByWhoeverIsWorstOff) {
    const WhiteJudge judge(oled(), household_tube(),
                           std::vector{Individual{aged(25.0), {}}, Individual{aged(55.0), {}}});
    const Xy young = white_target(oled(), household_tube(), cone_observer({aged(25.0), {}})).xy;
    const Xy older = white_target(oled(), household_tube(), cone_observer({aged(55.0), {}})).xy;
    // From near the older viewer's white some way towards the younger one's.
    const Xy stands = older;
    const Xy target(0.6 * older.x() + 0.4 * young.x(), 0.6 * older.y() + 0.4 * young.y());
    const auto before = judge.seen(stands);
    const auto after = judge.seen(target);
    ASSERT_GT(before[0].uv, after[0].uv + uv_step_radius);
    ASSERT_LT(before[1].uv, after[1].uv);
    ASSERT_GT(before[0].uv, after[1].uv + uv_step_radius);
    const Advice advice = advise(judge, {target, stands, 0.0005, {}, {"A", "B"}});
    EXPECT_EQ(advice.verdict, Verdict::move);
    EXPECT_EQ(
        advice.reason,
        "it brings the white nearer to the reference for viewer A, at the cost of viewer B (from " +
            to_text(largest_uv(before), 4) + " to " + to_text(largest_uv(after), 4) +
            " u'v' away for whoever is worst off).");
    // A gain that nobody sees is none.
    const Xy nearly(0.95 * older.x() + 0.05 * young.x(), 0.95 * older.y() + 0.05 * young.y());
    const Advice little = advise(judge, {nearly, stands, 1e-5, {}, {"A", "B"}});
    EXPECT_EQ(little.verdict, Verdict::leave);
    EXPECT_NE(little.reason.find("too little to see"), std::string::npos) << little.reason;
}

TEST(Advice, SaysHalvesSoThatTheyFitTheVerdict) {
    EXPECT_EQ(detail::share_of_viewers(0.5), "half of the viewers");
    EXPECT_EQ(detail::share_of_viewers(0.501), "just over half of the viewers");
    EXPECT_EQ(detail::share_of_viewers(0.499), "just under half of the viewers");
    EXPECT_EQ(detail::share_of_viewers(0.51), "51 in 100 viewers");
    EXPECT_EQ(detail::share_of_viewers(0.9999), "99 in 100 viewers");
    EXPECT_EQ(detail::share_of_viewers(1.0), "100 in 100 viewers");
}

TEST(Advice, LeavesWhatTheInstrumentCannotTell) {
    const Advice advice = advise(young_and_old(), {{0.3125, 0.3288}, {0.3127, 0.3290}, 0.0005});
    EXPECT_EQ(advice.verdict, Verdict::leave);
    EXPECT_NE(advice.reason.find("less than the instrument can tell"), std::string::npos);
}

TEST(Advice, LeavesWhatWouldHelpFew) {
    // Away from everyone's white.
    const Advice advice = advise(young_and_old(), {{0.325, 0.350}, {0.3060, 0.3185}, 0.0005});
    EXPECT_EQ(advice.verdict, Verdict::leave);
    EXPECT_LE(advice.helped, 0.5);
}

// Any two that pull opposite ways, whether or not one of them is what would be dialled in, and however little that would move.
TEST(Advice, AsksTheEyesWhereAnyTwoPullOppositeWays) {
    const Xy stands(0.310, 0.322);
    const NamedTarget low{"viewer A", {0.306, 0.318}};
    const NamedTarget lower{"viewer B", {0.305, 0.319}};
    const NamedTarget high{"viewer C", {0.313, 0.326}};
    const auto verdict = [&](const Xy& target, const std::vector<NamedTarget>& pulls) {
        return advise(young_and_old(), {target, stands, 0.0005, {pulls}});
    };
    const Advice between = verdict(stands, {low, lower, high});
    EXPECT_EQ(between.verdict, Verdict::ask_the_eyes);
    EXPECT_EQ(between.reason.rfind("viewers B and C pull it opposite ways", 0), 0U)
        << between.reason;
    EXPECT_EQ(verdict({0.306, 0.318}, {low, high}).verdict, Verdict::ask_the_eyes);
    // Those that pull the same way don't, nor does a pull that the instrument can't tell.
    const auto opposite = [&](const std::vector<NamedTarget>& pulls) {
        return verdict({0.306, 0.318}, pulls).reason.find("opposite ways") != std::string::npos;
    };
    EXPECT_TRUE(opposite({low, high}));
    EXPECT_FALSE(opposite({low, lower}));
    EXPECT_FALSE(opposite({low, {"viewer C", {0.3105, 0.3226}}}));
    // Nor one that nobody can see: 0.0010 in u', v', though the instrument can tell 0.0014 in x, y.
    const Xy content(0.3110, 0.3230);
    ASSERT_GT((content - stands).distance(), 0.001);
    ASSERT_LT((uv1976(content) - uv1976(stands)).distance(), uv_step_radius);
    EXPECT_FALSE(opposite({low, {"viewer C", content}}));
}

// Where the page warns that two observers pull opposite ways the verdict isn't to move: both go by one rule.
TEST(Advice, ThePagesWarningAndTheVerdictAgree) {
    const std::vector<Observer> fields = {standard_observer<Cie2015_2deg>(),
                                          standard_observer<Cie2015_10deg>()};
    int opposed = 0;
    for (const GenericModel& model : generic_models()) {
        const Panel panel = generic_panel(model);
        for (const Xy& stands : {Xy(0.3127, 0.3290), Xy(0.309, 0.322), Xy(0.306, 0.318)}) {
            TargetOptions options;
            options.now = SampledLight{panel.sampling(), set_white(panel, stands).light, 0.0};
            const PanelTargets answer = white_targets(panel, household_tube(), fields, options);
            std::vector<NamedTarget> pulls;
            for (const Target& target : answer.targets) {
                pulls.push_back({target.observer_title, target.xy});
            }
            const WhiteJudge judge(panel, household_tube(), std::vector{Individual{aged(40.0), {}}},
                                   {options.now});
            const Advice advice =
                advise(judge, {answer.targets.front().xy, stands, 0.0005, {pulls}});
            const bool warned =
                std::any_of(answer.warnings.begin(), answer.warnings.end(),
                            [](const Warning& w) { return w.code == "observers_opposed"; });
            if (warned) {
                EXPECT_EQ(advice.verdict, Verdict::ask_the_eyes) << model.name();
            }
            opposed += warned ? 1 : 0;
        }
    }
    EXPECT_GT(opposed, 2);
}

}  // namespace
}  // namespace samelight
