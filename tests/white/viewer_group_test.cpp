// What viewers see of a white, and the white that suits them best.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/compromise.hpp"
#include "samelight/white/eye_match.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/viewer_group.hpp"
#include "white/viewer_group_people.hpp"

namespace samelight {
namespace {

using Xy = Chromaticity<Cie1931_2deg>;

using test::aged;
using test::oled;
using test::viewer;
using test::viewer_group_tube;

TEST(WhiteJudge, APersonSeesNothingBetweenTheirOwnTargetAndTheReference) {
    const Panel panel = oled();
    for (const double age : {25.0, 65.0}) {
        const Individual person{aged(age), {}};
        const Target target = white_target(panel, viewer_group_tube(), cone_observer(person));
        const WhiteJudge judge(panel, viewer_group_tube(), std::vector{person});
        const SeenDifference seen = judge.seen(target.xy).front();
        EXPECT_LT(seen.uv, 1e-9);
        EXPECT_LT(seen.de00, 1e-6);
        EXPECT_GT(judge.seen({target.xy.x(), target.xy.y() + 0.01}).front().de00, 1.0);
        EXPECT_NEAR((judge.reference_xy() - viewer_group_tube().xy()).distance(), 0.0, 1e-12);
    }
}

TEST(WhiteJudge, LooksAndDifferencesAreTheSameThing) {
    const std::vector<Individual> people = {{aged(30.0), {}}, {aged(70.0), {}}};
    const WhiteJudge judge(oled(), viewer_group_tube(), people);
    const Xy setting(0.310, 0.322);
    const auto shown = judge.looks(setting);
    const auto wanted = judge.reference_looks();
    const auto seen = judge.seen_in_uv(setting);
    for (std::size_t i = 0; i < people.size(); ++i) {
        EXPECT_NEAR(std::hypot(shown[i][0] - wanted[i][0], shown[i][1] - wanted[i][1]), seen[i].uv,
                    1e-15);
        EXPECT_TRUE(std::isnan(seen[i].de00));
    }
}

// The white that was there before is what the instrument reads of it: the sum of the primaries at full drive, or what it was set to.
TEST(WhiteJudge, BeginsFromTheWhiteThatIsShown) {
    const Panel panel = oled();
    const std::vector<Individual> people = {{aged(30.0), {}}};
    const Eigen::VectorXd light = panel.native_white();
    std::vector<double> nm;
    for (int i = 0; i < light.size(); ++i) {
        nm.push_back(panel.sampling().wavelength_nm(i));
    }
    const Xy native = chromaticity(
        tristimulus<Cie1931_2deg>(Spectrum(nm, std::vector<double>(light.begin(), light.end()))));
    const WhiteJudge plain(panel, viewer_group_tube(), people);
    EXPECT_NEAR((plain.base_xy() - native).distance(), 0.0, 1e-12);
    DistributionOptions set;
    set.base = WhiteSetTo{Xy(0.305, 0.318)};
    const WhiteJudge moved(panel, viewer_group_tube(), people, set);
    EXPECT_NEAR((moved.base_xy() - Xy(0.305, 0.318)).distance(), 0.0, 1e-9);
}

TEST(WhiteJudge, RefusesNobodyAndWhatCannotBeShown) {
    EXPECT_THROW(WhiteJudge(oled(), viewer_group_tube(), std::vector<Individual>{}), Error);
    const WhiteJudge judge(oled(), viewer_group_tube(), std::vector{Individual{aged(40.0), {}}});
    EXPECT_THROW(static_cast<void>(judge.seen({0.05, 0.05})), Error);
}

TEST(ViewerGroup, OneViewersCompromiseIsTheirOwnTarget) {
    const ViewerGroup home = judge_viewer_group({oled(), viewer_group_tube()}, {viewer("A", 45.0)},
                                                viewer_group_tube().xy());
    EXPECT_EQ(home.compromise().xy, home.targets[0].xy);
    EXPECT_LT(home.compromise().largest_uv(), 1e-9);
    EXPECT_LT((home.candidates[1].xy - home.targets[0].xy).distance(), 1e-12);
    EXPECT_EQ(home.disagreement[0][0], 0.0);
}

// Second route: independent normal deviations of Asano's Table 5 by the standard library, 20,000 of them; their means' standard errors are
// below a hundredth of the spread.
TEST(ViewerGroup, WhatIsExpectedIsTheMeanOverAllThatAnEyeMayBe) {
    const Viewer somebody = viewer("A", 45.0);
    const ViewerGroup home =
        judge_viewer_group({oled(), viewer_group_tube()}, {somebody}, viewer_group_tube().xy());
    std::mt19937 bits(7);
    std::normal_distribution<double> normal;
    std::vector<Individual> crowd;
    for (int i = 0; i < 20000; ++i) {
        std::array<double, 8> d = asano2016_spread.values();
        for (double& value : d) {
            value = std::max(value * normal(bits), -100.0);
        }
        crowd.push_back({somebody.eye.likeliest.conditions, Deviations::of(d)});
    }
    const WhiteJudge judge(oled(), viewer_group_tube(), crowd);
    for (const CandidateWhite& candidate : home.candidates) {
        std::vector<double> de00;
        std::vector<double> uv;
        for (const SeenDifference& seen : judge.seen(candidate.xy)) {
            de00.push_back(seen.de00);
            uv.push_back(seen.uv);
        }
        const ExpectedDifference& expected = candidate.expected.front();
        EXPECT_NEAR(expected.de00, mean(de00), 0.03 * mean(de00)) << candidate.name;
        EXPECT_NEAR(expected.uv, mean(uv), 0.03 * mean(uv)) << candidate.name;
        EXPECT_NEAR(expected.de00_low, percentile(de00, 2.5), 0.3) << candidate.name;
        EXPECT_NEAR(expected.de00_high, percentile(de00, 97.5), 0.1 * percentile(de00, 97.5));
        EXPECT_GT(expected.de00, 0.3) << "an eye that is only estimated sees something";
    }
}

TEST(ViewerGroup, AnEyeKnownEntirelySeesWhatItsLikeliestDoes) {
    Viewer known = viewer("A", 45.0);
    known.eye.covariance = {};
    const ViewerGroup home =
        judge_viewer_group({oled(), viewer_group_tube()}, {known}, viewer_group_tube().xy());
    for (const CandidateWhite& candidate : home.candidates) {
        EXPECT_NEAR(candidate.expected.front().de00, candidate.seen.front().de00, 1e-9);
        EXPECT_NEAR(candidate.expected.front().de00_high, candidate.seen.front().de00, 1e-9);
    }
    EXPECT_THROW(static_cast<void>(eyes_that_may_be(known.eye, 0)), Error);
    EXPECT_THROW(static_cast<void>(eyes_that_may_be(known.eye, (std::size_t{1} << 20) + 1)), Error);
}

/// The largest distance that anyone sees at the best place of a grid of 81 x 81 points, `step` apart, about `about`.
double least_on_grid(const WhiteJudge& judge, const Xy& about, double step) {
    double least = 1.0;
    for (int i = -40; i <= 40; ++i) {
        for (int j = -40; j <= 40; ++j) {
            double worst = 0.0;
            for (const SeenDifference& s :
                 judge.seen_in_uv({about.x() + step * i, about.y() + step * j})) {
                worst = std::max(worst, s.uv);
            }
            least = std::min(least, worst);
        }
    }
    return least;
}

// Second route: grids about the answer, .006 wide and .00002 wide, hold nothing better. Two viewers have a kink for a valley, on
// which a search in fixed directions stops; lasers have it sharpest.
TEST(ViewerGroup, NoOtherWhiteSuitsTheWorstOffBetter) {
    const auto expect_best = [](const char* panel_name, const std::vector<double>& ages) {
        const Panel panel = generic_panel(generic_model(panel_name));
        std::vector<Viewer> viewers;
        std::vector<Individual> people;
        for (const double age : ages) {
            viewers.push_back(viewer("A", age));
            people.push_back(viewers.back().eye.likeliest);
        }
        const ViewerGroup home =
            judge_viewer_group({panel, viewer_group_tube()}, viewers, viewer_group_tube().xy());
        const WhiteJudge judge(panel, viewer_group_tube(), people);
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
TEST(ViewerGroup, StartsFromTheWhiteAsItStands) {
    const Panel panel = oled();
    const Reference as_set = display_reference(panel, {0.305, 0.320});
    ViewerGroupOptions options;
    options.from.base = WhiteAsItStands{as_set.light};
    const std::vector<Viewer> viewers = {viewer("A", 25.0), viewer("B", 65.0)};
    const ViewerGroup home = judge_viewer_group({panel, as_set}, viewers, as_set.xy(), options);
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
    options.from.base = WhiteAsItStands{other};
    TargetOptions from;
    from.base = WhiteAsItStands{other};
    const ViewerGroup moved =
        judge_viewer_group({panel, viewer_group_tube()}, viewers, {0.305, 0.320}, options);
    for (std::size_t i = 0; i < viewers.size(); ++i) {
        const Target own =
            white_target(panel, viewer_group_tube(), cone_observer(viewers[i].eye.likeliest), from);
        EXPECT_LT((moved.targets[i].xy - own.xy).distance(), 1e-9);
    }
}

TEST(ViewerGroup, RulesMakeSmallWhatTheySay) {
    const std::vector<Individual> people = {
        {aged(25.0), {}}, {aged(27.0), {}}, {aged(29.0), {}}, {aged(75.0), {}}};
    const WhiteJudge judge(oled(), viewer_group_tube(), people);
    const Xy start = white_target(oled(), viewer_group_tube(), cone_observer(people[1])).xy;
    const auto figures = [&](Compromise rule) {
        std::vector<double> uv;
        for (const SeenDifference& s : judge.seen_in_uv(compromise_white(judge, start, rule))) {
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

TEST(ViewerGroup, ProbabilityWithinACircleIsWithinItsBound) {
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

// Second route: a simulation of two normal distributions.
TEST(ViewerGroup, DisagreementIsTheProbabilityThatASimulationFinds) {
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

}  // namespace
}  // namespace samelight
