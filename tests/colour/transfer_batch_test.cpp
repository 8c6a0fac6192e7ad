// The transfer functions in batches: against the scalar ones to the stated bounds, and what becomes of NaN and of what lies outside.
#include "samelight/colour/signals/transfer_batch.hpp"
#include "samelight/colour/luminance.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/colour/signals/transfer_hlg.hpp"
#include "samelight/colour/signals/transfer_pq.hpp"
#include "samelight/colour/signals/transfer_sdr.hpp"
#include "samelight/numeric/error.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <random>
#include <span>
#include <vector>

#include <gtest/gtest.h>

#include "colour/batch_columns.hpp"

namespace samelight {
namespace {

using Rgb = LinearRgb<Bt2020>;

template <class T>
class TransferBatch : public testing::Test {
  protected:
    static constexpr bool is_float = std::is_same_v<T, float>;
    static constexpr T nan = std::numeric_limits<T>::quiet_NaN();

    /// Signals from -0.1 to nearly 1.1 and the places where a formula changes.
    static std::vector<T> signals() {
        std::vector<T> result;
        for (const double v :
             {0.0, -0.0, 1.0, 0.5, 0.04045, 1.0 / 12.0, 1e-7, -1e-7, 7.3e-7, 1e-30}) {
            result.push_back(static_cast<T>(v));
        }
        for (int i = 0; i < 1200; ++i) {
            result.push_back(static_cast<T>(-0.1 + 0.001 * i));
        }
        return result;
    }
    /// Light from 0 up to `white`, evenly in its logarithm.
    static std::vector<T> lights(double white) {
        std::vector<T> result = {T(0), static_cast<T>(white)};
        for (double l = 1e-12 * white; l < white; l *= 1.03) {
            result.push_back(static_cast<T>(l));
        }
        return result;
    }

    /// The greatest deviation of `batch` from `scalar` over `in`, absolute beyond `relative` of the scalar value.
    template <class Batch, class Scalar>
    static double worst(const std::vector<T>& in, double relative, const Batch& batch,
                        const Scalar& scalar) {
        std::vector<T> out(in.size(), T(-777));
        batch(in, std::span<T>(out));
        double result = 0.0;
        for (std::size_t i = 0; i < in.size(); ++i) {
            const double wanted = scalar(static_cast<double>(in[i]));
            const double off = std::abs(static_cast<double>(out[i]) - wanted);
            if (std::isnan(off)) {
                ADD_FAILURE() << "no number for " << static_cast<double>(in[i]);
            }
            result = std::max(result, off - relative * std::abs(wanted));
        }
        return result;
    }

