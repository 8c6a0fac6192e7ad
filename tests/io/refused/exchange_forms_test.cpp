// Forms of standards that aren't whole: what a stranger's CGATS.17 or TM-27 file is refused for, and where; and what is left out of one that is.
// The forms' keywords and elements as tests/io/exchange has them; each file is one of those, bent in one place.
#include <string>

#include <gtest/gtest.h>

#include "io/spectral_files.hpp"
#include "numeric/refusals.hpp"
#include "samelight/io/patch_list_csv.hpp"
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/io/spectral_exchange.hpp"

namespace samelight::io::test {
namespace {

const std::string bent_fields = "SAMPLE_NAME SPECTRAL_NM SPECTRAL_DEC";
const std::string bent_sets = "a 390 1\na 555 2\na 720 3\n";

std::string cgats_of(const std::string& format, const std::string& data) {
    return "CGATS.17\n" + format + "\n" + data;
}

TEST(CgatsRefused, WhatStandsBehindAKeywordOfALineOfItsOwn) {
    const std::string format = "BEGIN_DATA_FORMAT\n" + bent_fields + "\nEND_DATA_FORMAT";
    const std::string data = "BEGIN_DATA\n" + bent_sets + "END_DATA\n";
    ASSERT_EQ(parsed(cgats_of(format, data)).lights.size(), 1U);
    expect_refusal(cgats_of(format + " BEGIN_DATA", data), "4:17",
                   {"\"BEGIN_DATA\" behind END_DATA_FORMAT", "a line of its own"});
    expect_refusal(cgats_of(format, "BEGIN_DATA a 390 1\n" + bent_sets + "END_DATA\n"), "5:12",
                   {"\"a\" behind BEGIN_DATA", "each set in a line of its own"});
    expect_refusal(cgats_of(format, "BEGIN_DATA\n" + bent_sets + "END_DATA b\n"), "9:10",
                   {"\"b\" behind END_DATA", "a line of its own"});
    expect_refusal(cgats_of("BEGIN_DATA_FORMAT\nEND_DATA_FORMAT", data), "2:1",
                   {"no field between BEGIN_DATA_FORMAT and END_DATA_FORMAT"});
    expect_refusal(cgats_of(format, "NUMBER_OF_SETS\n" + data), "5:1",
                   {"NUMBER_OF_SETS and nothing behind it", "a whole number"});
    expect_refusal(cgats_of(format, ""), "2:1", {"no BEGIN_DATA"});
    expect_refusal(cgats_of(format, "BEGIN_DATA\n" + bent_sets + "BEGIN_DATA\n"), "5:1",
                   {"BEGIN_DATA without END_DATA"});
}

TEST(CgatsRefused, SetsThatDontBelongTogether) {
    const std::string format = "BEGIN_DATA_FORMAT\n" + bent_fields + "\nEND_DATA_FORMAT\n";
    expect_refusal(
        cgats_of(format, "BEGIN_DATA\na 390 1\na 555 2\na 720 3\nb 390 1\nb 555 2\nEND_DATA\n"),
        "10:1", {"2 wavelengths in \"b\", but 3 in \"a\"", "the same wavelengths"});
    expect_refusal(cgats_of(format, "BEGIN_DATA\n\"\" 390 1\nEND_DATA\n"), "7:2",
                   {"a set without a name", "SAMPLE_NAME or SAMPLE_ID"});
    const std::string per_cent =
        "BEGIN_DATA_FORMAT\nSAMPLE_NAME SPECTRAL_NM SPECTRAL_PCT\n"
        "END_DATA_FORMAT\nBEGIN_DATA\nb 390 1\nb 555 2\nb 720 3\nEND_DATA\n";
    expect_refusal(cgats_of(format, "BEGIN_DATA\n" + bent_sets + "END_DATA\n" + per_cent), "12:25",
                   {"both SPECTRAL_DEC and SPECTRAL_PCT"});
}

TEST(CgatsRefused, LightsWithoutNamesAreNumbered) {
    const std::string unnamed =
        "BEGIN_DATA_FORMAT\nSPECTRAL_NM SPECTRAL_DEC SPECTRAL_NM SPECTRAL_DEC\n"
        "END_DATA_FORMAT\nBEGIN_DATA\n";
    const SpectralFile one = parsed(cgats_of(unnamed, "390 1 720 2\nEND_DATA\n"));
    ASSERT_EQ(one.lights.size(), 1U);
    EXPECT_EQ(one.lights[0].name, "light");
    const SpectralFile two = parsed(cgats_of(unnamed, "390 1 720 2\n390 3 720 4\nEND_DATA\n"));
    ASSERT_EQ(two.lights.size(), 2U);
    EXPECT_EQ(two.lights[1].name, "light 2");
    EXPECT_EQ(two.lights[1].light.values()[1], 4.0);
}

TEST(CgatsRefused, PatchesOfOneSectionAreTakenAndTheOthersSaid) {
    const std::string xyz =
        "BEGIN_DATA_FORMAT\nSAMPLE_NAME RGB_R RGB_G RGB_B XYZ_X XYZ_Y XYZ_Z\n"
        "END_DATA_FORMAT\nBEGIN_DATA\nwhite 255 255 255 95 100 108\nEND_DATA\n";
    const std::string lab =
        "BEGIN_DATA_FORMAT\nSAMPLE_NAME LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\n"
        "BEGIN_DATA\nwhite 100 0 0\nEND_DATA\n";
    const PatchReadingsFile file = parse_patch_readings_csv("CGATS.17\n" + lab + xyz, "p.txt");
    ASSERT_EQ(file.rows.size(), 1U);
    EXPECT_EQ(file.rows[0].xyz, (std::array<double, 3>{95.0, 100.0, 108.0}));
    EXPECT_TRUE(says(file.understood, "1 other section left out.")) << joined(file.understood);
    EXPECT_EQ(
        samelight::test::refusal(
            ErrorKind::input,
            [&] { static_cast<void>(parse_patch_list_csv("CGATS.17\n" + lab, "p.txt")); }),
        "p.txt:3:1: no RGB_R, RGB_G, RGB_B among the fields; wanted these, or SPECTRAL_NM with "
        "SPECTRAL_DEC or SPECTRAL_PCT");
}

const std::string tm27_data =
    "<SpectralDistribution>\n<SpectralQuantity>radiance</SpectralQuantity>\n"
    "<SpectralData wavelength=\"380\">1</SpectralData>\n<SpectralData wavelength=\"780\">2</SpectralData>\n"
    "</SpectralDistribution>\n</IESTM2714>\n";

TEST(Tm27Refused, ElementsStandOnce) {
    const std::string head =
        "<IESTM2714 version=\"1.0\">\n<Header>\n<Description>a</Description>\n";
    const SpectralFile file = parsed(head + "</Header>\n" + tm27_data);
    ASSERT_EQ(file.lights.size(), 1U);
    EXPECT_TRUE(says(file.understood, "No namespace, taken for TM-27's."))
        << joined(file.understood);
    expect_refusal(head + "<Description>b</Description>\n</Header>\n" + tm27_data, "4:2",
                   {"a second \"Description\"", "each element once"});
}

}  // namespace
}  // namespace samelight::io::test
