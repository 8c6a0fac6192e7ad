// Cone fundamentals by age and field: the published tables, the laws of the construction, and its limits.
#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include "numeric/refusals.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/ocular_media.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight {
namespace {

using test::contains;
using test::refusal;

Observer cones(double age, double field, Pupil pupil = Pupil::small,
               PeakDensities peaks = PeakDensities::three_decimals) {
    return cone_fundamentals({age, field, pupil, peaks});
}

double largest_difference(const Observer& a, const Observer& b, std::size_t cone) {
    double largest = 0.0;
    for (double nm = 390.0; nm <= 830.0; nm += 1.0) {
        largest = std::max(largest, std::abs(a.at(cone, nm) - b.at(cone, nm)));
    }
    return largest;
}

// Source: CIE 170-1:2006 and CIE 170-2:2015, the tabulated cone fundamentals for 2 and 10 degrees and 32 years. The bound is
// what the construction on 1 nm data can give; found: 2.43e-4 (L, 2 degrees).
TEST(ConeFundamentals, ReproduceTheTablesOfTheStandard) {
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_LE(largest_difference(cones(32, 2), cie2006_cones_2deg(), k), 4.3e-4) << k;
        EXPECT_LE(largest_difference(cones(32, 10), cie2006_cones_10deg(), k), 4.3e-4) << k;
    }
}

// Source: the reference program of CIE TC 1-97, 10 degrees and 20 years, six figures.
TEST(ConeFundamentals, ReproduceTheReferenceProgramAtAnotherAge) {
    constexpr std::array<std::array<double, 4>, 10> published = {{
        {390, 0.000550566, 0.000475086, 0.0073956},
        {400, 0.00353508, 0.00324062, 0.0491514},
        {420, 0.0286007, 0.0327885, 0.504191},
        {440, 0.0681152, 0.107709, 0.987363},
        {450, 0.0885845, 0.152493, 0.983825},
        {480, 0.222099, 0.372372, 0.33333},
        {520, 0.697614, 0.901935, 0.0162339},
        {560, 0.991116, 0.87967, 0.00036654},
        {600, 0.788012, 0.293221, 8.86416e-06},
        {650, 0.144555, 0.0130686, 0},
    }};
    const Observer young = cones(20, 10);
    for (const auto& [nm, l, m, s] : published) {
        EXPECT_NEAR(young.at(0, nm), l, 4.3e-4) << nm;
        EXPECT_NEAR(young.at(1, nm), m, 4.3e-4) << nm;
        EXPECT_NEAR(young.at(2, nm), s, 4.3e-4) << nm;
    }
    // Those of 32 years are not within that bound, so the age is seen.
    EXPECT_GT(std::abs(cones(32, 10).at(2, 420) - 0.504191), 0.03);
}

// Source: CIE 170-1:2006: the densities that its formulas give for 2 and 10 degrees.
TEST(ConeFundamentals, PeakDensitiesAreThoseOfTheStandard) {
    const auto small = detail::field_densities(2.0, PeakDensities::three_decimals);
    const auto large = detail::field_densities(10.0, PeakDensities::three_decimals);
    EXPECT_EQ(small.macula, 0.350);
    EXPECT_EQ(large.macula, 0.095);
    EXPECT_EQ(small.pigment, (std::array{0.500, 0.500, 0.400}));
    EXPECT_EQ(large.pigment, (std::array{0.380, 0.380, 0.300}));
    const auto exact = detail::field_densities(2.0, PeakDensities::unrounded);
    EXPECT_EQ(exact.macula, 0.485 * std::exp(-2.0 / 6.132));
    EXPECT_NE(exact.macula, small.macula);
    EXPECT_NEAR(exact.macula, small.macula, 5e-4);
}

