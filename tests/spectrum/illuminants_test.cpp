// Lights that are defined: Planck's radiator, the CIE illuminants, the daylight series.
#include <cmath>
#include <cstddef>
#include <limits>
#include <string>

#include <gtest/gtest.h>

#include "numeric/check_rows.hpp"
#include "numeric/exactly.hpp"
#include "numeric/refusals.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/tables/illuminant_a.hpp"

namespace samelight {
namespace {

using test::CheckRows;
using test::contains;
using test::refusal;

const double nan = std::numeric_limits<double>::quiet_NaN();
const double inf = std::numeric_limits<double>::infinity();

TEST(Planck, AgreesWithItsLawInMoreDigits) {
    // Second route: Planck's law in long double. Bound: the docstring's.
    for (const double kelvin : {50.0, 100.0, 500.0, 1000.0, 2856.0, 6500.0, 25000.0, 1e6, 1e9}) {
        for (double nm = 300.0; nm <= 830.0; nm += 0.37) {
            const long double x = static_cast<long double>(planck_c2) * 1e9L /
                                  (static_cast<long double>(nm) * kelvin);
            if (x > 700.0L) {
                continue;
            }
            const long double law = std::pow(560.0L / nm, 5.0L) / std::expm1(x);
            const auto error = static_cast<double>(std::abs(planck(nm, kelvin) / law - 1.0L));
            ASSERT_LE(error, (4.0 + static_cast<double>(x)) * 2.5e-16) << nm << " nm, " << kelvin;
        }
    }
    EXPECT_EQ(planck(300.0, 50.0), 0.0);  // x = 959
}

TEST(Planck, TheConstantDefinesTheTemperature) {
    // Source: the law itself, in which c2 and T stand only as c2 / T.
    EXPECT_NEAR(planck(450.0, 3000.0, 2.0 * planck_c2) / planck(450.0, 1500.0), 1.0, 1e-14);
    // Source: CIE 15:2018 and CODATA 2018 (from memory).
    EXPECT_EQ(planck_c2, 1.4388e-2);
    EXPECT_EQ(planck_c2_codata_2018, 1.438776877e-2);
}

TEST(PlanckianRadiator, IsOneAt560AndFiniteInItsRange) {
    for (const double kelvin : {50.0, 500.0, 2856.0, 1e6, 1e12}) {
        const Spectrum s = planckian_radiator(kelvin, {300.0, 10.0, 471});  // up to 5000 nm
        EXPECT_NEAR(s.at(560.0), 1.0, test::exactly);
    }
    EXPECT_EQ(planckian_radiator(5000.0).size(), 401U);
}

TEST(PlanckianRadiator, RefusesTemperaturesThatAreNone) {
    for (const double bad : {49.9, 0.0, -5000.0, nan, inf}) {
        EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { planckian_radiator(bad); }),
                             "temperature " + to_text(bad) + " K"));
    }
}

TEST(IlluminantA, ValuesOfCie15) {
    // Source: CIE 15:2018 Table T.1 (from memory, six figures) at 300, 380 and 780 nm.
    EXPECT_NEAR(illuminant_a({300.0, 5.0, 2}).at(300.0), 0.930483, 5e-7);
    EXPECT_NEAR(illuminant_a().at(380.0), 9.79510, 5e-6);
    EXPECT_NEAR(illuminant_a().at(780.0), 241.675, 5e-4);
    // Second route: the defining formula by an independent program, six decimals.
    EXPECT_NEAR(illuminant_a().at(380.0), 9.795100, 5e-7);
    EXPECT_NEAR(illuminant_a().at(780.0), 241.675388, 5e-7);
    EXPECT_EQ(illuminant_a().at(560.0), 100.0);
}

TEST(IlluminantA, IsTheShippedTableToItsTwoDecimals) {
    // Second route: the table of the illuminant, which has two decimals.
    namespace t = tables::illuminant_a;
    const Spectrum a = illuminant_a({t::first_nm, t::step_nm, t::count});
    for (std::size_t i = 0; i < a.size(); ++i) {
        EXPECT_NEAR(a.values()[i], t::power[i], 0.005) << a.wavelengths_nm()[i] << " nm";
    }
}

