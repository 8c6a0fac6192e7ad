// A budget that is asked for without options leaves nothing out, and says what it was told to leave out.
#include "samelight/white/budget.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"

namespace samelight {
namespace {

const Observer& observer_asked() { return standard_observer<Cie2015_2deg>(); }

Reference reference_asked() {
    return display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
}

bool has_part(const TargetBudget& budget, const std::string& code) {
    return std::any_of(budget.parts.begin(), budget.parts.end(),
                       [&](const BudgetPart& part) { return part.code == code; });
}

// A panel knows its model, and the observers that might as well be taken are worked out: as if both had been named.
TEST(BudgetDefaults, LeaveNothingOut) {
    const Panel panel = generic_panel(generic_model("oled-rgb"));
    const Reference reference = reference_asked();
    const Target target = white_target(panel, reference, observer_asked());
    const TargetBudget said = target_budget({panel, reference}, observer_asked(), target);
    BudgetOptions named;
    named.model = &generic_model("oled-rgb");
    named.others = {white_target(panel, reference, standard_observer<Cie2015_10deg>())};
    const TargetBudget asked = target_budget({panel, reference}, observer_asked(), target, named);
    EXPECT_TRUE(has_part(said, "panel_spectrum"));
    EXPECT_TRUE(has_part(said, "observer_choice"));
    EXPECT_EQ(said.parts.size(), asked.parts.size());
    for (std::size_t k = 0; k < 4; ++k) {
        EXPECT_NEAR(said.covariance[k], asked.covariance[k], 1e-15);
    }
    EXPECT_TRUE(said.warnings.empty());
}

TEST(BudgetDefaults, SpectraOfTheUnitsOwnAreNoModels) {
    const Panel panel("set", generic_spectra(generic_model("oled-rgb")));
    const Reference reference = reference_asked();
    const TargetBudget budget = target_budget({panel, reference}, observer_asked(),
                                              white_target(panel, reference, observer_asked()));
    EXPECT_FALSE(has_part(budget, "panel_spectrum"));
    EXPECT_TRUE(has_part(budget, "observer_choice"));
}

TEST(BudgetDefaults, AnObserverLeftOutIsSaid) {
    const Panel panel("set", generic_spectra(generic_model("oled-rgb")));
    const Reference reference = reference_asked();
    const Target target = white_target(panel, reference, observer_asked());
    const double whole = target_budget({panel, reference}, observer_asked(), target).half_width_y();
    BudgetOptions without;
    without.others = std::vector<Target>{};
    const TargetBudget budget =
        target_budget({panel, reference}, observer_asked(), target, without);
    ASSERT_EQ(budget.warnings.size(), 1U);
    EXPECT_EQ(budget.warnings.front().code, "observer_left_out");
    EXPECT_LT(budget.half_width_y(), 0.7 * whole);
}

}  // namespace
}  // namespace samelight
