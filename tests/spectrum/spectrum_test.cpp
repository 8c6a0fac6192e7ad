// A spectrum on its own wavelengths.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "numeric/test_random.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

// What a temporary lends would be gone: it gives copies.
static_assert(std::is_same_v<decltype(std::declval<Spectrum>().values()), std::vector<double>>);
static_assert(
    std::is_same_v<decltype(std::declval<Spectrum>().wavelengths_nm()), std::vector<double>>);

using test::contains;
using test::Random;
using test::refusal;

// Three bare wavelengths in braces could be a Sampling as well.
using Nm = std::vector<double>;

const double not_a_number = std::numeric_limits<double>::quiet_NaN();
const double infinite = std::numeric_limits<double>::infinity();

TEST(Spectrum, KeepsWhatItIsGiven) {
    const Spectrum uneven(Nm{400.0, 410.0, 430.5}, {1.0, -0.25, 3.0});
    EXPECT_EQ(uneven.size(), 3U);
    EXPECT_EQ(uneven.first_nm(), 400.0);
    EXPECT_EQ(uneven.last_nm(), 430.5);
    EXPECT_EQ(uneven.peak(), 3.0);
    EXPECT_EQ(uneven.values()[1], -0.25);
    const Spectrum even(Sampling(400.0, 5.0, 3), {1.0, 2.0, 3.0});
    EXPECT_EQ(even, Spectrum(Nm{400.0, 405.0, 410.0}, {1.0, 2.0, 3.0}));
    EXPECT_NE(even, Spectrum(Nm{400.0, 405.0, 411.0}, {1.0, 2.0, 3.0}));
}

TEST(Spectrum, CountsMustAgree) {
    const std::string text = refusal(ErrorKind::shape, [] {
        Spectrum(Nm{400.0, 410.0, 420.0}, {1.0, 2.0});
    });
    EXPECT_TRUE(contains(text, "3 wavelengths and 2 values")) << text;
    refusal(ErrorKind::shape, [] { Spectrum(Sampling(400.0, 5.0, 3), {1.0, 2.0}); });
    refusal(ErrorKind::shape, [] { Spectrum(Nm{400.0}, std::vector<double>{1.0}); });
    refusal(ErrorKind::shape, [] { Spectrum(Nm{}, std::vector<double>{}); });
}

TEST(Spectrum, TheFirstBadNumberIsNamed) {
    const auto said = [](std::vector<double> nm, std::vector<double> values) {
        return refusal(ErrorKind::domain, [&] { Spectrum(nm, values); });
    };
    EXPECT_TRUE(contains(said({400.0, 410.0, 410.0, 405.0}, {1, 2, 3, 4}), "410 after 410"));
    EXPECT_TRUE(contains(said({400.0, 390.0}, {1, not_a_number}), "390 after 400"));
    EXPECT_TRUE(contains(said({0.0, 390.0}, {1, 2}), "wavelength 0"));
    EXPECT_TRUE(contains(said({-5.0, 390.0}, {1, 2}), "wavelength -5"));
    EXPECT_TRUE(contains(said({400.0, infinite}, {1, 2}), "wavelength inf"));
    EXPECT_TRUE(contains(said({not_a_number, 400.0}, {1, 2}), "wavelength nan"));
    EXPECT_TRUE(
        contains(said({400.0, 410.0, 420.0}, {1, not_a_number, infinite}), "value nan at 410 nm"));
    EXPECT_TRUE(contains(said({400.0, 410.0}, {-infinite, 1}), "value -inf at 400 nm"));
}

TEST(Spectrum, EvenMeansEvenToAMillionthOfAStep) {
    EXPECT_TRUE(Spectrum({400.0, 410.0}, {1, 2}).evenly_spaced());
    EXPECT_TRUE(Spectrum(Nm{400.0, 410.0 + 4e-6, 420.0}, {1, 2, 3}).evenly_spaced());
    EXPECT_FALSE(Spectrum(Nm{400.0, 410.0 + 2e-5, 420.0}, {1, 2, 3}).evenly_spaced());
    EXPECT_FALSE(Spectrum(Nm{400.0, 410.0, 421.0}, {1, 2, 3}).evenly_spaced());
    const Sampling fine(380.3, 0.1, 4000);  // wavelengths that no double holds exactly
    EXPECT_TRUE(Spectrum(fine, std::vector<double>(4000, 1.0)).evenly_spaced());
}

