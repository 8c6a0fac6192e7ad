// The budget of a target: its parts against the literature's figures, their sum against a simulation, its limits.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <limits>
#include <numbers>
#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/instrument.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/budget.hpp"
#include "samelight/white/budget_simulation.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/uncertainty.hpp"
#include "samelight/white/unit_variation.hpp"

namespace samelight {
namespace {

Reference tube() {
    return display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
}

const Observer& small_field() { return standard_observer<Cie2015_2deg>(); }

struct Case {
    Panel panel;
    Reference reference = tube();
    Target target;
    BudgetOptions options;

    Case(const char* name, bool measured)
        : panel(measured ? Panel(name, generic_spectra(generic_model(name)))
                         : generic_panel(generic_model(name))),
          target(white_target(panel, reference, small_field())) {
        options.model = measured ? nullptr : &generic_model(name);
        options.others = {white_target(panel, reference, standard_observer<Cie2015_10deg>())};
    }
    [[nodiscard]] TargetBudget budget() const {
        return target_budget({panel, reference}, small_field(), target, options);
    }
    [[nodiscard]] const BudgetPart& part(const TargetBudget& budget,
                                         const std::string& code) const {
        for (const BudgetPart& p : budget.parts) {
            if (p.code == code) {
                return p;
            }
        }
        throw Error(ErrorKind::input, "test", code, "a part of the budget");
    }
};

TEST(Budget, PartsAddUp) {
    for (const bool measured : {false, true}) {
        const Case c("oled-white", measured);
        const TargetBudget budget = c.budget();
        for (std::size_t k = 0; k < 4; ++k) {
            double sum = 0.0;
            for (const BudgetPart& part : budget.parts) {
                sum += part.covariance[k];
            }
            EXPECT_NEAR(budget.covariance[k], sum, 1e-18);
        }
        EXPECT_GT(budget.dominant_share(), 0.0);
        EXPECT_LE(budget.dominant_share(), 1.0);
        EXPECT_LE(budget.half_width_x(), 2.0 * std::sqrt(budget.covariance[0]));
        EXPECT_GT(budget.half_width_x(), 1.6 * std::sqrt(budget.covariance[0]));
    }
}

// Two sides of JCGM 100:2008, G.2.2 and G.6.5: a normal quantity, and one rectangular distribution; and between them, and where the
// rectangle is what counts, a simulation.
TEST(Budget, HalfWidthsHoldTheTruthNineteenTimesInTwenty) {
    EXPECT_EQ(detail::half_width(0.0, 4.0), 4.0);
    EXPECT_NEAR(detail::half_width(3.0, 0.0), 3.0 * std::erf(std::numbers::sqrt2), 1e-12);
    EXPECT_EQ(detail::half_width(0.0, 0.0), 0.0);
    std::mt19937 random(7);
    std::uniform_real_distribution<double> evenly(0.0, 1.0);
    std::normal_distribution<double> normal;
    for (const double s : {0.02, 0.1, 0.3, 1.0, 5.0}) {
        const double within = detail::half_width(1.0 / 3.0, s * s);
        constexpr int trials = 400000;
        int held = 0;
        for (int i = 0; i < trials; ++i) {
            held += std::abs(evenly(random) + s * normal(random)) < within ? 1 : 0;
        }
        const double share = static_cast<double>(held) / trials;
        EXPECT_NEAR(share, std::erf(std::numbers::sqrt2), 4.0 * std::sqrt(0.95 * 0.05 / trials))
            << s;
    }
}

/// How many standard errors of the simulation two figures lie apart; equal figures and no error: 0.
double errors_apart(double a, double b, double error) {
    return a == b ? 0.0 : std::abs(a - b) / std::max(error, 1e-30);
}

/// Mean and covariance about it within four standard errors of the simulation's.
void expect_within_errors(const std::array<double, 2>& mean, const CovarianceMatrix<2>& about_means,
                          const SimulatedBudget& simulated, const std::string& which) {
    for (const std::size_t k : {0U, 1U, 3U}) {
        EXPECT_LT(
            errors_apart(about_means[k], simulated.covariance[k], simulated.covariance_error[k]),
            4.0)
            << which << k << ": " << about_means[k] << " " << simulated.covariance[k];
    }
    for (const std::size_t k : {0U, 1U}) {
        EXPECT_LT(errors_apart(mean[k], simulated.mean[k], simulated.mean_error[k]), 4.0)
            << which << k << ": " << mean[k] << " " << simulated.mean[k];
    }
}

/// Only one cause at a time.
struct Cause {
    const char* code;
    InstrumentLimits limits;
};

std::vector<Cause> causes() {
    const InstrumentLimits none{0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    std::vector<Cause> result(6, Cause{"", none});
    result[0] = {"wavelength_scale", none};
    result[0].limits.wavelength_shift_nm = 0.3;
    result[1] = {"bandwidth", none};
    result[1].limits.bandwidth_nm = 5.0;
    result[2] = {"stray_light", none};
    result[2].limits.stray_light = 1e-3;
    result[3] = {"spectral_noise", none};
    result[3].limits.noise = 2e-3;
    result[4] = {"sampling", none};
    result[4].limits.step_nm = 10.0;
    result[5] = {"reading_noise", none};
    result[5].limits.reading_noise_xy = 5e-4;
    return result;
}

// Second route: JCGM 101, one cause drawn at a time: its mean square about the target as said, xy included, and its mean.
// Four standard errors of the simulation, and what rounding leaves of a figure that is 0.
TEST(Budget, EachCauseByItselfIsWhatASimulationFinds) {
    for (const char* name : {"oled-rgb", "lcd-narrow-red", "oled-white"}) {
        Case c(name, true);
        c.options.others = std::vector<Target>{};
        c.target.without_white_emitter.reset();
        for (const Cause& cause : causes()) {
            c.options.instrument = cause.limits;
            const BudgetPart part = c.part(c.budget(), cause.code);
            const SimulatedBudget simulated =
                simulate_budget({c.panel, c.reference}, small_field(), c.target, {c.options, 400});
            for (const std::size_t k : {0U, 1U, 3U}) {
                EXPECT_LT(std::abs(part.covariance[k] - simulated.mean_square[k]),
                          4.0 * simulated.mean_square_error[k] + 1e-12)
                    << name << " " << cause.code << " " << k;
            }
            for (const std::size_t k : {0U, 1U}) {
                EXPECT_LT(std::abs(part.mean[k] - simulated.mean[k]),
                          4.0 * simulated.mean_error[k] + 1e-7)
                    << name << " " << cause.code << " mean " << k;
            }
        }
    }
}

// The same for the causes that aren't the instrument's, which are drawn exactly as they are counted.
TEST(Budget, ChoicesAreWhatASimulationFinds) {
    Case c("oled-white", true);
    c.options.instrument = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    for (const bool viewers : {false, true}) {
        if (viewers) {
            c.options.viewers_covariance = {9e-6, 3e-6, 3e-6, 2.5e-5};
        }
        const TargetBudget budget = c.budget();
        const SimulatedBudget simulated =
            simulate_budget({c.panel, c.reference}, small_field(), c.target, {c.options, 4000});
        std::array<double, 2> mean{};
        CovarianceMatrix<2> about_means = budget.covariance;
        for (const BudgetPart& part : budget.parts) {
            for (std::size_t k = 0; k < 4; ++k) {
                about_means[k] -= part.mean[k / 2] * part.mean[k % 2];
            }
            mean[0] += part.mean[0];
            mean[1] += part.mean[1];
        }
        expect_within_errors(mean, about_means, simulated, viewers ? "viewers" : "observers");
        EXPECT_EQ(std::count_if(budget.parts.begin(), budget.parts.end(),
                                [](const BudgetPart& p) { return p.code == "observer_choice"; }),
                  viewers ? 0 : 1);
    }
}

// All causes of a measured panel at once, the choice of observer left out, which would hide the rest: about their means the parts
// add exactly, and the means add; four standard errors of the simulation. The mean squares, which the budget adds, leave out the
// products of the means: bandwidth and stray light push one way each.
TEST(Budget, AgreesWithASimulationOfEverythingAtOnce) {
    for (const char* name : {"oled-rgb", "lcd-narrow-red"}) {
        Case c(name, true);
        c.options.others = std::vector<Target>{};
        const TargetBudget budget = c.budget();
        const SimulatedBudget simulated =
            simulate_budget({c.panel, c.reference}, small_field(), c.target, {c.options, 1000});
        CovarianceMatrix<2> about_means{};
        std::array<double, 2> mean{};
        for (const BudgetPart& part : budget.parts) {
            for (std::size_t k = 0; k < 4; ++k) {
                about_means[k] += part.covariance[k] - part.mean[k / 2] * part.mean[k % 2];
            }
            mean[0] += part.mean[0];
            mean[1] += part.mean[1];
        }
        expect_within_errors(mean, about_means, simulated, name);
    }
}

/// The noise of samples alone, by its slopes and by drawing it.
void expect_noise_as_simulated(Case& c) {
    c.options.others = std::vector<Target>{};
    c.options.instrument = {0.0, 0.0, 0.0, 2e-3, 0.0, 0.0};
    const BudgetPart part = c.part(c.budget(), "spectral_noise");
    const SimulatedBudget simulated =
        simulate_budget({c.panel, c.reference}, small_field(), c.target, {c.options, 1500});
    for (const std::size_t k : {0U, 1U, 3U}) {
        EXPECT_LT(errors_apart(part.covariance[k], simulated.mean_square[k],
                               simulated.mean_square_error[k]),
                  4.0)
            << k << ": " << part.covariance[k] << " " << simulated.mean_square[k];
    }
}

// Whatever was read by the instrument has its noise: the panel's spectra, the reference's, that of the white as it stands.
TEST(Budget, EveryLightThatWasReadIsNoisy) {
    const auto size = [](Case& c) {
        expect_noise_as_simulated(c);
        return c.part(c.budget(), "spectral_noise").size();
    };
    Case panel("oled-rgb", true);
    const double alone = size(panel);
    panel.options.reference_measured = true;
    // As read by 1 nm: its own table is by 5 nm, which would be a part of its own.
    panel.reference.light.grid = {};
    panel.reference.light.spread.clear();
    EXPECT_GT(size(panel), alone);
    Case stands("oled-rgb", true);
    stands.options.base = WhiteAsItStands{
        {stands.panel.sampling(), set_white(stands.panel, {0.300, 0.310}).light, 0.0}};
    stands.options.base_measured = true;
    TargetOptions from;
    from.base = stands.options.base;
    stands.target = white_target(stands.panel, stands.reference, small_field(), from);
    EXPECT_GT(size(stands), 0.0);
    // A generic panel, a white measured on the set: that white and the reference are all that was read.
    Case generic("oled-rgb", false);
    generic.options.base = stands.options.base;
    EXPECT_THROW(static_cast<void>(generic.part(generic.budget(), "spectral_noise")), Error);
    generic.options.base_measured = true;
    generic.options.instrument = {0.0, 0.0, 0.0, 2e-3, 0.0, 0.0};
    const double now_alone = generic.part(generic.budget(), "spectral_noise").size();
    generic.options.reference_measured = true;
    EXPECT_GT(generic.part(generic.budget(), "spectral_noise").size(), now_alone);
    EXPECT_GT(now_alone, 0.0);
}

// A generic panel whose white was set to an x, y by instrument: that says nothing of its spectra, and it is no surer than before.
// Second route: three additive emitters reach the same target from any base, so the spread is that from the native white.
TEST(Budget, AGenericPanelSetToAWhiteIsNoSurer) {
    for (const char* name : {"oled-rgb", "oled-white"}) {
        const GenericModel& model = generic_model(name);
        const auto native = unit_variance(model, tube(), small_field());
        TargetOptions set;
        set.base = WhiteSetTo{{0.3063, 0.3249}};
        const auto as_set = unit_variance(model, tube(), small_field(), set);
        if (std::string(name) == "oled-rgb") {
            for (std::size_t k = 0; k < 4; ++k) {
                EXPECT_NEAR(as_set[k], native[k], 1e-9 * native[0]) << k;
            }
        }
        EXPECT_GT(2.0 * std::sqrt(as_set[3]), 0.001) << name;
        Case c(name, false);
        c.options.base = set.base;
        const double x = c.part(c.budget(), "panel_spectrum").covariance[0];
        EXPECT_NEAR(x, as_set[0], 1e-15);
        c.options.others = std::vector<Target>{};
        c.target.without_white_emitter.reset();
        c.options.instrument = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
        const SimulatedBudget simulated =
            simulate_budget({c.panel, c.reference}, small_field(), c.target, {c.options, 300});
        EXPECT_LT(errors_apart(x, simulated.mean_square[0], simulated.mean_square_error[0]), 4.0)
            << name;
    }
}

/// The panel as an instrument with that step and bandwidth would have exported it.
Panel as_exported(const char* name, double step_nm, double bandwidth_nm) {
    ReadingInstrument instrument;
    instrument.bandwidth_nm = bandwidth_nm;
    instrument.step_nm = step_nm;
    const PanelSpectra fine = generic_spectra(generic_model(name));
    return Panel("exported", {read_by(instrument, fine.red), read_by(instrument, fine.green),
                              read_by(instrument, fine.blue)});
}

// What is lost between the samples of a coarse file: a narrow red has much, broad emitters little. The second figure's route: the
// 1 nm spectra themselves, read in steps of 10 nm.
TEST(Budget, ACoarseFileHasItsSamplingPart) {
    const auto sampling = [](const char* name, double file_step, double bandwidth) {
        Case c(name, true);
        if (file_step > 1.0) {
            c.panel = as_exported(name, file_step, bandwidth);
        }
        c.target = white_target(c.panel, c.reference, small_field());
        c.options.instrument.bandwidth_nm = bandwidth;
        if (file_step <= 1.0) {
            c.options.instrument.step_nm = 10.0;
        }
        return c.part(c.budget(), "sampling").size();
    };
    const double file = sampling("lcd-narrow-red", 10.0, 5.0);
    const double truth = sampling("lcd-narrow-red", 1.0, 5.0);
    std::printf("narrow red by 10 nm: sampling part %.5f from the file, %.5f from 1 nm spectra\n",
                file, truth);
    EXPECT_GT(file, 0.0005);
    EXPECT_GT(file, 0.25 * truth);
    EXPECT_LT(file, 4.0 * truth);
    EXPECT_LT(sampling("lcd-white-led", 10.0, 10.0), 0.2 * file);
    Case fine("lcd-narrow-red", true);
    EXPECT_THROW(static_cast<void>(fine.part(fine.budget(), "sampling")), Error);
}

// A panel like the reference, both measured by the instrument that reads the white: whatever it does wrong, it does to all alike.
TEST(Budget, AnInstrumentsFaultsCancelWherePanelAndReferenceAreAlike) {
    Case c("crt", true);
    c.options.reference_measured = true;
    const TargetBudget alike = c.budget();
    // Stray light is left out: relative to each light's peak, it doesn't add up over lights.
    for (const char* code : {"wavelength_scale", "bandwidth"}) {
        EXPECT_LT(c.part(alike, code).size(), 2e-6) << code;
    }
    c.options.reference_measured = false;
    EXPECT_GT(c.part(c.budget(), "wavelength_scale").size(), 1e-4);
}

TEST(Budget, TheOwnSpectrumReplacesTheType) {
    const TargetBudget type = Case("oled-rgb", false).budget();
    EXPECT_EQ(type.parts.front().code, "panel_spectrum");
    const TargetBudget own = Case("oled-rgb", true).budget();
    EXPECT_THROW(static_cast<void>(Case("oled-rgb", true).part(own, "panel_spectrum")), Error);
    // Two and ten degrees lie further apart on a panel of three emitters than anything an instrument does.
    EXPECT_EQ(own.dominant().code, "observer_choice");
}

TEST(Budget, FloorAndPeopleAreThereWhereAskedFor) {
    Case c("lcd-white-led", true);
    const double before = c.budget().covariance[0];
    c.options.additivity_floor_xy = 0.002;
    c.options.people =
        TargetRegion{2, {0.31, 0.32}, {0.31, 0.32}, {1e-5, 0, 0, 4e-5}, {}, {}, {}, 1U};
    const TargetBudget budget = c.budget();
    EXPECT_NEAR(budget.covariance[0] - before, 4e-6, 1e-15);
    ASSERT_TRUE(budget.people.has_value());
    EXPECT_EQ(budget.people->covariance[3], 4e-5);  // beside the sum, not in it
}

TEST(Budget, APerfectInstrumentAndNoChoiceLeaveNothing) {
    Case c("oled-rgb", true);
    c.options.others = std::vector<Target>{};
    c.options.instrument = {0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
    const TargetBudget budget = c.budget();
    EXPECT_LT(budget.half_width_x(), 1e-12);
    EXPECT_LT(budget.half_width_y(), 1e-12);
    EXPECT_EQ(budget.dominant_share(), 1.0);
}

TEST(Budget, RefusesLimitsThatAreNone) {
    Case c("oled-rgb", true);
    c.options.instrument.bandwidth_nm = -1.0;
    EXPECT_THROW(c.budget(), Error);
    c.options.instrument.bandwidth_nm = 5.0;
    c.options.additivity_floor_xy = std::numeric_limits<double>::quiet_NaN();
    EXPECT_THROW(c.budget(), Error);
}

}  // namespace
}  // namespace samelight
