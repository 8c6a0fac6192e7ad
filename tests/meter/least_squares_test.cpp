// Least squares in its kinds, each by a second route, and how matrices move with the readings.
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/LU>
#include <Eigen/QR>

#include "meter/example.hpp"
#include "meter/simulated_calibration.hpp"
#include "numeric/refusals.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/correction/fit_least_squares.hpp"
#include "samelight/meter/readings/noise.hpp"
#include "samelight/meter/readings/pair_columns.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

test::SimulatedCalibration squares_display() {
    return {generic_panel(generic_model("oled-rgb")), test::invented_meters().front()};
}

/// Seven patches, three rounds, noise that leaves residuals.
ReadingSet noisy_set(const test::SimulatedNoise& noise = {0.001, 0.02}) {
    std::vector<test::Shown> patches = test::rgbw();
    patches.push_back({"yellow", {1, 1, 0}});
    patches.push_back({"cyan", {0, 1, 1}});
    patches.push_back({"skin", {0.7, 0.4, 0.3}});
    test::Random random(11);
    return ReadingSet(squares_display().read(random, 3, noise, patches));
}

FitOptions fitted_by(CorrectionMethod method) {
    FitOptions options;
    options.method = method;
    return options;
}

Eigen::Matrix3d whole_matrix(const Correction& c) { return c.luminance_factor * c.matrix(); }

Eigen::MatrixXd means(const ReadingSet& set, Instrument instrument) {
    Eigen::MatrixXd rows(static_cast<Eigen::Index>(set.patches().size()), 3);
    for (std::size_t i = 0; i < set.patches().size(); ++i) {
        rows.row(static_cast<Eigen::Index>(i)) =
            detail::xyz_column(set.patches()[i].of(instrument)).transpose();
    }
    return rows;
}

// Second route: Householder QR on the rows.
TEST(LeastSquares, AgreesWithQr) {
    const ReadingSet set = noisy_set();
    const Eigen::MatrixXd m = means(set, Instrument::meter);
    const Eigen::MatrixXd r = means(set, Instrument::reference);
    const Eigen::Matrix3d expected = m.colPivHouseholderQr().solve(r).transpose();
    const Correction c = fit_correction(set, fitted_by(CorrectionMethod::least_squares));
    EXPECT_LT((whole_matrix(c) - expected).cwiseAbs().maxCoeff(), 1e-12);

    std::vector<std::array<double, 3>> meter;
    std::vector<std::array<double, 3>> reference;
    for (Eigen::Index i = 0; i < m.rows(); ++i) {
        meter.push_back({m(i, 0), m(i, 1), m(i, 2)});
        reference.push_back({r(i, 0), r(i, 1), r(i, 2)});
    }
    const auto fast = least_squares_matrix(PairColumns(meter, reference));
    for (std::size_t k = 0; k < 9; ++k) {
        EXPECT_NEAR(fast.at(k), expected(static_cast<int>(k) / 3, static_cast<int>(k) % 3), 1e-11);
    }
}

TEST(LeastSquares, ThreeColoursAreExact) {
    const ReadingSet set = noisy_set();
    const Correction c = fit_correction(set, fitted_by(CorrectionMethod::three_colour));
    for (const PatchResidual& r : c.residuals) {
        EXPECT_EQ(r.fitted, r.patch == "red" || r.patch == "green" || r.patch == "blue");
        if (r.fitted) {
            EXPECT_LT(r.after.xy(), 1e-13);
            EXPECT_LT(std::abs(r.after.luminance), 1e-13);
        }
    }
}

// White is exact, and among all matrices that keep it exact this one leaves least: any step along directions that white doesn't feel is
// worse. Second route: a very heavy weight on white in plain least squares.
TEST(LeastSquares, WhiteExact) {
    const ReadingSet set = noisy_set();
    const Correction c =
        fit_correction(set, fitted_by(CorrectionMethod::white_exact_least_squares));
    const auto& white = c.residuals[3];
    ASSERT_EQ(white.patch, "white");
    EXPECT_LT(white.after.xy(), 1e-13);
    EXPECT_LT(std::abs(white.after.luminance), 1e-13);

    Eigen::MatrixXd m = means(set, Instrument::meter);
    Eigen::MatrixXd r = means(set, Instrument::reference);
    constexpr double heavy = 1e5;
    m.row(3) *= heavy;
    r.row(3) *= heavy;
    const Eigen::Matrix3d expected = m.colPivHouseholderQr().solve(r).transpose();
    EXPECT_LT((whole_matrix(c) - expected).cwiseAbs().maxCoeff(), 1e-8);
}

