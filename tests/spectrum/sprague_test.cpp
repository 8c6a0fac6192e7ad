// Sprague's interpolation: the values, what it reproduces exactly and what it doesn't.
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/check_rows.hpp"
#include "numeric/test_random.hpp"
#include "samelight/spectrum/resample.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

using test::CheckRows;
using test::Random;

// y = 5.92, 9.37, ... at x = 0 ... 6, put at 400 + 10 x nm.
Spectrum nodes() {
    return {Sampling(400.0, 10.0, 7), {5.92, 9.37, 10.8135, 4.51, 69.59, 27.8007, 86.05}};
}

// Any place in any interval; t = 0 to 1.
double between(const Spectrum& s, std::size_t interval, double t) {
    const double h = s.wavelengths_nm()[1] - s.wavelengths_nm()[0];
    const double first = s.wavelengths_nm()[interval];
    return detail::Interpolator(s, Interpolation::sprague)(first + t * h);
}

TEST(Sprague, ValuesToThePrintedDigits) {
    // Source: coefficients of CIE 167:2005 by an independent program, ten decimals.
    const CheckRows published("checks/sprague_check.csv");
    const Resampled fine = resample(nodes(), Sampling(400.0, 0.5, 121), Interpolation::sprague);
    for (std::size_t row = 0; row < published.size(); ++row) {
        const double nm = 400.0 + 10.0 * published[row].number("x");
        EXPECT_NEAR(fine.spectrum.at(nm), published[row].number("y"), 5e-11) << nm << " nm";
    }
    EXPECT_EQ(published.size(), 8U);
}

TEST(Sprague, PointsBeyondTheEnds) {
    // Source: end coefficients of CIE 167:2005 by an independent program, ten decimals.
    const Spectrum s = nodes();
    const std::vector<double> extended = detail::sprague_extended(s.values());
    ASSERT_EQ(extended.size(), 11U);
    EXPECT_NEAR(extended[0], 372.6125334928, 5e-11);
    EXPECT_NEAR(extended[1], 52.2637377990, 5e-11);
    EXPECT_NEAR(extended[9], 298.2681148325, 5e-11);
    EXPECT_NEAR(extended[10], 1103.8028612440, 5e-11);
    EXPECT_EQ(extended[2], 5.92);
    EXPECT_EQ(extended[8], 86.05);
}

TEST(Sprague, IsLinearInTheValues) {
    Random random(31);
    const Sampling grid(400.0, 5.0, 20);
    const Sampling fine(400.0, 1.0, 96);
    const auto a = random.values(20, -1.0, 1.0);
    const auto b = random.values(20, -1.0, 1.0);
    std::vector<double> mixed(20);
    for (std::size_t i = 0; i < 20; ++i) {
        mixed[i] = 3.0 * a[i] - 2.0 * b[i];
    }
    const auto at = [&](const std::vector<double>& v) {
        return resample(Spectrum(grid, v), fine, Interpolation::sprague).spectrum;
    };
    const Spectrum in_a = at(a);
    const Spectrum in_b = at(b);
    const Spectrum in_mixed = at(mixed);
    for (std::size_t i = 0; i < in_mixed.size(); ++i) {
        EXPECT_NEAR(in_mixed.values()[i], 3.0 * in_a.values()[i] - 2.0 * in_b.values()[i], 1e-12);
    }
}

// Largest error for the polynomial x^degree of x = -1 ... 1 over the intervals from `first` to `last` of 11.
double error_for_degree(int degree, std::size_t first, std::size_t last) {
    const Sampling grid(500.0, 10.0, 12);
    const auto polynomial = [&](double nm) { return std::pow((nm - 555.0) / 55.0, degree); };
    std::vector<double> values;
    for (int i = 0; i < grid.count(); ++i) {
        values.push_back(polynomial(grid.wavelength_nm(i)));
    }
    const Spectrum s(grid, values);
    double largest = 0.0;
    for (std::size_t interval = first; interval <= last; ++interval) {
        for (const double t : {0.1, 0.25, 0.5, 0.8}) {
            const double nm = s.wavelengths_nm()[interval] + 10.0 * t;
            largest = std::fmax(largest, std::abs(between(s, interval, t) - polynomial(nm)));
        }
    }
    return largest;
}

