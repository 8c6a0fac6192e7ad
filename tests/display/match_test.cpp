// The match, by two routes: the solve, and a search of the drive that nulls the observer's difference.
#include <array>
#include <cmath>
#include <random>

#include <gtest/gtest.h>

#include "samelight/display/generic_panel.hpp"
#include "samelight/display/match.hpp"
#include "samelight/white/reference.hpp"

namespace samelight {
namespace {

Reference tube() {
    return display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
}

SampledLight shown(const Panel& panel, const Match& match) {
    return {panel.sampling(), match.light, 0.0};
}

/// Second route: cyclic exact line searches on the squared difference of two chromaticity-like ratios and nothing of the solver's
/// algebra. Minimises |T light(drive) - s T r|^2 over drive with s free, by Gauss-Newton on numerical derivatives.
std::array<double, 3> search_drive(const Panel& panel, const Observer& observer,
                                   const SampledLight& reference, const Eigen::VectorXd& fixed) {
    const Sensitivities t = observer.on(panel.sampling());
    const auto wanted = chromaticity(tristimulus(t, reference));
    const auto difference = [&](const std::array<double, 2>& rb) -> Eigen::Vector2d {
        const Eigen::VectorXd light = fixed + panel.emitters() * Eigen::Vector3d(rb[0], 1.0, rb[1]);
        const auto got = chromaticity(
            tristimulus(t, SampledLight{panel.sampling(), {light.begin(), light.end()}, 0.0}));
        return {got.x() - wanted.x(), got.y() - wanted.y()};
    };
    std::array<double, 2> rb = {1.0, 1.0};  // red and blue against a green of 1
    for (int round = 0; round < 60; ++round) {
        const Eigen::Vector2d here = difference(rb);
        Eigen::Matrix2d slope;
        for (std::size_t k = 0; k < 2; ++k) {
            auto up = rb;
            auto down = rb;
            up[k] += 1e-5;
            down[k] -= 1e-5;
            slope.col(static_cast<Eigen::Index>(k)) = (difference(up) - difference(down)) / 2e-5;
        }
        const Eigen::Vector2d step = slope.inverse() * here;
        rb[0] -= step[0];
        rb[1] -= step[1];
    }
    return {rb[0], 1.0, rb[1]};
}

TEST(Match, NullsTheObserversDifferenceForEveryPanelAndObserver) {
    const Reference reference = tube();
    for (const GenericModel& model : generic_models()) {
        const Panel panel = generic_panel(model);
        for (const Observer* observer : standard_observers()) {
            const Match found = match(panel, observer->on(panel.sampling()), reference.light);
            const auto offset = chromaticity(tristimulus(*observer, shown(panel, found))) -
                                chromaticity(tristimulus(*observer, reference.light));
            EXPECT_LT(offset.distance(), 1e-12) << model.name() << " " << observer->id();
            EXPECT_DOUBLE_EQ(*std::max_element(found.share.begin(), found.share.end()), 1.0);
        }
    }
}

// Two routes, three emitters: the search knows nothing of A w = t.
TEST(Match, AgreesWithASearchForThreeEmitters) {
    const Reference reference = tube();
    for (const GenericModel& model : generic_models()) {
        const Panel panel = generic_panel(model);
        if (panel.white_is_base()) {
            continue;
        }
        for (const Observer* observer : standard_observers()) {
            const Match found = match(panel, observer->on(panel.sampling()), reference.light);
            const auto searched = search_drive(panel, *observer, reference.light,
                                               Eigen::VectorXd::Zero(panel.sampling().count()));
            for (std::size_t k = 0; k < 3; ++k) {
                EXPECT_NEAR(found.added[k] / found.added[1], searched[k],
                            1e-9 * std::max(1.0, searched[k]))
                    << model.name() << " " << observer->id();
            }
        }
    }
}

// Two routes, four emitters: the white emitter's drive is scanned, the search does the rest, and the brightest light that needs
// no negative drive and no share above the native white's is the answer.
TEST(Match, AgreesWithASearchForFourEmitters) {
    const Reference reference = tube();
    const Panel panel = generic_panel(generic_model("oled-white"));
    for (const Observer* observer : standard_observers()) {
        const Match found = match(panel, observer->on(panel.sampling()), reference.light);
        ASSERT_TRUE(found.in_gamut());
        // The white emitter at the answer's drive, green as in the answer's neighbourhood unless green is the one left dark.
        const Eigen::VectorXd fixed = found.white_emitter * panel.white();
        const Eigen::Vector3d added(found.added[0], found.added[1], found.added[2]);
        const Sensitivities t = observer->on(panel.sampling());
        const auto wanted = chromaticity(tristimulus(t, reference.light));
        Eigen::Vector3d drive =
            added + Eigen::Vector3d(0.01, -0.01, 0.02);  // start beside it, and search all three
        const double luminance = (t.rows().row(1) * (fixed + panel.emitters() * added)).value();
        const auto difference = [&](const Eigen::Vector3d& d) -> Eigen::Vector3d {
            const Eigen::VectorXd light = fixed + panel.emitters() * d;
            const auto seen =
                tristimulus(t, SampledLight{panel.sampling(), {light.begin(), light.end()}, 0.0});
            const auto got = chromaticity(seen);
            return {got.x() - wanted.x(), got.y() - wanted.y(), seen.Y() / luminance - 1.0};
        };
        for (int round = 0; round < 60; ++round) {
            Eigen::Matrix3d slope;
            for (Eigen::Index k = 0; k < 3; ++k) {
                slope.col(k) = (difference(drive + 1e-5 * Eigen::Vector3d::Unit(k)) -
                                difference(drive - 1e-5 * Eigen::Vector3d::Unit(k))) /
                               2e-5;
            }
            drive -= slope.inverse() * difference(drive);
        }
        EXPECT_LT((drive - added).cwiseAbs().maxCoeff(), 1e-9) << observer->id();
        EXPECT_NEAR(*std::min_element(found.added.begin(), found.added.end()), 0.0, 1e-12);
    }
}

TEST(Match, BrightestWithinTheNativeWhite) {
    // Any brighter light of the same look would need more than the base holds of one primary; any dimmer one is dimmer.
    const Reference reference = tube();
    for (const GenericModel& model : generic_models()) {
        const Panel panel = generic_panel(model);
        const Match found =
            match(panel, standard_observer<Cie2015_2deg>().on(panel.sampling()), reference.light);
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_LE(found.share[k], 1.0 + 1e-12) << model.name();
            EXPECT_GE(found.added[k], -1e-12) << model.name();
        }
        EXPECT_LE(found.white_emitter, 1.0);
    }
}

// Where white is nothing but red + green + blue, the model with a base and the model of three emitters are one.
TEST(Match, BothModelsAgreeWhereWhiteIsTheSum) {
    const Reference reference = tube();
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    const SampledLight native{panel.sampling(), {panel.white().begin(), panel.white().end()}, 0.0};
    for (const Observer* observer : standard_observers()) {
        const Sensitivities t = observer->on(panel.sampling());
        const Match three = match(panel, t, reference.light);
        const Match base = match(panel, t, reference.light, Base::as_it_stands, &native);
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(three.share[k], base.share[k], 1e-12);
        }
        const double largest = *std::max_element(three.light.begin(), three.light.end());
        for (std::size_t i = 0; i < three.light.size(); ++i) {
            ASSERT_NEAR(three.light[i], base.light[i], 1e-12 * largest);
        }
    }
}

