#pragma once
// The functions of math.hpp for xsimd's batches, made of its arithmetic alone: exp, log, pow, cbrt, sine, cosine and atan2.
// xsimd 8's own leave out cases, or take two to four times as long. Only with xsimd; value_batch.hpp includes this where it is.
// Inlined always: a call would pass batches through memory, and g++ makes one of every root of a formula. Own: the ways to reduce and the
// polynomials, whose errors stand beside them; tests compare with long double. An epsilon of a result is 2.2e-16 of it (float 1.2e-7): one
// unit in its last place just above a power of two, half a unit just below one.
#include <array>
#include <bit>
#include <cstddef>
#include <limits>
#include <type_traits>
#include <utility>

#include <xsimd/xsimd.hpp>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/kernel_constants.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/processors/neon_batch.hpp"

#if defined(__GNUC__) && !defined(__clang__)
// g++ 12 takes the deliberately undefined registers of its own AVX-512 header for uninitialised variables.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wuninitialized"
#pragma GCC diagnostic ignored "-Wmaybe-uninitialized"
#endif

namespace samelight::inline SAMELIGHT_FORM::math {

template <class T, class A>
struct ScalarOf<xsimd::batch<T, A>> {
    using type = T;
};

namespace kernel {

/// a b + c in one rounding where the processor can. xsimd 8 leaves it out for AVX-512.
template <class T, class A>
[[gnu::always_inline]] inline xsimd::batch<T, A> fused(const xsimd::batch<T, A>& a,
                                                       const xsimd::batch<T, A>& b,
                                                       const xsimd::batch<T, A>& c) {
#if XSIMD_WITH_AVX512F
    if constexpr (std::is_base_of_v<xsimd::avx512f, A>) {
        if constexpr (std::is_same_v<T, double>) {
            return xsimd::batch<T, A>(_mm512_fmadd_pd(a.data, b.data, c.data));
        } else {
            return xsimd::batch<T, A>(_mm512_fmadd_ps(a.data, b.data, c.data));
        }
    }
#endif
    return xsimd::fma(a, b, c);
}
/// c - a b, likewise; xsimd's own spends an operation on the sign where there is no such instruction.
template <class T, class A>
[[gnu::always_inline]] inline xsimd::batch<T, A> fused_from(const xsimd::batch<T, A>& c,
                                                            const xsimd::batch<T, A>& a,
                                                            const xsimd::batch<T, A>& b) {
#if XSIMD_WITH_AVX512F
    if constexpr (std::is_base_of_v<xsimd::avx512f, A>) {
        if constexpr (std::is_same_v<T, double>) {
            return xsimd::batch<T, A>(_mm512_fnmadd_pd(a.data, b.data, c.data));
        } else {
            return xsimd::batch<T, A>(_mm512_fnmadd_ps(a.data, b.data, c.data));
        }
    }
#endif
#ifdef __FMA__
    return xsimd::fnma(a, b, c);
#else
    return c - a * b;
#endif
}

/// The same batch, in a register from here on: g++ loads what stands in memory anew at each use, which takes longer than what is done with it.
template <class T, class A>
[[gnu::always_inline]] inline xsimd::batch<T, A> kept(const xsimd::batch<T, A>& x) {
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__)
    auto data = x.data;
#if defined(__AVX512F__)
    asm("" : "+v"(data));
#else
    asm("" : "+x"(data));
#endif
    return xsimd::batch<T, A>(data);
#else
    return x;
#endif
}

/// The sum of a batch's numbers, halves added to halves.
template <class T, class A>
[[gnu::always_inline]] inline T sum(const xsimd::batch<T, A>& x) {
#if XSIMD_VERSION_MAJOR >= 9
    return xsimd::reduce_add(x);
#else
    return xsimd::hadd(x);
#endif
}

/// Of the first two times I numbers the larger of each and the one I places behind it; on until one is left.
template <class T, std::size_t N, std::size_t... I>
[[gnu::always_inline]] inline void fold_larger(std::array<T, N>& lanes, std::index_sequence<I...>) {
    constexpr std::size_t half = sizeof...(I);
    ((lanes[I] = lanes[I + half] > lanes[I] ? lanes[I + half] : lanes[I]), ...);
    if constexpr (half > 1) {
        fold_larger(lanes, std::make_index_sequence<half / 2>{});
    }
}
/// The largest of a batch's numbers, without a branch.
template <class T, class A>
[[gnu::always_inline]] inline T largest(const xsimd::batch<T, A>& x) {
    std::array<T, xsimd::batch<T, A>::size> lanes;
    x.store_unaligned(lanes.data());
    fold_larger(lanes, std::make_index_sequence<lanes.size() / 2>{});
    return lanes[0];
}

/// The smaller and the larger of two; b where one of them isn't a number, which is what x86's instructions say, too.
template <class T, class A>
[[gnu::always_inline]] inline xsimd::batch<T, A> smaller(const xsimd::batch<T, A>& a,
                                                         const xsimd::batch<T, A>& b) {
#if XSIMD_WITH_SSE2
    return xsimd::min(a, b);
#else
    return xsimd::select(a < b, a, b);
#endif
}
template <class T, class A>
[[gnu::always_inline]] inline xsimd::batch<T, A> larger(const xsimd::batch<T, A>& a,
                                                        const xsimd::batch<T, A>& b) {
#if XSIMD_WITH_SSE2
    return xsimd::max(a, b);
#else
    return xsimd::select(a > b, a, b);
#endif
}

/// One of the two sums of `polynomial`: c[Last] + c[Last - 2] x2 + ..., written out, because compilers unroll the loop at -O3 only.
template <std::size_t Last, class T, class A, std::size_t N, std::size_t... I>
[[gnu::always_inline]] inline xsimd::batch<T, A> every_other(const xsimd::batch<T, A>& x2,
                                                             const std::array<T, N>& c,
                                                             std::index_sequence<I...>) {
    xsimd::batch<T, A> sum(c[Last]);
    ((sum = fused(sum, x2, xsimd::batch<T, A>(c[Last - 2 - 2 * I]))), ...);
    return sum;
}

/// c[0] + c[1] x + c[2] x^2 + ...: even and odd powers apart, by Horner's rule, because one long chain of sums would be waited for.
template <class T, class A, std::size_t N>
[[gnu::always_inline]] inline xsimd::batch<T, A> polynomial(const xsimd::batch<T, A>& x,
                                                            const std::array<T, N>& c) {
    using V = xsimd::batch<T, A>;
    static_assert(N >= 3);
    const V x2 = x * x;
    const V same = every_other<N - 1>(x2, c, std::make_index_sequence<(N - 1) / 2>{});
    const V other = every_other<N - 2>(x2, c, std::make_index_sequence<(N - 2) / 2>{});
    return N % 2 == 0 ? fused(same, x, other) : fused(other, x, same);
}

template <class T, class A>
using BitsOf = xsimd::batch<typename Constants<T>::Bits, A>;
/// A number's bits as an integer, and a number from its bits.
template <class T, class A>
[[gnu::always_inline]] inline BitsOf<T, A> bits_of(const xsimd::batch<T, A>& x) {
    return xsimd::bitwise_cast<BitsOf<T, A>>(x);
}
template <class T, class A>
[[gnu::always_inline]] inline xsimd::batch<T, A> from_bits(const BitsOf<T, A>& bits) {
    return xsimd::bitwise_cast<xsimd::batch<T, A>>(bits);
}

/// e to the power of x, for any x; 0 where the result would be subnormal. Error: 1.2 units in the last place.
template <class T, class A>
[[gnu::always_inline]] inline xsimd::batch<T, A> exp(const xsimd::batch<T, A>& x) {
    using V = xsimd::batch<T, A>;
    using C = Constants<T>;
    // x = k ln 2 + r; the bits of exp(r) get k added to their exponent.
    const V rounded = fused(x, constant<V>(1.4426950408889634074), V(C::rounder));
    const V k = rounded - V(C::rounder);
    const V r = fused_from(fused_from(x, k, V(C::ln2_high)), k, V(C::ln2_low));
    const V part = fused(r * r, polynomial(r, C::exp), r) + V(T(1));
    const V result = from_bits<T, A>(bits_of(part) + (bits_of(rounded) << C::mantissa_bits));
    // Beyond the range 0 or infinity; the sum keeps NaN.
    const V beyond = xsimd::select(x < V(T(0)), V(T(0)), x + V(std::numeric_limits<T>::infinity()));
    return xsimd::select(x > V(C::exp_least) && x < V(C::exp_most), result, beyond);
}

/// 2 to the power of x, without a look at what is above the range. Error: 4e-14 relative, float 3e-7.
template <class T, class A>
[[gnu::always_inline]] inline xsimd::batch<T, A> short_exp2(const xsimd::batch<T, A>& x) {
    using V = xsimd::batch<T, A>;
    using C = Constants<T>;
    // x = k + r, exactly.
    const V bounded = larger(V(C::exp2_least), x);
    const V rounded = bounded + V(C::rounder);
    const V r = bounded - (rounded - V(C::rounder));
    const V part = fused(r, polynomial(r, C::exp2), V(T(1)));
    return from_bits<T, A>(bits_of(part) + (bits_of(rounded) << C::mantissa_bits));
}

/// Natural logarithm. Subnormal numbers count as 0, whose logarithm is minus infinity; NaN below. Error: 1.5 epsilon of
/// the result.
template <class T, class A>
[[gnu::always_inline]] inline xsimd::batch<T, A> log(const xsimd::batch<T, A>& x) {
    using V = xsimd::batch<T, A>;
    using C = Constants<T>;
    using Bits = BitsOf<T, A>;
    // x = 2^k m with m from sqrt(1/2) to sqrt(2); log(m) by its series in (m - 1) / (m + 1).
    const Bits shifted = bits_of(x) + Bits(C::one - C::sqrt_half);
    const Bits biased =
        (shifted >> C::mantissa_bits) | Bits(std::bit_cast<typename C::Bits>(C::two_to_mantissa));
    const V k = from_bits<T, A>(biased) -
                V(C::two_to_mantissa + T(std::numeric_limits<T>::max_exponent - 1));
    const V m = from_bits<T, A>((shifted & Bits(C::mantissa_mask)) + Bits(C::sqrt_half));
    const V s = (m - V(T(1))) / (m + V(T(1)));
    const V s2 = s * s;
    const V log_m = fused(s * s2, polynomial(s2, C::log), s + s);
    const V result = fused(k, V(C::ln2_high), fused(k, V(C::ln2_low), log_m));
    const V least(std::numeric_limits<T>::min());
    const V infinity(std::numeric_limits<T>::infinity());
    const V not_positive =
        xsimd::select(x < V(T(0)), V(std::numeric_limits<T>::quiet_NaN()), -infinity);
    return xsimd::select(x >= least && x < infinity, result,
                         xsimd::select(x < least, not_positive, x));
}

/// x to the power of `exponent`, for x >= 0 and a finite exponent, above 0 where x may be 0. Error, relative:
/// (2 + |exponent ln x|) epsilon of the result.
template <class T, class A>
[[gnu::always_inline]] inline xsimd::batch<T, A> pow(const xsimd::batch<T, A>& x,
                                                     const xsimd::batch<T, A>& exponent) {
    return kernel::exp(exponent * kernel::log(x));
}

/// A first guess of a^(-1/3) for a > 0, not subnormal: within 3.5 %. A number's bits, read as an integer, are nearly its
/// logarithm to base 2, so minus a third of them is nearly that of the result. With these constants |1 - a r^3| <= 0.10204.
template <class A>
[[gnu::always_inline]] inline xsimd::batch<double, A> inverse_cbrt_guess(
    const xsimd::batch<double, A>& a) {
    using V = xsimd::batch<double, A>;
    using Bits = BitsOf<double, A>;
    // The upper half of the bits as a number: placed behind the point of 2^52, which then comes off.
    const V two52(Constants<double>::two_to_mantissa);
    const V upper = from_bits<double, A>((bits_of(a) >> 32) | bits_of(two52)) - two52;
    const Bits guess = bits_of(fused(upper, V(-1.0 / 3.0), V(1430186340.0)) + two52);
    return from_bits<double, A>(guess << 32);
}
template <class A>
[[gnu::always_inline]] inline xsimd::batch<float, A> inverse_cbrt_guess(
    const xsimd::batch<float, A>& a) {
    using V = xsimd::batch<float, A>;
    const V bits = xsimd::to_float(xsimd::bitwise_cast<xsimd::batch<int32_t, A>>(a));
    const V guess = fused(bits, V(-1.0F / 3.0F), V(1419900361.0F));
    return xsimd::bitwise_cast<V>(xsimd::to_int(guess));
}

/// Cube root of a > 0, neither subnormal nor within a factor 2 of overflow, without a division: a guess of the inverse root, one
/// correction of high order, one of Newton's steps. NaN stays; what else lies outside gives anything. Error: 1 unit in the last
/// place.
template <class T, class A>
[[gnu::always_inline]] inline xsimd::batch<T, A> positive_cbrt(const xsimd::batch<T, A>& a) {
    using V = xsimd::batch<T, A>;
    const V guess = inverse_cbrt_guess(a);
    const V e = fused_from(V(T(1)), a * guess, guess * guess);
    const V r = fused(guess * e, polynomial(e, Constants<T>::inverse_cbrt), guess);
    const V r2 = r * r;
    const V y = a * r2;
    return fused(fused_from(a, y * y, y), r2 * constant<V>(1.0 / 3.0), y);
}

/// Cube root of any number. Error: 1 unit in the last place.
template <class T, class A>
[[gnu::always_inline]] inline xsimd::batch<T, A> cbrt(const xsimd::batch<T, A>& x) {
    using V = xsimd::batch<T, A>;
    // A power of 2^3 keeps small numbers from being subnormal and the greatest from overflow; its root comes off the result.
    constexpr T up = std::is_same_v<T, double> ? T(18014398509481984.0) : T(16777216.0);
    constexpr T back = std::is_same_v<T, double> ? T(1.0 / 262144.0) : T(1.0 / 256.0);
    const V magnitude = xsimd::abs(x);
    const auto small = magnitude < V(T(8) * std::numeric_limits<T>::min());
    const V root = positive_cbrt(magnitude * xsimd::select(small, V(up), V(T(0.125))));
    const V result = (root * xsimd::select(small, V(back), V(T(2)))) | xsimd::bitofsign(x);
    // 0, infinity and NaN are their own roots.
    const V infinity(std::numeric_limits<T>::infinity());
    return xsimd::select(magnitude > V(T(0)) && magnitude < infinity, result, x);
}

/// Sine and cosine of radians for |x| <= 1e5 (float: 1e4); NaN beyond, where reduction would need more digits.
/// Error: 1 unit in the last place of 1, absolute.
template <class T, class A>
[[gnu::always_inline]] inline SinCos<xsimd::batch<T, A>> sin_cos(const xsimd::batch<T, A>& x) {
    using V = xsimd::batch<T, A>;
    using C = Constants<T>;
    using Bits = BitsOf<T, A>;
    // x = k pi/2 + r; pi/2 in three parts, of which k times the first two is exact.
    const V rounded = fused(x, constant<V>(0.63661977236758134308), V(C::rounder));
    const V k = rounded - V(C::rounder);
    const V near = fused_from(fused_from(x, k, V(C::half_pi_1)), k, V(C::half_pi_2));
    const V r = fused_from(near, k, V(C::half_pi_3));
    const V r2 = r * r;
    const V sine = fused(r * r2, polynomial(r2, C::sin), r);
    const V cosine = fused(r2 * r2, polynomial(r2, C::cos), fused(r2, constant<V>(-0.5), V(T(1))));
    const Bits quadrant = bits_of(rounded);
    constexpr int to_sign = C::mantissa_bits == 52 ? 62 : 30;
    const auto sign = [&](const Bits& second_bit) {
        return from_bits<T, A>((second_bit << to_sign) & bits_of(V(T(-0.0))));
    };
    const auto odd = from_bits<T, A>((quadrant & Bits(1)) + Bits(C::one)) > V(T(1));
    const auto fits = xsimd::abs(x) <= V(C::trigonometric_limit);
    const V nan(std::numeric_limits<T>::quiet_NaN());
    return {xsimd::select(fits, xsimd::select(odd, cosine, sine) ^ sign(quadrant), nan),
            xsimd::select(fits, xsimd::select(odd, sine, cosine) ^ sign(quadrant + Bits(1)), nan)};
}

/// The angle of the point (x, y), for |x| and |y| below half the largest number. One division. The sign of a zero x is not
/// looked at: the origin has angle 0. Error: 2 epsilon of the angle.
template <class T, class A>
[[gnu::always_inline]] inline xsimd::batch<T, A> atan2(const xsimd::batch<T, A>& y,
                                                       const xsimd::batch<T, A>& x) {
    using V = xsimd::batch<T, A>;
    const V ax = xsimd::abs(x);
    const V ay = xsimd::abs(y);
    const auto steep = ay > ax;
    const V less = xsimd::select(steep, ax, ay);
    const V more = xsimd::select(steep, ay, ax);
    // Above pi/8 the angle to the diagonal is taken instead: atan(t) = pi/4 + atan((t - 1) / (t + 1)).
    const auto near_diagonal = less > constant<V>(0.41421356237309504880) * more;
    const V numerator = xsimd::select(near_diagonal, less - more, less);
    const V denominator = xsimd::select(near_diagonal, less + more, more);
    const V z = numerator / xsimd::select(denominator == V(T(0)), V(T(1)), denominator);
    const V z2 = z * z;
    const V from_axis = fused(z * z2, polynomial(z2, Constants<T>::atan), z) +
                        xsimd::select(near_diagonal, constant<V>(0.78539816339744830962), V(T(0)));
    const V right = xsimd::select(steep, constant<V>(1.5707963267948966192) - from_axis, from_axis);
    const V angle = xsimd::select(x < V(T(0)), pi<V>() - right, right);
    return angle | xsimd::bitofsign(y);
}

}  // namespace kernel

