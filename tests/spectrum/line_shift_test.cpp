// The shift of an instrument's wavelengths from known lines, against instruments whose shift is known.
#include <array>
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include "line_spectra.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/line_shift.hpp"
#include "samelight/spectrum/line_verdict.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

using test::Line;
using test::lines_on;

const Sampling truth_grid(380.0, 0.05, 8001);

/// A mercury lamp: lines 0.1 nm wide. The heights matter little (modelling choice).
Spectrum lamp() {
    std::vector<Line> lines;
    constexpr std::array<double, 5> height = {0.3, 1.0, 0.8, 0.15, 0.17};
    for (std::size_t i = 0; i < height.size(); ++i) {
        lines.push_back({mercury_lines_nm[i], 0.1, height[i]});
    }
    return lines_on(truth_grid, lines);
}

ReadingInstrument instrument(double bandwidth_nm, double step_nm, double shift_nm, double first_nm,
                             double noise = 0.0) {
    ReadingInstrument result;
    result.bandwidth_nm = bandwidth_nm;
    result.step_nm = step_nm;
    result.wavelength_shift_nm = shift_nm;
    result.first_nm = first_nm;
    result.noise = noise;
    return result;
}

// NIST Atomic Spectra Database, Hg I, air (from memory): 404.66, 435.83, 546.07, 576.96, 579.07.
TEST(MercuryLines, AreWhereTheHandbooksHaveThem) {
    constexpr std::array<double, 5> two_places = {404.66, 435.83, 546.07, 576.96, 579.07};
    for (std::size_t i = 0; i < two_places.size(); ++i) {
        EXPECT_NEAR(mercury_lines_nm[i], two_places[i], 0.0051);
    }
}

struct Case {
    double bandwidth_nm;
    double step_nm;
};

TEST(WavelengthShift, IsFoundToAFewHundredthsWithTheBandwidthGiven) {
    const Spectrum truth = lamp();
    for (const Case c : {Case{5.0, 1.0},
                         {5.0, 2.5},
                         {5.0, 4.0},
                         {5.0, 5.0},
                         {2.0, 0.5},
                         {2.0, 1.0},
                         {10.0, 5.0},
                         {1.0, 0.4}}) {
        LineSearch search;
        search.bandwidth_nm = c.bandwidth_nm;
        for (const double shift : {-1.1, 0.0, 0.3, 1.0}) {
            for (const double phase : {0.0, 0.4}) {
                const WavelengthShift found = wavelength_shift(
                    read_by(instrument(c.bandwidth_nm, c.step_nm, shift, 380.0 + phase * c.step_nm),
                            truth),
                    mercury_lines_nm, search);
                ASSERT_TRUE(found.shift_nm) << c.bandwidth_nm << " " << c.step_nm;
                EXPECT_NEAR(*found.shift_nm, shift, 0.02) << c.bandwidth_nm << " " << c.step_nm;
                EXPECT_LT(found.standard_error_nm, 0.05);
            }
        }
    }
}

TEST(WavelengthShift, IsFoundWithoutTheBandwidthAtStepsOfHalfOfIt) {
    const Spectrum truth = lamp();
    for (const Case c : {Case{5.0, 1.0}, {5.0, 2.5}, {2.0, 1.0}, {3.0, 0.5}, {8.0, 1.0}}) {
        for (const double shift : {-1.1, 0.0, 0.3}) {
            const WavelengthShift found =
                wavelength_shift(read_by(instrument(c.bandwidth_nm, c.step_nm, shift, 0.0), truth),
                                 mercury_lines_nm);
            ASSERT_TRUE(found.shift_nm);
            EXPECT_NEAR(*found.shift_nm, shift, 0.05) << c.bandwidth_nm << " " << c.step_nm;
        }
    }
}

