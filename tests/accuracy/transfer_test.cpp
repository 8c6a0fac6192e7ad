// The largest errors of the transfer functions in batches. References: the standards' formulas as printed, in long double.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <span>
#include <string>

#include <gtest/gtest.h>

#include "accuracy/as_printed/transfer.hpp"
#include "accuracy/columns.hpp"
#include "accuracy/ledger.hpp"
#include "samelight/colour/luminance.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/colour/signals/transfer.hpp"
#include "samelight/colour/signals/transfer_batch.hpp"

namespace samelight {
namespace {

using test::Exact;
using test::Figure;
using test::Stated;

template <class T>
class TransferAccuracy : public testing::Test {};
using Numbers = testing::Types<double, float>;
TYPED_TEST_SUITE(TransferAccuracy, Numbers);

Stated stated(const char* operation, const char* curve, std::string range, std::string bound,
              const char* unit, const char* source) {
    return {operation,        curve, "colour/signals/transfer_batch.hpp", std::move(range),
            std::move(bound), unit,  std::string(source) + ", as printed"};
}

/// One curve in one direction over evenly drawn numbers; `error` of the result, what was wanted.
template <class T, class Batch, class Reference, class Error>
void look_at(Stated figures, double low, double high, const Batch& batch,
             const Reference& reference, const Error& error) {
    Figure figure(std::move(figures), test::type_name<T>());
    test::over_draws<T, 1, 1>(
        121, [=](test::Random& random) { return std::array<double, 1>{random.between(low, high)}; },
        [&](const auto& in, auto& out) { batch(std::span<const T>(in[0]), std::span<T>(out[0])); },
        [&](const auto& in, const auto& out) {
            figure.see(error(static_cast<Exact>(out[0]), reference(static_cast<Exact>(in[0]))));
        });
}

/// Odd about 0.
template <class F>
auto odd(const F& f) {
    return [f](Exact x) { return std::copysign(f(std::abs(x)), x); };
}
const auto absolute = [](Exact got, Exact want) { return got - want; };
auto over(Exact white) {
    return [white](Exact got, Exact want) { return (got - want) / white; };
}

const char* const signals = "signals from -0.1 to 1.1";

TYPED_TEST(TransferAccuracy, Srgb) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    const std::string bound = test::bound_of<T>("2e-15", "6e-7");
    const char* source = "IEC 61966-2-1:1999";
    // Rounded to T, a number may stand on the other side of the join: there the branches differ by 3e-8.
    look_at<T>(
        stated("light_from_signal()", "sRGB", signals, bound, "white", source), -0.1, 1.1,
        [](auto in, auto out) { light_from_signal<T>(Srgb{}, in, out); },
        odd(test::srgb_light_as_printed), absolute);
    look_at<T>(
        stated("signal_from_light()", "sRGB", "light from 0 to 1", bound, "a signal", source), 0.0,
        1.0, [](auto in, auto out) { signal_from_light<T>(Srgb{}, in, out); },
        test::srgb_signal_as_printed, absolute);
}

TYPED_TEST(TransferAccuracy, PlainGammaAndBt1886) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    const std::string bound = test::bound_of<T>("2e-15", "6e-7");
    const PlainGamma gamma(2.2, Luminance(120.0), Luminance(0.1));
    const Exact white = 120.0L;
    const Exact black = static_cast<Exact>(0.1);
    const Exact exponent = static_cast<Exact>(2.2);
    look_at<T>(
        stated("luminance_from_signal()", "PlainGamma", signals, bound, "white",
               "the docstring's power"),
        -0.1, 1.1, [&](auto in, auto out) { luminance_from_signal<T>(gamma, in, out); },
        [&](Exact s) {
            return black + (white - black) * std::copysign(std::pow(std::abs(s), exponent), s);
        },
        over(white));
    // Near its black the signal is good to what light it stands for.
    look_at<T>(
        stated("signal_from_luminance()", "PlainGamma", "light from 1 % of white to white", bound,
               "a signal", "the docstring's power"),
        1.2, 120.0, [&](auto in, auto out) { signal_from_luminance<T>(gamma, in, out); },
        [&](Exact l) { return std::pow((l - black) / (white - black), 1.0L / exponent); },
        absolute);
    const Bt1886 display{Luminance(120.0), Luminance(0.1)};
    const Exact root_white = std::pow(white, 1.0L / 2.4L);
    const Exact root_black = std::pow(black, 1.0L / 2.4L);
    const char* source = "ITU-R BT.1886, Annex 1";
    look_at<T>(
        stated("luminance_from_signal()", "BT.1886", signals, bound, "white", source), -0.1, 1.1,
        [&](auto in, auto out) { luminance_from_signal<T>(display, in, out); },
        [&](Exact s) {
            const Exact root = std::max(0.0L, (root_white - root_black) * s + root_black);
            return std::pow(root, 2.4L);
        },
        over(white));
    look_at<T>(
        stated("signal_from_luminance()", "BT.1886", "light from 0 to white", bound, "a signal",
               source),
        0.0, 120.0, [&](auto in, auto out) { signal_from_luminance<T>(display, in, out); },
        [&](Exact l) {
            return (std::pow(l, 1.0L / 2.4L) - root_black) / (root_white - root_black);
        },
        absolute);
}

