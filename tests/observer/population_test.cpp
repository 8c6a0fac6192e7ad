// A population: its people are the same in every build, and spread as its parameters say.
#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Core>

#include "numeric/refusals.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

/// N x 9: age, then the eight deviations.
Eigen::MatrixXd parameters_of(const Population& population) {
    Eigen::MatrixXd rows(static_cast<Eigen::Index>(population.size()), 9);
    for (std::size_t i = 0; i < population.size(); ++i) {
        const Individual person = population.individual(i);
        const auto row = static_cast<Eigen::Index>(i);
        rows(row, 0) = person.conditions.age_years;
        const auto values = person.deviations.values();
        for (std::size_t k = 0; k < values.size(); ++k) {
            rows(row, static_cast<Eigen::Index>(k) + 1) = values[k];
        }
    }
    return rows;
}

/// FNV-1a over what `whole` makes of every number.
template <class Whole>
std::uint64_t hash_of(const Population& population, const Whole& whole) {
    std::uint64_t hash = 0xcbf29ce484222325u;
    for (const Individual& person : population.individuals()) {
        hash = (hash ^ whole(person.conditions.age_years)) * 0x100000001b3u;
        for (const double value : person.deviations.values()) {
            hash = (hash ^ whole(value)) * 0x100000001b3u;
        }
    }
    return hash;
}
[[maybe_unused]] std::uint64_t bits_of(double value) { return std::bit_cast<std::uint64_t>(value); }
std::uint64_t units_of_16_bits(double value) {
    return static_cast<std::uint64_t>(std::llround(value * 0x1p16));
}

struct Recorded {
    std::uint64_t to_the_bit;
    std::uint64_t to_16_bits;
};
void expect_people(const PopulationParameters& parameters, const Recorded& recorded) {
    const Population population(parameters);
    EXPECT_EQ(hash_of(population, units_of_16_bits), recorded.to_16_bits);
#if defined(__x86_64__)
    EXPECT_EQ(hash_of(population, bits_of), recorded.to_the_bit);
#endif
}

// No source: recorded once, so that every build (g++ and clang++, any -O and -march) is seen to make the same people: to the bit on x86-64, to 1.5e-5 of a
// percent or nm wherever it runs. Another long double rounds a quantile otherwise in its last place now and then.
TEST(Population, IsTheSameInEveryBuild) {
    PopulationParameters p;
    expect_people(p, {17671236055331093699u, 10920215491829192511u});
    p.spread = literature_spread;
    p.below_minus_100 = BelowMinus100::reject;
    p.seed = 20240229;
    expect_people(p, {15912831098226494398u, 8382009744628912550u});
    p.sampler = Sampler::pseudo_random;
    p.ages = Ages::counted({{20.0, 4519129.0}, {45.5, 4285668.0}, {70.0, 2043121.0}});
    expect_people(p, {3245743620883004895u, 14510037829844852649u});
}

TEST(Population, APersonDoesNotDependOnHowManyThereAre) {
    PopulationParameters p;
    p.count = 5;
    const Population few(p);
    p.count = 4096;
    const Population many(p);
    for (std::size_t i = 0; i < few.size(); ++i) {
        EXPECT_EQ(few.individual(i), many.individual(i));
        EXPECT_EQ(few.individuals()[i], many.individual(i));
    }
    EXPECT_EQ(few.individual(4).conditions.field_deg, 2.0);
}

TEST(Population, SeedAndSamplerMakeOtherPeople) {
    PopulationParameters p;
    const Individual here = Population(p).individual(3);
    p.seed = 2;
    EXPECT_NE(Population(p).individual(3), here);
    p.seed = 1;
    p.sampler = Sampler::pseudo_random;
    EXPECT_NE(Population(p).individual(3), here);
}

