// Which lights under one name are one light: how far true repeats may differ, and what isn't one.
#include <array>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "numeric/test_random.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "spectral_files.hpp"

namespace samelight::io::test {
namespace {

using samelight::test::Random;
using Light = std::function<double(double)>;

double bell(double nm, double centre, double width) {
    const double t = (nm - centre) / width;
    return std::exp2(-4.0 * t * t);
}

double red(double nm) { return bell(nm, 625.0, 25.0); }
double green(double nm) { return 0.8 * bell(nm, 530.0, 40.0); }

/// Wavelengths down, each light a column.
std::string file_of_lights(const std::string& names, const std::vector<Light>& lights,
                           double step_nm = 5.0) {
    std::string text = "wavelength_nm," + names + "\n";
    for (double nm = 380.0; nm <= 780.0; nm += step_nm) {
        text += to_text(nm);
        for (const Light& light : lights) {
            text += "," + to_text(light(nm), 9);
        }
        text += "\n";
    }
    return text;
}

Light times(double factor, Light light) {
    return [=](double nm) { return factor * light(nm); };
}

Light with_noise(Light light, double deviation, Random& random) {
    return [=, &random](double nm) { return light(nm) + deviation * random.normal(); };
}

TEST(SpectralCsvRepeats, OfTwoPictureModesAreRefusedWithBothColumns) {
    // Red at 84 %: 0.16 / 0.92 of the mean of both.
    expect_refusal(
        file_of_lights("red,green,red,green", {red, green, times(0.84, red), times(0.8, green)}),
        "1:25",
        {"\"red\" in column 2 and \"red\" in column 4 differ by 17.4 % in their light",
         "by 0.0000 in CIE 1931 x, y", "two picture modes",
         "wanted repeats of one light, within 10 %", "one picture mode in each file"});
    expect_refusal(file_of_lights("red,red 2,green", {red, times(1.25, red), green}), "1:19",
                   {"\"red\" in column 2 and \"red 2\" in column 3 differ by 22.2 %"});
    // Across, each light has a line.
    std::string across = "name";
    std::string first = "red";
    std::string second = "red";
    for (int nm = 380; nm <= 780; nm += 10) {
        across += "," + std::to_string(nm);
        first += "," + to_text(red(nm), 6);
        second += "," + to_text(1.25 * red(nm), 6);
    }
    expect_refusal(across + "\n" + first + "\n" + second + "\n", "3:1",
                   {"\"red\" in line 2 and \"red\" in line 3 differ by 22.2 %"});
}

TEST(SpectralCsvRepeats, OfOneLevelButOtherColourAreRefused) {
    // A mode that mixes a twentieth of green into red, dimmed to the same area. Second route: x, y by the plain sum of another program
    // would differ by .02 or so; here the bound is that it is above the .01 that is allowed.
    const double area = 25.0 + 0.05 * 0.8 * 40.0;
    const Light mixed = [=](double nm) { return 25.0 / area * (red(nm) + 0.05 * green(nm)); };
    expect_refusal(
        file_of_lights("red,blue,red 2",
                       {red, [](double nm) { return bell(nm, 450.0, 20.0); }, mixed}),
        "1:24",
        {"\"red\" in column 2 and \"red 2\" in column 4 differ by 0 %", "in CIE 1931 x, y"});
}

TEST(SpectralCsvRepeats, ThatDriftAreAveraged) {
    // 5 % either way, and an LED that warms: 1 nm.
    const Light warm = [](double nm) { return 0.95 * bell(nm, 626.0, 25.0); };
    const SpectralFile file = parsed(file_of_lights("red,red 2", {times(1.049, red), warm}, 1.0));
    ASSERT_EQ(file.lights.size(), 1U);
    EXPECT_EQ(file.lights[0].repeats, 2);
    EXPECT_TRUE(warns(file, "repeats_differ"));
    EXPECT_FALSE(
        warns(parsed(file_of_lights("red,red 2", {times(1.02, red), red}, 1.0)), "repeats_differ"));
}

TEST(SpectralCsvRepeats, TheTwoThatDifferMostAreNamed) {
    const std::string text = file_of_lights(
        "red 1,red 2,red 3,red 4", {red, times(1.03, red), times(0.92, red), times(1.05, red)});
    expect_refusal(text, "1:33",
                   {"\"red 3\" in column 4 and \"red 4\" in column 5 differ by 13.2 %"});
}

TEST(SpectralCsvRepeats, OfADimLightMayDifferByItsNoise) {
    // Noise of 15 % of the peak in each of 401 samples: areas scatter by 4 in 27, so that pairs differ by 15 % more often than not.
    Random random(91);
    int far_apart = 0;
    for (int k = 0; k < 40; ++k) {
        const Light dim = [](double nm) { return 0.004 * red(nm); };
        const Light bright = [](double nm) { return bell(nm, 530.0, 40.0); };
        const std::string text = file_of_lights(
            "red,red 2,green",
            {with_noise(dim, 0.0006, random), with_noise(dim, 0.0006, random), bright}, 1.0);
        const SpectralFile file = parsed(text);
        ASSERT_EQ(file.lights.size(), 2U);
        far_apart += file.lights[0].repeat_spread > 0.0708 ? 1 : 0;
    }
    EXPECT_GT(far_apart, 10) << "or the limit would never have been asked";
    // But noise is no excuse for a light of three times the strength.
    const Light strong = [](double nm) { return 0.012 * red(nm); };
    EXPECT_THROW(parsed(file_of_lights(
                     "red,red 2,green",
                     {with_noise([](double nm) { return 0.004 * red(nm); }, 0.0006, random),
                      with_noise(strong, 0.0006, random), green},
                     1.0)),
                 Error);
}

TEST(SpectralCsvRepeats, OfACoarselySampledLightHaveNoNoiseToHideBehind) {
    // At 10 nm a line of 12 nm has large fourth differences, but two of it have the same.
    const Light line = [](double nm) {
        return bell(nm, 612.0, 12.0) + bell(nm, 545.0, 12.0) + bell(nm, 437.0, 12.0) +
               bell(nm, 490.0, 12.0);
    };
    EXPECT_THROW(parsed(file_of_lights("white,white", {line, times(0.84, line)}, 10.0)), Error);
}

TEST(SpectralCsvRepeats, OfOneColourButAnotherSpectrumAreRefusedWithHowFarApart) {
    // A third of the light where no eye sees it, once at 720 and once at 765 nm: as strong, of one colour, and each as far from their mean as that
    // third is of the whole.
    const double beside = 0.5 * 0.8 * 40.0 / 10.0;
    const Light first = [=](double nm) { return green(nm) + beside * bell(nm, 720.0, 10.0); };
    const Light second = [=](double nm) { return green(nm) + beside * bell(nm, 765.0, 10.0); };
    expect_refusal(
        file_of_lights("green,green 2", {first, second}, 1.0), "1:15",
        {"\"green\" lies 33 % from the mean of 2 lights called \"green\"", "within 20 %"});
}

TEST(SpectralCsvRepeats, OfBlackAreNeverCompared) {
    const SpectralFile file = parsed(file_of_lights(
        "black,black,white", {[](double) { return 0.0002; }, [](double) { return 0.0004; }, red}));
    EXPECT_EQ(file.lights[0].repeats, 2);
}

}  // namespace
}  // namespace samelight::io::test
