// Visible steps of greys and colours.
#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include "samelight/check/gradients/visible_step.hpp"
#include "samelight/colour/signals/transfer_pq.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::test {
namespace {

/// Barten's simpler formula (Proc. SPIE 5294, 231-238, 2003) for a field of 40 by 40 degrees: a second route.
double simple_sensitivity(double u, double l) {
    return 5200.0 * std::exp(-0.0016 * u * u * std::pow(1.0 + 100.0 / l, 0.08)) /
           std::sqrt((1.0 + 144.0 / 1600.0 + 0.64 * u * u) *
                     (63.0 / std::pow(l, 0.83) + 1.0 / (1.0 - std::exp(-0.02 * u * u))));
}

double best_simple(double l) {
    double best = 0.0;
    for (int i = 0; i <= 2000; ++i) {
        best = std::max(best, simple_sensitivity(std::pow(10.0, -1.5 + 3.0 * i / 2000.0), l));
    }
    return best;
}

TEST(VisibleStep, BestSensitivityIsThatOfTheSimplerFormulaInLight) {
    for (const double l : {1.0, 3.0, 10.0, 30.0, 100.0, 300.0, 1000.0}) {
        EXPECT_NEAR(best_contrast_sensitivity(l) / best_simple(l), 1.0, 0.005) << l;
    }
    // Stated beside contrast_sensitivity().
    EXPECT_NEAR(best_simple(0.001) / best_contrast_sensitivity(0.001), 1.41, 0.005);
}

TEST(VisibleStep, BestIsTheLargestOfAFineSearch) {
    for (const double l : {1e-4, 0.01, 1.0, 100.0, 5000.0}) {
        double best = 0.0;
        for (int i = 0; i <= 40000; ++i) {
            best =
                std::max(best, contrast_sensitivity(std::pow(10.0, -1.9 + 3.1 * i / 40000.0), l));
        }
        EXPECT_NEAR(best_contrast_sensitivity(l) / best, 1.0, 1e-6) << l;
    }
}

/// How many visible steps there are between neighbouring codes, at their mean luminance.
template <class Curve, class Each>
void each_code(int last, const Curve& curve, const Each& each) {
    for (int code = 1; code < last; ++code) {
        const double a = curve(static_cast<double>(code) / last);
        const double b = curve(static_cast<double>(code + 1) / last);
        each(0.5 * (a + b), grey_visible_steps(a, b));
    }
}

// ITU-R BT.2246 shows 12 bit PQ below the threshold (from memory). PQ was laid out as .9 of it at 12 bits for 10,000 cd/m2 (from memory).
TEST(VisibleStep, TwelveBitPqLiesBelowOneStep) {
    double most = 0.0;
    each_code(
        4095, [](double s) { return Pq::luminance(Signal(s)).cd_m2(); },
        [&most](double l, double steps) {
            if (l > 7e-5) {
                EXPECT_LT(steps, 1.0) << l;
            }
            if (l > 0.01) {
                most = std::max(most, steps);
            }
        });
    EXPECT_NEAR(most, 0.93, 0.005);
}

// The same: 10 bit gamma 2.4 lies above it in dark pictures.
TEST(VisibleStep, TenBitPowerLiesAboveOneStepUpTo62) {
    each_code(
        1023, [](double s) { return 100.0 * std::pow(s, 2.4); },
        [](double l, double steps) {
            if (l < 62.0) {
                EXPECT_GT(steps, 1.0) << l;
            }
        });
}

// The two waves between whose thresholds 1 / S lies: sums over one period of each.
/// Modulation of the fundamental of a wave of luminances, by its sum over one period.
template <class Wave>
double fundamental(Wave wave) {
    constexpr int n = 100000;
    double mean = 0.0;
    double sine = 0.0;
    for (int i = 0; i < n; ++i) {
        const double t = (i + 0.5) / n;
        mean += wave(t) / n;
        sine += 2.0 / n * wave(t) * std::sin(2.0 * M_PI * t);
    }
    return std::abs(sine) / mean;
}

TEST(VisibleStep, AStepLiesBetweenASquareWaveAndAStaircaseOfItsLuminances) {
    for (const double low : {0.01, 0.3, 10.0, 200.0}) {
        const double high = 1.03 * low;
        const double mean = 0.5 * (low + high);
        // The sensitivity by a plain search over frequencies.
        double most = 0.0;
        for (double u = 0.05; u < 20.0; u *= 1.001) {
            most = std::max(most, contrast_sensitivity(u, mean));
        }
        const double square = most * fundamental([&](double t) { return t < 0.5 ? low : high; });
        // An even staircase less its slope: from one luminance to the next, and back at once.
        const double staircase =
            most * fundamental([&](double t) { return low + (high - low) * t; });
        const double steps = grey_visible_steps(low, high);
        EXPECT_NEAR(square / steps, 4.0 / M_PI, 1e-5) << low;
        EXPECT_NEAR(staircase / steps, 2.0 / M_PI, 1e-5) << low;
    }
}

TEST(VisibleStep, ColoursAreDeltaEItp) {
    // X, Y, Z and Delta E ITP computed outside the library from BT.2100's and BT.2124's formulas (10 and 100 cd/m2).
    const auto a = stepped_colour({9.5045592705, 10.0, 10.8905775076});
    const auto b = stepped_colour({9.9797872340, 10.5, 11.4351063830});
    EXPECT_NEAR(visible_step(a, b, StepKind::colour).largest(), 2.7795270484, 1e-6);
    const auto c = stepped_colour({95.0455927052, 100.0, 108.9057750760});
    const auto d = stepped_colour({95.6534954407, 100.0, 108.2978723404});
    EXPECT_NEAR(visible_step(c, d, StepKind::colour).colour, 1.3076277867, 1e-6);
    EXPECT_EQ(visible_step(c, d, StepKind::colour).luminance, 0.0);
}

TEST(VisibleStep, GreysAreJudgedByLuminanceAndByTint) {
    const auto a = stepped_colour({9.5045592705, 10.0, 10.8905775076});
    const auto brighter = stepped_colour({9.5996048632, 10.1, 10.9994832827});
    const VisibleStep lit = visible_step(a, brighter, StepKind::grey);
    EXPECT_NEAR(lit.luminance, 0.1 / 20.1 * best_contrast_sensitivity(10.05), 1e-9);
    EXPECT_LT(lit.colour, 0.02);
    const auto tinted = stepped_colour({9.5654953, 10.0, 10.8297872});
    const VisibleStep tint = visible_step(a, tinted, StepKind::grey);
    EXPECT_EQ(tint.luminance, 0.0);
    EXPECT_GT(tint.colour, 0.9);
}

TEST(VisibleStep, RefusesWhatIsNoLight) {
    EXPECT_THROW(static_cast<void>(grey_visible_steps(-1.0, 1.0)), Error);
    EXPECT_THROW(static_cast<void>(grey_visible_steps(1.0, std::nan(""))), Error);
    EXPECT_THROW(static_cast<void>(contrast_sensitivity(0.0, 1.0)), Error);
    EXPECT_THROW(static_cast<void>(contrast_sensitivity(0.0099, 1.0)), Error);
    EXPECT_THROW(static_cast<void>(contrast_sensitivity(60.1, 1.0)), Error);
    EXPECT_GT(contrast_sensitivity(0.01, 1.0), 0.0);  // the ends themselves are in
    EXPECT_GT(contrast_sensitivity(60.0, 1.0), 0.0);
    EXPECT_THROW(static_cast<void>(contrast_sensitivity(1.0, 1e6)), Error);
    EXPECT_EQ(grey_visible_steps(0.0, 0.0), 0.0);
}

}  // namespace
}  // namespace samelight::test
