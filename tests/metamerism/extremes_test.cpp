// Who sees a pair differ most and least, and whether the reasons given are the reasons.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "metamerism/metamerism_fixtures.hpp"
#include "numeric/refusals.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/metamerism/extreme_viewer.hpp"
#include "samelight/metamerism/extremes.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {
namespace {

using test::contains;
using test::d65;
using test::people;
using test::refusal;

struct Pair {
    MixedLights first, second;
};
Pair whites(const char* a, const char* b) {
    return {MixedLights(Sampling(), test::white_of(a).column()),
            MixedLights(Sampling(), test::white_of(b).column())};
}

// Second route: the plain view of the viewer, and of the same viewer with one trait made the average by hand.
TEST(ExtremeViewers, AreTheEndsAndTheReasonsAreTrue) {
    const Population population = people(256);
    const auto shown = whites("lcd-white-led", "oled-rgb");
    const auto& first = shown.first;
    const auto& second = shown.second;
    const PopulationIndex index = population_index(population, {first, second, d65()});
    const ExtremeViewers ends = extreme_viewers(population, {first, second, d65()}, index);
    // The index takes CIEDE2000 with and without lightness in one go, the ends without: the same formula, whose sums may be rounded otherwise.
    EXPECT_NEAR(ends.most.de00, index.de00.largest, 1e-10);
    EXPECT_NEAR(ends.least.de00,
                *std::min_element(index.viewer_de00.begin(), index.viewer_de00.end()), 1e-10);
    const auto plain = [&](const Individual& eye) {
        return test::plain_view(eye, test::light_of(first.lights().col(0)),
                                test::light_of(second.lights().col(0)), d65())
            .de00;
    };
    for (const ExtremeViewer* viewer : {&ends.most, &ends.least}) {
        EXPECT_EQ(viewer->eye, population.individual(viewer->person));
        EXPECT_NEAR(plain(viewer->eye), viewer->de00, 1e-9);
        ASSERT_FALSE(viewer->reasons.empty());
        EXPECT_LE(viewer->reasons.size(), 3U);
        double weight = 1e9;
        for (const ViewerReason& reason : viewer->reasons) {
            Individual other = viewer->eye;
            if (reason.trait == ViewerTrait::age) {
                other.conditions.age_years = 45.0;  // the middle of 20 to 70
            } else {
                auto values = other.deviations.values();
                values[static_cast<std::size_t>(reason.trait) - 1] = 0.0;
                other.deviations = Deviations::of(values);
            }
            EXPECT_NEAR(plain(other), reason.without, 1e-9) << reason.words;
            // Without its reason the viewer would be less extreme.
            EXPECT_GT((viewer->de00 - reason.without) * (viewer->de00 - index.de00.mean), 0.0);
            EXPECT_LE(std::abs(viewer->de00 - reason.without), weight);
            weight = std::abs(viewer->de00 - reason.without);
            EXPECT_TRUE(contains(viewer->description, reason.words));
        }
    }
}

/// A population of people who differ in one thing alone.
Population differing(const DeviationSpread& spread, const Ages& ages = Ages::range(45.0, 45.0)) {
    PopulationParameters parameters;
    parameters.count = 64;
    parameters.ages = ages;
    parameters.spread = spread;
    return Population(parameters);
}

std::array<std::string, 2> descriptions(const Population& population) {
    const auto shown = whites("lcd-ccfl", "laser-rgb");
    const auto& first = shown.first;
    const auto& second = shown.second;
    const PopulationIndex index = population_index(population, {first, second, d65()});
    const ExtremeViewers ends = extreme_viewers(population, {first, second, d65()}, index);
    EXPECT_EQ(ends.most.reasons.size(), 1U) << ends.most.description;
    return {ends.most.description, ends.least.description};
}

// Where people differ in one thing alone, that is what is named.
TEST(ExtremeViewers, NameWhatPeopleDifferIn) {
    DeviationSpread spread;
    const auto ages = descriptions(differing(spread, Ages::range(20.0, 70.0)));
    // The oldest see most; those who see least are in the middle, where there is nothing to name.
    EXPECT_EQ(ages[0], "older lens (60s)");
    EXPECT_EQ(ages[1], "close to the average");

    spread = {};
    spread.lens_percent = 18.7;
    const auto lens = descriptions(differing(spread));
    EXPECT_TRUE(contains(lens[0], "lens than usual at that age (")) << lens[0];
    EXPECT_NE(contains(lens[0], "denser"), contains(lens[1], "denser")) << lens[0] << lens[1];

    spread = {};
    spread.macula_percent = 36.5;
    const auto macula = descriptions(differing(spread));
    EXPECT_NE(contains(macula[0], "more macular pigment (+"),
              contains(macula[1], "more macular pigment (+"));

    spread = {};
    spread.l_shift_nm = 2.0;
    const auto shift = descriptions(differing(spread));
    EXPECT_TRUE(shift[0].starts_with("L peak +") || shift[0].starts_with("L peak -")) << shift[0];
    EXPECT_TRUE(shift[0].ends_with(" nm")) << shift[0];
    // 64 points of a balanced sequence reach 2.2 to 3 standard deviations.
    const double nm = std::abs(std::stod(shift[0].substr(7)));
    EXPECT_GT(nm, 3.5);
    EXPECT_LT(nm, 8.0);
}

TEST(ExtremeViewers, PeopleAlikeAreCloseToTheAverage) {
    const Population alike = differing({});
    const auto shown = whites("crt", "oled-rgb");
    const auto& first = shown.first;
    const auto& second = shown.second;
    const PopulationIndex index = population_index(alike, {first, second, d65()});
    const ExtremeViewers ends = extreme_viewers(alike, {first, second, d65()}, index);
    EXPECT_EQ(ends.most.description, "close to the average");
    EXPECT_TRUE(ends.most.reasons.empty());
}

// What is left between two lights that are one is rounding, and nobody's anatomy.
TEST(ExtremeViewers, RoundingIsNotExplained) {
    const Population population = people(64);
    const MixedLights first = whites("crt", "oled-rgb").first;
    const Eigen::MatrixXd nearly = first.lights() * (1.0 + 1e-9);
    const MixedLights second(first.sampling(), nearly);
    const PopulationIndex index = population_index(population, {first, second, d65()});
    EXPECT_GT(index.largest_de00, 0.0);
    EXPECT_LT(index.largest_de00, 1e-6);
    const ExtremeViewers ends = extreme_viewers(population, {first, second, d65()}, index);
    EXPECT_TRUE(ends.most.reasons.empty());
    EXPECT_TRUE(ends.least.reasons.empty());
}

// Second route: the index of a population that holds the same people.
TEST(DifferencesFor, AreThoseOfThePopulation) {
    const Population population = people(16);
    const auto shown = whites("crt", "oled-rgb");
    const PopulationIndex index = population_index(population, {shown.first, shown.second, d65()});
    const std::vector<Individual> some = {population.individual(3), population.individual(11)};
    const auto seen = differences_for(some, shown.first, shown.second, d65());
    ASSERT_EQ(seen.size(), 2U);
    EXPECT_NEAR(seen[0], index.viewer_de00[3], 1e-12);
    EXPECT_NEAR(seen[1], index.viewer_de00[11], 1e-12);
}

TEST(ExtremeViewers, RefuseTheIndexOfOthers) {
    const auto shown = whites("crt", "oled-rgb");
    const auto& first = shown.first;
    const auto& second = shown.second;
    const PopulationIndex index = population_index(people(32), {first, second, d65()});
    refusal(ErrorKind::shape, [&] {
        static_cast<void>(extreme_viewers(people(64), {first, second, d65()}, index));
    });
}

}  // namespace
}  // namespace samelight
