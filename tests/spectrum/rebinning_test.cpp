// How a spectrum enters the sampling of a problem: no light lost, and the plain sum over the spectrum's own wavelengths kept.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <type_traits>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/test_random.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

// What a temporary lends would be gone: it gives copies.
static_assert(std::is_same_v<decltype(std::declval<SampledLight>().column()), Eigen::VectorXd>);
static_assert(
    std::is_same_v<decltype(std::declval<SampledLight>().spread_column()), Eigen::VectorXd>);

using test::Random;

double sum(const std::vector<double>& values) {
    double total = 0.0;
    for (const double value : values) {
        total += value;
    }
    return total;
}

double whole_light(const Spectrum& s) {
    double total = 0.0;
    for (std::size_t i = 0; i < s.size(); ++i) {
        total += s.values()[i] * s.band_nm(i);
    }
    return total;
}

// An observer that is linear between the wavelengths of a sampling, and 0 outside.
double straight_between(const Sampling& grid, const std::vector<double>& at_grid, double nm) {
    const double last = static_cast<double>(grid.count() - 1);
    double position = (nm - grid.first_nm()) / grid.step_nm();
    if (position < -1e-9 || position > last + 1e-9) {
        return 0.0;  // the ends belong to the grid but for rounding, as rebinning has it
    }
    position = std::clamp(position, 0.0, last);
    const auto below = std::min(static_cast<std::size_t>(position), at_grid.size() - 2);
    const double t = position - static_cast<double>(below);
    return (1.0 - t) * at_grid[below] + t * at_grid[below + 1];
}

// Spectra of many kinds for the properties below: coarse, fine, uneven, shorter and longer than the sampling.
std::vector<Spectrum> assorted(Random& random, double low) {
    std::vector<Spectrum> result;
    for (const double mean_step : {0.13, 0.7, 1.0, 3.3, 10.0, 40.0}) {
        for (int k = 0; k < 10; ++k) {
            const double first = random.between(350.0, 420.0);
            const std::vector<double> nm =
                random.uneven(first, random.between(700.0, 830.0), mean_step);
            result.emplace_back(nm, random.values(nm.size(), low, 1.0));
        }
    }
    for (const double step : {0.1, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0}) {
        const Sampling grid(380.3, step, static_cast<int>(390.0 / step));
        result.emplace_back(grid, random.values(static_cast<std::size_t>(grid.count()), low, 1.0));
    }
    return result;
}

std::vector<Sampling> samplings() {
    return {Sampling(), Sampling(380.0, 5.0, 81), Sampling(400.0, 0.1, 3001),
            Sampling(390.7, 3.3, 97)};
}

TEST(Rebinning, TheOwnGridOfASpectrumPassesUnchanged) {
    Random random(21);
    for (const double step :
         {0.5, 1.0, 2.0, 5.0, 10.0}) {  // no rounding: wavelengths that doubles hold
        const Sampling grid(380.0, step, static_cast<int>(400.0 / step) + 1);
        const auto values = random.values(static_cast<std::size_t>(grid.count()), -0.2, 1.0);
        const SampledLight entered = rebin(Spectrum(grid, values), grid);
        EXPECT_EQ(entered.values, values);
        EXPECT_EQ(entered.outside_fraction, 0.0);
        EXPECT_EQ(entered.sampling, grid);
    }
    for (const double step : {0.1, 0.3, 1.0 / 3.0, 1.1}) {
        const Sampling grid(380.3, step, static_cast<int>(400.0 / step));
        const auto values = random.values(static_cast<std::size_t>(grid.count()), 0.1, 1.0);
        const SampledLight entered = rebin(Spectrum(grid, values), grid);
        for (std::size_t i = 0; i < values.size(); ++i) {
            EXPECT_NEAR(entered.values[i], values[i], 1e-12);
        }
        EXPECT_EQ(entered.outside_fraction, 0.0);
    }
}

TEST(Rebinning, NoLightIsLostOrMade) {
    Random random(22);
    for (const Spectrum& s : assorted(random, 0.0)) {
        for (const Sampling& grid : samplings()) {
            const SampledLight entered = rebin(s, grid);
            const double whole = whole_light(s);
            EXPECT_NEAR(sum(entered.values) * grid.step_nm() + entered.outside_fraction * whole,
                        whole, 1e-12 * whole);
            EXPECT_GE(entered.outside_fraction, 0.0);
            EXPECT_LE(entered.outside_fraction, 1.0);
            const SampledSums sums = rebin_for_sums(s, grid);
            EXPECT_EQ(sums.values, entered.values);
            EXPECT_EQ(sums.outside_fraction, entered.outside_fraction);
        }
    }
}

