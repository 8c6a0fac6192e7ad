// Every way of writing a file of spectra that is understood, as a file that holds what plain.csv holds.
#include <cmath>

#include "spectral_files.hpp"

#include "samelight/io/spectral_csv.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::io::test {
namespace {

/// A file in tests/data/spectra, the sentences that must tell how it is written, and how its lights are called.
struct Variety {
    const char* file;
    std::vector<std::string> understood;
    std::vector<std::string> names = {"red", "green", "blue"};
    LightUnit unit = LightUnit::relative;
    int repeats = 1;
};

std::vector<Variety> varieties() {
    const std::vector<std::string> rgb = {"red", "green", "blue"};
    const std::vector<std::string> letters = {"R", "G", "B"};
    const std::string worded = "Wavelengths are written with their unit or symbol.";
    constexpr LightUnit radiance = LightUnit::spectral_radiance;
    return {
        {"comments.csv", {"4 comment lines skipped."}},
        {"quoted_comment.csv", {"2 comment lines skipped."}},
        // Encodings and line ends.
        {"bom_utf8.csv", {"UTF-8 with a byte order mark."}},
        {"utf16le_bom.csv", {"UTF-16, little-endian, with a byte order mark."}},
        {"utf16be_bom.csv", {"UTF-16, big-endian, with a byte order mark."}},
        {"utf16le_without_bom.csv", {"UTF-16, little-endian, without a byte order mark."}},
        {"utf16be_without_bom.csv", {"UTF-16, big-endian, without a byte order mark."}},
        {"microwatts_latin1.csv",
         {"Latin-1", "Values in \u00b5W/(m²·sr·nm), converted to W/(sr m2 nm)."},
         rgb,
         radiance},
        {"crlf.csv", {"Lines end in CR LF."}},
        {"cr.csv", {"Lines end in CR alone."}},
        {"mixed_line_ends.csv", {"Line ends of several kinds."}},
        {"ctrl_z.csv", {}},
        // Separators and decimal marks.
        {"semicolons_points.csv", {"Semicolons between columns, decimal points."}},
        {"semicolons_commas.csv", {"Semicolons between columns, decimal commas."}},
        {"tabs_points.csv", {"Tabs between columns, decimal points."}},
        {"tabs_commas.csv", {"Tabs between columns, decimal commas."}},
        {"quoted_decimal_commas.csv",
         {"Commas between columns, decimal commas.", "Some cells in quotation marks."}},
        {"quoted_cells.csv",
         {"Commas between columns, decimal points.", "Some cells in quotation marks."}},
        {"quoted_names.csv", {}},
        {"trailing_separators.csv", {"Trailing separators skipped."}},
        {"trailing_semicolons.csv", {"Trailing separators skipped."}},
        {"blank_lines.csv", {"7 blank lines skipped."}},
        {"spaces_in_cells.csv", {}},
        {"number_forms.csv", {}},
        {"number_forms_commas.csv", {"decimal commas"}},
        // Headings and summaries.
        {"heading_lines.csv", {"11 heading lines skipped."}},
        {"heading_lines_semicolons.csv", {"4 heading lines skipped."}},
        {"heading_sep_line.csv", {"1 heading line skipped."}},
        {"heading_units_row.csv",
         {"1 heading line skipped.", "Values in W/(sr m2 nm)."},
         rgb,
         radiance},
        {"heading_as_comment.csv", {"Names taken from the comment in line 1."}},
        {"heading_above_names.csv", {}},
        {"no_heading.csv", {"The columns have no names."}, {"light 1", "light 2", "light 3"}},
        {"summary_rows.csv", {"The table ends before line 44; 5 lines behind it left out."}},
        {"summary_rows_directly.csv",
         {"The table ends before line 43; 2 lines behind it left out."}},
        // Wavelengths.
        {"across.csv", {"Wavelengths across, a light in each row."}},
        {"across_nm.csv", {"Wavelengths across", worded, "1 heading line skipped."}},
        {"across_semicolons_commas.csv",
         {"Wavelengths across", "Semicolons between columns, decimal commas."}},
        {"across_descending.csv", {"Wavelengths across", "Descending wavelengths put in order."}},
        {"across_without_corner.csv", {"Wavelengths across"}},
        {"across_name_column.csv",
         {"Wavelengths across", worded, "2 columns beside the names left out."}},
        {"across_summary.csv",
         {"3 columns behind the last wavelength left out.",
          "The table ends before line 6; 2 lines behind it left out."}},
        {"descending.csv", {"Descending wavelengths put in order."}},
        {"wavelengths_nm_suffix.csv", {worded}},
        {"wavelengths_nm_after_space.csv", {worded}},
        {"wavelengths_nm_decimals.csv", {}},
        {"wavelengths_nm_brackets.csv", {worded}},
        {"wavelengths_nm_prefix.csv", {worded}},
        {"wavelengths_lambda.csv", {worded}},
        // Units.
        {"watts_in_comment.csv", {"Values in W/(sr m2 nm)."}, rgb, radiance},
        {"watts_exponents.csv", {"Values in W sr-1 m-2 nm-1."}, rgb, radiance},
        {"watts_superscripts.csv", {"Values in W·sr⁻¹·m⁻²·nm⁻¹."}, rgb, radiance},
        {"watts_hyphens.csv", {"Values in W/m^2-sr-nm."}, rgb, radiance},
        {"milliwatts_in_names.csv", {"mW/(m² sr nm), converted"}, rgb, radiance},
        {"milliwatts_in_heading.csv", {"mW/sr/m2/nm, converted"}, rgb, radiance},
        {"milliwatts_across.csv", {"mW/(sr m2 nm), converted"}, rgb, radiance},
        {"microwatts_micro_sign.csv", {"\u00b5W/sr/m²/nm, converted"}, rgb, radiance},
        {"microwatts_mu.csv", {"\u03bcW/sr/m^2/nm, converted"}, rgb, radiance},
        {"microwatts_u.csv", {"uW/(sr*m2*nm), converted"}, rgb, radiance},
        {"microwatts_per_cm2.csv", {"\u00b5W/(cm² sr nm), converted"}, rgb, radiance},
        {"watts_per_micrometre.csv", {"W/(m2 sr um), converted"}, rgb, radiance},
        // Repeats: each light twice, 1 % to either side of plain.csv.
        {"repeats_same_name.csv", {"2 repeats of \"green\" averaged"}, rgb, LightUnit::relative, 2},
        {"repeats_number.csv", {"2 repeats of \"red\" averaged"}, rgb, LightUnit::relative, 2},
        {"repeats_underscore.csv", {"2 repeats of \"red\" averaged"}, rgb, LightUnit::relative, 2},
        {"repeats_brackets.csv", {"2 repeats of \"red\" averaged"}, rgb, LightUnit::relative, 2},
        {"repeats_word.csv", {"2 repeats of \"red\" averaged"}, rgb, LightUnit::relative, 2},
        {"repeats_capitals.csv", {"2 repeats of \"blue\" averaged"}, rgb, LightUnit::relative, 2},
        {"repeats_letters.csv", {"2 repeats of \"R\" averaged"}, letters, LightUnit::relative, 2},
        {"repeats_across.csv",
         {"2 repeats of \"red\" averaged", "Wavelengths across"},
         rgb,
         LightUnit::relative,
         2},
        {"letters.csv", {}, letters},
    };
}

class SpectralCsvVarieties : public testing::TestWithParam<Variety> {};

// Second route: plain.csv is read by the plainest path, the others by all the ways around it.
TEST_P(SpectralCsvVarieties, HoldsWhatThePlainFormHolds) {
    const SpectralFile plain = read_spectral_csv(data_file("plain.csv"));
    const SpectralFile file = read_spectral_csv(data_file(GetParam().file));
    EXPECT_EQ(file.source, data_file(GetParam().file));
    EXPECT_EQ(file.unit, GetParam().unit);
    EXPECT_TRUE(file.warnings.empty()) << file.warnings.front().code;
    for (const std::string& sentence : GetParam().understood) {
        EXPECT_TRUE(says(file.understood, sentence))
            << "not said: " << sentence << joined(file.understood);
    }
    ASSERT_EQ(file.lights.size(), plain.lights.size());
    for (std::size_t k = 0; k < plain.lights.size(); ++k) {
        const Spectrum& wanted = plain.lights[k].light;
        const Spectrum& found = file.lights[k].light;
        EXPECT_EQ(file.lights[k].name, GetParam().names[k]);
        EXPECT_EQ(file.lights[k].repeats, GetParam().repeats);
        ASSERT_EQ(found.size(), wanted.size());
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            EXPECT_EQ(found.wavelengths_nm()[i], wanted.wavelengths_nm()[i]);
            // A mean of two rounded values may differ in the last bit; everything else is the same number.
            const double bound = GetParam().repeats > 1 ? 4e-16 * wanted.values()[i] : 0.0;
            EXPECT_NEAR(found.values()[i], wanted.values()[i], bound);
        }
    }
}

