// The shipped tables of CIE 170-1:2006 (cone fundamentals and what they are made of) and
// CIE 170-2:2015 (tristimulus functions) against the published figures and against each other.

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "samelight/tables/cie2006_absorbance.hpp"
#include "samelight/tables/cie2006_cones_10deg.hpp"
#include "samelight/tables/cie2006_cones_2deg.hpp"
#include "samelight/tables/cie2006_lens.hpp"
#include "samelight/tables/cie2006_lens_total.hpp"
#include "samelight/tables/cie2006_macula.hpp"
#include "samelight/tables/cie2015_10deg.hpp"
#include "samelight/tables/cie2015_2deg.hpp"
#include "table.hpp"

namespace {

using samelight::test::chromaticity;
using samelight::test::Table;
using Peak = std::array<double, 2>;
using Row = std::array<double, 7>;
using Matrix = std::array<std::array<double, 3>, 3>;

struct Field {
    double degrees;
    Table lms, xyz;
    std::array<Peak, 3> xyz_peaks;
    std::array<double, 3> lms_peaks_nm;
    double sum;
    Matrix xyz_from_lms;
    std::array<Row, 23> spots;
};

// Sources. Peaks and spot values: CIE 170-1:2006 tables of the cone fundamentals (6 figures) and
// CIE 170-2:2015 tables of the tristimulus functions (7 figures), at 1 nm. Sums over 390-830 nm:
// the same, four decimals, equal for X, Y and Z. Matrices: CIE 170-2:2015.
const Field& two_degrees() {
    static const Field field{
        2.0,
        SAMELIGHT_TEST_TABLE(cie2006_cones_2deg, l, m, s),
        SAMELIGHT_TEST_TABLE(cie2015_2deg, x, y, z),
        {{{1.151326, 599.0}, {0.999993, 556.0}, {1.934819, 442.0}}},
        {570.0, 543.0, 442.0},
        113.0423,
        {{{1.94735469, -1.41445123, 0.36476327},
          {0.68990272, 0.34832189, 0.0},
          {0.0, 0.0, 1.93485343}}},
        {{
            // nm, l, m, s, x, y, z
            {390.0, 0.000415003, 0.000368349, 0.00954729, 0.003769647, 0.0004146161, 0.0184726},
            {400.0, 0.00240836, 0.00226991, 0.0566498, 0.02214302, 0.002452194, 0.109609},
            {420.0, 0.018448, 0.0216649, 0.543618, 0.2035729, 0.02027369, 1.051821},
            {440.0, 0.0402563, 0.0647782, 0.99102, 0.3482554, 0.05033657, 1.917479},
            {442.0, 0.0422582, 0.0693844, 0.999982, 0.3489075, 0.05332218, 1.934819},
            {450.0, 0.0498639, 0.0870524, 0.955393, 0.3224637, 0.06472352, 1.848545},
            {460.0, 0.0647164, 0.116272, 0.786704, 0.2485254, 0.08514816, 1.522157},
            {480.0, 0.140145, 0.235754, 0.390333, 0.08182895, 0.1788048, 0.7552379},
            {500.0, 0.288959, 0.427764, 0.122839, 0.002461588, 0.3483536, 0.2376753},
            {520.0, 0.628561, 0.81661, 0.0292033, 0.07962917, 0.718089, 0.05650407},
            {540.0, 0.881011, 0.995217, 0.005089, 0.3098117, 0.9544675, 0.00984647},
            {555.0, 0.965733, 0.956583, 0.00120277, 0.5280233, 0.9994608, 0.002327186},
            {556.0, 0.969744, 0.950167, 0.00109118, 0.5448696, 0.999993, 0.00211128},
            {560.0, 0.981445, 0.91775, 0.000740174, 0.6133784, 0.9967737, 0.001432128},
            {580.0, 0.969429, 0.653274, 0.000109454, 0.9638388, 0.8963613, 0.0002117772},
            {599.0, 0.844926, 0.349289, 1.99779e-05, 1.151326, 0.7045818, 3.865437e-05},
            {600.0, 0.833982, 0.334429, 1.83459e-05, 1.151033, 0.6918553, 3.549661e-05},
            {620.0, 0.554224, 0.116641, 0.0, 0.9142877, 0.4229897, 0.0},
            {650.0, 0.165141, 0.015448, 0.0, 0.2997374, 0.119312, 0.0},
            {700.0, 0.00589749, 0.000365317, 0.0, 0.01096778, 0.004195941, 0.0},
            {750.0, 0.000154549, 1.082e-05, 0.0, 0.0002856577, 0.0001103928, 0.0},
            {800.0, 5.85057e-06, 5.03187e-07, 0.0, 1.068141e-05, 4.211597e-06, 0.0},
            {830.0, 9.74306e-07, 9.53411e-08, 0.0, 1.762465e-06, 7.05386e-07, 0.0},
        }}};
    return field;
}

const Field& ten_degrees() {
    static const Field field{
        10.0,
        SAMELIGHT_TEST_TABLE(cie2006_cones_10deg, l, m, s),
        SAMELIGHT_TEST_TABLE(cie2015_10deg, x, y, z),
        {{{1.160477, 595.0}, {0.999944, 556.0}, {2.146832, 448.0}}},
        {569.0, 541.0, 448.0},
        118.5181,
        {{{1.93986443, -1.34664359, 0.43044935},
          {0.69283932, 0.34967567, 0.0},
          {0.0, 0.0, 2.14687947}}},
        {{
            // nm, l, m, s, x, y, z
            {390.0, 0.000407619, 0.000358227, 0.00614265, 0.00295242, 0.0004076779, 0.01318752},
            {400.0, 0.00254073, 0.00237208, 0.0396308, 0.01879338, 0.002589775, 0.08508254},
            {420.0, 0.0233957, 0.0273163, 0.462692, 0.2077647, 0.02576133, 0.9933444},
            {440.0, 0.0594619, 0.0957612, 0.96696, 0.4026189, 0.07468288, 2.075946},
            {442.0, 0.0631288, 0.103804, 0.984028, 0.4062482, 0.08003601, 2.112591},
            {450.0, 0.0795647, 0.139493, 0.991329, 0.3932139, 0.103903, 2.128264},
            {460.0, 0.106663, 0.193202, 0.823726, 0.3013112, 0.1414586, 1.76844},
            {480.0, 0.20794, 0.355066, 0.350108, 0.0759312, 0.2682271, 0.7516389},
            {500.0, 0.391705, 0.591003, 0.096799, 0.005652072, 0.4780482, 0.2078158},
            {520.0, 0.675313, 0.889214, 0.0176298, 0.1201511, 0.7788199, 0.03784916},
            {540.0, 0.890871, 0.998931, 0.00283352, 0.3841856, 0.9665325, 0.006083223},
            {555.0, 0.970703, 0.935829, 0.000664512, 0.6230892, 0.9997775, 0.001426627},
            {556.0, 0.974756, 0.928274, 0.000602887, 0.6410999, 0.999944, 0.001294325},
            {560.0, 0.985636, 0.890949, 0.000408931, 0.7123849, 0.9944304, 0.0008779264},
            {580.0, 0.957841, 0.611728, 6.04705e-05, 1.034327, 0.877536, 0.000129823},
            {599.0, 0.81494, 0.318261, 1.10373e-05, 1.152293, 0.6759103, 2.369574e-05},
            {600.0, 0.803173, 0.304378, 1.01356e-05, 1.148163, 0.6629035, 2.175998e-05},
            {620.0, 0.517449, 0.104573, 0.0, 0.8629581, 0.3950755, 0.0},
            {650.0, 0.149509, 0.013766, 0.0, 0.27149, 0.1083996, 0.0},
            {700.0, 0.00528607, 0.000325278, 0.0, 0.009816228, 0.00377614, 0.0},
            {750.0, 0.000138482, 9.63397e-06, 0.0, 0.0002556624, 9.931439e-05, 0.0},
            {800.0, 5.24229e-06, 4.4803e-07, 0.0, 9.565993e-06, 3.788729e-06, 0.0},
            {830.0, 8.73008e-07, 8.48902e-08, 0.0, 1.579199e-06, 6.34538e-07, 0.0},
        }}};
    return field;
}

class Cie170 : public testing::TestWithParam<const Field*> {};

TEST_P(Cie170, RangeStepAndCount) {
    // Source: CIE 170-2:2015: 390 to 830 nm by 1 nm.
    for (const Table* table : {&GetParam()->lms, &GetParam()->xyz}) {
        EXPECT_EQ(table->first_nm, 390.0);
        EXPECT_EQ(table->step_nm, 1.0);
        EXPECT_EQ(table->count(), 441);
    }
}

TEST_P(Cie170, Peaks) {
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_EQ(GetParam()->xyz.peak(k), GetParam()->xyz_peaks[k]);
        EXPECT_EQ(GetParam()->lms.peak(k)[1], GetParam()->lms_peaks_nm[k]);
    }
}

