#pragma once
// CIELAB and CIELUV as printed in CIE 15:2018, in long double: what the tests compare with.
#include <array>
#include <cmath>
#include <cstddef>

namespace samelight::test {

using Exact3 = std::array<long double, 3>;

/// f of a ratio to the white. CIE 15:2018, 8.2.1.
inline long double lab_root_as_printed(long double ratio) {
    const long double edge = 24.0L / 116.0L;
    return ratio > edge * edge * edge ? std::cbrt(ratio) : 841.0L / 108.0L * ratio + 16.0L / 116.0L;
}
/// L*, a*, b* of X, Y, Z. CIE 15:2018, 8.2.1.
inline Exact3 lab_as_printed(const Exact3& xyz, const std::array<double, 3>& white) {
    const auto f = [&](std::size_t k) { return lab_root_as_printed(xyz[k] / white[k]); };
    return {116.0L * f(1) - 16.0L, 500.0L * (f(0) - f(1)), 200.0L * (f(1) - f(2))};
}
/// X, Y, Z of L*, a*, b*. CIE 15:2018, E.2.
inline Exact3 xyz_of_lab_as_printed(const Exact3& lab, const std::array<double, 3>& white) {
    const auto back = [](long double f) {
        return f > 24.0L / 116.0L ? f * f * f : 108.0L / 841.0L * (f - 16.0L / 116.0L);
    };
    const long double fy = (lab[0] + 16.0L) / 116.0L;
    return {white[0] * back(fy + lab[1] / 500.0L), white[1] * back(fy),
            white[2] * back(fy - lab[2] / 200.0L)};
}

/// u' and v' of X, Y, Z; 0 of black. CIE 15:2018, 8.2.2.
inline std::array<long double, 2> uv_as_printed(const Exact3& xyz) {
    const long double d = xyz[0] + 15.0L * xyz[1] + 3.0L * xyz[2];
    return d == 0.0L ? std::array<long double, 2>{0.0L, 0.0L}
                     : std::array<long double, 2>{4.0L * xyz[0] / d, 9.0L * xyz[1] / d};
}
/// L*, u*, v* of X, Y, Z. CIE 15:2018, 8.2.2.
inline Exact3 luv_as_printed(const Exact3& xyz, const std::array<double, 3>& white) {
    const long double L = 116.0L * lab_root_as_printed(xyz[1] / white[1]) - 16.0L;
    const auto own = uv_as_printed(xyz);
    const auto of_white = uv_as_printed({white[0], white[1], white[2]});
    return {L, 13.0L * L * (own[0] - of_white[0]), 13.0L * L * (own[1] - of_white[1])};
}
/// X, Y, Z of L*, u*, v* with L* above 0: the same, solved.
inline Exact3 xyz_of_luv_as_printed(const Exact3& luv, const std::array<double, 3>& white) {
    const auto of_white = uv_as_printed({white[0], white[1], white[2]});
    const long double u = luv[1] / (13.0L * luv[0]) + of_white[0];
    const long double v = luv[2] / (13.0L * luv[0]) + of_white[1];
    const long double Y = luv[0] > 8.0L ? white[1] * std::pow((luv[0] + 16.0L) / 116.0L, 3.0L)
                                        : white[1] * luv[0] * 27.0L / 24389.0L;
    return {Y * 9.0L * u / (4.0L * v), Y, Y * (12.0L - 3.0L * u - 20.0L * v) / (4.0L * v)};
}

}  // namespace samelight::test