TEST(IlluminantA, IsTheRadiatorOf2855AndAHalfKelvinToday) {
    // Source: CIE 15:2018: 2848 K with c2 = 1.435e-2 m K; 2848 x 1.4388 / 1.435 = 2855.542 K.
    const double today = 2848.0 * 1.4388 / 1.435;
    EXPECT_NEAR(today, 2855.542, 5e-4);
    const Spectrum a = illuminant_a();
    const Spectrum radiator = planckian_radiator(today, {380.0, 5.0, 81});
    for (std::size_t i = 0; i < a.size(); ++i) {
        EXPECT_NEAR(a.values()[i], 100.0 * radiator.values()[i], 1e-11);
    }
}

TEST(IlluminantC, IsTheTableAsPublishedNotScaledTo100) {
    // Source: CIE 15:2018 Table T.1.
    const Spectrum c = illuminant_c();
    EXPECT_EQ(c.first_nm(), 380.0);
    EXPECT_EQ(c.last_nm(), 780.0);
    EXPECT_EQ(c.size(), 81U);
    EXPECT_EQ(c.at(380.0), 33.0);
    EXPECT_EQ(c.at(560.0), 105.3);
    EXPECT_EQ(c.at(780.0), 59.1);
}

TEST(IlluminantE, IsTheSameEverywhere) {
    // Source: CIE 15:2018, the definition.
    const Spectrum e = illuminant_e({360.0, 1.0, 471});
    for (const double value : e.values()) {
        EXPECT_EQ(value, 100.0);
    }
}

TEST(DaylightSeries, IntermediateValues) {
    // Source: formulas of CIE 15:2018 (CIE 15:2004, 3.1, with note 5 to Table T.1 for the temperature), by an independent
    // program; the rounded weights of 5000, 5500, 6500 and 7500 K are those behind the published D50, D55, D65 and D75.
    const CheckRows published("checks/d_series_intermediate.csv");
    for (std::size_t row = 0; row < published.size(); ++row) {
        const double kelvin = daylight_temperature_k(published[row].number("nominal_CCT"));
        EXPECT_NEAR(kelvin, published[row].number("T=nominal*1.4388/1.4380"), 5e-7);
        const DaylightSeries exact = daylight_series(kelvin);
        EXPECT_NEAR(exact.x, published[row].number("xD"), 5e-9);
        EXPECT_NEAR(exact.y, published[row].number("yD"), 5e-9);
        EXPECT_NEAR(exact.m1, published[row].number("M1_unrounded"), 5e-9);
        EXPECT_NEAR(exact.m2, published[row].number("M2_unrounded"), 5e-9);
        const DaylightSeries rounded = daylight_series(kelvin, DaylightWeights::rounded);
        EXPECT_EQ(rounded.m1, published[row].number("M1_3dp"));
        EXPECT_EQ(rounded.m2, published[row].number("M2_3dp"));
        EXPECT_EQ(rounded.x, exact.x);
    }
    EXPECT_EQ(published.size(), 7U);
}

TEST(DaylightSeries, TheFirstFormulaReachesTo7000KAndTheSecondBeginsThere) {
    // Source: CIE 15:2018, both cubics, which differ by 4.6e-7 in x there.
    const double below = -4.6070e9 / 3.43e11 + 2.9678e6 / 4.9e7 + 0.09911e3 / 7000.0 + 0.244063;
    const double above = -2.0064e9 / 3.43e11 + 1.9018e6 / 4.9e7 + 0.24748e3 / 7000.0 + 0.237040;
    EXPECT_GT(std::abs(below - above), 1e-7) << "the two can't be told apart";
    EXPECT_NEAR(daylight_series(7000.0).x, below, 1e-14);
    EXPECT_NEAR(daylight_series(std::nextafter(7000.0, 8000.0)).x, above, 1e-14);
}

