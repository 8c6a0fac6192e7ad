// What a population makes of lights: the fast route against the plain one, and against a large Monte Carlo run.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Core>

#include "numeric/refusals.hpp"
#include "numeric/test_random.hpp"
#include "observer/categorical_observers.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/fundamentals_batch.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/white/reference.hpp"

namespace samelight {
namespace {

// What a temporary lends would be gone: it gives copies.
static_assert(
    std::is_same_v<decltype(std::declval<PopulationResponses>().lms(0)), PopulationResponses::Lms>);
static_assert(
    std::is_same_v<decltype(std::declval<PopulationResponses>().values()), std::vector<double>>);

using test::contains;
using test::Random;
using test::refusal;

/// People from all over the ranges: drawn with the wider spread, the ten categorical ones, and the corners.
std::vector<Individual> many_people() {
    PopulationParameters p;
    p.ages = Ages::range(20.0, 80.0);
    p.spread = literature_spread;
    p.count = 256;
    std::vector<Individual> people = Population(p).individuals();
    for (const auto& [age, deviations] : test::categorical_observers) {
        people.push_back({{age, 10.0}, deviations});
    }
    const Deviations least{-100, -100, -100, -100, -100, -40, -40, -40};
    const Deviations most{1000, 1000, 1000, 1000, 1000, 40, 40, 40};
    people.push_back({{20.0, 1.0}, least});
    people.push_back({{80.0, 10.0}, least});
    people.push_back({{80.0, 1.0}, most});
    people.push_back({{20.0, 1.0, Pupil::open, PeakDensities::unrounded}, most});
    for (const double shift : {-0.5, 0.5, 0.4999999999, 1.0, -1.0, 1e-17, -1e-17, 14.5}) {
        people.push_back({{50.0, 3.0}, {0, 0, 0, 0, 0, shift, shift, shift}});
    }
    for (const double percent : {74.0, 150.0, 250.0, 500.0}) {  // pigments beyond a density of 0.87
        people.push_back({{30.0, 2.0}, {0, 0, percent, percent, percent, 0, 0, 0}});
    }
    return people;
}

/// The largest difference of a row from the plain route, both 1 at their peak.
template <class V>
double row_error(const std::vector<Individual>& people, std::size_t count) {
    using T = math::scalar_of_t<V>;
    double worst = 0.0;
    detail::RawRows<T> rows;
    for (const Individual& person : people) {
        const auto eye = detail::eye_of(person, detail::field_densities(person.conditions));
        detail::raw_rows<V>(eye, count, rows);
        for (std::size_t cone = 0; cone < 3; ++cone) {
            const Observer::Row plain = detail::cone_row(eye, cone);
            const double peak = static_cast<double>(rows.peak[cone]);
            for (std::size_t i = 0; i < count; ++i) {
                const double value = static_cast<double>(rows.row(cone)[i]) / peak;
                worst = std::max(worst, std::abs(value - (i < plain.size() ? plain[i] : 0.0)));
            }
        }
    }
    return worst;
}

// Two routes, the stated bounds. Found: 1.3e-13 and 7e-7.
TEST(FundamentalsBatch, RowsAreThoseOfThePlainRoute) {
    const auto people = many_people();
    EXPECT_LT(row_error<math::Batch<double>>(people, 448), 1e-12);
    EXPECT_LT(row_error<math::Batch<double>>(people, detail::peak_count), 1e-12);
    EXPECT_LT(row_error<math::Batch<float>>(people, 448), 2e-6);
    EXPECT_LT(row_error<double>(people, 448), 1e-12);
    EXPECT_LT(row_error<float>(people, 448), 2e-6);
}

// Second route: the tails hold their relative precision, where 1 - 10^(-D A) written plainly would lose it. S, M and L at the last
// wavelengths are below 1e-6 of the peak.
TEST(FundamentalsBatch, TailsKeepTheirRelativePrecision) {
    detail::RawRows<double> rows;
    detail::RawRows<float> small;
    for (const auto& [age, deviations] : test::categorical_observers) {
        const Individual person{{age, 2.0}, deviations};
        const auto eye = detail::eye_of(person, detail::field_densities(person.conditions));
        detail::raw_rows<math::Batch<double>>(eye, 448, rows);
        detail::raw_rows<math::Batch<float>>(eye, 448, small);
        const Observer::Row plain = detail::cone_row(eye, 1);
        EXPECT_LT(plain[440], 2e-7);
        EXPECT_NEAR(rows.row(1)[440] / rows.peak[1] / plain[440], 1.0, 1e-12);
        EXPECT_NEAR(static_cast<double>(small.row(1)[440] / small.peak[1]) / plain[440], 1.0, 2e-6);
    }
}

// The stated bounds of the two polynomials, over their ranges. Second route: the standard library in long double.
TEST(FundamentalsBatch, PolynomialsKeepTheirBounds) {
    const auto small_exp = [](auto x) {
        using T = decltype(x);
        constexpr auto exact = detail::small_exp_coefficients<T>();
        std::array<T, exact.size()> c{};
        std::copy(exact.begin(), exact.end(), c.begin());
        return detail::horner(x, c);
    };
    const auto share = [](double z) { return z > 0.0 ? -std::expm1(-z) / z : 1.0; };
    const auto error = [](auto found, double exact) {
        return std::abs(static_cast<double>(found) / exact - 1.0);
    };
    double exp_error = 0.0;
    double exp_error_float = 0.0;
    double share_error = 0.0;
    double share_error_float = 0.0;
    for (int i = 0; i <= 20000; ++i) {
        const double x = 0.053 * (i / 10000.0 - 1.0);
        exp_error = std::max(exp_error, error(small_exp(x), std::exp(x)));
        const auto xf = static_cast<float>(x);
        exp_error_float =
            std::max(exp_error_float, error(small_exp(xf), std::exp(static_cast<double>(xf))));
        const double z = i / 10000.0;
        const auto zf = static_cast<float>(z);
        const double exact = share(static_cast<double>(zf));
        share_error = std::max(share_error, error(detail::absorbed_share(z), share(z)));
        share_error_float = std::max(share_error_float, error(detail::absorbed_share(zf), exact));
        if (z <= 0.1) {
            share_error = std::max(share_error, error(detail::small_absorbed_share(z), share(z)));
            share_error_float =
                std::max(share_error_float, error(detail::small_absorbed_share(zf), exact));
        }
    }
    EXPECT_LT(exp_error, 3e-13);
    EXPECT_LT(share_error, 1e-13);
    EXPECT_LT(exp_error_float, 2e-7);
    EXPECT_LT(share_error_float, 2e-7);
    EXPECT_EQ(detail::small_exp_coefficients<double>()[0], 1.0);
}

// The range that small_exp is stated for is never left: half of the largest step of log absorbance.
TEST(FundamentalsBatch, StepsOfAbsorbanceStayInTheRangeOfThePolynomial) {
    double largest = 0.0;
    for (const auto& pigment : detail::batch_curves<double>().log_ratio) {
        for (const double ratio : pigment) {
            largest = std::max(largest, std::abs(ratio));
        }
    }
    EXPECT_LT(0.5 * largest, 0.053);
    EXPECT_GT(0.5 * largest, 0.05);
}

/// Random lights, partly negative, on a sampling.
Eigen::MatrixXd some_lights(const Sampling& sampling, int count) {
    Random random(static_cast<std::uint64_t>(count));
    Eigen::MatrixXd lights(sampling.count(), count);
    for (double& value : lights.reshaped()) {
        value = random.between(-0.1, 1.0);
    }
    return lights;
}

/// The largest difference of responses from cone_observer() and the plain sum, over the sum of magnitudes.
double response_error(const Sampling& sampling, int lights, BatchPrecision precision) {
    const auto people = many_people();
    const Eigen::MatrixXd columns = some_lights(sampling, lights);
    const auto fast = population_responses(people, sampling, columns, {.precision = precision});
    double worst = 0.0;
    for (std::size_t i = 0; i < people.size(); i += 7) {
        const Sensitivities t = cone_observer(people[i]).on(sampling);
        const Eigen::MatrixXd plain = t.rows() * columns * sampling.step_nm();
        const Eigen::MatrixXd scale = t.rows().cwiseAbs() * columns.cwiseAbs() * sampling.step_nm();
        worst = std::max(
            worst, ((fast.lms(i) - plain).array().abs() / scale.array().max(1e-300)).maxCoeff());
    }
    return worst;
}

// Two routes, the stated bounds, for every way a sampling can lie to the whole nm and for every count of lights at a time.
TEST(PopulationBatch, ResponsesAreThoseOfEachPersonsObserver) {
    const std::array<Sampling, 7> samplings = {Sampling(),
                                               Sampling(380.0, 5.0, 81),
                                               Sampling(390.0, 1.0, 441),
                                               Sampling(385.3, 0.7, 600),
                                               Sampling(500.0, 20.0, 3),
                                               Sampling(360.0, 1.0, 471),
                                               Sampling(400.0, 1.0 / 3.0, 901)};
    for (const Sampling& sampling : samplings) {
        EXPECT_LT(response_error(sampling, 3, BatchPrecision::double_precision), 1e-12)
            << sampling.describe();
        EXPECT_LT(response_error(sampling, 3, BatchPrecision::single_precision), 2e-6)
            << sampling.describe();
    }
    for (int lights = 1; lights <= 9; ++lights) {
        EXPECT_LT(response_error(Sampling(), lights, BatchPrecision::double_precision), 1e-12);
    }
}

TEST(PopulationBatch, APopulationAndItsPeopleRespondTheSame) {
    PopulationParameters p;
    p.count = 33;
    const Population population(p);
    const Eigen::MatrixXd lights = some_lights(Sampling(), 5);
    const auto a = population_responses(population, Sampling(), lights, {.equal_energy = true});
    const auto b = population_responses(population.individuals(), Sampling(), lights);
    EXPECT_EQ(a.size(), 33u);
    EXPECT_EQ(a.lights(), 5u);
    EXPECT_EQ(a.lms(32).cols(), 5);
    for (std::size_t i = 0; i < a.values().size(); ++i) {
        EXPECT_NEAR(a.values()[i], b.values()[i], 1e-12 * b.values()[i]);
    }
}

// Second route: the sums of each person's rows.
TEST(PopulationBatch, EqualEnergyIsTheSumOfTheRows) {
    const auto people = many_people();
    for (const auto precision :
         {BatchPrecision::double_precision, BatchPrecision::single_precision}) {
        const auto found = population_responses(people, Sampling(500.0, 10.0, 5),
                                                Eigen::MatrixXd::Ones(5, 1), {precision, true});
        for (std::size_t i = 0; i < people.size(); i += 5) {
            const Observer o = cone_observer(people[i]);
            for (std::size_t k = 0; k < 3; ++k) {
                double sum = 0.0;
                for (const double value : o.row(k)) {
                    sum += value;
                }
                EXPECT_NEAR(found.equal_energy(i)[k] / sum, 1.0,
                            precision == BatchPrecision::double_precision ? 1e-12 : 2e-6);
            }
        }
    }
}

// Law: units. Lights of any strength, single precision included.
TEST(PopulationBatch, StrengthOfTheLightDoesNotMatter) {
    const std::array<Individual, 1> person = {};
    const Eigen::MatrixXd lights = some_lights(Sampling(), 1);
    for (const auto precision :
         {BatchPrecision::double_precision, BatchPrecision::single_precision}) {
        const auto one = population_responses(person, Sampling(), lights, {precision});
        const auto faint = population_responses(person, Sampling(), 1e-60 * lights, {precision});
        EXPECT_LT((1e60 * faint.lms(0) - one.lms(0)).cwiseAbs().maxCoeff(), 1e-4);
        // A dark level that was taken off: below 0 at every wavelength.
        const Eigen::MatrixXd dark = -lights.cwiseAbs();
        const auto below = population_responses(person, Sampling(), dark, {precision});
        const auto faintly = population_responses(person, Sampling(), 1e-60 * dark, {precision});
        EXPECT_LT((1e60 * faintly.lms(0) - below.lms(0)).cwiseAbs().maxCoeff(), 1e-4);
    }
}

// Not a number stays so, also where nobody sees it, and in its own light alone.
TEST(PopulationBatch, NotANumberStaysNotANumber) {
    const std::array<Individual, 1> person = {};
    for (const int place : {0, 5, 200, 400}) {
        for (const auto precision :
             {BatchPrecision::double_precision, BatchPrecision::single_precision}) {
            Eigen::MatrixXd lights = some_lights(Sampling(), 2);
            lights(place, 1) = std::nan("");
            const auto found = population_responses(person, Sampling(), lights, {precision});
            EXPECT_TRUE(found.lms(0).col(0).allFinite());
            EXPECT_TRUE(found.lms(0).col(1).array().isNaN().all()) << place;
        }
    }
}

TEST(PopulationBatch, Refuses) {
    const Population population{PopulationParameters{}};
    EXPECT_TRUE(contains(refusal(ErrorKind::shape,
                                 [&] {
                                     (void)population_responses(population, Sampling(),
                                                                Eigen::MatrixXd::Ones(81, 1));
                                 }),
                         "lights of 81 values; wanted 401 values, for 380-780 nm by 1 nm"));
    std::array<Individual, 1> person = {};
    person[0].deviations.l_shift_nm = 41.0;
    refusal(ErrorKind::domain,
            [&] { (void)population_responses(person, Sampling(), Eigen::MatrixXd::Ones(401, 1)); });
    person[0].deviations = {};
    const auto found = population_responses(person, Sampling(), Eigen::MatrixXd::Ones(401, 1));
    EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { (void)found.equal_energy(0); }),
                         "person 0 of 0"));
}

