// What no setting can remove: no setting tried by hand leaves less, and people who see alike are left with nothing.
#include <algorithm>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include "metamerism/metamerism_fixtures.hpp"
#include "numeric/refusals.hpp"
#include "samelight/metamerism/least_difference.hpp"
#include "samelight/metamerism/panel_matrix.hpp"
#include "samelight/metamerism/population_index.hpp"

namespace samelight {
namespace {

using test::d65;
using test::generic;
using test::patches;
using test::people;
using test::refusal;

Reproduction as_set(const char* name) {
    return reproduce(generic(name), d65(), patches().leftCols(1),
                     standard_observer<Cie1931_2deg>());
}

// Second route: the second display's white put by instrument on every place of a grid in x, y about the reference's, each judged by
// population_index(). None may be better than the least by more than the search's own error; the best of them must come near it, since the
// grid is fine beside how the mean bends. The grid keeps the luminance, which the search may move too.
TEST(LeastDifference, NoSettingByHandLeavesLess) {
    const Population population = people(32);
    const auto reads = chromaticity(tristimulus<Cie1931_2deg>(d65()));
    const Eigen::MatrixXd colour = d65().column();
    for (const char* other : {"oled-rgb", "oled-white"}) {
        const std::vector<Reproduction> shown = {as_set("lcd-quantum-dot"), as_set(other)};
        const WhitesOfViewers whites(population, shown, d65());
        const double least = whites.least_mean_de00(0, 1);
        const MixedLights first = shown[0].lights.chosen({0});
        double best = 1e9;
        for (int i = -8; i <= 8; ++i) {
            for (int j = -8; j <= 8; ++j) {
                const MatrixPanel moved{
                    generic(other), PanelOrigin::generic,
                    Chromaticity<Cie1931_2deg>(reads.x() + 0.0015 * i, reads.y() + 0.002 * j)};
                const Reproduction tried = set_panel(moved, Setting::by_instrument, d65(), colour,
                                                     standard_observer<Cie1931_2deg>());
                best = std::min(
                    best,
                    population_index(population, first, tried.lights.chosen({0}), d65()).de00.mean);
            }
        }
        const double mean_as_set =
            population_index(population, first, shown[1].lights.chosen({0}), d65()).de00.mean;
        EXPECT_LT(least, mean_as_set - 0.1) << other;
        EXPECT_LE(least, best * (1.0 + 1e-3)) << other;
        EXPECT_GT(least, best - 0.1) << other;
        EXPECT_EQ(least, whites.least_mean_de00(1, 0));
    }
}

TEST(LeastDifference, IsNothingForPeopleAlikeAndForOnePanel) {
    PopulationParameters parameters;
    parameters.count = 8;
    parameters.ages = Ages::range(60.0, 60.0);
    parameters.spread = {};
    const std::vector<Reproduction> shown = {as_set("crt"), as_set("oled-rgb"), as_set("crt")};
    const WhitesOfViewers alike(Population(parameters), shown, d65());
    EXPECT_LT(alike.least_mean_de00(0, 1), 0.02);
    const WhitesOfViewers different(people(32), shown, d65());
    EXPECT_EQ(different.least_mean_de00(0, 2), 0.0);
    EXPECT_GT(different.least_mean_de00(0, 1), 2.0);
}

TEST(LeastDifference, RefusesWhatCannotBe) {
    const std::vector<Reproduction> shown = {as_set("crt"), as_set("oled-rgb")};
    const WhitesOfViewers whites(people(8), shown, d65());
    refusal(ErrorKind::domain, [&] { static_cast<void>(whites.least_mean_de00(0, 2)); });
    refusal(ErrorKind::shape, [&] {
        static_cast<void>(
            WhitesOfViewers(people(8), shown, enter(d_illuminant(6500), {380.0, 5.0, 81})));
    });
}

}  // namespace
}  // namespace samelight
