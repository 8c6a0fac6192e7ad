// A large plain Monte Carlo run of a population, against which a few low-discrepancy people are judged.
// Usage: bench_population_reference [PEOPLE [SEED]], a million and 1 unless said otherwise.
//
// Prints mean and covariance of the L, M, S responses to two lights, with their standard errors, and beside them what 1,024
// scrambled Sobol people give. tests/observer/population_batch_test.cpp holds the figures of one run.
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/population_batch.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {
namespace {

/// Equal energy, and three bands such as an RGB display has: centre and full width at half maximum, nm.
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

/// N x 6: L, M, S of the first light, then of the second.
Eigen::MatrixXd responses(std::size_t people, Sampler sampler, std::uint64_t seed) {
    PopulationParameters parameters;
    parameters.count = people;
    parameters.sampler = sampler;
    parameters.seed = seed;
    const Sampling sampling;
    const auto found = population_responses(Population(parameters), sampling, two_lights(sampling));
    return Eigen::Map<const Eigen::MatrixXd>(found.values().data(), 6,
                                             static_cast<Eigen::Index>(people))
        .transpose();
}

void run(std::size_t people, std::uint64_t seed) {
    const Eigen::MatrixXd all = responses(people, Sampler::pseudo_random, seed);
    const Moments reference = moments(all);
    const Moments sobol = moments(responses(1024, Sampler::scrambled_sobol, 1));
    const auto n = static_cast<double>(people);
    const std::array<const char*, 6> names = {"L1", "M1", "S1", "L2", "M2", "S2"};
    std::printf("%zu people, seed %llu\n", people, static_cast<unsigned long long>(seed));
    std::printf(
        "mean: value, standard error, 1,024 Sobol people, and how far these are off in "
        "standard errors of 1,024 plain ones\n");
    for (int i = 0; i < 6; ++i) {
        const double value = reference.mean[static_cast<std::size_t>(i)];
        const double spread = reference.covariance.standard(i);
        const double other = sobol.mean[static_cast<std::size_t>(i)];
        std::printf("%s    %.9g  %.2g  %.9g  %+.3f\n", names[static_cast<std::size_t>(i)], value,
                    spread / std::sqrt(n), other, (other - value) / (spread / 32.0));
    }
    std::printf("covariance: the same\n");
    for (int i = 0; i < 6; ++i) {
        for (int j = 0; j <= i; ++j) {
            const Eigen::ArrayXd products =
                (all.col(i).array() - reference.mean[static_cast<std::size_t>(i)]) *
                (all.col(j).array() - reference.mean[static_cast<std::size_t>(j)]);
            const double value = reference.covariance(i, j);
            const double spread = std::sqrt((products - products.mean()).square().mean());
            const double other = sobol.covariance(i, j);
            std::printf("%s %s  %.9g  %.2g  %.9g  %+.3f\n", names[static_cast<std::size_t>(i)],
                        names[static_cast<std::size_t>(j)], value, spread / std::sqrt(n), other,
                        (other - value) / (spread / 32.0));
        }
    }
}

}  // namespace
}  // namespace samelight

int main(int argc, char** argv) {
    try {
        samelight::run(argc > 1 ? std::stoull(argv[1]) : 1000000,
                       argc > 2 ? std::stoull(argv[2]) : 1);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
    return 0;
}
