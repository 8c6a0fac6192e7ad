// A group of displays seen side by side.
#include <cmath>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/white_base.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/display_group.hpp"
#include "samelight/white/mismatch.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"

namespace samelight {
namespace {

using Xy = Chromaticity<Cie1931_2deg>;

Reference display_group_tube() {
    return display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
}

const Observer& display_group_field() { return standard_observer<Cie2015_2deg>(); }

std::vector<Individual> people() {
    PopulationParameters parameters;
    parameters.count = 64;
    return Population(parameters).individuals();
}

double sum_of_squares(const std::vector<WhiteJudge>& displays, const std::vector<Xy>& whites) {
    std::vector<detail::Looks> looks = {displays[0].reference_looks()};
    for (std::size_t p = 0; p < displays.size(); ++p) {
        looks.push_back(displays[p].looks(whites[p]));
    }
    double sum = 0.0;
    for (std::size_t p = 0; p < looks.size(); ++p) {
        for (std::size_t q = p + 1; q < looks.size(); ++q) {
            for (const double d : detail::distances(looks[p], looks[q])) {
                sum += d * d;
            }
        }
    }
    return sum;
}

// Second route: no small step of any one display's white makes the sum of squares smaller.
TEST(DisplayGroup, AllTogetherIsAMinimum) {
    const std::vector<Panel> panels = {generic_panel(generic_model("oled-rgb")),
                                       generic_panel(generic_model("lcd-narrow-red")),
                                       generic_panel(generic_model("oled-white"))};
    const auto crowd = people();
    const auto ways =
        judge_display_group(panels, display_group_tube(), {display_group_field(), crowd});
    ASSERT_EQ(ways.size(), 4U);
    std::vector<WhiteJudge> displays;
    for (const Panel& panel : panels) {
        displays.emplace_back(panel, display_group_tube(), crowd);
    }
    const double least = sum_of_squares(displays, ways[3].whites);
    for (const GroupSetting& way : ways) {
        EXPECT_GE(sum_of_squares(displays, way.whites), least);
    }
    for (std::size_t p = 0; p < panels.size(); ++p) {
        for (const auto& [dx, dy] : {std::pair(1e-4, 0.0), std::pair(-1e-4, 0.0),
                                     std::pair(0.0, 1e-4), std::pair(0.0, -1e-4)}) {
            std::vector<Xy> moved = ways[3].whites;
            moved[p] = {moved[p].x() + dx, moved[p].y() + dy};
            EXPECT_GT(sum_of_squares(displays, moved), least) << p;
        }
    }
}

TEST(DisplayGroup, EqualDisplaysAgreeEntirely) {
    const Panel panel = generic_panel(generic_model("lcd-quantum-dot"));
    const std::vector<Panel> panels = {panel, panel};
    for (const GroupSetting& way :
         judge_display_group(panels, display_group_tube(), {display_group_field(), people()})) {
        EXPECT_LT(way.between_p95_uv, 1e-9) << way.name;
        EXPECT_LT((way.whites[0] - way.whites[1]).distance(), 1e-8) << way.name;
    }
}

TEST(DisplayGroup, TheReferenceItselfNeedsNothing) {
    const Panel panel = generic_panel(generic_model("crt"));
    const std::vector<Panel> panels = {panel, panel};
    for (const GroupSetting& way :
         judge_display_group(panels, display_group_tube(), {display_group_field(), people()})) {
        EXPECT_LT(way.from_reference_p95_uv, 1e-9) << way.name;
    }
}

TEST(DisplayGroup, AStrongReferenceHoldsEachDisplayByItself) {
    const std::vector<Panel> panels = {generic_panel(generic_model("oled-rgb")),
                                       generic_panel(generic_model("lcd-white-led"))};
    const auto crowd = people();
    DisplayGroupOptions options;
    options.reference_weight = 1e6;
    const auto held =
        judge_display_group(panels, display_group_tube(), {display_group_field(), crowd}, options);
    const auto free =
        judge_display_group(panels, display_group_tube(), {display_group_field(), crowd});
    EXPECT_LE(held[3].from_reference_mean_uv, free[3].from_reference_mean_uv + 1e-6);
    EXPECT_LE(free[3].between_mean_uv, held[3].between_mean_uv + 1e-6);
}

// As they stand: what each shows now, or the reference's x, y dialled in.
TEST(DisplayGroup, TheFirstWayIsAsTheyStand) {
    const std::vector<Panel> panels = {generic_panel(generic_model("oled-rgb")),
                                       generic_panel(generic_model("lcd-white-led"))};
    const Xy set(0.3100, 0.3200);
    DisplayGroupOptions options;
    options.bases = {NativeWhite{}, WhiteSetTo{set}};
    const auto ways = judge_display_group(panels, display_group_tube(),
                                          {display_group_field(), people()}, options);
    EXPECT_LT((ways[0].whites[0] - display_group_tube().xy()).distance(), 1e-9);
    EXPECT_LT((ways[0].whites[1] - set).distance(), 1e-9);
}

TEST(DisplayGroup, RecommendedIsTheNearestUnlessNobodySeesIt) {
    const std::vector<Panel> panels = {generic_panel(generic_model("oled-rgb")),
                                       generic_panel(generic_model("lcd-narrow-red"))};
    const auto ways =
        judge_display_group(panels, display_group_tube(), {display_group_field(), people()});
    const std::size_t best = recommended_setting(ways);
    ASSERT_GT(best, 0U);
    for (const GroupSetting& way : ways) {
        EXPECT_LE(ways[best].between_mean_uv + ways[best].from_reference_mean_uv,
                  way.between_mean_uv + way.from_reference_mean_uv + 1e-15);
    }
    const Panel tube = generic_panel(generic_model("crt"));
    EXPECT_EQ(recommended_setting(judge_display_group(std::vector<Panel>{tube, tube},
                                                      display_group_tube(),
                                                      {display_group_field(), people()})),
              0U);
    EXPECT_THROW(static_cast<void>(recommended_setting({})), Error);
}

TEST(DisplayGroup, RefusesOneDisplayAndMiscounts) {
    const std::vector<Panel> one = {generic_panel(generic_model("crt"))};
    EXPECT_THROW(judge_display_group(one, display_group_tube(), {display_group_field(), people()}),
                 Error);
    const std::vector<Panel> two = {one[0], one[0]};
    DisplayGroupOptions options;
    options.bases.resize(3);
    EXPECT_THROW(
        judge_display_group(two, display_group_tube(), {display_group_field(), people()}, options),
        Error);
    options.bases.clear();
    options.reference_weight = 0.0;
    EXPECT_THROW(
        judge_display_group(two, display_group_tube(), {display_group_field(), people()}, options),
        Error);
}

}  // namespace
}  // namespace samelight
