// Laws of the answer about whites: displays asked about together are judged as each alone, and how sure a move is lies along the move.
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/assess/white.hpp"
#include "samelight/assess/white_answer.hpp"
#include "samelight/assess/white_request.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/target_distribution.hpp"
#include "samelight/white/uncertainty.hpp"

namespace samelight::test {
namespace {

/// Against a tube at D65, for 64 people.
assess::WhiteRequest against_a_tube(std::vector<assess::WhitePanel> panels) {
    assess::WhitePanel tube = assess::generic_display(generic_model("crt"));
    tube.white = {WhiteSetTo{{0.3127, 0.3290}}};
    assess::WhiteRequest request{assess::display_as_reference(tube)};
    request.panels = std::move(panels);
    PopulationParameters people;
    people.count = 64;
    request.population = Population(people);
    return request;
}

/// The second has been set to a white already.
std::vector<assess::WhitePanel> displays_of_a_room() {
    std::vector<assess::WhitePanel> panels;
    for (const char* type : {"lcd-white-led", "oled-rgb", "oled-white"}) {
        panels.push_back(assess::generic_display(generic_model(type)));
    }
    panels[1].white = {WhiteSetTo{{0.3063, 0.3249}}};
    return panels;
}

TEST(WhiteLaws, DisplaysTogetherAreJudgedAsEachAlone) {
    const std::vector<assess::WhitePanel> panels = displays_of_a_room();
    const assess::WhiteAnswer together = assess::answer_white(against_a_tube(panels));
    ASSERT_EQ(together.panels.size(), 3U);
    for (std::size_t p = 0; p < panels.size(); ++p) {
        const assess::PanelPart alone = assess::answer_white(against_a_tube({panels[p]})).panels[0];
        const assess::PanelPart& part = together.panels[p];
        EXPECT_EQ(part.as_it_stands, p == 1U);
        EXPECT_EQ(part.dialled().xy, alone.dialled().xy) << p;
        ASSERT_TRUE(part.population && alone.population && part.advice && alone.advice);
        EXPECT_EQ(part.population->sample, alone.population->sample) << p;
        EXPECT_EQ(part.advice->verdict, alone.advice->verdict) << p;
        EXPECT_EQ(part.advice->people.mean_gain_uv, alone.advice->people.mean_gain_uv) << p;
        EXPECT_EQ(part.advice->de00_before, alone.advice->de00_before) << p;
        EXPECT_EQ(part.advice->de00_after, alone.advice->de00_after) << p;
    }
}

TEST(WhiteLaws, PeopleSeeTheDisplayAsItIsSet) {
    // Second route: the judge of one display. Where a white emitter makes part of the light, what it was set to is in what everyone sees.
    assess::WhitePanel set = assess::generic_display(generic_model("oled-white"));
    set.white = {WhiteSetTo{{0.300, 0.320}}};
    const assess::WhiteRequest request = against_a_tube({set});
    const assess::WhiteAnswer answer = assess::answer_white(request);
    const Advice& advice = *answer.panels[0].advice;
    const std::vector<Individual> people = request.population->individuals(1);
    const auto seen_with = [&](const WhiteBase& base) {
        DistributionOptions options;
        options.base = base;
        const WhiteJudge judge(set.panel, answer.reference, people, options);
        double mean = 0.0;
        for (const SeenDifference& seen : judge.seen(advice.white)) {
            mean += seen.de00 / static_cast<double>(people.size());
        }
        return mean;
    };
    EXPECT_NEAR(advice.de00_after, seen_with(set.white.base), 1e-9);
    EXPECT_GT(std::abs(advice.de00_after - seen_with(NativeWhite{})), 1e-4);
}

TEST(WhiteLaws, WithoutAWhiteEmitterTheViewersMeanIsTold) {
    assess::WhiteRequest request =
        against_a_tube({assess::generic_display(generic_model("oled-white"))});
    request.viewers = {{30.0}, {65.0}};
    const assess::WhiteAnswer answer = assess::answer_white(request);
    const auto& told = answer.panels[0].viewer_group->white.without_white_emitter;
    double x = 0.0;
    double y = 0.0;
    for (const Viewer& viewer : answer.viewers) {
        const Target own = white_target(request.panels[0].panel, answer.reference,
                                        cone_observer(viewer.eye.likeliest));
        ASSERT_TRUE(own.without_white_emitter);
        x += 0.5 * own.without_white_emitter->first();
        y += 0.5 * own.without_white_emitter->second();
    }
    ASSERT_TRUE(told);
    EXPECT_NEAR(told->first(), x, 1e-12);
    EXPECT_NEAR(told->second(), y, 1e-12);
    EXPECT_GT(std::hypot(x, y), 1e-4);
    // Where there is none, nothing is told.
    request.panels = {assess::generic_display(generic_model("oled-rgb"))};
    EXPECT_FALSE(assess::answer_white(request).panels[0].viewer_group->white.without_white_emitter);
}

TEST(WhiteLaws, HowSureAMoveIsLiesAlongTheMove) {
    // Second route: the standard deviation of x, y along the move, by the covariance, times the coverage factor that x and y have.
    const assess::WhiteAnswer answer = assess::answer_white(against_a_tube(displays_of_a_room()));
    for (const std::size_t p : {0U, 2U}) {
        const assess::PanelPart& part = answer.panels[p];
        ASSERT_TRUE(part.advice && part.budget);
        const Chromaticity<Cie1931_2deg> from = answer.reference.xy();
        const double dx = part.advice->white.x() - from.x();
        const double dy = part.advice->white.y() - from.y();
        const double length = std::hypot(dx, dy);
        EXPECT_NEAR(part.advice->to_move_xy, length, 1e-12);
        const auto& c = part.budget->covariance;
        const double variance =
            (dx * dx * c[0] + dx * dy * (c[1] + c[2]) + dy * dy * c[3]) / (length * length);
        const double factor_x = part.budget->half_width_x() / std::sqrt(c[0]);
        const double factor_y = part.budget->half_width_y() / std::sqrt(c[3]);
        EXPECT_GT(factor_x, 1.6);
        EXPECT_LT(factor_y, 2.1);
        EXPECT_NEAR(factor_x / factor_y, 1.0, 0.1);
        const double factor = 0.5 * (factor_x + factor_y);
        EXPECT_NEAR(part.advice->uncertain_along_xy / (factor * std::sqrt(variance)), 1.0, 0.05)
            << p;
    }
}

}  // namespace
}  // namespace samelight::test
