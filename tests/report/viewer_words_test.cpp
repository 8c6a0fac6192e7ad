// What is particular about a viewer's eye, each trait once, to the letter.
#include <string>

#include <gtest/gtest.h>

#include "samelight/metamerism/extreme_viewer.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/report/viewer_words.hpp"

using namespace samelight;

namespace {

TEST(ViewerWords, OfEachTrait) {
    ExtremeViewer viewer{};
    viewer.average_age = 45.0;
    viewer.eye.conditions.age_years = 67.0;
    viewer.eye.deviations = Deviations::of({12.4, -30.6, 5.0, -5.0, 0.4, 2.04, -1.5, 0.0});
    const auto said = [&](ViewerTrait trait) { return report::words_of(viewer, trait); };
    EXPECT_EQ(said(ViewerTrait::age), "older lens (60s)");
    EXPECT_EQ(said(ViewerTrait::lens), "denser lens than usual at that age (+12 %)");
    EXPECT_EQ(said(ViewerTrait::macula), "less macular pigment (-31 %)");
    EXPECT_EQ(said(ViewerTrait::l_density), "more L pigment (+5 %)");
    EXPECT_EQ(said(ViewerTrait::m_density), "less M pigment (-5 %)");
    EXPECT_EQ(said(ViewerTrait::s_density), "more S pigment (+0 %)");
    EXPECT_EQ(said(ViewerTrait::l_shift), "L peak +2.0 nm");
    EXPECT_EQ(said(ViewerTrait::m_shift), "M peak -1.5 nm");
    EXPECT_EQ(said(ViewerTrait::s_shift), "S peak +0.0 nm");
    EXPECT_EQ(report::description_of(viewer), "close to the average");
    viewer.reasons = {{ViewerTrait::macula, 1.0}, {ViewerTrait::age, 2.0}};
    EXPECT_EQ(report::description_of(viewer), "less macular pigment (-31 %), older lens (60s)");
    viewer.eye.conditions.age_years = 31.0;
    EXPECT_EQ(said(ViewerTrait::age), "younger lens (30s)");
}

}  // namespace