TEST(Sprague, ReproducesPolynomialsOfDegreeFourInside) {
    // Second route: the polynomials themselves. Inside means that none of the six values is one of the two beyond the ends.
    for (int degree = 0; degree <= 4; ++degree) {
        EXPECT_LE(error_for_degree(degree, 2, 8), 1e-13) << "degree " << degree;
    }
}

TEST(Sprague, IsNotExactForDegreeFive) { EXPECT_GE(error_for_degree(5, 2, 8), 1e-5); }

TEST(Sprague, ReproducesOnlyStraightLinesInTheTwoIntervalsAtEitherEnd) {
    // Second route: as above. CIE 167:2005's two values beyond an end continue straight lines, and nothing of higher degree.
    for (const std::size_t interval : {0U, 1U, 9U, 10U}) {
        EXPECT_LE(error_for_degree(0, interval, interval), 1e-13);
        EXPECT_LE(error_for_degree(1, interval, interval), 1e-13);
        EXPECT_GE(error_for_degree(2, interval, interval), 1e-4);
    }
}

// First and second derivative at t = 0 of the fifth-order polynomial through six values at t = 0, 0.2 ... 1: exact.
std::array<double, 2> derivatives(const std::array<double, 6>& v) {
    return {
        (-137.0 / 60 * v[0] + 5 * v[1] - 5 * v[2] + 10.0 / 3 * v[3] - 1.25 * v[4] + 0.2 * v[5]) * 5,
        (3.75 * v[0] - 77.0 / 6 * v[1] + 107.0 / 6 * v[2] - 13 * v[3] + 61.0 / 12 * v[4] -
         5.0 / 6 * v[5]) *
            25};
}

TEST(Sprague, HasContinuousFirstAndSecondDerivatives) {
    // Source: Sprague's condition (CIE 167:2005): two neighbouring polynomials share both where they meet.
    Random random(32);
    const Spectrum s(Sampling(400.0, 10.0, 15), random.values(15, -1.0, 1.0));
    for (std::size_t node = 1; node + 1 < s.size(); ++node) {
        std::array<double, 6> before{};
        std::array<double, 6> after{};
        for (std::size_t k = 0; k < 6; ++k) {
            before[k] = between(s, node - 1, 1.0 - 0.2 * static_cast<double>(k));
            after[k] = between(s, node, 0.2 * static_cast<double>(k));
        }
        before[0] = s.values()[node];
        const auto left = derivatives(before);
        const auto right = derivatives(after);
        EXPECT_NEAR(-left[0], right[0], 1e-10) << "node " << node;
        EXPECT_NEAR(left[1], right[1], 1e-9) << "node " << node;
    }
}

TEST(Sprague, ErrorsFallWithTheFifthPowerOfTheStepInside) {
    // An interpolation exact to degree 4 errs by the fifth power of the step.
    const auto error = [](int count) {
        const Sampling grid(400.0, 300.0 / (count - 1), count);
        std::vector<double> values;
        for (int i = 0; i < count; ++i) {
            values.push_back(std::sin(grid.wavelength_nm(i) / 40.0));
        }
        const Spectrum s(grid, values);
        const detail::Interpolator at(s, Interpolation::sprague);
        double largest = 0.0;
        for (double nm = 480.0; nm <= 620.0; nm += 0.31) {
            largest = std::fmax(largest, std::abs(at(nm) - std::sin(nm / 40.0)));
        }
        return largest;
    };
    const double order = std::log2(error(31) / error(61));
    EXPECT_GT(order, 4.5);
    EXPECT_LT(order, 6.5);
}

}  // namespace
}  // namespace samelight