INSTANTIATE_TEST_SUITE_P(AllFiles, SpectralCsvVarieties, testing::ValuesIn(varieties()),
                         [](const testing::TestParamInfo<Variety>& tested) {
                             const std::string name = tested.param.file;
                             return name.substr(0, name.find('.'));
                         });

TEST(SpectralCsv, ReadsThePlainForm) {
    const SpectralFile file = read_spectral_csv(data_file("plain.csv"));
    EXPECT_EQ(file.unit, LightUnit::relative);
    EXPECT_TRUE(file.warnings.empty());
    EXPECT_EQ(
        file.understood,
        (std::vector<std::string>{
            "Commas between columns, decimal points.", "Wavelengths down the first column.",
            "No unit of spectral radiance is stated: values are relative.",
            "380-780 nm by 10 nm, 41 wavelengths.", "Lights: \"red\", \"green\", \"blue\"."}));
    ASSERT_EQ(file.lights.size(), 3U);
    const Spectrum& red = file.lights[0].light;
    EXPECT_EQ(file.lights[0].name, "red");
    EXPECT_EQ(file.lights[0].repeats, 1);
    EXPECT_EQ(file.lights[0].repeat_spread, 0.0);
    ASSERT_EQ(red.size(), 41U);
    // As it stands in the file.
    EXPECT_EQ(red.at(380.0), 4.22e-06);
    EXPECT_EQ(red.at(610.0), 0.02096);
    EXPECT_EQ(file.lights[1].light.at(540.0), 0.03409);
}