TYPED_TEST(TransferAccuracy, Pq) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    const char* source = "SMPTE ST 2084:2014";
    // 1e-20 cd/m2 in double, as Pq states, and 1e-8 in float stand beside the relative bounds.
    const Exact dark = std::is_same_v<T, double> ? 1e-6L : 2e-3L;
    look_at<T>(
        stated("luminance_from_signal()", "PQ", signals, test::bound_of<T>("1e-14", "5e-6"),
               std::is_same_v<T, double> ? "the luminance + 1e-6 cd/m2"
                                         : "the luminance + 0.002 cd/m2",
               source),
        -0.1, 1.1, [](auto in, auto out) { luminance_from_signal<T>(Pq{}, in, out); },
        odd(test::pq_luminance_as_printed),
        [=](Exact got, Exact want) { return (got - want) / (std::abs(want) + dark); });
    look_at<T>(
        stated("signal_from_luminance()", "PQ", "luminances from 0 to 10,000 cd/m2",
               test::bound_of<T>("1e-15", "4e-7"), "a signal", source),
        0.0, 10000.0, [](auto in, auto out) { signal_from_luminance<T>(Pq{}, in, out); },
        test::pq_signal_as_printed, absolute);
}

TYPED_TEST(TransferAccuracy, Hlg) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    const std::string bound = test::bound_of<T>("1e-14", "3e-6");
    const char* source = "ITU-R BT.2100-2, Table 5";
    look_at<T>(
        stated("light_from_signal()", "HLG scene", signals, bound, "light", source), -0.1, 1.1,
        [](auto in, auto out) { light_from_signal<T>(HlgScene{}, in, out); },
        odd(test::hlg_oetf_inverse_as_printed), absolute);
    look_at<T>(
        stated("signal_from_light()", "HLG scene", "light from 0 to 1", bound, "a signal", source),
        0.0, 1.0, [](auto in, auto out) { signal_from_light<T>(HlgScene{}, in, out); },
        test::hlg_oetf_as_printed, absolute);

    const HlgDisplay display(Luminance(1000.0), Luminance(0.005));
    const Exact gamma = static_cast<Exact>(display.gamma());
    const Exact beta = static_cast<Exact>(display.beta());
    const auto lifted = [&](Exact s) {
        return test::hlg_oetf_inverse_as_printed(std::max(0.0L, (1.0L - beta) * s + beta));
    };
    look_at<T>(
        stated("luminance_from_signal()", "HLG display", signals, bound, "the peak", source), -0.1,
        1.1, [&](auto in, auto out) { luminance_from_signal<T>(display, in, out); },
        [&](Exact s) { return 1000.0L * std::pow(lifted(s), gamma); }, over(1000.0L));
    look_at<T>(
        stated("signal_from_luminance()", "HLG display", "light from 0 to the peak", bound,
               "a signal", source),
        0.0, 1000.0, [&](auto in, auto out) { signal_from_luminance<T>(display, in, out); },
        [&](Exact l) {
            const Exact scene = std::pow(l / 1000.0L, 1.0L / gamma);
            return (test::hlg_oetf_as_printed(scene) - beta) / (1.0L - beta);
        },
        absolute);
}

TYPED_TEST(TransferAccuracy, HlgColour) {
    SAMELIGHT_NEEDS_EXACT()
    using T = TypeParam;
    const std::string bound = test::bound_of<T>("1e-14", "3e-6");
    const char* source = "ITU-R BT.2100-2, Table 5";
    const HlgDisplay display(Luminance(1000.0), Luminance(0.005));
    const Exact gamma = static_cast<Exact>(display.gamma());
    const Exact beta = static_cast<Exact>(display.beta());
    Figure there(stated("light_from_signal()", "HLG display", signals, bound, "the peak", source),
                 test::type_name<T>());
    Figure back(stated("signal_from_light()", "HLG display", "light of signals from 0 to 1", bound,
                       "a signal", source),
                test::type_name<T>());
    const auto weighted = [](const std::array<Exact, 3>& v) {
        return 0.2627L * v[0] + 0.6780L * v[1] + 0.0593L * v[2];
    };
    test::over_draws<T, 3, 6>(
        122,
        [](test::Random& random) {
            return std::array<double, 3>{random.between(-0.1, 1.1), random.between(-0.1, 1.1),
                                         random.between(-0.1, 1.1)};
        },
        [&](const auto& in, auto& out) {
            light_from_signal<T>(display, test::three(in), test::three(out));
            signal_from_light<T>(display, test::three(std::as_const(out)), test::three(out, 3));
        },
        [&](const auto& in, const auto& out) {
            const std::array<T, 3> light = {out[0], out[1], out[2]};
            std::array<Exact, 3> scene = test::exactly(in);
            for (Exact& value : scene) {
                value =
                    test::hlg_oetf_inverse_as_printed(std::max(0.0L, (1.0L - beta) * value + beta));
            }
            const Exact y = weighted(scene);
            const Exact gain = y == 0.0L ? 0.0L : 1000.0L * std::pow(y, gamma - 1.0L);
            there.see(test::farthest(light, {gain * scene[0], gain * scene[1], gain * scene[2]},
                                     {1000.0L, 1000.0L, 1000.0L}));
            if (*std::min_element(in.begin(), in.end()) < T(0) ||
                *std::max_element(in.begin(), in.end()) > T(1)) {
                return;
            }
            std::array<Exact, 3> want = test::exactly(light);
            for (Exact& value : want) {
                value /= 1000.0L;
            }
            const Exact inverse_gain = std::pow(weighted(want), (1.0L - gamma) / gamma);
            for (Exact& value : want) {
                value = (test::hlg_oetf_as_printed(inverse_gain * value) - beta) / (1.0L - beta);
            }
            back.see(test::farthest(std::array<T, 3>{out[3], out[4], out[5]}, want));
        });
}

}  // namespace
}  // namespace samelight
