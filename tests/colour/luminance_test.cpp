// Luminance and illuminance, and the observers' luminous efficacy constants.
#include "samelight/colour/luminance.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/resample.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace samelight {
namespace {

// The constants as published to three decimals: CIE 18:2019 (1931, 1964) and CIE 170-2:2015 (2 and 10 degrees). They are quoted
// here from a reading of a reference library's data, not of the reports themselves.
TEST(Efficacy, MeetsThePublishedConstants) {
    EXPECT_NEAR(efficacy_lm_per_w<Cie1964_10deg>(), 683.599, 0.0005);
    EXPECT_NEAR(efficacy_lm_per_w<Cie2015_2deg>(), 683.358, 0.0005);
    EXPECT_NEAR(efficacy_lm_per_w<Cie2015_10deg>(), 683.144, 0.0005);
    // The constant of 1931 comes from a straight line between 555 and 556 nm: met so, and only to 0.0026 by Sprague.
    EXPECT_NEAR(efficacy_lm_per_w(standard_observer<Cie1931_2deg>(), Interpolation::linear),
                683.002, 0.0005);
    EXPECT_NEAR(efficacy_lm_per_w<Cie1931_2deg>(), 683.002, 0.0026);
    EXPECT_NEAR(efficacy_lm_per_w<Cie1931_2deg>(), 682.9994, 0.00005);  // as the docstring says
}

// The docstring: the choice of interpolation is worth 4e-6 for CIE 1931.
TEST(Efficacy, DependsOnTheInterpolationAsStated) {
    const Observer& cie1931 = standard_observer<Cie1931_2deg>();
    const double sprague = efficacy_lm_per_w(cie1931);
    const double linear = efficacy_lm_per_w(cie1931, Interpolation::linear);
    const double cubic = efficacy_lm_per_w(cie1931, Interpolation::shape_preserving);
    EXPECT_LT(std::abs(linear / sprague - 1.0), 4e-6);
    EXPECT_GT(std::abs(linear / sprague - 1.0), 1e-6);
    EXPECT_LT(std::abs(cubic / sprague - 1.0), 4e-6);
}

// Second route: straight from the table's neighbours, no resampling code.
TEST(Efficacy, AgreesWithALineBetweenTheTablesNeighbours) {
    for (const Observer* observer : standard_observers()) {
        const double between = observer->at(1, 555.016);
        EXPECT_NEAR(efficacy_lm_per_w(*observer, Interpolation::linear) * between / 683.0, 1.0,
                    1e-14)
            << observer->id();
    }
}

TEST(Efficacy, RefusesConesByName) {
    try {
        efficacy_lm_per_w(cie2006_cones_2deg());
        FAIL() << "cones have no luminous efficiency function";
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::observer);
        EXPECT_NE(std::string(error.what()).find("cie2006-2deg"), std::string::npos);
    }
}

TEST(Efficacy, RefusesATableThatDoesNotReachOrIsDarkThere) {
    const auto made = [](double first_nm, double y) {
        const std::vector<double> row(10, y);
        return Observer({"made-up", "made up", "none", Receptors::colour_matching},
                        {first_nm, 1.0, 10}, {row, row, row});
    };
    EXPECT_NO_THROW(efficacy_lm_per_w(made(550.0, 1.0)));
    EXPECT_THROW(efficacy_lm_per_w(made(560.0, 1.0)), Error);
    EXPECT_THROW(efficacy_lm_per_w(made(550.0, 0.0)), Error);
}

// By definition (SI brochure, 2.2): 1 W of light at 540 THz is 683 lm, for every observer. Two lines stand for the one between
// them: their shares 0.984 and 0.016 put the mean at 555.016 nm, which a straight line between the table's values meets exactly.
TEST(Luminance, OfMonochromaticLightAt540ThzIs683TimesItsRadiance) {
    const Spectrum light(Sampling(554.0, 1.0, 4), {0.0, 0.984, 0.016, 0.0});
    const Sampling sampling(554.0, 1.0, 4);
    EXPECT_NEAR(luminance_of_radiance(tristimulus<Cie1931_2deg>(light, sampling)).cd_m2(), 683.0,
                683.0 * 4e-6);
    EXPECT_NEAR(luminance_of_radiance(tristimulus<Cie1964_10deg>(light, sampling)).cd_m2(), 683.0,
                683.0 * 4e-6);
    EXPECT_NEAR(illuminance_of_irradiance(tristimulus<Cie1931_2deg>(light, sampling)).lx(), 683.0,
                683.0 * 4e-6);
}

TEST(Luminance, IsLinearInTheLight) {
    const Tristimulus<Cie2015_2deg> t(1.0, 2.0, 3.0);
    const double one = luminance_of_radiance(t).cd_m2();
    EXPECT_DOUBLE_EQ(luminance_of_radiance(5.0 * t).cd_m2(), 5.0 * one);
    EXPECT_DOUBLE_EQ(one, 2.0 * efficacy_lm_per_w<Cie2015_2deg>());
    EXPECT_EQ(luminance_of_radiance(0.0 * t), Luminance(0.0));
    EXPECT_LT(luminance_of_radiance(-1.0 * t), Luminance(0.0));
}

TEST(Luminance, TakesTheObserverOfARunTimeValueFromItsIdentity) {
    const Tristimulus<Cie1964_10deg> tagged(1.0, 2.0, 3.0);
    const Tristimulus<Any> any = tagged;
    EXPECT_EQ(luminance_of_radiance(any), luminance_of_radiance(tagged));
    const Tristimulus<Any> stranger(OfObserver<Any>("somebody"), {1.0, 2.0, 3.0});
    EXPECT_THROW(luminance_of_radiance(stranger), Error);
    const Tristimulus<Any> cones(OfObserver<Any>("cie2006-2deg"), {1.0, 2.0, 3.0});
    EXPECT_THROW(luminance_of_radiance(cones), Error);
}

TEST(Luminance, AddsAndOrders) {
    const Luminance a(100.0);
    const Luminance b(0.05);
    EXPECT_DOUBLE_EQ((a + b).cd_m2(), 100.05);
    EXPECT_DOUBLE_EQ((a - b).cd_m2(), 99.95);
    EXPECT_DOUBLE_EQ((2.0 * b).cd_m2(), 0.1);
    EXPECT_LT(b, a);
    EXPECT_EQ(a, Luminance(100.0));
    EXPECT_THROW(Luminance{std::numeric_limits<double>::quiet_NaN()}, Error);
    EXPECT_THROW(Luminance{std::numeric_limits<double>::infinity()}, Error);
}

}  // namespace
}  // namespace samelight
