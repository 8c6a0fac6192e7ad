#pragma once
// Transfer functions as printed in their standards, in long double: what the tests compare with. For signals and light not below 0.
#include <algorithm>
#include <cmath>

namespace samelight::test {

/// SMPTE ST 2084:2014 and ITU-R BT.2100-2, Table 4, as printed there, in long double.
inline long double pq_luminance_as_printed(long double signal) {
    constexpr long double m1 = 2610.0L / 16384.0L;
    constexpr long double m2 = 2523.0L / 4096.0L * 128.0L;
    constexpr long double c1 = 3424.0L / 4096.0L;
    constexpr long double c2 = 2413.0L / 4096.0L * 32.0L;
    constexpr long double c3 = 2392.0L / 4096.0L * 32.0L;
    const long double root = std::pow(signal, 1.0L / m2);
    return 10000.0L * std::pow(std::max(root - c1, 0.0L) / (c2 - c3 * root), 1.0L / m1);
}
inline long double pq_signal_as_printed(long double luminance) {
    constexpr long double m1 = 2610.0L / 16384.0L;
    constexpr long double m2 = 2523.0L / 4096.0L * 128.0L;
    constexpr long double c1 = 3424.0L / 4096.0L;
    constexpr long double c2 = 2413.0L / 4096.0L * 32.0L;
    constexpr long double c3 = 2392.0L / 4096.0L * 32.0L;
    const long double y = std::pow(luminance / 10000.0L, m1);
    return std::pow((c1 + c2 * y) / (1.0L + c3 * y), m2);
}

/// ITU-R BT.2100-2, Table 5, as printed there, in long double.
inline long double hlg_oetf_as_printed(long double e) {
    constexpr long double a = 0.17883277L;
    const long double c = 0.5L - a * std::log(4.0L * a);
    return e <= 1.0L / 12.0L ? std::sqrt(3.0L * e)
                             : a * std::log(12.0L * e - (1.0L - 4.0L * a)) + c;
}
inline long double hlg_oetf_inverse_as_printed(long double s) {
    constexpr long double a = 0.17883277L;
    const long double c = 0.5L - a * std::log(4.0L * a);
    return s <= 0.5L ? s * s / 3.0L : (std::exp((s - c) / a) + (1.0L - 4.0L * a)) / 12.0L;
}

/// IEC 61966-2-1:1999: both branches by its printed constants.
inline long double srgb_light_as_printed(long double s) {
    return s <= 0.04045L ? s / 12.92L : std::pow((s + 0.055L) / 1.055L, 2.4L);
}
inline long double srgb_signal_as_printed(long double l) {
    return l <= 0.0031308L ? 12.92L * l : 1.055L * std::pow(l, 1.0L / 2.4L) - 0.055L;
}

}  // namespace samelight::test