/// Equal energy, and three bands such as an RGB display has, as in bench/population_reference.cpp.
Eigen::MatrixXd two_lights(const Sampling& sampling) {
    Eigen::MatrixXd lights = Eigen::MatrixXd::Zero(sampling.count(), 2);
    for (int i = 0; i < sampling.count(); ++i) {
        lights(i, 0) = 1.0;
        for (const auto& [centre, width] :
             {std::array{455.0, 22.0}, std::array{530.0, 40.0}, std::array{630.0, 30.0}}) {
            const double distance = (sampling.wavelength_nm(i) - centre) / width;
            lights(i, 1) += std::exp2(-4.0 * distance * distance);
        }
    }
    return lights;
}

Moments moments_of_responses(std::size_t people, Sampler sampler) {
    PopulationParameters p;
    p.count = people;
    p.sampler = sampler;
    const auto found = population_responses(Population(p), Sampling(), two_lights(Sampling()));
    const Eigen::MatrixXd rows = Eigen::Map<const Eigen::MatrixXd>(
        found.values().data(), 6, static_cast<Eigen::Index>(people));
    return moments(rows.transpose());
}

struct Reference {
    int i;
    int j;
    double covariance;
    double plain_error;  ///< standard error of the covariance from one plain draw
};

// Second route: bench/population_reference.cpp, 1,000,000 plain Monte Carlo people of the default population, seed 1. Its own
// standard errors are a 1000th of those of one draw, a 31st of those of 1,024.
constexpr std::array<double, 6> reference_mean = {115.247054, 94.9921962, 58.6482512,
                                                  44.9380423, 41.0150466, 21.5798275};
