// The monotone cubic: no overshoot, no new extremes, exact at the samples.
#include <math.h>  // before the interpolator below, which uses fabs without std

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <vector>

#include <gtest/gtest.h>
#include <boost/math/interpolators/pchip.hpp>

#include "numeric/test_random.hpp"
#include "samelight/spectrum/resample.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

using test::Random;

// Many random spectra on uneven wavelengths; `shape` turns random steps into values.
template <class Shape>
std::vector<Spectrum> assorted(std::uint64_t seed, Shape&& shape) {
    Random random(seed);
    std::vector<Spectrum> result;
    for (int k = 0; k < 200; ++k) {
        std::vector<double> nm = random.uneven(400.0, 700.0, random.between(3.0, 120.0));
        if (nm.size() < 2) {
            nm = {400.0, 500.0};
        }
        std::vector<double> values(nm.size());
        double value = 0.0;
        for (double& v : values) {
            value = shape(random, value);
            v = value;
        }
        result.emplace_back(std::move(nm), std::move(values));
    }
    return result;
}

// Steps of very different sizes, and flat stretches.
double rise(Random& random) {
    return random.between(0.0, 1.0) < 0.2 ? 0.0 : std::pow(10.0, random.between(-4.0, 2.0));
}

std::vector<Spectrum> rising() {
    return assorted(51, [](Random& random, double before) { return before + rise(random); });
}

std::vector<Spectrum> wandering() {
    return assorted(52, [](Random& random, double before) {
        return before + (random.between(0.0, 1.0) < 0.5 ? 1.0 : -1.0) * rise(random);
    });
}

TEST(ShapePreserving, IsMonotoneWhereTheDataAre) {
    for (const Spectrum& s : rising()) {
        const detail::Interpolator at(s, Interpolation::shape_preserving);
        double before = s.values().front();
        for (std::size_t i = 0; i + 1 < s.size(); ++i) {
            const double h = s.wavelengths_nm()[i + 1] - s.wavelengths_nm()[i];
            const double rounding = 1e-14 * s.values()[i + 1];
            for (int k = 0; k <= 50; ++k) {
                const double now = at(s.wavelengths_nm()[i] + h * k / 50.0);
                ASSERT_GE(now, before - rounding);
                before = now;
            }
        }
    }
}

TEST(ShapePreserving, NeverLeavesTheRangeOfTheTwoSamplesBesideIt) {
    for (const Spectrum& s : wandering()) {
        const detail::Interpolator at(s, Interpolation::shape_preserving);
        for (std::size_t i = 0; i + 1 < s.size(); ++i) {
            const auto [low, high] = std::minmax(s.values()[i], s.values()[i + 1]);
            const double h = s.wavelengths_nm()[i + 1] - s.wavelengths_nm()[i];
            const double rounding = 1e-14 * std::max(std::abs(low), std::abs(high));
            for (int k = 0; k <= 50; ++k) {
                const double now = at(s.wavelengths_nm()[i] + h * k / 50.0);
                ASSERT_GE(now, low - rounding);
                ASSERT_LE(now, high + rounding);
            }
        }
    }
}

TEST(ShapePreserving, IsExactAtTheSamples) {
    for (const Spectrum& s : wandering()) {
        const detail::Interpolator at(s, Interpolation::shape_preserving);
        for (std::size_t i = 0; i < s.size(); ++i) {
            EXPECT_EQ(at(s.wavelengths_nm()[i]), s.values()[i]);
        }
    }
}

TEST(ShapePreserving, MirroredDataGiveMirroredValues) {
    for (const Spectrum& s : wandering()) {
        std::vector<double> nm(s.wavelengths_nm().rbegin(), s.wavelengths_nm().rend());
        for (double& x : nm) {
            x = 1200.0 - x;
        }
        const Spectrum mirrored(nm, {s.values().rbegin(), s.values().rend()});
        const detail::Interpolator at(s, Interpolation::shape_preserving);
        const detail::Interpolator mirrored_at(mirrored, Interpolation::shape_preserving);
        const double size = std::max(std::abs(s.peak()), std::abs(s.scaled(-1.0).peak()));
        for (double t = 0.01; t < 1.0; t += 0.07) {
            const double x = s.first_nm() + t * (s.last_nm() - s.first_nm());
            // Steep stretches make the rounding of the mirrored wavelength visible.
            EXPECT_NEAR(at(x), mirrored_at(1200.0 - x), 1e-10 * size);
        }
    }
}

TEST(ShapePreserving, AgreesWithAnotherImplementationInside) {
    // Second route: Boost.Math's interpolator of the same construction (Fritsch & Butland 1984). It treats the ends in another
    // way, so the first and the last interval are left out.
    for (const Spectrum& s : wandering()) {
        if (s.size() < 5) {
            continue;
        }
        const boost::math::interpolators::pchip other(
            std::vector<double>(s.wavelengths_nm().begin(), s.wavelengths_nm().end()),
            std::vector<double>(s.values().begin(), s.values().end()));
        const detail::Interpolator at(s, Interpolation::shape_preserving);
        for (std::size_t i = 1; i + 2 < s.size(); ++i) {
            const double h = s.wavelengths_nm()[i + 1] - s.wavelengths_nm()[i];
            const double size = std::max(std::abs(s.values()[i]), std::abs(s.values()[i + 1]));
            for (const double t : {0.1, 0.3, 0.5, 0.7, 0.9}) {
                const double nm = s.wavelengths_nm()[i] + t * h;
                EXPECT_NEAR(at(nm), other(nm), 1e-12 * size);
            }
        }
    }
}

double error_with(int count) {
    const Sampling grid(400.0, 300.0 / (count - 1), count);
    std::vector<double> values;
    for (int i = 0; i < count; ++i) {
        values.push_back(std::exp(grid.wavelength_nm(i) / 100.0));
    }
    const Spectrum s(grid, values);
    const detail::Interpolator at(s, Interpolation::shape_preserving);
    double largest = 0.0;
    for (double nm = 400.0; nm <= 700.0; nm += 0.31) {
        largest = std::fmax(largest, std::abs(at(nm) / std::exp(nm / 100.0) - 1.0));
    }
    return largest;
}

TEST(ShapePreserving, ErrorsFallWithTheCubeOfTheStepWhereDataRise) {
    // The slopes err by the square of the step, so the values by its cube.
    const double order = std::log2(error_with(61) / error_with(121));
    EXPECT_GT(order, 2.7);
    EXPECT_LT(order, 4.3);
}

}  // namespace
}  // namespace samelight
