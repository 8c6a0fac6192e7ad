// TM-27 XML: files made by hand from the facts of the standard (elements, required ones, two namespaces, uneven wavelengths), what is
// refused and where, and that what is written reads back to the bit.
#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "io/spectral_files.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/io/spectral_exchange.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::io::test {
namespace {

const std::string header =
    "<Header>\n<Description>red</Description>\n<DocumentCreator>A laboratory</DocumentCreator>\n"
    "<DocumentCreationDate>2026-11-28</DocumentCreationDate>\n</Header>\n";
const std::string data =
    "<SpectralData wavelength=\"390\">0.5</SpectralData>\n"
    "<SpectralData wavelength=\"400.5\">1e-1</SpectralData>\n"
    "<SpectralData wavelength=\"555\"> 2.25 </SpectralData>\n"
    "<SpectralData wavelength=\"720\">0</SpectralData>\n";

std::string distribution(const std::string& content) {
    return "<SpectralDistribution>\n<SpectralQuantity>relative</SpectralQuantity>\n" + content +
           "</SpectralDistribution>\n";
}

/// Line 2 is the root's, 3 the header's, 4 to 6 its elements, 8 that of SpectralDistribution, 10 the first of the data.
std::string document(const std::string& content, const std::string& space = "iestm2714") {
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<IESTM2714 xmlns=\"" + space +
           "\" version=\"1.0\">\n" + content + "</IESTM2714>\n";
}

std::string whole(const std::string& rows = data) { return document(header + distribution(rows)); }

TEST(Tm27, ReadsUnevenWavelengthsInBothNamespaces) {
    const Spectrum wanted({390.0, 400.5, 555.0, 720.0}, {0.5, 0.1, 2.25, 0.0});
    for (const char* space : {"iestm2714", "http://www.ies.org/iestm2714"}) {
        const SpectralFile file = parsed(document(header + distribution(data), space));
        ASSERT_EQ(file.lights.size(), 1U);
        EXPECT_EQ(file.lights.front().name, "red");
        EXPECT_EQ(file.lights.front().light, wanted);
        EXPECT_EQ(file.unit, LightUnit::relative);
        EXPECT_TRUE(says(file.understood, "TM-27 XML.")) << joined(file.understood);
        EXPECT_FALSE(says(file.understood, "Lacks")) << joined(file.understood);
        EXPECT_FALSE(says(file.understood, "Tabs")) << joined(file.understood);
        EXPECT_TRUE(warns(file, "coarse_step"));
    }
}

TEST(Tm27, ReadsElementsWithAPrefix) {
    std::string text = whole();
    for (const char* element :
         {"IESTM2714", "Header", "Description", "DocumentCreator>", "DocumentCreationDate",
          "SpectralDistribution", "SpectralQuantity", "SpectralData "}) {
        for (const std::string mark : {"<", "</"}) {
            for (std::size_t at = text.find(mark + element); at != std::string::npos;
                 at = text.find(mark + element, at + 3)) {
                text.insert(at + mark.size(), "t:");
            }
        }
    }
    for (std::size_t at = text.find("</SpectralData>"); at != std::string::npos;
         at = text.find("</SpectralData>", at)) {
        text.insert(at + 2, "t:");
    }
    text.replace(text.find("xmlns="), 6, "xmlns:t=");
    expect_same_lights(parsed(text).lights, parsed(whole()).lights);
}

TEST(Tm27, TellsWhatTheHeaderLacksAndStates) {
    const SpectralFile file =
        parsed(document("<Header><DocumentCreator>x</DocumentCreator></Header>"
                        "<SpectralDistribution><BandwidthFWHM>5</BandwidthFWHM>"
                        "<BandwidthCorrected>false</BandwidthCorrected>" +
                        data + "</SpectralDistribution>"));
    EXPECT_EQ(file.lights.front().name, "light");
    EXPECT_TRUE(says(file.understood,
                     "Lacks what TM-27 requires: Description, DocumentCreationDate, "
                     "SpectralQuantity."))
        << joined(file.understood);
    EXPECT_TRUE(says(file.understood, "a bandwidth (FWHM) of \"5\", corrected: \"false\""))
        << joined(file.understood);
}

TEST(Tm27, TakesTheUnitThatCommentsState) {
    const std::string comments =
        "<Header><Description>red</Description>"
        "<Comments>values in mW/(sr m2 nm)</Comments></Header>";
    const SpectralFile file = parsed(document(comments + distribution(data)));
    EXPECT_EQ(file.unit, LightUnit::spectral_radiance);
    EXPECT_EQ(file.lights.front().light.values()[2], 0.00225);
}

TEST(Tm27, RefusesInOneLineWithItsPlace) {
    const auto row = [](const std::string& nm, const std::string& value) {
        return "<SpectralData wavelength=\"" + nm + "\">" + value + "</SpectralData>\n";
    };
    expect_refusal(whole(data + row("555", "1")), "14:2", {"555 a second time, after line 12"});
    expect_refusal(whole(row("380", "nan") + data), "10:32", {"\"nan\"", "finite"});
    expect_refusal(whole(row("380", "inf") + data), "10:32", {"\"inf\"", "finite"});
    expect_refusal(whole(row("380", "1e999") + data), "10:32", {"beyond the range"});
    expect_refusal(whole(row("380", "0,5") + data), "10:32", {"\"0,5\""});
    expect_refusal(whole(row("380", "") + data), "10:2", {"no bare number"});
    expect_refusal(whole(row("380", "1<!-- --> 2") + data), "10:2", {"no bare number"});
    expect_refusal(whole(row("380", "1&#0;2") + data), "10:32", {"character reference"});
    expect_refusal(whole(row("380&#0;1", "1") + data), "10:2", {"character reference"});
    expect_refusal(whole(row("nm", "1") + data), "10:2", {"\"nm\" for a wavelength"});
    expect_refusal(whole("<SpectralData>1</SpectralData>\n" + data), "10:2",
                   {"without an attribute wavelength"});
    expect_refusal(whole(""), "8:2", {"without SpectralData"});
    expect_refusal(whole(row("380", "1")), "10:2", {"single wavelength"});
    expect_refusal(document(distribution(data)), "2:2", {"no Header"});
    expect_refusal(document(header), "2:2", {"no SpectralDistribution"});
    expect_refusal(document(header + distribution(data) + distribution(data)), "15:2",
                   {"a second SpectralDistribution"});
    expect_refusal(document(header + distribution(data), "other"), "2:2",
                   {"\"other\"", "iestm2714"});
    expect_refusal("<?xml version=\"1.0\"?>\n<html/>", "2:2", {"\"html\"", "IESTM2714"});
    expect_refusal(whole().substr(0, whole().find(" 2.25")), "12:31", {"XML that isn't whole"});
    std::string reflectance = whole();
    reflectance.replace(reflectance.find(">relative<"), 10, ">reflectance<");
    expect_refusal(reflectance, "9:2", {"\"reflectance\"", "quantity of light"});
    expect_refusal(
        document("<Header><Description>a&#7;b</Description></Header>\n" + distribution(data)),
        "3:10", {"control character"});
}

TEST(Tm27, RefusesHostileXml) {
    std::string laughs =
        "<?xml version=\"1.0\"?>\n<!DOCTYPE lolz [<!ENTITY a \"ha\"><!ENTITY b \"&a;&a;&a;\">]>\n";
    expect_refusal(laughs + whole().substr(whole().find("<IES")), "1:1",
                   {"document type declaration"});
    std::string deep = "<?xml version=\"1.0\"?>";
    for (int i = 0; i < 300000; ++i) {
        deep += "<a>";
    }
    expect_refusal(deep, "1:900021", {"XML that isn't whole"});
    expect_refusal(deep + deep.substr(21), "1:1", {"more than 400000 characters <"});
    std::string many = whole();
    for (int i = 0; i < 200000; ++i) {
        many += "<a b=''/>\n";
    }
    EXPECT_THROW(parsed(many), Error);
}

TEST(Tm27, WhatIsWrittenReadsBackToTheBit) {
    const std::vector<LightColumn> lights = {
        {"green & <\"light\">", Spectrum({380.0, 400.0, 512.3456789012345, 780.0},
                                         {1.0 / 3.0, 1e-17, 0.1234567890123456789, 5e-324})}};
    for (const LightUnit unit : {LightUnit::relative, LightUnit::spectral_radiance}) {
        const std::string text =
            tm27_text({{"a comment"}, "2026-11-28", "A laboratory"}, lights, unit);
        for (const char* required : {"<Description>", "<DocumentCreator>A laboratory<",
                                     "<DocumentCreationDate>2026-11-28<", "<SpectralQuantity>",
                                     "<SpectralData wavel", "xmlns=\"iestm2714\""}) {
            EXPECT_NE(text.find(required), std::string::npos) << required << '\n' << text;
        }
        const SpectralFile file = parsed(text);
        expect_same_lights(file.lights, lights);
        EXPECT_EQ(file.unit, unit);
        // The plain form between: CSV to TM-27 and back to the same CSV.
        const SpectralFile csv = parsed(spectral_csv_text({}, lights, unit));
        EXPECT_EQ(tm27_text({{"a comment"}, "2026-11-28", "A laboratory"}, csv.lights, csv.unit),
                  text);
    }
}

TEST(Tm27, RefusesToWriteWhatTheFormCannotHold) {
    const LightColumn light{"red", Spectrum({390.0, 720.0}, {1.0, 2.0})};
    const std::vector<LightColumn> one = {light};
    const std::vector<LightColumn> two = {light, {"green", light.light}};
    EXPECT_THROW(static_cast<void>(tm27_text({{}, "2026-11-28"}, two)), Error);
    for (const char* date : {"", "2026-02-30", "28.11.2026", "2026-1-1", "2026-11-28T00:00",
                             "2026-0a-28", "2026-11-2x", "2o26-11-28", "2026-11 28"}) {
        EXPECT_THROW(static_cast<void>(tm27_text({{}, date}, one)), Error) << date;
        EXPECT_THROW(static_cast<void>(cgats_text({{}, date}, one)), Error) << date;
    }
    EXPECT_THROW(static_cast<void>(tm27_text({{"two\nlines"}, "2026-11-28"}, one)), Error);
    EXPECT_THROW(static_cast<void>(tm27_text({{}, "2026-11-28", "two\nlines"}, one)), Error);
}

}  // namespace
}  // namespace samelight::io::test
