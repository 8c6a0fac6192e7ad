// The budget of a target: its parts against the literature's figures, their sum against a simulation, its limits.
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/display/generic_panel.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/budget.hpp"
#include "samelight/white/budget_simulation.hpp"

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
        : panel(generic_panel(generic_model(name))),
          target(white_target(panel, reference, small_field())) {
        options.model = measured ? nullptr : &generic_model(name);
        options.others = {white_target(panel, reference, standard_observer<Cie2015_10deg>())};
    }
    [[nodiscard]] TargetBudget budget() const {
        return target_budget(panel, reference, small_field(), target, options);
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
        EXPECT_NEAR(budget.half_width_x(), 2.0 * std::sqrt(budget.covariance[0]), 1e-15);
    }
}

// Second route: JCGM 101, every cause drawn at once. Adding mean squares leaves out the products of displacements that have a
// common sign (bandwidth and stray light are no zero-mean errors), which is why the bound is wider than the simulation's noise.
TEST(Budget, AgreesWithASimulationOfEverythingAtOnce) {
    for (const char* name : {"oled-rgb", "lcd-narrow-red", "oled-white"}) {
        for (const bool measured : {false, true}) {
            Case c(name, measured);
            c.options.instrument.step_nm = 5.0;
            const TargetBudget budget = c.budget();
            const auto simulated = simulate_budget(c.panel, c.reference, small_field(), c.target,
                                                   c.options, measured ? 1000 : 400);
            EXPECT_NEAR(std::sqrt(budget.covariance[0] / simulated[0]), 1.0, 0.25)
                << name << measured;
            EXPECT_NEAR(std::sqrt(budget.covariance[3] / simulated[3]), 1.0, 0.25)
                << name << measured;
        }
    }
}

// The noise of samples alone, by its slopes and by drawing it.
TEST(Budget, NoiseOfSpectraIsWhatASimulationFinds) {
    Case c("oled-rgb", true);
    c.options.others.clear();
    c.options.instrument = {0.0, 0.0, 0.0, 2e-3, 0.0, 0.0};
    const TargetBudget budget = c.budget();
    const auto simulated =
        simulate_budget(c.panel, c.reference, small_field(), c.target, c.options, 2000);
    // Standard deviations from 2,000 trials are known to 1.6 %: four times that.
    EXPECT_NEAR(std::sqrt(budget.covariance[0] / simulated[0]), 1.0, 0.064);
    EXPECT_NEAR(std::sqrt(budget.covariance[3] / simulated[3]), 1.0, 0.064);
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
        TargetRegion{2, {0.31, 0.32}, {0.31, 0.32}, {1e-5, 0, 0, 4e-5}, {}, {}, {}, 1};
    const TargetBudget budget = c.budget();
    EXPECT_NEAR(budget.covariance[0] - before, 4e-6, 1e-15);
    ASSERT_TRUE(budget.people.has_value());
    EXPECT_EQ(budget.people->covariance[3], 4e-5);  // beside the sum, not in it
}

TEST(Budget, APerfectInstrumentAndNoChoiceLeaveNothing) {
    Case c("oled-rgb", true);
    c.options.others.clear();
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
