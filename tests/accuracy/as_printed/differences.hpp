#pragma once
// Colour differences as printed in their standards, in long double: what the tests compare with.
#include <cmath>
#include <numbers>

#include "samelight/colour/differences/difference.hpp"
#include "samelight/colour/differences/difference_formulas.hpp"

namespace samelight::test {

using LabNumbers = detail::LabOf<double>;

inline long double degrees(long double radians) {
    const long double d = radians * 180.0L / std::numbers::pi_v<long double>;
    return d < 0.0L ? d + 360.0L : d;
}
inline long double cosine(long double deg) {
    return std::cos(deg * std::numbers::pi_v<long double> / 180.0L);
}
inline long double sine(long double deg) {
    return std::sin(deg * std::numbers::pi_v<long double> / 180.0L);
}

/// Sharma, Wu & Dalal 2005, eqs. 2-22, as printed, in long double. V: double or long double.
template <class V>
long double ciede2000_as_printed(const detail::LabOf<V>& p, const detail::LabOf<V>& q,
                                 double kL = 1, double kC = 1, double kH = 1) {
    const auto share = [](long double C) {
        return std::sqrt(std::pow(C, 7.0L) / (std::pow(C, 7.0L) + std::pow(25.0L, 7.0L)));
    };
    const long double c1 = std::hypot(static_cast<long double>(p.a), static_cast<long double>(p.b));
    const long double c2 = std::hypot(static_cast<long double>(q.a), static_cast<long double>(q.b));
    const long double G = 0.5L * (1.0L - share((c1 + c2) / 2.0L));
    const long double a1 = (1.0L + G) * p.a;
    const long double a2 = (1.0L + G) * q.a;
    const long double C1 = std::hypot(a1, static_cast<long double>(p.b));
    const long double C2 = std::hypot(a2, static_cast<long double>(q.b));
    const long double h1 =
        C1 == 0.0L ? 0.0L : degrees(std::atan2(static_cast<long double>(p.b), a1));
    const long double h2 =
        C2 == 0.0L ? 0.0L : degrees(std::atan2(static_cast<long double>(q.b), a2));
    long double dh = 0.0L;
    long double mean = h1 + h2;
    if (C1 * C2 != 0.0L) {
        dh = h2 - h1;
        if (std::abs(dh) <= 180.0L) {
            mean = (h1 + h2) / 2.0L;
        } else {
            dh += dh > 180.0L ? -360.0L : 360.0L;
            mean = (h1 + h2 < 360.0L ? h1 + h2 + 360.0L : h1 + h2 - 360.0L) / 2.0L;
        }
    }
    const long double dH = 2.0L * std::sqrt(C1 * C2) * sine(dh / 2.0L);
    const long double L50 = (static_cast<long double>(p.L) + q.L) / 2.0L - 50.0L;
    const long double C = (C1 + C2) / 2.0L;
    const long double T = 1.0L - 0.17L * cosine(mean - 30.0L) + 0.24L * cosine(2.0L * mean) +
                          0.32L * cosine(3.0L * mean + 6.0L) - 0.20L * cosine(4.0L * mean - 63.0L);
    const long double around_blue = (mean - 275.0L) / 25.0L;
    const long double RT =
        -sine(2.0L * 30.0L * std::exp(-around_blue * around_blue)) * 2.0L * share(C);
    const long double l = (static_cast<long double>(q.L) - p.L) /
                          (kL * (1.0L + 0.015L * L50 * L50 / std::sqrt(20.0L + L50 * L50)));
    const long double c = (C2 - C1) / (kC * (1.0L + 0.045L * C));
    const long double h = dH / (kH * (1.0L + 0.015L * C * T));
    return std::sqrt(l * l + c * c + h * h + RT * c * h);
}

/// ISO 105-J03:2009 and CIE 116-1995, as printed, in long double.
inline long double squared_hue_step(const LabNumbers& p, const LabNumbers& q, long double dC) {
    const long double da = static_cast<long double>(q.a) - p.a;
    const long double db = static_cast<long double>(q.b) - p.b;
    return std::fmax(0.0L, da * da + db * db - dC * dC);
}
inline long double cmc_as_printed(const LabNumbers& p, const LabNumbers& q, double l, double c) {
    const long double C1 = std::hypot(static_cast<long double>(p.a), static_cast<long double>(p.b));
    const long double dC =
        std::hypot(static_cast<long double>(q.a), static_cast<long double>(q.b)) - C1;
    const long double h =
        degrees(std::atan2(static_cast<long double>(p.b), static_cast<long double>(p.a)));
    const long double T = h >= 164.0L && h <= 345.0L ? 0.56L + std::abs(0.2L * cosine(h + 168.0L))
                                                     : 0.36L + std::abs(0.4L * cosine(h + 35.0L));
    const long double C4 = C1 * C1 * C1 * C1;
    const long double F = std::sqrt(C4 / (C4 + 1900.0L));
    const long double SL = p.L < 16.0 ? 0.511L : 0.040975L * p.L / (1.0L + 0.01765L * p.L);
    const long double SC = 0.0638L * C1 / (1.0L + 0.0131L * C1) + 0.638L;
    const long double SH = SC * (F * T + 1.0L - F);
    const long double lightness = (static_cast<long double>(q.L) - p.L) / (l * SL);
    const long double chroma = dC / (c * SC);
    return std::sqrt(lightness * lightness + chroma * chroma +
                     squared_hue_step(p, q, dC) / (SH * SH));
}
inline long double cie94_as_printed(const LabNumbers& p, const LabNumbers& q,
                                    const Cie94Weights& w) {
    const long double C1 = std::hypot(static_cast<long double>(p.a), static_cast<long double>(p.b));
    const long double dC =
        std::hypot(static_cast<long double>(q.a), static_cast<long double>(q.b)) - C1;
    const long double l = (static_cast<long double>(q.L) - p.L) / w.kL;
    const long double c = dC / (w.kC * (1.0L + w.K1 * C1));
    const long double SH = w.kH * (1.0L + w.K2 * C1);
    return std::sqrt(l * l + c * c + squared_hue_step(p, q, dC) / (SH * SH));
}

}  // namespace samelight::test