    /// NaN in, NaN out, and only there; columns of different lengths refused.
    template <class Batch>
    static void expect_laws(const Batch& batch) {
        for (const std::size_t size : {std::size_t{0}, std::size_t{1}, std::size_t{19}}) {
            std::vector<T> in(size, T(0.25));
            std::vector<T> out(size, T(-777));
            batch(in, std::span<T>(out));
            for (const T value : out) {
                EXPECT_FALSE(std::isnan(value));
            }
            for (std::size_t i = 0; i < size; ++i) {
                in[i] = nan;
                batch(in, std::span<T>(out));
                for (std::size_t k = 0; k < size; ++k) {
                    EXPECT_EQ(std::isnan(out[k]), k == i);
                }
                in[i] = T(0.25);
            }
        }
        std::vector<T> three(3, T(-777));
        EXPECT_THROW(batch(std::vector<T>(4, T(0.25)), std::span<T>(three)), Error);
        EXPECT_EQ(three[0], T(-777));
    }
};
using Numbers = testing::Types<float, double>;
TYPED_TEST_SUITE(TransferBatch, Numbers);

// Stated for PlainGamma, sRGB and BT.1886: 2e-15 and 6e-7, of white for light. PlainGamma's signals near black are as good as
// float holds the black: by the light that they stand for.
TYPED_TEST(TransferBatch, PlainGammaAgreesWithItsScalar) {
    const double bound = this->is_float ? 6e-7 : 2e-15;
    for (const double exponent : {1.8, 2.2, 2.4}) {
        const PlainGamma curve(exponent, Luminance(100.0), Luminance(0.05));
        const auto forward = [&](const auto& in, auto out) {
            luminance_from_signal(curve, in, out);
        };
        const auto back = [&](const auto& in, auto out) { signal_from_luminance(curve, in, out); };
        const auto luminance = [&](double v) { return curve.luminance(Signal(v)).cd_m2(); };
        EXPECT_LT(this->worst(this->signals(), 0.0, forward, luminance), 100.0 * bound);
        const std::vector<TypeParam> in = this->lights(100.0);
        std::vector<TypeParam> out(in.size());
        back(in, std::span<TypeParam>(out));
        for (std::size_t i = 0; i < in.size(); ++i) {
            EXPECT_NEAR(luminance(static_cast<double>(out[i])), static_cast<double>(in[i]),
                        100.0 * bound);
        }
        this->expect_laws(forward);
        this->expect_laws(back);
    }
}

TYPED_TEST(TransferBatch, SrgbAgreesWithItsScalar) {
    const double bound = this->is_float ? 6e-7 : 2e-15;
    const auto forward = [](const auto& in, auto out) { light_from_signal(Srgb{}, in, out); };
    const auto back = [](const auto& in, auto out) { signal_from_light(Srgb{}, in, out); };
    EXPECT_LT(this->worst(this->signals(), 0.0, forward,
                          [](double v) { return Srgb::light(Signal(v)).value(); }),
              bound);
    EXPECT_LT(this->worst(this->lights(1.0), 0.0, back,
                          [](double l) { return Srgb::signal(LinearLight(l)).value(); }),
              bound);
    this->expect_laws(forward);
    this->expect_laws(back);
}

TYPED_TEST(TransferBatch, Bt1886AgreesWithItsScalar) {
    const double bound = this->is_float ? 6e-7 : 2e-15;
    for (const double black : {0.0, 0.05, 0.5}) {
        const Bt1886 display{Luminance(120.0), Luminance(black)};
        const auto forward = [&](const auto& in, auto out) {
            luminance_from_signal(display, in, out);
        };
        const auto back = [&](const auto& in, auto out) {
            signal_from_luminance(display, in, out);
        };
        EXPECT_LT(this->worst(this->signals(), 0.0, forward,
                              [&](double v) { return display.luminance(Signal(v)).cd_m2(); }),
                  120.0 * bound);
        EXPECT_LT(this->worst(this->lights(120.0), 0.0, back,
                              [&](double l) { return display.signal(Luminance(l)).value(); }),
                  bound);
        this->expect_laws(forward);
        this->expect_laws(back);
    }
    // Where the scalar throws.
    const Bt1886 display{Luminance(120.0), Luminance(0.5)};
    const std::vector<TypeParam> in = {TypeParam(-1e-3), TypeParam(0)};
    std::vector<TypeParam> out(2);
    signal_from_luminance(display, in, std::span<TypeParam>(out));
    EXPECT_TRUE(std::isnan(out[0]));
    EXPECT_FALSE(std::isnan(out[1]));
}

// Stated: luminance 1e-14 relative and 5e-6 relative + 1e-8 cd/m2; signal 1e-15 and 4e-7.
TYPED_TEST(TransferBatch, PqAgreesWithItsScalar) {
    const auto forward = [](const auto& in, auto out) { luminance_from_signal(Pq{}, in, out); };
    const auto back = [](const auto& in, auto out) { signal_from_luminance(Pq{}, in, out); };
    EXPECT_LT(this->worst(this->signals(), this->is_float ? 5e-6 : 1e-14, forward,
                          [](double v) { return Pq::luminance(Signal(v)).cd_m2(); }),
              this->is_float ? 1e-8 : 1e-20);
    EXPECT_LT(this->worst(this->lights(10000.0), 0.0, back,
                          [](double l) { return Pq::signal(Luminance(l)).value(); }),
              this->is_float ? 4e-7 : 1e-15);
    this->expect_laws(forward);
    this->expect_laws(back);
    // Odd, and NaN where the scalar throws.
    const std::vector<TypeParam> in = {TypeParam(-0.5), TypeParam(0.5), TypeParam(1.2),
                                       TypeParam(-1.2)};
    std::vector<TypeParam> out(4);
    forward(in, std::span<TypeParam>(out));
    EXPECT_EQ(out[0], -out[1]);
    EXPECT_TRUE(std::isnan(out[2]) && std::isnan(out[3]));
    const std::vector<TypeParam> light = {TypeParam(-3), TypeParam(3), TypeParam(3e4),
                                          TypeParam(-3e4)};
    back(light, std::span<TypeParam>(out));
    EXPECT_EQ(out[0], -out[1]);
    EXPECT_TRUE(std::isnan(out[2]) && std::isnan(out[3]));
}

// Stated for HLG: 1e-14 and 3e-6, of the peak for light.
TYPED_TEST(TransferBatch, HlgSceneAgreesWithItsScalar) {
    const double bound = this->is_float ? 3e-6 : 1e-14;
    const auto forward = [](const auto& in, auto out) { light_from_signal(HlgScene{}, in, out); };
    const auto back = [](const auto& in, auto out) { signal_from_light(HlgScene{}, in, out); };
    EXPECT_LT(this->worst(this->signals(), 0.0, forward,
                          [](double v) { return HlgScene::light(Signal(v)).value(); }),
              bound);
    EXPECT_LT(this->worst(this->lights(1.0), 0.0, back,
                          [](double l) { return HlgScene::signal(LinearLight(l)).value(); }),
              bound);
    this->expect_laws(forward);
    this->expect_laws(back);
}

std::array<HlgDisplay, 3> hlg_displays() {
    return {HlgDisplay(Luminance(1000.0), Luminance(0.005)), HlgDisplay(Luminance(4000.0)),
            HlgDisplay(Luminance(100.0), Luminance(0.1))};
}

TYPED_TEST(TransferBatch, HlgGreyAgreesWithItsScalar) {
    const double bound = this->is_float ? 3e-6 : 1e-14;
    for (const HlgDisplay& d : hlg_displays()) {
        const double peak = d.peak().cd_m2();
        const auto forward = [&](const auto& in, auto out) { luminance_from_signal(d, in, out); };
        const auto back = [&](const auto& in, auto out) { signal_from_luminance(d, in, out); };
        EXPECT_LT(this->worst(this->signals(), 0.0, forward,
                              [&](double v) { return d.luminance(Signal(v)).cd_m2(); }),
                  peak * bound);
        EXPECT_LT(this->worst(this->lights(peak), 0.0, back,
                              [&](double l) { return d.signal(Luminance(l)).value(); }),
                  bound);
        this->expect_laws(forward);
        this->expect_laws(back);
        const std::vector<TypeParam> below = {TypeParam(-1)};
        std::vector<TypeParam> out(1);
        back(below, std::span<TypeParam>(out));
        EXPECT_TRUE(std::isnan(out[0]));
    }
}

TYPED_TEST(TransferBatch, HlgColourAgreesWithItsScalar) {
    const double bound = this->is_float ? 3e-6 : 1e-14;
    std::mt19937 random(31);
    std::uniform_real_distribution<double> any(-0.1, 1.1);
    std::vector<std::array<double, 3>> rows = {{0.0, 0.0, 0.0}, {1.0, 0.0, 0.0}, {0.0, 1.0, 1.0}};
    while (rows.size() < 1003) {
        rows.push_back({any(random), any(random), any(random)});
    }
    for (const HlgDisplay& d : hlg_displays()) {
        test::OwnedColumns3<TypeParam> in(rows);
        test::OwnedColumns3<TypeParam> light(rows.size());
        test::OwnedColumns3<TypeParam> back(rows.size());
        light_from_signal(d, in.span(), light.span());
        signal_from_light(d, light.span(), back.span());
        for (std::size_t i = 0; i < rows.size(); ++i) {
            const auto s = in.row(i);
            const Rgb wanted = d.light({Signal(s[0]), Signal(s[1]), Signal(s[2])});
            const auto got = light.row(i);
            const auto signals = d.signals(Rgb(got[0], got[1], got[2]));
            for (std::size_t k = 0; k < 3; ++k) {
                ASSERT_NEAR(got[k], wanted.values()[k], d.peak().cd_m2() * bound);
                ASSERT_NEAR(back.row(i)[k], signals[k].value(), bound);
            }
        }
        in.set(1, 2, this->nan);
        light_from_signal(d, in.span(), light.span());
        EXPECT_FALSE(test::any_nan(light.row(0)));
        EXPECT_TRUE(test::any_nan(light.row(1)));
        EXPECT_FALSE(test::any_nan(light.row(2)));
        signal_from_light(d, light.span(), back.span());
        EXPECT_TRUE(test::any_nan(back.row(1)));
        test::OwnedColumns3<TypeParam> short_one(3);
        EXPECT_THROW(light_from_signal(d, in.span(), short_one.span()), Error);
        EXPECT_THROW(signal_from_light(d, in.span(), short_one.span()), Error);
    }
}

// In place: an output may be its input's memory.
TYPED_TEST(TransferBatch, MayWriteOverItsInput) {
    std::vector<TypeParam> in = this->signals();
    std::vector<TypeParam> aside(in.size());
    light_from_signal(Srgb{}, in, std::span<TypeParam>(aside));
    light_from_signal(Srgb{}, in, std::span<TypeParam>(in));
    EXPECT_EQ(in, aside);
}

}  // namespace
}  // namespace samelight
