// The shipped tables against published figures: colour-matching functions, illuminants, daylight,
// the monitor's primaries. The tables of CIE 170 are in cie170_test.cpp.

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <stdexcept>
#include <vector>

#include "samelight/tables/cie1931_2deg.hpp"
#include "samelight/tables/cie1964_10deg.hpp"
#include "samelight/tables/crt_primaries.hpp"
#include "samelight/tables/daylight_basis.hpp"
#include "samelight/tables/illuminant_a.hpp"
#include "samelight/tables/illuminant_c.hpp"
#include "samelight/tables/judd_vos_1978.hpp"
#include "table.hpp"

namespace {

using samelight::test::chromaticity;
using samelight::test::summed;
using samelight::test::Table;

const Table& cie1931() {
    static const Table table = SAMELIGHT_TEST_TABLE(cie1931_2deg, x, y, z);
    return table;
}
const Table& cie1964() {
    static const Table table = SAMELIGHT_TEST_TABLE(cie1964_10deg, x, y, z);
    return table;
}
const Table& judd_vos() {
    static const Table table = SAMELIGHT_TEST_TABLE(judd_vos_1978, x, y, z);
    return table;
}
const Table& daylight() {
    static const Table table = SAMELIGHT_TEST_TABLE(daylight_basis, s0, s1, s2);
    return table;
}
const Table& illuminant_a() {
    static const Table table = SAMELIGHT_TEST_TABLE(illuminant_a, power);
    return table;
}
const Table& illuminant_c() {
    static const Table table = SAMELIGHT_TEST_TABLE(illuminant_c, power);
    return table;
}

// Illuminant A by its defining formula, 100 at 560 nm. Source: CIE 15:2018, with c2 = 1.435e-2 m K
// and T = 2848 K, which is 2855.5 K for c2 = 1.4388e-2 m K.
double formula_a(double nm) {
    const double exponent = 1.435e7 / 2848.0;
    return 100.0 * std::pow(560.0 / nm, 5.0) * std::expm1(exponent / 560.0) /
           std::expm1(exponent / nm);
}

// A phase of daylight from its factors M1 and M2, on the grid of the table.
std::vector<double> daylight_of(double m1, double m2) {
    std::vector<double> power;
    for (int row = 0; row < daylight().count(); ++row) {
        const auto i = static_cast<std::size_t>(row);
        const auto& s = daylight().columns;
        power.push_back(s[0][i] + m1 * s[1][i] + m2 * s[2][i]);
    }
    return power;
}

TEST(Cmf, RangeStepAndCountAreThoseOfThePublishedTables) {
    // Source: ISO/CIE 11664-1:2019: 360 to 830 nm by 1 nm, 471 values.
    for (const Table* table : {&cie1931(), &cie1964()}) {
        EXPECT_EQ(table->first_nm, 360.0);
        EXPECT_EQ(table->step_nm, 1.0);
        EXPECT_EQ(table->count(), 471);
        EXPECT_EQ(table->wavelength(470), 830.0);
    }
    EXPECT_EQ(samelight::tables::cie1931_2deg::count, 471);
    EXPECT_STREQ(samelight::tables::cie1931_2deg::edition, "ISO/CIE 11664-1:2019");
    EXPECT_THROW((void)cie1931().at(0, 359.0), std::out_of_range);
    EXPECT_THROW((void)cie1931().at(0, 400.5), std::out_of_range);
}

TEST(Cmf, PeaksOfTheStandardObservers) {
    using Peak = std::array<double, 2>;
    // Source: the tables of ISO/CIE 11664-1:2019.
    EXPECT_EQ(cie1931().peak(0), (Peak{1.0629096, 599.0}));
    EXPECT_EQ(cie1931().peak(1), (Peak{1.0, 555.0}));
    EXPECT_EQ(cie1931().peak(2), (Peak{1.7829682, 446.0}));
    EXPECT_EQ(cie1964().peak(0), (Peak{1.1343, 595.0}));
    EXPECT_EQ(cie1964().peak(1), (Peak{1.0, 557.0}));
    EXPECT_EQ(cie1964().peak(2), (Peak{2.0273, 445.0}));
    // Source: Vos 1978, Color Res. Appl. 3:125.
    EXPECT_EQ(judd_vos().peak(1), (Peak{1.0001, 555.0}));
}

TEST(Cmf, SumsAreThoseOfEqualEnergyToThePrintedDigits) {
    // Second route: sums over 360-830 nm of independently held copies of the tables of
    // ISO/CIE 11664-1:2019, printed to 8 decimals.
    const std::array<double, 3> of_1931{106.86546949, 106.8569171, 106.89225128};
    const std::array<double, 3> of_1964{116.64851951, 116.6618771, 116.67398051};
    for (std::size_t k = 0; k < 3; ++k) {
        EXPECT_NEAR(cie1931().sum(k), of_1931[k], 5e-9);
        EXPECT_NEAR(cie1964().sum(k), of_1964[k], 5e-9);
    }
    const auto e_1931 = chromaticity({cie1931().sum(0), cie1931().sum(1), cie1931().sum(2)});
    EXPECT_NEAR(e_1931[0], 0.33331438, 5e-9);
    EXPECT_NEAR(e_1931[1], 0.33328771, 5e-9);
    const auto e_1964 = chromaticity({cie1964().sum(0), cie1964().sum(1), cie1964().sum(2)});
    EXPECT_NEAR(e_1964[0], 0.33329636, 5e-9);
    EXPECT_NEAR(e_1964[1], 0.33333453, 5e-9);
}

TEST(Cmf, WhitePointsOfCie15) {
    // Source: CIE 15:2018 Table T.3, five decimals, sums over 380-780 nm by 5 nm. D65 and D50 from
    // the daylight table with M1, M2 of T = 6503.6 K and 5002.8 K rounded to three decimals (CIE 15
    // note to Table T.1). A by its formula: the shipped table, with 2 decimals, gives y = 0.4074446
    // and x10 = 0.4511769, which round to another last digit.
    std::vector<double> a;
    for (double nm = 380.0; nm <= 780.0; nm += 5.0)
        a.push_back(formula_a(nm));
    const auto d65 = daylight_of(-0.295, -0.689);
    const auto d50 = daylight_of(-1.039, 0.363);
    const Table lights{380.0, 5.0, {a, d65, d50}};
    struct Case {
        const Table* observer;
        const Table* light;
        std::size_t column;
        std::array<double, 2> xy;
    };
    for (const Case& c : {Case{&cie1931(), &lights, 0, {0.44758, 0.40745}},
                          Case{&cie1964(), &lights, 0, {0.45117, 0.40594}},
                          Case{&cie1931(), &illuminant_c(), 0, {0.31006, 0.31616}},
                          Case{&cie1964(), &illuminant_c(), 0, {0.31039, 0.31905}},
                          Case{&cie1931(), &lights, 1, {0.31272, 0.32903}},
                          Case{&cie1964(), &lights, 1, {0.31381, 0.33098}},
                          Case{&cie1931(), &lights, 2, {0.34567, 0.35851}},
                          Case{&cie1964(), &lights, 2, {0.34773, 0.35952}}}) {
        const auto xy = chromaticity(summed(*c.observer, *c.light, c.column));
        EXPECT_NEAR(xy[0], c.xy[0], 5e-6);
        EXPECT_NEAR(xy[1], c.xy[1], 5e-6);
    }
}

TEST(JuddVos, IsThe1931ObserverMovedByVosFormula) {
    // Source: Vos 1978, Color Res. Appl. 3:125: chromaticities of spectral lights from 460 nm.
    // Bound: 7e-5, the agreement known between formula and table up to 650 nm.
    double largest = 0.0;
    for (double nm = 460.0; nm <= 650.0; nm += 5.0) {
        const auto [x, y] =
            chromaticity({cie1931().at(0, nm), cie1931().at(1, nm), cie1931().at(2, nm)});
        const auto moved =
            chromaticity({judd_vos().at(0, nm), judd_vos().at(1, nm), judd_vos().at(2, nm)});
        const double d = 0.03845 * x + 0.01496 * y + 1.0;
        const double vos_x = (1.0271 * x - 0.00008 * y - 0.00009) / d;
        const double vos_y = (0.00376 * x + 1.0072 * y + 0.00764) / d;
        largest =
            std::fmax(largest, std::fmax(std::abs(vos_x - moved[0]), std::abs(vos_y - moved[1])));
    }
    EXPECT_LE(largest, 7e-5);
    EXPECT_GT(largest, 1e-6)
        << "the formula is an approximation: exact agreement means no comparison";
}

TEST(JuddVos, ChromaticitiesOfEqualEnergyAndIlluminants) {
    // Second route: sums over 380-780 nm by 5 nm of an independently held copy, six decimals for E.
    const auto e = chromaticity({judd_vos().sum(0), judd_vos().sum(1), judd_vos().sum(2)});
    EXPECT_NEAR(e[0], 0.334889, 5e-7);
    EXPECT_NEAR(e[1], 0.336327, 5e-7);
    // As above; illuminant C is the same to the last digit in both routes.
    const auto c = chromaticity(summed(judd_vos(), illuminant_c(), 0));
    EXPECT_NEAR(c[0], 0.313731, 5e-7);
    EXPECT_NEAR(c[1], 0.322915, 5e-7);
    // As above; here illuminant A has 2 decimals and there 6 figures, so five decimals agree.
    const auto a = chromaticity(summed(judd_vos(), illuminant_a(), 0));
    EXPECT_NEAR(a[0], 0.449308, 5e-6);
    EXPECT_NEAR(a[1], 0.412742, 5e-6);
}

TEST(IlluminantA, TableIsTheFormulaToTwoDecimals) {
    // Second route: the formula by an independent program, six decimals.
    EXPECT_NEAR(formula_a(380.0), 9.795100, 5e-7);
    EXPECT_NEAR(formula_a(780.0), 241.675388, 5e-7);
    // Source: CIE 15:2018, formula of illuminant A; the table keeps 2 decimals: half a unit.
    for (std::size_t row = 0; row < 81; ++row) {
        const double nm = illuminant_a().wavelength(row);
        EXPECT_NEAR(illuminant_a().columns[0][row], formula_a(nm), 0.005) << nm << " nm";
    }
    EXPECT_EQ(illuminant_a().at(0, 560.0), 100.0);
}

TEST(IlluminantC, SpotValues) {
    // Source: CIE 15:2018 Table T.1.
    EXPECT_EQ(illuminant_c().at(0, 380.0), 33.0);
    EXPECT_EQ(illuminant_c().at(0, 560.0), 105.3);
    EXPECT_EQ(illuminant_c().at(0, 780.0), 59.1);
}

TEST(Daylight, SpotValuesOfTheComponents) {
    struct Row {
        double nm, s0, s1, s2;
    };
    // Source: CIE 15:2018 Table T.2, S0, S1, S2.
    for (const Row& row : {Row{380.0, 63.4, 38.5, 3.0}, Row{400.0, 94.8, 43.4, -1.1},
                           Row{450.0, 125.6, 35.9, -2.9}, Row{500.0, 113.1, 16.2, -1.5},
                           Row{560.0, 100.0, 0.0, 0.0}, Row{580.0, 95.1, -3.5, 0.5}}) {
        EXPECT_EQ(daylight().at(0, row.nm), row.s0) << row.nm << " nm";
        EXPECT_EQ(daylight().at(1, row.nm), row.s1) << row.nm << " nm";
        EXPECT_EQ(daylight().at(2, row.nm), row.s2) << row.nm << " nm";
    }
}

TEST(Daylight, ValuesBetweenTheTensAreMeansOfTheirNeighbours) {
    // Source: CIE 15:2018 note to Table T.2: the components are given by 10 nm and interpolated
    // linearly. 1e-12 is for the rounding of sums of decimals.
    for (std::size_t k = 0; k < 3; ++k) {
        for (double nm = 385.0; nm < 780.0; nm += 10.0) {
            const double mean = 0.5 * (daylight().at(k, nm - 5.0) + daylight().at(k, nm + 5.0));
            EXPECT_NEAR(daylight().at(k, nm), mean, 1e-12) << nm << " nm";
        }
    }
}

TEST(Daylight, GivesThePublishedD65) {
    // Source: CIE standard illuminant D65 (ISO/CIE 11664-2), M1 = -0.295, M2 = -0.689. Bound: 1e-3;
    // formula and published table are known to differ by up to 8.5e-4.
    const auto d65 = daylight_of(-0.295, -0.689);
    const Table table{380.0, 5.0, {d65}};
    EXPECT_NEAR(table.at(0, 380.0), 49.9755, 1e-3);
    EXPECT_NEAR(table.at(0, 450.0), 117.008, 1e-3);
    EXPECT_NEAR(table.at(0, 560.0), 100.0, 1e-3);
    EXPECT_NEAR(table.at(0, 600.0), 90.0062, 1e-3);
    EXPECT_NEAR(table.at(0, 700.0), 71.6091, 1e-3);
    EXPECT_NEAR(table.at(0, 780.0), 63.3828, 1e-3);
}

TEST(Crt, ColumnsAreRedGreenBlue) {
    // Second route: the chromaticities by an independent program, four decimals.
    const Table crt = SAMELIGHT_TEST_TABLE(crt_primaries, red, green, blue);
    const std::array<std::array<double, 2>, 3> expected{
        {{0.6189, 0.3440}, {0.2765, 0.6049}, {0.1512, 0.0611}}};
    const std::array<double, 3> peaks_nm{625.0, 530.0, 445.0};
    for (std::size_t k = 0; k < 3; ++k) {
        const auto xy = chromaticity(summed(cie1931(), crt, k));
        EXPECT_NEAR(xy[0], expected[k][0], 5e-5);
        EXPECT_NEAR(xy[1], expected[k][1], 5e-5);
        EXPECT_EQ(crt.peak(k)[1], peaks_nm[k]);
        for (const double value : crt.columns[k])
            EXPECT_GT(value, 0.0);
    }
}

}  // namespace
