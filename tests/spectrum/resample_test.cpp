// Explicit resampling: the linear kind, what lies beyond the ends, what is refused and what is told.
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "numeric/test_random.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/resample.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

using test::contains;
using test::Random;
using test::refusal;

constexpr std::array<Interpolation, 3> all_kinds = {Interpolation::linear, Interpolation::sprague,
                                                    Interpolation::shape_preserving};

Spectrum measured() {
    Random random(41);
    return {Sampling(400.0, 10.0, 31), random.values(31, 0.0, 1.0)};
}

TEST(Resample, IsExactOnTheGivenWavelengths) {
    const Spectrum s = measured();
    for (const Interpolation kind : all_kinds) {
        const Spectrum same = resample(s, Sampling(400.0, 10.0, 31), kind).spectrum;
        for (std::size_t i = 0; i + 1 < s.size(); ++i) {
            EXPECT_EQ(same.values()[i], s.values()[i]);
        }
        EXPECT_NEAR(same.values().back(), s.values().back(),
                    1e-14);  // the end of an interval: rounding
    }
}

TEST(Resample, LinearReproducesStraightLines) {
    Random random(42);
    const std::vector<double> nm = random.uneven(400.0, 700.0, 7.0);
    std::vector<double> values(nm.size());
    for (std::size_t i = 0; i < nm.size(); ++i) {
        values[i] = 3.0 - 0.01 * nm[i];
    }
    const Spectrum s(nm, values);
    const Resampled r = resample(s, Sampling(400.0, 1.0, 280), Interpolation::linear);
    for (std::size_t i = 0; i < r.spectrum.size(); ++i) {
        EXPECT_NEAR(r.spectrum.values()[i], 3.0 - 0.01 * r.spectrum.wavelengths_nm()[i], 1e-12);
    }
}

TEST(Resample, LinearIsTheSpectrumsOwnReading) {
    // Second route: Spectrum::at, written apart.
    Random random(43);
    const std::vector<double> nm = random.uneven(400.0, 700.0, 7.0);
    const Spectrum s(nm, random.values(nm.size(), -1.0, 1.0));
    const Spectrum r = resample(s, Sampling(400.0, 0.7, 400), Interpolation::linear).spectrum;
    for (std::size_t i = 0; i < r.size(); ++i) {
        EXPECT_NEAR(r.values()[i], s.at(r.wavelengths_nm()[i]), 1e-13);
    }
}

TEST(Resample, LinearErrorsFallWithTheSquareOfTheStep) {
    // Straight lines err by step^2 / 8 times the second derivative.
    for (const double step : {10.0, 5.0, 2.5}) {
        const Sampling grid(400.0, step, static_cast<int>(300.0 / step) + 1);
        std::vector<double> values;
        for (int i = 0; i < grid.count(); ++i) {
            values.push_back(std::sin(grid.wavelength_nm(i) / 40.0));
        }
        const Sampling fine(400.0, 0.25, 1201);
        const Spectrum r = resample(Spectrum(grid, values), fine, Interpolation::linear).spectrum;
        double largest = 0.0;
        for (std::size_t i = 0; i < r.size(); ++i) {
            largest = std::fmax(largest,
                                std::abs(r.values()[i] - std::sin(r.wavelengths_nm()[i] / 40.0)));
        }
        const double theory = step * step / 8.0 / 1600.0;
        EXPECT_LE(largest, theory);
        EXPECT_GE(largest, 0.9 * theory);
    }
}

TEST(Resample, BeyondTheEndsIsRefusedUnlessARuleIsNamed) {
    const Spectrum s = measured();
    for (const Interpolation kind : all_kinds) {
        const std::string text =
            refusal(ErrorKind::domain, [&] { resample(s, Sampling(380.0, 5.0, 81), kind); });
        EXPECT_TRUE(contains(text, "380-780 nm by 5 nm")) << text;
        EXPECT_TRUE(contains(text, "400-700 nm")) << text;
        refusal(ErrorKind::domain, [&] { resample(s, Sampling(399.0, 1.0, 10), kind); });
        refusal(ErrorKind::domain, [&] { resample(s, Sampling(690.0, 1.0, 12), kind); });
        EXPECT_NO_THROW(resample(s, Sampling(400.0, 1.0, 301), kind));
    }
}

