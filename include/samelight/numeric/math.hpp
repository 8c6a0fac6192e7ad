#pragma once
// The functions that a formula calls, so that it is written once: for a number, and for a batch of numbers side by side. Source: elementary
// mathematics, by the standard library's functions; for batches by own polynomials (kernels_batch.hpp). No units but the radians of angles.
#include <cmath>
#include <concepts>
#include <numbers>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::math {

/// The number type inside V: V itself for float and double; value_batch.hpp says what it is for a batch.
template <class V>
struct ScalarOf {
    using type = V;
};
template <class V>
using scalar_of_t = typename ScalarOf<V>::type;

/// A constant of a formula as a V, rounded once to V's number type, so that float formulas stay in float. No unit of its own: the
/// formula's.
template <class V>
constexpr V constant(double value) {
    return V(static_cast<scalar_of_t<V>>(value));
}
/// The ratio of a circle's circumference to its diameter, and the two factors between degrees and radians.
template <class V>
constexpr V pi() {
    return V(std::numbers::pi_v<scalar_of_t<V>>);
}
template <class V>
constexpr V radians_per_degree() {
    return constant<V>(std::numbers::pi / 180.0);
}
template <class V>
constexpr V degrees_per_radian() {
    return constant<V>(180.0 / std::numbers::pi);
}

/// Sine and cosine of one angle.
template <class V>
struct SinCos {
    V sin;
    V cos;
};

/// What the functions below do for a V. The general form is for float and double and calls the standard library; value_batch.hpp
/// adds the one for batches. A template rather than overloads, so that a formula finds what is declared after it.
template <class V>
struct Functions {
    static_assert(std::floating_point<V>, "formulas are for float, double, or a batch of these");

    /// As the functions of these names below, of numbers without a unit.
    static V cbrt(V x) { return std::cbrt(x); }
    static V positive_cbrt(V x) { return std::cbrt(x); }
    static V exp(V x) { return std::exp(x); }
    static V short_exp2(V x) { return std::exp2(x); }
    static V log(V x) { return std::log(x); }
    static V pow(V x, V exponent) { return std::pow(x, exponent); }
    static V sqrt(V x) { return std::sqrt(x); }
    static V sin(V x) { return std::sin(x); }
    static V cos(V x) { return std::cos(x); }
    static SinCos<V> sin_cos(V x) { return {std::sin(x), std::cos(x)}; }
    static V atan2(V y, V x) { return std::atan2(y, x); }
    static V abs(V x) { return std::abs(x); }
    static V min(V a, V b) { return a < b ? a : b; }
    static V max(V a, V b) { return a > b ? a : b; }
    static V multiply_add(V a, V b, V c) { return a * b + c; }
    static V select(bool condition, V a, V b) { return condition ? a : b; }
};

/// Cube root, for any number. Error: value_batch.hpp states it for batches, the standard library's for numbers; so for all here. No unit.
template <class V>
V cbrt(const V& x) {
    return Functions<V>::cbrt(x);
}
/// Cube root where x is above 0 and an ordinary number; NaN stays NaN, and anything else may come out as anything. For the branch
/// of a formula that is taken only there.
template <class V>
V positive_cbrt(const V& x) {
    return Functions<V>::positive_cbrt(x);
}
template <class V>
V exp(const V& x) {
    return Functions<V>::exp(x);
}
/// 2 to the power of x, -1000 to 1000 (float: -126 to 127), by fewer operations than exp. Below that range as at its end, above anything.
/// Error for batches: 4e-14 relative, float 3e-7. No unit.
template <class V>
V short_exp2(const V& x) {
    return Functions<V>::short_exp2(x);
}
/// Natural logarithm; minus infinity at 0, NaN below. No unit.
template <class V>
V log(const V& x) {
    return Functions<V>::log(x);
}
/// x to the power of `exponent`. Range for batches: x >= 0 and a finite exponent, above 0 where x may be 0.
template <class V>
V pow(const V& x, const V& exponent) {
    return Functions<V>::pow(x, exponent);
}
template <class V>
V sqrt(const V& x) {
    return Functions<V>::sqrt(x);
}
/// Sine and cosine of radians. Range for batches: |x| <= 1e5, for float 1e4; NaN beyond.
template <class V>
V sin(const V& x) {
    return Functions<V>::sin(x);
}
template <class V>
V cos(const V& x) {
    return Functions<V>::cos(x);
}
template <class V>
SinCos<V> sin_cos(const V& x) {
    return Functions<V>::sin_cos(x);
}
/// The angle of the point (x, y), radians, -pi to pi. For batches the origin's is 0 whatever the signs of its zeros.
template <class V>
V atan2(const V& y, const V& x) {
    return Functions<V>::atan2(y, x);
}
template <class V>
V abs(const V& x) {
    return Functions<V>::abs(x);
}
/// The lesser of two. Where `b` is NaN so is the result: write the limit first, the value second, and NaN passes through. Of one unit.
template <class V>
V min(const V& a, const V& b) {
    return Functions<V>::min(a, b);
}
/// The greater of two. NaN as in min. Of one unit.
template <class V>
V max(const V& a, const V& b) {
    return Functions<V>::max(a, b);
}
/// a b + c, in one rounding where the processor does that for batches; never slower than two. No unit of its own.
template <class V>
V multiply_add(const V& a, const V& b, const V& c) {
    return Functions<V>::multiply_add(a, b, c);
}
/// `a` where the condition holds, `b` elsewhere. Both are computed. Conditions come from comparing V and are joined with && and ||. Of one
/// unit.
template <class Condition, class V>
V select(const Condition& condition, const V& a, const V& b) {
    return Functions<V>::select(condition, a, b);
}

}  // namespace samelight::math
