// Taking out a bandwidth that is wider than the step, against instruments whose truth is known.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Core>

#include "line_spectra.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/bandpass.hpp"
#include "samelight/spectrum/bandwidth.hpp"
#include "samelight/spectrum/bandwidth_method.hpp"
#include "samelight/spectrum/deconvolution.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/passband.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

using test::lines_on;

double sum_of(const Spectrum& spectrum) {
    return std::accumulate(spectrum.values().begin(), spectrum.values().end(), 0.0);
}

double variance_of(const Spectrum& spectrum) {
    double sum = 0.0;
    double first = 0.0;
    double second = 0.0;
    for (std::size_t i = 0; i < spectrum.size(); ++i) {
        const double value = spectrum.values()[i];
        const double nm = spectrum.wavelengths_nm()[i] - 550.0;
        sum += value;
        first += value * nm;
        second += value * nm * nm;
    }
    return second / sum - first * first / (sum * sum);
}

Spectrum read_with(double bandwidth_nm, double step_nm, double noise, const Spectrum& truth,
                   std::uint64_t seed = 1) {
    ReadingInstrument instrument;
    instrument.bandwidth_nm = bandwidth_nm;
    instrument.step_nm = step_nm;
    instrument.noise = noise;
    return read_by(instrument, truth, seed);
}

const Sampling fine(380.0, 0.1, 4001);

TEST(Passband, MatrixRowsSumToOneAndCubicsWidenByTheTrianglesVariance) {
    // Second route: the moments of a triangle (variance b^2 / 6, no skew), even and uneven grids.
    std::vector<double> nm;
    for (int i = 0; i < 101; ++i) {
        nm.push_back(500.0 + i + 0.3 * std::sin(1.7 * i));
    }
    for (const double bandwidth : {1.5, 4.0, 9.0}) {
        Eigen::MatrixXd matrix = Eigen::MatrixXd::Zero(101, 101);
        for (const detail::PassbandWeight& w : detail::passband_weights(nm, bandwidth)) {
            matrix(w.measured, w.sample) += w.weight;
        }
        Eigen::VectorXd cubic(101);
        for (Eigen::Index i = 0; i < 101; ++i) {
            const double t = (nm[static_cast<std::size_t>(i)] - 550.0) / 10.0;
            cubic[i] = 1.0 + t + 2.0 * t * t - t * t * t;
        }
        const Eigen::VectorXd row_sums = matrix * Eigen::VectorXd::Ones(101);
        EXPECT_NEAR((row_sums.array() - 1.0).abs().maxCoeff(), 0.0, 1e-12);
        const Eigen::VectorXd wide = matrix * cubic;
        for (Eigen::Index i = 12; i < 89; ++i) {
            const double t = (nm[static_cast<std::size_t>(i)] - 550.0) / 10.0;
            const double variance = bandwidth * bandwidth / 6.0 / 100.0;
            EXPECT_NEAR(wide[i], cubic[i] + variance * (2.0 - 3.0 * t), 1e-9) << bandwidth;
        }
    }
}

TEST(Deconvolution, TheSmoothingThatIsSaidIsTheLambdaOfItsDefinition) {
    // Where |K s - m|^2 + lambda |L s|^2 is least its derivative along s is none: lambda = (K s)' (m - K s) / |L s|^2, with L the differences 1, -2, 1.
    const Spectrum read =
        read_with(5.0, 2.0, 0.004, lines_on(fine, {{450.0, 25.0, 1.0}, {550.0, 60.0, 0.6}}));
    const Deconvolution freed = deconvolve(read, 5.0);
    ASSERT_EQ(freed.held, 0U);
    const auto n = static_cast<Eigen::Index>(read.size());
    const Eigen::Map<const Eigen::VectorXd> m(read.values().data(), n);
    const Eigen::Map<const Eigen::VectorXd> s(freed.spectrum.values().data(), n);
    Eigen::VectorXd seen = Eigen::VectorXd::Zero(n);
    for (const detail::PassbandWeight& w : detail::passband_weights(read.wavelengths_nm(), 5.0)) {
        seen[w.measured] += w.weight * s[w.sample];
    }
    double roughness = 0.0;
    for (Eigen::Index i = 1; i + 1 < n; ++i) {
        const double second = s[i - 1] - 2.0 * s[i] + s[i + 1];
        roughness += second * second;
    }
    EXPECT_NEAR(seen.dot(m - seen) / roughness / freed.smoothing, 1.0, 1e-6);
}