TEST(Match, TheBaseIsBlindToTheScaleOfThePrimaries) {
    const Reference reference = tube();
    PanelSpectra spectra = generic_spectra(generic_model("oled-white"));
    const Panel panel("a", spectra);
    spectra.red = spectra.red.scaled(0.3);
    spectra.green = spectra.green.scaled(7.0);
    spectra.blue = spectra.blue.scaled(1.9);
    const Panel scaled("b", spectra);
    const Sensitivities t = standard_observer<Cie2015_2deg>().on(panel.sampling());
    const Match a = match(panel, t, reference.light);
    const Match b = match(scaled, t, reference.light);
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_NEAR(a.share[k], b.share[k], 1e-12);
    }
}

TEST(Match, BlackIsPartOfTheMatchedLight) {
    const Reference reference = tube();
    PanelSpectra spectra = generic_spectra(generic_model("lcd-white-led"));
    std::vector<double> leak(401);
    for (std::size_t i = 0; i < leak.size(); ++i) {
        leak[i] = 0.004 * spectra.blue.values()[i];  // a bluish black, as backlights leak
    }
    const Spectrum black(Sampling(), leak);
    const auto with = [&](const Spectrum& s) {
        std::vector<double> v(s.values().begin(), s.values().end());
        for (std::size_t i = 0; i < v.size(); ++i) {
            v[i] += leak[i];
        }
        return Spectrum(Sampling(), std::move(v));
    };
    const Panel panel("set", {with(spectra.red), with(spectra.green), with(spectra.blue),
                              std::nullopt, black, true});
    const Observer& observer = standard_observer<Cie2015_2deg>();
    const Match found = match(panel, observer.on(panel.sampling()), reference.light);
    const auto offset = chromaticity(tristimulus(observer, shown(panel, found))) -
                        chromaticity(tristimulus(observer, reference.light));
    EXPECT_LT(offset.distance(), 1e-12);
    const Eigen::VectorXd light =
        panel.black() +
        panel.emitters() * Eigen::Vector3d(found.added[0], found.added[1], found.added[2]);
    for (Eigen::Index i = 0; i < 401; ++i) {
        ASSERT_NEAR(light[i], found.light[static_cast<std::size_t>(i)], 1e-14);
    }
    // The blue drive is less by the blue that black already gives.
    const Match dark = match(Panel("set", spectra), observer.on(panel.sampling()), reference.light);
    EXPECT_NEAR(found.added[2] / found.added[1] - dark.added[2] / dark.added[1],
                -0.004 / found.added[1], 1e-9);
}

