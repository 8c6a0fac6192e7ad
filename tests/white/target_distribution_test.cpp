// The distribution of a population's targets: against the one-person route, its degenerate cases, and its summary.
#include <cmath>
#include <cstdio>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/differences/pair_share.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/statistics.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/white/people.hpp"
#include "samelight/white/reference.hpp"
#include "samelight/white/target.hpp"
#include "samelight/white/target_distribution.hpp"

namespace samelight {
namespace {

Reference distribution_tube() {
    return display_reference(generic_panel(generic_model("crt")), {0.3127, 0.3290});
}

std::vector<Panel> all_panels() {
    std::vector<Panel> panels;
    for (const GenericModel& model : generic_models()) {
        panels.push_back(generic_panel(model));
    }
    return panels;
}

Population people(std::size_t count, Sampler sampler = Sampler::scrambled_sobol) {
    PopulationParameters parameters;
    parameters.count = count;
    parameters.sampler = sampler;
    return Population(parameters);
}

// Second route: white_target() with each person's own cones.
TEST(TargetDistribution, AgreesWithOnePersonAtATime) {
    const std::vector<Panel> panels = all_panels();
    const Population population = people(16);
    const auto distributions = target_distributions(panels, distribution_tube(), population);
    ASSERT_EQ(distributions.size(), panels.size());
    for (std::size_t i = 0; i < population.size(); ++i) {
        const Observer observer = cone_observer(population.individual(i));
        for (std::size_t p = 0; p < panels.size(); ++p) {
            const Target target = white_target(panels[p], distribution_tube(), observer);
            EXPECT_NEAR(distributions[p].x[i], target.xy.x(), 1e-9) << panels[p].name();
            EXPECT_NEAR(distributions[p].y[i], target.xy.y(), 1e-9) << panels[p].name();
        }
    }
}

TEST(TargetDistribution, TheWhiteAsItStandsIsTheBase) {
    const std::vector<Panel> panels = {generic_panel(generic_model("oled-rgb"))};
    DistributionOptions options;
    options.base =
        WhiteAsItStands{{panels[0].sampling(), set_white(panels[0], {0.305, 0.320}).light, 0.0}};
    TargetOptions one;
    one.base = options.base;
    const Population population = people(8);
    const auto distribution =
        target_distributions(panels, distribution_tube(), population, options);
    for (std::size_t i = 0; i < population.size(); ++i) {
        const auto xy = white_target(panels[0], distribution_tube(),
                                     cone_observer(population.individual(i)), one)
                            .xy;
        EXPECT_NEAR(distribution[0].x[i], xy.x(), 1e-9);
        EXPECT_NEAR(distribution[0].y[i], xy.y(), 1e-9);
    }
    EXPECT_THROW(static_cast<void>(
                     target_distributions(all_panels(), distribution_tube(), population, options)),
                 Error);
}

TEST(TargetDistribution, APanelThatIsTheReferenceHasACloudOfNoSize) {
    const std::vector<Panel> panels = {generic_panel(generic_model("oled-rgb"))};
    const auto distributions =
        target_distributions(panels, display_reference(panels[0]), people(256));
    const TargetRegion region = target_region(distributions[0]);
    EXPECT_EQ(region.people, 256U);
    EXPECT_NEAR(region.mean.x(), generic_native_white_xy[0], 1e-12);
    EXPECT_LT(region.covariance_xy[0], 1e-22);
    EXPECT_LT(region.ellipse_uv.semi_major, 1e-10);
    EXPECT_TRUE(std::isfinite(region.ellipse_xy.angle_deg));
    EXPECT_EQ(region.people_for_mean, std::optional<std::size_t>(1));
}

TEST(TargetDistribution, OnePersonHasARegionOfNoSize) {
    const std::vector<Panel> panels = {generic_panel(generic_model("oled-rgb"))};
    const TargetRegion region =
        target_region(target_distributions(panels, distribution_tube(), people(1))[0]);
    EXPECT_EQ(region.people, 1U);
    EXPECT_EQ(region.ellipse_xy.semi_major, 0.0);
    EXPECT_EQ(region.median, region.mean);
}

// Too few to tell: a quarter of a small distribution has another mean than half of it. Second route: the mean of the first half.
TEST(TargetDistribution, SaysWherePeopleAreTooFewForTheirMean) {
    const std::vector<Panel> panels = {generic_panel(generic_model("laser-rgb"))};
    EXPECT_FALSE(target_region(target_distributions(panels, distribution_tube(), people(1))[0])
                     .people_for_mean);
    for (const std::size_t count : {16U, 17U, 1024U, 4096U}) {
        const TargetDistribution distribution =
            target_distributions(panels, distribution_tube(), people(count))[0];
        const TargetRegion region = target_region(distribution);
        std::size_t half = 1;
        while (4 * half <= count) {
            half *= 2;
        }
        const double x = mean(std::span<const double>(distribution.x.data(), half));
        const double y = mean(std::span<const double>(distribution.y.data(), half));
        const bool moves = std::hypot(x - region.mean.x(), y - region.mean.y()) > 1e-4;
        EXPECT_EQ(region.people_for_mean.has_value(), !moves) << count;
        if (region.people_for_mean) {
            EXPECT_LE(2 * *region.people_for_mean, count);
        }
    }
    EXPECT_FALSE(target_region(target_distributions(panels, distribution_tube(), people(16))[0])
                     .people_for_mean);
}

TEST(TargetDistribution, TheMeanStandsStillByTheDistanceInBothCoordinates) {
    // By hand, around 0.3, 0.3: the first is off by 0.8e-4 in x and in y, 1.13e-4 away, the second as much to the other side.
    TargetDistribution distribution;
    distribution.x = {0.3 + 0.8e-4, 0.3 - 0.8e-4, 0.3, 0.3};
    distribution.y = distribution.x;
    EXPECT_EQ(target_region(distribution).people_for_mean, std::optional<std::size_t>(2));
    // 0.6e-4 in both is 0.85e-4: near enough.
    distribution.x = {0.3 + 0.6e-4, 0.3 - 0.6e-4, 0.3, 0.3};
    distribution.y = distribution.x;
    EXPECT_EQ(target_region(distribution).people_for_mean, std::optional<std::size_t>(1));
}

TEST(TargetDistribution, NobodyIsRefused) {
    EXPECT_THROW(static_cast<void>(people(0)), Error);
    EXPECT_THROW(static_cast<void>(target_region(TargetDistribution{"set", {}, {}, 0, 0})), Error);
}

// Second route: plain pseudo-random people. The low-discrepancy mean of 1,024 lies within .0002 of that of 65,536 plain ones.
TEST(TargetDistribution, ALowDiscrepancyThousandGivesTheMean) {
    const std::vector<Panel> panels = all_panels();
    const auto few = target_distributions(panels, distribution_tube(), people(1024));
    const auto many =
        target_distributions(panels, distribution_tube(), people(65536, Sampler::pseudo_random));
    for (std::size_t p = 0; p < panels.size(); ++p) {
        const TargetRegion a = target_region(few[p]);
        const TargetRegion b = target_region(many[p]);
        EXPECT_LT((a.mean - b.mean).distance(), 2e-4) << panels[p].name();
        EXPECT_NEAR(std::sqrt(a.covariance_xy[3]), std::sqrt(b.covariance_xy[3]),
                    0.03 * std::sqrt(b.covariance_xy[3]) + 1e-12)
            << panels[p].name();
    }
}

// Science on modelled spectra: pairs of viewers of 20-70 years that differ by more than .004 u'v'. Lasers are worst, a narrow-line
// red mild, the tube against itself nothing.
TEST(TargetDistribution, PanelTypesSpreadPeopleInThePublishedOrder) {
    const std::vector<Panel> panels = all_panels();
    const auto distributions = target_distributions(panels, distribution_tube(), people(1024));
    const auto share = [&](const char* name) {
        for (const TargetDistribution& distribution : distributions) {
            if (distribution.panel == name) {
                std::vector<double> u;
                std::vector<double> v;
                for (std::size_t i = 0; i < distribution.x.size(); ++i) {
                    const auto uv = uv1976(distribution.at(i));
                    u.push_back(uv.u());
                    v.push_back(uv.v());
                }
                return pair_share(u, v, 0.004);
            }
        }
        return -1.0;
    };
    EXPECT_EQ(share("crt"), 0.0);
    EXPECT_GT(share("laser-rgb"), share("oled-rgb"));
    EXPECT_GT(share("oled-rgb"), share("oled-white"));
    EXPECT_GT(share("oled-white"), share("lcd-narrow-red"));
    EXPECT_NEAR(share("lcd-narrow-red"), 0.52, 0.1);
    EXPECT_NEAR(share("laser-rgb"), 0.91, 0.05);
}

// On an RGB OLED the right y rises with age, on a narrow-line-red LCD hardly.
TEST(TargetDistribution, AgeMovesEmittersMoreThanNarrowRed) {
    const auto y = [](const char* panel, const char* observer) {
        return white_target(generic_panel(generic_model(panel)), distribution_tube(),
                            observer_named(observer))
            .xy.y();
    };
    EXPECT_GT(y("oled-rgb", "cie2006:70:2") - y("oled-rgb", "cie2006:20:2"), 0.015);
    EXPECT_LT(y("lcd-narrow-red", "cie2006:70:2") - y("lcd-narrow-red", "cie2006:20:2"), 0.008);
}

}  // namespace
}  // namespace samelight
