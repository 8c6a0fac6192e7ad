// How sure a corrected reading is: factors, propagation, degrees of freedom.
#include <array>
#include <cmath>
#include <limits>
#include <type_traits>
#include <utility>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Core>
#include <Eigen/LU>

#include "meter/example.hpp"
#include "meter/simulated_calibration.hpp"
#include "numeric/refusals.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

// What a temporary lends would be gone: it gives copies.
static_assert(std::is_same_v<decltype(std::declval<Correction>().matrix()), Correction::Matrix>);
static_assert(std::is_same_v<decltype(std::declval<NoiseTerm>().matrix()), NoiseTerm::Matrix>);
static_assert(
    std::is_same_v<decltype(std::declval<ReadingNoise>().matrix()), ReadingNoise::Matrix6>);
static_assert(std::is_same_v<decltype(std::declval<Certainty>().xy_covariance()), Eigen::Matrix2d>);

using test::contains;
using test::refusal;

constexpr double infinite = std::numeric_limits<double>::infinity();

// Source: JCGM 100:2008, Table G.2 (t for 95 %): 2.78 for 4, 2.26 for 9, 1.96 for infinity.
TEST(Factors, Student) {
    EXPECT_NEAR(student_factor(0.95, 4), 2.78, 0.005);
    EXPECT_NEAR(student_factor(0.95, 9), 2.26, 0.005);
    EXPECT_NEAR(student_factor(0.95, infinite), 1.96, 0.005);
}

// Second route: with two in the numerator F has a closed form, P(F(2, m) < f) = 1 - (1 + 2 f / m)^(-m / 2), and T squared is
// 2 n / (n - 1) F(2, n - 1).
TEST(Factors, Hotelling) {
    for (const double n : {2.0, 3.5, 8.0, 36.0}) {
        const double m = n - 1.0;
        const double f = 0.5 * m * (std::pow(0.05, -2.0 / m) - 1.0);
        EXPECT_NEAR(hotelling_factor(0.95, n) / std::sqrt(2.0 * n / m * f), 1.0, 1e-10) << n;
    }
    EXPECT_NEAR(hotelling_factor(0.95, infinite), std::sqrt(-2.0 * std::log(0.05)), 1e-12);
    EXPECT_NEAR(hotelling_factor(0.95, 1e7), hotelling_factor(0.95, infinite), 1e-5);
    EXPECT_EQ(hotelling_factor(0.95, 1.0), infinite);
    refusal(ErrorKind::domain, [] { static_cast<void>(hotelling_factor(1.0, 5.0)); });
    refusal(ErrorKind::domain, [] { static_cast<void>(hotelling_factor(0.95, 0.0)); });
}

/// A correction that changes nothing, of a meter whose reading scatters as stated.
Correction unchanged(const ReadingNoise& noise) {
    Correction c;
    c.observer = "cie1931-2deg";
    c.covariance = ParameterCovariance{};
    c.noise = {noise};
    c.reading_noise = 0;
    c.degrees_of_freedom = noise.degrees_of_freedom;
    return c;
}

// X, Y, Z of 95.04, 100, 108.88 with 1 % each, independent: u(x) 0.00263306, u(y) 0.00270595, correlation -0.443854 (figures computed apart
// from this code; no published source). Here they come back from x, y and relative Y through a correction that changes nothing.
TEST(Certainty, CarriesTheReadingsOwnNoise) {
    const std::array<double, 3> xyz = {95.04, 100.0, 108.88};
    const double sum = xyz[0] + xyz[1] + xyz[2];
    Eigen::Matrix3d j;
    j << sum - xyz[0], -xyz[0], -xyz[0], -xyz[1], sum - xyz[1], -xyz[1], 0.0, 0.0, 0.0;
    j /= sum * sum;
    j(2, 1) = 1.0 / xyz[1];
    const Eigen::Vector3d variance(95.04 * 95.04 * 1e-4, 1.0, 108.88 * 108.88 * 1e-4);
    const Eigen::Matrix3d c = j * variance.asDiagonal() * j.transpose();
    ReadingNoise noise;
    for (Eigen::Index a = 0; a < 3; ++a) {
        for (Eigen::Index b = 0; b < 3; ++b) {
            noise.covariance[static_cast<std::size_t>(6 * a + b)] = c(a, b);
        }
    }
    const Certainty one = certainty(unchanged(noise), xyz, 1.0);
    EXPECT_NEAR(std::sqrt(one.covariance[0]), 0.00263306, 5e-9);
    EXPECT_NEAR(std::sqrt(one.covariance[4]), 0.00270595, 5e-9);
    EXPECT_NEAR(one.covariance[1] / std::sqrt(one.covariance[0] * one.covariance[4]), -0.443854,
                5e-7);
    EXPECT_NEAR(std::sqrt(one.covariance[8]), 0.01, 1e-15);
    const Certainty four = certainty(unchanged(noise), xyz, 4.0);
    EXPECT_NEAR(four.covariance[0], one.covariance[0] / 4.0, 1e-18);
    EXPECT_EQ(certainty(unchanged(noise), xyz).covariance[0], 0.0);
    const auto half = one.half_widths();
    EXPECT_NEAR(half[0], 1.959964 * 0.00263306, 1e-8);
}