double weighted_cost(const ReadingSet& set, const ReadingNoise& noise,
                     const Eigen::Matrix3d& weights_of, const Eigen::Matrix3d& m) {
    double cost = 0.0;
    for (const Patch& patch : set.patches()) {
        const detail::TristimulusPair p{
            detail::xyz_column(patch.meter), detail::xyz_column(patch.reference),
            detail::xyz_by_xyY(patch.meter), detail::xyz_by_xyY(patch.reference)};
        const Eigen::Matrix3d c =
            detail::residual_covariance(p, weights_of, noise, static_cast<double>(patch.count()));
        const Eigen::Vector3d e = p.reference - m * p.meter;
        cost += e.dot(c.inverse() * e);
    }
    return cost;
}

// The minimum of the weighted sum, by looking around it; and with luminance noise that dwarfs the rest it becomes as blind to luminance as
// the four-colour method.
TEST(LeastSquares, WeightedByCovariance) {
    const ReadingSet set = noisy_set();
    const Correction c = fit_correction(set, fitted_by(CorrectionMethod::weighted_least_squares));
    const Eigen::Matrix3d m = whole_matrix(c);
    const ReadingNoise noise = detail::for_weights(c.noise.front());
    const double least = weighted_cost(set, noise, m, m);
    for (Eigen::Index k = 0; k < 9; ++k) {
        for (const double step : {1e-4, -1e-4}) {
            Eigen::Matrix3d moved = m;
            moved(k / 3, k % 3) += step;
            EXPECT_GT(weighted_cost(set, noise, m, moved), least);
        }
    }
    FitOptions options = fitted_by(CorrectionMethod::weighted_least_squares);
    options.noise_from = NoiseFrom::stated;
    options.stated = stated_noise(1e-4, 0.05);
    test::Random random(4);
    const auto display_now = squares_display();
    const ReadingSet flicker(display_now.read(random, 1, {0.0, 0.05}));
    const auto white = fit_correction(flicker, options).corrected_xyz(display_now.meter({1, 1, 1}));
    EXPECT_LT(test::xy_distance_to(white, display_now.reference({1, 1, 1})), 1e-5);
    const auto plain = fit_correction(flicker, fitted_by(CorrectionMethod::least_squares))
                           .corrected_xyz(display_now.meter({1, 1, 1}));
    EXPECT_GT(test::xy_distance_to(plain, display_now.reference({1, 1, 1})), 1e-4);
}

// Second route for every method: central differences of the whole fit. The scale of the matrix is kept by a fixed white in the derivatives,
// while the fit takes the white that was read: the two differ by a factor between matrix and luminance factor, which no corrected reading
// sees, so corrected readings are compared.
TEST(LeastSquares, DerivativesAgreeWithDifferences) {
    const std::array<double, 3> colour = squares_display().meter({0.8, 0.5, 0.9});
    for (const CorrectionMethod method :
         {CorrectionMethod::four_colour, CorrectionMethod::three_colour,
          CorrectionMethod::least_squares, CorrectionMethod::weighted_least_squares,
          CorrectionMethod::white_exact_least_squares, CorrectionMethod::white_only}) {
        // Weights are held fixed in the derivatives: what their change does is proportional to the residuals, which are small here.
        const bool weighted = method == CorrectionMethod::weighted_least_squares;
        const ReadingSet set = weighted ? noisy_set({1e-6, 2e-5}) : noisy_set();
        FitOptions options = fitted_by(method);
        options.noise_from = NoiseFrom::stated;
        options.stated = stated_noise(0.001, 0.02);
        const Correction c = fit_correction(set, options);
        const detail::CorrectedPoint at = detail::corrected_point(c, colour);
        for (const NoiseTerm& term : c.noise_terms) {
            const detail::Readings3 analytic = at.by_parameters * term.matrix();
            for (Eigen::Index k = 0; k < 6; ++k) {
                constexpr double step = 1e-5;
                std::array<Eigen::Vector3d, 2> moved;
                for (std::size_t s = 0; s < 2; ++s) {
                    std::vector<PairedReading> pairs = set.pairs();
                    for (PairedReading& pair : pairs) {
                        auto& xyz = k < 3 ? pair.meter : pair.reference;
                        if (pair.patch == term.patch) {
                            auto v = xyY_from_xyz(xyz);
                            const double change = s == 0 ? step : -step;
                            v.at(static_cast<std::size_t>(k % 3)) +=
                                k % 3 == 2 ? change * v[2] : change;
                            xyz = xyz_from_xyY(v[0], v[1], v[2]);
                        }
                    }
                    moved.at(s) =
                        detail::corrected_point(fit_correction(ReadingSet(pairs), options), colour)
                            .xy_ln_luminance;
                }
                const Eigen::Vector3d difference = (moved[0] - moved[1]) / (2.0 * step);
                EXPECT_LT((analytic.col(k) - difference).cwiseAbs().maxCoeff(),
                          weighted ? 1e-4 : 1e-6)
                    << code_of(method) << ", " << term.patch << ", " << k;
            }
        }
    }
}