template <class T, class A>
struct Functions<xsimd::batch<T, A>> {
    using V = xsimd::batch<T, A>;

    static V cbrt(const V& x) { return kernel::cbrt(x); }
    static V positive_cbrt(const V& x) { return kernel::positive_cbrt(x); }
    static V exp(const V& x) { return kernel::exp(x); }
    static V short_exp2(const V& x) { return kernel::short_exp2(x); }
    static V log(const V& x) { return kernel::log(x); }
    static V pow(const V& x, const V& exponent) { return kernel::pow(x, exponent); }
    static V sqrt(const V& x) { return kernel::square_root(x); }
    static V sin(const V& x) { return kernel::sin_cos(x).sin; }
    static V cos(const V& x) { return kernel::sin_cos(x).cos; }
    static SinCos<V> sin_cos(const V& x) { return kernel::sin_cos(x); }
    static V atan2(const V& y, const V& x) { return kernel::atan2(y, x); }
    static V abs(const V& x) { return xsimd::abs(x); }
    static V min(const V& a, const V& b) { return kernel::smaller(a, b); }
    static V max(const V& a, const V& b) { return kernel::larger(a, b); }
    static V multiply_add(const V& a, const V& b, const V& c) { return kernel::fused(a, b, c); }
    static V select(const xsimd::batch_bool<T, A>& condition, const V& a, const V& b) {
        return xsimd::select(condition, a, b);
    }
};

}  // namespace samelight::math

#if defined(__GNUC__) && !defined(__clang__)
#pragma GCC diagnostic pop
#endif
