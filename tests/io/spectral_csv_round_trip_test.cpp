// What is written can be read again, to the bit.
#include <cmath>
#include <cstdint>
#include <cstring>
#include <random>

#include "spectral_files.hpp"

#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::io::test {
namespace {

std::uint64_t bits(double value) {
    std::uint64_t result = 0;
    std::memcpy(&result, &value, sizeof result);
    return result;
}

/// Lights of any magnitude, with all bits of their values at random; noise below zero; wavelengths in uneven steps.
std::vector<LightColumn> random_lights(std::mt19937_64& random) {
    const auto uniform = [&] { return static_cast<double>(random() >> 11U) * 0x1p-53; };
    std::vector<double> nm = {399.0 * (1.0 - 0.5 * uniform())};
    while (nm.back() < 700.0) {
        nm.push_back(nm.back() + 1e-3 + 12.0 * uniform());
    }
    const std::vector<std::string> parts = {"red", "a,b", "\"", "λ", "x;y", "%", "W", "7", "'", "#",
                                            " ",   "nm",  "-",  "_", "(2)", ".", "²", "0", "k"};
    std::vector<LightColumn> lights;
    const std::size_t count = 1 + random() % 5;
    for (std::size_t k = 0; k < count; ++k) {
        // Between letters, so that no two are repeats of one another and none has blanks at its ends.
        std::string name(1, static_cast<char>('a' + k));
        for (std::size_t i = random() % 5; i > 0; --i) {
            name += parts[random() % parts.size()];
        }
        name += 'z';
        std::vector<double> values;
        for (std::size_t i = 0; i < nm.size(); ++i) {
            values.push_back(std::ldexp(uniform(), -static_cast<int>(random() % 1100)));
            if (random() % 7 == 0) values.back() = -0.0;
            if (random() % 7 == 0) values.back() = -0.004 * uniform();
        }
        values[random() % values.size()] = 1.0 + uniform();
        lights.push_back({name, Spectrum(nm, values)});
    }
    return lights;
}

TEST(SpectralCsvRoundTrip, IsExactToTheBit) {
    std::mt19937_64 random(20240301);  // one seed for ever: a failure can be looked at again
    for (int trial = 0; trial < 500; ++trial) {
        const std::vector<LightColumn> lights = random_lights(random);
        const LightUnit unit = trial % 2 == 0 ? LightUnit::relative : LightUnit::spectral_radiance;
        const std::string text =
            spectral_csv_text({"trial, \"" + std::to_string(trial) + '"'}, lights, unit);
        const SpectralFile file = parse_spectral_csv(text, "written.csv");
        EXPECT_EQ(file.unit, unit);
        ASSERT_EQ(file.lights.size(), lights.size()) << text.substr(0, 300);
        for (std::size_t k = 0; k < lights.size(); ++k) {
            EXPECT_EQ(file.lights[k].name, lights[k].name);
            ASSERT_EQ(file.lights[k].light.size(), lights[k].light.size());
            for (std::size_t i = 0; i < lights[k].light.size(); ++i) {
                EXPECT_EQ(bits(file.lights[k].light.values()[i]),
                          bits(lights[k].light.values()[i]));
                EXPECT_EQ(bits(file.lights[k].light.wavelengths_nm()[i]),
                          bits(lights[k].light.wavelengths_nm()[i]));
            }
        }
    }
}

TEST(SpectralCsvRoundTrip, EveryTestFileSurvivesIt) {
    for (const char* name :
         {"plain.csv", "across_nm.csv", "microwatts_latin1.csv", "repeats_letters.csv",
          "steps_uneven.csv", "no_heading.csv", "quoted_decimal_commas.csv"}) {
        const SpectralFile file = read_spectral_csv(data_file(name));
        const std::string text = spectral_csv_text({}, file.lights, file.unit);
        const SpectralFile again = parse_spectral_csv(text, name);
        EXPECT_EQ(again.unit, file.unit) << name;
        expect_same_lights(again.lights, file.lights);
        EXPECT_EQ(spectral_csv_text({}, again.lights, again.unit), text) << name;
    }
}

TEST(SpectralCsvWriter, WritesThePlainForm) {
    const std::vector<double> nm = {380.0, 580.5, 780.0};
    const std::vector<LightColumn> lights = {{"x", Spectrum(nm, {0.1, 1e-7, 2.0})},
                                             {"y, \"bar\"", Spectrum(nm, {1.0, 0.25, 3.0})}};
    EXPECT_EQ(
        spectral_csv_text({"first", ""}, lights),
        "# first\n# \nwavelength_nm,x,\"y, \"\"bar\"\"\"\n380,0.1,1\n580.5,1e-07,0.25\n780,2,3\n");
    EXPECT_EQ(
        spectral_csv_text({}, std::span(lights).first(1), LightUnit::spectral_radiance),
        "# Spectral radiance in W/(sr m2 nm).\nwavelength_nm,x\n380,0.1\n580.5,1e-07\n780,2\n");
    // The very text of the file that it was read from.
    const SpectralFile plain = read_spectral_csv(data_file("plain.csv"));
    const SpectralFile again = parse_spectral_csv(spectral_csv_text({}, plain.lights), "again");
    expect_same_lights(again.lights, plain.lights);
}

TEST(SpectralCsvWriter, RefusesWhatCouldNotBeReadAgain) {
    const std::vector<double> nm = {380.0, 780.0};
    const auto light = [&](const std::string& name) {
        return LightColumn{name, Spectrum(nm, {1.0, 2.0})};
    };
    const auto expect_error = [](const std::vector<std::string>& comments,
                                 const std::vector<LightColumn>& lights, ErrorKind kind,
                                 const std::string& part, LightUnit unit = LightUnit::relative) {
        try {
            (void)spectral_csv_text(comments, lights, unit);
            ADD_FAILURE() << "accepted, wanted: " << part;
        } catch (const Error& error) {
            EXPECT_EQ(error.kind(), kind) << error.what();
            EXPECT_NE(std::string(error.what()).find(part), std::string::npos) << error.what();
            EXPECT_EQ(std::string(error.what()).find('\n'), std::string::npos) << error.what();
        }
    };
    constexpr ErrorKind domain = ErrorKind::domain;
    constexpr ErrorKind shape = ErrorKind::shape;
    expect_error({}, {}, shape, "no light");
    for (const std::string name : {"", " red", "red ", "re\nd",
                                   "re\x01"
                                   "d",
                                   "re\td", "red W/m2/nm"}) {
        expect_error({}, {light(name)}, domain, "the name");
    }
    expect_error({}, {light(std::string(1001, 'n'))}, domain, "the name");
    expect_error({}, {light("red"), light("Red")}, domain, "\"Red\" twice");
    const LightColumn other{"green", Spectrum({380.0, 781.0}, {1.0, 2.0})};
    expect_error({}, {light("red"), other}, shape, "other wavelengths in \"green\"");
    const LightColumn large{"green", Spectrum(nm, {1.0, 2e30})};
    expect_error({}, {large}, domain, "2e+30 in \"green\"");
    expect_error({"two\nlines"}, {light("red")}, domain,
                 "a break or control character in the comment");
    expect_error({"in mW/(sr m2 nm)"}, {light("red")}, domain, "another unit in the comment");
    expect_error({"in mW/(sr m2 nm)"}, {light("red")}, domain, "another unit",
                 LightUnit::spectral_radiance);
    EXPECT_NO_THROW((void)spectral_csv_text({"in W/(sr m2 nm)"}, std::vector{light("red")},
                                            LightUnit::spectral_radiance));
}

}  // namespace
}  // namespace samelight::io::test