TEST(LeastSquares, NoiseFromResidualsIsWhatIsLeft) {
    // Read once each, 60 patches: the residuals' scatter is the noise of both instruments.
    std::vector<test::Shown> patches;
    test::Random random(21);
    for (int i = 0; i < 60; ++i) {
        patches.push_back(
            {"patch " + std::to_string(i),
             {random.between(0.2, 1), random.between(0.2, 1), random.between(0.2, 1)}});
    }
    const ReadingSet set(squares_display().read(random, 1, {0.0005, 0.005}, patches));
    FitOptions options = fitted_by(CorrectionMethod::least_squares);
    options.noise_from = NoiseFrom::residuals;
    const Correction c = fit_correction(set, options);
    EXPECT_EQ(c.degrees_of_freedom, 57.0);
    // Two instruments, so root 2 times one reading's; the standard deviation of a standard deviation from 57 is 9 %.
    EXPECT_NEAR(std::sqrt(c.noise.front().matrix()(3, 3)), 0.0005 * std::sqrt(2.0),
                4 * 0.09 * 0.0007);
    EXPECT_FALSE(c.reading_noise);
    EXPECT_EQ(fit_correction(set, fitted_by(CorrectionMethod::least_squares)).warnings.back().code,
              "no_repeats");
    for (const CorrectionMethod method :
         {CorrectionMethod::weighted_least_squares, CorrectionMethod::four_colour}) {
        FitOptions wrong = fitted_by(method);
        wrong.noise_from = NoiseFrom::residuals;
        refusal(ErrorKind::shape, [&] { static_cast<void>(fit_correction(noisy_set(), wrong)); });
    }
}

TEST(LeastSquares, Refuses) {
    std::string text = refusal(ErrorKind::shape, [] {
        static_cast<void>(fit_correction(ReadingSet(test::example_pairs(0, 2)),
                                         fitted_by(CorrectionMethod::least_squares)));
    });
    EXPECT_TRUE(contains(text, "least squares: 2 patches; wanted 3 or more")) << text;
    // A ramp of greys.
    std::vector<test::Shown> greys;
    for (int i = 1; i <= 6; ++i) {
        const double level = i / 6.0;
        greys.push_back({"grey " + std::to_string(i), {level, level, level}});
    }
    test::Random random(2);
    const ReadingSet ramp(squares_display().read(random, 2, {}, greys));
    text = refusal(ErrorKind::singular, [&] {
        static_cast<void>(fit_correction(ramp, fitted_by(CorrectionMethod::least_squares)));
    });
    EXPECT_TRUE(contains(text, "depend on each other")) << text;
    text = refusal(ErrorKind::shape, [] {
        static_cast<void>(fit_correction(ReadingSet(test::example_pairs()),
                                         fitted_by(CorrectionMethod::weighted_least_squares)));
    });
    EXPECT_TRUE(contains(text, "readings without repeats")) << text;
    text = refusal(ErrorKind::shape, [] {
        static_cast<void>(fit_correction(ReadingSet(test::example_pairs(0, 3)),
                                         fitted_by(CorrectionMethod::white_exact_least_squares)));
    });
    EXPECT_TRUE(contains(text, "no patch named \"white\"")) << text;
    FitOptions stated = fitted_by(CorrectionMethod::four_colour);
    stated.noise_from = NoiseFrom::stated;
    refusal(ErrorKind::domain, [&] { static_cast<void>(fit_correction(noisy_set(), stated)); });
    stated.noise_from = NoiseFrom::each_patch;
    text = refusal(ErrorKind::shape, [&] {
        static_cast<void>(fit_correction(ReadingSet(test::example_pairs()), stated));
    });
    EXPECT_TRUE(contains(text, "patch red read 1 time; wanted 3 repeats")) << text;
    refusal(ErrorKind::domain, [] { static_cast<void>(stated_noise(0.0, 0.1)); });
    refusal(ErrorKind::singular, [] {
        const std::vector<std::array<double, 3>> same(5, {1.0, 2.0, 3.0});
        static_cast<void>(least_squares_matrix(PairColumns(same, same)));
    });
    refusal(ErrorKind::shape, [] {
        const std::vector<std::array<double, 3>> five(5, {1.0, 2.0, 3.0});
        const std::vector<std::array<double, 3>> four(4, {1.0, 2.0, 3.0});
        static_cast<void>(PairColumns(five, four));
    });
    // Repeats that agree to the last digit leave nothing to weigh by.
    std::vector<PairedReading> copied = test::example_pairs();
    const auto once = copied;
    copied.insert(copied.end(), once.begin(), once.end());
    refusal(ErrorKind::singular, [&] {
        static_cast<void>(fit_correction(ReadingSet(copied),
                                         fitted_by(CorrectionMethod::weighted_least_squares)));
    });
}

}  // namespace
}  // namespace samelight
