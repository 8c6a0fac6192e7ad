// The mismatch of a meter's channels: f1' against figures worked out elsewhere, the correction factor, the lobes of x.
#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "meter/invented_meter.hpp"
#include "samelight/meter/model/mismatch.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

Eigen::RowVectorXd sampled(const Sampling& sampling, const std::function<double(double)>& at) {
    Eigen::RowVectorXd row(sampling.count());
    for (int i = 0; i < sampling.count(); ++i) {
        row[i] = at(sampling.wavelength_nm(i));
    }
    return row;
}

double v_lambda(double nm) { return standard_observer<Cie1931_2deg>().at(1, nm); }

/// Beyond the table's ends its first or last value, as in the program that the figures come from (it shows in the seventh figure).
std::function<double(double)> shifted(double by_nm) {
    return [by_nm](double nm) { return v_lambda(std::clamp(nm - by_nm, 360.0, 830.0)); };
}

std::function<double(double)> bell(double peak_nm, double fwhm_nm) {
    return [=](double nm) {
        const double t = (nm - peak_nm) / fwhm_nm;
        return std::exp(-4.0 * std::log(2.0) * t * t);
    };
}

double f1_prime_percent(const std::function<double(double)>& detector, const Sampling& sampling) {
    return 100.0 * mismatch_index(sampled(sampling, detector), sampled(sampling, v_lambda),
                                  calibration_lamp(sampling).column().transpose());
}

struct PublishedFormula {
    const char* detector;
    std::function<double(double)> row;
    double on_380_780_by_1, on_380_780_by_5, on_360_830_by_1;  ///< f1', per cent
};

// Definition: ISO/CIE 19476:2014 (formerly CIE S 023), s scaled on illuminant A (T = 2848 K with c2 = 1.435e-2 m K), plain sums. No worked
// figures are published; these were worked out from the definition by another program.
TEST(MismatchIndex, F1PrimeOfDetectorsThatAnyoneCanMake) {
    const Observer& wide = standard_observer<Cie1964_10deg>();
    const Observer& modern = standard_observer<Cie2015_2deg>();
    const std::vector<PublishedFormula> rows = {
        {"y of CIE 1964", [&](double nm) { return wide.at(1, nm); }, 9.504259, 9.509709, 9.504439},
        {"V shifted by -5 nm", shifted(-5.0), 9.759568, 9.763599, 9.759817},
        {"V shifted by -2 nm", shifted(-2.0), 3.862305, 3.860611, 3.862394},
        {"V shifted by -1 nm", shifted(-1.0), 1.924136, 1.922501, 1.924178},
        {"V shifted by +1 nm", shifted(1.0), 1.910276, 1.910121, 1.910315},
        {"V shifted by +2 nm", shifted(2.0), 3.806731, 3.807409, 3.806808},
        {"V shifted by +5 nm", shifted(5.0), 9.412688, 9.416899, 9.412858},
        {"a bell at 555 nm, 100 nm", bell(555.0, 100.0), 9.132402, 9.136514, 9.134080},
        {"a bell at 560 nm, 110 nm", bell(560.0, 110.0), 11.572672, 11.577834, 11.577161},
        {"flat", [](double) { return 1.0; }, 107.333421, 107.929245, 114.251749},
        {"y of CIE 2015, 2 degrees", [&](double nm) { return modern.at(1, nm); }, 5.665916,
         5.653127, 5.666174},
    };
    for (const PublishedFormula& row : rows) {
        EXPECT_NEAR(f1_prime_percent(row.row, {380.0, 1.0, 401}), row.on_380_780_by_1, 1e-5)
            << row.detector;
        EXPECT_NEAR(f1_prime_percent(row.row, {380.0, 5.0, 81}), row.on_380_780_by_5, 1e-5)
            << row.detector;
        EXPECT_NEAR(f1_prime_percent(row.row, {360.0, 1.0, 471}), row.on_360_830_by_1, 1e-5)
            << row.detector;
    }
}

TEST(MismatchIndex, NoScaleOfTheChannelMatters) {
    const Sampling sampling;
    const auto lamp = calibration_lamp(sampling);
    const Eigen::RowVectorXd v = sampled(sampling, v_lambda);
    const Eigen::RowVectorXd s = sampled(sampling, shifted(2.0));
    EXPECT_NEAR(mismatch_index(7.0 * s, v, lamp.column().transpose()),
                mismatch_index(s, v, lamp.column().transpose()), 1e-14);
    EXPECT_NEAR(mismatch_index(0.25 * v, v, lamp.column().transpose()), 0.0, 1e-14);
}

