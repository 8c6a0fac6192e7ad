// A type's unit bent to readings, which readings are a display's, and what an unresolved line may do to them.
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/bent_unit.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/display/types/line_uncertainty.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/sampling_guard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

/// What a unit of a type reads, without noise: a second route to bend_to(), by the unit's own spectra.
PrimaryReadings readings_of(const PanelSpectra& spectra) {
    PrimaryReadings readings{{{{{0.3, 0.3}}, {{0.3, 0.3}}, {{0.3, 0.3}}}},
                             {{generic_native_white_xy[0], generic_native_white_xy[1]}, 1.0}};
    const std::array<const Spectrum*, 3> columns = {&spectra.red, &spectra.green, &spectra.blue};
    for (std::size_t k = 0; k < 3; ++k) {
        const auto seen = tristimulus<Cie1931_2deg>(*columns.at(k));
        readings.primaries.at(k) = {chromaticity(seen), seen.Y()};
    }
    return readings;
}

/// Every parameter at this share of its range.
std::vector<double> values_at(const GenericModel& model, double share) {
    std::vector<double> values;
    for (const ModelParameter& p : model.parameters()) {
        values.push_back(p.low + share * (p.high - p.low));
    }
    return values;
}

TEST(BentUnit, ReadsAsATrueUnitDid) {
    for (const GenericModel& model : generic_models()) {
        const PrimaryReadings read = readings_of(generic_spectra(model, values_at(model, 0.6)));
        const BentUnit unit = bend_to(model, read);
        EXPECT_LT(unit.misfit, 1.0) << model.name();
        const PanelSpectra spectra = spectra_that_read(unit, read);
        const std::array<const Spectrum*, 3> columns = {&spectra.red, &spectra.green,
                                                        &spectra.blue};
        double misfit = 0.0;
        for (std::size_t k = 0; k < 3; ++k) {
            const auto seen = tristimulus<Cie1931_2deg>(*columns.at(k));
            const auto off = chromaticity(seen) - read.primaries.at(k).xy;
            EXPECT_NEAR(off.first(), unit.left_over.at(k).first(), 1e-9) << model.name();
            EXPECT_NEAR(off.second(), unit.left_over.at(k).second(), 1e-9) << model.name();
            EXPECT_NEAR(seen.Y(), *read.primaries.at(k).luminance, 1e-9) << model.name();
            misfit += (off.first() * off.first() + off.second() * off.second()) /
                      (read.noise_xy * read.noise_xy);
        }
        EXPECT_NEAR(unit.misfit, misfit, 1e-6) << model.name();
        ASSERT_TRUE(spectra.white) << model.name();
        const auto white = chromaticity(tristimulus<Cie1931_2deg>(*spectra.white));
        EXPECT_NEAR(white.x(), generic_native_white_xy[0], 1e-9) << model.name();
        EXPECT_NEAR(white.y(), generic_native_white_xy[1], 1e-9) << model.name();
    }
}

TEST(BentUnit, IsBelievedAsReadUnlessNoUnitReadsSo) {
    const GenericModel& model = generic_models().front();
    PrimaryReadings read = readings_of(generic_spectra(model, values_at(model, 0.4)));
    EXPECT_EQ(believable(model, read).noise_xy, read.noise_xy);
    // Far from all units of the type: then the noise is what the nearest leaves over, six readings (Birge 1932).
    read.primaries[1].xy = {read.primaries[1].xy.x() + 0.06, read.primaries[1].xy.y() - 0.04};
    ASSERT_GT(bend_to(model, read).misfit, no_such_unit);
    const PrimaryReadings doubted = believable(model, read);
    EXPECT_GT(doubted.noise_xy, read.noise_xy);
    EXPECT_LT(doubted.noise_xy, 0.1);
    const double misfit = bend_to(model, doubted).misfit;
    EXPECT_LE(misfit, no_such_unit);
    EXPECT_GT(misfit, 1.0);
}

/// The primaries of IEC 61966-2-1 and its white.
PrimaryReadings plain_readings() {
    return {{{{{0.64, 0.33}}, {{0.30, 0.60}}, {{0.15, 0.06}}}}, {{0.3127, 0.3290}}};
}

/// What is wrong with these readings; "" where nothing is.
std::string refused(const PrimaryReadings& readings) {
    try {
        require_readings(readings, "here");
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::input);
        return error.what();
    }
    return "";
}

TEST(PrimaryReadings, AreADisplays) {
    EXPECT_EQ(refused(plain_readings()), "");
    // A laser's red, as its last decimal may be written.
    PrimaryReadings laser = plain_readings();
    laser.primaries[0].xy = {0.72, 0.285};
    EXPECT_EQ(refused(laser), "");
}