TEST(Match, ALightOutsideTheGamutIsAnAnswer) {
    const Panel panel = generic_panel(generic_model("lcd-white-led"));
    const Match found = set_white(panel, {0.15, 0.75});
    EXPECT_FALSE(found.in_gamut());
    EXPECT_LT(found.least_share(), -0.01);
    const auto xy = chromaticity(tristimulus<Cie1931_2deg>(shown(panel, found)));
    EXPECT_NEAR(xy.x(), 0.15, 1e-12);
    EXPECT_NEAR(xy.y(), 0.75, 1e-12);
}

TEST(Match, RefusesWhatCannotBe) {
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    const Sensitivities coarse = standard_observer<Cie1931_2deg>().on({380, 5, 81});
    EXPECT_THROW(static_cast<void>(match(panel, coarse, Eigen::Vector3d(1, 1, 1))), Error);
    const Sensitivities t = standard_observer<Cie1931_2deg>().on(panel.sampling());
    EXPECT_THROW(static_cast<void>(match(panel, t, Eigen::Vector3d(-1, -1, -1))), Error);
    EXPECT_THROW(static_cast<void>(match(panel, t, Eigen::Vector3d(1, 1, 1), Base::as_it_stands)),
                 Error);
    const SampledLight green =
        enter(generic_spectra(generic_model("laser-rgb")).green, panel.sampling());
    EXPECT_THROW(
        static_cast<void>(match(panel, t, Eigen::Vector3d(1, 1, 1), Base::as_it_stands, &green)),
        Error);
    EXPECT_THROW(static_cast<void>(solve_drive(Eigen::Matrix3d::Ones(), Eigen::Vector3d::Ones())),
                 Error);
}

}  // namespace
}  // namespace samelight
