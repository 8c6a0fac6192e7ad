#pragma once
// The perceptual quantiser of high dynamic range: SMPTE ST 2084 and ITU-R BT.2100 (PQ).
#include <array>
#include <cstddef>

#include "samelight/colour/luminance.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// SMPTE ST 2084:2014 and ITU-R BT.2100-2, Table 4.
namespace pq {
inline constexpr double m1 = 2610.0 / 16384.0;
inline constexpr double m2 = 2523.0 / 32.0;
inline constexpr double c1 = 3424.0 / 4096.0;
inline constexpr double c2 = 2413.0 / 128.0;
inline constexpr double c3 = 2392.0 / 128.0;
inline constexpr double peak_cd_m2 = 10000.0;
/// 1 - c1 and c2 - c3 are the same number, exactly. With it both directions can be written around exp(t) - 1 and log(1 + z) of
/// small t and z, which keeps the digits that c2 - c3 N^(1/m2) would cancel away, in float above all.
inline constexpr double k = 1.0 - c1;
static_assert(k == c2 - c3);
/// How far the functions go: past the last super-white code of limited range, and the light of that signal, rounded up.
inline constexpr double signal_limit = 1.1;
inline constexpr double luminance_limit = 26557.0;
}  // namespace pq

/// Coefficients of (exp(t) - 1) / t: 1 / (n + 1)!.
inline constexpr std::array<double, 12> expm1_series = {1.0,
                                                        1.0 / 2,
                                                        1.0 / 6,
                                                        1.0 / 24,
                                                        1.0 / 120,
                                                        1.0 / 720,
                                                        1.0 / 5040.0,
                                                        1.0 / 40320.0,
                                                        1.0 / 362880.0,
                                                        1.0 / 3628800.0,
                                                        1.0 / 39916800.0,
                                                        1.0 / 479001600.0};
/// Coefficients of atanh(s) / s by s^2: 1 / (2 n + 1).
inline constexpr std::array<double, 8> atanh_series = {1.0,     1.0 / 3,  1.0 / 5,  1.0 / 7,
                                                       1.0 / 9, 1.0 / 11, 1.0 / 13, 1.0 / 15};

template <class V, std::size_t N>
V polynomial(const std::array<double, N>& coefficients, const V& x) {
    V sum = math::constant<V>(coefficients[N - 1]);
    for (std::size_t n = N - 1; n-- > 0;) {
        sum = math::multiply_add(sum, x, math::constant<V>(coefficients[n]));
    }
    return sum;
}

/// The EOTF, ITU-R BT.2100-2, Table 4, in cd/m2; for 0 <= signal <= signal_limit.
/// With e = N^(1/m2) - 1 it reads (max(k + e, 0) / (k - c3 e))^(1/m1).
template <class V>
V pq_luminance_of_positive(const V& signal) {
    const auto c = [](double value) { return math::constant<V>(value); };
    // All is dark where N^(1/m2) is below c1, that is t below -0.1793; -0.18 keeps the series in its range.
    const V t = math::max(c(-0.18), math::log(signal) * c(1.0 / pq::m2));
    const V e = t * polynomial(expm1_series, t);
    const V ratio = math::max(c(0.0), c(pq::k) + e) / (c(pq::k) - c(pq::c3) * e);
    return c(pq::peak_cd_m2) * math::pow(ratio, c(1.0 / pq::m1));
}

/// Its inverse; for 0 <= luminance <= luminance_limit in cd/m2.
/// With y = (L / 10000)^m1 and z = k (y - 1) / (1 + c3 y) it reads (1 + z)^m2.
template <class V>
V pq_signal_of_positive(const V& luminance) {
    const auto c = [](double value) { return math::constant<V>(value); };
    const V y = math::pow(luminance * c(1.0 / pq::peak_cd_m2), c(pq::m1));
    const V z = c(pq::k) * (y - c(1.0)) / (c(1.0) + c(pq::c3) * y);
    const V s = z / (c(2.0) + z);  // log(1 + z) = 2 atanh(s), -0.0894 <= s <= 0.001
    return math::exp(c(2.0 * pq::m2) * s * polynomial(atanh_series, s * s));
}

/// `f` of |x| with the sign of x; NaN beyond the limit.
template <class V, class F>
V odd_within(const V& x, double limit, const F& f) {
    const V a = math::abs(x);
    return math::select(a > math::constant<V>(limit), not_a_number<V>(), with_sign(x, f(a)));
}

template <class V>
V pq_luminance(const V& signal) {
    return odd_within(signal, pq::signal_limit,
                      [](const V& a) { return pq_luminance_of_positive(a); });
}
template <class V>
V pq_signal(const V& luminance) {
    return odd_within(luminance, pq::luminance_limit,
                      [](const V& a) { return pq_signal_of_positive(a); });
}

}  // namespace detail

/// The perceptual quantiser, between signal and luminance: signal 1 is 10,000 cd/m2.
///
/// The standards cover signals from 0 to 1. Continued here by own choice: up to 1.1 and 26,557 cd/m2 by the same formulas, as far
/// as the super-white codes of limited range go; and below 0 as an odd function, so that readings with noise about black keep
/// their sign (a display shows no light there). A luminance of 0 has the signal 7.3e-7, as published, so that the odd function
/// steps by twice that at 0; a signal within 7.3e-7 of 0 is no light.
/// Range: signals of -1.1 to 1.1, luminances of -26,557 to 26,557 cd/m2.
/// Error: luminance 2e-14 relative + 1e-20 cd/m2; signal 1e-14 relative. Round trip of a luminance from 1e-6 cd/m2 up 5e-14
/// relative, of a signal from 1e-5 up 1e-14.
/// Throws Error (domain) outside the range.
/// Source: SMPTE ST 2084:2014; ITU-R BT.2100-2, Table 4.
struct SAMELIGHT_API Pq {
    /// The luminance of a signal, cd/m2, and the signal of a luminance. Throw Error (domain) outside the range.
    [[nodiscard]] static Luminance luminance(Signal s);
    [[nodiscard]] static Signal signal(Luminance l);
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/signals/impl/transfer_pq.ipp"
#endif
