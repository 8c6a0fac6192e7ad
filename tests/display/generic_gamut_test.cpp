// Where the generic models' primaries lie in the CIE 1931 diagram, against published primaries.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include "samelight/display/types/emission.hpp"
#include "samelight/display/types/generic_lcd.hpp"
#include "samelight/display/types/generic_model.hpp"
#include "samelight/display/types/generic_type.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"
#include "samelight/tables/cie1931_2deg.hpp"

namespace {

using samelight::EmissionSpectra;
using samelight::EmittedLight;
using samelight::generic_model;
using samelight::Sampling;
using samelight::Spectrum;
namespace generic = samelight::generic;

struct Xy {
    double x;
    double y;
};

double distance(Xy a, Xy b) { return std::hypot(a.x - b.x, a.y - b.y); }

/// CIE 1931 chromaticity by plain sum over the spectrum's own grid (whole nm).
Xy xy(const Spectrum& spectrum) {
    namespace cmf = samelight::tables::cie1931_2deg;
    double x = 0.0;
    double y = 0.0;
    double z = 0.0;
    for (std::size_t i = 0; i < spectrum.size(); ++i) {
        const auto row =
            static_cast<std::size_t>(std::lround(spectrum.wavelengths_nm()[i] - cmf::first_nm));
        x += spectrum.values()[i] * cmf::x[row];
        y += spectrum.values()[i] * cmf::y[row];
        z += spectrum.values()[i] * cmf::z[row];
    }
    return {x / (x + y + z), y / (x + y + z)};
}

struct Primaries {
    Xy red;
    Xy green;
    Xy blue;
};

// Published primaries: ITU-R BT.601-7 (625 lines), BT.709-6, SMPTE RP 431-2 (P3), BT.2020-2.
constexpr Primaries bt601{{0.640, 0.330}, {0.290, 0.600}, {0.150, 0.060}};
constexpr Primaries bt709{{0.640, 0.330}, {0.300, 0.600}, {0.150, 0.060}};
constexpr Primaries p3{{0.680, 0.320}, {0.265, 0.690}, {0.150, 0.060}};
constexpr Primaries bt2020{{0.708, 0.292}, {0.170, 0.797}, {0.131, 0.046}};

Primaries primaries(const std::string& name) {
    const EmissionSpectra e = generic_model(name).emission();
    return {xy(e.red), xy(e.green), xy(e.blue)};
}

void expect_near(const Primaries& seen, const Primaries& published, double tolerance) {
    EXPECT_LT(distance(seen.red, published.red), tolerance) << seen.red.x << " " << seen.red.y;
    EXPECT_LT(distance(seen.green, published.green), tolerance)
        << seen.green.x << " " << seen.green.y;
    EXPECT_LT(distance(seen.blue, published.blue), tolerance) << seen.blue.x << " " << seen.blue.y;
}

// BT.601 wrote down what tubes' phosphors gave.
TEST(GenericGamut, TubeLiesByBt601) { expect_near(primaries("crt"), bt601, 0.05); }

// BT.709 sets were built with these backlights and with filters made for it.
TEST(GenericGamut, OrdinaryLcdsLieByBt709) {
    expect_near(primaries("lcd-white-led"), bt709, 0.05);
    expect_near(primaries("lcd-ccfl"), bt709, 0.05);
}

// The first sets with a white emitter were sold for BT.709; their filters here aim there.
TEST(GenericGamut, WhiteEmitterLiesByBt709) { expect_near(primaries("oled-white"), bt709, 0.05); }

// Wide-gamut backlights were made for P3. A film's narrow green reaches beyond it, towards BT.2020.
TEST(GenericGamut, WideGamutLcdsReachP3) {
    expect_near(primaries("lcd-narrow-red"), p3, 0.05);
    const Primaries film = primaries("lcd-quantum-dot");
    EXPECT_LT(distance(film.red, p3.red), 0.03);
    EXPECT_LT(distance(film.blue, p3.blue), 0.03);
    EXPECT_GT(film.green.y, p3.green.y);
    EXPECT_LT(film.green.y, bt2020.green.y);
    EXPECT_LT(film.green.x, p3.green.x);
    EXPECT_GT(film.green.x, bt2020.green.x);
}

// Emitters tuned to P3's red; green and blue are narrow bands near BT.2020's lasers (526 by 532 nm,
// 460 by 467 nm). Dots at 531 and 641 nm: BT.2020's all over.
TEST(GenericGamut, OledsLieBetweenP3AndBt2020) {
    const Primaries rgb = primaries("oled-rgb");
    EXPECT_LT(distance(rgb.red, p3.red), 0.03);
    EXPECT_LT(distance(rgb.green, bt2020.green), 0.05);
    EXPECT_LT(distance(rgb.blue, bt2020.blue), 0.05);
    expect_near(primaries("oled-quantum-dot"), bt2020, 0.05);
}

// BT.2020-2's primaries are monochromatic 630, 532 and 467 nm: the model set to them must give
// BT.2020's figures, up to their rounding and to the 1 nm that a line is wide here.
TEST(GenericGamut, LasersOfBt2020GiveBt2020) {
    const EmissionSpectra e =
        generic_model("laser-rgb").emission(std::vector{630.0, 532.0, 467.0, 0.5}, Sampling{});
    expect_near({xy(e.red), xy(e.green), xy(e.blue)}, bt2020, 0.001);
}

// Second route: red 0.6950 0.3049 and 202 lm/W, derived in a separate calculation from the same
// seven lines. 683 lm/W: definition of the candela, SI brochure, 9th edition.
TEST(GenericGamut, NarrowRedLinesGiveTheDerivedRed) {
    EmittedLight light{Sampling{}};
    generic::add_narrow_red_lines(light, 1.0, 1.0);
    const Spectrum lines = light.spectrum();
    EXPECT_NEAR(xy(lines).x, 0.6950, 0.0002);
    EXPECT_NEAR(xy(lines).y, 0.3049, 0.0002);
    namespace cmf = samelight::tables::cie1931_2deg;
    double lumens = 0.0;
    double watts = 0.0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const auto row =
            static_cast<std::size_t>(std::lround(lines.wavelengths_nm()[i] - cmf::first_nm));
        lumens += 683.0 * lines.values()[i] * cmf::y[row];
        watts += lines.values()[i];
    }
    EXPECT_NEAR(lumens / watts, 202.0, 0.6);
}

// Light that leaks through the other filters moves every primary towards the panel's white.
TEST(GenericGamut, LeakageDrawsPrimariesTowardsWhite) {
    const samelight::GenericModel& model = generic_model("lcd-white-led");
    ASSERT_EQ(model.parameters()[9].name, "filter leakage");
    const Xy white = xy(generic::white_led_light(model.default_values(), Sampling{}).spectrum());
    Primaries before = primaries("lcd-white-led");
    for (const double leak : {0.02, 0.03, 0.05}) {
        std::vector<double> values = model.default_values();
        values[9] = leak;
        const EmissionSpectra e = model.emission(values, Sampling{});
        const Primaries after{xy(e.red), xy(e.green), xy(e.blue)};
        EXPECT_LT(distance(after.red, white), distance(before.red, white));
        EXPECT_LT(distance(after.green, white), distance(before.green, white));
        EXPECT_LT(distance(after.blue, white), distance(before.blue, white));
        before = after;
    }
}

}  // namespace
