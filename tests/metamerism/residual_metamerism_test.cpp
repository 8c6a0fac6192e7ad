// What remains at best: no setting tried by hand leaves less, and people who see alike are left with nothing.
#include <algorithm>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include "metamerism/metamerism_fixtures.hpp"
#include "numeric/exactly.hpp"
#include "numeric/refusals.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/panel_matrix.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/metamerism/residual_metamerism.hpp"
#include "samelight/metamerism/set_panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {
namespace {

using test::d65;
using test::eye;
using test::generic;
using test::list;
using test::patches;
using test::people;
using test::refusal;

Reproduction as_set(const char* name) {
    return reproduce(generic(name), {d65(), patches().leftCols(1)},
                     standard_observer<Cie1931_2deg>());
}

/// As population_index() has it for eyes adapted to both whites.
double mean_beside(const Population& population, const Reproduction& a, const Reproduction& b) {
    const SampledLight first = test::light_of(a.lights.lights().col(0));
    const SampledLight second = test::light_of(b.lights.lights().col(0));
    return population_index(population, {first, second, mean_light(first, second)}).de00.mean;
}

// Second route: the second display's white put by instrument on every place of a grid in x, y about the reference's, each judged by
// population_index(). None may be better than the least by more than the search's own error; the best of them must come near it, since the
// grid is fine beside how the mean bends. The grid keeps the luminance, which the search may move too.
TEST(ResidualMetamerism, NoSettingByHandLeavesLess) {
    const Population population = people(32);
    const auto reads = chromaticity(tristimulus<Cie1931_2deg>(d65()));
    const Eigen::MatrixXd colour = d65().column();
    for (const char* other : {"oled-rgb", "oled-white"}) {
        const std::vector<Reproduction> shown = {as_set("lcd-quantum-dot"), as_set(other)};
        const WhitesOfViewers whites(population, shown);
        const double least = whites.residual_mean_de00(0, 1);
        double best = 1e9;
        for (int i = -8; i <= 8; ++i) {
            for (int j = -8; j <= 8; ++j) {
                const MatrixPanel moved{
                    generic(other), PanelOrigin::generic,
                    Chromaticity<Cie1931_2deg>(reads.x() + 0.0015 * i, reads.y() + 0.002 * j)};
                const Reproduction tried = set_panel(moved, Setting::by_instrument, {d65(), colour},
                                                     standard_observer<Cie1931_2deg>());
                best = std::min(best, mean_beside(population, shown[0], tried));
            }
        }
        const double mean_as_set = mean_beside(population, shown[0], shown[1]);
        EXPECT_LT(least, mean_as_set - 0.1) << other;
        EXPECT_LE(least, best * (1.0 + 1e-3)) << other;
        EXPECT_GT(least, best - 0.1) << other;
        EXPECT_EQ(least, whites.residual_mean_de00(1, 0));
    }
}

TEST(ResidualMetamerism, IsNothingForPeopleAlikeAndForOnePanel) {
    PopulationParameters parameters;
    parameters.count = 8;
    parameters.ages = Ages::range(60.0, 60.0);
    parameters.spread = {};
    const std::vector<Reproduction> shown = {as_set("crt"), as_set("oled-rgb"), as_set("crt")};
    const WhitesOfViewers alike(Population(parameters), shown);
    EXPECT_LT(alike.residual_mean_de00(0, 1), 0.02);
    const WhitesOfViewers different(people(32), shown);
    EXPECT_NEAR(different.residual_mean_de00(0, 2), 0.0, test::exactly);
    EXPECT_GT(different.residual_mean_de00(0, 1), 2.0);
}

// The search looks at 256 people; what it says is what all of them have there, and no setting beside it does better: second route, moves
// about what a search on all people finds, whose mean must not be less by more than the error that is stated.
TEST(ResidualMetamerism, OfManyPeopleIsFoundFromSome) {
    const std::vector<Reproduction> shown = {as_set("crt"), as_set("oled-white")};
    const double some = WhitesOfViewers(people(256), shown).residual_mean_de00(0, 1);
    const double many = WhitesOfViewers(people(1024), shown).residual_mean_de00(0, 1);
    const double as_they_are = mean_beside(people(1024), shown[0], shown[1]);
    EXPECT_NEAR(many / some, 1.0, 0.03) << "a balanced population";
    EXPECT_LT(many, as_they_are);
    const Population population = people(1024);
    double best = 1e9;
    for (const double x : {-0.004, -0.002, 0.0, 0.002, 0.004}) {
        for (const double y : {-0.012, -0.009, -0.006, -0.003, 0.0, 0.003}) {
            const MatrixPanel moved{generic("oled-white"), PanelOrigin::generic,
                                    Chromaticity<Cie1931_2deg>(0.3127 + x, 0.3290 + y)};
            best = std::min(
                best, mean_beside(population, shown[0],
                                  set_panel(moved, Setting::by_instrument, {d65(), d65().column()},
                                            standard_observer<Cie1931_2deg>())));
        }
    }
    EXPECT_LE(many, best * (1.0 + 3e-3));
}

TEST(ResidualMetamerism, RefusesWhatCannotBe) {
    const std::vector<Reproduction> shown = {as_set("crt"), as_set("oled-rgb")};
    const WhitesOfViewers whites(people(8), shown);
    refusal(ErrorKind::domain, [&] { static_cast<void>(whites.residual_mean_de00(0, 2)); });
    refusal(ErrorKind::shape,
            [&] { static_cast<void>(WhitesOfViewers(people(8), std::vector<Reproduction>{})); });
    const Sampling coarse(380.0, 5.0, 81);
    const std::vector<Reproduction> unlike = {
        as_set("crt"), reproduce(generic_panel(generic_model("crt"), coarse),
                                 {rebin(d_illuminant(6500), coarse), Eigen::MatrixXd::Ones(81, 1)},
                                 standard_observer<Cie1931_2deg>())};
    refusal(ErrorKind::shape, [&] { static_cast<void>(WhitesOfViewers(people(8), unlike)); });
}

TEST(ResidualMetamerism, IsThereWhereAskedForAndBelowEverySetting) {
    PanelMatrixOptions options;
    const auto panels = list({"crt", "oled-rgb", "oled-white"});
    const auto with = panel_matrix(panels, {d65(), patches()}, {eye(), people(64)}, options);
    for (const MatrixPair& pair : with.pairs) {
        ASSERT_TRUE(pair.least_white_de00);
        for (const PairFigures& figures : pair.figures) {
            EXPECT_LT(*pair.least_white_de00, figures.white_de00.mean);
        }
        EXPECT_GT(*pair.least_white_de00, 1.0);
    }
    options.least = false;
    const auto without = panel_matrix(panels, {d65(), patches()}, {eye(), people(64)}, options);
    EXPECT_FALSE(without.pairs.front().least_white_de00);
    EXPECT_EQ(without.pairs.front().figures[0].white_de00.mean,
              with.pairs.front().figures[0].white_de00.mean);
}

}  // namespace
}  // namespace samelight
