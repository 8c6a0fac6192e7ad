// White targets: the trade's own experience, what must not depend on what, and every kind of answer.
#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include "numeric/facts.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

namespace samelight {
namespace {

const Observer& target_field() { return standard_observer<Cie2015_2deg>(); }

Panel generic(const char* name) { return generic_panel(generic_model(name)); }

Reference tube() { return display_reference(generic("crt"), {0.3127, 0.3290}); }

Spectrum mixture(const PanelSpectra& s, double red, double green, double blue) {
    std::vector<double> values(s.red.size());
    for (std::size_t i = 0; i < values.size(); ++i) {
        values[i] =
            red * s.red.values()[i] + green * s.green.values()[i] + blue * s.blue.values()[i];
    }
    return {Sampling(), std::move(values)};
}

bool warned(const std::vector<Warning>& warnings, const char* code) {
    for (const Warning& warning : warnings) {
        if (warning.code == code) {
            return true;
        }
    }
    return false;
}

// A monitor with separate red, green and blue OLED emitters is set to about x 0.3067, y 0.3180 so that its white looks like a
// tube's at 0.3127, 0.3290 (common practice, no source). The generic model, none of whose figures was adjusted to it, must come
// within 0.003.
TEST(Target, TheTradesOffsetForRgbOledIsReproduced) {
    const Target target = white_target(generic("oled-rgb"), tube(), target_field());
    EXPECT_NEAR(target.xy.x(), 0.3067, 0.003);
    EXPECT_NEAR(target.xy.y(), 0.3180, 0.003);
}

// ... and the same offset would be wrong on a panel of another kind.
TEST(Target, ANarrowLineRedLcdNeedsAnotherTargetThanRgbOled) {
    const auto oled = white_target(generic("oled-rgb"), tube(), target_field()).xy;
    const auto lcd = white_target(generic("lcd-narrow-red"), tube(), target_field()).xy;
    EXPECT_GT(lcd.y() - oled.y(), 0.003);
    const auto white_emitter = white_target(generic("oled-white"), tube(), target_field()).xy;
    EXPECT_GT((white_emitter - oled).distance(), 0.001);
}

TEST(Target, ForTheInstrumentsOwnObserverItIsTheReferenceItself) {
    const Reference reference = tube();
    for (const GenericModel& model : generic_models()) {
        const Target target =
            white_target(generic_panel(model), reference, standard_observer<Cie1931_2deg>());
        EXPECT_LT(target.from_reference.distance(), 1e-12) << model.name();
    }
}

TEST(Target, ThePanelThatIsTheReferenceNeedsNoOffset) {
    for (const GenericModel& model : generic_models()) {
        const Panel panel = generic_panel(model);
        for (const Observer* observer : standard_observers()) {
            const Target target = white_target(panel, display_reference(panel), *observer);
            EXPECT_LT(target.from_reference.distance(), 1e-11)
                << model.name() << " " << observer->id();
            EXPECT_NEAR(*target.luminance_ratio, 1.0, 1e-11);
        }
    }
}

TEST(Target, DoesNotDependOnAnyScale) {
    const Reference reference = tube();
    PanelSpectra spectra = generic_spectra(generic_model("oled-rgb"));
    const Target target = white_target(Panel("a", spectra), reference, target_field());
    spectra.red = spectra.red.scaled(1e-4);
    spectra.blue = spectra.blue.scaled(3e3);
    Reference brighter = reference;
    for (double& value : brighter.light.values) {
        value *= 250.0;
    }
    const Target scaled = white_target(Panel("b", spectra), brighter, target_field());
    EXPECT_NEAR(target.xy.x(), scaled.xy.x(), 1e-12);
    EXPECT_NEAR(target.xy.y(), scaled.xy.y(), 1e-12);
}

TEST(Target, CostIsTheLightThatTheCutsTake) {
    const Panel panel = generic("oled-rgb");
    const Target target = white_target(panel, tube(), target_field());
    // Second route: the luminance of the drive itself over that of full drive.
    const auto& drive = *target.drive;
    const auto y = standard_observer<Cie1931_2deg>().on(panel.sampling()).rows().row(1).eval();
    const double shown =
        (y * panel.emitters() * Eigen::Vector3d(drive[0], drive[1], drive[2])).value();
    const double full = (y * panel.emitters() * Eigen::Vector3d::Ones()).value();
    EXPECT_NEAR(*target.luminance_ratio, shown / full, 1e-12);
    EXPECT_LT(*target.luminance_ratio, 1.0);
    EXPECT_GT(*target.luminance_ratio,
              0.85);  // about 8 % on this type, from science's own figures on modelled spectra
    EXPECT_DOUBLE_EQ(*std::max_element(drive.begin(), drive.end()), 1.0);
}

TEST(Target, UnknownScaleLeavesTheTargetAndTakesTheRest) {
    PanelSpectra spectra = generic_spectra(generic_model("oled-rgb"));
    const Target known = white_target(Panel("a", spectra), tube(), target_field());
    spectra.common_scale = false;
    const PanelTargets unknown = white_targets(Panel("b", spectra), tube(), {target_field()});
    EXPECT_FALSE(unknown.native_white);
    EXPECT_FALSE(unknown.targets[0].drive);
    EXPECT_FALSE(unknown.targets[0].luminance_ratio);
    EXPECT_EQ(unknown.targets[0].xy, known.xy);
    EXPECT_TRUE(warned(unknown.warnings, "scale_unknown"));
    // Without a white there is nothing that a black could be a share of.
    spectra.black = spectra.green.scaled(0.001);
    EXPECT_FALSE(white_targets(Panel("b", spectra), tube(), {target_field()}).black_ratio);
    spectra.common_scale = true;
    EXPECT_TRUE(white_targets(Panel("b", spectra), tube(), {target_field()}).black_ratio);
    spectra.common_scale = false;
    EXPECT_THROW(static_cast<void>(display_reference(Panel("b", spectra))), Error);
}

TEST(Target, AWhiteEmitterIsTheBaseAndTheAnswerSaysHowFarItIsNotUnique) {
    const Panel panel = generic("oled-white");
    const PanelTargets answer =
        white_targets(panel, tube(), {target_field(), standard_observer<Cie1931_2deg>()});
    EXPECT_TRUE(warned(answer.warnings, "white_is_base"));
    const Target& target = answer.targets[0];
    ASSERT_EQ(target.drive->size(), 4U);
    EXPECT_DOUBLE_EQ(target.drive->back(), 1.0);  // the white emitter carries the most
    ASSERT_TRUE(target.without_white_emitter);
    EXPECT_GT(target.without_white_emitter->distance(), 1e-4);
    // For the instrument's own observer the reading is the same whichever emitters make it.
    EXPECT_LT(answer.targets[1].without_white_emitter->distance(), 1e-12);
}

TEST(Target, OutsideTheGamutIsSaidWithTheNearestThatCanBeShown) {
    const Panel panel = generic("lcd-white-led");
    const Reference green =
        light_reference("green light", generic_spectra(generic_model("laser-rgb")).green);
    EXPECT_TRUE(warned(green.warnings, "reference_white_native"));
    ASSERT_TRUE(green.unlikely_white);
    EXPECT_GT(green.unlikely_white->distance_xy, 0.01);
    const PanelTargets answer = white_targets(panel, green, {target_field()});
    const Target& target = answer.targets[0];
    ASSERT_FALSE(target.in_gamut());
    EXPECT_TRUE(warned(answer.warnings, "outside_gamut"));
    EXPECT_LT(target.outside->share, 0.0);
    EXPECT_EQ(target.outside->primary,
              static_cast<std::size_t>(
                  std::min_element(target.match.share.begin(), target.match.share.end()) -
                  target.match.share.begin()));
    EXPECT_GT(target.outside->remaining_uv, 0.01);
    // The nearest light has nothing negative: its reading is that of the clipped drive.
    Eigen::Vector3d clipped;
    for (std::size_t k = 0; k < 3; ++k) {
        clipped[static_cast<Eigen::Index>(k)] = std::max(0.0, target.match.added[k]);
    }
    const Eigen::VectorXd light = panel.emitters() * clipped;
    const auto xy = chromaticity(tristimulus<Cie1931_2deg>(
        SampledLight{panel.sampling(), {light.begin(), light.end()}, 0.0}));
    EXPECT_NEAR(target.outside->nearest.x(), xy.x(), 1e-12);
    EXPECT_NEAR(target.outside->nearest.y(), xy.y(), 1e-12);
}

TEST(Target, WarnsWhereSmallAndLargeFieldsPullApart) {
    const std::vector<Observer> observers = {target_field(), standard_observer<Cie2015_10deg>()};
    // A white-LED LCD against a tube: y below the reference at 2 degrees, above it at 10.
    const PanelTargets apart = white_targets(generic("lcd-white-led"), tube(), observers);
    EXPECT_TRUE(warned(apart.warnings, "observers_opposed"));
    ASSERT_TRUE(apart.opposed);
    EXPECT_EQ(apart.opposed->first + apart.opposed->second, 1U);
    EXPECT_FALSE(apart.opposed->from_white_now);
    EXPECT_EQ(apart.warnings.back(), opposed_warning(apart));
    const PanelTargets alike = white_targets(generic("oled-white"), tube(), observers);
    EXPECT_FALSE(warned(alike.warnings, "observers_opposed"));
    EXPECT_FALSE(alike.opposed);
}

TEST(Target, AMeasuredWhiteIsNeverReplacedInWhatIsReported) {
    PanelSpectra spectra = generic_spectra(generic_model("oled-rgb"));
    spectra.white =
        mixture(spectra, 1.012, 1.012, 1.0122);  // within the limits of additivity, but not the sum
    const PanelTargets answer = white_targets(Panel("set", spectra), tube(), {target_field()});
    ASSERT_TRUE(answer.additivity);
    EXPECT_TRUE(answer.additivity->additive());
    EXPECT_NEAR(answer.additivity->luminance_ratio, 1.0 / 1.012, 1e-4);
    const auto xy = chromaticity(tristimulus<Cie1931_2deg>(*spectra.white));
    EXPECT_NEAR(answer.native_white->x(), xy.x(), 1e-12);
    EXPECT_NEAR(answer.native_white->y(), xy.y(), 1e-12);
    const Target without = white_target(generic("oled-rgb"), tube(), target_field());
    EXPECT_NEAR(*answer.targets[0].luminance_ratio, *without.luminance_ratio / 1.012, 1e-4);
}

/// Light of 1 over 11 nm about `nm`, and of `beyond` at 850 and 851 nm.
Spectrum line_at(int nm, double beyond) {
    std::vector<double> values(521, 0.0);
    std::fill_n(values.begin() + (nm - 5 - 380), 11, 1.0);
    values[850 - 380] = values[851 - 380] = beyond;
    return {Sampling(380.0, 1.0, 521), std::move(values)};
}

// By definition: of red's 11 and .22, .22 lie where an answer up to 780 nm doesn't reach.
TEST(Target, LightOutsideTheRangeIsSaidInPerCentOfThePrimarysOwn) {
    const Sampling used(380.0, 1.0, 401);
    const auto answer_with = [&](double beyond) {
        return white_targets(
            Panel("set", {line_at(610, beyond), line_at(530, 0.0), line_at(460, 0.0)}, used),
            tube(), {target_field()});
    };
    EXPECT_FALSE(warned(answer_with(0.005).warnings, "light_outside_range"));  // .09 %
    const PanelTargets answer = answer_with(0.11);
    const auto said = std::find_if(answer.warnings.begin(), answer.warnings.end(),
                                   [](const auto& w) { return w.code == "light_outside_range"; });
    ASSERT_NE(said, answer.warnings.end());
    EXPECT_NEAR(test::number_of(*said, "outside_percent"), 100.0 * 0.22 / 11.22, 1e-9);
    EXPECT_EQ(test::number_of(*said, "first_nm"), 380.0);
    EXPECT_EQ(test::number_of(*said, "last_nm"), 780.0);
}

// What is said of the native white is of no use where the white as it stands was measured.
TEST(Target, OfTheNativeWhiteNothingIsSaidWhereTheWhiteAsItStandsIsKnown) {
    const PanelSpectra emitter = generic_spectra(generic_model("oled-white"));
    PanelSpectra other = generic_spectra(generic_model("oled-rgb"));
    other.white = mixture(other, 0.8, 0.8, 0.8);  // held back by a limiter
    PanelSpectra apart = emitter;
    apart.common_scale = false;
    for (const auto& [spectra, code] : {std::pair{emitter, "white_is_base"},
                                        {other, "white_of_other_level"},
                                        {apart, "scale_unknown"}}) {
        const Panel panel("set", spectra);
        EXPECT_TRUE(warned(white_targets(panel, tube(), {target_field()}).warnings, code)) << code;
        TargetOptions options;
        options.base = WhiteAsItStands{rebin(*spectra.white, panel.sampling())};
        EXPECT_FALSE(warned(white_targets(panel, tube(), {target_field()}, options).warnings, code))
            << code;
    }
    // White is known without a common scale, but no drive of a primary.
    const PanelTargets answer = white_targets(Panel("set", apart), tube(), {target_field()});
    for (const Warning& warning : answer.warnings) {
        if (warning.code == "scale_unknown") {
            EXPECT_EQ(test::text_of(warning, "unknown"), "drive");
        }
    }
}

TEST(Target, ABlackWithinItsNoiseHasNoContrast) {
    PanelSpectra spectra = generic_spectra(generic_model("oled-rgb"));
    std::vector<double> noise(spectra.red.size());
    for (std::size_t i = 0; i < noise.size(); ++i) {
        noise[i] = (i * 7 % 5 < 2 ? 1.0 : -1.0) * 1e-6 * spectra.red.peak();
    }
    spectra.black = Spectrum(Sampling(), noise);
    EXPECT_FALSE(white_targets(Panel("set", spectra), tube(), {target_field()}).black_ratio);
    spectra.black = spectra.green.scaled(0.001);
    EXPECT_TRUE(white_targets(Panel("set", spectra), tube(), {target_field()}).black_ratio);
}

TEST(Target, ABlackThatIsNoneIsSaid) {
    PanelSpectra spectra = generic_spectra(generic_model("oled-rgb"));
    spectra.black = spectra.green.scaled(0.05);
    const PanelTargets answer = white_targets(Panel("set", spectra), tube(), {target_field()});
    EXPECT_TRUE(warned(answer.warnings, "black_too_bright"));
    EXPECT_GT(*answer.black_ratio, 0.02);
}

TEST(Reference, SaysWhereADisplaysWhiteIsNative) {
    EXPECT_TRUE(tube().warnings.empty());
    EXPECT_TRUE(illuminant_reference("D65").warnings.empty());
    PanelSpectra bluish = generic_spectra(generic_model("oled-rgb"));
    bluish.blue = bluish.blue.scaled(1.5);
    EXPECT_TRUE(warned(display_reference(Panel("set", bluish)).warnings, "reference_white_native"));
    EXPECT_THROW(static_cast<void>(display_reference(Panel("set", bluish), {0.1, 0.8})), Error);
    EXPECT_THROW(static_cast<void>(illuminant_reference("D39")), Error);
    EXPECT_THROW(static_cast<void>(illuminant_reference("F11")), Error);
}

TEST(Reference, ADisplayAsSetReadsWhatItWasSetTo) {
    for (const GenericModel& model : generic_models()) {
        const auto xy = display_reference(generic_panel(model), {0.3067, 0.3180}).xy();
        EXPECT_NEAR(xy.x(), 0.3067, 1e-12) << model.name();
        EXPECT_NEAR(xy.y(), 0.3180, 1e-12) << model.name();
    }
}

TEST(Target, LeftToGoSaysMatchedWithinTheNoiseOnly) {
    const PanelSpectra spectra = generic_spectra(generic_model("oled-rgb"));
    const Panel panel("set", spectra);
    const Target target = white_target(panel, tube(), target_field());
    TargetOptions options;
    options.base = WhiteAsItStands{
        rebin(mixture(spectra, target.match.share[0], target.match.share[1], target.match.share[2]),
              panel.sampling())};
    const Target there = white_target(panel, tube(), target_field(), options);
    EXPECT_TRUE(there.left->matched);
    EXPECT_LT(there.left->offset.distance(), 1e-12);
    EXPECT_NEAR(*there.luminance_ratio, 1.0, 1e-12);

    options.base = WhiteAsItStands{rebin(mixture(spectra, 1.03 * target.match.share[0],
                                                 target.match.share[1], target.match.share[2]),
                                         panel.sampling())};
    const Target off = white_target(panel, tube(), target_field(), options);
    EXPECT_FALSE(off.left->matched);
    EXPECT_NEAR(off.left->light_change[0], 1.0 / 1.03 - 1.0, 1e-12);
    EXPECT_NEAR(off.left->light_change[1], 0.0, 1e-12);
    EXPECT_NEAR(off.xy.x(), target.xy.x(), 1e-12);
    options.instrument_noise_xy = 0.6 * off.left->offset.distance();
    EXPECT_TRUE(white_target(panel, tube(), target_field(), options).left->matched);
    EXPECT_FALSE(off.drive);
}

}  // namespace
}  // namespace samelight