TEST_P(Cie170, SumsGiveEqualEnergyAThird) {
    const Table& xyz = GetParam()->xyz;
    for (std::size_t k = 0; k < 3; ++k)
        EXPECT_NEAR(xyz.sum(k), GetParam()->sum, 5e-5);
    // Source: CIE 170-2:2015: equal energy has x = y = 0.33333 to five decimals.
    const auto e = chromaticity({xyz.sum(0), xyz.sum(1), xyz.sum(2)});
    EXPECT_NEAR(e[0], 0.33333, 5e-6);
    EXPECT_NEAR(e[1], 0.33333, 5e-6);
}

TEST_P(Cie170, SpotValues) {
    for (const Row& spot : GetParam()->spots) {
        for (std::size_t k = 0; k < 6; ++k) {
            const Table& table = k < 3 ? GetParam()->lms : GetParam()->xyz;
            // Equal as printed; below 1e-7 the shipped table keeps 12 decimals: half a unit.
            const double tolerance = spot[k + 1] < 1e-7 ? 5e-13 : 1e-12 * spot[k + 1];
            EXPECT_NEAR(table.at(k % 3, spot[0]), spot[k + 1], tolerance)
                << spot[0] << " nm, column " << k;
        }
    }
}

TEST_P(Cie170, MatrixTakesConesToTristimulus) {
    // Source: CIE 170-2:2015, the matrices from LMS with 9 significant figures. The shipped LMS have
    // 6 (off by up to 5e-7 below 1) and the shipped XYZ 7 (off by up to 5e-7 from 1 to 10, 5e-8
    // below 1). So a row may be off by 5e-7 times the sum of its absolute entries, and that rounding.
    // Largest found: 1.92e-6 in X (2 degrees, 614 nm), 5.4e-7 in Y, 1.5e-6 in Z.
    const Field& field = *GetParam();
    const std::array<double, 3> last_digit{5e-7, 5e-8, 5e-7};
    for (std::size_t row = 0; row < 3; ++row) {
        const auto& from = field.xyz_from_lms[row];
        const double bound =
            5e-7 * (std::abs(from[0]) + std::abs(from[1]) + std::abs(from[2])) + last_digit[row];
        double largest = 0.0;
        for (double nm = 390.0; nm <= 830.0; nm += 1.0) {
            const double made = from[0] * field.lms.at(0, nm) + from[1] * field.lms.at(1, nm) +
                                from[2] * field.lms.at(2, nm);
            largest = std::max(largest, std::abs(made - field.xyz.at(row, nm)));
        }
        EXPECT_LE(largest, bound) << "row " << row;
    }
}

