// The published correction for readings one bandwidth apart.
#include <array>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <vector>

#include <gtest/gtest.h>

#include "line_spectra.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/bandpass.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

// Stearns & Stearns 1988, three-point form, worked out by hand from the measured values alone; the rule of the first and last sample is
// theirs. Made in place, each from neighbours that are already corrected, the third would be another.
TEST(StearnsBandpass, WorkedExampleFromMeasuredNeighbours) {
    constexpr std::array<double, 16> measured = {9.37,  12.32, 12.46, 9.51,  5.92, 4.33,
                                                 4.29,  3.88,  4.51,  10.92, 27.5, 49.67,
                                                 69.59, 81.73, 88.19, 86.05};
    constexpr std::array<double, 16> corrected = {
        9.12515, 12.55323, 12.71647, 9.56312,  5.75400,  4.20135,  4.32071,  3.79368,
        4.03026, 10.07589, 27.03603, 49.85675, 70.23574, 82.20144, 88.90380, 85.87238};
    const Spectrum result =
        stearns_bandpass(Spectrum(Sampling(400.0, 20.0, 16), {measured.begin(), measured.end()}));
    for (std::size_t i = 0; i < 16; ++i) {
        EXPECT_NEAR(result.values()[i], corrected[i], 5e-6) << i;
    }
    const double in_place = 12.46 - 0.083 * (12.55323 - 2.0 * 12.46 + 9.51);
    EXPECT_GT(std::abs(result.values()[2] - in_place), 0.01);
}

TEST(StearnsBandpass, LightStaysAndConstantsStay) {
    const Spectrum line = test::lines_on(Sampling(380.0, 5.0, 81), {{777.0, 8.0, 1.0}});
    const auto sum = [](const Spectrum& s) {
        return std::accumulate(s.values().begin(), s.values().end(), 0.0);
    };
    EXPECT_NEAR(sum(stearns_bandpass(line)), sum(line), 1e-13);
    const Spectrum flat(Sampling(380.0, 5.0, 81), std::vector<double>(81, 2.0));
    const Spectrum still_flat = stearns_bandpass(flat);
    for (const double value : still_flat.values()) {
        EXPECT_NEAR(value, 2.0, 1e-15);
    }
}

// A triangle one step wide makes S + step^2 S'' / 12 of a parabola; 0.083 for 1/12 leaves 0.004 of the change (both elementary).
TEST(StearnsBandpass, UndoesThePassbandOnAParabola) {
    std::vector<double> values;
    const Sampling fine(400.0, 0.1, 3001);
    for (int i = 0; i < 3001; ++i) {
        const double t = (fine.wavelength_nm(i) - 550.0) / 100.0;
        values.push_back(3.0 - t * t);
    }
    const Spectrum truth(fine, values);
    ReadingInstrument instrument;
    instrument.bandwidth_nm = 10.0;
    instrument.step_nm = 10.0;
    const Spectrum read = read_by(instrument, truth);
    const Spectrum freed = stearns_bandpass(read);
    for (std::size_t i = 2; i + 2 < read.size(); ++i) {
        const double was = truth.at(read.wavelengths_nm()[i]);
        const double change = read.values()[i] - was;
        EXPECT_NEAR(change, 100.0 * (-2.0 / 1e4) / 12.0, 1e-6);
        EXPECT_NEAR((freed.values()[i] - was) / change, 1.0 - 12.0 * stearns_alpha, 2e-3);
    }
}

TEST(StearnsBandpass, NoiseGrowsAsItsWeightsSay) {
    const double centre = 1.0 + 2.0 * stearns_alpha;
    EXPECT_NEAR(stearns_noise_gain,
                std::sqrt(centre * centre + 2.0 * stearns_alpha * stearns_alpha), 1e-4);
    EXPECT_THROW(
        stearns_bandpass(Spectrum(std::vector{400.0, 405.0, 411.0}, std::vector{1.0, 2.0, 1.0})),
        Error);
}

}  // namespace
}  // namespace samelight
