// Colours on a display: matched for whom they should be, black and white emitters considered, what can't be shown marked.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

// What a temporary lends would be gone: it gives copies.
static_assert(std::is_same_v<decltype(std::declval<MixedLights>().parts()), Eigen::MatrixXd>);
static_assert(std::is_same_v<decltype(std::declval<MixedLights>().amounts()), Eigen::MatrixXd>);

using test::refusal;

const SampledLight& d65() {
    static const SampledLight light = rebin(d_illuminant(6500), {});
    return light;
}

const Eigen::MatrixXd& patches() {
    static const Eigen::MatrixXd lights = patch_lights(patch_set(), d65());
    return lights;
}

/// A panel with a greenish black of a thousandth of its white.
Panel with_black(const char* name) {
    PanelSpectra spectra = generic_spectra(generic_model(name));
    const Spectrum black = spectra.green.scaled(0.001);
    const auto plus_black = [&](const Spectrum& s) {
        std::vector<double> values(s.values().begin(), s.values().end());
        for (std::size_t i = 0; i < values.size(); ++i) {
            values[i] += black.values()[i];
        }
        return Spectrum(Sampling(), std::move(values));
    };
    return {"set",
            {plus_black(spectra.red), plus_black(spectra.green), plus_black(spectra.blue),
             std::nullopt, black, true}};
}

std::vector<Panel> panels() {
    std::vector<Panel> all;
    for (const GenericModel& model : generic_models()) {
        all.push_back(generic_panel(model));
    }
    all.push_back(with_black("oled-rgb"));
    return all;
}

// The promise itself: to the observer, white and colours are the lights they reproduce; also those marked as outside the gamut, in
// calculation.
TEST(Reproduction, EveryColourLooksAsItShould) {
    for (const char* name : {"cie1931-2deg", "cie2015-10deg", "cie2006:60:4"}) {
        const Observer observer = observer_named(name);
        for (const Panel& panel : panels()) {
            const Reproduction shown = reproduce(panel, {d65(), patches()}, observer);
            const auto t = observer.on(panel.sampling());
            const Eigen::MatrixXd lights = shown.lights.lights();
            ASSERT_EQ(lights.cols(), 141);
            const Eigen::Vector3d white = t.rows() * d65().column();
            EXPECT_LT((t.rows() * lights.col(0) - white).norm(), 1e-12 * white.norm());
            const double error =
                (t.rows() * (lights.rightCols(140) - patches())).colwise().norm().maxCoeff();
            EXPECT_LT(error, 1e-12 * white.norm()) << panel.name() << " for " << name;
        }
    }
}

// Second route: the white is the match's, where it is shown as bright as can be.
TEST(Reproduction, TheWhiteIsTheMatchesWhite) {
    const Observer& observer = standard_observer<Cie2015_2deg>();
    for (const Panel& panel : panels()) {
        ReproductionOptions options;
        options.white_level = 1.0;
        const Reproduction shown = reproduce(panel, {d65(), patches()}, observer, options);
        const Match white = match(panel, observer.on(panel.sampling()), d65());
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(shown.white.added[k], white.added[k], 1e-12) << panel.name();
        }
        EXPECT_NEAR(shown.white.white_emitter, white.white_emitter, 1e-12);
        const Eigen::Map<const Eigen::VectorXd> light(white.light.data(), 401);
        const Eigen::VectorXd own = shown.light_factor * shown.lights.lights().col(0);
        EXPECT_LT((own - light).norm(), 1e-12 * light.norm()) << panel.name();
    }
}

TEST(Reproduction, ColoursOutsideTheGamutAreMarked) {
    const Panel wide = generic_panel(generic_model("laser-rgb"));
    const Panel narrow = generic_panel(generic_model("lcd-white-led"));
    const Observer& instrument = standard_observer<Cie1931_2deg>();
    const auto outside = [&](const Panel& panel) {
        const Reproduction shown = reproduce(panel, {d65(), patches()}, instrument);
        for (const ColourDrive& drive : shown.colours) {
            const double least = *std::min_element(drive.added.begin(), drive.added.end());
            EXPECT_EQ(drive.outside_gamut, least < -1e-9);
            EXPECT_NEAR(drive.least_share, least,
                        1e-12);  // this panel's white is its primaries at full drive
        }
        return std::count_if(shown.colours.begin(), shown.colours.end(),
                             [](const ColourDrive& d) { return d.outside_gamut; });
    };
    EXPECT_GT(outside(narrow), outside(wide));
    EXPECT_LT(outside(narrow), 20);  // of 140: the set is for displays
}