TEST(Deconvolution, NoBandwidthAndNoLightChangeNothing) {
    const Spectrum line = lines_on(Sampling(), {{560.0, 3.0, 1.0}});
    EXPECT_EQ(deconvolve(line, 0.0).spectrum, line);
    EXPECT_EQ(deconvolve(line, 0.0).noise_gain, 1.0);
    const Spectrum dark(Sampling(), std::vector<double>(401, 0.0));
    EXPECT_EQ(deconvolve(dark, 5.0).spectrum, dark);
}

TEST(Deconvolution, ASmoothSpectrumComesBack) {
    const Spectrum truth = lines_on(fine, {{450.0, 25.0, 1.0}, {550.0, 60.0, 0.6}});
    const Spectrum read = read_with(5.0, 1.0, 0.0, truth);
    const Deconvolution freed = deconvolve(read, 5.0);
    double before = 0.0;
    double after = 0.0;
    for (std::size_t i = 0; i < read.size(); ++i) {
        const double was = truth.at(read.wavelengths_nm()[i]);
        before = std::max(before, std::abs(read.values()[i] - was));
        after = std::max(after, std::abs(freed.spectrum.values()[i] - was));
    }
    EXPECT_GT(before, 0.015);
    EXPECT_LT(after, 1e-3);
}

TEST(Deconvolution, WidthAndAmountOfANarrowLineAreRightWhateverItsShape) {
    // The amount of light stays, and the triangle's variance b^2 / 6 (elementary) is gone, with no waves held.
    const Spectrum truth = lines_on(fine, {{561.3, 3.0, 1.0}});
    for (const double step : {2.0, 2.5, 4.0}) {
        const Spectrum read = read_with(5.0, step, 0.0, truth);
        const Deconvolution freed = deconvolve(read, 5.0);
        EXPECT_NEAR(sum_of(freed.spectrum) / sum_of(read), 1.0, 1e-9) << step;
        EXPECT_NEAR(variance_of(read) - variance_of(freed.spectrum), 25.0 / 6.0, 0.01) << step;
        EXPECT_EQ(freed.held, 0U);
        EXPECT_LT(freed.lowest, -0.01) << "waves";
    }
}

TEST(Deconvolution, OnAFineGridNothingFallsBelowNothingAndTheLightStays) {
    const Spectrum truth =
        lines_on(fine, {{450.3, 18.0, 0.4}, {631.0, 3.0, 1.0}, {614.0, 3.0, 0.4}});
    for (const double step : {0.5, 1.0, 1.25}) {
        const Spectrum read = read_with(5.0, step, 0.0, truth);
        const Deconvolution freed = deconvolve(read, 5.0);
        EXPECT_GT(freed.held, 0U);
        EXPECT_GE(freed.lowest, 0.0);
        EXPECT_NEAR(sum_of(freed.spectrum) / sum_of(read), 1.0, 1e-3) << step;
        EXPECT_GT(freed.spectrum.peak(), 1.2 * read.peak()) << "sharper";
    }
    const Spectrum noisy = read_with(5.0, 1.0, 0.002, truth);
    const auto v = noisy.values();
    EXPECT_GE(deconvolve(noisy, 5.0).lowest * noisy.peak(),
              *std::min_element(v.begin(), v.end()) - 1e-12);
}

TEST(Deconvolution, NoiseGrowsAsItSays) {
    // Second route: the same light read 120 times, by its scatter in the middle of the spectrum (well above the floor).
    const Spectrum truth = lines_on(fine, {{580.0, 120.0, 1.0}});
    DeconvolutionOptions options;
    options.noise =
        0.0;  // the least smoothing that the bound on the gain allows, the same each time
    options.largest_noise_gain = 3.0;
    double squares = 0.0;
    double said = 0.0;
    const double was = deconvolve(read_with(5.0, 1.0, 0.0, truth), 5.0, options).spectrum.at(580.0);
    for (std::uint64_t seed = 0; seed < 120; ++seed) {
        const Deconvolution freed =
            deconvolve(read_with(5.0, 1.0, 0.002, truth, seed), 5.0, options);
        squares += std::pow(freed.spectrum.at(580.0) - was, 2);
        said = freed.noise_gain;
    }
    const double gain = std::sqrt(squares / 120.0) / 0.002 / read_with(5.0, 1.0, 0.0, truth).peak();
    EXPECT_LE(said, 3.0);
    EXPECT_GT(said, 2.9);
    EXPECT_NEAR(gain / said, 1.0, 4.0 / std::sqrt(240.0));
}

