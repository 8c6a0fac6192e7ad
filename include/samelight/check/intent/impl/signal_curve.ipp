#pragma once
// The bodies of check/intent/signal_curve.hpp.

#include <algorithm>
#include <cmath>
#include <string>

#include "samelight/check/intent/signal_curve.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/colour/signals/transfer_hlg.hpp"
#include "samelight/colour/signals/transfer_pq.hpp"
#include "samelight/colour/signals/transfer_sdr.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// ITU-R BT.2390-8, 5.4.1 (from memory): the Hermite spline from the knee to the display's peak.
inline double rolled_off(double e, double most) {
    const double knee = 1.5 * most - 0.5;
    if (e < knee || most >= 1.0) {
        return e;
    }
    const double t = (e - knee) / (1.0 - knee);
    const double t2 = t * t;
    const double t3 = t2 * t;
    return (2.0 * t3 - 3.0 * t2 + 1.0) * knee + (t3 - 2.0 * t2 + t) * (1.0 - knee) +
           (3.0 * t2 - 2.0 * t3) * most;
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE SignalCurve::SignalCurve(const CurveOptions& options) : options_(options) {
    const double white = options.white_cd_m2;
    const double black = options.black_cd_m2;
    if (!(white > 0.0 && white <= 1e5)) {
        throw Error(ErrorKind::domain, "SignalCurve", "a white of " + to_text(white) + " cd/m2",
                    "above 0, up to 1e5");
    }
    if (!(black >= 0.0 && black < 0.1 * white)) {
        throw Error(ErrorKind::domain, "SignalCurve", "a black of " + to_text(black) + " cd/m2",
                    "0 or more, below a tenth of the white");
    }
    const double exponent = options.exponent;
    if (options.kind == CurveKind::power && !(exponent >= 0.1 && exponent <= 10.0)) {
        throw Error(ErrorKind::domain, "SignalCurve", "a power of " + to_text(exponent),
                    "0.1 to 10");
    }
    if (options.kind == CurveKind::hlg) {
        static_cast<void>(HlgDisplay{Luminance(white), Luminance(black)});
    }
    if (options.kind == CurveKind::pq) {
        take_pq_range();
    }
}

SAMELIGHT_INLINE void SignalCurve::take_pq_range() {
    // SMPTE ST 2084:2014: signal 1.
    constexpr double top = 10000.0;
    const double programme = options_.programme_peak_cd_m2.value_or(top);
    if (options_.white_cd_m2 > top) {
        throw Error(ErrorKind::domain, "SignalCurve",
                    "a peak of " + to_text(options_.white_cd_m2) + " cd/m2",
                    "up to 10,000 with PQ");
    }
    if (!(programme >= 1.0 && programme <= top)) {
        throw Error(ErrorKind::domain, "SignalCurve",
                    "a programme's peak of " + to_text(programme) + " cd/m2", "1 to 10,000");
    }
    range_ = Pq::signal(Luminance(programme)).value();
    most_ = Pq::signal(Luminance(options_.white_cd_m2)).value() / range_;
    const double black = options_.black_cd_m2;
    least_ = black > 0.0 ? Pq::signal(Luminance(black)).value() / range_ : 0.0;
    if (!(least_ <= 0.25)) {
        throw Error(ErrorKind::domain, "SignalCurve", "a black of " + to_text(black) + " cd/m2",
                    "one that its lift leaves in order: a quarter of the range at most");
    }
}

SAMELIGHT_INLINE double SignalCurve::pq(double signal) const {
    double e = std::clamp(signal / range_, 0.0, 1.0);
    e = options_.programme_peak_cd_m2 ? detail::rolled_off(e, most_) : e;
    const double rest = 1.0 - e;
    e += least_ * rest * rest * rest * rest;
    return e <= 0.0 ? 0.0
                    : std::min(options_.white_cd_m2, Pq::luminance(Signal(e * range_)).cd_m2());
}

/// By halving: the curve with its lift and its knee has no inverse in closed form.
SAMELIGHT_INLINE double SignalCurve::pq_signal(double luminance) const {
    double low = 0.0;
    double high = 1.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (pq(middle) < luminance ? low : high) = middle;
    }
    return high;
}