constexpr std::array<Reference, 12> reference_covariance = {{{0, 0, 11.5062562, 18},
                                                             {1, 0, 12.3317661, 21},
                                                             {1, 1, 18.7588816, 29},
                                                             {2, 0, -2.44069412, 9.2},
                                                             {2, 1, -5.29078968, 13},
                                                             {2, 2, 6.38665485, 10},
                                                             {3, 3, 2.41029279, 3.5},
                                                             {4, 3, 2.3244991, 3.7},
                                                             {4, 4, 2.87489568, 4.3},
                                                             {5, 3, -0.716316126, 1.8},
                                                             {5, 4, -0.326661884, 1.8},
                                                             {5, 5, 1.07359432, 1.6}}};

/// How far the moments of `people` are from the reference at most, in standard errors of as many plain draws: means, covariances.
std::array<double, 2> distance_from_reference(std::size_t people, Sampler sampler) {
    const Moments m = moments_of_responses(people, sampler);
    const double root = std::sqrt(static_cast<double>(people));
    std::array<double, 2> largest{};
    for (const Reference& r : reference_covariance) {
        largest[1] = std::max(
            largest[1], std::abs(m.covariance(r.i, r.j) - r.covariance) / (r.plain_error / root));
        if (r.i == r.j) {
            const auto k = static_cast<std::size_t>(r.i);
            largest[0] = std::max(largest[0], std::abs(m.mean[k] - reference_mean[k]) /
                                                  (std::sqrt(r.covariance) / root));
        }
    }
    return largest;
}