TEST(WavelengthShift, ErrorsUnderNoiseAreAsLargeAsItSays) {
    const Spectrum truth = lamp();
    LineSearch search;
    search.bandwidth_nm = 5.0;
    int within = 0;
    constexpr int trials = 100;
    for (int i = 0; i < trials; ++i) {
        const auto seed = static_cast<std::uint64_t>(i);
        const WavelengthShift found = wavelength_shift(
            read_by(instrument(5.0, 2.0, 0.4, 0.0, 0.01), truth, seed), mercury_lines_nm, search);
        within += found.shift_nm && std::abs(*found.shift_nm - 0.4) <= found.half_width_nm();
    }
    // 95 in 100 and, the floor of 0.02 nm and Student's factor being cautious, rather more: 89 is 95 less three standard deviations.
    EXPECT_GE(within, 89);
}

TEST(WavelengthShift, SaysWhatBecameOfEachLine) {
    const Spectrum read = read_by(instrument(5.0, 1.0, 0.25, 0.0), lamp());
    const std::array<double, 4> wanted = {546.074, 435.833, 500.0, 576.96};
    const WavelengthShift found = wavelength_shift(read, wanted);
    ASSERT_EQ(found.lines.size(), 4U);
    EXPECT_EQ(found.lines[0].nm, 435.833) << "by wavelength";
    EXPECT_EQ(found.lines[0].fate, LineFate::used);
    EXPECT_EQ(found.lines[1].fate, LineFate::not_found);
    EXPECT_EQ(found.lines[2].fate, LineFate::used);
    EXPECT_NEAR(found.lines[2].seen_nm, 546.324, 0.01);
    EXPECT_NEAR(found.line_width_nm, 5.0, 0.6);
    const WavelengthShift all = wavelength_shift(read, mercury_lines_nm);
    EXPECT_EQ(all.lines[3].fate, LineFate::merged) << "2.1 nm apart at 5 nm";
    EXPECT_EQ(all.lines[4].fate, LineFate::merged);
    EXPECT_EQ(all.used(), 3U);
}

TEST(WavelengthShift, AStrangerIsSetAside) {
    std::vector<Line> lines = {
        {404.656, 0.1, 0.3}, {435.833, 0.1, 1.0}, {544.5, 0.1, 0.8}, {576.96, 0.1, 0.3}};
    const Spectrum read = read_by(instrument(1.5, 0.5, 0.2, 0.0), lines_on(truth_grid, lines));
    const std::array<double, 4> wanted = {404.656, 435.833, 546.074, 576.96};
    const WavelengthShift found = wavelength_shift(read, wanted);
    EXPECT_EQ(found.lines[2].fate, LineFate::set_aside);
    EXPECT_NEAR(found.lines[2].shift_nm, 544.5 + 0.2 - 546.074, 0.02);
    EXPECT_NEAR(found.shift_nm.value(), 0.2, 0.02);
    const std::array<double, 2> two = {435.833, 546.074};
    EXPECT_NEAR(wavelength_shift(read, two).disagreement_nm(), 1.574, 0.02);
    EXPECT_GT(wavelength_shift(read, two).half_width_nm(), 1.0) << "two that disagree say little";
}