TEST(Rebinning, KeepsThePlainSumForEveryObserverLinearBetweenTheWavelengths) {
    // Source: CIE 15:2018, 7.1: the sum over the wavelengths at which the light was measured.
    Random random(23);
    for (const Spectrum& s : assorted(random, -0.2)) {
        for (const Sampling& grid : samplings()) {
            const auto observer = random.values(static_cast<std::size_t>(grid.count()), 0.0, 2.0);
            double plain = 0.0;
            double size = 0.0;
            for (std::size_t j = 0; j < s.size(); ++j) {
                const double seen =
                    straight_between(grid, observer, s.wavelengths_nm()[j]) * s.band_nm(j);
                plain += s.values()[j] * seen;
                size += std::abs(s.values()[j]) * seen;
            }
            const SampledLight entered = rebin(s, grid);
            double in_sampling = 0.0;
            for (std::size_t i = 0; i < observer.size(); ++i) {
                in_sampling += observer[i] * entered.values[i];
            }
            EXPECT_NEAR(in_sampling * grid.step_nm(), plain, 1e-12 * size);
        }
    }
}

TEST(Rebinning, NonNegativeStaysNonNegative) {
    Random random(24);
    for (const Spectrum& s : assorted(random, 0.0)) {
        for (const Sampling& grid : samplings()) {
            const SampledLight entered = rebin(s, grid);
            EXPECT_GE(*std::min_element(entered.values.begin(), entered.values.end()), 0.0);
        }
    }
}

TEST(Rebinning, IsLinear) {
    Random random(25);
    const std::vector<double> nm = random.uneven(370.0, 790.0, 3.0);
    const auto a = random.values(nm.size(), 0.0, 1.0);
    const auto b = random.values(nm.size(), 0.0, 1.0);
    std::vector<double> mixed(nm.size());
    for (std::size_t i = 0; i < nm.size(); ++i) {
        mixed[i] = 2.0 * a[i] - 0.5 * b[i];
    }
    const auto in_a = rebin(Spectrum(nm, a), Sampling()).values;
    const auto in_b = rebin(Spectrum(nm, b), Sampling()).values;
    const auto in_mixed = rebin(Spectrum(nm, mixed), Sampling()).values;
    for (std::size_t i = 0; i < in_mixed.size(); ++i) {
        EXPECT_NEAR(in_mixed[i], 2.0 * in_a[i] - 0.5 * in_b[i], 1e-13);
    }
}

TEST(Rebinning, RoundingStaysWithinItsBound) {
    // Second route: the same shares in long double. Bound: the docstring's, 1e-12 of the peak for steps of 0.1 nm or more.
    Random random(26);
    for (const double step : {0.1, 0.25, 1.0, 5.0}) {
        const Sampling grid(380.0, step, static_cast<int>(400.0 / step) + 1);
        for (const double mean_step : {0.05, 0.5, 7.0}) {
            const std::vector<double> nm = random.uneven(380.1, 779.9, mean_step);
            const Spectrum s(nm, random.values(nm.size(), 0.0, 1.0));
            std::vector<long double> exact(static_cast<std::size_t>(grid.count()) + 1, 0.0L);
            for (std::size_t j = 0; j < nm.size(); ++j) {
                const long double left = nm[j == 0 ? 0 : j - 1];
                const long double right = nm[j + 1 == nm.size() ? j : j + 1];
                const bool at_end = j == 0 || j + 1 == nm.size();
                const long double light =
                    s.values()[j] * (right - left) * (at_end ? 1.0L : 0.5L) / step;
                const long double position = (static_cast<long double>(nm[j]) - 380.0L) / step;
                const auto below = static_cast<std::size_t>(position);
                const long double t = position - static_cast<long double>(below);
                exact[below] += light * (1.0L - t);
                exact[below + 1] += light * t;
            }
            const auto entered = rebin(s, grid).values;
            const auto peak = static_cast<double>(*std::max_element(exact.begin(), exact.end()));
            for (std::size_t i = 0; i < entered.size(); ++i) {
                ASSERT_LE(std::abs(static_cast<double>(entered[i] - exact[i])), 1e-12 * peak)
                    << "step " << step << ", sample " << i;
            }
        }
    }
}

TEST(Rebinning, ASingleSampleOffTheGridIsShared) {
    // Second route: by hand. 550.3 nm lies 0.3 of a step above 550; its band of 2 nm is twice the step.
    const Spectrum s(std::vector<double>{548.3, 550.3, 552.3}, {0.0, 1.0, 0.0});
    const SampledLight entered = rebin(s, Sampling());
    EXPECT_NEAR(entered.values[170], 1.4, 1e-12);
    EXPECT_NEAR(entered.values[171], 0.6, 1e-12);
    EXPECT_NEAR(sum(entered.values), 2.0, 1e-12);
}