TEST_P(Cie170, FundamentalsFollowFromTheirParts) {
    // Second route, and a check that absorbance, lens and macula are what they claim to be: the
    // construction of CIE 170-1:2006 for age 32. Quantal sensitivity is
    // (1 - 10^(-D 10^log_absorbance)) 10^(-macula - lens); times the wavelength it is in energy
    // units; S is absent above 615 nm. Pigment densities: 0.38 + 0.54 exp(-field/1.333) for L and M,
    // 0.30 + 0.45 exp(-field/1.333) for S; macula: 0.485 exp(-field/6.132) at 460 nm; each to three
    // decimals. Bound: 4.3e-4, known for this construction on 1 nm data.
    const Field& field = *GetParam();
    const Table absorbance = SAMELIGHT_TEST_TABLE(cie2006_absorbance, l, m, s);
    const Table lens = SAMELIGHT_TEST_TABLE(cie2006_lens_total, density);
    const Table macula = SAMELIGHT_TEST_TABLE(cie2006_macula, density);
    const auto three_decimals = [](double value) { return std::round(1000.0 * value) / 1000.0; };
    const double for_l_and_m = three_decimals(0.38 + 0.54 * std::exp(-field.degrees / 1.333));
    const double for_s = three_decimals(0.30 + 0.45 * std::exp(-field.degrees / 1.333));
    const std::array<double, 3> pigment{for_l_and_m, for_l_and_m, for_s};
    const double macula_460 = three_decimals(0.485 * std::exp(-field.degrees / 6.132));

    for (std::size_t k = 0; k < 3; ++k) {
        std::array<double, 441> made{};
        for (std::size_t i = 0; i < made.size(); ++i) {
            const double nm = absorbance.wavelength(i);
            if (k == 2 && nm > 615.0) continue;
            const double absorbed =
                1.0 - std::pow(10.0, -pigment[k] * std::pow(10.0, absorbance.at(k, nm)));
            const double media =
                lens.at(0, nm) + macula_460 * macula.at(0, nm) / macula.at(0, 460.0);
            made[i] = absorbed * std::pow(10.0, -media) * nm;
        }
        const double peak = *std::max_element(made.begin(), made.end());
        double largest = 0.0;
        for (std::size_t i = 0; i < made.size(); ++i) {
            largest = std::max(largest, std::abs(made[i] / peak - field.lms.columns[k][i]));
        }
        EXPECT_LE(largest, 4.3e-4) << "column " << k;
    }
}

