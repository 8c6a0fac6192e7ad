#pragma once
// CIECAM16, CAM16 and CAM16-UCS as printed, in long double: what the tests compare with.
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

#include "colour/ciecam16_colours.hpp"
#include "samelight/colour/appearance/ciecam16_viewing.hpp"

namespace samelight::test::cam {

/// Li et al. 2017, Color Res. Appl. 42:703, the appendix, as printed there, in long double: J, C, h, s, Q, M, J', a', b'.
/// With `straight` the compression of CIE 248:2022.
inline std::array<long double, 9> as_printed(const ViewingConditions<O>& v,
                                             const std::array<double, 3>& xyz, bool straight) {
    const auto sharpened = [](const std::array<double, 3>& t) {
        return std::array<long double, 3>{0.401288L * t[0] + 0.650173L * t[1] - 0.051461L * t[2],
                                          -0.250268L * t[0] + 1.204414L * t[1] + 0.045854L * t[2],
                                          -0.002079L * t[0] + 0.048952L * t[1] + 0.953127L * t[2]};
    };
    const long double LA = v.adapting_luminance_cd_m2;
    const long double F = v.surround.F();
    const long double D = v.discounting == Discounting::complete
                              ? 1.0L
                              : F * (1.0L - 1.0L / 3.6L * std::exp((-LA - 42.0L) / 92.0L));
    const long double k = 1.0L / (5.0L * LA + 1.0L);
    const long double FL = 0.2L * std::pow(k, 4.0L) * 5.0L * LA +
                           0.1L * std::pow(1.0L - std::pow(k, 4.0L), 2.0L) * std::cbrt(5.0L * LA);
    const long double Yw = v.white.Y();
    const long double n = v.background_percent / Yw;
    const long double z = 1.48L + std::sqrt(n);
    const long double Nbb = 0.725L * std::pow(1.0L / n, 0.2L);
    const auto Rw = sharpened(v.white.values());
    const auto curve = [&](long double q) {
        const long double p = std::pow(FL * q / 100.0L, 0.42L);
        return 400.0L * p / (p + 27.13L);
    };
    const auto compress = [&](long double q) -> long double {
        if (!straight) {
            return (q < 0.0L ? -curve(-q) : curve(q)) + 0.1L;
        }
        if (q < 0.26L) {
            return curve(0.26L) * q / 0.26L + 0.1L;
        }
        if (q > 150.0L) {
            const long double p = std::pow(FL * 150.0L / 100.0L, 0.42L);
            const long double slope = 1.68L * 27.13L * FL * std::pow(FL * 150.0L / 100.0L, -0.58L) /
                                      std::pow(27.13L + p, 2.0L);
            return curve(150.0L) + slope * (q - 150.0L) + 0.1L;
        }
        return curve(q) + 0.1L;
    };
    const auto adapt = [&](const std::array<long double, 3>& rgb) {
        std::array<long double, 3> a{};
        for (std::size_t i = 0; i < 3; ++i) {
            a[i] = compress((D * Yw / Rw[i] + 1.0L - D) * rgb[i]);
        }
        return a;
    };
    const auto achromatic = [&](const std::array<long double, 3>& a) {
        return (2.0L * a[0] + a[1] + a[2] / 20.0L - 0.305L) * Nbb;
    };
    const auto w = adapt(Rw);
    const auto c = adapt(sharpened(xyz));
    const long double a = c[0] - 12.0L * c[1] / 11.0L + c[2] / 11.0L;
    const long double b = (c[0] + c[1] - 2.0L * c[2]) / 9.0L;
    const long double pi = std::numbers::pi_v<long double>;
    const long double radians = std::atan2(b, a);
    const long double h = radians < 0.0L ? radians * 180.0L / pi + 360.0L : radians * 180.0L / pi;
    const long double et = 0.25L * (std::cos(radians + 2.0L) + 3.8L);
    const long double Aw = achromatic(w);
    const long double J = 100.0L * std::pow(achromatic(c) / Aw, v.surround.c() * z);
    const long double t = 50000.0L / 13.0L * v.surround.Nc() * Nbb * et * std::sqrt(a * a + b * b) /
                          (c[0] + c[1] + 21.0L / 20.0L * c[2]);
    const long double alpha = std::pow(t, 0.9L) * std::pow(1.64L - std::pow(0.29L, n), 0.73L);
    const long double C = alpha * std::sqrt(J / 100.0L);
    const long double Q =
        4.0L / v.surround.c() * std::sqrt(J / 100.0L) * (Aw + 4.0L) * std::pow(FL, 0.25L);
    const long double M = C * std::pow(FL, 0.25L);
    const long double s = 50.0L * std::sqrt(v.surround.c() * alpha / (Aw + 4.0L));
    const long double Mp = std::log(1.0L + 0.0228L * M) / 0.0228L;
    return {J,
            C,
            h,
            s,
            Q,
            M,
            1.7L * J / (1.0L + 0.007L * J),
            Mp * std::cos(radians),
            Mp * std::sin(radians)};
}

}  // namespace samelight::test::cam
