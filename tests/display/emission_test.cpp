// The shapes that emission is made of: power and centroid kept on every grid, filters as
// documented.
#include "samelight/display/types/emission.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/tables/cie1931_2deg.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace {

using samelight::ColourFilter;
using samelight::EmittedLight;
using samelight::Error;
using samelight::ErrorKind;
using samelight::Sampling;
using samelight::Spectrum;

struct Moments {
    double area = 0.0;
    double centroid_nm = 0.0;
    double variance_nm2 = 0.0;
};

Moments moments(const Spectrum& spectrum, double step_nm) {
    Moments result;
    for (std::size_t i = 0; i < spectrum.size(); ++i) {
        result.area += spectrum.values()[i] * step_nm;
        result.centroid_nm += spectrum.values()[i] * step_nm * spectrum.wavelengths_nm()[i];
    }
    result.centroid_nm /= result.area;
    for (std::size_t i = 0; i < spectrum.size(); ++i) {
        const double away = spectrum.wavelengths_nm()[i] - result.centroid_nm;
        result.variance_nm2 += spectrum.values()[i] * step_nm * away * away / result.area;
    }
    return result;
}

Sampling wide(double step_nm) {
    return {200.0, step_nm, static_cast<int>(std::lround(800.0 / step_nm)) + 1};
}

template <class Action>
void expect_error(ErrorKind kind, const Action& action) {
    try {
        action();
        ADD_FAILURE() << "no error";
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), kind) << error.what();
    }
}

// Second route: the moments of a Gaussian are those of its definition, variance fwhm^2 / (8 ln 2);
// bounds and growth are those stated in EmittedLight's description.
TEST(EmittedLight, ABandKeepsPowerCentroidAndStatedWidthOnEveryStep) {
    const double pi = std::acos(-1.0);
    for (const double step_nm : {0.1, 1.0, 2.0, 5.0, 10.0}) {
        const double cell_nm = step_nm / std::ceil(step_nm / 0.25);
        for (const double fwhm_nm : {0.3, 0.4, 0.5, 0.6, 1.0, 2.0, 3.0, 35.0, 60.0}) {
            const double turns = pi * fwhm_nm / cell_nm;
            const double sawtooth_nm =
                cell_nm / pi * std::exp(-turns * turns / (4 * std::log(2.0)));
            for (const double peak_nm : {531.0, 531.37, 532.5, 534.999}) {
                const Moments seen =
                    moments(EmittedLight(wide(step_nm)).add_band(2.5, peak_nm, fwhm_nm).spectrum(),
                            step_nm);
                EXPECT_NEAR(seen.area, 2.5, 2.5e-12) << step_nm << " " << fwhm_nm;
                EXPECT_NEAR(seen.centroid_nm, peak_nm, sawtooth_nm + 1e-10)
                    << step_nm << " " << fwhm_nm;
                if (fwhm_nm >= 0.6) {
                    EXPECT_NEAR(seen.centroid_nm, peak_nm, 1e-9) << step_nm << " " << fwhm_nm;
                }
                if (fwhm_nm > 1.5 * step_nm) {  // where "on average" holds for a single band
                    const double grown = fwhm_nm * fwhm_nm / (8.0 * std::log(2.0)) +
                                         (step_nm * step_nm - cell_nm * cell_nm) / 6.0 +
                                         cell_nm * cell_nm / 12.0;
                    EXPECT_NEAR(seen.variance_nm2, grown, 0.001 * grown)
                        << step_nm << " " << fwhm_nm;
                }
            }
        }
    }
}

// Stated bound: half a fine cell, 0.125 nm, for lines narrower than 0.5 nm.
TEST(EmittedLight, ALineNarrowerThanACellKeepsItsPower) {
    for (const double step_nm : {1.0, 2.0, 5.0}) {
        for (const double peak_nm : {531.0, 531.06, 531.124, 531.2}) {
            const Moments seen = moments(
                EmittedLight(wide(step_nm)).add_band(1.0, peak_nm, 1e-3).spectrum(), step_nm);
            EXPECT_NEAR(seen.area, 1.0, 1e-12);
            EXPECT_NEAR(seen.centroid_nm, peak_nm, 0.125);
        }
    }
}

// Second route: the definition, two half Gaussians of half widths share x fwhm and (1 - share) x
// fwhm, of height 1, evaluated point by point. A cell of 0.05 nm adds at most cell^2 / 6 x
// curvature.
TEST(EmittedLight, ASkewedBandIsItsDefinition) {
    const Sampling fine(350.0, 0.05, 10001);
    const double fwhm_nm = 137.0;
    const double share = 0.4;
    const Spectrum seen =
        EmittedLight(fine)
            .add_skewed_band(samelight::band_power_factor * fwhm_nm, 555.0, fwhm_nm, share)
            .spectrum();
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const double away = seen.wavelengths_nm()[i] - 555.0;
        const double half = (away < 0.0 ? share : 1.0 - share) * fwhm_nm;
        ASSERT_NEAR(seen.values()[i], std::exp2(-(away / half) * (away / half)), 1e-6);
    }
    EXPECT_NEAR(seen.at(555.0 - share * fwhm_nm), 0.5, 1e-6);
    EXPECT_NEAR(seen.at(555.0 + (1.0 - share) * fwhm_nm), 0.5, 1e-6);
}

