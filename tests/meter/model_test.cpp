// Corrections from spectra: exact for what a panel shows, to any observer, and the same answer as the white target of each panel.
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "meter/invented_meter.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/model/model.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

namespace samelight {
namespace {

std::vector<Observer> observers() {
    return {standard_observer<Cie1931_2deg>(), standard_observer<Cie2015_2deg>(),
            standard_observer<Cie2015_10deg>(), standard_observer<JuddVos1978>(),
            cie2006_cones_2deg()};
}

Chromaticity<Any> read_through(const Correction& correction, const Sensitivities& meter,
                               const SampledLight& light) {
    return chromaticity(corrected_reading(correction, tristimulus(meter, light).values()).xyz);
}

Reference tube() {
    return display_reference(generic_panel(generic_model("crt")),
                             Chromaticity<Cie1931_2deg>(0.3127, 0.3290));
}

// The promise: set each panel to its own CIE 1931 target, read it with a poor meter through the matrix to the observer, and the observer's
// own chromaticity of the reference comes out: one number for every panel. So the matrix and the targets are one answer.
TEST(CorrectionFromSpectra, OneTargetOfTheObserverIsEveryPanelsOwnCie1931Target) {
    const Reference reference = tube();
    for (const Observer& observer : observers()) {
        const auto wanted = chromaticity(tristimulus(observer, reference.light));
        for (const char* name : {"lcd-ccfl", "lcd-white-led", "lcd-narrow-red", "lcd-quantum-dot",
                                 "oled-rgb", "oled-quantum-dot", "laser-rgb"}) {
            const Panel panel = generic_panel(generic_model(name));
            const Target target = white_target(panel, reference, observer);
            const SampledLight shown{panel.sampling(), target.match.light, 0.0};
            for (const test::InventedMeter& invented : test::invented_meters()) {
                const Sensitivities meter = invented.on(panel.sampling());
                const Correction correction = correction_from_spectra(meter, panel, observer);
                const auto read = read_through(correction, meter, shown);
                EXPECT_LT((read - wanted).distance(), 1e-9) << name << " " << observer.id();
                // And the other way: what the meter reads through the matrix to CIE 1931 is the target itself.
                const Correction to_1931 =
                    correction_from_spectra(meter, panel, standard_observer<Cie1931_2deg>());
                const auto instrument = read_through(to_1931, meter, shown).as<Cie1931_2deg>();
                EXPECT_LT((instrument - target.xy).distance(), 1e-9) << name;
            }
        }
    }
}

TEST(CorrectionFromSpectra, IsExactForEveryMixtureAndForTheLuminance) {
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    const Observer& observer = standard_observer<Cie2015_10deg>();
    const Sensitivities meter = test::invented_meters()[2].on(panel.sampling());
    const Correction correction = correction_from_spectra(meter, panel, observer);
    for (const Eigen::Vector3d& drive :
         {Eigen::Vector3d(1, 1, 1), Eigen::Vector3d(1, 0, 0), Eigen::Vector3d(0.2, 0.9, 0.4)}) {
        const Eigen::VectorXd light = panel.emitters() * drive;
        const SampledLight shown{panel.sampling(), {light.begin(), light.end()}, 0.0};
        const auto read = correction.corrected_xyz(tristimulus(meter, shown).values());
        const auto truth = tristimulus(observer, shown).values();
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(read[k] / truth[k], 1.0, 1e-11);
        }
    }
    // The matrix keeps X + Y + Z of the meter's white; the luminance factor is apart.
    const Eigen::Vector3d white = meter.rows() * panel.white();
    EXPECT_NEAR((correction.matrix() * white).sum() / white.sum(), 1.0, 1e-13);
    EXPECT_EQ(correction.observer, "cie2015-10deg");
    EXPECT_LT(correction.residuals[3].after.xy(), 1e-12);
    EXPECT_GT(correction.residuals[3].before.xy(), 0.001);
    EXPECT_TRUE(correction.warnings.empty());
}

TEST(CorrectionFromSpectra, IsTheUnitMatrixForAMeterThatIsTheObserver) {
    const Panel panel = generic_panel(generic_model("lcd-white-led"));
    const Observer& observer = standard_observer<Cie1931_2deg>();
    const Correction c = correction_from_spectra(observer.on(panel.sampling()), panel, observer);
    for (std::size_t k = 0; k < 9; ++k) {
        EXPECT_NEAR(c.reference_from_meter[k], k % 4 == 0 ? 1.0 : 0.0, 1e-12);
    }
    EXPECT_NEAR(c.luminance_factor, 1.0, 1e-12);
}

// A white emitter: three exact, or white exact, or neither. Worked out on the spectra, each method keeps what it promises, and least squares
// has the least sum of squares of the three.
TEST(CorrectionFromSpectra, AWhiteEmitterLeavesAChoiceAndSaysWhatItCosts) {
    const Panel panel = generic_panel(generic_model("oled-white"));
    const Observer& observer = standard_observer<Cie1931_2deg>();
    for (const test::InventedMeter& invented : test::invented_meters()) {
        const Sensitivities meter = invented.on(panel.sampling());
        const auto made = [&](SpectraMethod method) {
            return correction_from_spectra(meter, panel, observer, {method, {}});
        };
        const Correction primaries = made(SpectraMethod::primaries_exact);
        const Correction squares = made(SpectraMethod::least_squares);
        const Correction white = made(SpectraMethod::white_exact);
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_LT(primaries.residuals[k].after.xy(), 1e-12);
        }
        EXPECT_LT(white.residuals[3].after.xy(), 1e-12);
        EXPECT_GT(primaries.residuals[3].after.xy(), 1e-4);
        const auto sum_of_squares = [&](const Correction& c) {
            double sum = 0.0;
            Eigen::Matrix<double, Eigen::Dynamic, 4> lights(panel.sampling().count(), 4);
            lights << panel.emitters(), panel.white();
            const Eigen::Matrix<double, 3, 4> truth = observer.on(panel.sampling()).rows() * lights;
            const Eigen::Matrix<double, 3, 4> read =
                c.luminance_factor * c.matrix() * (meter.rows() * lights);
            for (Eigen::Index k = 0; k < 4; ++k) {
                sum += ((read.col(k) - truth.col(k)) / truth.col(k).sum()).squaredNorm();
            }
            return sum;
        };
        EXPECT_LT(sum_of_squares(squares), sum_of_squares(white));
        EXPECT_LT(sum_of_squares(squares), sum_of_squares(primaries));
        ASSERT_EQ(white.warnings.size(), 1U);
        EXPECT_EQ(white.warnings[0].code, "four_emitters");
        // Unless asked otherwise, white is exact.
        EXPECT_EQ(correction_from_spectra(meter, panel, observer).reference_from_meter,
                  white.reference_from_meter);
        std::printf(
            "[ table    ] oled-white, meter %-7s xy left: red, green, blue exact: white "
            "%.4f; least squares: white %.4f, worst %.4f; white exact: worst %.4f\n",
            invented.name.c_str(), primaries.residuals[3].after.xy(),
            squares.residuals[3].after.xy(),
            std::max({squares.residuals[0].after.xy(), squares.residuals[1].after.xy(),
                      squares.residuals[2].after.xy()}),
            std::max({white.residuals[0].after.xy(), white.residuals[1].after.xy(),
                      white.residuals[2].after.xy()}));
    }
}

