// Units, repeats and warnings.
#include <cmath>

#include "numeric/facts.hpp"
#include "spectral_files.hpp"

#include "samelight/io/spectral_csv.hpp"

namespace samelight::io::test {
namespace {

TEST(SpectralCsvUnits, EveryNotationOfTheSameUnit) {
    for (const std::string unit :
         {"mW/(sr m2 nm)", "mW/sr/m2/nm", "mW/nm/m^2/sr", "mW·sr⁻¹·m⁻²·nm⁻¹", "mW sr-1 m-2 nm-1",
          "mW.sr^-1.m^-2.nm^-1", "mW / (sr * m² * nm)", "mW/m²·sr·nm", "mW/m2-sr-nm",
          "mW m**-2 sr**-1 nm**-1", "mW per sr m2 nm", "mw/sr/m2/nm", "W/(sr m2 um)",
          "nW/(sr mm2 nm), no more", "milli: mW/[m2 sr nm]"}) {
        const SpectralFile file = parsed("# " + unit + "\nnm,red\n380,1\n580,2.5\n780,1\n");
        ASSERT_EQ(file.unit, LightUnit::spectral_radiance) << unit;
        EXPECT_EQ(file.lights[0].light.at(580.0), 0.0025) << unit;
        EXPECT_TRUE(says(file.understood, "converted to W/(sr m2 nm).")) << unit;
    }
}

TEST(SpectralCsvUnits, PowersOfTen) {
    const auto value = [](const std::string& unit) {
        return parsed("nm,red [" + unit + "]\n380,1\n580,4.22\n780,1\n").lights[0].light.at(580.0);
    };
    // 1 cm2 is 1e-4 m2, 1 um is 1e3 nm (SI prefixes); and as the decimal text says, to the bit.
    EXPECT_EQ(value("W/sr/m2/nm"), 4.22);
    EXPECT_EQ(value("mW/sr/m2/nm"), 4.22e-3);
    EXPECT_EQ(value("uW/sr/m2/nm"), 4.22e-6);
    EXPECT_EQ(value("nW/sr/m2/nm"), 4.22e-9);
    EXPECT_EQ(value("kW/sr/m2/nm"), 4.22e3);
    EXPECT_EQ(value("W/sr/cm2/nm"), 4.22e4);
    EXPECT_EQ(value("uW/sr/cm2/nm"), 4.22e-2);
    EXPECT_EQ(value("W/sr/m2/um"), 4.22e-3);
}

TEST(SpectralCsvUnits, OthersAreRelativeAndSaySo) {
    for (const std::string unit : {"W/m2/nm", "W/nm", "mW/sr/nm", "W/(sr m2)", "W m-3 sr-1"}) {
        const SpectralFile file = parsed("Unit;" + unit + "\nnm;red\n380;1\n580;2.5\n780;1\n");
        EXPECT_EQ(file.unit, LightUnit::relative) << unit;
        EXPECT_TRUE(warns(file, "unit_not_radiance")) << unit;
        EXPECT_FALSE(file.unit_of_power.empty()) << unit;
        EXPECT_EQ(file.lights[0].light.at(580.0), 2.5) << unit;
    }
    // A radiance in a heading line is none of the spectral values.
    const SpectralFile both =
        parsed("Radiance [W/sr/m2];12.5\nnm;red [mW/sr/m2/nm]\n380;1\n580;2.5\n780;1\n");
    EXPECT_EQ(both.unit, LightUnit::spectral_radiance);
    EXPECT_EQ(both.lights[0].light.at(580.0), 0.0025);
    EXPECT_EQ(both.lights[0].name, "red");
    // The unit goes with its brackets, of either kind; the name is what is left.
    for (const std::string unit :
         {"mW/[m2 sr nm]", "mW/(m2 sr nm)", "(mW/[m2 sr nm])", "[mW/(m2 sr nm)]"}) {
        const SpectralFile file = parsed("nm;red " + unit + "\n380;1\n580;2.5\n780;1\n");
        EXPECT_EQ(file.lights[0].name, "red") << unit;
        EXPECT_EQ(file.lights[0].light.at(580.0), 0.0025) << unit;
    }
    // No units: a white light called W, a lamp of 40 W, words.
    for (const std::string head :
         {"W", "40 W lamp", "mW", "Wide / narrow", "W m", "Wm2", "lamp W/o filter"}) {
        const SpectralFile file = parsed("nm;" + head + "\n380;1\n580;2.5\n780;1\n");
        EXPECT_FALSE(warns(file, "unit_not_radiance")) << head;
        EXPECT_TRUE(says(file.understood, "No unit of spectral radiance is stated")) << head;
        EXPECT_EQ(file.lights[0].name, head);
    }
}

TEST(SpectralCsvUnits, LeaveTheNames) {
    const auto name = [](const std::string& head) {
        return parsed("nm;" + head + "\n380;1\n580;2.5\n780;1\n").lights[0].name;
    };
    EXPECT_EQ(name("red [W/sr/m2/nm]"), "red");
    EXPECT_EQ(name("red (W/(sr m2 nm))"), "red");
    EXPECT_EQ(name("red, W sr-1 m-2 nm-1"), "red");
    EXPECT_EQ(name("Spectral radiance in mW/(sr m2 nm)"), "Spectral radiance");
    EXPECT_EQ(name("W/(sr m2 nm) of my lamp"), "of my lamp");
    EXPECT_EQ(name("W/(sr m2 nm)"), "light");
}

TEST(SpectralCsvRepeats, AveragedWithTheirSpread) {
    const SpectralFile file = parsed(
        "nm,red 1,red 2,red 3,blue\n380,0.95,1.04,1.04,2\n480,1.9,2.08,2.08,2\n580,2.85,3.12,3.12,3\n"
        "780,0.95,1.04,1.04,1\n");
    ASSERT_EQ(file.lights.size(), 2U);
    EXPECT_EQ(file.lights[0].name, "red");
    EXPECT_EQ(file.lights[0].repeats, 3);
    EXPECT_EQ(file.lights[1].repeats, 1);
    EXPECT_NEAR(file.lights[0].light.at(480.0), 2.02, 1e-15);
    // Areas in the ratio 0.95 : 1.04 : 1.04 have the mean 1.01 and the standard deviation sqrt(0.0027) (n - 1 = 2).
    EXPECT_NEAR(file.lights[0].repeat_spread, std::sqrt(0.0027) / 1.01, 1e-15);
    EXPECT_TRUE(says(file.understood, "3 repeats of \"red\" averaged, spread 5.14 %."));
    ASSERT_TRUE(warns(file, "repeats_differ"));
    EXPECT_EQ(samelight::test::text_of(file.warnings[0], "column"), "red");
    EXPECT_NEAR(samelight::test::number_of(file.warnings[0], "spread_percent"), 5.14, 0.005);
}

TEST(SpectralCsvRepeats, ManyWaysToNumberThem) {
    for (const std::string names :
         {"red,red", "red,Red", "red,RED (2)", "red [1],red [2]", "red 1,red 2", "red_1,red_2",
          "red-1,red-2", "red1,red2", "red,red.1", "red #1,red #2", "red repeat 1,red repeat 2",
          "red_rep1,red_rep2", "red run 1,red run 2", "r1,r2", "R,R (2)"}) {
        const SpectralFile file = parsed("nm," + names + "\n380,1,1\n580,2,2\n780,1,1\n");
        ASSERT_EQ(file.lights.size(), 1U) << names;
        EXPECT_EQ(file.lights[0].repeats, 2) << names;
        EXPECT_NE(file.find("red"), nullptr) << names;
    }
    for (const std::string names : {"lamp 1,lamp 2", "overrun 1,overrun 2", "T1,T2",
                                    "red LED,blue LED", "redder 1,redder 2", "(1),(2)", "1,2"}) {
        EXPECT_EQ(parsed("nm," + names + "\n380,1,1\n580,2,2\n780,1,1\n").lights.size(), 2U)
            << names;
    }
    const SpectralFile marked = parsed("nm,lamp (1),lamp (2)\n380,1,1\n580,2,2\n780,1,1\n");
    ASSERT_EQ(marked.lights.size(), 1U);
    EXPECT_EQ(marked.lights[0].name, "lamp");
}

TEST(SpectralCsvRepeats, OfBlackMayBeNoise) {
    const SpectralFile file =
        parsed("nm,black,black,white\n380,0.1,-0.1,5\n580,0.2,0.1,6\n780,-0.3,0.2,7\n");
    ASSERT_EQ(file.lights.size(), 2U);
    EXPECT_EQ(file.lights[0].repeats, 2);
    EXPECT_NEAR(file.lights[0].light.at(580.0), 0.15, 1e-15);
    EXPECT_GE(file.lights[0].repeat_spread, 0.0);
    EXPECT_TRUE(file.warnings.empty() || !warns(file, "repeats_differ"));
    // A mean area that isn't above 0 has no spread relative to it.
    const SpectralFile dark =
        parsed("nm,black,black,white\n380,-.1,-.2,5\n580,.05,.01,6\n780,-.1,-.1,7\n");
    EXPECT_EQ(dark.lights[0].repeat_spread, 0.0);
}

TEST(SpectralCsvWarnings, ColumnsNormalisedEachToItsPeak) {
    const SpectralFile file = parsed("nm,red,blue\n380,0.2,1.0\n580,0.5,0.3\n780,1,0.1\n");
    ASSERT_TRUE(warns(file, "scale_unknown"));
    EXPECT_EQ(file.equal_peak, 1.0);
    EXPECT_EQ(samelight::test::number_of(file.warnings[0], "peak"), 1.0);
    EXPECT_FALSE(
        warns(parsed("nm,red,blue\n380,0.2,0.9999\n580,0.5,0.3\n780,1,0.1\n"), "scale_unknown"));
    EXPECT_FALSE(warns(parsed("nm,red\n380,0.2\n580,0.5\n780,1\n"), "scale_unknown"));
    EXPECT_FALSE(parsed("nm,red\n380,0.2\n580,0.5\n780,1\n").equal_peak);
    // Two repeats of one light have no scale to compare.
    EXPECT_FALSE(warns(parsed("nm,red,red\n380,0.2,.2\n580,0.5,.5\n780,1,1\n"), "scale_unknown"));
}

TEST(SpectralCsvWarnings, CoarseSteps) {
    std::string even = "nm,red\n";
    for (int nm = 380; nm <= 780; nm += 10) {
        even += std::to_string(nm) + ",1." + std::to_string(nm) + "\n";
    }
    EXPECT_FALSE(warns(parsed(even), "coarse_step"));
    const SpectralFile file = parsed(even + "801,1.5\n");
    ASSERT_TRUE(warns(file, "coarse_step"));
    EXPECT_EQ(samelight::test::number_of(file.warnings[0], "from_nm"), 780.0);
    EXPECT_EQ(samelight::test::number_of(file.warnings[0], "to_nm"), 801.0);
}

TEST(SpectralCsvNumbers, EveryFormIsTheSameNumber) {
    for (const std::string number : {"0.0125", "+0.0125", ".0125", "1.25E-02", "1.25e-2", "12.5e-3",
                                     "125E-4", "0.01250000", "0012.5E-03"}) {
        const auto at_580 = [](const std::string& text) {
            return parsed(text).lights[0].light.at(580.0);
        };
        EXPECT_EQ(at_580("nm,red\n380,1\n580," + number + "\n780,1.5\n"), 0.0125) << number;
        std::string comma = number;
        std::replace(comma.begin(), comma.end(), '.', ',');
        EXPECT_EQ(at_580("nm;red\n380;1\n580;" + comma + "\n780;1,5\n"), 0.0125) << comma;
    }
    const SpectralFile file = parsed("nm,red\n380,5.\n580,\u22120.01\n780,1\n");
    EXPECT_EQ(file.lights[0].light.at(380.0), 5.0);
    EXPECT_EQ(file.lights[0].light.at(580.0), -0.01);
}

}  // namespace
}  // namespace samelight::io::test
