// The reading instrument: what it makes of spectra whose answer is known without it.
#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

#include <gtest/gtest.h>

#include "line_spectra.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/pseudo_random.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/resample.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

using test::lines_on;

double light_of(const Spectrum& spectrum) {
    double sum = 0.0;
    for (std::size_t i = 0; i < spectrum.size(); ++i) {
        sum += spectrum.values()[i] * spectrum.band_nm(i);
    }
    return sum;
}

double centre_of(const Spectrum& spectrum) {
    double sum = 0.0;
    for (std::size_t i = 0; i < spectrum.size(); ++i) {
        sum += spectrum.values()[i] * spectrum.band_nm(i) * spectrum.wavelengths_nm()[i];
    }
    return sum / light_of(spectrum);
}

double width_squared(const Spectrum& spectrum) {
    const double centre = centre_of(spectrum);
    double sum = 0.0;
    for (std::size_t i = 0; i < spectrum.size(); ++i) {
        const double from_centre = spectrum.wavelengths_nm()[i] - centre;
        sum += spectrum.values()[i] * spectrum.band_nm(i) * from_centre * from_centre;
    }
    return sum / light_of(spectrum);
}

/// Light at 550 nm alone, linear to nothing 0.1 nm away.
Spectrum needle() {
    std::vector<double> values(4001, 0.0);
    values[1700] = 1.0;
    return {Sampling(380.0, 0.1, 4001), values};
}

TEST(Instrument, AsItStandsItChangesNothing) {
    const Spectrum truth = lines_on(Sampling(), {{450.0, 20.0, 1.0}, {631.0, 3.0, 2.0}});
    EXPECT_EQ(read_by({}, truth), truth);
}

// The area of the triangle is 1: the light of a line that doesn't reach the ends stays, its centre too, and its variance grows by that
// of the triangle, bandwidth^2 / 6 (elementary), and of the straight lines between the truth's samples, step^2 / 6.
TEST(Instrument, PassbandKeepsLightAndCentreAndAddsItsVariance) {
    const Spectrum truth = lines_on(Sampling(380.0, 0.5, 801), {{530.2, 12.0, 1.0}});
    for (const double bandwidth : {1.0, 5.0, 10.0, 7.3}) {
        ReadingInstrument instrument;
        instrument.bandwidth_nm = bandwidth;
        const Spectrum read = read_by(instrument, truth);
        EXPECT_NEAR(light_of(read) / light_of(truth), 1.0, 1e-12) << bandwidth;
        EXPECT_NEAR(centre_of(read), centre_of(truth), 1e-9) << bandwidth;
        if (bandwidth >= 1.0 && std::fmod(bandwidth, 0.5) == 0.0) {
            EXPECT_NEAR(width_squared(read) - width_squared(truth),
                        bandwidth * bandwidth / 6.0 + 0.25 / 6.0, 1e-6)
                << bandwidth;
        }
    }
}

TEST(Instrument, ANeedleShowsThePassband) {
    ReadingInstrument instrument;
    instrument.bandwidth_nm = 4.0;
    const Spectrum read = read_by(instrument, needle());
    const double area = 0.1;  // of the needle
    EXPECT_NEAR(read.at(548.0), 0.5 * area / 4.0, 1e-12);
    EXPECT_NEAR(read.at(551.0), 0.75 * area / 4.0, 1e-12);
    EXPECT_NEAR(read.at(553.8), 0.05 * area / 4.0, 1e-12);
    EXPECT_EQ(read.at(545.8), 0.0);
    EXPECT_EQ(read.at(554.2), 0.0);
}

TEST(Instrument, APositiveShiftReportsWavelengthsTooLong) {
    const Spectrum truth = lines_on(Sampling(380.0, 0.1, 4001), {{530.0, 12.0, 1.0}});
    ReadingInstrument instrument;
    for (const double shift : {0.3, -1.0, 2.0}) {
        instrument.wavelength_shift_nm = shift;
        EXPECT_NEAR(centre_of(read_by(instrument, truth)) - centre_of(truth), shift, 1e-9);
    }
}

TEST(Instrument, ReadsWhereItsStepsAre) {
    const Spectrum truth = lines_on(Sampling(), {{530.0, 30.0, 1.0}});
    ReadingInstrument instrument;
    instrument.step_nm = 10.0;
    instrument.first_nm = 383.0;
    const Spectrum read = read_by(instrument, truth);
    ASSERT_EQ(read.size(), 40U);
    EXPECT_EQ(read.first_nm(), 383.0);
    EXPECT_EQ(read.last_nm(), 773.0);
    EXPECT_EQ(read.at(533.0), truth.at(533.0));
}