TEST(PrimaryReadings, AreRefusedWhereTheyAreNone) {
    const auto changed = [](std::size_t k, double x, double y) {
        PrimaryReadings readings = plain_readings();
        (k < 3 ? readings.primaries.at(k) : readings.white).xy = {x, y};
        return refused(readings);
    };
    EXPECT_NE(changed(0, 0.0, 0.33).find("red at x 0"), std::string::npos);
    EXPECT_NE(changed(2, 0.15, 0.0).find("blue at x 0.15, y 0"), std::string::npos);
    EXPECT_NE(changed(0, 0.7, 0.32).find("red at x 0.7"), std::string::npos);
    EXPECT_NE(changed(3, -0.1, 0.3).find("white at x -0.1"), std::string::npos);
    // Names: no primary may share what another is the first in.
    const std::string exchanged = "under each other's names";
    EXPECT_NE(changed(0, 0.30, 0.33).find(exchanged), std::string::npos);  // as red as green
    EXPECT_NE(changed(1, 0.30, 0.33).find(exchanged), std::string::npos);  // as green as red
    EXPECT_NE(changed(2, 0.15, 0.33).find(exchanged), std::string::npos);  // as blue as red
    EXPECT_NE(changed(0, 0.15, 0.33).find(exchanged), std::string::npos);  // as red as blue
    EXPECT_NE(changed(2, 0.15, 0.60).find(exchanged), std::string::npos);  // as green as green
    EXPECT_NE(changed(3, 0.2, 0.5).find("can't make"), std::string::npos);
}

TEST(PrimaryReadings, AreRefusedWithHalfTheirLuminancesOrNoNoise) {
    PrimaryReadings readings = plain_readings();
    readings.white.luminance = 100.0;
    EXPECT_NE(refused(readings).find("of some lights"), std::string::npos);
    for (LightReading& light : readings.primaries) {
        light.luminance = 30.0;
    }
    EXPECT_EQ(refused(readings), "");
    EXPECT_TRUE(readings.luminances_known());
    readings.primaries[1].luminance = 0.0;
    EXPECT_NE(refused(readings).find("green with Y 0"), std::string::npos);
    readings = plain_readings();
    EXPECT_FALSE(readings.luminances_known());
    for (const double noise : {0.0, 0.1, -0.001}) {
        readings.noise_xy = noise;
        EXPECT_NE(refused(readings).find("noise"), std::string::npos) << noise;
    }
}

TEST(PrimaryReadings, AreTakenAboveBlack) {
    using Light = Tristimulus<Cie1931_2deg>;
    // By hand: (40, 21, 3) - (1, 1, 2) = (39, 20, 1), x = 39 / 60.
    const auto left = above_black(Light(40.0, 21.0, 3.0), Light(1.0, 1.0, 2.0));
    ASSERT_TRUE(left);
    EXPECT_NEAR(left->xy.x(), 0.65, 1e-15);
    EXPECT_NEAR(left->xy.y(), 1.0 / 3.0, 1e-15);
    EXPECT_NEAR(*left->luminance, 20.0, 1e-13);
    EXPECT_FALSE(above_black(Light(2.0, 1.0, 3.0), Light(1.0, 1.0, 1.0)));
    EXPECT_FALSE(above_black(Light(1.0, 2.0, 1.0), Light(4.0, 1.0, 4.0)));
}

TEST(LineUncertainty, IsHalfTheLinesLightTakenAway) {
    // Second route: lights add up, so half of the three samples' tristimulus values is taken from the whole's.
    std::vector<double> values(401, 0.0);
    std::vector<double> line(401, 0.0);
    for (std::size_t i = 0; i < values.size(); ++i) {
        values[i] = 1.0 + 0.001 * static_cast<double>(i);
    }
    const std::size_t at = 231;  // 611 nm
    for (const std::size_t i : {at - 1, at, at + 1}) {
        values[i] += i == at ? 40.0 : 15.0;
        line[i] = 0.5 * values[i];
    }
    const Spectrum light(Sampling(380.0, 1.0, 401), values);
    const auto whole = tristimulus<Cie1931_2deg>(light);
    const auto without =
        whole - tristimulus<Cie1931_2deg>(Spectrum(Sampling(380.0, 1.0, 401), line));
    const auto moved = line_uncertainty(light, Peak{at, 611.0, 2.0, 1.0, 1.0, 0.1});
    EXPECT_NEAR(moved.first(), chromaticity(without).x() - chromaticity(whole).x(), 1e-12);
    EXPECT_NEAR(moved.second(), chromaticity(without).y() - chromaticity(whole).y(), 1e-12);
    EXPECT_LT(moved.first(), -0.001);
}

}  // namespace
}  // namespace samelight
