// Whether to move a white at all: for everyone, and for a group of viewers.
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/steps.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/advice.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/opposed.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "white/viewer_group_people.hpp"

namespace samelight {
namespace {

using Xy = Chromaticity<Cie1931_2deg>;
using test::aged;
using test::oled;
using test::viewer_group_tube;

WhiteJudge young_and_old() {
    return WhiteJudge(oled(), viewer_group_tube(),
                      std::vector{Individual{aged(25.0), {}}, Individual{aged(30.0), {}},
                                  Individual{aged(70.0), {}}});
}

TEST(Advice, MovesWhereItHelpsMostAndCanBeRead) {
    const Xy target = white_target(oled(), viewer_group_tube(), cone_observer({aged(28.0), {}})).xy;
    const Advice advice = advise(young_and_old(), {target, viewer_group_tube().xy(), 0.0005});
    EXPECT_EQ(advice.verdict, Verdict::move);
    EXPECT_GT(advice.helped, 0.5);
    EXPECT_EQ(advice.white, target);
    EXPECT_EQ(advice.reason, AdviceReason::nearer);
    EXPECT_EQ(advice.viewer_count, 0U);
    EXPECT_DOUBLE_EQ(advice.people.nearer, 2.0 / 3.0);
    EXPECT_DOUBLE_EQ(advice.people.further, 1.0 / 3.0);
    EXPECT_GT(advice.sight.gain(), uv_step_radius);
    // The same move for a group of viewers: whoever is worst off, C, would be worse off still.
    const Advice named =
        advise(young_and_old(), {target, viewer_group_tube().xy(), 0.0005, {}, {"A", "B", "C"}});
    EXPECT_EQ(named.verdict, Verdict::leave);
    EXPECT_EQ(named.reason, AdviceReason::too_little_for_worst_off);
    EXPECT_LT(named.sight.gain(), 0.0);
}

// A group of viewers goes by the largest difference that anyone sees, as its compromise does; nobody has a veto for what nobody can see.
TEST(Advice, OfAGroupGoesByWhoeverIsWorstOff) {
    const WhiteJudge judge(oled(), viewer_group_tube(),
                           std::vector{Individual{aged(25.0), {}}, Individual{aged(55.0), {}}});
    const Xy young = white_target(oled(), viewer_group_tube(), cone_observer({aged(25.0), {}})).xy;
    const Xy older = white_target(oled(), viewer_group_tube(), cone_observer({aged(55.0), {}})).xy;
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
    EXPECT_EQ(advice.reason, AdviceReason::nearer_to_worst_off);
    EXPECT_EQ(advice.viewer_count, 2U);
    EXPECT_EQ(advice.viewers_nearer, std::vector<std::string>{"A"});
    EXPECT_EQ(advice.viewers_further, std::vector<std::string>{"B"});
    EXPECT_DOUBLE_EQ(advice.sight.before, largest_uv(before));
    EXPECT_DOUBLE_EQ(advice.sight.after, largest_uv(after));
    // A gain that nobody sees is none.
    const Xy nearly(0.95 * older.x() + 0.05 * young.x(), 0.95 * older.y() + 0.05 * young.y());
    const Advice little = advise(judge, {nearly, stands, 1e-5, {}, {"A", "B"}});
    EXPECT_EQ(little.verdict, Verdict::leave);
    EXPECT_EQ(little.reason, AdviceReason::too_little_for_worst_off);
    EXPECT_GT(little.sight.gain(), 0.0);
}

TEST(Advice, LeavesWhatTheInstrumentCannotTell) {
    const Advice advice = advise(young_and_old(), {{0.3125, 0.3288}, {0.3127, 0.3290}, 0.0005});
    EXPECT_EQ(advice.verdict, Verdict::leave);
    EXPECT_EQ(advice.reason, AdviceReason::below_instrument);
    EXPECT_DOUBLE_EQ(advice.to_move_xy, std::hypot(0.3125 - 0.3127, 0.3288 - 0.3290));
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
    EXPECT_EQ(between.reason, AdviceReason::opposed);
    EXPECT_EQ(between.opposed, (std::array<std::string, 2>{"viewer B", "viewer C"}));
    EXPECT_EQ(verdict({0.306, 0.318}, {low, high}).verdict, Verdict::ask_the_eyes);
    // Those that pull the same way don't, nor does a pull that the instrument can't tell.
    const auto opposite = [&](const std::vector<NamedTarget>& pulls) {
        return verdict({0.306, 0.318}, pulls).reason == AdviceReason::opposed;
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
            options.base = WhiteAsItStands{{panel.sampling(), set_white(panel, stands).light, 0.0}};
            const PanelTargets answer = white_targets(panel, viewer_group_tube(), fields, options);
            std::vector<NamedTarget> pulls;
            for (const Target& target : answer.targets) {
                pulls.push_back({target.observer_title, target.xy});
            }
            const WhiteJudge judge(panel, viewer_group_tube(),
                                   std::vector{Individual{aged(40.0), {}}}, {options.base});
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