INSTANTIATE_TEST_SUITE_P(Fields, Cie170, testing::Values(&two_degrees(), &ten_degrees()),
                         [](const auto& field) {
                             return field.param->degrees == 2.0 ? "TwoDegrees" : "TenDegrees";
                         });

TEST(Absorbance, PeaksAndSpotValuesAreThoseOfTheReport) {
    const Table log_absorbance = SAMELIGHT_TEST_TABLE(cie2006_absorbance, l, m, s);
    // Source: CIE 170-1:2006 Table 6.6 as digitised at 1 nm. S stays below 0 at every whole nm.
    EXPECT_EQ(log_absorbance.peak(0), (Peak{0.0, 545.0}));
    EXPECT_EQ(log_absorbance.peak(1), (Peak{0.0, 525.0}));
    EXPECT_EQ(log_absorbance.peak(2), (Peak{-3e-5, 420.0}));
    // Source: as above; half a unit of the fifth decimal.
    EXPECT_NEAR(log_absorbance.at(0, 390.0), -0.93379444, 5e-6);
    EXPECT_NEAR(log_absorbance.at(1, 390.0), -1.0479028, 5e-6);
    EXPECT_NEAR(log_absorbance.at(2, 390.0), -0.13385261, 5e-6);
    EXPECT_NEAR(log_absorbance.at(0, 830.0), -6.47749, 5e-6);
    EXPECT_NEAR(log_absorbance.at(1, 830.0), -7.5426269, 5e-6);
}

TEST(Absorbance, SAbove615IsAStraightLineAndNoMeasurement) {
    // Source: the package the table is from: values above 615 nm were extrapolated linearly. Two
    // roundings to five decimals make a difference of neighbours uncertain by 1e-5.
    const Table log_absorbance = SAMELIGHT_TEST_TABLE(cie2006_absorbance, l, m, s);
    const Table cones = SAMELIGHT_TEST_TABLE(cie2006_cones_2deg, l, m, s);
    for (double nm = 616.0; nm <= 830.0; nm += 1.0) {
        EXPECT_NEAR(log_absorbance.at(2, nm) - log_absorbance.at(2, nm - 1.0), -0.03506, 1e-5);
        EXPECT_EQ(cones.at(2, nm), 0.0);
    }
    EXPECT_GT(cones.at(2, 615.0), 0.0);
}

