// Panels made from spectra: additivity, black, scale, dependent primaries.
#include <cmath>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_lights.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

// What a temporary lends would be gone: it gives copies.
static_assert(std::is_same_v<decltype(std::declval<Panel>().emitters()), Panel::Columns>);
static_assert(std::is_same_v<decltype(std::declval<Panel>().white()), Eigen::VectorXd>);
static_assert(std::is_same_v<decltype(std::declval<Panel>().native_white()), Eigen::VectorXd>);
static_assert(std::is_same_v<decltype(std::declval<Panel>().black()), Eigen::VectorXd>);
static_assert(
    std::is_same_v<decltype(std::declval<PanelLights>().emitters()), PanelLights::Columns>);
static_assert(std::is_same_v<decltype(std::declval<PanelLights>().white()), Eigen::VectorXd>);
static_assert(
    std::is_same_v<decltype(std::declval<PanelLights>().native_white()), Eigen::VectorXd>);
static_assert(std::is_same_v<decltype(std::declval<PanelLights>().black()), Eigen::VectorXd>);

PanelSpectra oled() { return generic_spectra(generic_model("oled-rgb")); }

Spectrum sum(const Spectrum& a, const Spectrum& b, double factor_b = 1.0) {
    std::vector<double> values(a.values().begin(), a.values().end());
    for (std::size_t i = 0; i < values.size(); ++i) {
        values[i] += factor_b * b.values()[i];
    }
    return {{a.wavelengths_nm().begin(), a.wavelengths_nm().end()}, std::move(values)};
}

Spectrum white_of(const PanelSpectra& s) { return sum(sum(s.red, s.green), s.blue); }

Spectrum grey_black(double level) { return {Sampling(), std::vector<double>(401, level)}; }

std::string what(const PanelSpectra& spectra) {
    try {
        const Panel panel("set", spectra);
    } catch (const Error& error) {
        return error.what();
    }
    return "";
}

TEST(Panel, NativeWhiteWithoutAWhiteColumnIsTheSumOfThePrimaries) {
    const PanelSpectra spectra = oled();
    const Panel panel("set", spectra);
    const Spectrum white = white_of(spectra);
    for (Eigen::Index i = 0; i < 401; ++i) {
        ASSERT_DOUBLE_EQ(panel.white()[i], white.values()[static_cast<std::size_t>(i)]);
    }
    EXPECT_FALSE(panel.additivity());
    EXPECT_FALSE(panel.white_is_base());
    EXPECT_TRUE(panel.white_known());
}

TEST(Panel, AnAdditiveWhiteIsFoundAdditive) {
    PanelSpectra spectra = oled();
    spectra.white = white_of(spectra);
    const Panel panel("set", spectra);
    EXPECT_NEAR(panel.additivity()->luminance_ratio, 1.0, 1e-14);
    EXPECT_LT(panel.additivity()->offset.distance(), 1e-14);
    EXPECT_LT(panel.additivity()->spectral_difference, 1e-14);
    EXPECT_FALSE(panel.white_is_base());
}

// The limits are the file format's own: over 2 % in luminance or .001 in x or y white isn't red + green + blue. What it is made of is
// another question: nothing but the three, in other amounts, here, and they are scaled to it.
TEST(Panel, LimitsOfAdditivity) {
    PanelSpectra spectra = oled();
    spectra.white = white_of(spectra).scaled(1.0 / 1.019);
    EXPECT_TRUE(Panel("set", spectra).additivity()->additive());
    spectra.white = white_of(spectra).scaled(1.0 / 1.021);
    const Panel dimmed("set", spectra);
    EXPECT_FALSE(dimmed.additivity()->additive());
    EXPECT_NEAR(dimmed.additivity()->luminance_ratio, 1.021, 1e-12);
    EXPECT_FALSE(dimmed.white_is_base());
    EXPECT_FALSE(misread_column(*dimmed.additivity()));
    EXPECT_LT((dimmed.white() - dimmed.native_white()).cwiseAbs().maxCoeff(),
              1e-12 * spectra.green.peak());
    spectra.white = sum(white_of(spectra), spectra.blue,
                        0.01);  // blue carries little luminance but much colour
    const Panel tinted("set", spectra);
    EXPECT_NEAR(tinted.additivity()->luminance_ratio, 1.0, 0.02);
    EXPECT_FALSE(tinted.additivity()->additive());
    EXPECT_NEAR((*tinted.additivity()->amounts)[2], 1.01, 1e-9);
    EXPECT_FALSE(misread_column(*tinted.additivity()));  // 1 % is drift
}

// A column read too low or too high is found whatever the level of white, and none where two readings of white differ in level alone.
TEST(Panel, AMisreadColumnIsFoundByWhite) {
    const PanelSpectra right = oled();
    for (std::size_t k = 0; k < 3; ++k) {
        for (const double read : {0.7, 1.5}) {
            for (const double level : {1.0, 0.4}) {
                PanelSpectra spectra = right;
                spectra.white = white_of(right).scaled(level);
                Spectrum& column = k == 0 ? spectra.red : k == 1 ? spectra.green : spectra.blue;
                column = column.scaled(read);
                const Panel panel("set", spectra);
                const auto found = misread_column(*panel.additivity());
                ASSERT_TRUE(found);
                EXPECT_EQ(found->primary, k);
                EXPECT_NEAR(found->read, read, 1e-9);
                EXPECT_FALSE(panel.white_is_base());
            }
        }
    }
}