/// The values of plain.csv at those of its wavelengths that `file` has.
void expect_plain_where_they_meet(const SpectralFile& file) {
    const SpectralFile plain = read_spectral_csv(data_file("plain.csv"));
    ASSERT_EQ(file.lights.size(), 3U);
    for (std::size_t k = 0; k < 3; ++k) {
        const Spectrum& wanted = plain.lights[k].light;
        std::size_t met = 0;
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            const double nm = wanted.wavelengths_nm()[i];
            if (nm > file.lights[k].light.last_nm()) continue;
            EXPECT_EQ(file.lights[k].light.at(nm), wanted.values()[i]) << nm;
            ++met;
        }
        EXPECT_GE(met, 36U);
    }
}

TEST(SpectralCsv, ReadsOtherRangesAndSteps) {
    const SpectralFile shorter = read_spectral_csv(data_file("range_380_730.csv"));
    EXPECT_TRUE(says(shorter.understood, "380-730 nm by 10 nm, 36 wavelengths."));
    expect_plain_where_they_meet(shorter);
    const SpectralFile one = read_spectral_csv(data_file("step_1nm.csv"));
    EXPECT_TRUE(says(one.understood, "380-780 nm by 1 nm, 401 wavelengths."));
    expect_plain_where_they_meet(one);
    const SpectralFile five = read_spectral_csv(data_file("step_5nm.csv"));
    EXPECT_TRUE(says(five.understood, "380-780 nm by 5 nm, 81 wavelengths."));
    expect_plain_where_they_meet(five);
    const SpectralFile uneven = read_spectral_csv(data_file("steps_uneven.csv"));
    EXPECT_TRUE(
        says(uneven.understood, "380-780 nm in uneven steps of 0.75 to 10 nm, 47 wavelengths."));
    expect_plain_where_they_meet(uneven);
    EXPECT_EQ(uneven.lights[0].light.wavelengths_nm()[9], 453.5);
}

TEST(SpectralCsv, ReadsASingleLightOfAnyName) {
    const SpectralFile plain = read_spectral_csv(data_file("plain.csv"));
    const SpectralFile named = read_spectral_csv(data_file("single_light.csv"));
    ASSERT_EQ(named.lights.size(), 1U);
    EXPECT_EQ(named.lights[0].name, "My lamp");
    EXPECT_EQ(named.lights[0].light, plain.lights[0].light);
    const SpectralFile bare = read_spectral_csv(data_file("single_light_bare.csv"));
    ASSERT_EQ(bare.lights.size(), 1U);
    EXPECT_EQ(bare.lights[0].name, "light");
    EXPECT_EQ(bare.lights[0].light, plain.lights[0].light);
    EXPECT_TRUE(says(bare.understood, "The columns have no names."));
}

TEST(SpectralCsv, FindsRolesByWordOrLetter) {
    const SpectralFile file = parse_spectral_csv(
        "nm,R,Green,BLUE,w,k\n380,1,2,3,4,.1\n580,2,3,4,5,.1\n780,3,4,5,6,.1\n", "file.csv");
    const std::vector<std::string> roles = {"red", "green", "blue", "white", "black"};
    for (std::size_t k = 0; k < roles.size(); ++k) {
        EXPECT_EQ(file.find(roles[k]), &file.lights[k]) << roles[k];
    }
    EXPECT_EQ(file.find("R"), nullptr);  // a name, no role
    EXPECT_EQ(file.find("x"), nullptr);
    EXPECT_EQ(file.find(""), nullptr);
    const SpectralFile others =
        parse_spectral_csv("nm,redder,y\n380,1,2\n580,2,5\n780,3,4\n", "file.csv");
    EXPECT_EQ(others.find("red"), nullptr);
}

TEST(SpectralCsv, KeepsSensitivitiesAsTheyAre) {
    const SpectralFile xyz = parse_spectral_csv(
        "wavelength_nm,x,y,z\n380,0.001,0,0.006\n580,0.9,0.87,0.001\n780,0.0001,0,0\n", "file.csv");
    ASSERT_EQ(xyz.lights.size(), 3U);
    EXPECT_EQ(xyz.lights[2].name, "z");
    EXPECT_EQ(xyz.lights[1].light.at(580.0), 0.87);
}

}  // namespace
}  // namespace samelight::io::test