test::SimulatedCalibration sure_display() {
    return {generic_panel(generic_model("oled-rgb")), test::invented_meters().front()};
}

// Two routes: terms, and the covariance of the parameters alone (what a file keeps). The uncertainty is the same, the degrees of freedom
// fewer or equal.
TEST(Certainty, FromTermsAndFromTheCovarianceAlone) {
    test::Random random(6);
    const auto pairs = sure_display().read(random, 4, {0.0005, 0.01});
    for (const CorrectionMethod method :
         {CorrectionMethod::four_colour, CorrectionMethod::least_squares,
          CorrectionMethod::weighted_least_squares}) {
        FitOptions options;
        options.method = method;
        const Correction c = fit_correction(ReadingSet(pairs), options);
        Correction from_file = c;
        from_file.noise_terms.clear();
        for (const std::array<double, 3>& drive :
             {std::array<double, 3>{1, 1, 1}, {0.3, 0.9, 0.1}, {0, 0, 1}}) {
            const Certainty a = certainty(c, sure_display().meter(drive));
            const Certainty b = certainty(from_file, sure_display().meter(drive));
            for (std::size_t k = 0; k < 9; ++k) {
                EXPECT_NEAR(a.covariance.at(k), b.covariance.at(k), 1e-9 * a.covariance[8]);
            }
            EXPECT_LE(b.xy_degrees_of_freedom, a.xy_degrees_of_freedom + 1e-9);
            EXPECT_NEAR(b.xy_degrees_of_freedom, 12.0, 1e-9);
        }
    }
}

// For the four-colour method white's uncertainty is that of white's own readings: nothing else enters.
TEST(Certainty, FourColourWhiteRestsOnWhiteAlone) {
    FitOptions options;
    options.noise_from = NoiseFrom::stated;
    options.stated = stated_noise(0.0005, 0.01);
    test::Random random(1);
    const Correction c =
        fit_correction(ReadingSet(sure_display().read(random, 1, {0.0, 0.0})), options);
    const auto white = detail::corrected_point(c, sure_display().meter({1, 1, 1}));
    for (const NoiseTerm& term : c.noise_terms) {
        const detail::Readings3 moved = white.by_parameters * term.matrix();
        if (term.patch == "white") {
            // As far as the reference's reading moves, so does the corrected white.
            EXPECT_LT((moved.block<2, 2>(0, 3) - Eigen::Matrix2d::Identity()).cwiseAbs().maxCoeff(),
                      1e-12);
        } else {
            EXPECT_LT(moved.topRows<2>().cwiseAbs().maxCoeff(), 1e-12);
        }
    }
}

