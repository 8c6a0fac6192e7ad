// Hybrid log-gamma: published values, a second route in long double, round trips to the stated bounds, order, and what is refused.
#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "accuracy/as_printed/transfer.hpp"
#include "numeric/check_rows.hpp"
#include "numeric/exactly.hpp"
#include "samelight/colour/luminance.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/colour/signals/transfer.hpp"
#include "samelight/colour/signals/transfer_hlg.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight {
namespace {

using Rgb = LinearRgb<Bt2020>;

std::vector<double> values(double low, double high, int count = 4001) {
    std::vector<double> result;
    for (int i = 0; i < count; ++i) {
        result.push_back(low + (high - low) * i / (count - 1));
    }
    return result;
}

// Dim and bright peaks, with and without black; system gammas below and above 1.
std::array<HlgDisplay, 6> hlg_displays() {
    return {HlgDisplay(Luminance(1000.0)),
            HlgDisplay(Luminance(1000.0), Luminance(0.005)),
            HlgDisplay(Luminance(400.0), Luminance(0.2)),
            HlgDisplay(Luminance(2000.0), Luminance(0.005), HlgGamma::extended_range),
            HlgDisplay(Luminance(4000.0), Luminance(0.0)),
            HlgDisplay(Luminance(100.0), Luminance(0.1))};
}

// ITU-R BT.2100-2, Table 5: OETF to twelve decimals, EOTF of grey to eight, gamma by the formula for the usual range.
TEST(Hlg, MeetsThePublishedFormulasValues) {
    const test::CheckRows rows("checks/hlg_bt2100.csv");
    int oetf = 0;
    int inverse = 0;
    int eotf = 0;
    for (const auto& row : rows) {
        const double input = row.number("input");
        const double output = row.number("output");
        if (row.text("function") == "oetf") {
            ++oetf;
            EXPECT_NEAR(HlgScene::signal(LinearLight(input)).value(), output, 0.51e-12) << input;
        } else if (row.text("function") == "oetf_inverse") {
            ++inverse;
            EXPECT_NEAR(HlgScene::light(Signal(input)).value(), output, 0.51e-12) << input;
        } else if (row.text("function") == "eotf_grey") {
            ++eotf;
            const HlgDisplay display(Luminance(row.number("peak_cd_m2")),
                                     Luminance(row.number("black_cd_m2")), HlgGamma::usual_range);
            EXPECT_NEAR(display.luminance(Signal(input)).cd_m2(), output, 0.51e-8);
            const Rgb grey = display.light({Signal(input), Signal(input), Signal(input)});
            EXPECT_NEAR(grey.green(), output, 0.52e-8);
        }
    }
    EXPECT_EQ(oetf, 12);
    EXPECT_EQ(inverse, 9);
    EXPECT_EQ(eotf, 40);
}

// ITU-R BT.2100-2, Table 5: signal 0.212132034356 at 1,000 cd/m2, to eight decimals.
TEST(Hlg, MeetsOneMoreValueOfTheEotf) {
    const HlgDisplay display(Luminance(1000.0));
    EXPECT_NEAR(display.luminance(Signal(0.212132034356)).cd_m2(), 6.47603983, 0.51e-8);
    EXPECT_NEAR(display.gamma(), 1.2, 1e-15);
}

// ITU-R BT.2408, reference levels (from memory): 75 % is the HDR white of 203 cd/m2 and 38 % a grey card of 26 cd/m2, on a display
// of 1,000 cd/m2.
TEST(Hlg, MeetsTheReferenceLevels) {
    const HlgDisplay display(Luminance(1000.0));
    EXPECT_EQ(std::round(display.luminance(Signal(0.75)).cd_m2()), 203.0);
    EXPECT_EQ(std::round(display.luminance(Signal(0.38)).cd_m2()), 26.0);
}

// ITU-R BT.2100-2, Table 5 and its notes. Gammas of the usual range to six decimals as in checks/hlg_bt2100.csv; of the extended
// range from its formula in powers of two: 1.2 * 1.111^n.
TEST(HlgGamma, MeetsThePublishedFormulas) {
    const auto usual = [](double peak) {
        return hlg_system_gamma(Luminance(peak), HlgGamma::usual_range);
    };
    EXPECT_NEAR(usual(400.0), 1.032865, 0.51e-6);
    EXPECT_NEAR(usual(1000.0), 1.2, 1e-15);
    EXPECT_NEAR(usual(2000.0), 1.326433, 0.51e-6);
    EXPECT_NEAR(usual(4000.0), 1.452865, 0.51e-6);
    const auto extended = [](double peak) {
        return hlg_system_gamma(Luminance(peak), HlgGamma::extended_range);
    };
    EXPECT_NEAR(extended(1000.0), 1.2, 1e-15);
    EXPECT_NEAR(extended(4000.0), 1.2 * 1.111 * 1.111, 1e-14);
    EXPECT_NEAR(extended(250.0), 1.2 / 1.111 / 1.111, 1e-14);
    // What the docstring says of the steps at 400 and 2,000.
    EXPECT_NEAR(extended(400.0), 1.044, 0.0005);
    EXPECT_NEAR(extended(2000.0), 1.333, 0.0005);
}

TEST(HlgGamma, ChoosesByPeak) {
    for (const double peak : {400.0, 1000.0, 2000.0}) {
        EXPECT_NEAR(hlg_system_gamma(Luminance(peak)),
                    hlg_system_gamma(Luminance(peak), HlgGamma::usual_range), test::exactly);
    }
    for (const double peak : {100.0, 399.0, 2001.0, 10000.0}) {
        EXPECT_NEAR(hlg_system_gamma(Luminance(peak)),
                    hlg_system_gamma(Luminance(peak), HlgGamma::extended_range), test::exactly);
    }
    EXPECT_THROW(hlg_system_gamma(Luminance(0.0)), Error);
    EXPECT_THROW(hlg_system_gamma(Luminance(-1.0), HlgGamma::extended_range), Error);
    EXPECT_THROW(hlg_system_gamma(Luminance(1.3), HlgGamma::usual_range), Error);
    EXPECT_NO_THROW(hlg_system_gamma(Luminance(1.4), HlgGamma::usual_range));
}

// Stated: 2e-15 of max(1, value), for signals to 1.1; round trip 1e-14.
TEST(HlgScene, KeepsItsStatedBounds) {
    for (const double v : values(0.0, 1.1, 20001)) {
        const double light = static_cast<double>(test::hlg_oetf_inverse_as_printed(v));
        const double bound = 2e-15 * std::max(1.0, light);
        EXPECT_NEAR(HlgScene::light(Signal(v)).value(), light, bound) << v;
        EXPECT_NEAR(HlgScene::signal(LinearLight(v)).value(),
                    static_cast<double>(test::hlg_oetf_as_printed(v)), 2e-15);
        EXPECT_NEAR(HlgScene::signal(HlgScene::light(Signal(v))).value(), v, 1e-14);
        EXPECT_NEAR(HlgScene::light(HlgScene::signal(LinearLight(v))).value(), v, 1e-14 * v);
        EXPECT_EQ(HlgScene::light(Signal(-v)).value(), -HlgScene::light(Signal(v)).value());
        EXPECT_EQ(HlgScene::signal(LinearLight(-v)).value(),
                  -HlgScene::signal(LinearLight(v)).value());
    }
    // The docstring: light 1 has the signal 1 - 4.9e-9.
    EXPECT_NEAR(1.0 - HlgScene::signal(LinearLight(1.0)).value(), 4.9e-9, 0.05e-9);
    EXPECT_THROW(static_cast<void>(HlgScene::light(Signal(200.0))), Error);  // exp overflows
}

// BT.2100-2, Table 5: signal 0 shows the black, to rounding; the peak is met to the 3e-8 that the table's constants leave.
TEST(HlgDisplay, ShowsItsBlackAndItsPeak) {
    for (const HlgDisplay& d : hlg_displays()) {
        const double peak = d.peak().cd_m2();
        EXPECT_NEAR(d.luminance(Signal(1.0)).cd_m2(), peak, 5e-8 * peak);
        EXPECT_GE(d.luminance(Signal(0.0)), Luminance(0.0));
        EXPECT_EQ(d.luminance(Signal(-d.beta() / (1.0 - d.beta()) - 1e-9)), Luminance(0.0));
    }
    EXPECT_NEAR(hlg_displays()[1].luminance(Signal(0.0)).cd_m2(), 0.005, 1e-15);
    EXPECT_NEAR(hlg_displays()[2].luminance(Signal(0.0)).cd_m2(), 0.2, 1e-13);
    EXPECT_NEAR(hlg_displays()[5].luminance(Signal(0.0)).cd_m2(), 0.1, 1e-13);
}

// Second route to the EOTF of colour: OETF, lift and OOTF as printed, in long double.
TEST(HlgDisplay, KeepsItsStatedError) {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> any(-0.1, 1.1);
    for (const HlgDisplay& d : hlg_displays()) {
        for (int i = 0; i < 2000; ++i) {
            const std::array<double, 3> s = {any(random), any(random), any(random)};
            std::array<long double, 3> e{};
            for (std::size_t k = 0; k < 3; ++k) {
                e[k] = test::hlg_oetf_inverse_as_printed(
                    std::max(0.0L, (1.0L - d.beta()) * static_cast<long double>(s[k]) + d.beta()));
            }
            const long double y = 0.2627L * e[0] + 0.6780L * e[1] + 0.0593L * e[2];
            // Without any light the OOTF's power may be infinite (gamma below 1), but 0 times it is 0.
            const long double gain =
                y == 0.0L ? 0.0L
                          : static_cast<long double>(d.peak().cd_m2()) *
                                std::pow(y, static_cast<long double>(d.gamma()) - 1.0L);
            const Rgb got = d.light({Signal(s[0]), Signal(s[1]), Signal(s[2])});
            for (std::size_t k = 0; k < 3; ++k) {
                EXPECT_NEAR(got.values()[k], static_cast<double>(gain * e[k]),
                            1e-13 * d.peak().cd_m2());
            }
        }
    }
}

// Stated: signals that are not clamped come back to 1e-13.
TEST(HlgDisplay, GivesSignalsBack) {
    std::mt19937 random(8);
    for (const HlgDisplay& d : hlg_displays()) {
        const double lowest = -d.beta() / (1.0 - d.beta());
        std::uniform_real_distribution<double> any(lowest, 1.1);
        for (int i = 0; i < 2000; ++i) {
            const std::array<Signal, 3> s = {Signal(any(random)), Signal(any(random)),
                                             Signal(any(random))};
            const auto back = d.signals(d.light(s));
            for (std::size_t k = 0; k < 3; ++k) {
                EXPECT_NEAR(back[k].value(), s[k].value(), 1e-13);
            }
            EXPECT_NEAR(d.signal(d.luminance(s[0])).value(), s[0].value(), 1e-13);
        }
        const std::array<Signal, 3> black = {Signal(0.0), Signal(0.0), Signal(0.0)};
        EXPECT_NEAR(d.signals(d.light(black))[0].value(), 0.0, 1e-13);
        EXPECT_NEAR(d.signals(Rgb(0.0, 0.0, 0.0))[0].value(), lowest, 1e-13);
    }
}

// Stated: scene light comes back through the OOTF to 1e-13 relative, also outside the triangle of BT.2020.
TEST(HlgDisplay, GivesSceneLightBackThroughTheOotf) {
    std::mt19937 random(9);
    std::uniform_real_distribution<double> any(-0.2, 1.0);
    for (const HlgDisplay& d : hlg_displays()) {
        for (int i = 0; i < 5000; ++i) {
            const double scale = std::pow(10.0, -(i % 7));
            const Rgb scene(scale * any(random), scale * any(random), scale * any(random));
            const Rgb back = d.ootf_inverse(d.ootf(scene));
            for (std::size_t k = 0; k < 3; ++k) {
                EXPECT_NEAR(back.values()[k], scene.values()[k], 1e-13 * scale);
            }
            const Rgb odd = d.ootf(-1.0 * scene);
            EXPECT_EQ(odd, -1.0 * d.ootf(scene));
        }
        EXPECT_EQ(d.ootf(Rgb(0.0, 0.0, 0.0)), Rgb(0.0, 0.0, 0.0));
        EXPECT_EQ(d.ootf_inverse(Rgb(0.0, 0.0, 0.0)), Rgb(0.0, 0.0, 0.0));
    }
}

// The weights of Table 5 sum to 1, so grey stays grey and takes peak E^gamma.
TEST(HlgDisplay, TreatsGreyAsAColourToo) {
    for (const HlgDisplay& d : hlg_displays()) {
        for (const double v : values(-0.05, 1.05, 201)) {
            const double grey = d.luminance(Signal(v)).cd_m2();
            const Rgb colour = d.light({Signal(v), Signal(v), Signal(v)});
            for (const double c : colour.values()) {
                EXPECT_NEAR(c, grey, 1e-13 * d.peak().cd_m2());
            }
        }
    }
}

TEST(HlgDisplay, RisesInBothDirections) {
    for (const HlgDisplay& d : hlg_displays()) {
        double before = -1.0;
        for (const double v : values(-d.beta() / (1.0 - d.beta()), 1.1)) {
            const double now = d.luminance(Signal(v)).cd_m2();
            ASSERT_GT(now, before);
            before = now;
        }
        before = -1.0;
        for (const double l : values(0.0, 1.2 * d.peak().cd_m2())) {
            const double now = d.signal(Luminance(l)).value();
            ASSERT_GT(now, before);
            before = now;
        }
    }
}

TEST(HlgDisplay, RefusesWhatIsNoDisplayAndNoLight) {
    EXPECT_THROW(HlgDisplay(Luminance(0.5)), Error);
    EXPECT_THROW(HlgDisplay(Luminance(1000.0), Luminance(-0.1)), Error);
    EXPECT_THROW(HlgDisplay(Luminance(1000.0), Luminance(100.0)), Error);
    const HlgDisplay d(Luminance(1000.0));
    EXPECT_THROW(static_cast<void>(d.signal(Luminance(-1.0))), Error);
    try {
        static_cast<void>(d.signals(Rgb(1.0, -1.0, 1.0)));
        FAIL() << "not refused";
    } catch (const Error& error) {
        EXPECT_EQ(error.kind(), ErrorKind::domain);
        EXPECT_NE(std::string(error.what()).find("-1 cd/m2"), std::string::npos);
    }
}

}  // namespace
}  // namespace samelight
