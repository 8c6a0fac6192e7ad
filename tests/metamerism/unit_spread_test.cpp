// How far units of a type differ: the plain route, unit by unit, and what is said where there is nothing to say.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

#include <gtest/gtest.h>

#include "metamerism/metamerism_fixtures.hpp"
#include "numeric/refusals.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/metamerism/unit_spread.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/quantile.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {
namespace {

using test::d65;
using test::generic;
using test::people;
using test::refusal;

const Observer& lone_eye() { return standard_observer<Cie2015_2deg>(); }

TypedPanel typed(const char* name) {
    return {{generic(name), PanelOrigin::generic}, &generic_model(name)};
}

TypedPanel measured(const char* name) { return {{generic(name), PanelOrigin::measured}}; }

// Second route: each unit as a panel of its own, each viewer by the scalar functions.
TEST(UnitSpread, IsWhatThePlainRouteGives) {
    const Population population = people(4);
    const std::vector<TypedPanel> panels = {measured("crt"), typed("oled-rgb")};
    const auto spreads =
        unit_spreads(panels, {Setting::by_instrument, 20}, d65(), {lone_eye(), population});
    ASSERT_EQ(spreads.size(), 1U);
    ASSERT_TRUE(spreads[0]);
    const Eigen::MatrixXd colour = d65().column();
    const SampledLight tube = test::white_of("crt");
    std::vector<double> means;
    for (std::size_t u = 0; u < 20; ++u) {
        const Panel unit =
            detail::unit_of(generic_model("oled-rgb"), u, detail::stream_of(panels, 1), Sampling());
        const SampledLight shown =
            test::light_of(reproduce(unit, {d65(), colour}, standard_observer<Cie1931_2deg>())
                               .lights.lights()
                               .col(0));
        double sum = 0.0;
        for (std::size_t i = 0; i < 4; ++i) {
            sum += test::plain_view(population.individual(i), tube, shown, mean_light(tube, shown))
                       .de00 /
                   4.0;
        }
        means.push_back(sum);
    }
    EXPECT_NEAR(spreads[0]->low, sample_quantile(means, 0.025), 1e-9);
    EXPECT_NEAR(spreads[0]->high, sample_quantile(means, 0.975), 1e-9);
    EXPECT_GT(spreads[0]->high, spreads[0]->low);
}

TEST(UnitSpread, UnitsLieWithinTheRangesOfTheirModel) {
    const GenericModel& model = generic_model("laser-rgb");
    const Panel one = detail::unit_of(model, 3, 1, Sampling());
    const Panel again = detail::unit_of(model, 3, 1, Sampling());
    const Panel other = detail::unit_of(model, 4, 1, Sampling());
    EXPECT_TRUE(one.emitters() == again.emitters());
    EXPECT_FALSE(one.emitters() == other.emitters());
    double sum = 0.0;
    int lower_third = 0;
    int upper_third = 0;
    constexpr int units = 60;
    for (std::size_t u = 0; u < units; ++u) {
        Eigen::Index peak = 0;
        detail::unit_of(model, u, 1, Sampling()).emitters().col(0).maxCoeff(&peak);
        EXPECT_GE(peak + 380, 629);  // the model's red peak: 630 to 645 nm
        EXPECT_LE(peak + 380, 646);
        sum += static_cast<double>(peak + 380) / units;
        lower_third += peak + 380 <= 635 ? 1 : 0;
        upper_third += peak + 380 >= 640 ? 1 : 0;
    }
    // All over the range alike: the mean within four of its standard deviations, 15 / sqrt(12) / sqrt(60) nm, of the middle.
    EXPECT_NEAR(sum, 637.5, 4.0 * 15.0 / std::sqrt(12.0 * units));
    EXPECT_GE(lower_third, units / 6);
    EXPECT_GE(upper_third, units / 6);
}

TEST(UnitSpread, MeasuredPairsHaveNoneAndTwoOfOneTypeDiffer) {
    const std::vector<TypedPanel> panels = {measured("crt"), measured("oled-rgb"),
                                            typed("oled-rgb"), typed("oled-rgb")};
    const auto spreads =
        unit_spreads(panels, {Setting::white_matched, 32}, d65(), {lone_eye(), people(16)});
    ASSERT_EQ(spreads.size(), 6U);
    EXPECT_FALSE(spreads[0]);  // 0 and 1
    for (std::size_t i = 1; i < 6; ++i) {
        ASSERT_TRUE(spreads[i]);
        EXPECT_GT(spreads[i]->low, 0.0);
    }
    // Two units of one type are nearer to each other than a unit is to a tube.
    EXPECT_LT(spreads[5]->low, 0.5 * spreads[1]->low);
    EXPECT_LT(spreads[5]->high, spreads[1]->high);
}

TEST(UnitSpread, TheRestOfTheListHasNoSay) {
    const auto of = [](const std::vector<TypedPanel>& panels) {
        return unit_spreads(panels, {Setting::by_instrument, 20}, d65(), {lone_eye(), people(8)});
    };
    const auto alone = of({typed("crt"), typed("oled-rgb")});
    const auto back = of({typed("oled-rgb"), typed("crt")});
    const auto among = of({typed("lcd-ccfl"), typed("crt"), typed("laser-rgb"), typed("oled-rgb")});
    EXPECT_NEAR(back[0]->high, alone[0]->high, 1e-10);
    EXPECT_NEAR(back[0]->low, alone[0]->low, 1e-10);
    EXPECT_NEAR(among[4]->high, alone[0]->high, 1e-10);  // 1 and 3
    EXPECT_GT(std::abs(among[0]->high - alone[0]->high), 0.1) << "another pair";
}

TEST(UnitSpread, RefusesTooFewUnits) {
    const std::vector<TypedPanel> panels = {typed("crt"), typed("oled-rgb")};
    refusal(ErrorKind::domain, [&] {
        static_cast<void>(
            unit_spreads(panels, {Setting::by_instrument, 19}, d65(), {lone_eye(), people(4)}));
    });
}

}  // namespace
}  // namespace samelight
