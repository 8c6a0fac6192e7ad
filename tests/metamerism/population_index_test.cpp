// Population indices: against the plain route person by person, and what they must be for pairs that are known.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <Eigen/Eigenvalues>

#include "metamerism/metamerism_fixtures.hpp"
#include "numeric/exactly.hpp"
#include "numeric/refusals.hpp"
#include "samelight/display/mixed_lights.hpp"
#include "samelight/display/reproduction.hpp"
#include "samelight/metamerism/figures.hpp"
#include "samelight/metamerism/population_index.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/population.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight {
namespace {

using test::d65;
using test::generic;
using test::patches;
using test::people;
using test::refusal;

/// A few patches on two panels, set by instrument.
struct TwoDisplays {
    MixedLights first, second;
};
TwoDisplays two_displays(const char* a, const char* b, const std::vector<std::size_t>& which) {
    const auto shown = [&](const char* name) {
        return reproduce(generic(name), {d65(), patches()}, standard_observer<Cie1931_2deg>())
            .lights.chosen(which);
    };
    return {shown(a), shown(b)};
}

double median_of(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t n = values.size();
    return 0.5 * (values[(n - 1) / 2] + values[n / 2]);
}

// Second route: the scalar functions of every viewer and colour, and every index from its definition as it reads.
TEST(PopulationIndex, IsWhatThePlainRouteGives) {
    const Population population = people(61);
    const auto shown = two_displays("lcd-white-led", "oled-rgb", {0, 17, 40, 99});
    const auto& first = shown.first;
    const auto& second = shown.second;
    const PopulationIndex index = population_index(population, {first, second, d65()});
    ASSERT_EQ(index.viewers, 61U);
    ASSERT_EQ(index.colours.size(), 4U);
    std::vector<double> of_viewers(61, 0.0);
    double largest = 0.0;
    for (std::size_t j = 0; j < 4; ++j) {
        const SampledLight a = test::light_of(first.lights().col(static_cast<Eigen::Index>(j)));
        const SampledLight b = test::light_of(second.lights().col(static_cast<Eigen::Index>(j)));
        std::vector<test::PlainView> views;
        for (std::size_t i = 0; i < 61; ++i) {
            views.push_back(test::plain_view(population.individual(i), a, b, d65()));
            of_viewers[i] += views.back().de00 / 4.0;
        }
        Eigen::MatrixXd offsets(61, 3);
        Eigen::MatrixXd plane(61, 2);
        std::vector<double> chromatic;
        double sum = 0.0;
        double distance = 0.0;
        double far = 0.0;
        for (Eigen::Index i = 0; i < 61; ++i) {
            const auto& v = views[static_cast<std::size_t>(i)];
            offsets.row(i) << v.dL, v.da, v.db;
            plane.row(i) << v.u, v.v;
            chromatic.push_back(v.chromatic);
            sum += v.de00 / 61.0;
            distance += std::hypot(v.u, v.v) / 61.0;
            far = std::max(far, v.de00);
        }
        largest = std::max(largest, far);
        const ColourDisagreement& colour = index.colours[j];
        EXPECT_NEAR(colour.mean_de00, sum, 1e-9);
        EXPECT_NEAR(colour.largest_de00, far, 1e-9);
        EXPECT_NEAR(colour.mean_uv, distance, 1e-12);
        // The 90th of 61: the 55th from below has exactly 54 of 60 steps under it.
        std::sort(chromatic.begin(), chromatic.end());
        EXPECT_NEAR(colour.lightness_free, chromatic[54], 1e-9);
        const Eigen::RowVectorXd centre = offsets.colwise().mean();
        double mcdm = 0.0;
        for (Eigen::Index i = 0; i < 61; ++i) {
            mcdm += (offsets.row(i) - centre).norm() / 61.0;
        }
        EXPECT_NEAR(colour.mcdm, mcdm, 1e-9);
        // Semi-axes are roots of eigenvalues times the root of chi squared at 95 %: 5.991465 and 7.814728 (any table).
        const auto axes = [](const Eigen::MatrixXd& rows) {
            const Eigen::MatrixXd d = rows.rowwise() - rows.colwise().mean();
            return Eigen::VectorXd(
                Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(d.transpose() * d / 60.0)
                    .eigenvalues()
                    .cwiseSqrt());
        };
        EXPECT_NEAR(colour.ellipse_area_uv / (std::numbers::pi * 5.991465 * axes(plane).prod()),
                    1.0, 1e-6);
        EXPECT_NEAR(colour.ellipsoid_volume / (4.0 / 3.0 * std::numbers::pi *
                                               std::pow(7.814728, 1.5) * axes(offsets).prod()),
                    1.0, 1e-6);
        int apart = 0;
        for (Eigen::Index i = 0; i < 61; ++i) {
            for (Eigen::Index k = 0; k < i; ++k) {
                apart += (plane.row(i) - plane.row(k)).norm() > 0.004 ? 1 : 0;
            }
        }
        EXPECT_NEAR(colour.pair_share, apart / 1830.0, 1e-12);
    }
    for (std::size_t i = 0; i < 61; ++i) {
        EXPECT_NEAR(index.viewer_de00[i], of_viewers[i], 1e-9);
    }
    EXPECT_NEAR(index.de00.median, median_of(of_viewers), 1e-9);
    // Two thirds of the way from the least to the largest of 61: the 41st from below has exactly 40 of 60 steps under it.
    std::vector<double> sorted = of_viewers;
    std::sort(sorted.begin(), sorted.end());
    EXPECT_NEAR(index.de00.two_in_three, sorted[40], 1e-9);
    EXPECT_NEAR(index.de00.largest, *std::max_element(of_viewers.begin(), of_viewers.end()), 1e-9);
    EXPECT_NEAR(index.largest_de00, largest, 1e-9);
    EXPECT_NEAR(index.mcdm,
                (index.colours[0].mcdm + index.colours[1].mcdm + index.colours[2].mcdm +
                 index.colours[3].mcdm) /
                    4.0,
                1e-12);
    EXPECT_EQ(index.worst_colour,
              0U);  // the white: differences of colour weigh most where there is no chroma
}

TEST(PopulationIndex, APairThatIsOneGivesNothing) {
    const auto shown = two_displays("oled-rgb", "oled-rgb", {0, 5, 30, 80, 130});
    const auto& first = shown.first;
    const auto& second = shown.second;
    const PopulationIndex index = population_index(people(64), {first, second, d65()});
    EXPECT_NEAR(index.de00.largest, 0.0, test::exactly);
    EXPECT_NEAR(index.uv.largest, 0.0, test::exactly);
    EXPECT_NEAR(index.largest_de00, 0.0, test::exactly);
    EXPECT_NEAR(index.lightness_free, 0.0, test::exactly);
    EXPECT_NEAR(index.mcdm, 0.0, test::exactly);
    EXPECT_NEAR(index.ellipse_area_uv, 0.0, test::exactly);
    EXPECT_NEAR(index.ellipsoid_volume, 0.0, test::exactly);
    EXPECT_EQ(index.pair_share, 0.0);
}

TEST(PopulationIndex, ItDoesNotMatterWhichIsFirst) {
    const auto shown = two_displays("lcd-quantum-dot", "oled-white", {0, 12, 64, 120});
    const auto& first = shown.first;
    const auto& second = shown.second;
    const PopulationIndex one = population_index(people(128), {first, second, d65()});
    const PopulationIndex other = population_index(people(128), {second, first, d65()});
    EXPECT_NEAR(one.de00.mean, other.de00.mean, 1e-12);
    EXPECT_NEAR(one.largest_de00, other.largest_de00, 1e-10);
    EXPECT_NEAR(one.lightness_free, other.lightness_free, 1e-10);
    EXPECT_NEAR(one.mcdm, other.mcdm, 1e-12);
    EXPECT_NEAR(one.ellipse_area_uv, other.ellipse_area_uv, 1e-15);
    EXPECT_NEAR(one.ellipsoid_volume, other.ellipsoid_volume, 1e-9);
    EXPECT_EQ(one.pair_share, other.pair_share);
}

// The unit of the lights has no say, nor has the way in which the mixtures are written.
TEST(PopulationIndex, DependsOnTheLightsAlone) {
    const auto shown = two_displays("lcd-ccfl", "laser-rgb", {0, 3, 77});
    const auto& first = shown.first;
    const auto& second = shown.second;
    const PopulationIndex mixed = population_index(people(32), {first, second, d65()});
    SampledLight bright = d65();
    for (double& value : bright.values) {
        value *= 37.0;
    }
    const PopulationIndex plain = population_index(
        people(32), {MixedLights(first.sampling(), 37.0 * first.lights()),
                     MixedLights(second.sampling(), 37.0 * second.lights()), bright});
    for (std::size_t i = 0; i < 32; ++i) {
        EXPECT_NEAR(mixed.viewer_de00[i], plain.viewer_de00[i], 1e-9);
    }
    EXPECT_NEAR(mixed.ellipsoid_volume, plain.ellipsoid_volume, 1e-9 * mixed.ellipsoid_volume);
}

// People alike agree, however large the difference that they see.
TEST(PopulationIndex, ADifferenceThatAllSeeIsNoDisagreement) {
    PopulationParameters parameters;
    parameters.count = 16;
    parameters.ages = Ages::range(40.0, 40.0);
    parameters.spread = {};
    const Population alike(parameters);
    const auto shown = two_displays("lcd-white-led", "laser-rgb", {0, 50});
    const auto& first = shown.first;
    const auto& second = shown.second;
    const PopulationIndex index = population_index(alike, {first, second, d65()});
    EXPECT_GT(index.de00.mean, 1.0);
    EXPECT_NEAR(index.de00.largest, index.de00.median, 1e-12);
    EXPECT_LT(index.mcdm, 1e-10);
    EXPECT_LT(index.ellipse_area_uv, 1e-15);
    EXPECT_EQ(index.pair_share, 0.0);
}

TEST(PopulationIndex, OfTwoLightsIsThatOfOneColour) {
    const SampledLight a = test::white_of("crt");
    const SampledLight b = test::white_of("oled-quantum-dot");
    const auto shown = two_displays("crt", "oled-quantum-dot", {0});
    const auto& first = shown.first;
    const auto& second = shown.second;
    const PopulationIndex lights = population_index(people(32), {a, b, d65()});
    const PopulationIndex colours = population_index(people(32), {first, second, d65()});
    EXPECT_EQ(lights.colours.size(), 1U);
    EXPECT_NEAR(lights.de00.mean, colours.de00.mean, 1e-10);
    EXPECT_NEAR(lights.pair_share, colours.pair_share, 1e-12);
}

TEST(PopulationIndex, OptionsSayWhatIsAskedFor) {
    const auto shown = two_displays("crt", "oled-rgb", {0});
    const auto& first = shown.first;
    const auto& second = shown.second;
    PopulationIndexOptions options;
    options.percentile = 50.0;
    options.coverage = 0.5;
    options.pair_threshold_uv = 0.02;
    const PopulationIndex usual = population_index(people(64), {first, second, d65()});
    const PopulationIndex other = population_index(people(64), {first, second, d65()}, options);
    EXPECT_LT(other.lightness_free, usual.lightness_free);
    // Areas go as chi squared with 2 degrees of freedom: -2 ln(1 - coverage).
    EXPECT_NEAR(other.ellipse_area_uv / usual.ellipse_area_uv, std::log(0.5) / std::log(0.05),
                1e-12);
    EXPECT_LT(other.pair_share, usual.pair_share);
}

TEST(PopulationIndex, RefusesWhatCannotBe) {
    const auto shown = two_displays("crt", "oled-rgb", {0, 1});
    const auto& first = shown.first;
    const auto& second = shown.second;
    refusal(ErrorKind::shape, [&] {
        static_cast<void>(population_index(people(1), {first, second, d65()}));
    });
    refusal(ErrorKind::shape, [&] {
        static_cast<void>(population_index(people(4), {first, second.chosen({0}), d65()}));
    });
    refusal(ErrorKind::shape, [&] {
        static_cast<void>(
            population_index(people(4), {first, second, rebin(d_illuminant(6500), {380, 5, 81})}));
    });
    const MixedLights dark(first.sampling(), Eigen::MatrixXd::Zero(401, 2));
    refusal(ErrorKind::domain, [&] {
        static_cast<void>(population_index(people(4), {first, dark, d65()}));
    });
    PopulationIndexOptions options;
    options.coverage = 1.0;
    refusal(ErrorKind::domain, [&] {
        static_cast<void>(population_index(people(4), {first, second, d65()}, options));
    });
}

}  // namespace
}  // namespace samelight
