// The patch set: its groups lie where they should, and a surface sends back its part of the light.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <set>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/colour/spaces/lab.hpp"
#include "samelight/display/patch_set.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight {
namespace {

SampledLight daylight(const Sampling& sampling = {}) { return rebin(d_illuminant(6500), sampling); }

Lab<Cie1931_2deg> seen(const SurfacePatch& patch, const SampledLight& illuminant) {
    return lab(tristimulus<Cie1931_2deg>(patch_light(patch.reflectance, illuminant)),
               tristimulus<Cie1931_2deg>(illuminant));
}

TEST(PatchSet, HasItsFourGroups) {
    std::array<int, 4> counts{};
    std::set<std::string> names;
    for (const SurfacePatch& patch : patch_set()) {
        ++counts.at(static_cast<std::size_t>(patch.group));
        names.insert(patch.name);
        EXPECT_TRUE(patch.name.starts_with(patch_group_name(patch.group))) << patch.name;
        EXPECT_EQ(patch.reflectance.first_nm(), 400.0);
        EXPECT_EQ(patch.reflectance.last_nm(), 700.0);
    }
    EXPECT_EQ(counts, (std::array<int, 4>{20, 20, 24, 76}));
    EXPECT_EQ(names.size(), 140U);
}

// Second route: the rule of data/choose_reflectances.py, by this library's own CIELAB. Bounds are the rule's, with 0.5 for the 10 nm sums
// that it takes and this doesn't.
TEST(PatchSet, GroupsLieWhereTheRulePutThem) {
    const SampledLight illuminant = daylight();
    double lightest = 0.0;
    double darkest = 100.0;
    for (const SurfacePatch& patch : patch_set()) {
        const auto colour = seen(patch, illuminant);
        switch (patch.group) {
            case PatchGroup::neutral:
                EXPECT_LE(colour.chroma(), 6.5) << patch.name;
                lightest = std::max(lightest, colour.L());
                darkest = std::min(darkest, colour.L());
                break;
            case PatchGroup::skin:
                // Skin of any kind is reddish yellow.
                EXPECT_GT(colour.hue_deg(), 35.0) << patch.name;
                EXPECT_LT(colour.hue_deg(), 75.0) << patch.name;
                break;
            case PatchGroup::foliage:
                EXPECT_GT(colour.hue_deg(), 79.0) << patch.name;
                EXPECT_LT(colour.hue_deg(), 171.0) << patch.name;
                break;
            case PatchGroup::saturated:
                EXPECT_GE(colour.chroma(), 24.5) << patch.name;
                break;
        }
    }
    EXPECT_GT(lightest, 95.0);
    EXPECT_LT(darkest, 15.0);
}

TEST(PatchSet, NoTwoPatchesOfAGroupAreClose) {
    const SampledLight illuminant = daylight();
    const auto patches = patch_set();
    double nearest = 1e9;
    for (std::size_t i = 0; i < patches.size(); ++i) {
        for (std::size_t j = i + 1; j < patches.size(); ++j) {
            if (patches[i].group == patches[j].group) {
                nearest = std::min(
                    nearest,
                    (seen(patches[i], illuminant) - seen(patches[j], illuminant)).distance());
            }
        }
    }
    EXPECT_GT(nearest, 2.0);  // 2.6 by the rule's own sums, between two of skin
}

TEST(PatchLight, AWhiteSurfaceGivesTheIlluminantItself) {
    const Spectrum white(std::vector<double>{400.0, 700.0}, {1.0, 1.0});
    for (const Sampling& sampling : {Sampling(), Sampling(380.0, 5.0, 81)}) {
        EXPECT_EQ(patch_light(white, daylight(sampling)).values, daylight(sampling).values);
    }
}

TEST(PatchLight, IsLinearBetweenItsSamplesAndHeldBeyondTheEnds) {
    const Spectrum ramp(std::vector<double>{400.0, 500.0, 700.0}, {0.2, 0.4, 0.8});
    EXPECT_DOUBLE_EQ(held_reflectance(ramp, 450.0), 0.3);
    EXPECT_DOUBLE_EQ(held_reflectance(ramp, 550.0), 0.5);
    EXPECT_EQ(held_reflectance(ramp, 700.0), 0.8);
    EXPECT_EQ(held_reflectance(ramp, 380.0), 0.2);
    EXPECT_EQ(held_reflectance(ramp, 780.0), 0.8);
    const SampledLight flat = rebin(illuminant_e(Sampling()), {});
    const SampledLight light = patch_light(ramp, flat);
    EXPECT_DOUBLE_EQ(light.values[0], 20.0);
    EXPECT_DOUBLE_EQ(light.values[70], 30.0);
    EXPECT_DOUBLE_EQ(light.values[400], 80.0);
}

TEST(PatchLight, SeveralAtOnceAreTheSame) {
    const auto lights = patch_lights(patch_set(), daylight());
    ASSERT_EQ(lights.cols(), 140);
    for (Eigen::Index j = 0; j < lights.cols(); ++j) {
        const SampledLight one =
            patch_light(patch_set()[static_cast<std::size_t>(j)].reflectance, daylight());
        EXPECT_TRUE(lights.col(j) == one.column());
    }
}

// What holding the ends assumes beyond 700 nm is little for the eye: an upper bound is a surface that is perfectly white there.
TEST(PatchLight, WhatIsAssumedBeyondTheTableIsSmall) {
    const SampledLight illuminant = daylight();
    const auto white = tristimulus<Cie1931_2deg>(illuminant);
    double largest = 0.0;
    for (const SurfacePatch& patch : patch_set()) {
        SampledLight light = patch_light(patch.reflectance, illuminant);
        for (std::size_t i = 321; i < 401; ++i) {
            light.values[i] = illuminant.values[i];
        }
        const auto other = lab(tristimulus<Cie1931_2deg>(light), white);
        largest = std::max(largest, (other - seen(patch, illuminant)).distance());
    }
    EXPECT_GT(largest, 0.1);
    EXPECT_LT(largest, 3.0);
    RecordProperty("largest_de_ab_by_assuming_white_above_700_nm", std::to_string(largest));
}

}  // namespace
}  // namespace samelight