TEST(Reproduction, TheWhiteLevelMakesRoomForBrightColours) {
    // White is 1, red + green + blue together 0.45 of it (generic_colour_luminance), so that bright yellows and whites don't fit.
    const Panel panel = generic_panel(generic_model("oled-white"));
    const Observer& observer = standard_observer<Cie1931_2deg>();
    const auto too_bright = [](const Reproduction& r) {
        return std::count_if(r.colours.begin(), r.colours.end(),
                             [](const ColourDrive& d) { return d.too_bright && !d.outside_gamut; });
    };
    ReproductionOptions full;
    full.white_level = 1.0;
    EXPECT_GT(too_bright(reproduce(panel, {d65(), patches()}, observer, full)), 10);
    const Reproduction fitted = reproduce(panel, {d65(), patches()}, observer);
    EXPECT_EQ(too_bright(fitted), 0);
    EXPECT_LT(fitted.white_level, 0.8);
    // It is the highest such level: one colour uses a primary to the full.
    double largest = 0.0;
    for (const ColourDrive& drive : fitted.colours) {
        if (!drive.outside_gamut) {
            largest = std::max(largest, *std::max_element(drive.added.begin(), drive.added.end()));
        }
    }
    EXPECT_NEAR(largest, 1.0, 1e-9);
    // The level says how bright the light is, not what it looks like.
    const Reproduction bright = reproduce(panel, {d65(), patches()}, observer, full);
    EXPECT_LT((fitted.lights.lights() - bright.lights.lights()).cwiseAbs().maxCoeff(),
              1e-12 * bright.lights.lights().maxCoeff());
    EXPECT_NEAR(fitted.light_factor / bright.light_factor, fitted.white_level, 1e-12);
}

TEST(Reproduction, BlackIsPartOfEveryColour) {
    const Panel dark = generic_panel(generic_model("oled-rgb"));
    const Panel leaking = with_black("oled-rgb");
    const Observer& observer = standard_observer<Cie2015_2deg>();
    const Eigen::MatrixXd black = Eigen::MatrixXd::Zero(401, 1);
    const Reproduction none = reproduce(leaking, {d65(), black}, observer);
    // Nothing but the leak can be shown: its green would have to go below 0.
    EXPECT_TRUE(none.colours[0].outside_gamut);
    EXPECT_NEAR(none.colours[0].added[1], -0.001, 1e-12);
    EXPECT_FALSE(reproduce(dark, {d65(), black}, observer).colours[0].outside_gamut);
    // A grey of a tenth gets its green drive less by the leak.
    const Eigen::MatrixXd grey = 0.1 * d65().column();
    ReproductionOptions full;
    full.white_level = 1.0;
    const auto with = reproduce(leaking, {d65(), grey}, observer, full);
    const auto total = with.white.added[1] + 0.001;
    EXPECT_NEAR(with.colours[0].added[1], 0.1 * total - 0.001, 1e-12);
    EXPECT_NEAR(with.colours[0].added[0], 0.1 * with.white.added[0], 1e-12);
}

TEST(Reproduction, UnknownScaleLeavesTheColoursAndTakesTheBrightness) {
    PanelSpectra spectra = generic_spectra(generic_model("oled-rgb"));
    const Observer& observer = standard_observer<Cie1931_2deg>();
    const Reproduction known = reproduce(Panel("a", spectra), {d65(), patches()}, observer);
    spectra.red = spectra.red.scaled(0.2);
    spectra.common_scale = false;
    const Reproduction unknown = reproduce(Panel("b", spectra), {d65(), patches()}, observer);
    EXPECT_TRUE(known.brightness_known);
    EXPECT_FALSE(unknown.brightness_known);
    EXPECT_EQ(unknown.white_level, 1.0);
    EXPECT_LT((known.lights.lights() - unknown.lights.lights()).cwiseAbs().maxCoeff(),
              1e-12 * known.lights.lights().maxCoeff());
    for (std::size_t i = 0; i < 140; ++i) {
        EXPECT_FALSE(unknown.colours[i].too_bright);
        EXPECT_EQ(unknown.colours[i].outside_gamut, known.colours[i].outside_gamut);
    }
}

