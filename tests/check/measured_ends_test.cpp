// The ends that readings give, a display's own primaries, and whites that are none. The second routes are means by hand, and published chromaticities.
#include "samelight/check/readings/measured_ends.hpp"

#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

#include <gtest/gtest.h>

#include "samelight/check/intent/display_encoding.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::test {
namespace {

PatchReading read_as(const char* patch, double luminance, const char* mode = "",
                     const char* position = "") {
    PatchReading reading;
    reading.patch = patch;
    reading.xyz = {0.95 * luminance, luminance, 1.09 * luminance};
    reading.mode = mode;
    reading.position = position;
    return reading;
}

TEST(MeasuredEnds, AreMeansOfTheUsualModeInTheMiddle) {
    std::vector<PatchReading> readings = {read_as("white", 100.0),
                                          read_as("grey-100", 102.0),
                                          read_as("black", 0.02),
                                          read_as("grey-0", -0.01),
                                          read_as("grey-50", 20.0),
                                          read_as("white", 300.0, "vivid"),
                                          read_as("white", 80.0, "", "top left"),
                                          read_as("white", 104.0, "", "centre")};
    EXPECT_DOUBLE_EQ(measured_ends(readings).white_cd_m2.value(), 102.0);
    EXPECT_NEAR(measured_ends(readings).black_cd_m2.value(), 0.005, 1e-15);
    // A signal counts before a name, and the window that most readings have.
    readings[0].signal = std::array{0.9, 0.9, 0.9};
    EXPECT_DOUBLE_EQ(measured_ends(readings).white_cd_m2.value(), 103.0);
    readings[1].window_pct = 50.0;
    EXPECT_DOUBLE_EQ(measured_ends(readings).white_cd_m2.value(), 104.0);
    EXPECT_FALSE(measured_ends({}).white_cd_m2);
    EXPECT_FALSE(measured_ends(std::vector{read_as("red", 20.0)}).black_cd_m2);
}

TEST(MeasuredEnds, NoWhiteOfADisplayIsRefused) {
    for (const double white : {0.1, 48.0, 1e5}) {
        EXPECT_NO_THROW(require_display_white(white));
    }
    for (const double white :
         {0.0, 1e-310, 0.0999, 1.1e5, std::nan(""), std::numeric_limits<double>::infinity()}) {
        EXPECT_THROW(require_display_white(white), Error) << white;
    }
}

/// A line of 1 nm.
Spectrum line_at(int nm) {
    std::vector<double> wavelengths;
    std::vector<double> values;
    for (int at = 380; at <= 780; ++at) {
        wavelengths.push_back(at);
        values.push_back(at == nm ? 1.0 : 0.0);
    }
    return {wavelengths, values};
}

TEST(DisplayEncoding, HasTheDisplaysOwnPrimariesAboutD65) {
    // The CIE's own primaries are lines of 700.0, 546.1 and 435.8 nm: x, y of .7347, .2653; .2738, .7174; .1666, .0089 (CIE 15:2018, 7.1, from memory). Lines
    // of whole nanometres stand up to .2 nm beside them, which moves green by about .0015.
    PanelSpectra spectra{line_at(700), line_at(546), line_at(436)};
    const RgbEncoding encoding = encoding_of_panel("lines", Panel("lines", spectra));
    EXPECT_EQ(encoding.title(), "lines");
    const RgbPrimaries& primaries = encoding.primaries();
    const std::array<std::array<double, 2>, 4> published = {
        {{0.7347, 0.2653}, {0.2738, 0.7174}, {0.1666, 0.0089}, {0.3127, 0.3290}}};
    const std::array<std::array<double, 2>, 4> own = {primaries.red, primaries.green,
                                                      primaries.blue, primaries.white};
    for (std::size_t k = 0; k < own.size(); ++k) {
        for (std::size_t i = 0; i < 2; ++i) {
            EXPECT_NEAR(own.at(k).at(i), published.at(k).at(i), 0.0015) << k << " " << i;
        }
    }
}

}  // namespace
}  // namespace samelight::test
