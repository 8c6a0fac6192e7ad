// Someone of unknown age: what that adds to what isn't known of the eye.
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/white/eye_match.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target_distribution.hpp"

namespace samelight {
namespace {

// Second route: the average eyes of those ages, each with its own target; their variance is what not knowing the age adds to how people of
// one age differ.
TEST(UnknownAge, AddsWhatTheAgesDifferBy) {
    const Reference tube = display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
    const Ages ages = Ages::range(20.0, 70.0);
    std::vector<Individual> of_each_age;
    constexpr std::size_t count = 200;
    for (std::size_t i = 0; i < count; ++i) {
        of_each_age.push_back({{ages.quantile((static_cast<double>(i) + 0.5) / count), 2.0,
                                Pupil::small, PeakDensities::three_decimals},
                               {}});
    }
    for (const char* name : {"oled-rgb", "oled-white", "lcd-narrow-red", "laser-rgb"}) {
        const Panel panel = generic_panel(generic_model(name));
        const TargetDistribution each =
            target_distributions(std::span<const Panel>(&panel, 1), tube, of_each_age, {}).front();
        std::array<double, 2> mean{};
        std::array<double, 2> square{};
        for (std::size_t i = 0; i < count; ++i) {
            const std::array<double, 2> xy = {each.x[i], each.y[i]};
            for (std::size_t k = 0; k < 2; ++k) {
                mean.at(k) += xy.at(k) / count;
                square.at(k) += xy.at(k) * xy.at(k) / count;
            }
        }
        const EyeKnowledge unknown = eye_of_unknown_age(ages, 2.0);
        const EyeKnowledge known = eye_of_age(unknown.likeliest.conditions);
        const PredictedTarget with = predict_target(unknown, panel, tube);
        const PredictedTarget without =
            predict_target({unknown.likeliest, known.covariance}, panel, tube);
        for (std::size_t k = 0; k < 2; ++k) {
            const double of_ages = square.at(k) - mean.at(k) * mean.at(k);
            const double whole = std::sqrt(with.covariance.at(3 * k));
            const double wanted = std::sqrt(without.covariance.at(3 * k) + of_ages);
            EXPECT_NEAR(whole, wanted, wanted / 8.0) << name << " " << k;
            EXPECT_GT(whole, std::sqrt(without.covariance.at(3 * k))) << name << " " << k;
            const double at = k == 0 ? with.xy.x() : with.xy.y();
            EXPECT_NEAR(at, mean.at(k), 0.0006) << name << " " << k;
        }
    }
}

// One age is no doubt at all.
TEST(UnknownAge, OfOneAgeIsThatAge) {
    const EyeKnowledge one = eye_of_unknown_age(Ages::range(45.0, 45.0), 4.0);
    const EyeKnowledge same = eye_of_age({45.0, 4.0, Pupil::small, PeakDensities::three_decimals});
    EXPECT_NEAR(one.likeliest.deviations.lens_percent, 0.0, 1e-9);
    EXPECT_NEAR(one.covariance[0], same.covariance[0], 1e-9);
    EXPECT_EQ(one.likeliest.conditions.field_deg, 4.0);
}

}  // namespace
}  // namespace samelight