TEST(Spectrum, BandsOnAnEvenGridAreOneStepWide) {
    // Source: CIE 15:2018, 7.1, the plain sum: every value is taken times the step.
    const Spectrum even(Sampling(380.0, 5.0, 81), std::vector<double>(81, 1.0));
    for (std::size_t i = 0; i < even.size(); ++i) {
        EXPECT_EQ(even.band_nm(i), 5.0);
    }
}

TEST(Spectrum, BandsOnAnUnevenGridReachHalfWayToTheNeighbours) {
    // Second route: by hand.
    const Spectrum uneven({400.0, 410.0, 430.0, 431.0}, {1, 1, 1, 1});
    EXPECT_EQ(uneven.band_nm(0), 10.0);
    EXPECT_EQ(uneven.band_nm(1), 15.0);
    EXPECT_EQ(uneven.band_nm(2), 10.5);
    EXPECT_EQ(uneven.band_nm(3), 1.0);
    // All bands together are the range and half a band at either end.
    Random random(11);
    for (int k = 0; k < 100; ++k) {
        const std::vector<double> nm = random.uneven(380.0, 780.0, 3.0);
        const Spectrum s(nm, std::vector<double>(nm.size(), 1.0));
        double whole = 0.0;
        for (std::size_t i = 0; i < s.size(); ++i) {
            whole += s.band_nm(i);
        }
        const double expected =
            s.last_nm() - s.first_nm() + 0.5 * (s.band_nm(0) + s.band_nm(s.size() - 1));
        EXPECT_NEAR(whole, expected, 1e-10);
    }
}

TEST(Spectrum, AtIsExactAtTheSamplesLinearBetweenAndNothingOutside) {
    Random random(12);
    const std::vector<double> nm = random.uneven(380.0, 780.0, 4.0);
    const std::vector<double> values = random.values(nm.size(), -1.0, 2.0);
    const Spectrum s(nm, values);
    for (std::size_t i = 0; i < nm.size(); ++i) {
        EXPECT_EQ(s.at(nm[i]), values[i]);
        if (i > 0) {
            const double t = random.between(0.0, 1.0);
            EXPECT_NEAR(s.at(nm[i - 1] + t * (nm[i] - nm[i - 1])),
                        (1.0 - t) * values[i - 1] + t * values[i], 1e-11);
        }
    }
    EXPECT_EQ(s.at(379.999), 0.0);
    EXPECT_EQ(s.at(780.0), 0.0);
    EXPECT_EQ(s.at(not_a_number), 0.0);
    EXPECT_EQ(s.at(infinite), 0.0);
}

TEST(Spectrum, ScaledIsTheSameLightStronger) {
    const Spectrum s({400.0, 410.0}, {1.0, -0.5});
    EXPECT_EQ(s.scaled(3.0), Spectrum({400.0, 410.0}, {3.0, -1.5}));
    refusal(ErrorKind::domain, [&] { (void)s.scaled(infinite); });
    refusal(ErrorKind::domain, [&] { (void)s.scaled(not_a_number); });
}

// Where a wavelength lies is guessed from even steps. Second route: the standard library's search, on even and uneven wavelengths, at
// each of them and a rounding beside it.
TEST(Spectrum, FindsWavelengthsAsABinarySearchDoes) {
    std::vector<double> even;
    std::vector<double> uneven;
    for (int i = 0; i < 401; ++i) {
        even.push_back(380.0 + 0.3 * i);
        uneven.push_back(380.0 + 0.001 * i * i + 0.01 * i);
    }
    for (const auto& nm : {even, uneven, std::vector<double>{400.0, 700.0}}) {
        std::vector<double> values;
        for (std::size_t i = 0; i < nm.size(); ++i) {
            values.push_back(static_cast<double>((7 * i) % 11));
        }
        const Spectrum spectrum(nm, values);
        for (const double near : nm) {
            for (const double at :
                 {near, std::nextafter(near, 0.0), std::nextafter(near, 1e9), near + 0.1}) {
                if (at < nm.front() || at > nm.back()) {
                    continue;
                }
                const auto i = static_cast<std::size_t>(std::lower_bound(nm.begin(), nm.end(), at) -
                                                        nm.begin());
                double expected = values[i];
                if (nm[i] != at) {
                    const double t = (at - nm[i - 1]) / (nm[i] - nm[i - 1]);
                    expected = values[i - 1] + t * (values[i] - values[i - 1]);
                }
                ASSERT_DOUBLE_EQ(spectrum.at(at), expected) << at;
            }
        }
    }
}

}  // namespace
}  // namespace samelight