// Second route: the line times the linearly interpolated colour-matching function, integrated by
// 0.01 nm. The bound is the stated one, plus what the integration by 0.01 nm errs by the same rule.
TEST(EmittedLight, AnObserverSeesALineAsIfItWereNotSampled) {
    namespace cmf = samelight::tables::cie1931_2deg;
    const Spectrum y(Sampling(cmf::first_nm, cmf::step_nm, cmf::count),
                     std::vector<double>(cmf::y.begin(), cmf::y.end()));
    double bend = 0.0;
    for (std::size_t i = 1; i + 1 < y.size(); ++i) {
        bend = std::max(bend, std::abs(y.values()[i - 1] - 2 * y.values()[i] + y.values()[i + 1]));
    }
    const double bound = (0.25 * 0.25 + 0.01 * 0.01) / 8.0 * bend;
    EXPECT_LT(bound, 2e-5);
    for (const double peak_nm : {465.0, 525.4, 638.75}) {
        const double fwhm_nm = 2.0;
        double exact = 0.0;
        for (int i = -1000; i <= 1000; ++i) {
            const double away = 0.01 * i;
            const double t = 2.0 * away / fwhm_nm;
            exact += 0.01 * std::exp2(-t * t) / (samelight::band_power_factor * fwhm_nm) *
                     y.at(peak_nm + away);
        }
        const Spectrum line = EmittedLight(Sampling{}).add_band(1.0, peak_nm, fwhm_nm).spectrum();
        double sampled = 0.0;
        for (std::size_t i = 0; i < line.size(); ++i) {
            sampled += line.values()[i] * y.at(line.wavelengths_nm()[i]);
        }
        EXPECT_NEAR(sampled, exact, bound) << peak_nm;
    }
}

TEST(EmittedLight, AddsLinearlyAndLeavesOutWhatLiesOutside) {
    const Sampling sampling(500.0, 1.0, 101);
    EmittedLight a = EmittedLight(sampling).add_band(1.0, 550.0, 20.0);
    const EmittedLight b = EmittedLight(sampling).add_band(1.0, 560.0, 3.0);
    const Spectrum alone = a.spectrum();
    const Spectrum both = a.add(b, 0.25).spectrum();
    for (std::size_t i = 0; i < both.size(); ++i) {
        EXPECT_NEAR(both.values()[i], alone.values()[i] + 0.25 * b.spectrum().values()[i], 1e-15);
    }
    // At 600 nm such a band is down to 2^-400.
    EXPECT_LT(EmittedLight(sampling).add_band(1.0, 700.0, 10.0).spectrum().peak(), 1e-100);
}

TEST(EmittedLight, RefusesWhatMakesNoSense) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    EmittedLight light{Sampling{}};
    expect_error(ErrorKind::domain, [&] { light.add_band(1.0, 500.0, 0.0); });
    expect_error(ErrorKind::domain, [&] { light.add_band(1.0, 500.0, -1.0); });
    expect_error(ErrorKind::domain, [&] { light.add_band(1.0, 500.0, nan); });
    expect_error(ErrorKind::domain, [&] { light.add_band(-0.1, 500.0, 10.0); });
    expect_error(ErrorKind::domain, [&] { light.add_band(inf, 500.0, 10.0); });
    expect_error(ErrorKind::domain, [&] { light.add_band(1.0, 0.0, 10.0); });
    expect_error(ErrorKind::domain, [&] { light.add_skewed_band(1.0, 500.0, 10.0, 0.0); });
    expect_error(ErrorKind::domain, [&] { light.add_skewed_band(1.0, 500.0, 10.0, 1.0); });
    expect_error(ErrorKind::domain, [&] { light.add(light, nan); });
    expect_error(ErrorKind::domain, [&] { light.add(light, -1.0); });
    expect_error(ErrorKind::shape, [&] { light.add(EmittedLight(Sampling(380.0, 5.0, 81)), 1.0); });
    expect_error(ErrorKind::domain, [] { (void)EmittedLight(Sampling(380.0, 1.0, 1)); });
    expect_error(ErrorKind::domain, [] { (void)EmittedLight(Sampling(380.0, 25.0, 17)); });
    // What was refused left no trace.
    EXPECT_EQ(light.spectrum().peak(), 0.0);
}

// Second route: the filter's own definition at its edges.
TEST(ColourFilter, EdgesWidthsAndLeakAreAsNamed) {
    const ColourFilter clean{.short_edge_nm = 490.0,
                             .long_edge_nm = 700.0,
                             .short_width_nm = 40.0,
                             .long_width_nm = 20.0,
                             .leak = 0.0};
    EXPECT_NEAR(clean(490.0), 0.5, 1e-9);
    EXPECT_NEAR(clean(470.0), 0.1, 1e-9);
    EXPECT_NEAR(clean(510.0), 0.9, 1e-9);
    EXPECT_NEAR(clean(700.0), 0.5, 1e-9);
    EXPECT_NEAR(clean(690.0), 0.9, 1e-9);
    EXPECT_NEAR(clean(710.0), 0.1, 1e-9);
    ColourFilter leaky = clean;
    leaky.leak = 0.02;
    EXPECT_NEAR(leaky(380.0), 0.02, 1e-4);
    EXPECT_NEAR(leaky(595.0), 1.0, 1e-4);
    const ColourFilter open{};
    EXPECT_EQ(open(380.0), 1.0);
    EXPECT_EQ(open(780.0), 1.0);
}

}  // namespace
