// What can be read in two ways is refused, and the refusal names both. Beside each stands a twin that tells.
#include "spectral_files.hpp"

#include "samelight/io/spectral_csv.hpp"

namespace samelight::io::test {
namespace {

SpectralFile accepted(const std::string& text) { return parse_spectral_csv(text, "file.csv"); }

TEST(SpectralCsvAmbiguous, CommasBetweenColumnsOrInNumbers) {
    expect_refusal("380,123\n381,130\n780,125\n", "1:1",
                   {"the comma in \"380,123\"", "between two columns", "decimals of one number"});
    expect_refusal("Date: today\n380,12,15\n780,13,16\n", "2:1",
                   {"\"380,12,15\"", "between two columns"});
    EXPECT_EQ(accepted("nm,red\n380,123\n381,130\n780,125\n").lights[0].light.at(380.0), 123.0);
    EXPECT_EQ(accepted("380,123.0\n381,130\n780,125\n").lights[0].light.at(380.0), 123.0);
    // A heading of two names over rows of three cells.
    expect_refusal("nm,red\n380,0,5\n580,0,7\n780,0,1\n", "1:1",
                   {"2 cells in the heading, 3 in the rows", "mark decimals", "group thousands"});
}

TEST(SpectralCsvAmbiguous, CommasThatMayGroupThousands) {
    expect_refusal("380,1,234.5\n580,2,345.5\n780,3,456.5\n", "1:5",
                   {"\"1,234.5\"", "two columns", "thousands grouped"});
    const SpectralFile two = accepted("nm,a,b\n380,1,234.5\n580,2,345.5\n780,3,456.5\n");
    EXPECT_EQ(two.lights[1].light.at(380.0), 234.5);
    expect_refusal("nm,red\n380,999\n580,1,234\n780,998\n", "3:7", {"3 cells", "groups thousands"});
    // In quotation marks, or between semicolons or tabs.
    expect_refusal("nm,red\n380,\"1,234\"\n580,\"2,345\"\n780,\"1,111\"\n", "2:6",
                   {"the comma in \"1,234\"", "mark decimals", "group thousands"});
    EXPECT_EQ(
        accepted("nm,red\n380,\"1,234\"\n580,\"2,34\"\n780,\"1,111\"\n").lights[0].light.at(380.0),
        1.234);
    expect_refusal("nm;red\n380;1,234\n580;2,345\n780;1,111\n", "2:5",
                   {"mark decimals", "group thousands"});
    EXPECT_EQ(accepted("nm;red\n380;1,234\n580;0,345\n780;1,111\n").lights[0].light.at(380.0),
              1.234);
    EXPECT_EQ(
        accepted("nm;red\n380,000;1,234\n580,000;2,345\n780,000;1,111\n").lights[0].light.at(380.0),
        1.234);
    EXPECT_EQ(accepted("nm;red\n380;1,234e2\n580;2,345\n780;1,111\n").lights[0].light.at(380.0),
              123.4);
    expect_refusal("nm\tred\n380\t1,234\n580\t999\n780\t1,111\n", "2:5",
                   {"mark decimals", "thousands"});
    expect_refusal("nm;red\n380;1.234\n580;2.345\n780;1.111\n", "2:5",
                   {"the point in \"1.234\"", "mark decimals", "group thousands"});
    EXPECT_EQ(accepted("nm;red\n380;1.234\n580;2.34\n780;1.111\n").lights[0].light.at(380.0),
              1.234);
    // Two kinds of marks in one number, or more than one of a kind.
    expect_refusal("nm;red\n380;1,234.5\n580;2\n780;1\n", "2:5",
                   {"a comma and a point", "thousands"});
    expect_refusal("nm;red\n380;1.234,5\n580;2\n780;1\n", "2:5",
                   {"a comma and a point", "thousands"});
    expect_refusal("nm;red\n380;0,5\n580;1 234,5\n780;1\n", "3:5",
                   {"\"1 234,5\"", "thousands grouped"});
    expect_refusal("nm,red\n380,0.5\n580,1'234.5\n780,1\n", "3:5",
                   {"\"1'234.5\"", "thousands grouped"});
    expect_refusal("nm,red\n380,0.5\n580,1.234.567\n780,1\n", "3:5",
                   {"\"1.234.567\"", "thousands"});
}

TEST(SpectralCsvAmbiguous, PointsAndCommasInOneTable) {
    expect_refusal("nm;red\n380;0,5\n580;0.7\n780;0,1\n", "3:5",
                   {"\"0.7\" here", "\"0,5\" in line 2", "a decimal point, or a decimal comma"});
    expect_refusal("nm;red\n380.5;0,5\n580.5;0,7\n780.5;0,1\n", "2:7",
                   {"\"0,5\" here", "\"380.5\" in line 2"});
}

TEST(SpectralCsvAmbiguous, Separators) {
    expect_refusal("380,\t0.1,\t0.2\n580,\t0.1,\t0.2\n780,\t0.1,\t0.2\n", "1:1",
                   {"between commas", "between tabs", "one separator"});
    expect_refusal("nm,red\n380,0.1\n480,0.2\n580\t0.1\n780\t0.4\n", "4:1",
                   {"between tabs here", "between commas in line 2"});
    expect_refusal("nm;red\n380;0.1\n480;\t0.2\n780;0.4\n", "3:6",
                   {"between semicolons, or between tabs"});
    expect_refusal("nm\tred\n380\t0.1\n480\t0.2;0.3\n780\t0.4\n", "3:5",
                   {"\"0.2;0.3\"", "between tabs, or between semicolons"});
    expect_refusal("nm\tred\n380\t0.1,0.2\n780\t0.3,0.4\n", "2:5",
                   {"a comma and a point", "group thousands", "between columns"});
    // The heading has commas between names: so may the rows.
    expect_refusal("nm\tred,green\n380\t12,15\n580\t13,18\n780\t12,11\n", "2:5",
                   {"the comma in \"12,15\"", "mark decimals", "stand between columns"});
    const SpectralFile file = accepted("nm\tred,\n380\t12,15\n580\t13,05\n780\t12,11\n");
    EXPECT_EQ(file.lights[0].light.at(380.0), 12.15);
}

TEST(SpectralCsvAmbiguous, WavelengthsAcrossOrDown) {
    expect_refusal(
        "nm,380,480,580,680,780\n380,1,2,3,4,5\n480,1,2,3,4,5\n580,1,2,3,4,5\n780,1,2,3,4,5\n",
        "1:4", {"this row and the first column look like wavelengths", "across or down"});
    expect_refusal(
        "0,380,480,580,680,780\n380,1,2,3,4,5\n480,1,2,3,4,5\n580,1,2,3,4,5\n780,1,2,3,4,5\n",
        "1:3", {"across or down"});
    // Lights that are called by numbers are no wavelengths, and rows of numbers no row of wavelengths.
    const SpectralFile numbered =
        accepted("n,380,480,580,680,780\n1,1,2,3,4,5\n2,2,3,4,5,1\n3,1,1,1,1,2\n");
    ASSERT_EQ(numbered.lights.size(), 3U);
    EXPECT_EQ(numbered.lights[2].name, "3");
    EXPECT_EQ(accepted("nm,1,2,3\n380,1,2,3\n580,2,3,1\n780,1,1,1\n").lights[2].name, "3");
    EXPECT_EQ(accepted("Range,380,780\nnm,a,b\n380,1,2\n580,2,3\n780,1,1\n").lights[1].name, "b");
}

TEST(SpectralCsvAmbiguous, Units) {
    const std::string rows = "380,1,2\n580,2,3\n780,1,1\n";
    expect_refusal("nm,red [W/sr/m2/nm],green [mW/sr/m2/nm]\n" + rows, "1:21",
                   {"\"mW/sr/m2/nm\" here", "\"W/sr/m2/nm\" in line 1", "one unit"});
    expect_refusal("# in mW/(sr m2 nm)\nunit,W/(sr m2 nm)\nnm,red,green\n" + rows, "2:6",
                   {"\"W/(sr m2 nm)\" here", "\"mW/(sr m2 nm)\" in line 1"});
    expect_refusal("unit: W/(m2 nm)\nnm,red [W/sr/m2/nm],green\n" + rows, "2:4",
                   {"W/(m2 nm)", "one unit"});
    expect_refusal("nm,red [W/sr/m2/nm],green\n" + rows, "1:21",
                   {"no unit for \"green\" though others have one"});
    expect_refusal("nm,red [MW/SR/M2/NM],green [MW/SR/M2/NM]\n" + rows, "1:4",
                   {"milliwatts or megawatts"});
    const SpectralFile same = accepted("# W/(sr m2 nm)\nnm,red [W sr-1 m-2 nm-1],green\n" + rows);
    EXPECT_EQ(same.unit, LightUnit::spectral_radiance);
    EXPECT_EQ(same.lights[0].name, "red");
}

TEST(SpectralCsvAmbiguous, RepeatsOrLightsOfTheirOwn) {
    expect_refusal("nm,red,red\n380,1,2\n580,2,1\n780,1,5\n", "1:8",
                   {"\"red\" in column 2 and \"red\" in column 3 differ by 40 % in their light",
                    "one light read again, or the lights of two picture modes"});
    // Alike to the eye and as strong, but for what nobody sees.
    expect_refusal(
        "nm,red,red\n380,0,0\n600,1,1\n780,0,0\n830,0,0\n850,3,0\n870,0,0\n890,0,3\n910,0,0\n",
        "1:4",
        {"\"red\" lies", "% from the mean of 2 lights called \"red\"",
         "repeats, or lights of their own"});
    expect_refusal("nm,red,red 2\n380,1,2\n580,2,1\n780,1,5\n", "1:8",
                   {"\"red\" in column 2 and \"red 2\" in column 3 differ by 40 %"});
    expect_refusal(
        "n,380,480,580,680,780\nred,1,2,3,4,5\nRed (2),5,4,3,2,1\n", "3:1",
        {"\"red\" in line 2 and \"Red (2)\" in line 3 differ by 0 % in their light and by 0.0899"});
    // A number behind another name than a role's tells nothing: two lights, even where they are alike.
    const SpectralFile two = accepted("nm,LED 1,LED 2\n380,1,1\n580,2,2\n780,1,1.01\n");
    ASSERT_EQ(two.lights.size(), 2U);
    EXPECT_EQ(two.lights[1].name, "LED 2");
    // Nor behind a letter that may be no role.
    EXPECT_EQ(accepted("nm,B1,B2,lamp\n380,1,1,1\n580,2,2,2\n780,1,1,3\n").lights.size(), 3U);
    EXPECT_EQ(accepted("nm,B1,B2,W\n380,1,1,1\n580,2,2,2\n780,1,1,3\n").lights.size(), 2U);
    // A single one keeps its number.
    EXPECT_EQ(accepted("nm,red 2,blue\n380,1,1\n580,2,2\n780,1,1.01\n").lights[0].name, "red 2");
}

}  // namespace
}  // namespace samelight::io::test
