// Who sees a pair differ most and least, and whether the reasons given are the reasons.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
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
            EXPECT_NEAR(plain(other), reason.without, 1e-9) << code_of(reason.trait);
            // Without its reason the viewer would be less extreme.
            EXPECT_GT((viewer->de00 - reason.without) * (viewer->de00 - index.de00.mean), 0.0);
            EXPECT_LE(std::abs(viewer->de00 - reason.without), weight);
            weight = std::abs(viewer->de00 - reason.without);
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

ExtremeViewers ends_of(const Population& population) {
    const auto shown = whites("lcd-ccfl", "laser-rgb");
    const auto& first = shown.first;
    const auto& second = shown.second;
    const PopulationIndex index = population_index(population, {first, second, d65()});
    return extreme_viewers(population, {first, second, d65()}, index);
}

double deviation_of(const ExtremeViewer& viewer, ViewerTrait trait) {
    return viewer.eye.deviations.values()[static_cast<std::size_t>(trait) - 1];
}

/// The ends of people who differ in that alone, which is the one reason of whoever sees most, and the only one that whoever sees least may have.
ExtremeViewers ends_by(const DeviationSpread& spread, ViewerTrait trait) {
    ExtremeViewers ends = ends_of(differing(spread));
    EXPECT_EQ(ends.most.reasons.size(), 1U) << code_of(trait);
    for (const ExtremeViewer* viewer : {&ends.most, &ends.least}) {
        for (const ViewerReason& reason : viewer->reasons) {
            EXPECT_EQ(reason.trait, trait) << code_of(reason.trait);
        }
    }
    return ends;
}

/// Whether more of something than usual is named.
bool more_is_named(const ExtremeViewer& viewer, ViewerTrait trait) {
    return !viewer.reasons.empty() && deviation_of(viewer, trait) > 0.0;
}

// Where people differ in one thing alone, that is what is named.
TEST(ExtremeViewers, NameWhatPeopleDifferIn) {
    DeviationSpread spread;
    const ExtremeViewers ages = ends_of(differing(spread, Ages::range(20.0, 70.0)));
    // The oldest see most; those who see least are in the middle, where there is nothing to name.
    ASSERT_EQ(ages.most.reasons.size(), 1U);
    EXPECT_EQ(ages.most.reasons.front().trait, ViewerTrait::age);
    EXPECT_GE(ages.most.eye.conditions.age_years, 60.0);
    EXPECT_DOUBLE_EQ(ages.most.average_age, 45.0);  // the middle of 20 to 70
    EXPECT_TRUE(ages.least.reasons.empty());

    spread = {};
    spread.lens_percent = 18.7;
    const ExtremeViewers lens = ends_by(spread, ViewerTrait::lens);
    EXPECT_NE(more_is_named(lens.most, ViewerTrait::lens),
              more_is_named(lens.least, ViewerTrait::lens));

    spread = {};
    spread.macula_percent = 36.5;
    const ExtremeViewers macula = ends_by(spread, ViewerTrait::macula);
    EXPECT_NE(more_is_named(macula.most, ViewerTrait::macula),
              more_is_named(macula.least, ViewerTrait::macula));

    spread = {};
    spread.l_shift_nm = 2.0;
    // 64 points of a balanced sequence reach 2.2 to 3 standard deviations.
    const double nm =
        std::abs(deviation_of(ends_by(spread, ViewerTrait::l_shift).most, ViewerTrait::l_shift));
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