// Source: the definition: ages even from 20 to 70, so mean 45 and standard deviation 50/sqrt(12); deviations of mean 0, Table 5
// of Asano, Fairchild & Blonde 2016, independent. The bounds are a tenth (Sobol) and five times (plain) of the standard error
// of as many plain draws; Sobol's correlations below 0.02. Clipping at -100 % moves the macula, z = 100/36.5: its mean by the
// standard deviation times phi(z) - z Phi(-z), its standard deviation by less than 0.5 %.
TEST(Population, SpreadsAsItsParametersSay) {
    for (const Sampler sampler : {Sampler::scrambled_sobol, Sampler::pseudo_random}) {
        PopulationParameters p;
        p.count = 8192;
        p.sampler = sampler;
        const Moments m = moments(parameters_of(Population(p)));
        const double errors = (sampler == Sampler::scrambled_sobol ? 0.1 : 5.0) / std::sqrt(8192.0);
        const auto spread = p.spread.values();
        EXPECT_NEAR(m.mean[0], 45.0, errors * m.covariance.standard(0));
        EXPECT_NEAR(m.covariance.standard(0), 50.0 / std::sqrt(12.0), errors * 15.0);
        for (int i = 1; i < 9; ++i) {
            const double sd = spread[static_cast<std::size_t>(i) - 1];
            const double z = 100.0 / sd;
            const double clipped =
                i == 2 ? sd * (std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi) -
                               z * 0.5 * std::erfc(z / std::numbers::sqrt2))
                       : 0.0;
            EXPECT_NEAR(m.mean[static_cast<std::size_t>(i)], clipped, errors * sd) << i;
            EXPECT_NEAR(m.covariance.standard(i), sd, errors * sd + (i == 2 ? 0.005 * sd : 0.0))
                << i;
            for (int j = 0; j < i; ++j) {
                EXPECT_NEAR(m.covariance.correlation(i, j), 0.0,
                            sampler == Sampler::scrambled_sobol ? 0.02 : errors)
                    << i << ", " << j;
            }
        }
    }
}

// Worked by hand for a standard deviation of 100 %, limit one standard deviation below the mean; phi and Phi are the normal
// density and probability. Clipped, Phi(-1) = 15.87 % sit at the limit and the mean is phi(1) - Phi(-1); cut off, it is phi(1)
// / Phi(1).
TEST(Population, DrawsBelowMinus100AreClippedOrRejectedAsAsked) {
    PopulationParameters p;
    p.count = 8192;
    p.spread.macula_percent = 100.0;
    const double density = std::exp(-0.5) / std::sqrt(2.0 * std::numbers::pi);
    const double below = 0.5 * std::erfc(1.0 / std::numbers::sqrt2);
    const Eigen::VectorXd clipped = parameters_of(Population(p)).col(2);
    EXPECT_EQ(clipped.minCoeff(), -100.0);
    EXPECT_NEAR((clipped.array() == -100.0).cast<double>().mean(), below, 2e-4);
    EXPECT_NEAR(clipped.mean(), 100.0 * (density - below), 0.2);
    p.below_minus_100 = BelowMinus100::reject;
    const Eigen::VectorXd rejected = parameters_of(Population(p)).col(2);
    EXPECT_GE(rejected.minCoeff(), -100.0);
    EXPECT_LE((rejected.array() == -100.0).count(), 1);
    EXPECT_NEAR(rejected.mean(), 100.0 * density / (1.0 - below), 0.2);
    // Shifts have no such limit and stay as they were.
    PopulationParameters usual;
    usual.count = p.count;
    EXPECT_EQ(parameters_of(Population(p)).col(6), parameters_of(Population(usual)).col(6));
}

TEST(Population, WithoutSpreadEveryoneIsAverage) {
    PopulationParameters p;
    p.spread = {};
    p.ages = Ages::range(40.0, 40.0);
    for (const Individual& person : Population(p).individuals()) {
        EXPECT_EQ(person.deviations, Deviations{});
        EXPECT_EQ(person.conditions, (ConeConditions{40.0, 2.0}));
    }
}

// Source of the counts: US Census 2010, people of 20, 30, 40, 50, 60 and 70 years. Balanced points meet each share within one
// person for each limit between two ages.
TEST(Ages, CountedAgesComeInProportion) {
    const std::vector<AgeCount> census = {{70, 2043121}, {20, 4519129}, {30, 4285668},
                                          {40, 4383274}, {50, 4660295}, {60, 3621131}};
    double total = 0.0;
    for (const AgeCount& entry : census) {
        total += entry.count;
    }
    PopulationParameters p;
    p.count = 4096;
    p.ages = Ages::counted(census);
    const Eigen::VectorXd ages = parameters_of(Population(p)).col(0);
    for (const AgeCount& entry : census) {
        const auto found = static_cast<double>((ages.array() == entry.age_years).count());
        EXPECT_NEAR(found, 4096.0 * entry.count / total, 2.0) << entry.age_years;
    }
}

