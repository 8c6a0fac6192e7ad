// What a file says its spectra run along: wavelengths in other units are converted, what is no wavelength is refused, and so are
// numbers that no light has. Second route: the same spectra on wavelengths in nm, written in the plain form.
#include <string>
#include <vector>

#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "spectral_files.hpp"

namespace samelight::io::test {
namespace {

/// A table under a heading for its first column, whose numbers are these.
std::string table_under(const std::string& heading, const std::vector<std::string>& axis) {
    std::string text = heading + ",red,green\n";
    for (std::size_t i = 0; i < axis.size(); ++i) {
        text += axis[i] + ",1." + std::to_string(i % 10) + ",2\n";
    }
    return text;
}

/// 380 to 780 nm by 5 nm, in units of 10^power nm.
std::vector<std::string> axis_numbers(int power) {
    std::vector<std::string> result;
    for (int nm = 380; nm <= 780; nm += 5) {
        const std::string digits = std::to_string(nm);
        result.push_back(power == 3    ? "0." + digits
                         : power == -1 ? digits + "0"
                         : power == 9  ? digits.substr(0, 1) + "." + digits.substr(1) + "e-7"
                                       : digits);
    }
    return result;
}

TEST(SpectralCsvAxis, OtherUnitsOfLengthAreConvertedToTheLastBit) {
    const SpectralFile plain =
        parse_spectral_csv(table_under("wavelength_nm", axis_numbers(0)), "file.csv");
    struct Case {
        const char* heading;
        int power;
        const char* said;
    };
    for (const Case& one :
         {Case{"wavelength_um", 3, "micrometres"}, Case{"Wavelength (\u00b5m)", 3, "micrometres"},
          Case{"\u03bb [\u03bcm]", 3, "micrometres"}, Case{"microns", 3, "micrometres"},
          Case{"Wavelength [\u00c5]", -1, "angstroms"},
          Case{"wavelength_angstrom", -1, "angstroms"}, Case{"\u212b", -1, "angstroms"},
          Case{"Wavelength (m)", 9, "metres"}}) {
        const SpectralFile file =
            parse_spectral_csv(table_under(one.heading, axis_numbers(one.power)), "file.csv");
        EXPECT_EQ(file.lights[0].light, plain.lights[0].light) << one.heading;
        EXPECT_EQ(file.lights[1].light, plain.lights[1].light) << one.heading;
        EXPECT_TRUE(says(file.understood,
                         std::string("Wavelengths in ") + one.said + ", converted to nm."));
    }
    EXPECT_FALSE(says(plain.understood, "converted to nm"));
}

TEST(SpectralCsvAxis, UnitsBehindTheNumbersAndInARowOfUnitsCountAsWell) {
    const Spectrum plain =
        parse_spectral_csv(table_under("nm", {"380", "555", "780"}), "file.csv").lights[0].light;
    for (const std::string& text :
         {table_under("Wavelength", {"0.38 \u00b5m", "0.555\u00b5m", "7.8e-1 um"}),
          table_under("Wavelength", {"3800 \u00c5", "5550 \u00c5", "7800 \u00c5"}),
          table_under("Wavelength", {"380 nm", "0.555 \u00b5m", "7800 \u00c5"}),
          std::string("Wavelength;red;green\n\u00b5m;W/(sr m2 nm);W/(sr m2 nm)\n0,38;1,0;2\n"
                      "0,555;1,1;2\n0,78;1,2;2\n")}) {
        EXPECT_EQ(parse_spectral_csv(text, "file.csv").lights[0].light, plain) << text;
    }
    std::string across = "\u00b5m";
    std::string values = "\nred";
    for (const std::string& number : axis_numbers(3)) {
        across += "," + number;
        values += ",1";
    }
    EXPECT_EQ(parse_spectral_csv(across + values + "\n", "file.csv").lights[0].light.last_nm(),
              780.0);
}

TEST(SpectralCsvAxis, UnitsThatDontSuitTheNumbersAreRefused) {
    expect_refusal(table_under("wavelength_um", axis_numbers(0)), "1:1",
                   {"\"wavelength_um\"", "from 380000 to 780000 nm", "wavelengths in nm"});
    expect_refusal(table_under("Wavelength (\u00c5)", axis_numbers(0)), "1:1",
                   {"from 38 to 78 nm"});
    expect_refusal(table_under("Wavelength (m)", axis_numbers(0)), "1:1", {"\"Wavelength (m)\""});
    expect_refusal(table_under("wavelength_cm", axis_numbers(0)), "1:1", {"\"wavelength_cm\""});
    expect_refusal(table_under("wavelength (\u00b5m or \u00c5)", axis_numbers(3)), "1:1",
                   {"wavelengths in nm"});
    expect_refusal(table_under("wavelength_nm", axis_numbers(3)), "2:1", {"look like micrometres"});
    expect_refusal(table_under("wavelength_nm", {"380 nm", "0.5 \u00b5m", "780 nm"}), "3:1",
                   {"\"0.5 \u00b5m\" among the wavelengths"});
    expect_refusal(table_under("wavelength_um", {"380 nm", "500 nm", "780 nm"}), "2:1",
                   {"\"380 nm\" among the wavelengths"});
}

TEST(SpectralCsvAxis, WhatIsNoWavelengthIsRefusedWithTheReason) {
    for (const char* heading :
         {"THz", "Frequency (THz)", "frequency_thz", "frequencies", "freq", "\u03bd [THz]", "nu",
          "GHz", "PHz", "f / THz", "fr\u00e9quence", "wavelength_thz"}) {
        expect_refusal(table_under(heading, axis_numbers(0)), "1:1",
                       {"above the wavelengths: a frequency", "values are others than per nm",
                        "wavelengths in nm, and values per nm"});
    }
    for (const char* heading : {"wavenumber", "wavenumber_cm-1", "k (1/cm)", "cm\u207b\u00b9",
                                "cm^-1", "\u03bd / cm-1", "1/\u00b5m"}) {
        const std::string text = table_under(heading, axis_numbers(0));
        try {
            (void)parse_spectral_csv(text, "file.csv");
            ADD_FAILURE() << "accepted " << heading;
        } catch (const Error& error) {
            const std::string said = error.what();
            EXPECT_NE(said.find("file.csv:1:1: "), std::string::npos) << said;
            EXPECT_NE(said.find("per which the values are others"), std::string::npos) << said;
        }
    }
    for (const char* heading : {"energy_eV", "Photon energy", "energy"}) {
        expect_refusal(table_under(heading, axis_numbers(0)), "1:1", {"an energy, per which"});
    }
    expect_refusal("x,red,green\nTHz,a.u.,a.u.\n385,1,2\n500,2,2\n790,1,2\n", "2:1",
                   {"a frequency"});
    // With two columns as well, where a line above the table may be any pair of a key and a value.
    expect_refusal("THz,counts\n385,1\n500,2\n790,1\n", "1:1", {"a frequency"});
    expect_refusal("# frequency in THz\n,red\n385,1\n500,2\n790,1\n", "1:1",
                   {"frequency in THz", "no word that the table is one of wavelengths"});
    expect_refusal("# wavenumbers\n385,1;2\n500,2;2\n790,1;2\n", "1:1", {"wavenumbers"});
}

TEST(SpectralCsvAxis, ThePlainFormAndItsRelativesStayAsTheyAre) {
    for (const char* heading :
         {"wavelength_nm", "nm", "Wavelength", "Wavelength [nm]", "\u03bb", "wl", "x", "",
          "lambda (nm)", "Wellenl\u00e4nge in nm", "wavelength (nm) = c / frequency"}) {
        EXPECT_EQ(parse_spectral_csv(table_under(heading, axis_numbers(0)), "file.csv")
                      .lights[0]
                      .light.last_nm(),
                  780.0)
            << heading;
    }
    EXPECT_EQ(parse_spectral_csv("# 540 THz is where the lumen is defined\n" +
                                     table_under("wavelength_nm", axis_numbers(0)),
                                 "file.csv")
                  .lights.size(),
              2U);
    EXPECT_EQ(parse_spectral_csv("Refresh frequency,60 Hz\n" + table_under("", axis_numbers(0)),
                                 "file.csv")
                  .lights.size(),
              2U);
}

TEST(SpectralCsvAxis, WavelengthsThatNoLightHasAreRefused) {
    const std::string head = "wavelength_nm,red\n380,1\n580,2\n780,1\n";
    for (const char* last : {"5001", "7800", "78000", "1e308"}) {
        expect_refusal(head + last + ",1\n", "5:1",
                       {std::string("from 380 to ") + to_text(std::stod(last)), "end too high",
                        "at most 5000 nm"});
    }
    EXPECT_EQ(parse_spectral_csv(head + "2500,1\n5000,1\n", "file.csv").lights[0].light.last_nm(),
              5000.0);
    expect_refusal("wavelength_nm,red\n99,1\n380,1\n580,2\n780,1\n", "2:1", {"begin too low"});
}

}  // namespace
}  // namespace samelight::io::test