// A thousand Sobol people are worth a hundred thousand plain ones for means and ten thousand for covariances: within a tenth
// and a quarter of the standard error of a thousand plain ones (found: 0.05 and 0.14). Plain ones meet the reference within
// four of theirs.
TEST(PopulationBatch, AThousandSobolPeopleDoForAMillionPlainOnes) {
    const auto sobol = distance_from_reference(1024, Sampler::scrambled_sobol);
    EXPECT_LT(sobol[0], 0.1);
    EXPECT_LT(sobol[1], 0.25);
    const auto plain = distance_from_reference(8192, Sampler::pseudo_random);
    EXPECT_LT(plain[0], 4.0);
    EXPECT_LT(plain[1], 4.0);
    EXPECT_GT(plain[0], 0.1);
}

// Stated: 2e-6. A single sum of all wavelengths in float, which is what a batch of one number makes, would be off by 2.4e-6.
TEST(PopulationBatch, SinglePrecisionKeepsItsBoundForManyPeopleAndLights) {
    PopulationParameters p;
    p.ages = Ages::range(20.0, 80.0);
    p.spread = literature_spread;
    p.count = 1000;
    const Population population(p);
    const Sampling sampling(390.0, 1.0, 441);
    const Eigen::MatrixXd lights = some_lights(sampling, 33).cwiseAbs();
    const auto single = population_responses(population, sampling, lights,
                                             {.precision = BatchPrecision::single_precision});
    const auto exact = population_responses(population, sampling, lights);
    double worst = 0.0;
    for (std::size_t i = 0; i < exact.values().size(); ++i) {
        worst = std::max(worst, std::abs(single.values()[i] / exact.values()[i] - 1.0));
    }
    EXPECT_LT(worst, 2e-6);
}

}  // namespace
}  // namespace samelight
