// CGATS.17 text: files made by hand from the facts of the standard (sections, keywords), what is refused and where, and that what is
// written reads back to the bit.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "io/spectral_files.hpp"
#include "samelight/io/patch_list_csv.hpp"
#include "samelight/io/patch_readings_csv.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/io/spectral_exchange.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::io::test {
namespace {

/// Fields in line 4, sets from line 8 on.
std::string section(const std::string& fields, const std::string& sets,
                    const std::string& counts = "NUMBER_OF_SETS 2") {
    return "CGATS.17\nORIGINATOR \"a laboratory\"\nBEGIN_DATA_FORMAT\n" + fields +
           "\nEND_DATA_FORMAT\n" + counts + "\nBEGIN_DATA\n" + sets + "END_DATA\n";
}

const std::string pairs =
    "SAMPLE_ID SAMPLE_NAME SPECTRAL_NM SPECTRAL_DEC SPECTRAL_NM SPECTRAL_DEC SPECTRAL_NM "
    "SPECTRAL_DEC";
const std::string sets =
    "1 \"red\" 390 0.5 555 1.25 720 2\n2 \"green\" 390 1e-1 555 2.25 720 0.5\n";

TEST(Cgats, ReadsSetsWithAPairForEachWavelength) {
    const std::vector<double> nm = {390.0, 555.0, 720.0};
    const SpectralFile file = parsed(section(pairs, sets));
    ASSERT_EQ(file.lights.size(), 2U);
    EXPECT_EQ(file.lights[0].name, "red");
    EXPECT_EQ(file.lights[0].light, Spectrum(nm, {0.5, 1.25, 2.0}));
    EXPECT_EQ(file.lights[1].light, Spectrum(nm, {0.1, 2.25, 0.5}));
    EXPECT_TRUE(says(file.understood, "CGATS.17 text.")) << joined(file.understood);
    EXPECT_NE(file.find("red"), nullptr);
}

TEST(Cgats, ReadsASetForEachWavelengthAndPerCent) {
    const SpectralFile file = parsed(section("SAMPLE_NAME SPECTRAL_NM SPECTRAL_PCT",
                                             "red 390 50\nred 555 125\nred 720 200\n"
                                             "green 390 10\ngreen 555 225\ngreen 720 50\n",
                                             "NUMBER_OF_SETS 6\nNUMBER_OF_FIELDS 3"));
    expect_same_lights(file.lights, parsed(section(pairs, sets)).lights);
    EXPECT_TRUE(says(file.understood, "hundredths")) << joined(file.understood);
}

TEST(Cgats, ReadsTabsCommasQuotesAndComments) {
    const SpectralFile wanted = parsed(section(pairs, sets));
    std::string tabs = sets;
    for (char& c : tabs) {
        if (c == ' ') c = '\t';
    }
    expect_same_lights(parsed(section(pairs, "# a remark\n\n" + tabs)).lights, wanted.lights);
    std::string commas = sets;
    for (char& c : commas) {
        if (c == '.') c = ',';
    }
    const SpectralFile with_commas = parsed(section(pairs, commas));
    expect_same_lights(with_commas.lights, wanted.lights);
    EXPECT_TRUE(says(with_commas.understood, "Decimal commas.")) << joined(with_commas.understood);
    const SpectralFile named =
        parsed(section("SAMPLE_NAME SPECTRAL_NM SPECTRAL_DEC SPECTRAL_NM SPECTRAL_DEC",
                       "\"the \"\"old\"\" set, 5 %\" 390 1 720 2\n", "NUMBER_OF_SETS 1"));
    EXPECT_EQ(named.lights.front().name, "the \"old\" set, 5 %");
    const SpectralFile bare =
        parsed(section("SAMPLE_NAME SPECTRAL_NM SPECTRAL_DEC SPECTRAL_NM SPECTRAL_DEC",
                       "the old set\t390\t1\t720\t2\n", "NUMBER_OF_SETS 1"));
    EXPECT_EQ(bare.lights.front().name, "the old set");
    EXPECT_TRUE(says(bare.understood, "tabs")) << joined(bare.understood);
    std::string crlf;
    for (const char c : section(pairs, sets)) {
        crlf += c == '\n' ? "\r\n" : std::string(1, c);
    }
    expect_same_lights(parsed(crlf).lights, wanted.lights);
}

TEST(Cgats, ReadsAllSectionsAndANameThatBeginsLikeAComment) {
    const std::string text = section(pairs, sets) +
                             "BEGIN_DATA_FORMAT\nSAMPLE_NAME XYZ_Y\n"
                             "END_DATA_FORMAT\nBEGIN_DATA\nwhite 100\n"
                             "END_DATA\n" +
                             section(
                                 "SAMPLE_ID SPECTRAL_NM SPECTRAL_DEC SPECTRAL_NM SPECTRAL_DEC "
                                 "SPECTRAL_NM SPECTRAL_DEC",
                                 "#3 390 1 555 2 720 3\n", "NUMBER_OF_SETS 1");
    const SpectralFile file = parsed(text);
    ASSERT_EQ(file.lights.size(), 3U);
    EXPECT_EQ(file.lights[2].name, "#3");
    EXPECT_TRUE(says(file.understood, "1 section without SPECTRAL_NM left out."))
        << joined(file.understood);
}

TEST(Cgats, RefusesInOneLineWithItsPlace) {
    expect_refusal(section(pairs, sets).substr(0, section(pairs, sets).find("END_DATA\n")), "7:1",
                   {"BEGIN_DATA without END_DATA"});
    expect_refusal("BEGIN_DATA_FORMAT\nSAMPLE_ID\nBEGIN_DATA\n", "1:1",
                   {"BEGIN_DATA_FORMAT without END_DATA_FORMAT"});
    expect_refusal("CGATS.17\nBEGIN_DATA\n1\nEND_DATA\n", "2:1", {"BEGIN_DATA without fields"});
    expect_refusal(
        "CGATS.17\nBEGIN_DATA_FORMAT\nSAMPLE_ID\nEND_DATA_FORMAT\nBEGIN_DATA here there\nEND_DATA\n",
        "5:12", {"\"here\" behind BEGIN_DATA"});
    expect_refusal(section(pairs, sets, "NUMBER_OF_SETS 3"), "6:1",
                   {"NUMBER_OF_SETS 3, but 2 sets"});
    expect_refusal(section(pairs, sets, "NUMBER_OF_FIELDS 7"), "6:1",
                   {"NUMBER_OF_FIELDS 7, but 8 fields"});
    expect_refusal(section(pairs, sets, "NUMBER_OF_SETS two"), "6:1", {"\"two\"", "whole number"});
    expect_refusal(section(pairs, sets + "3 \"blue\" 390 1 555 1\n"), "10:1",
                   {"6 values in this set, but 8 fields"});
    expect_refusal(section(pairs, "1 \"red 390 0.5 555 1.25 720 2\n"), "8:3", {"isn't closed"});
    expect_refusal(section(pairs, "1 red 390 0.5 550 1.25 720 2\n2 green 390 1 555 1 720 1\n"),
                   "9:15", {"555 in \"green\" where \"red\" has 550"});
    expect_refusal(section(pairs, "1 red 390 0.5 555 nan 720 2\n2 green 390 1 555 1 720 1\n"),
                   "8:19", {"\"nan\"", "finite"});
    expect_refusal(section(pairs, "1 red 390 0,5 555 1.5 720 2\n2 green 390 1 555 1 720 1\n"),
                   "8:11", {"\"0,5\" here, but \"1.5\""});
    expect_refusal(section(pairs, "1 red 390 1,500 555 1 720 2\n2 green 390 1 555 1 720 1\n"),
                   "8:11", {"may mark decimals or group thousands"});
    expect_refusal(section(pairs, "1 red 390 1 390 1 720 2\n2 green 390 1 390 1 720 1\n"), "8:13",
                   {"390 a second time, after line 8, column 7"});
    expect_refusal(section(pairs, "1 red 390 1 555 -3 720 2\n2 green 390 1 555 1 720 1\n"), "8:17",
                   {"-3"});
    expect_refusal(section("SAMPLE_NAME SPECTRAL_NM SPECTRAL_DEC SPECTRAL_PCT", "a 390 1 1\n", ""),
                   "4:38", {"both SPECTRAL_DEC and SPECTRAL_PCT"});
    expect_refusal(section("SAMPLE_NAME SPECTRAL_NM", "a 390\n", ""), "7:1",
                   {"1 SPECTRAL_NM and 0"});
    expect_refusal(section("SAMPLE_NAME SAMPLE_NAME", "a b\n", ""), "4:13", {"a second time"});
    expect_refusal(section("SAMPLE_NAME XYZ_X", "a 1\n", ""), "4:1", {"no SPECTRAL_NM"});
    expect_refusal(section("SAMPLE_NAME SPECTRAL_NM SPECTRAL_DEC", "", ""), "7:1", {"no set"});
    expect_refusal("END_DATA_FORMAT\n", "1:1", {"without its beginning"});
    expect_refusal("DESCRIPTOR \"values in W/(sr m2 nm)\"\n" +
                       section("SAMPLE_NAME SPECTRAL_NM SPECTRAL_PCT", "a 390 1\na 720 1\n", ""),
                   "1:13", {"SPECTRAL_PCT", "SPECTRAL_DEC"});
}

TEST(Cgats, BoundsItsSize) {
    const std::string many(800001, '\n');
    expect_refusal("NUMBER_OF_SETS 1\nBEGIN_DATA_FORMAT\n" + many, "400001:1",
                   {"more than 200000 lines"});
}

TEST(Cgats, WhatIsWrittenReadsBackToTheBit) {
    const std::vector<double> nm = {380.0, 400.0, 512.3456789012345, 780.0};
    const std::vector<LightColumn> lights = {
        {"red", Spectrum(nm, {1.0 / 3.0, 1e-17, 0.1234567890123456789, 1.0})},
        {"a \"quoted\" name, with # and \\", Spectrum(nm, {5.125, 1e-7, 2.0, 1234.0})}};
    for (const LightUnit unit : {LightUnit::relative, LightUnit::spectral_radiance}) {
        const std::string text = cgats_text({{"a comment"}, "2026-11-28"}, lights, unit);
        const SpectralFile file = parsed(text);
        expect_same_lights(file.lights, lights);
        EXPECT_EQ(file.unit, unit);
        const SpectralFile csv = parsed(spectral_csv_text({}, lights, unit));
        EXPECT_EQ(cgats_text({{"a comment"}, "2026-11-28"}, csv.lights, csv.unit), text);
    }
}

TEST(Cgats, HoldsReadingsOfPatches) {
    const std::string fields = "SAMPLE_ID SAMPLE_NAME RGB_R RGB_G RGB_B XYZ_X XYZ_Y XYZ_Z LAB_L";
    const std::string rows =
        "1 \"full white\" 255 255 255 95.5 100.25 108 100\n2 red 255 0 0 41 21 2 53\n";
    const PatchReadingsFile file =
        parse_patch_readings_csv("DESCRIPTOR \"after\"\n" + section(fields, rows), "p.txt");
    const PatchReadingsFile csv = parse_patch_readings_csv(
        "patch,r,g,b,X,Y,Z\nfull white,255,255,255,95.5,100.25,108\nred,255,0,0,41,21,2\n",
        "p.csv");
    ASSERT_EQ(file.rows.size(), 2U);
    EXPECT_EQ(file.remark, "after");
    for (std::size_t i = 0; i < 2; ++i) {
        EXPECT_EQ(file.rows[i].patch, csv.rows[i].patch);
        EXPECT_EQ(file.rows[i].xyz, csv.rows[i].xyz);
        EXPECT_EQ(file.rows[i].codes, csv.rows[i].codes);
    }
    EXPECT_EQ(file.rows[1].line, 10U);
    const auto refusal = [&](const std::string& text) {
        try {
            static_cast<void>(parse_patch_readings_csv(text, "p.txt"));
        } catch (const Error& error) {
            return std::string(error.what());
        }
        return std::string("accepted");
    };
    EXPECT_EQ(refusal(section("SAMPLE_NAME XYZ_X XYZ_Y XYZ_Z", "#white 95 x 108\n", "")),
              "p.txt:8:11: \"x\" for XYZ_Y; wanted a number");
    EXPECT_EQ(refusal(section("SAMPLE_NAME LAB_L LAB_A LAB_B", "white 100 0 0\n", "")),
              "p.txt:4:1: no XYZ_X, XYZ_Y, XYZ_Z among the fields (LAB_L says no luminance); "
              "wanted these, in cd/m2");
}

TEST(Cgats, HoldsListsOfPatches) {
    const PatchList signals = parse_patch_list_csv(
        section("SAMPLE_NAME RGB_R RGB_G RGB_B", "a 255 0 0\nb 10 20 30\n"), "p.txt");
    ASSERT_EQ(signals.signals.size(), 2U);
    EXPECT_EQ(signals.signals[1].name, "b");
    const PatchList surfaces = parse_patch_list_csv(
        section("SAMPLE_NAME SPECTRAL_NM SPECTRAL_PCT SPECTRAL_NM SPECTRAL_PCT",
                "a 380 20 780 50\n", ""),
        "p.txt");
    ASSERT_EQ(surfaces.surfaces.size(), 1U);
    EXPECT_EQ(surfaces.surfaces[0].reflectance.values()[1], 0.5);
}

}  // namespace
}  // namespace samelight::io::test