// Source: CIE 170-1:2006: 1 at 32 years, 2 % a year up to 60, 6.67 % a year above, without a jump at 60.
TEST(OcularMedia, TheLensAges) {
    EXPECT_EQ(lens_ageing_factor(32.0), 1.0);
    EXPECT_DOUBLE_EQ(lens_ageing_factor(20.0), 0.76);
    EXPECT_DOUBLE_EQ(lens_ageing_factor(60.0), 1.56);
    EXPECT_NEAR(lens_ageing_factor(60.0 + 1e-9), 1.56, 1e-9);
    EXPECT_DOUBLE_EQ(lens_ageing_factor(80.0), 1.56 + 0.0667 * 20.0);
}

// Sources: CIE 170-1:2006, Table 6.10 (the parts by 5 nm), and the total by 1 nm, which both parts together must give.
TEST(OcularMedia, TheLensIsTheTotalAndItsPartsAreThoseOfTheStandard) {
    const OcularMedia& media = ocular_media();
    for (std::size_t i = 0; i < media.ageing.size(); ++i) {
        EXPECT_NEAR(media.ageing[i] + media.fixed[i], tables::cie2006_lens_total::density[i],
                    1e-15);
        EXPECT_GE(media.fixed[i], 0.0);
        EXPECT_GE(media.ageing[i], 0.0);
        if (i >= 70) {
            EXPECT_EQ(media.fixed[i], 0.0) << "from 460 nm all of it ages";
        }
        if (i >= 270) {
            EXPECT_EQ(media.ageing[i], 0.0) << "from 660 nm it is clear";
        }
    }
    for (std::size_t j = 0; j < tables::cie2006_lens::ageing.size(); ++j) {
        EXPECT_NEAR(media.ageing[10 + 5 * j], tables::cie2006_lens::ageing[j], 1e-12);
        EXPECT_NEAR(media.fixed[10 + 5 * j], tables::cie2006_lens::fixed[j], 1e-12);
    }
    EXPECT_EQ(media.ageing[0], 0.661837);
    EXPECT_EQ(media.ageing[9], 0.661837);
}

// Second route: what a cubic spline is. Inside an interval (five steps of 1 nm) third differences are constant; across a value
// of the table the second derivative, which a central second difference of a cubic gives exactly, goes on without a step.
TEST(OcularMedia, TheAgeingPartIsSmoothBetweenTheTabulatedValues) {
    const ConeCurve& a = ocular_media().ageing;
    const auto bend = [&](std::size_t i) { return a[i + 1] - 2.0 * a[i] + a[i - 1]; };
    for (std::size_t node = 10; node <= 60; node += 5) {
        EXPECT_NEAR(bend(node + 2) - bend(node + 1), bend(node + 3) - bend(node + 2), 1e-13);
        EXPECT_NEAR(bend(node + 3) - bend(node + 2), bend(node + 4) - bend(node + 3), 1e-13);
        if (node > 10) {
            EXPECT_NEAR(2.0 * bend(node - 1) - bend(node - 2),
                        2.0 * bend(node + 1) - bend(node + 2), 1e-13)
                << node;
        }
    }
}

// Worked by hand: below 400 nm the spline runs through two more values equal to that for 400 nm, and bends by 0 at 390 nm. Its
// slope at 400 nm is then 35/24 of its second derivative there. On the other side both follow from values 1 nm apart.
TEST(OcularMedia, TheAgeingPartComesInFlatAt400) {
    const double* a = &ocular_media().ageing[10];
    const double slope = (-11.0 * a[0] + 18.0 * a[1] - 9.0 * a[2] + 2.0 * a[3]) / 6.0;
    const double bend = 2.0 * a[0] - 5.0 * a[1] + 4.0 * a[2] - a[3];
    EXPECT_NEAR(slope, 35.0 / 24.0 * bend, 1e-12);
    EXPECT_LT(slope, -0.005);
}

// Source: CIE 170-1:2006: the macula's curve is relative to 460 nm.
TEST(OcularMedia, TheMaculaIsOneAt460) {
    EXPECT_EQ(ocular_media().macula[70], 1.0);
    EXPECT_NEAR(ocular_media().macula[68], 0.35211 / 0.35, 1e-12);
    EXPECT_EQ(ocular_media().macula[160], 0.0);
}

