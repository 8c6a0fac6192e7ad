// A black may be noise around zero, and nothing else below it.
#include <cmath>
#include <functional>
#include <string>
#include <vector>

#include "numeric/facts.hpp"
#include "numeric/test_random.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "spectral_files.hpp"

namespace samelight::io::test {
namespace {

using samelight::test::Random;

/// A white of 1 at its peak, 560 nm, and a black by 1 nm.
std::string file_of(const std::function<double(double)>& black) {
    std::string text = "wavelength_nm,white,black\n";
    for (int nm = 380; nm <= 780; ++nm) {
        const double t = (nm - 560.0) / 150.0;
        text += std::to_string(nm) + "," + to_text(std::exp2(-4.0 * t * t), 6) + "," +
                to_text(black(nm), 9) + "\n";
    }
    return text;
}

TEST(BlackBelowZero, NoiseOfEverySizeIsRead) {
    Random random(95);
    for (const double deviation : {1e-6, 1e-4, 1e-3, 0.01}) {
        for (int k = 0; k < 50; ++k) {
            const SpectralFile file =
                parsed(file_of([&](double) { return deviation * random.normal(); }));
            EXPECT_TRUE(says(file.understood, "\"black\" holds noise around zero, down to -"));
            EXPECT_FALSE(warns(file, "negative_noise"));
        }
    }
}

TEST(BlackBelowZero, NoiseThatAnInstrumentSmoothedIsRead) {
    // A running mean of 12 samples: neighbours share their signs.
    Random random(96);
    for (int k = 0; k < 100; ++k) {
        std::vector<double> raw;
        for (int i = 0; i < 420; ++i) {
            raw.push_back(0.01 * random.normal());
        }
        EXPECT_NO_THROW(parsed(file_of([&](double nm) {
            double sum = 0.0;
            for (int i = 0; i < 12; ++i) {
                sum += raw[static_cast<std::size_t>(nm) - 380 + static_cast<std::size_t>(i)] / 12.0;
            }
            return sum;
        })));
    }
}

TEST(BlackBelowZero, DimLightWithNoiseIsRead) {
    Random random(97);
    EXPECT_NO_THROW(parsed(file_of([&](double) { return 1e-3 + 2e-3 * random.normal(); })));
}

TEST(BlackBelowZero, HalfOfWhitesPeakIsRefused) {
    Random random(98);
    const std::string text = file_of([&](double) { return -0.5 + 1e-4 * random.normal(); });
    try {
        (void)parsed(text);
        ADD_FAILURE() << "accepted";
    } catch (const Error& error) {
        const std::string message = error.what();
        for (const char* part : {"\"black\" lies on average 0.5 below zero from 380 to 780 nm",
                                 ", 50 % of the brightest peak", "no noise around zero",
                                 "; wanted a black as light or as noise around zero"}) {
            EXPECT_NE(message.find(part), std::string::npos) << message << "\nlacks " << part;
        }
    }
}

TEST(BlackBelowZero, AnOffsetUnderTheNoiseIsRefusedWhereItMatters) {
    // Six tenths of a standard deviation below zero: 12 standard errors of 401 samples.
    Random random(99);
    const auto offset_of = [&](double size) {
        return file_of([&, size](double) { return size * (random.normal() - 0.6); });
    };
    for (int k = 0; k < 20; ++k) {
        EXPECT_THROW(parsed(offset_of(0.01)), Error);
    }
    // A hundred times smaller nobody can see it: kept, and said.
    const SpectralFile small = parsed(offset_of(1e-4));
    EXPECT_TRUE(warns(small, "negative_noise"));
    EXPECT_EQ(samelight::test::texts_of(small.warnings.front(), "columns"),
              std::vector<std::string>{"black"});
    const std::vector<double> lowest =
        samelight::test::numbers_of(small.warnings.front(), "lowest");
    ASSERT_EQ(lowest.size(), 1U);
    EXPECT_LT(lowest[0], 0.0);
    EXPECT_GT(lowest[0], -0.1);
}

TEST(BlackBelowZero, ARunOfItIsRefusedWithItsPlace) {
    // Noise around zero, but for 41 wavelengths at -0.3 % of white's peak.
    Random random(100);
    const std::string text = file_of([&](double nm) {
        return (nm >= 430.0 && nm <= 470.0 ? -0.003 : 0.0) + 5e-4 * random.normal();
    });
    try {
        (void)parsed(text);
        ADD_FAILURE() << "accepted";
    } catch (const Error& error) {
        const std::string message = error.what();
        EXPECT_NE(message.find("below zero from 430 to 47"), std::string::npos) << message;
    }
}

TEST(BlackBelowZero, ARunFromTheFirstWavelengthIsRefusedWithItsPlace) {
    Random random(103);
    const std::string text =
        file_of([&](double nm) { return (nm <= 420.0 ? -0.004 : 0.0) + 5e-4 * random.normal(); });
    std::string message;
    try {
        (void)parsed(text);
    } catch (const Error& error) {
        message = error.what();
    }
    EXPECT_NE(message.find("\"black\" lies on average 0.00"), std::string::npos) << message;
    EXPECT_NE(message.find("below zero from 380 to 42"), std::string::npos) << message;
}

TEST(BlackBelowZero, ARunOfLessThanAThousandthIsRead) {
    // Alone in its file a black is judged by its own depth, here 1: a stretch that lies 0.0003 below zero is nothing beside it.
    Random random(104);
    std::string text = "wavelength_nm,black\n";
    for (int nm = 380; nm <= 780; ++nm) {
        const double wide = 0.3 * random.normal();
        const double beside = nm == 499 || nm == 561 ? 0.1 : wide;
        const double value = nm >= 500 && nm <= 560 ? -3e-4 : nm == 700 ? -1.0 : beside;
        text += std::to_string(nm) + "," + to_text(value, 9) + "\n";
    }
    EXPECT_NO_THROW(parsed(text));
}

TEST(BlackBelowZero, NoiseThatIsMuchWiderThanWhitesIsRefusedInAnyUnit) {
    // Noise of 4 % of white's peak, where white has next to none: in units in which that peak is 1, 0.3 and 40.
    for (const double peak : {1.0, 0.3, 40.0}) {
        Random random(105);
        std::string text = "wavelength_nm,white,black\n";
        for (int nm = 380; nm <= 780; ++nm) {
            const double t = (nm - 560.0) / 150.0;
            text += std::to_string(nm) + "," + to_text(peak * std::exp2(-4.0 * t * t), 9) + "," +
                    to_text(0.04 * peak * random.normal(), 9) + "\n";
        }
        EXPECT_THROW(parsed(text), Error) << peak;
    }
}

TEST(BlackBelowZero, TheShareThatIsSaidIsOfThePeak) {
    // White's peak is 4 and the black lies 1 below zero: 25 %.
    std::string text = "wavelength_nm,white,black\n";
    for (int nm = 380; nm <= 780; ++nm) {
        const double t = (nm - 560.0) / 150.0;
        text += std::to_string(nm) + "," + to_text(4.0 * std::exp2(-4.0 * t * t), 9) + ",-1\n";
    }
    try {
        (void)parsed(text);
        ADD_FAILURE() << "accepted";
    } catch (const Error& error) {
        EXPECT_NE(std::string(error.what()).find(", 25 % of the brightest peak"), std::string::npos)
            << error.what();
    }
}

TEST(BlackBelowZero, OneValueFarFromAllOthersIsRefused) {
    Random random(101);
    const std::string text =
        file_of([&](double nm) { return nm == 600.0 ? -0.02 : 1e-4 * random.normal(); });
    expect_refusal(text, "222:14", {"\"black\" lies 0.02 below zero at 600 nm, 2 % of"});
}

TEST(BlackBelowZero, AloneInItsFileItIsJudgedByItself) {
    Random random(102);
    const auto alone = [&](double offset) {
        std::string text = "wavelength_nm,black\n";
        for (int nm = 380; nm <= 780; ++nm) {
            text += std::to_string(nm) + "," + to_text(offset + 0.001 * random.normal(), 9) + "\n";
        }
        return text;
    };
    EXPECT_NO_THROW(parsed(alone(0.0)));
    EXPECT_THROW(parsed(alone(-0.01)), Error);
}

}  // namespace
}  // namespace samelight::io::test