TEST(Instrument, WhatLiesBeyondTheEndsIsAsAskedFor) {
    const Spectrum flat(Sampling(380.0, 1.0, 101), std::vector<double>(101, 3.0));
    ReadingInstrument instrument;
    instrument.bandwidth_nm = 10.0;
    instrument.wavelength_shift_nm = 0.0;
    const Spectrum on = read_by(instrument, flat, 0, Beyond::nearest);
    for (const double value : on.values()) {
        EXPECT_NEAR(value, 3.0, 1e-12);
    }
    const Spectrum dark = read_by(instrument, flat, 0, Beyond::zero);
    EXPECT_NEAR(dark.values().front(), 1.5, 1e-12);
    EXPECT_NEAR(dark.values().back(), 1.5, 1e-12);
    EXPECT_NEAR(dark.at(385.0), 3.0 * (1.0 - 0.125), 1e-12);
    EXPECT_NEAR(dark.at(390.0), 3.0, 1e-12);
    EXPECT_THROW((void)read_by(instrument, flat, 0, Beyond::refuse), Error);
    const Spectrum line = lines_on(Sampling(), {{560.0, 20.0, 1.0}});
    const Spectrum asked = read_by(instrument, line, 0, Beyond::refuse);
    const Spectrum as_usual = read_by(instrument, line);
    for (std::size_t i = 0; i < line.size(); ++i) {
        EXPECT_NEAR(asked.values()[i], as_usual.values()[i], 1e-15);
    }
}

TEST(Instrument, StrayLightIsAShareOfThePeakInEveryReading) {
    const Spectrum truth = lines_on(Sampling(), {{631.0, 3.0, 2.0}});
    ReadingInstrument instrument;
    instrument.stray_light = 1e-3;
    const Spectrum read = read_by(instrument, truth);
    for (std::size_t i = 0; i < read.size(); ++i) {
        EXPECT_NEAR(read.values()[i], truth.values()[i] + 2e-3, 1e-15);
    }
}

TEST(Instrument, NoiseIsTheGeneratorsAndRelativeToThePeak) {
    const Spectrum truth(Sampling(), std::vector<double>(401, 5.0));
    ReadingInstrument instrument;
    instrument.noise = 0.01;
    const Spectrum read = read_by(instrument, truth, 71);
    EXPECT_EQ(read.values()[7], 5.0 + 0.01 * 5.0 * normal_quantile(PseudoRandom(71).unit(7)));
    EXPECT_EQ(read, read_by(instrument, truth, 71));
    EXPECT_NE(read, read_by(instrument, truth, 72));
    double sum = 0.0;
    double squares = 0.0;
    for (std::uint64_t seed = 0; seed < 100; ++seed) {
        const Spectrum one = read_by(instrument, truth, seed);
        for (const double value : one.values()) {
            sum += value - 5.0;
            squares += (value - 5.0) * (value - 5.0);
        }
    }
    // 40,100 normal numbers: mean within 4 sd / sqrt n, sd within 4 / sqrt(2 n) of itself.
    EXPECT_NEAR(sum / 40100.0, 0.0, 4.0 * 0.05 / std::sqrt(40100.0));
    EXPECT_NEAR(std::sqrt(squares / 40100.0), 0.05, 0.05 * 4.0 / std::sqrt(80200.0));
}

TEST(Instrument, RefusesWhatNoInstrumentIs) {
    const Spectrum truth = lines_on(Sampling(), {{560.0, 20.0, 1.0}});
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const auto refused = [&](auto change) {
        ReadingInstrument instrument;
        change(instrument);
        EXPECT_THROW((void)read_by(instrument, truth), Error);
    };
    refused([&](ReadingInstrument& i) { i.bandwidth_nm = -1.0; });
    refused([&](ReadingInstrument& i) { i.bandwidth_nm = nan; });
    refused([&](ReadingInstrument& i) { i.wavelength_shift_nm = nan; });
    refused([&](ReadingInstrument& i) { i.stray_light = 1.5; });
    refused([&](ReadingInstrument& i) { i.noise = -0.1; });
    refused([&](ReadingInstrument& i) { i.step_nm = 500.0; });
    refused([&](ReadingInstrument& i) { i.step_nm = 1e-6; });
    refused([&](ReadingInstrument& i) {
        i.step_nm = 5.0;
        i.first_nm = 300.0;
    });
}

}  // namespace
}  // namespace samelight