TEST(Ages, ListsHoldNothingElse) {
    const std::vector<double> household = {71.5, 34.0, 36.0, 36.0};
    PopulationParameters p;
    p.ages = Ages::list(household);
    const Eigen::VectorXd ages = parameters_of(Population(p)).col(0);
    EXPECT_EQ((ages.array() == 34.0).count(), 256);
    EXPECT_EQ((ages.array() == 36.0).count(), 512);
    EXPECT_EQ((ages.array() == 71.5).count(), 256);
}

TEST(Ages, QuantilesRunFromTheYoungestToTheOldest) {
    const Ages range = Ages::range(25.0, 75.0);
    EXPECT_EQ(range.quantile(0.5), 50.0);
    EXPECT_NEAR(range.quantile(0x1p-53), 25.0, 1e-12);
    EXPECT_LE(range.quantile(1.0 - 0x1p-53), 75.0);
    const Ages counted = Ages::counted({{30.0, 1.0}, {40.0, 0.0}, {50.0, 3.0}});
    EXPECT_EQ(counted.quantile(0x1p-53), 30.0);
    EXPECT_EQ(counted.quantile(0.249), 30.0);
    EXPECT_EQ(counted.quantile(0.25), 50.0);
    EXPECT_EQ(counted.quantile(1.0 - 0x1p-53), 50.0);
}

TEST(Ages, SayWhatTheyAre) {
    EXPECT_EQ(Ages::range(20.0, 70.0).describe(), "20 to 70 years, evenly");
    EXPECT_EQ(Ages::counted({{30.0, 1.0}, {50.0, 3.0}}).describe(),
              "2 ages from 30 to 50 years, by number");
    EXPECT_EQ(
        Population(PopulationParameters{}).describe(),
        "1024 people, 20 to 70 years, evenly, field 2 degrees, scrambled Sobol points, seed 1");
}

TEST(Ages, Refuse) {
    EXPECT_TRUE(
        contains(refusal(ErrorKind::domain, [] { (void)Ages::range(19.0, 70.0); }), "19 to 70"));
    refusal(ErrorKind::domain, [] { (void)Ages::range(50.0, 40.0); });
    EXPECT_TRUE(contains(refusal(ErrorKind::domain,
                                 [] {
                                     (void)Ages::counted({{30, 1}, {85, 1}});
                                 }),
                         "age 85"));
    EXPECT_TRUE(contains(refusal(ErrorKind::domain,
                                 [] {
                                     (void)Ages::counted({{30, 1.5}});
                                 }),
                         "1.5 people"));
    refusal(ErrorKind::domain, [] { (void)Ages::counted({{30, -1}}); });
    refusal(ErrorKind::shape, [] { (void)Ages::counted({{30, 0}}); });
    refusal(ErrorKind::shape, [] { (void)Ages::list({}); });
}

TEST(Population, Refuses) {
    const auto with = [](auto change) {
        PopulationParameters p;
        change(p);
        return Population(p);
    };
    EXPECT_TRUE(contains(
        refusal(ErrorKind::domain, [&] { (void)with([](auto& p) { p.count = 0; }); }), "0 people"));
    EXPECT_TRUE(contains(
        refusal(ErrorKind::domain, [&] { (void)with([](auto& p) { p.field_deg = 0.5; }); }),
        "0.5 degrees"));
    EXPECT_TRUE(contains(refusal(ErrorKind::domain,
                                 [&] { (void)with([](auto& p) { p.spread.lens_percent = -1; }); }),
                         "deviation 1 of 8"));
    refusal(ErrorKind::domain, [&] { (void)with([](auto& p) { p.spread.l_shift_nm = 5.0; }); });
    EXPECT_TRUE(
        contains(refusal(ErrorKind::domain, [&] { (void)with([](auto&) {}).individual(1024); }),
                 "person 1024"));
}

}  // namespace
}  // namespace samelight