// Law: two ages differ by the ageing part of the lens alone, so the logarithm of the ratio of a row is that part times the
// difference of the factors, but for the constant that makes the peaks 1.
TEST(ConeFundamentals, AgesDifferByTheLensAlone) {
    const Observer a = cones(32, 4);
    for (const double age : {20.0, 45.5, 60.0, 80.0}) {
        const Observer b = cones(age, 4);
        for (std::size_t k = 0; k < 3; ++k) {
            const double constant = std::log10(b.at(k, 600.0) / a.at(k, 600.0)) +
                                    (lens_ageing_factor(age) - 1.0) * ocular_media().ageing[210];
            for (std::size_t i = 0; i <= 225; ++i) {
                const double nm = 390.0 + static_cast<double>(i);
                EXPECT_NEAR(std::log10(b.at(k, nm) / a.at(k, nm)),
                            constant - (lens_ageing_factor(age) - 1.0) * ocular_media().ageing[i],
                            1e-12);
            }
        }
    }
}

// Law: an open pupil takes 0.16 / 1.16 of the lens away. Source of the factor: CIE 170-1:2006 (from memory).
TEST(ConeFundamentals, AnOpenPupilSeesThroughLessLens) {
    const Observer small = cones(50, 2);
    const Observer open = cones(50, 2, Pupil::open);
    const auto ratio = [&](double nm) { return std::log10(open.at(2, nm) / small.at(2, nm)); };
    const auto density = [](std::size_t i) {
        return 1.36 * ocular_media().ageing[i] + ocular_media().fixed[i];
    };
    EXPECT_NEAR(ratio(400) - ratio(600), (density(10) - density(210)) * (0.16 / 1.16), 1e-12);
}

TEST(ConeFundamentals, AreOneAtTheirPeakAndSEndsAt615) {
    for (const double age : {20.0, 57.3, 80.0}) {
        for (const double field : {1.0, 3.3, 10.0}) {
            const Observer o = cones(age, field);
            EXPECT_EQ(o.receptors(), Receptors::cones);
            EXPECT_EQ(o.grid(), Sampling(390.0, 1.0, 441));
            for (std::size_t k = 0; k < 3; ++k) {
                EXPECT_EQ(*std::max_element(o.row(k).begin(), o.row(k).end()), 1.0);
                EXPECT_GT(o.at(k, 390.0), 0.0);
            }
            EXPECT_GT(o.at(2, 615.0), 0.0);
            EXPECT_EQ(o.at(2, 616.0), 0.0);
            EXPECT_GT(o.at(1, 830.0), 0.0);
        }
    }
}

TEST(ConeFundamentals, AreCalledByAgeAndField) {
    EXPECT_EQ(cones(45, 2).id(), "cie2006:45:2");
    EXPECT_EQ(cones(32.5, 3.75).id(), "cie2006:32.5:3.75");
    EXPECT_EQ(cones(45, 2, Pupil::open).id(), "cie2006:45:2:open-pupil");
    EXPECT_EQ(cones(45, 2, Pupil::open, PeakDensities::unrounded).id(),
              "cie2006:45:2:open-pupil:unrounded-densities");
    EXPECT_EQ(cones(45, 2).title(), "CIE 2006 cone fundamentals, 2 degrees, 45 years");
}

TEST(ConeFundamentals, RefuseWhatTheStandardDoesNotCover) {
    for (const double age : {19.99, 80.01, -1.0, std::nan("")}) {
        EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { (void)cones(age, 2); }),
                             "age " + to_text(age)));
    }
    for (const double field : {0.99, 10.01, std::nan("")}) {
        EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { (void)cones(32, field); }),
                             "field of " + to_text(field)));
    }
}

}  // namespace
}  // namespace samelight
