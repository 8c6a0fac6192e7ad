// Learning from matches by eye: simulated people, noisy settings, and what the predictions are worth.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <random>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/eye_match.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/target_distribution.hpp"

namespace samelight {
namespace {

// What a temporary lends would be gone: it gives copies.
static_assert(std::is_same_v<decltype(std::declval<EyeKnowledge>().matrix()), Eigen::MatrixXd>);

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
        target_distributions(std::span<const Panel>(&setup.unseen, 1), setup.reference, people)
            .front();
    const auto seen = target_distributions(setup.matched, setup.reference, people);
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
                known = learn(known, {setup.matched[m], setup.reference}, match).eye;
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
            EXPECT_LT(percentile(error[m], 95.0), percentile(error[m - 1], 95.0)) << m;
        }
    }
    EXPECT_LT(mean(error[1]), 0.5 * mean(error[0]));
}

TEST(EyeMatch, APerfectMatchOnThePanelItselfIsItsOwnAnswer) {
    const Screening setup;
    const ConeConditions conditions{45.0, 2.0, Pupil::small, PeakDensities::three_decimals};
    const EyeMatch match{{0.3050, 0.3260}, 1e-5};
    const EyeKnowledge known =
        learn(eye_of_age(conditions), {setup.matched[0], setup.reference}, match).eye;
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
        learn(before, {setup.matched[0], setup.reference}, {{0.33, 0.30}, 1e4}).eye;
    for (std::size_t k = 0; k < 64; ++k) {
        EXPECT_NEAR(after.covariance[k], before.covariance[k], 1e-6 * 1600);
    }
    EXPECT_THROW(
        static_cast<void>(learn(before, {setup.matched[0], setup.reference}, {{0.31, 0.32}, 0.0})),
        Error);
}

// Typed the wrong way round, or plainly impossible: said, and never an answer that no eye could give.
TEST(EyeMatch, AnImpossibleMatchIsSaid) {
    const Screening setup;
    const EyeKnowledge forty = eye_of_age({40.0, 2.0, Pupil::small, PeakDensities::three_decimals});
    const auto lesson = [&](double x, double y) {
        return learn(forty, {setup.matched[0], setup.reference}, {{x, y}});
    };
    EXPECT_TRUE(lesson(0.3060, 0.3185).warnings.empty());
    EXPECT_FALSE(lesson(0.3060, 0.3185).far_from_normal);
    const EyeLesson swapped = lesson(0.3185, 0.3060);
    ASSERT_EQ(swapped.warnings.size(), 1U);
    EXPECT_EQ(swapped.warnings[0].code, "eye_far_from_normal");
    EXPECT_TRUE(swapped.far_from_normal);
    EXPECT_GT(swapped.surprise, surprising_match);
    for (const auto& [x, y] : {std::pair(0.2, 0.5), std::pair(0.5, 0.4), std::pair(0.1, 0.1),
                               std::pair(0.7, 0.25), std::pair(0.33, 0.33)}) {
        try {
            const EyeLesson odd = lesson(x, y);
            EXPECT_FALSE(odd.warnings.empty()) << x << " " << y;
            for (const Panel& panel : setup.matched) {
                const Chromaticity<Cie1931_2deg> xy =
                    predict_target(odd.eye, panel, setup.reference).xy;
                EXPECT_TRUE(xy.x() > 0.0 && xy.y() > 0.0 && xy.x() + xy.y() < 1.0) << x << " " << y;
            }
        } catch (const Error& error) {
            EXPECT_NE(std::string(error.what()).find("in this order"), std::string::npos)
                << error.what();
        }
    }
}

// People drawn from the population, with noisy matches: few of them are surprising. Were targets linear in the deviations it would be
// 1 in 1,000; they aren't, densities end at none at all, and it is 9 in 2,000 here. The stated bound is 10 in 1,000.
TEST(EyeMatch, FewNormalPeopleAreSurprising) {
    const Screening setup;
    PopulationParameters parameters;
    parameters.count = 2000;
    parameters.seed = 3;
    const std::vector<Individual> people = Population(parameters).individuals();
    const auto seen = target_distributions(std::span<const Panel>(setup.matched.data(), 1),
                                           setup.reference, people)
                          .front();
    std::mt19937_64 bits(7);
    int surprising = 0;
    double sum = 0.0;
    for (std::size_t i = 0; i < people.size(); ++i) {
        const EyeLesson lesson =
            learn(eye_of_age(people[i].conditions), {setup.matched[0], setup.reference},
                  {{seen.x[i] + 0.001 * normal(bits), seen.y[i] + 0.001 * normal(bits)}});
        surprising += lesson.warnings.empty() ? 0 : 1;
        sum += lesson.surprise;
    }
    EXPECT_LT(surprising, 20);
    EXPECT_GT(surprising, 0);  // or the figure would be no distance
    // The mean of chi squared with 2 degrees of freedom is 2, of 2,000 within .045; a tenth more for targets that aren't linear.
    EXPECT_NEAR(sum / 2000.0, 2.0, 0.18 + 0.2);
    std::printf("%d of 2000 surprising, mean chi squared %.3f\n", surprising, sum / 2000.0);
}

}  // namespace
}  // namespace samelight