TEST(Panel, AWhiteOfEqualColourButOtherLightIsABaseToo) {
    // A white emitter tuned to read exactly as red + green + blue do: only the spectrum tells.
    const PanelSpectra white_emitter = generic_spectra(generic_model("oled-white"));
    PanelSpectra spectra = white_emitter;
    spectra.red = spectra.red.scaled(1.0 / generic_colour_luminance);
    spectra.green = spectra.green.scaled(1.0 / generic_colour_luminance);
    spectra.blue = spectra.blue.scaled(1.0 / generic_colour_luminance);
    const Panel panel("set", spectra);
    EXPECT_NEAR(panel.additivity()->luminance_ratio, 1.0, 1e-9);
    EXPECT_LT(panel.additivity()->offset.distance(), 1e-9);
    EXPECT_GT(panel.additivity()->spectral_difference, 0.05);
    EXPECT_TRUE(panel.white_is_base());
}

TEST(Panel, BlackIsTakenFromEveryColumnAndKept) {
    const PanelSpectra clean = oled();
    PanelSpectra leaking = clean;
    const Spectrum black = grey_black(2e-4 * clean.green.peak());
    leaking.red = sum(clean.red, black);
    leaking.green = sum(clean.green, black);
    leaking.blue = sum(clean.blue, black);
    leaking.white = sum(white_of(clean), black);
    leaking.black = black;
    const Panel panel("set", leaking);
    const Panel without("set", clean);
    EXPECT_LT((panel.emitters() - without.emitters()).cwiseAbs().maxCoeff(),
              1e-15 * clean.green.peak() * 10);
    EXPECT_DOUBLE_EQ(panel.black()[200], black.values()[200]);
    EXPECT_FALSE(panel.white_is_base());
    EXPECT_LT(panel.additivity()->offset.distance(), 1e-12);
    // Without the black column the same files don't add up: three blacks against one.
    leaking.black.reset();
    EXPECT_GT(Panel("set", leaking).additivity()->offset.distance(), 1e-5);
}

TEST(Panel, OwnScalesAreRecoveredFromAnAdditiveWhite) {
    const PanelSpectra clean = oled();
    PanelSpectra normalised{clean.red.scaled(1.0 / clean.red.peak()),
                            clean.green.scaled(1.0 / clean.green.peak()),
                            clean.blue.scaled(1.0 / clean.blue.peak()),
                            white_of(clean),
                            std::nullopt,
                            false};
    const Panel panel("set", normalised);
    EXPECT_TRUE(panel.scale_known());
    EXPECT_FALSE(panel.white_is_base());
    EXPECT_LT((panel.emitters() - Panel("set", clean).emitters()).cwiseAbs().maxCoeff(),
              1e-12 * clean.green.peak());
    normalised.white.reset();
    const Panel unknown("set", normalised);
    EXPECT_FALSE(unknown.scale_known());
    EXPECT_FALSE(unknown.white_known());
}

TEST(Panel, DependentPrimariesAreRefused) {
    PanelSpectra spectra = oled();
    spectra.green = spectra.red.scaled(1.7);
    EXPECT_NE(what(spectra).find("depend on each other"), std::string::npos);
    // The same colour measured twice, with an instrument's noise of half a per cent.
    std::vector<double> noisy(spectra.red.values().begin(), spectra.red.values().end());
    for (std::size_t i = 0; i < noisy.size(); ++i) {
        noisy[i] += (i % 2 == 0 ? 0.005 : -0.005) * spectra.red.peak();
    }
    spectra.green = Spectrum(Sampling(), std::move(noisy));
    EXPECT_NE(what(spectra).find("measured twice"), std::string::npos);
    spectra.green = white_of(oled()).scaled(0.0);
    EXPECT_NE(what(spectra).find("no light left in green"), std::string::npos);
}

TEST(Panel, SwappedColumnsAreRefused) {
    PanelSpectra spectra = oled();
    std::swap(spectra.red, spectra.green);
    EXPECT_NE(what(spectra).find("look swapped: green is the reddest"), std::string::npos);
    std::swap(spectra.red, spectra.green);
    std::swap(spectra.green, spectra.blue);
    EXPECT_NE(what(spectra).find("look swapped"), std::string::npos);
}

TEST(Panel, ABlackOfNothingOrNoiseIsKnownButNotMeasurable) {
    PanelSpectra spectra = oled();
    spectra.black = grey_black(0.0);
    EXPECT_TRUE(Panel("set", spectra).black_known());
    EXPECT_FALSE(Panel("set", spectra).black_measurable());
    std::vector<double> noise(401);
    for (std::size_t i = 0; i < noise.size(); ++i) {
        noise[i] = 1e-6 * static_cast<double>((i * 2654435761U) % 1000U) - 5e-4;
    }
    spectra.black = Spectrum(Sampling(), noise);
    EXPECT_FALSE(Panel("set", spectra).black_measurable());
    spectra.black = grey_black(1e-4 * spectra.green.peak());
    EXPECT_TRUE(Panel("set", spectra).black_measurable());
}

TEST(Panel, EveryGenericPanelReadsItsNativeWhite) {
    for (const GenericModel& model : generic_models()) {
        const Panel panel = generic_panel(model);
        const SampledLight white{
            panel.sampling(), {panel.white().begin(), panel.white().end()}, 0.0};
        const auto xy = chromaticity(tristimulus<Cie1931_2deg>(white));
        EXPECT_NEAR(xy.x(), generic_native_white_xy[0], 1e-12) << model.name();
        EXPECT_NEAR(xy.y(), generic_native_white_xy[1], 1e-12) << model.name();
        EXPECT_EQ(panel.white_is_base(), model.name() == "oled-white");
    }
}

}  // namespace
}  // namespace samelight
