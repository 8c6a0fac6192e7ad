// Learning from matches by eye: simulated people, noisy settings, and what the predictions are worth.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <random>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/display/generic_panel.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/white/eye_match.hpp"
#include "samelight/white/target.hpp"

namespace samelight {
namespace {

struct Screening {
    Reference reference = display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
    std::vector<Panel> matched = {generic_panel(generic_model("oled-rgb")),
                                  generic_panel(generic_model("oled-white")),
                                  generic_panel(generic_model("lcd-white-led"))};
    Panel unseen = generic_panel(generic_model("oled-quantum-dot"));
};

/// A normal number whose value doesn't depend on the library: Box and Muller's.
double normal(std::mt19937_64& bits) {
    const double u = (static_cast<double>(bits() >> 11) + 0.5) * 0x1.0p-53;
    const double v = static_cast<double>(bits() >> 11) * 0x1.0p-53;
    return std::sqrt(-2.0 * std::log(u)) * std::cos(2.0 * 3.14159265358979323846 * v);
}

bool covers(const PredictedTarget& predicted, double x, double y) {
    const Covariance covariance(Eigen::Map<const Eigen::Matrix<double, 2, 2, Eigen::RowMajor>>(
        predicted.covariance.data()));
    return coverage_ellipse({predicted.xy.x(), predicted.xy.y()}, covariance, 0.95).contains(x, y);
}

// 5,000 people drawn from the population, each matching three displays by eye with noise; the fourth display is predicted after
// each match. The stated 95 % regions must hold the truth in 93 to 97 % of the trials, and every match must help.
TEST(EyeMatch, RegionsHoldTheTruthAndMatchesHelp) {
    const Screening setup;
    PopulationParameters parameters;
    parameters.count = 5000;
    const Population population(parameters);
    const std::vector<Individual> people = population.individuals();
    const auto truth =
        target_clouds(std::span<const Panel>(&setup.unseen, 1), setup.reference, people).front();
    const auto seen = target_clouds(setup.matched, setup.reference, people);
    std::mt19937_64 bits(20250314);
    std::array<std::vector<double>, 4> error;
    std::array<int, 4> covered{};
    for (std::size_t i = 0; i < people.size(); ++i) {
        EyeKnowledge known = eye_of_age(people[i].conditions);
        for (std::size_t m = 0; m <= setup.matched.size(); ++m) {
            const PredictedTarget predicted = predict_target(known, setup.unseen, setup.reference);
            error[m].push_back(
                std::hypot(predicted.xy.x() - truth.x[i], predicted.xy.y() - truth.y[i]));
            covered[m] += covers(predicted, truth.x[i], truth.y[i]) ? 1 : 0;
            if (m < setup.matched.size()) {
                const EyeMatch match{
                    {seen[m].x[i] + 0.001 * normal(bits), seen[m].y[i] + 0.001 * normal(bits)},
                    0.001};
                known = learn(known, setup.matched[m], setup.reference, match);
            }
        }
    }
    for (std::size_t m = 0; m < error.size(); ++m) {
        const double share = covered[m] / 5000.0;
        std::printf("%zu matches: error mean %.5f, 95th percentile %.5f, covered %.3f\n", m,
                    mean(error[m]), percentile(error[m], 95.0), share);
        EXPECT_GE(share, 0.93) << m;
        EXPECT_LE(share, 0.97) << m;
        if (m > 0) {
            EXPECT_LT(mean(error[m]), mean(error[m - 1])) << m;
        }
    }
    EXPECT_LT(mean(error[1]), 0.5 * mean(error[0]));
}

TEST(EyeMatch, APerfectMatchOnThePanelItselfIsItsOwnAnswer) {
    const Screening setup;
    const ConeConditions conditions{45.0, 2.0, Pupil::small, PeakDensities::three_decimals};
    const EyeMatch match{{0.3050, 0.3260}, 1e-5};
    const EyeKnowledge known =
        learn(eye_of_age(conditions), setup.matched[0], setup.reference, match);
    const PredictedTarget predicted = predict_target(known, setup.matched[0], setup.reference);
    EXPECT_NEAR(predicted.xy.x(), 0.3050, 1e-4);
    EXPECT_NEAR(predicted.xy.y(), 0.3260, 1e-4);
    EXPECT_LT(std::sqrt(predicted.covariance[0]), 1.1e-5);
}

TEST(EyeMatch, AWorthlessMatchTeachesNothing) {
    const Screening setup;
    const ConeConditions conditions{45.0, 2.0, Pupil::small, PeakDensities::three_decimals};
    const EyeKnowledge before = eye_of_age(conditions);
    const EyeKnowledge after =
        learn(before, setup.matched[0], setup.reference, {{0.33, 0.30}, 1e4});
    for (std::size_t k = 0; k < 64; ++k) {
        EXPECT_NEAR(after.covariance[k], before.covariance[k], 1e-6 * 1600);
    }
    EXPECT_THROW(
        static_cast<void>(learn(before, setup.matched[0], setup.reference, {{0.31, 0.32}, 0.0})),
        Error);
}

}  // namespace
}  // namespace samelight