// The factor's meaning: what it is multiplied with comes out right.
TEST(MismatchFactor, RepairsTheReadingOfItsLight) {
    const Sampling sampling;
    const Observer& observer = standard_observer<Cie1931_2deg>();
    for (const test::InventedMeter& invented : test::invented_meters()) {
        const Sensitivities meter = calibrated(invented.on(sampling), observer);
        for (const Spectrum& spectrum :
             {d_illuminant(6500), illuminant_e(), planckian_radiator(4000.0)}) {
            const SampledLight light = rebin(spectrum, sampling);
            const auto factors = mismatch_factors(meter, observer, light);
            const auto read = tristimulus(meter, light).values();
            const auto truth = tristimulus(observer, light).values();
            for (std::size_t k = 0; k < 3; ++k) {
                EXPECT_NEAR(factors[k] * read[k] / truth[k], 1.0, 1e-13) << invented.name;
            }
        }
        for (const double factor : mismatch_factors(meter, observer, calibration_lamp(sampling))) {
            EXPECT_NEAR(factor, 1.0, 1e-13);
        }
    }
}

TEST(MeterMismatch, AgreesWithTheInventedMetersOwnFigure) {
    for (const test::InventedMeter& invented : test::invented_meters()) {
        const Sampling sampling{380.0, 5.0, 81};  // the lamp's own grid: no interpolation
        const MeterMismatch m =
            meter_mismatch(invented.on(sampling), standard_observer<Cie1931_2deg>());
        EXPECT_NEAR(m.channels[1].index, test::f1_prime(invented, sampling), 1e-12)
            << invented.name;
        EXPECT_EQ(m.channels[1].name, "y");
        EXPECT_NEAR(m.channels[1].calibration, 1.0, 1e-12);
    }
}

// A meter whose y and z are perfect and whose x has its short lobe too weak, or the long one moved: each is said of the right lobe.
TEST(MeterMismatch, SaysWhichLobeOfXIsWrong) {
    const Sampling sampling;
    const Observer& observer = standard_observer<Cie1931_2deg>();
    Sensitivities weak = observer.on(sampling);
    for (int i = 0; sampling.wavelength_nm(i) < 504.0; ++i) {
        weak.values[static_cast<std::size_t>(i)] *= 0.8;
    }
    const MeterMismatch m = meter_mismatch(weak, observer);
    ASSERT_EQ(m.channels[0].lobes.size(), 2U);
    EXPECT_EQ(m.channels[1].lobes.size(), 1U);
    EXPECT_EQ(m.channels[2].lobes.size(), 1U);
    const LobeMismatch& lower = m.channels[0].lobes[0];
    const LobeMismatch& upper = m.channels[0].lobes[1];
    EXPECT_EQ(upper.from_nm, 504.0);  // where the table has its least value
    EXPECT_NEAR(lower.area_ratio / upper.area_ratio, 0.8, 1e-12);
    EXPECT_NEAR(upper.centroid_shift_nm.value(), 0.0, 1e-9);
    EXPECT_NEAR(lower.index + upper.index, m.channels[0].index, 1e-15);
    EXPECT_NEAR(m.channels[1].index, 0.0, 1e-14);

    Sensitivities moved = observer.on(sampling);
    for (int i = 0; i < sampling.count(); ++i) {
        const double nm = sampling.wavelength_nm(i);
        moved.values[static_cast<std::size_t>(i)] =
            observer.at(0, nm < 504.0 ? nm : std::max(504.0, nm - 3.0));
    }
    const MeterMismatch n = meter_mismatch(moved, observer);
    EXPECT_NEAR(n.channels[0].lobes[1].centroid_shift_nm.value(), 3.0, 0.1);
    EXPECT_NEAR(n.channels[0].lobes[0].centroid_shift_nm.value(), 0.0, 1e-9);
}

// Second route: there is nothing whose mean could be taken, or noise around nothing, whose mean is anywhere.
TEST(MeterMismatch, ALobeThatIsMissingHasNoMean) {
    const Sampling sampling;
    const Observer& observer = standard_observer<Cie1931_2deg>();
    for (const double noise : {0.0, 1e-6}) {
        Sensitivities blind = observer.on(sampling);
        for (int i = 0; sampling.wavelength_nm(i) < 504.0; ++i) {
            blind.values[static_cast<std::size_t>(i)] = i == 0   ? 1.5 * noise
                                                        : i == 1 ? -noise
                                                                 : 0.0;
        }
        const std::vector<LobeMismatch> lobes = meter_mismatch(blind, observer).channels[0].lobes;
        EXPECT_FALSE(lobes[0].centroid_shift_nm.has_value());
        EXPECT_NEAR(lobes[0].area_ratio, 0.0, 1e-6);
        EXPECT_NEAR(lobes[1].centroid_shift_nm.value(), 0.0, 1e-9);
    }
}

TEST(MeterMismatch, RefusesAChannelWithoutLight) {
    Sensitivities blind = standard_observer<Cie1931_2deg>().on({});
    std::fill(blind.values.begin(), blind.values.begin() + 401, 0.0);
    EXPECT_THROW(static_cast<void>(meter_mismatch(blind, standard_observer<Cie1931_2deg>())),
                 Error);
}

}  // namespace
}  // namespace samelight