// A white-target correction by gains: the white and the greys then match for the eye, the instrument reads the target's white, and
// colours are between the two.
TEST(ReproductionWithWhiteSet, MovesTheWhiteToTheEyesAndColoursWithIt) {
    const Observer& instrument = standard_observer<Cie1931_2deg>();
    const Observer& eye = standard_observer<Cie2015_2deg>();
    const Eigen::VectorXd grey = 0.3 * d65().column();
    Eigen::MatrixXd colours(401, 141);
    colours.leftCols(140) = patches();
    colours.col(140) = grey;
    for (const Panel& panel : panels()) {
        if (panel.black_known()) {
            continue;  // "black apart"
        }
        const auto t = eye.on(panel.sampling());
        const auto gains =
            reproduce_with_white_set(panel, {d65(), colours}, {instrument, eye}).lights.lights();
        const auto uncorrected = reproduce(panel, {d65(), colours}, instrument).lights.lights();
        const Eigen::Vector3d white = t.rows() * d65().column();
        EXPECT_LT((t.rows() * gains.col(0) - white).norm(), 1e-12 * white.norm()) << panel.name();
        EXPECT_LT((t.rows() * gains.col(141) - 0.3 * white).norm(), 1e-12 * white.norm());
        const auto error = [&](const Eigen::MatrixXd& lights) {
            return (t.rows() * (lights.middleCols(1, 140) - patches())).colwise().norm().mean();
        };
        EXPECT_GT(error(gains), 1e-6 * white.norm());
        EXPECT_LT(error(gains), error(uncorrected)) << panel.name();
    }
    // For one and the same observer there is nothing to correct.
    const Panel panel = generic_panel(generic_model("oled-white"));
    const auto same = reproduce_with_white_set(panel, {d65(), patches()}, {instrument, instrument})
                          .lights.lights();
    const auto plain = reproduce(panel, {d65(), patches()}, instrument).lights.lights();
    EXPECT_LT((same - plain).cwiseAbs().maxCoeff(), 1e-12 * plain.maxCoeff());
}

TEST(Reproduction, RefusesWhatCannotBe) {
    const Panel panel = generic_panel(generic_model("lcd-white-led"));
    const Observer& observer = standard_observer<Cie1931_2deg>();
    refusal(ErrorKind::shape, [&] {
        static_cast<void>(
            reproduce(panel, {rebin(d_illuminant(6500), {380, 5, 81}), patches()}, observer));
    });
    refusal(ErrorKind::shape, [&] {
        static_cast<void>(reproduce(panel, {d65(), Eigen::MatrixXd::Ones(81, 2)}, observer));
    });
    const SampledLight green = rebin(generic_spectra(generic_model("laser-rgb")).green, {});
    refusal(ErrorKind::domain, [&] {
        static_cast<void>(reproduce(panel, {green, patches()}, observer));
    });
    for (const double level : {0.0, 1.01, -1.0}) {
        ReproductionOptions options;
        options.white_level = level;
        refusal(ErrorKind::domain, [&] {
            static_cast<void>(reproduce(panel, {d65(), patches()}, observer, options));
        });
    }
}

TEST(MixedLights, AreTheSumsOfTheirParts) {
    const Sampling three(500.0, 10.0, 3);
    Eigen::MatrixXd parts(3, 2);
    parts << 1.0, 0.0, 2.0, 1.0, 0.0, 4.0;
    Eigen::MatrixXd amounts(2, 3);
    amounts << 1.0, 0.0, 2.0, 0.0, 1.0, 0.5;
    const MixedLights mixed(three, parts, amounts);
    EXPECT_EQ(mixed.size(), 3U);
    EXPECT_EQ(mixed.part_count(), 2U);
    EXPECT_TRUE(mixed.lights() == parts * amounts);
    EXPECT_TRUE(mixed.chosen({2, 0}).lights().col(0) == mixed.lights().col(2));
    EXPECT_TRUE(mixed.chosen({2, 0}).lights().col(1) == mixed.lights().col(0));
    const MixedLights plain(three, parts);
    EXPECT_TRUE(plain.plain());
    EXPECT_TRUE(plain.lights() == parts);
    EXPECT_TRUE(plain.chosen({1}).lights() == parts.col(1));
    refusal(ErrorKind::domain, [&] { static_cast<void>(mixed.chosen({3})); });
    refusal(ErrorKind::shape, [&] { static_cast<void>(MixedLights(three, amounts)); });
    refusal(ErrorKind::shape, [&] { static_cast<void>(MixedLights(three, parts, parts)); });
}

}  // namespace
}  // namespace samelight