TEST(Deconvolution, MoreNoiseMeansMoreSmoothingWithinItsBounds) {
    const Spectrum truth = lines_on(fine, {{450.0, 18.0, 0.5}, {631.0, 6.0, 1.0}});
    double smoothing = 0.0;
    for (const double noise : {1e-4, 1e-3, 1e-2}) {
        const Deconvolution freed = deconvolve(read_with(5.0, 1.0, noise, truth), 5.0);
        EXPECT_GE(freed.smoothing, smoothing);
        EXPECT_GE(freed.noise_gain, 0.99);
        EXPECT_LE(freed.noise_gain, 4.0);
        smoothing = freed.smoothing;
    }
    // In between, what is left over is the noise (the discrepancy principle); held samples leave a little more.
    DeconvolutionOptions options;
    options.noise = 2e-3;
    const Deconvolution freed = deconvolve(read_with(5.0, 2.0, 2e-3, truth), 5.0, options);
    if (freed.noise_gain > 1.01 && freed.noise_gain < 3.99) {
        EXPECT_NEAR(freed.misfit / 2e-3, 1.0, 0.02);
    } else {
        ADD_FAILURE() << "the case doesn't show it: gain " << freed.noise_gain;
    }
}

TEST(Deconvolution, RefusesWhatMakesNoSense) {
    const Spectrum line = lines_on(Sampling(), {{560.0, 3.0, 1.0}});
    EXPECT_THROW(deconvolve(line, -1.0), Error);
    EXPECT_THROW(deconvolve(line, 500.0), Error);
    EXPECT_THROW(deconvolve(line, 61.0), Error);
    DeconvolutionOptions options;
    options.noise = -1.0;
    EXPECT_THROW(deconvolve(line, 5.0, options), Error);
    options.noise = 0.0;
    options.largest_noise_gain = 0.5;
    EXPECT_THROW(deconvolve(line, 5.0, options), Error);
}

// What was read through 5 nm agrees with that, however narrow its lines and whatever the noise, and not with 1.6 times as much or more.
TEST(Bandwidth, OneThatIsFarTooWideIsContradicted) {
    const Spectrum lasers =
        lines_on(fine, {{465.0, 1.0, 1.0}, {525.0, 1.0, 1.0}, {638.0, 1.0, 1.0}});
    const Spectrum panel =
        lines_on(fine, {{631.0, 3.0, 1.0}, {613.0, 3.0, 0.4}, {535.0, 50.0, 0.2}});
    const Spectrum smooth = lines_on(fine, {{560.0, 150.0, 1.0}});
    for (const double noise : {0.0, 1e-3, 5e-3}) {
        for (const double step : {1.0, 2.0}) {
            for (const Spectrum* truth : {&lasers, &panel, &smooth}) {
                const Spectrum read = read_with(5.0, step, noise, *truth);
                for (const double bandwidth : {3.0, 5.0, 5.5}) {
                    const auto freed = correct_bandwidth(read, bandwidth);
                    EXPECT_FALSE(freed.contradicted()) << freed.misfit;
                    EXPECT_LT(freed.misfit, bandwidth > 5.0 ? 0.02 : 0.01);
                }
                for (const double bandwidth : {8.0, 12.0, 20.0}) {
                    EXPECT_EQ(correct_bandwidth(read, bandwidth).contradicted(), truth != &smooth)
                        << bandwidth << " at " << step << ", noise " << noise;
                }
            }
        }
    }
}

TEST(Bandwidth, IsTakenOutByTheWayThatSuitsTheStep) {
    const Spectrum five = lines_on(Sampling(380.0, 5.0, 81), {{560.0, 30.0, 1.0}});
    EXPECT_EQ(correct_bandwidth(five, 0.0).method, BandwidthMethod::none);
    EXPECT_EQ(correct_bandwidth(five, 5.0).method, BandwidthMethod::stearns);
    EXPECT_EQ(correct_bandwidth(five, 5.0).spectrum, stearns_bandpass(five));
    EXPECT_EQ(correct_bandwidth(five, 5.05).method, BandwidthMethod::stearns);
    EXPECT_EQ(correct_bandwidth(five, 10.0).method, BandwidthMethod::deconvolution);
    EXPECT_EQ(correct_bandwidth(five, 10.0).spectrum, deconvolve(five, 10.0).spectrum);
    EXPECT_THROW(correct_bandwidth(five, 4.0), Error);
    EXPECT_THROW(correct_bandwidth(five, -4.0), Error);
}

}  // namespace
}  // namespace samelight
