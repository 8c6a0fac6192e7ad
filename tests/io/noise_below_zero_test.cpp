// Noise below zero is read whatever its size; what no noise makes is refused. Spectra: the built-in panels' shapes; noise: drawn here, with
// fixed seeds. Rates are those that are stated beside the functions.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "io/spectral_files.hpp"
#include "numeric/test_random.hpp"
#include "samelight/display/types/generic_panel.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::io::test {
namespace {

using samelight::test::Random;
using LightValues = std::vector<double>;

struct Shape {
    std::string panel;
    std::vector<LightValues> lights;  ///< red, green, blue, white, black; 1 is the brightest peak
};

/// What an instrument would read without noise every `step` nm.
std::vector<Shape> shapes(std::size_t step) {
    std::vector<Shape> result;
    for (const GenericModel& model : generic_models()) {
        const Panel panel = generic_panel(model);
        Shape shape{std::string(model.name()), std::vector<LightValues>(5)};
        double peak = 0.0;
        for (Eigen::Index i = 0; i < panel.emitters().rows(); i += static_cast<int>(step)) {
            double white = 0.0;
            for (std::size_t k = 0; k < 3; ++k) {
                const double value = panel.emitters()(i, static_cast<Eigen::Index>(k));
                shape.lights[k].push_back(value);
                white += value;
            }
            shape.lights[3].push_back(white);
            shape.lights[4].push_back(1e-4 * white);
            peak = std::max(peak, white);
        }
        for (LightValues& light : shape.lights) {
            for (double& value : light) {
                value /= peak;
            }
        }
        result.push_back(std::move(shape));
    }
    return result;
}

std::string file_of(const std::vector<LightValues>& lights, std::size_t step,
                    const std::string& heading = "nm,red,green,blue,white,black\n") {
    std::string text = heading;
    for (std::size_t i = 0; i < lights.front().size(); ++i) {
        text += std::to_string(380 + step * i);
        for (const LightValues& light : lights) {
            text += "," + to_text(light[i], 7);
        }
        text += "\n";
    }
    return text;
}

std::vector<LightValues> with_noise(std::vector<LightValues> lights, double deviation,
                                    Random& random) {
    for (LightValues& light : lights) {
        for (double& value : light) {
            value += deviation * random.normal();
        }
    }
    return lights;
}

bool is_read(const std::string& text) {
    try {
        static_cast<void>(parsed(text));
        return true;
    } catch (const Error&) {
        return false;
    }
}

// In the order of small to large: a projector in a dim room has noise of some per cent.
const std::vector<double> deviations{0.001, 0.003, 0.01, 0.02, 0.03};

TEST(NoiseBelowZero, WhiteNoiseOfEverySizeIsRead) {
    Random random(201);
    std::size_t files = 0;
    std::size_t refused = 0;
    for (const std::size_t step : {1U, 2U, 4U, 5U, 10U}) {
        for (const Shape& shape : shapes(step)) {
            for (const double deviation : deviations) {
                for (int k = 0; k < 4; ++k) {
                    const std::string text =
                        file_of(with_noise(shape.lights, deviation, random), step);
                    ++files;
                    if (!is_read(text)) ++refused;
                }
            }
        }
    }
    ASSERT_EQ(files, 900U);  // 3,600 lights and as many blacks as files
    EXPECT_LE(refused, 4U) << "stated: fewer than 1 light in 1000";
}

TEST(NoiseBelowZero, WhatIsReadSaysHowFarItGoes) {
    Random random(202);
    const Shape shape = shapes(1).front();
    const SpectralFile file = parsed(file_of(with_noise(shape.lights, 0.02, random), 1));
    ASSERT_TRUE(warns(file, "negative_noise"));
    const auto* columns = file.warnings.front().find<std::vector<std::string>>("columns");
    const auto* lowest = file.warnings.front().find<std::vector<double>>("lowest");
    ASSERT_TRUE(columns != nullptr && lowest != nullptr);
    ASSERT_EQ(columns->size(), lowest->size());
    EXPECT_EQ(columns->front(), "red");
    constexpr double noise = 0.02;
    // Of some hundred normal values the lowest lies between 1.5 and 5 standard deviations down.
    EXPECT_LT(lowest->front(), -1.5 * noise);
    EXPECT_GT(lowest->front(), -5.0 * noise);
}

/// The share of files of one light that are refused when `spoil` has changed it.
template <class F>
double share_refused(double deviation, std::size_t step, Random& random, F&& spoil) {
    std::size_t files = 0;
    std::size_t refused = 0;
    for (const Shape& shape : shapes(step)) {
        const std::vector<LightValues> noisy = with_noise(shape.lights, deviation, random);
        for (std::size_t k = 0; k < 4; ++k) {
            std::vector<LightValues> spoilt{noisy[k], noisy[3]};
            if (!spoil(spoilt.front())) continue;
            ++files;
            if (!is_read(file_of(spoilt, step, "nm,red,white\n"))) ++refused;
        }
    }
    return static_cast<double>(refused) / static_cast<double>(std::max<std::size_t>(files, 1));
}

TEST(NoiseBelowZero, ADarkLevelTakenOffTwiceIsRefused) {
    Random random(203);
    const auto offset = [](LightValues& light) {
        for (double& value : light) {
            value -= 0.01;
        }
        return true;
    };
    // The rest of the columns are nowhere that dark.
    EXPECT_GT(share_refused(0.001, 1, random, offset), 0.85);
    EXPECT_GT(share_refused(0.003, 2, random, offset), 0.85);
    EXPECT_GT(share_refused(0.003, 5, random, offset), 0.8);
    EXPECT_GT(share_refused(0.01, 1, random, offset), 0.75);
}

TEST(NoiseBelowZero, TheSameOfAllLightsIsKnownByTheBlackUnderNoiseTwiceAsLarge) {
    Random random(204);
    for (const double deviation : {0.001, 0.003, 0.01, 0.02}) {
        for (const Shape& shape : shapes(1)) {
            std::vector<LightValues> lights = with_noise(shape.lights, deviation, random);
            for (LightValues& light : lights) {
                for (double& value : light) {
                    value -= 0.01;
                }
            }
            EXPECT_FALSE(is_read(file_of(lights, 1))) << shape.panel << ' ' << deviation;
        }
    }
}

TEST(NoiseBelowZero, AMinusSignTooManyIsRefused) {
    Random random(205);
    std::size_t seed = 0;
    for (const double deviation : deviations) {
        // A value that stands out of the noise, one after another.
        const auto swapped = [&](LightValues& light) {
            std::vector<std::size_t> bright;
            for (std::size_t i = 0; i < light.size(); ++i) {
                if (light[i] > std::max(0.02, 10.0 * deviation)) bright.push_back(i);
            }
            if (bright.empty()) return false;
            double& value = light[bright[(seed += 7) % bright.size()]];
            value = -value;
            return true;
        };
        EXPECT_GT(share_refused(deviation, 1, random, swapped), 0.94) << deviation;
        EXPECT_GT(share_refused(deviation, 5, random, swapped), 0.85) << deviation;
        const auto negated = [](LightValues& light) {
            for (double& value : light) {
                value = -value;
            }
            return true;
        };
        EXPECT_EQ(share_refused(deviation, 1, random, negated), 1.0) << deviation;
    }
}

TEST(NoiseBelowZero, TheReasonIsSaid) {
    Random random(206);
    const Shape shape = shapes(1)[1];
    std::vector<LightValues> lights = with_noise(shape.lights, 0.002, random);
    lights[0][50] = -0.2;
    expect_refusal(file_of(lights, 1), "52:5",
                   {"-0.2 for \"red\" at 430 nm", "-0.5 % of the brightest peak",
                    "its own noise makes it, of which a value has 0.002", "a minus sign too many"});
}

TEST(NoiseBelowZero, AStretchBelowZeroIsSaidAsAShareOfThePeak) {
    // A red that lies 2 % of white's peak below zero from 380 to 480 nm, under noise that would hide single values.
    Random random(207);
    const Shape shape = shapes(1)[1];
    std::vector<LightValues> lights = with_noise(shape.lights, 0.006, random);
    for (std::size_t i = 0; i <= 100; ++i) {
        lights[0][i] -= 0.02;
    }
    std::string message;
    try {
        static_cast<void>(parsed(file_of(lights, 1)));
    } catch (const Error& error) {
        message = error.what();
    }
    const std::size_t mean = message.find("\"red\" lies on average ");
    const std::size_t share = message.find("which is ");
    ASSERT_TRUE(mean != std::string::npos && share != std::string::npos) << message;
    EXPECT_NEAR(std::stod(message.substr(mean + 23)), 0.02, 0.004) << message;
    EXPECT_NEAR(std::stod(message.substr(share + 9)), 2.0, 0.4) << message;
    EXPECT_NE(message.find(" % of the brightest peak, 1"), std::string::npos) << message;
}

}  // namespace
}  // namespace samelight::io::test
