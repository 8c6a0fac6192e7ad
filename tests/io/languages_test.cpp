// Names of lights and headings of wavelengths in other languages, as people and instruments write them. Words: any dictionary.
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "io/spectral_files.hpp"

namespace samelight::io::test {
namespace {

struct Language {
    const char* wavelength;
    std::vector<std::string> names;  ///< red, green, blue, white, black
};

const std::vector<Language> languages = {
    {"Wellenlänge", {"Rot", "Grün", "Blau", "Weiß", "Schwarz"}},
    {"Wellenlaenge in nm", {"ROT", "GRUEN", "BLAU", "WEISS", "SCHWARZ"}},
    {"WELLENLÄNGE [nm]", {"rot", "GRÜN", "blau", "weiss", "schwarz"}},
    {"Longueur d'onde (nm)", {"rouge", "vert", "bleu", "blanc", "noir"}},
    {"longueur d’onde", {"ROUGE", "VERT", "BLEU", "BLANC", "NOIR"}},
    {"Longitud de onda", {"rojo", "verde", "azul", "blanco", "negro"}},
    {"Lunghezza d'onda", {"rosso", "verde", "blu", "bianco", "nero"}},
    {"Golflengte", {"rood", "groen", "blauw", "wit", "zwart"}},
    {"波長", {"赤", "緑", "青", "白", "黒"}},
    {"波長（ｎｍ）", {"赤色", "緑色", "青色", "白色", "黒色"}},
    {"波長", {"レッド", "グリーン", "ブルー", "ホワイト", "ブラック"}},
    {"波长", {"红", "绿", "蓝", "白", "黑"}},
    {"波長 (nm)", {"紅", "綠", "藍", "白", "黑"}},
    {"Wellenla\u0308nge", {"rot", "gru\u0308n", "blau", "weiß", "schwarz"}},
    {"nm", {"Ｒ", "Ｇ", "Ｂ", "Ｗ", "Ｋ"}},
};

const std::vector<std::string> five_roles{"red", "green", "blue", "white", "black"};

std::string table(const Language& language, char separator = ',') {
    std::string text = language.wavelength;
    for (const std::string& name : language.names) {
        text += separator + name;
    }
    text += '\n';
    for (const char* nm : {"400", "550", "700"}) {
        text += nm;
        for (const char* value : {"1.25", "2.25", "3.25", "4.25", "5.25"}) {
            text += separator + std::string(value);
        }
        text += '\n';
    }
    return text;
}

void expect_roles(const SpectralFile& file, const std::string& what) {
    for (std::size_t k = 0; k < five_roles.size(); ++k) {
        const LightColumn* column = file.find(five_roles[k]);
        ASSERT_NE(column, nullptr) << what << ": " << five_roles[k];
        EXPECT_EQ(column->light.values()[1], 1.25 + static_cast<double>(k)) << what;
    }
}

TEST(Languages, NameTheLights) {
    for (const Language& language : languages) {
        expect_roles(parsed(table(language)), language.names.front());
        // The heading of the wavelengths is known, too: with two columns nothing else tells a heading from a pair of key and value.
        const SpectralFile single = parsed(std::string("Person,Somebody\n") + language.wavelength +
                                           ",Sample 9\n400,1.5\n550,2.5\n700,1.5\n");
        EXPECT_EQ(single.lights.front().name, "Sample 9") << language.wavelength;
    }
}

TEST(Languages, InOtherEncodings) {
    for (const Language& language : languages) {
        std::string latin;
        std::string wide = "\xff\xfe";
        bool fits = true;
        const std::string text = table(language);
        for (std::size_t i = 0; i < text.size();) {
            const auto byte = [&](std::size_t k) {
                return static_cast<unsigned>(static_cast<unsigned char>(text[i + k]));
            };
            const std::size_t length = byte(0) < 0x80 ? 1 : byte(0) < 0xe0 ? 2 : 3;
            const unsigned code =
                length == 1   ? byte(0)
                : length == 2 ? (byte(0) & 31U) << 6U | (byte(1) & 63U)
                              : (byte(0) & 15U) << 12U | (byte(1) & 63U) << 6U | (byte(2) & 63U);
            fits = fits && code < 0x100;
            latin += static_cast<char>(code);
            wide += static_cast<char>(code & 0xffU);
            wide += static_cast<char>(code >> 8U);
            i += length;
        }
        expect_roles(parsed(wide), language.names.front());
        if (fits) expect_roles(parsed(latin), language.names.front());
    }
}

TEST(Languages, TwoNamesForOneLightAreRefused) {
    expect_refusal("nm,rot,rouge,vert,bleu\n400,1,1,1,1\n700,1,1,1,1\n", "1:8",
                   {"\"rouge\" and \"rot\" both mean red"});
}

TEST(Languages, AWordOfTwoColoursIsRefusedUnlessTheOthersTell) {
    expect_refusal("nm,红,绿,青\n400,1,1,1\n700,1,1,1\n", "1:8",
                   {"blue in Japanese", "between blue and green in Chinese", "\"红\""});
    EXPECT_NE(parsed("nm,赤,緑,青\n400,1,1,1\n700,1,1,1\n").find("blue"), nullptr);
}

TEST(Languages, WordsThatOnlyContainAColourAreNone) {
    for (const char* name : {"rottweil", "weissblech", "blues", "infrared", "青緑", "redd"}) {
        const SpectralFile file =
            parsed(std::string("nm,") + name + "\n400,1.5\n550,2.5\n700,1.5\n");
        for (const std::string& role : five_roles) {
            EXPECT_EQ(file.find(role), nullptr) << name;
        }
    }
}

TEST(Languages, RepeatsAreCountedInEachOfThem) {
    const SpectralFile file = parsed("nm,Grün 1,Grün 2\n400,1.5,1.6\n550,2.5,2.6\n700,1.5,1.6\n");
    ASSERT_NE(file.find("green"), nullptr);
    EXPECT_EQ(file.find("green")->repeats, 2);
}

}  // namespace
}  // namespace samelight::io::test
