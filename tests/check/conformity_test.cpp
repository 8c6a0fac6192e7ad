// JCGM 106:2012's worked examples, and whether stated probabilities come true.
#include <array>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <vector>

#include <gtest/gtest.h>

#include <Eigen/Core>
#include <Eigen/LU>

#include "samelight/check/proof/conformity.hpp"
#include "samelight/check/proof/patch_difference.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/propagation.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/quantile.hpp"

namespace samelight::test {
namespace {

constexpr std::array<double, 3> gate_white{95.0, 100.0, 108.0};

TEST(Conformity, WorkedExamplesOfTheGuide) {
    // JCGM 106:2012, 7.3.2 (breakdown voltage, one upper limit: 0.92), 7.3.3 (burst strength, one lower limit: 0.99) and 7.4 (viscosity of a motor
    // oil, two limits: 0.66); from memory.
    EXPECT_NEAR(conformance_probability(-5.47, 0.05, {.high = -5.40}), 0.92, 0.005);
    EXPECT_NEAR(conformance_probability(509.7, 8.6, {.low = 490.0}), 0.99, 0.005);
    EXPECT_NEAR(conformance_probability(13.6, 1.8, {12.5, 16.3}), 0.66, 0.005);
    EXPECT_THROW(conformance_probability(1.0, 0.0, {}), Error);
}

/// Share of a normal distribution below a limit, by Simpson's rule over its density.
double share_below(double limit, double mean, double u) {
    constexpr int n = 20000;
    const double from = mean - 10.0 * u;
    const double h = (limit - from) / n;
    double sum = 0.0;
    for (int i = 0; i <= n; ++i) {
        const double z = (from + i * h - mean) / u;
        const double weight = i == 0 || i == n ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
        sum += weight * std::exp(-0.5 * z * z);
    }
    return sum * h / 3.0 / (u * std::sqrt(2.0 * M_PI));
}

TEST(Conformity, GuardBandOfTwiceTheUncertainty) {
    for (const double deviations : {-3.0, -2.0, -0.5, 0.0, 1.0, 2.0, 3.5}) {
        const double read = 3.0 - 0.1 * deviations;
        EXPECT_NEAR(conformance_probability(read, 0.1, {.high = 3.0}), share_below(3.0, read, 0.1),
                    1e-9);
    }
    // JCGM 106:2012, 8.3.2: with g = U = 2 u accepted items conform with at least 97.7 % (from memory); the table of the normal distribution has
    // 0.97725 for 2.
    EXPECT_NEAR(share_below(3.0, 2.8, 0.1), 0.97725, 5e-6);
    EXPECT_EQ(gate_verdict(0.9773), GateVerdict::pass);
    EXPECT_EQ(gate_verdict(0.9772), GateVerdict::cannot_tell);
    EXPECT_EQ(gate_verdict(0.0228), GateVerdict::cannot_tell);
    EXPECT_EQ(gate_verdict(0.0227), GateVerdict::fail);
    EXPECT_THROW(gate_verdict(1.1), Error);
}

/// A grey whose light is off by so much in Y: a difference in lightness alone, far from 0 and nearly linear.
GateQuestion one_grey(double factor, double relative) {
    GateQuestion question;
    question.white = gate_white;
    for (const double level : {0.5}) {
        question.intended.push_back(
            {level * gate_white[0], level * gate_white[1], level * gate_white[2]});
        question.measured.push_back({factor * level * gate_white[0], factor * level * gate_white[1],
                                     factor * level * gate_white[2]});
    }
    question.counts = {1};
    question.noise.relative = relative;
    question.noise.floor_cd_m2 = 0.0;
    question.noise.degrees_of_freedom = 1e6;
    return question;
}

TEST(Conformity, OnePatchFarOffAmongGoodOnesFailsThemAll) {
    // What is read of the others is nothing but noise; that says nothing of the one whose light is off by over nine of its deviations.
    GateQuestion question = one_grey(1.0, 0.005);
    PseudoRandom random(7);
    for (int i = 0; i < 132; ++i) {
        const double level = 0.02 + 0.007 * i;
        std::array<double, 3> meant{};
        std::array<double, 3> read{};
        for (std::size_t k = 0; k < 3; ++k) {
            meant.at(k) = level * gate_white.at(k);
            read.at(k) = meant.at(k) * (1.0 + 0.005 * normal_quantile(random.next_unit()));
        }
        question.intended.push_back(meant);
        question.measured.push_back(read);
        question.counts.push_back(1);
    }
    question.measured[0] = {question.intended[0][0], question.intended[0][1],
                            question.intended[0][2] * 1.10};
    const GateAnswer answer = answer_gate(question);
    EXPECT_EQ(answer.at, 0U);
    EXPECT_GT(answer.largest, 3.5);
    EXPECT_LT(answer.probability, 0.2);
    EXPECT_NE(answer.verdict, GateVerdict::pass);
    // So much noise that even what reads right may be off leaves it open, and fails nothing.
    const GateAnswer noisy = answer_gate(one_grey(1.0, 0.2));
    EXPECT_LE(noisy.largest, 1e-9);
    EXPECT_EQ(noisy.verdict, GateVerdict::cannot_tell);
}

TEST(Conformity, TheOneFarOffIsFoundWhereverItStandsAmongHundreds) {
    // Of 450 patches, which are more than are drawn, the last but nine is off, the others right.
    GateQuestion question = one_grey(1.0, 0.002);
    for (int i = 0; i < 449; ++i) {
        const double level = 0.1 + 0.002 * i;
        question.intended.push_back(
            {level * gate_white[0], level * gate_white[1], level * gate_white[2]});
        question.measured.push_back(question.intended.back());
        question.counts.push_back(1);
    }
    question.measured[440][2] *= 1.2;
    const GateAnswer answer = answer_gate(question);
    EXPECT_EQ(answer.at, 440U);
    EXPECT_GT(answer.largest, 4.0);
    EXPECT_LT(answer.probability, 0.01);
    EXPECT_EQ(answer.verdict, GateVerdict::fail);
}

TEST(Conformity, DrawnProbabilityIsThatOfPlainDraws) {
    // A second route: 20,000 draws by a generator of the test's own. 0.04: over three deviations of 2,000 draws.
    GateQuestion question = one_grey(1.3, 0.001);
    PseudoRandom random(99);
    std::vector<double> drawn;
    for (int i = 0; i < 20000; ++i) {
        std::array<double, 3> xyz = question.measured[0];
        for (double& value : xyz) {
            value *= 1.0 + 0.001 * draw_normal(random);
        }
        drawn.push_back(de00_of_lights(xyz, question.intended[0], gate_white));
    }
    for (const double probability : {0.05, 0.3, 0.7, 0.95}) {
        question.gate = sample_quantile(drawn, probability);
        EXPECT_NEAR(answer_gate(question).probability, probability, 0.04);
    }
}

TEST(Conformity, NearNothingADifferenceIsALength) {
    // Exactly on target: DE00 can't be below 0, so that the probability of a small gate is far from the normal one's 0.5 or more.
    GateQuestion question = one_grey(1.0, 0.01);
    question.gate = 0.05;
    EXPECT_LT(answer_gate(question).probability, 0.05);
    question.gate = 12.0;
    EXPECT_EQ(answer_gate(question).probability, 1.0);
}

TEST(Conformity, OfCasesStatedAtNineTenthsNineInTenConform) {
    // True errors are drawn evenly in CIELAB-like size, read with noise, and judged; of those judged at 0.85 to 0.95 the share that truly conforms is
    // counted.
    const int cases = std::getenv("SAMELIGHT_ALL_CASES") != nullptr ? 6000 : 400;
    PseudoRandom random(11);
    int stated = 0;
    int conform = 0;
    for (int i = 0; i < cases; ++i) {
        GateQuestion question;
        question.white = gate_white;
        question.noise.relative = 0.002;
        question.noise.floor_cd_m2 = 0.002;
        double truth = 0.0;
        const double width = 0.008 + 0.02 * random.next_unit();
        for (int p = 0; p < 8; ++p) {
            const double level = 0.05 + 0.9 * random.next_unit();
            const std::array<double, 3> meant{level * gate_white[0], level * gate_white[1],
                                              level * gate_white[2]};
            std::array<double, 3> real = meant;
            for (double& value : real) {
                value *= 1.0 + width * (random.next_unit() - 0.5);
            }
            truth = std::max(truth, de00_of_lights(real, meant, gate_white));
            for (double& value : real) {
                value += question.noise.standard_deviation(value) * draw_normal(random);
            }
            question.intended.push_back(meant);
            question.measured.push_back(real);
            question.counts.push_back(1);
        }
        question.gate = 3.0;
        question.noise.degrees_of_freedom = 1e6;
        const double p = answer_gate(question).probability;
        if (p >= 0.85 && p <= 0.95) {
            ++stated;
            conform += truth <= question.gate ? 1 : 0;
        }
    }
    ASSERT_GE(stated, 20);
    RecordProperty("stated", stated);
    RecordProperty("conform", conform);
    const double share = static_cast<double>(conform) / stated;
    EXPECT_GE(share, 0.8) << conform << " of " << stated;
    EXPECT_LE(share, 0.97) << conform << " of " << stated;
}

TEST(Conformity, TheCorrectionsCovarianceCounts) {
    GateQuestion question = one_grey(1.05, 0.0005);
    Correction correction;
    correction.degrees_of_freedom = 30.0;
    ParameterCovariance covariance;
    for (std::size_t i = 0; i < 9; ++i) {
        covariance.elements[10 * i] = 1e-5;
    }
    correction.covariance = covariance;
    const GateAnswer without = answer_gate(question);
    question.correction = correction;
    const GateAnswer with = answer_gate(question);
    EXPECT_GT(with.standard_uncertainty, 1.5 * without.standard_uncertainty);
    EXPECT_GT(with.from_correction, with.from_noise);
    EXPECT_EQ(without.from_correction, 0.0);
}

// Student's t goes over into the normal distribution as its degrees of freedom grow (JCGM 100:2008, G.3.2): with 1e12 of them nothing differs from
// infinitely many, as a correction of stated noise has them.
TEST(Conformity, ACorrectionOfInfiniteFreedomIsThatOfALargeOne) {
    GateQuestion question = one_grey(1.05, 0.0005);
    Correction correction;
    correction.covariance.emplace();
    for (std::size_t i = 0; i < 9; ++i) {
        correction.covariance->elements[10 * i] = 1e-5;
    }
    const auto answer_with = [&](double freedom) {
        correction.degrees_of_freedom = freedom;
        question.correction = correction;
        return answer_gate(question);
    };
    const GateAnswer large = answer_with(1e12);
    const GateAnswer infinite = answer_with(std::numeric_limits<double>::infinity());
    EXPECT_NEAR(infinite.probability, large.probability, 1e-9);
    EXPECT_NEAR(infinite.standard_uncertainty, large.standard_uncertainty,
                1e-6 * large.standard_uncertainty);
    EXPECT_GT(infinite.from_correction, 0.0);
    EXPECT_LT(infinite.from_correction, answer_with(5.0).from_correction);
    correction.covariance->elements[9] = std::numeric_limits<double>::quiet_NaN();
    EXPECT_THROW(answer_with(30.0), Error);
}

TEST(Conformity, WhatTheCorrectionDoesIsThatOfDrawnCorrections) {
    // Second route: corrections drawn by their covariance, its elements mixed from nine independent numbers, and by Student's t (normal over the root of
    // chi squared over its degrees of freedom); the readings made anew by each, the white's Y held.
    using Nine = std::array<double, 9>;
    constexpr double freedom = 7.0;
    GateQuestion question;
    question.measured = {{46.0, 42.0, 45.0}};
    question.intended = {{40.0, 42.0, 45.0}};
    question.counts = {1};
    question.white = gate_white;
    Correction correction;
    correction.reference_from_meter = {1.1, 0.05, -0.02, 0.03, 0.95, 0.01, 0.0, -0.04, 1.2};
    correction.degrees_of_freedom = freedom;
    std::array<Nine, 9> mix{};
    for (std::size_t i = 0; i < 9; ++i) {
        for (std::size_t k = 0; k < 9; ++k) {
            mix.at(i).at(k) = 1e-4 * std::sin(1.0 + 3.0 * static_cast<double>(9 * i + k));
        }
    }
    ParameterCovariance covariance;
    for (std::size_t i = 0; i < 9; ++i) {
        for (std::size_t j = 0; j < 9; ++j) {
            for (std::size_t k = 0; k < 9; ++k) {
                covariance.elements.at(9 * i + j) += mix.at(i).at(k) * mix.at(j).at(k);
            }
        }
    }
    correction.covariance = covariance;
    question.correction = correction;

    const Eigen::Matrix3d before = Eigen::Map<const Eigen::Matrix<double, 3, 3, Eigen::RowMajor>>(
        correction.reference_from_meter.data());
    const Eigen::Vector3d meter = before.inverse() * Eigen::Vector3d(46.0, 42.0, 45.0);
    const Eigen::Vector3d meter_white = before.inverse() * Eigen::Vector3d(95.0, 100.0, 108.0);
    PseudoRandom random(11);
    double sum = 0.0;
    double squares = 0.0;
    constexpr int draws = 20000;
    for (int t = 0; t < draws; ++t) {
        double chi = 0.0;
        for (int k = 0; k < 7; ++k) {
            const double z = draw_normal(random);
            chi += z * z;
        }
        Nine z{};
        for (double& value : z) {
            value = draw_normal(random) / std::sqrt(chi / freedom);
        }
        Eigen::Matrix3d drawn = before;
        for (std::size_t i = 0; i < 9; ++i) {
            for (std::size_t k = 0; k < 9; ++k) {
                drawn(static_cast<Eigen::Index>(i / 3), static_cast<Eigen::Index>(i % 3)) +=
                    mix.at(i).at(k) * z.at(k);
            }
        }
        const Eigen::Vector3d read = 100.0 / (drawn * meter_white)[1] * (drawn * meter);
        const double de00 =
            de00_of_lights({read[0], read[1], read[2]}, question.intended[0], gate_white);
        sum += de00 / draws;
        squares += de00 * de00 / draws;
    }
    const double by_draws = std::sqrt(squares - sum * sum);
    EXPECT_GT(by_draws, 0.001);
    // Four hundred draws there: a standard error of 3.5 %.
    EXPECT_NEAR(answer_gate(question).from_correction / by_draws, 1.0, 0.12);
}

TEST(Conformity, WhatIsSaidIsWhatDecides) {
    // The guard band is that at which the verdict changes: a gate a little within or beyond it decides otherwise.
    for (const double factor : {1.3, 1.5}) {
        GateQuestion question = one_grey(factor, 0.001);
        question.counts = {4};
        const GateAnswer answer = answer_gate(question);
        const auto verdict_at = [&](double gate) {
            question.gate = gate;
            return answer_gate(question).verdict;
        };
        const double passes = answer.estimate + answer.guard_band;
        EXPECT_EQ(verdict_at(passes + 1e-9), GateVerdict::pass);
        EXPECT_EQ(verdict_at(passes - 1e-9), GateVerdict::cannot_tell);
        const double fails = answer.estimate - answer.guard_band_beyond;
        EXPECT_EQ(verdict_at(fails - 1e-9), GateVerdict::fail);
        EXPECT_EQ(verdict_at(fails + 1e-9), GateVerdict::cannot_tell);
    }
}

TEST(Conformity, RefusesWhatIsNoQuestion) {
    GateQuestion question;
    EXPECT_THROW(answer_gate(question), Error);
    question = one_grey(1.0, 0.01);
    question.gate = 0.0;
    EXPECT_THROW(answer_gate(question), Error);
}

}  // namespace
}  // namespace samelight::test