TEST(Macula, IsThreeHundredFiftyThousandthsAt460AndHighestAt458) {
    const Table macula = SAMELIGHT_TEST_TABLE(cie2006_macula, density);
    // Source: CIE 170-1:2006 formula for 2 degrees, 0.485 exp(-2/6.132) to three decimals, at
    // 460 nm, where the relative curve is 1. That isn't its largest value.
    EXPECT_NEAR(macula.at(0, 460.0), 0.485 * std::exp(-2.0 / 6.132), 5e-4);
    EXPECT_EQ(macula.at(0, 460.0), 0.350);
    // Source: CIE 170-1:2006 Table 6.4 as digitised at 1 nm.
    EXPECT_EQ(macula.peak(0), (Peak{0.35211, 458.0}));
    EXPECT_NEAR(macula.at(0, 390.0), 0.350 * 0.1295271, 5e-6);
    for (double nm = 550.0; nm <= 830.0; nm += 1.0)
        EXPECT_EQ(macula.at(0, nm), 0.0);
    EXPECT_GT(macula.at(0, 549.0), 0.0);
}

TEST(Lens, PartsAreThoseOfTheReport) {
    const Table parts = SAMELIGHT_TEST_TABLE(cie2006_lens, ageing, fixed);
    EXPECT_EQ(parts.first_nm, 400.0);
    EXPECT_EQ(parts.step_nm, 5.0);
    EXPECT_EQ(parts.count(), 61);
    // Source: CIE 170-1:2006 Table 6.10.
    EXPECT_EQ(parts.at(0, 400.0), 0.661837);
    EXPECT_EQ(parts.at(1, 400.0), 1.103063);
    EXPECT_EQ(parts.at(0, 460.0), 0.227900);
    EXPECT_EQ(parts.at(1, 460.0), 0.0);
    for (double nm = 460.0; nm <= 700.0; nm += 5.0)
        EXPECT_EQ(parts.at(1, nm), 0.0);
}

TEST(Lens, TotalIsTheSumOfThePartsWhereBothAreTabulated) {
    // Source: CIE 170-1:2006: the density at age 32 is ageing + fixed. 1e-12 is for the rounding of
    // a sum of decimals.
    const Table parts = SAMELIGHT_TEST_TABLE(cie2006_lens, ageing, fixed);
    const Table total = SAMELIGHT_TEST_TABLE(cie2006_lens_total, density);
    for (double nm = 400.0; nm <= 700.0; nm += 5.0) {
        EXPECT_NEAR(total.at(0, nm), parts.at(0, nm) + parts.at(1, nm), 1e-12) << nm << " nm";
    }
    for (double nm = 660.0; nm <= 830.0; nm += 1.0)
        EXPECT_EQ(total.at(0, nm), 0.0);
    EXPECT_GT(total.at(0, 659.0), 0.0);
    // Second route: the two parts as digitised at 0.1 nm by the reference program of CIE TC 1-97
    // add up to the same below 400 nm, where the report's parts end.
    EXPECT_NEAR(total.at(0, 390.0), 0.608146 + 1.904054, 5e-6);
    EXPECT_NEAR(total.at(0, 395.0), 0.649236 + 1.481364, 5e-6);
}

TEST(Lens, TotalIsNotTheStraightLineBetweenTheParts) {
    // Whoever interpolates the parts linearly misses the total by this much, most at 408 nm. No
    // source: a property of the two tables that the observers have to allow for.
    const Table parts = SAMELIGHT_TEST_TABLE(cie2006_lens, ageing, fixed);
    const Table total = SAMELIGHT_TEST_TABLE(cie2006_lens_total, density);
    double largest = 0.0;
    double where = 0.0;
    for (double nm = 400.0; nm < 700.0; nm += 1.0) {
        const double left = 5.0 * std::floor(nm / 5.0);
        const double t = (nm - left) / 5.0;
        double line = 0.0;
        for (std::size_t k = 0; k < 2; ++k) {
            line += (1.0 - t) * parts.at(k, left) + t * parts.at(k, left + 5.0);
        }
        const double gap = std::abs(line - total.at(0, nm));
        if (gap > largest) {
            largest = gap;
            where = nm;
        }
    }
    EXPECT_EQ(where, 408.0);
    EXPECT_NEAR(largest, 0.00707, 5e-6);
}

}  // namespace
