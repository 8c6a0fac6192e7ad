// The match, by two routes: the solve, and a search of the drive that nulls the observer's difference.
#include <array>
#include <cmath>
#include <random>

#include <gtest/gtest.h>

#include <Eigen/LU>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
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

namespace samelight {
namespace {

Reference tube() {
    return display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
}

SampledLight shown(const Panel& panel, const Match& match) {
    return {panel.sampling(), match.light, 0.0};
}

/// Second route: Newton's method on the difference of the observer's two chromaticities, with numerical derivatives and nothing of
/// the solver's algebra.
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

/// Drive of red, green and blue that, on top of `fixed`, gives the observer's wanted chromaticity and luminance, by Newton's method on
/// numerical derivatives from a drive of its own.
Eigen::Vector3d search_three(const Panel& panel, const Sensitivities& t,
                             const SampledLight& reference, const Eigen::VectorXd& fixed,
                             double luminance) {
    const auto wanted = chromaticity(tristimulus(t, reference));
    const auto difference = [&](const Eigen::Vector3d& d) -> Eigen::Vector3d {
        const Eigen::VectorXd light = fixed + panel.emitters() * d;
        const auto seen =
            tristimulus(t, SampledLight{panel.sampling(), {light.begin(), light.end()}, 0.0});
        const auto got = chromaticity(seen);
        return {got.x() - wanted.x(), got.y() - wanted.y(), seen.Y() / luminance - 1.0};
    };
    Eigen::Vector3d drive(0.3, 0.3, 0.3);
    for (int round = 0; round < 60; ++round) {
        Eigen::Matrix3d slope;
        for (Eigen::Index k = 0; k < 3; ++k) {
            const Eigen::Vector3d step = 1e-5 * Eigen::Vector3d::Unit(k);
            slope.col(k) = (difference(drive + step) - difference(drive - step)) / 2e-5;
        }
        drive -= slope.inverse() * difference(drive);
    }
    return drive;
}

/// Whether a light of luminance Y can be shown with the white emitter at `a`: nothing negative, and no more of any primary's light
/// than the native white contains (`content`).
struct Feasible {
    bool allowed;
    Eigen::Vector3d drive;
};

// Two routes, four emitters: the luminance is raised by bisection to the most that any drive of the white emitter between 0 and 1
// allows, the three others being searched for each; then the most white emitter at that luminance. The solver's algebra (shares, the
// base's content by a matrix inverse) is not used: the content itself is searched for.
TEST(Match, AgreesWithASearchForFourEmitters) {
    const Reference reference = tube();
    const Panel panel = generic_panel(generic_model("oled-white"));
    for (const Observer* observer : standard_observers()) {
        const Sensitivities t = observer->on(panel.sampling());
        const auto y = [&](const Eigen::VectorXd& light) {
            return tristimulus(t, SampledLight{panel.sampling(), {light.begin(), light.end()}, 0.0})
                .Y();
        };
        const SampledLight native{
            panel.sampling(), {panel.white().begin(), panel.white().end()}, 0.0};
        const Eigen::VectorXd none = Eigen::VectorXd::Zero(panel.sampling().count());
        const Eigen::Vector3d content = search_three(panel, t, native, none, y(panel.white()));
        const auto feasible = [&](double a, double luminance) -> Feasible {
            const Eigen::Vector3d drive =
                search_three(panel, t, reference.light, a * panel.white(), luminance);
            const bool no_negative = drive.minCoeff() > -1e-13;
            const bool no_more =
                ((a * content + drive).array() / content.array()).maxCoeff() < 1.0 + 1e-13;
            return {no_negative && no_more, drive};
        };
        double low = 0.1 * y(panel.white());
        double high = 2.0 * y(panel.white());
        for (int round = 0; round < 50; ++round) {
            const double middle = 0.5 * (low + high);
            bool any = false;
            for (int k = 0; k <= 10 && !any; ++k) {
                any = feasible(0.1 * k, middle).allowed;
            }
            (any ? low : high) = middle;
        }
        double most = 0.0;
        double too_much = 1.0;
        for (int round = 0; round < 50; ++round) {
            const double middle = 0.5 * (most + too_much);
            (feasible(middle, low * (1.0 - 1e-12)).drive.minCoeff() > -1e-13 ? most : too_much) =
                middle;
        }
        const Eigen::Vector3d drive = feasible(most, low).drive;
        const Match found = match(panel, t, reference.light);
        EXPECT_NEAR(
            y(Eigen::Map<const Eigen::VectorXd>(found.light.data(), panel.sampling().count())) /
                low,
            1.0, 1e-9)
            << observer->id();
        EXPECT_NEAR(found.white_emitter, most, 1e-9) << observer->id();
        for (std::size_t k = 0; k < 3; ++k) {
            EXPECT_NEAR(found.added[k], drive[static_cast<Eigen::Index>(k)], 1e-9)
                << observer->id();
        }
    }
}

TEST(Match, NothingNegativeAndNoShareAboveTheNativeWhites) {
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

TEST(Match, LightsThatDependOnEachOtherHaveNoComposition) {
    Eigen::Matrix3d dependent;
    dependent << 1, 2, 0.3, 0.7, 1.4, 0.2, 0.1, 0.2, 1.1;
    EXPECT_FALSE(compose({dependent, Eigen::Vector3d::Ones(), Eigen::Vector3d::Zero(),
                          Eigen::Vector3d::Ones(), false},
                         Base::native_white));
}

// Where white is nothing but red + green + blue, the model with a base and the model of three emitters are one.
TEST(Match, BothModelsAgreeWhereWhiteIsTheSum) {
    const Reference reference = tube();
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    const SampledLight native{panel.sampling(), {panel.white().begin(), panel.white().end()}, 0.0};
    for (const Observer* observer : standard_observers()) {
        const Sensitivities t = observer->on(panel.sampling());
        const Match three = match(panel, t, reference.light);
        const Match base = match(panel, t, reference.light, native);
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
        rebin(generic_spectra(generic_model("laser-rgb")).green, panel.sampling());
    EXPECT_THROW(static_cast<void>(match(panel, t, Eigen::Vector3d(1, 1, 1), green)), Error);
    EXPECT_THROW(static_cast<void>(solve_drive(Eigen::Matrix3d::Ones(), Eigen::Vector3d::Ones())),
                 Error);
}

}  // namespace
}  // namespace samelight