// Mercury's line at 407.78 nm (NIST Atomic Spectra Database, Hg I, air, from memory: 407.783, relative intensity 150 beside the 1800 of
// 404.66) is a neighbour that an instrument of 4 nm doesn't part from 404.66. Left out of the fit it pulled that to 0.8 nm for 0.5.
TEST(WavelengthShift, AWeakCompanionDoesNotPullItsLine) {
    std::vector<Line> lines;
    constexpr std::array<double, 5> height = {0.3, 1.0, 0.8, 0.15, 0.17};
    for (std::size_t i = 0; i < height.size(); ++i) {
        lines.push_back({mercury_lines_nm[i], 0.1, height[i]});
    }
    for (const double share : {0.08, 0.15}) {
        std::vector<Line> all = lines;
        all.push_back({407.783, 0.1, share * 0.3});
        const Spectrum truth = lines_on(truth_grid, all);
        for (const Case c :
             {Case{4.0, 1.0}, {4.0, 2.0}, {5.0, 1.0}, {5.0, 2.5}, {3.0, 1.0}, {8.0, 1.0}}) {
            LineSearch search;
            search.bandwidth_nm = c.bandwidth_nm;
            const Spectrum read = read_by(instrument(c.bandwidth_nm, c.step_nm, 0.5, 0.0), truth);
            const WavelengthShift found = wavelength_shift(read, mercury_lines_nm, search);
            ASSERT_EQ(found.lines.size(), 5U) << "the companion is no line to judge by";
            EXPECT_NEAR(found.shift_nm.value(), 0.5, 0.02) << c.bandwidth_nm << " " << c.step_nm;
            EXPECT_LT(found.disagreement_nm(), 0.1) << c.bandwidth_nm << " " << c.step_nm;
            EXPECT_EQ(found.lines[0].fate,
                      c.bandwidth_nm > 6.3 ? LineFate::merged : LineFate::used);
            // Without the bandwidth, to the error that is stated for that.
            EXPECT_NEAR(wavelength_shift(read, mercury_lines_nm).shift_nm.value(), 0.5, 0.05)
                << c.bandwidth_nm << " " << c.step_nm;
        }
    }
}

TEST(WavelengthShift, AStretchedScaleIsSeen) {
    // Wavelengths reported 0.1 % too far from 500 nm: a scale of 0.001.
    const Spectrum read = read_by(instrument(2.0, 0.5, 0.0, 0.0), lamp());
    std::vector<double> nm;
    for (const double at : read.wavelengths_nm()) {
        nm.push_back(at + 0.001 * (at - 500.0));
    }
    const WavelengthShift found = wavelength_shift(
        Spectrum(nm, {read.values().begin(), read.values().end()}), mercury_lines_nm);
    ASSERT_TRUE(found.scale);
    EXPECT_NEAR(*found.scale, 0.001, 1e-4);
    EXPECT_NEAR(*found.shift_nm, 0.001 * (found.centre_nm - 500.0), 0.02);
    EXPECT_LT(found.scale_standard_error, 3e-4);
}

TEST(WavelengthShift, WithoutLinesNothingIsKnown) {
    const Spectrum smooth = lines_on(Sampling(), {{560.0, 150.0, 1.0}});
    const WavelengthShift found = wavelength_shift(smooth, mercury_lines_nm);
    EXPECT_FALSE(found.shift_nm);
    EXPECT_EQ(found.used(), 0U);
    EXPECT_EQ(found.half_width_nm(), 0.0);
    const Spectrum dark(Sampling(), std::vector<double>(401, 0.0));
    EXPECT_FALSE(wavelength_shift(dark, mercury_lines_nm).shift_nm);
}

TEST(WavelengthShift, TakenOutTheLinesAreWhereTheyBelong) {
    const Spectrum read = read_by(instrument(3.0, 1.0, 0.7, 0.0), lamp());
    const WavelengthShift found = wavelength_shift(read, mercury_lines_nm);
    const Spectrum right = without_shift(read, *found.shift_nm);
    EXPECT_NEAR(wavelength_shift(right, mercury_lines_nm).shift_nm.value(), 0.0, 1e-3);
    EXPECT_EQ(right.values()[50], read.values()[50]);
}

TEST(WavelengthShift, RefusesWhatIsNoLine) {
    const Spectrum read = read_by(instrument(3.0, 1.0, 0.7, 0.0), lamp());
    EXPECT_THROW(wavelength_shift(read, std::vector<double>{}), Error);
    EXPECT_THROW(wavelength_shift(read, std::vector<double>{546.0, 546.0}), Error);
    EXPECT_THROW(wavelength_shift(read, std::vector<double>{-1.0}), Error);
    LineSearch search;
    search.reach_nm = 0.0;
    EXPECT_THROW(wavelength_shift(read, mercury_lines_nm, search), Error);
    search = {};
    search.bandwidth_nm = 0.0;
    EXPECT_THROW(wavelength_shift(read, mercury_lines_nm, search), Error);
}

}  // namespace
}  // namespace samelight