// Welch and Satterthwaite for one quantity: two independent parts with variances v1, v2 and n1, n2 degrees of freedom have
// (v1 + v2)^2 / (v1^2 / n1 + v2^2 / n2). Source: JCGM 100:2008, eq. G.2b.
TEST(Certainty, DegreesOfFreedomOfASum) {
    ReadingNoise a = stated_noise(0.001, 0.01);
    ReadingNoise b = stated_noise(0.002, 0.01);
    a.degrees_of_freedom = 4.0;
    b.degrees_of_freedom = 9.0;
    detail::Readings3 unit = detail::Readings3::Zero();
    unit(0, 0) = unit(1, 1) = unit(2, 2) = 1.0;
    const std::vector<detail::CarriedTerm> terms = {{unit, 0}, {unit, 1}};
    const std::vector<ReadingNoise> noise = {a, b};
    const Eigen::Matrix3d total = detail::total_covariance(terms, noise);
    EXPECT_NEAR(detail::effective_degrees_of_freedom(terms, noise, total, 0, 1),
                25.0 / (1.0 / 4.0 + 16.0 / 9.0), 1e-10);
    // Equal shares in x and y: the same for both together.
    EXPECT_NEAR(detail::effective_degrees_of_freedom(terms, noise, total, 0, 2),
                25.0 / (1.0 / 4.0 + 16.0 / 9.0), 1e-10);
    // Two terms that share one estimate are known no better than it is.
    const std::vector<detail::CarriedTerm> shared = {{unit, 1}, {unit, 1}};
    EXPECT_NEAR(detail::effective_degrees_of_freedom(shared, noise,
                                                     detail::total_covariance(shared, noise), 0, 2),
                9.0, 1e-10);
}

// Second route: every pair of terms by itself, with matrices (Krishnamoorthy & Yu 2004, as effective_degrees_of_freedom() says): terms and
// covariances at random, nothing symmetric but these, two estimates shared by some of the terms and one that is exact.
TEST(Certainty, DegreesOfFreedomAreThoseOfThePairsOfTerms) {
    test::Random random(64);
    std::vector<ReadingNoise> noise(3);
    for (std::size_t g = 0; g < 3; ++g) {
        Eigen::Matrix<double, 6, 6> root;
        for (double& v : root.reshaped()) {
            v = random.normal();
        }
        Eigen::Map<Eigen::Matrix<double, 6, 6>>(noise[g].covariance.data()) =
            root * root.transpose();
        noise[g].degrees_of_freedom =
            g == 2 ? std::numeric_limits<double>::infinity() : 3.0 + 4.0 * static_cast<double>(g);
    }
    std::vector<detail::CarriedTerm> terms;
    for (std::size_t i = 0; i < 8; ++i) {
        detail::Readings3 by_reading;
        for (double& v : by_reading.reshaped()) {
            v = random.normal();
        }
        terms.push_back({by_reading, i % 3});
    }
    const Eigen::Matrix3d total = detail::total_covariance(terms, noise);
    for (const auto& [first, size] :
         std::vector<std::pair<Eigen::Index, Eigen::Index>>{{0, 1}, {2, 1}, {0, 2}, {1, 2}}) {
        const Eigen::MatrixXd inverse = total.block(first, first, size, size).inverse();
        double variance = 0.0;
        for (const detail::CarriedTerm& a : terms) {
            for (const detail::CarriedTerm& b : terms) {
                if (a.group == b.group && a.group != 2) {
                    const Eigen::Map<const Eigen::Matrix<double, 6, 6>> s(
                        noise[a.group].covariance.data());
                    const Eigen::MatrixXd g =
                        inverse * (a.by_reading * s * b.by_reading.transpose())
                                      .block(first, first, size, size);
                    variance += (g.trace() * g.trace() + (g * g).trace()) /
                                noise[a.group].degrees_of_freedom;
                }
            }
        }
        const double p = static_cast<double>(size);
        const double wanted = p * (p + 1.0) / variance;
        EXPECT_NEAR(detail::effective_degrees_of_freedom(terms, noise, total, first, size), wanted,
                    1e-10 * wanted)
            << first << " " << size;
    }
}

// What the display does to both instruments at once drops out of the luminance factor: flicker of 3 % in common, 0.2 % of their own.
TEST(Certainty, CommonFlickerDropsOutOfTheLuminanceFactor) {
    test::Random random(13);
    std::vector<PairedReading> pairs = sure_display().read(random, 6, {0.0005, 0.002});
    for (PairedReading& pair : pairs) {
        const double flicker = 1.0 + 0.03 * random.normal();
        for (std::size_t k = 0; k < 3; ++k) {
            pair.reference[k] *= flicker;
            pair.meter[k] *= flicker;
        }
    }
    const Certainty white =
        certainty(fit_correction(ReadingSet(pairs)), sure_display().meter({1, 1, 1}));
    const double expected = 0.002 * std::sqrt(2.0 / 6.0);
    EXPECT_NEAR(std::sqrt(white.covariance[8]) / expected, 1.0, 0.5);
}