TEST(DaylightSeries, RefusesTemperaturesOutsideTheSeries) {
    for (const double bad : {3999.9, 25014.1, 0.0, nan, inf}) {
        EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { daylight_series(bad); }),
                             "temperature " + to_text(bad) + " K"));
        refusal(ErrorKind::domain, [&] { daylight(bad); });
    }
    for (const double bad : {3999.9, 25000.1, 0.0, nan, inf}) {
        EXPECT_TRUE(contains(refusal(ErrorKind::domain, [&] { d_illuminant(bad); }),
                             "temperature " + to_text(bad) + " K"));
    }
    EXPECT_NO_THROW(daylight(4000.0));
    EXPECT_NO_THROW(d_illuminant(4000.0));
    EXPECT_NO_THROW(d_illuminant(25000.0));
}

TEST(DIlluminant, ValuesOfD65InCie15) {
    // Source: CIE 15:2018 Table T.1 / ISO 11664-2 (from memory). Below 100 the table has all four decimals that the components
    // and rounded weights give; from 100 it has three. Values between the tens are means of their neighbours there.
    const Spectrum d65 = d_illuminant(6500.0);
    EXPECT_NEAR(d65.at(380.0), 49.9755, 1e-10);
    EXPECT_NEAR(d65.at(400.0), 82.7549, 1e-10);
    EXPECT_NEAR(d65.at(450.0), 117.008, 5e-4 + 1e-10);
    EXPECT_NEAR(d65.at(500.0), 109.354, 5e-4 + 1e-10);
    EXPECT_NEAR(d65.at(545.0), 104.225, 1e-3);  // mean of two that were rounded, rounded
    EXPECT_NEAR(d65.at(560.0), 100.0, 1e-10);
    EXPECT_NEAR(d65.at(600.0), 90.0062, 1e-10);
    EXPECT_NEAR(d65.at(650.0), 80.0268, 1e-10);
    EXPECT_NEAR(d65.at(700.0), 71.6091, 1e-10);
    EXPECT_NEAR(d65.at(780.0), 63.3828, 1e-10);
}

TEST(DIlluminant, TextbookWeightsWouldMissThePublishedD65) {
    // Source: the value of D65 at 380 nm in CIE 15:2018 Table T.1. Weights of 6504 K as often quoted, -0.296 and -0.688, give
    // another: so the test above can tell.
    const double textbook = 63.4 - 0.296 * 38.5 - 0.688 * 3.0;
    EXPECT_GT(std::abs(textbook - 49.9755), 0.03);
}

TEST(DIlluminant, ValuesOfD50AndD75InCie15) {
    // Source: CIE 15:2018 Table T.1 (from memory), three decimals.
    EXPECT_NEAR(d_illuminant(5000.0).at(450.0), 87.247, 5e-4 + 1e-10);
    EXPECT_NEAR(d_illuminant(5000.0).at(600.0), 97.688, 5e-4 + 1e-10);
    EXPECT_NEAR(d_illuminant(7500.0).at(450.0), 133.010, 5e-4 + 1e-10);
    EXPECT_NEAR(d_illuminant(7500.0).at(600.0), 87.227, 5e-4 + 1e-10);
}

TEST(CieIlluminant, IsFoundByItsName) {
    EXPECT_EQ(cie_illuminant("A"), illuminant_a());
    EXPECT_EQ(cie_illuminant("C"), illuminant_c());
    EXPECT_EQ(cie_illuminant("E"), illuminant_e());
    EXPECT_EQ(cie_illuminant("D65"), d_illuminant(6500.0));
    EXPECT_EQ(cie_illuminant("D40"), d_illuminant(4000.0));
    EXPECT_EQ(cie_illuminant("D93"), d_illuminant(9300.0));
    EXPECT_EQ(cie_illuminant("D250"), d_illuminant(25000.0));
}

TEST(CieIlluminant, OtherNamesAreRefusedAndRepeated) {
    for (const char* bad : {"", "a", "B", "D", "D5", "D39", "D251", "D6500", "D-65", "D6.5", "d65",
                            "D65 ", "F11", "AA"}) {
        const std::string text = refusal(ErrorKind::domain, [&] { cie_illuminant(bad); });
        EXPECT_TRUE(contains(text, "\"" + std::string(bad) + "\"")) << text;
    }
}

}  // namespace
}  // namespace samelight