SAMELIGHT_INLINE double SignalCurve::grey(double signal) const {
    if (!(signal >= -0.1 && signal <= 1.1)) {
        throw Error(ErrorKind::domain, "SignalCurve", "a signal of " + to_text(signal),
                    "-0.1 to 1.1");
    }
    const Luminance white(options_.white_cd_m2);
    const Luminance black(options_.black_cd_m2);
    const Signal s(signal);
    switch (options_.kind) {
        case CurveKind::bt1886:
            return Bt1886(white, black).luminance(s).cd_m2();
        case CurveKind::power:
            return PlainGamma(options_.exponent, white, black).luminance(s).cd_m2();
        case CurveKind::srgb:
            return black.cd_m2() + (white - black).cd_m2() * Srgb::light(s).value();
        case CurveKind::pq:
            return pq(signal);
        case CurveKind::hlg:
            break;
    }
    return HlgDisplay(white, black).luminance(s).cd_m2();
}

SAMELIGHT_INLINE std::array<double, 3> SignalCurve::light(
    const std::array<double, 3>& signal) const {
    if (options_.kind == CurveKind::hlg) {
        for (const double s : signal) {
            static_cast<void>(grey(s));
        }
        const HlgDisplay display{Luminance(options_.white_cd_m2), Luminance(options_.black_cd_m2)};
        return display.light({Signal(signal[0]), Signal(signal[1]), Signal(signal[2])}).values();
    }
    return {grey(signal[0]), grey(signal[1]), grey(signal[2])};
}

SAMELIGHT_INLINE std::array<double, 3> SignalCurve::own_signals(
    const std::array<double, 3>& light) const {
    const Luminance white(options_.white_cd_m2);
    const Luminance black(options_.black_cd_m2);
    if (options_.kind == CurveKind::hlg) {
        const auto s = HlgDisplay(white, black)
                           .signals({std::max(0.0, light[0]), std::max(0.0, light[1]),
                                     std::max(0.0, light[2])});
        return {s[0].value(), s[1].value(), s[2].value()};
    }
    std::array<double, 3> result{};
    for (std::size_t i = 0; i < 3; ++i) {
        const double l = std::clamp(light[i], black.cd_m2(), white.cd_m2());
        switch (options_.kind) {
            case CurveKind::bt1886:
                result[i] = Bt1886(white, black).signal(Luminance(l)).value();
                break;
            case CurveKind::power:
                result[i] =
                    PlainGamma(options_.exponent, white, black).signal(Luminance(l)).value();
                break;
            case CurveKind::srgb:
                result[i] = Srgb::signal(LinearLight((l - black.cd_m2()) / (white - black).cd_m2()))
                                .value();
                break;
            default:
                result[i] = pq_signal(l);
        }
    }
    return result;
}

SAMELIGHT_INLINE SignalCurve::Signals SignalCurve::signals(
    const std::array<double, 3>& light_cd_m2) const {
    for (const double l : light_cd_m2) {
        if (!std::isfinite(l)) {
            throw Error(ErrorKind::domain, "SignalCurve", "a light of " + to_text(l),
                        "a finite number");
        }
    }
    Signals result{own_signals(light_cd_m2), false};
    for (double& s : result.signal) {
        s = std::clamp(s, 0.0, 1.0);
    }
    const std::array<double, 3> made = light(result.signal);
    for (std::size_t i = 0; i < 3; ++i) {
        result.cut = result.cut || std::abs(made[i] - light_cd_m2[i]) > 1e-6 * options_.white_cd_m2;
    }
    return result;
}

SAMELIGHT_INLINE std::optional<double> SignalCurve::knee() const {
    if (options_.kind != CurveKind::pq || !options_.programme_peak_cd_m2 || most_ >= 1.0) {
        return {};
    }
    return std::max(0.0, 1.5 * most_ - 0.5) * range_;
}

}  // namespace samelight