TEST(Rebinning, AWavelengthThatIsOnTheGridButForRoundingGoesToItWhole) {
    // 380 + 1287 x 0.1 isn't 508.7 to the last bit; a file that says 508.7 still means that wavelength.
    const Sampling grid(380.0, 0.1, 4001);
    ASSERT_LT((508.7 - 380.0) / 0.1, 1287.0) << "this wavelength no longer tells anything";
    const Spectrum s(std::vector<double>{508.6, 508.7, 508.8}, {0.0, 1.0, 0.0});
    const SampledLight entered = rebin(s, grid);
    EXPECT_NEAR(entered.values[1287], 1.0, 1e-12);
    EXPECT_EQ(entered.values[1286], 0.0);
    EXPECT_EQ(entered.values[1288], 0.0);
}

TEST(Rebinning, TheEndsOfTheGridBelongToItButForRounding) {
    const Sampling grid(380.0, 0.1, 4);  // its last wavelength is 380.3 but for the last bit
    const Spectrum s(std::vector<double>{380.0 - 1e-11, 380.3 + 1e-11}, {1.0, 1.0});
    const SampledLight entered = rebin(s, grid);
    EXPECT_EQ(entered.outside_fraction, 0.0);
    EXPECT_NEAR(entered.values.front(), 3.0, 1e-9);
    EXPECT_NEAR(entered.values.back(), 3.0, 1e-9);
}

TEST(Rebinning, TheShareOfTheLightOutsideIsReturned) {
    // Second route: by hand. 43 equal samples, one below 380 nm and one above 780 nm.
    const Spectrum wide(Sampling(370.0, 10.0, 43), std::vector<double>(43, 2.0));
    EXPECT_NEAR(rebin(wide, Sampling()).outside_fraction, 2.0 / 43.0, 1e-15);
    // Bands count, not samples: 10 nm of 10 + 15 + 20.
    const Spectrum uneven(std::vector<double>{370.0, 380.0, 400.0}, {1.0, 1.0, 1.0});
    EXPECT_NEAR(rebin(uneven, Sampling()).outside_fraction, 10.0 / 45.0, 1e-15);
}

TEST(Rebinning, NothingInsideGivesNothing) {
    const Spectrum infrared(std::vector<double>{900.0, 910.0}, {1.0, 1.0});
    const SampledLight entered = rebin(infrared, Sampling());
    EXPECT_EQ(entered.outside_fraction, 1.0);
    EXPECT_EQ(entered.values, std::vector<double>(401, 0.0));
    const Spectrum dark(std::vector<double>{300.0, 910.0}, {0.0, 0.0});
    EXPECT_EQ(rebin(dark, Sampling()).outside_fraction, 0.0);
}

TEST(Rebinning, WavelengthsTheSpectrumDoesNotReachGetNothing) {
    const Spectrum s(Sampling(400.0, 1.0, 301), std::vector<double>(301, 1.0));
    const SampledLight entered = rebin(s, Sampling());
    EXPECT_EQ(entered.values[19], 0.0);
    EXPECT_EQ(entered.values[20], 1.0);
    EXPECT_EQ(entered.values[320], 1.0);
    EXPECT_EQ(entered.values[321], 0.0);
}

TEST(Rebinning, ACoarseSpectrumLeavesGapsWhichAreNoMistake) {
    // 10 nm samples enter a 1 nm sampling as one value in ten, ten times as large: the plain sum of CIE 15:2018, 7.1.
    const Spectrum s(Sampling(380.0, 10.0, 41), std::vector<double>(41, 1.0));
    const SampledLight entered = rebin(s, Sampling());
    EXPECT_EQ(entered.values[0], 10.0);
    EXPECT_EQ(entered.values[5], 0.0);
    EXPECT_EQ(entered.values[10], 10.0);
}

TEST(Rebinning, ASamplingOfOneWavelengthTakesWhatIsThere) {
    const Spectrum s(std::vector<double>{550.0, 555.0, 560.0}, {1.0, 3.0, 1.0});
    const SampledLight entered = rebin(s, Sampling(555.0, 5.0, 1));
    EXPECT_EQ(entered.values, std::vector<double>{3.0});
    EXPECT_NEAR(entered.outside_fraction, 0.4, 1e-15);
}

TEST(Rebinning, TheColumnIsTheValues) {
    const SampledLight entered = rebin(illuminant_a(), Sampling(380.0, 5.0, 81));
    ASSERT_EQ(entered.column().size(), 81);
    EXPECT_EQ(entered.column()[36], 100.0);
}

}  // namespace
}  // namespace samelight