TEST(Certainty, WarnsWhereNoiseDiffers) {
    test::Random random(3);
    const auto warned = [](const Correction& c) {
        for (const Warning& w : c.warnings) {
            if (w.code == "noise_differs") {
                return true;
            }
        }
        return false;
    };
    std::vector<test::Shown> patches = test::rgbw();
    patches[2].noise_factor = 12.0;
    EXPECT_TRUE(warned(fit_correction(ReadingSet(sure_display().read(random, 5, {}, patches)))));
    // Without a fault: at most 1 in 100, so of 1,000 fewer than 20 (three standard deviations above 10).
    int false_alarms = 0;
    for (int i = 0; i < 1000; ++i) {
        false_alarms +=
            warned(fit_correction(ReadingSet(sure_display().read(random, 5, {})))) ? 1 : 0;
    }
    EXPECT_LT(false_alarms, 20);
}

TEST(Certainty, Refuses) {
    const Correction none = fit_correction(ReadingSet(test::example_pairs()));
    std::string text = refusal(ErrorKind::domain, [&] {
        static_cast<void>(certainty(none, {1, 1, 1}));
    });
    EXPECT_TRUE(contains(text, "without a covariance")) << text;
    Correction c = unchanged(stated_noise(0.001, 0.01));
    refusal(ErrorKind::domain, [&] { static_cast<void>(certainty(c, {0, 0, 0})); });
    refusal(ErrorKind::domain, [&] { static_cast<void>(certainty(c, {1, -1, 1})); });
    c.reading_noise = {};
    text = refusal(ErrorKind::domain, [&] { static_cast<void>(certainty(c, {1, 1, 1}, 1.0)); });
    EXPECT_TRUE(contains(text, "how one reading of the meter scatters")) << text;
}

// One repeat in all: a line of deviations, no plane, so no ellipse would do.
TEST(Certainty, OneRepeatSaysNothing) {
    test::Random random(3);
    std::vector<PairedReading> pairs = sure_display().read(random, 1, {});
    const auto again = sure_display().read(random, 1, {});
    pairs.push_back(again[3]);
    const Correction c = fit_correction(ReadingSet(pairs));
    EXPECT_FALSE(c.covariance);
    EXPECT_EQ(c.warnings.back().code, "no_repeats");
    pairs.push_back(again[2]);
    EXPECT_TRUE(fit_correction(ReadingSet(pairs)).covariance);
    // A plane is needed where there is one part alone.
    Certainty line;
    line.covariance = {1e-6, 1e-6, 0, 1e-6, 1e-6, 0, 0, 0, 1e-4};
    line.xy_degrees_of_freedom = 1.0;
    EXPECT_TRUE(std::isinf(line.region().semi_major));
    EXPECT_TRUE(line.region_contains(0.9, 0.9));
}

// By hand: F(2, 5) is below 5.786 in 95 % (Abramowitz & Stegun 1964, Table 26.9, from memory), so that Hotelling's T squared with 6 degrees of
// freedom is 2 x 6 / 5 of it; the eigenvalues of ((4, 1), (1, 2)) are 3 + sqrt 2 and 3 - sqrt 2.
TEST(Certainty, TheRegionIsHotellingsEllipse) {
    Certainty sure;
    sure.xy = {0.31, 0.33};
    sure.covariance = {4e-8, 1e-8, 0, 1e-8, 2e-8, 0, 0, 0, 1e-4};
    sure.xy_degrees_of_freedom = 6.0;
    const Ellipse region = sure.region();
    const double factor = std::sqrt(2.0 * 6.0 / 5.0 * 5.786);
    EXPECT_NEAR(region.semi_major, factor * std::sqrt((3.0 + std::sqrt(2.0)) * 1e-8), 2e-7);
    EXPECT_NEAR(region.semi_minor, factor * std::sqrt((3.0 - std::sqrt(2.0)) * 1e-8), 2e-7);
    // The long axis of ((4, 1), (1, 2)) points along (1 + sqrt 2, 1); both ways of asking agree about its end.
    const double length = std::hypot(1.0 + std::sqrt(2.0), 1.0);
    for (const double part : {0.99, 1.01}) {
        const double x = 0.31 + part * region.semi_major * (1.0 + std::sqrt(2.0)) / length;
        const double y = 0.33 + part * region.semi_major / length;
        EXPECT_EQ(sure.region_contains(x, y), part < 1.0);
        EXPECT_EQ(region.contains(x, y), part < 1.0);
    }
}

}  // namespace
}  // namespace samelight