TEST(Resample, ABillionthOfANanometreBeyondIsRoundingAndNoExtension) {
    const Spectrum s = measured();
    for (const Interpolation kind : all_kinds) {
        const Resampled r = resample(s, Sampling(400.0 - 5e-10, 300.0 + 1e-9, 2), kind);
        EXPECT_NEAR(r.spectrum.values()[0], s.values().front(), 1e-12);
        EXPECT_NEAR(r.spectrum.values()[1], s.values().back(), 1e-12);
        refusal(ErrorKind::domain, [&] { resample(s, Sampling(400.0 - 2e-9, 300.0, 2), kind); });
    }
    const Resampled zero =
        resample(s, Sampling(400.0 - 5e-10, 300.0, 2), Interpolation::linear, Beyond::zero);
    EXPECT_EQ(zero.spectrum.values()[0], s.values().front());
}

TEST(Resample, BeyondTheEndsIsZeroOrTheNearestValue) {
    const Spectrum s = measured();
    const Sampling wide(380.0, 10.0, 41);
    for (const Interpolation kind : all_kinds) {
        const Spectrum zero = resample(s, wide, kind, Beyond::zero).spectrum;
        const Spectrum nearest = resample(s, wide, kind, Beyond::nearest).spectrum;
        for (const double nm : {380.0, 390.0}) {
            EXPECT_EQ(zero.at(nm), 0.0);
            EXPECT_EQ(nearest.at(nm), s.values().front());
        }
        for (const double nm : {710.0, 780.0}) {
            EXPECT_EQ(zero.at(nm), 0.0);
            EXPECT_NEAR(nearest.at(nm), s.values().back(), 1e-14);
        }
        for (const double nm : {400.0, 550.0, 690.0}) {
            EXPECT_EQ(zero.at(nm), s.at(nm));
            EXPECT_EQ(nearest.at(nm), s.at(nm));
        }
    }
}

TEST(Resample, WhatIsExtendedOrCutIsTold) {
    const Spectrum s = measured();
    const Resampled wide =
        resample(s, Sampling(380.0, 5.0, 81), Interpolation::linear, Beyond::nearest);
    EXPECT_EQ(wide.extended_below_nm, 20.0);
    EXPECT_EQ(wide.extended_above_nm, 80.0);
    EXPECT_EQ(wide.cut_below_nm, 0.0);
    EXPECT_EQ(wide.cut_above_nm, 0.0);
    const Resampled narrow = resample(s, Sampling(450.0, 5.0, 41), Interpolation::linear);
    EXPECT_EQ(narrow.extended_below_nm, 0.0);
    EXPECT_EQ(narrow.extended_above_nm, 0.0);
    EXPECT_EQ(narrow.cut_below_nm, 50.0);
    EXPECT_EQ(narrow.cut_above_nm, 50.0);
    const Resampled same = resample(s, Sampling(400.0, 10.0, 31), Interpolation::sprague);
    EXPECT_EQ(same.extended_below_nm + same.extended_above_nm, 0.0);
    EXPECT_EQ(same.cut_below_nm + same.cut_above_nm, 0.0);
}

TEST(Resample, SpragueWantsAnEvenGridOfSix) {
    const Spectrum five(Sampling(400.0, 10.0, 5), {1, 2, 3, 4, 5});
    std::string text = refusal(
        ErrorKind::shape, [&] { resample(five, Sampling(400.0, 5.0, 9), Interpolation::sprague); });
    EXPECT_TRUE(contains(text, "5 samples")) << text;
    const Spectrum uneven({400, 410, 420, 431, 440, 450, 460}, {1, 2, 3, 4, 5, 6, 7});
    text = refusal(ErrorKind::shape,
                   [&] { resample(uneven, Sampling(400.0, 5.0, 13), Interpolation::sprague); });
    EXPECT_TRUE(contains(text, "7 unevenly spaced samples")) << text;
    const Spectrum six(Sampling(400.0, 10.0, 6), {1, 2, 3, 4, 5, 6});
    EXPECT_NO_THROW(resample(six, Sampling(400.0, 5.0, 11), Interpolation::sprague));
    for (const Interpolation kind : {Interpolation::linear, Interpolation::shape_preserving}) {
        EXPECT_NO_THROW(resample(uneven, Sampling(400.0, 5.0, 13), kind));
        const Spectrum two(std::vector<double>{400.0, 500.0}, {1.0, 2.0});
        EXPECT_NEAR(resample(two, Sampling(400.0, 25.0, 5), kind).spectrum.at(475.0), 1.75, 1e-14);
    }
}

}  // namespace
}  // namespace samelight
