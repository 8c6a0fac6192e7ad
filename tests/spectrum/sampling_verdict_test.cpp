// Is a spectrum sampled finely enough: the light of narrow lines, what is flagged, what step is wanted.
#include <cmath>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/tables/crt_primaries.hpp"
#include "spectrum/line_spectra.hpp"

namespace samelight {
namespace {

using test::Line;
using test::lines_on;
using test::summed_share;

// A line of `in_steps` steps in the middle of 101 samples.
Spectrum one_line(double in_steps, double phase, double step = 1.0) {
    return lines_on(Sampling(400.0, step, 101),
                    {{400.0 + step * (50.0 + phase), in_steps * step, 1.0}});
}

double worst_error(double in_steps) {
    double largest = 0.0;
    for (double phase = 0.0; phase < 1.0; phase += 0.01) {
        largest = std::fmax(largest, std::abs(summed_share(in_steps, phase) - 1.0));
    }
    return largest;
}

TEST(SamplingVerdict, LightOfALineOf1Point5StepsIsRightToATenthOfAPercent) {
    // Second route: the sum over the samples, at every position of the line between them.
    EXPECT_LE(worst_error(1.5), 0.001);
    EXPECT_NEAR(worst_error(1.5), 0.0007, 0.00005);
    EXPECT_NEAR(worst_error(1.0), 0.06, 0.005);
    for (double in_steps = 1.5; in_steps < 5.0; in_steps += 0.1) {
        EXPECT_LE(worst_error(in_steps), 0.001);
    }
}

TEST(SamplingVerdict, PoissonsSumBoundsTheError) {
    // Source: Poisson's summation formula for a Gaussian: 2 exp(-pi^2 / (4 ln 2) (F/h)^2), and terms of a higher order that are
    // below 2e-5 of it from F = h. The docstring says 3.56 for 3.5597.
    EXPECT_NEAR(std::numbers::pi * std::numbers::pi / (4.0 * std::numbers::ln2), 3.56, 0.001);
    for (double in_steps = 1.0; in_steps < 2.2; in_steps += 0.05) {
        const double bound = 2.0 * std::exp(-3.56 * in_steps * in_steps);
        EXPECT_NEAR(worst_error(in_steps), bound, 0.002 * bound + 1e-12) << in_steps << " steps";
    }
}

TEST(SamplingVerdict, NarrowerLinesAreReadAsAnythingFromNothingToManyTimesTheirLight) {
    // Source: a sample on the top of a line far narrower than the step counts the height as wide as the step: 0.94 h / F.
    for (const double in_steps : {0.1, 0.2, 0.3}) {
        EXPECT_NEAR(summed_share(in_steps, 0.0), 0.94 / in_steps, 0.005 / in_steps);
        EXPECT_LE(summed_share(in_steps, 0.5), 0.001 / in_steps);
    }
}

TEST(SamplingVerdict, FlagsBelow1Point5StepsAndNotAbove) {
    for (double phase = 0.0; phase < 1.0; phase += 0.01) {
        for (const double in_steps : {0.4, 0.7, 1.0, 1.3, 1.49}) {
            const SamplingVerdict verdict = judge_sampling(one_line(in_steps, phase));
            EXPECT_FALSE(verdict.sound()) << in_steps << " steps, phase " << phase;
            EXPECT_EQ(verdict.unresolved.size(), 1U);
        }
        for (const double in_steps : {1.51, 1.7, 2.0, 3.0, 10.0, 30.0}) {
            const SamplingVerdict verdict = judge_sampling(one_line(in_steps, phase));
            EXPECT_TRUE(verdict.sound()) << in_steps << " steps, phase " << phase;
            EXPECT_EQ(verdict.peaks.size(), 1U);
            EXPECT_NEAR(verdict.narrowest_nm, in_steps, 1e-9);
        }
    }
}

TEST(SamplingVerdict, TheStepThatIsWanted) {
    struct Case {
        double width_nm, step_nm, wanted_nm;
    };
    // Second route: by hand. Width / 1.5, rounded down to a customary step; no coarser than half the present one where that
    // is too coarse.
    for (const Case& c :
         {Case{40.0, 1.0, 10.0}, Case{15.1, 1.0, 10.0}, Case{14.9, 1.0, 5.0}, Case{7.6, 1.0, 5.0},
          Case{7.4, 1.0, 4.0}, Case{5.9, 1.0, 2.0}, Case{3.1, 1.0, 2.0}, Case{2.9, 1.0, 1.0},
          Case{1.51, 1.0, 1.0}, Case{1.49, 1.0, 0.5}, Case{5.0, 5.0, 2.0}, Case{9.0, 10.0, 5.0},
          Case{4.3, 3.0, 1.0}, Case{3.0, 10.0, 2.0}, Case{0.76, 0.5, 0.5}, Case{0.5, 0.5, 0.2},
          Case{0.31, 0.2, 0.2}, Case{0.2, 0.2, 0.1}, Case{0.1, 0.1, 0.1}}) {
        const SamplingVerdict verdict =
            judge_sampling(one_line(c.width_nm / c.step_nm, 0.2, c.step_nm));
        EXPECT_EQ(verdict.wanted_step_nm, c.wanted_nm) << c.width_nm << " nm by " << c.step_nm;
    }
}

TEST(SamplingVerdict, ALineInOneSampleWantsHalfTheStep) {
    const SamplingVerdict verdict =
        judge_sampling(Spectrum(Sampling(400.0, 10.0, 5), {0.0, 0.0, 1.0, 0.0, 0.0}));
    EXPECT_FALSE(verdict.sound());
    EXPECT_EQ(verdict.narrowest_nm, 0.0);
    EXPECT_EQ(verdict.wanted_step_nm, 5.0);
}

TEST(SamplingVerdict, TheNarrowestOfSeveralDecides) {
    const Sampling grid(400.0, 1.0, 301);
    const SamplingVerdict verdict =
        judge_sampling(lines_on(grid, {{450.0, 20.0, 1.0}, {550.0, 3.1, 0.5}, {650.0, 30.0, 1.0}}));
    EXPECT_TRUE(verdict.sound());
    EXPECT_EQ(verdict.peaks.size(), 3U);
    EXPECT_NEAR(verdict.narrowest_nm, 3.1, 1e-6);
    EXPECT_EQ(verdict.wanted_step_nm, 2.0);
}

TEST(SamplingVerdict, WithoutPeaksNothingIsWanted) {
    const SamplingVerdict verdict = judge_sampling(illuminant_a());
    EXPECT_TRUE(verdict.sound());
    EXPECT_EQ(verdict.narrowest_nm, 0.0);
    EXPECT_EQ(verdict.wanted_step_nm, 0.0);
}

// A red phosphor with lines 3 nm wide. Source: peak and width, Wang et al. 2015, Opt. Express 23:28707; the other lines and the
// relative strengths are from memory.
std::vector<Line> narrow_red() {
    return {{609.0, 3.0, 0.14},
            {613.0, 3.0, 0.40},
            {630.5, 3.0, 1.0},
            {634.6, 3.0, 0.45},
            {647.6, 3.0, 0.16}};
}

TEST(SamplingVerdict, ANarrowLineRedAt10NmIsFlaggedWhereverTheSamplesFall) {
    for (double first = 380.0; first < 390.0; first += 0.1) {
        const SamplingVerdict verdict =
            judge_sampling(lines_on(Sampling(first, 10.0, 41), narrow_red()));
        EXPECT_FALSE(verdict.sound()) << "first sample at " << first;
        EXPECT_LE(verdict.wanted_step_nm, 5.0);
        EXPECT_GT(verdict.wanted_step_nm, 0.0);
    }
    EXPECT_TRUE(judge_sampling(lines_on(Sampling(), narrow_red())).sound());
    EXPECT_EQ(judge_sampling(lines_on(Sampling(), narrow_red())).wanted_step_nm, 2.0);
}

TEST(SamplingVerdict, TheCathodeRayTubesTableIsSoundAndNeedsItsStep) {
    namespace t = tables::crt_primaries;
    const Sampling grid(t::first_nm, t::step_nm, t::count);
    const SamplingVerdict red =
        judge_sampling(Spectrum(grid, std::vector<double>(t::red.begin(), t::red.end())));
    EXPECT_TRUE(red.sound());
    ASSERT_EQ(red.peaks.size(), 3U);
    // Source: line groups of the red phosphor near 595, 626 and 704 nm (common practice, no source).
    EXPECT_NEAR(red.peaks[0].nm, 595.0, 3.0);
    EXPECT_NEAR(red.peaks[1].nm, 626.0, 3.0);
    EXPECT_NEAR(red.peaks[2].nm, 704.0, 3.0);
    EXPECT_EQ(red.wanted_step_nm, 5.0);
    for (const auto* column : {&t::green, &t::blue}) {
        const SamplingVerdict verdict =
            judge_sampling(Spectrum(grid, std::vector<double>(column->begin(), column->end())));
        EXPECT_TRUE(verdict.sound());
        EXPECT_EQ(verdict.peaks.size(), 1U);
        EXPECT_EQ(verdict.wanted_step_nm, 10.0);
    }
}

}  // namespace
}  // namespace samelight