// With a white emitter the two answers part by what the matrix leaves; with red, green and blue exact and the white made of them they agree.
TEST(CorrectionFromSpectra, OnAWhiteEmitterTheTwoAnswersAgreeWithinWhatIsLeft) {
    const Panel panel = generic_panel(generic_model("oled-white"));
    const Reference reference = tube();
    const Observer& observer = standard_observer<Cie2015_2deg>();
    const Sensitivities rows = observer.on(panel.sampling());
    const auto wanted = chromaticity(tristimulus(observer, reference.light));
    const Match alone = match(panel, rows, reference.light, Base::primaries);
    const Target target = white_target(panel, reference, observer);
    for (const test::InventedMeter& invented : test::invented_meters()) {
        const Sensitivities meter = invented.on(panel.sampling());
        const Correction exact =
            correction_from_spectra(meter, panel, observer, {SpectraMethod::primaries_exact, {}});
        EXPECT_LT(
            (read_through(exact, meter, {panel.sampling(), alone.light, 0.0}) - wanted).distance(),
            1e-9);
        const Correction white = correction_from_spectra(meter, panel, observer);
        const SampledLight shown{panel.sampling(), target.match.light, 0.0};
        EXPECT_LT((read_through(white, meter, shown) - wanted).distance(), 0.0005);
        EXPECT_LT((read_through(white, meter, shown) - wanted).distance(),
                  (read_through(exact, meter, shown) - wanted).distance());
    }
}

TEST(CorrectionFromSpectra, RefusesWhatCannotWork) {
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    const Observer& observer = standard_observer<Cie1931_2deg>();
    EXPECT_THROW(
        static_cast<void>(correction_from_spectra(observer.on({380.0, 5.0, 81}), panel, observer)),
        Error);
    Sensitivities twice = observer.on(panel.sampling());
    std::copy(twice.values.begin(), twice.values.begin() + 401, twice.values.begin() + 401);
    try {
        static_cast<void>(correction_from_spectra(twice, panel, observer));
        FAIL();
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::singular);
    }
    Sensitivities dark = observer.on(panel.sampling());
    std::fill(dark.values.begin(), dark.values.end(), 0.0);
    EXPECT_THROW(static_cast<void>(correction_from_spectra(dark, panel, observer)), Error);
}

}  // namespace
}  // namespace samelight
