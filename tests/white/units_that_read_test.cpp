// Of which part of each parameter's plausible range units are drawn. Three lasers are their parameters: a line's mean wavelength is that of its light.
#include "samelight/white/units_that_read.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/display/types/bent_unit.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/primary_readings.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight {
namespace {

/// What the lasers of the type's defaults read, by the plain sum.
PrimaryReadings laser_readings() {
    const PanelSpectra spectra = generic_spectra(generic_model("laser-rgb"));
    const auto read = [](const Spectrum& light) {
        return LightReading{chromaticity(tristimulus<Cie1931_2deg>(light)), std::nullopt};
    };
    return {{read(spectra.red), read(spectra.green), read(spectra.blue)},
            {{0.3127, 0.3290}, std::nullopt}};
}

/// Least and largest mean wavelength, nm, of a column of all units' lights.
std::array<double, 2> drawn_between(const UnitsThatRead& units, Eigen::Index column) {
    std::array<double, 2> range = {1e9, 0.0};
    for (std::size_t i = 0; i < units.size(); ++i) {
        const Eigen::VectorXd light = units.lights(i).col(column);
        double sum = 0.0;
        for (Eigen::Index k = 0; k < light.size(); ++k) {
            sum += light[k] * units.sampling().wavelength_nm(static_cast<int>(k));
        }
        const double mean = sum / light.sum();
        range = {std::min(range[0], mean), std::max(range[1], mean)};
    }
    return range;
}

// Drawn evenly, 256 units come as near to both ends as a hundredth of the range.
void expect_drawn(const UnitsThatRead& units, Eigen::Index column, double low, double high) {
    const auto [least, most] = drawn_between(units, column);
    const double near = 0.01 * (high - low) + 1e-6;
    EXPECT_NEAR(least, low, near) << column;
    EXPECT_NEAR(most, high, near) << column;
}

TEST(UnitsThatRead, AreDrawnWithinEightDeviationsCutAtTheTypesRange) {
    const PrimaryReadings readings = laser_readings();
    BentUnit unit = bend_to(generic_model("laser-rgb"), readings);
    const auto range = unit.model->parameters();
    unit.values = {range[0].value, range[1].value, range[2].high - 0.5, range[3].value};
    unit.spread = {0.1, 0.2, 0.3, 0.01};
    const UnitsThatRead units(unit, readings, {}, {256});
    expect_drawn(units, 0, range[0].value - 0.8, range[0].value + 0.8);
    expect_drawn(units, 1, range[1].value - 1.6, range[1].value + 1.6);
    expect_drawn(units, 2, range[2].high - 0.5 - 2.4, range[2].high);
}

// Where the readings leave nothing open, as at an end, to which a unit beyond all ranges is bent: 2 in 100 of the range to either side.
TEST(UnitsThatRead, AreDrawnFromTwoInAHundredOfTheRangeAtLeast) {
    const PrimaryReadings readings = laser_readings();
    BentUnit unit = bend_to(generic_model("laser-rgb"), readings);
    const auto range = unit.model->parameters();
    unit.values = {range[0].low, range[1].value, range[2].high, range[3].value};
    unit.spread = {0.0, 0.0, 0.0, 0.0};
    const UnitsThatRead units(unit, readings, {}, {256});
    const auto share = [&](std::size_t i) { return 0.02 * (range[i].high - range[i].low); };
    expect_drawn(units, 0, range[0].low, range[0].low + share(0));
    expect_drawn(units, 1, range[1].value - share(1), range[1].value + share(1));
    expect_drawn(units, 2, range[2].high - share(2), range[2].high);
}

}  // namespace
}  // namespace samelight
