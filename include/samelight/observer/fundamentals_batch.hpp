#pragma once
// One eye's fundamentals, fast: the construction of cone_fundamentals.hpp with all wavelengths of a batch side by side.
//
// A row needs, at each wavelength, the absorbance A of the shifted pigment, the share 1 - 10^(-D A) that it absorbs, and what
// lens and macula let through. As written that is seven exponentials. Here it is one:
// - the curves of the three pigments are tabulated; between whole nm log A is linear, so A is the nearest tabulated value times
//   e^x with |x| <= 0.053, a short polynomial;
// - (1 - e^(-x)) / x is smooth, a polynomial too, and exact to the last places however little is absorbed;
// - lens and macula share an exponential, and none is needed from 660 nm up, where both are clear.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <type_traits>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/ocular_media.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// The 441 wavelengths of a row, filled up to a whole number of batches of any width up to 16.
inline constexpr std::size_t row_stride = 448;
/// Beside the pigments' curves there is room for the largest shift and a batch.
inline constexpr std::size_t curve_margin = 48;
/// The wavelengths, counted from 390 nm, at which lens and macula are not clear: up to 659 nm, filled up as above.
inline constexpr std::size_t media_count = 272;
/// The wavelengths among which every row has its peak: up to 693 nm. (The farthest that an eye within the ranges of Deviations
/// has it is 662 nm: L shifted by 40 nm, everything ten times as dense.)
inline constexpr std::size_t peak_count = 304;
static_assert(row_stride % 16 == 0 && row_stride >= static_cast<std::size_t>(cone_count));
static_assert(curve_margin >= static_cast<std::size_t>(largest_shift_nm) + 2);

template <class V, class T, std::size_t N, std::size_t... I>
inline V horner(const V& x, const std::array<T, N>& c, std::index_sequence<I...>) {
    V sum(c[N - 1]);
    ((sum = math::multiply_add(sum, x, V(c[N - 2 - I]))), ...);
    return sum;
}

/// c[0] + c[1] x + c[2] x^2 + ..., by Horner's rule, written out: compilers unroll the loop at -O3 only. That these templates
/// are called inline is for g++, which at -O2 then puts them into the loops.
template <class V, class T, std::size_t N>
inline V horner(const V& x, const std::array<T, N>& c) {
    return horner(x, c, std::make_index_sequence<N - 1>{});
}

/// e^x for |x| <= 0.053. Taylor's series. Error: below 3e-13 relative in double, 2e-7 in float.
template <class V>
inline V small_exp(const V& x) {
    using T = math::scalar_of_t<V>;
    if constexpr (std::is_same_v<T, double>) {
        constexpr std::array<double, 7> c = {1.0,        1.0,         1.0 / 2.0,  1.0 / 6.0,
                                             1.0 / 24.0, 1.0 / 120.0, 1.0 / 720.0};
        return horner(x, c);
    } else {
        constexpr std::array<T, 5> c = {T(1), T(1), T(1.0 / 2.0), T(1.0 / 6.0), T(1.0 / 24.0)};
        return horner(x, c);
    }
}

/// (1 - e^(-x)) / x in y = x - 1, for 0 <= x <= 2. Chebyshev interpolations of this file's own. Error: below 1e-13 relative in
/// double, 2e-7 in float.
template <class V>
inline V absorbed_share(const V& y) {
    using T = math::scalar_of_t<V>;
    if constexpr (std::is_same_v<T, double>) {
        constexpr std::array<double, 12> c = {
            0.63212055882852618233,    -0.26424111765711312232,   0.080301397073661765347,
            -0.018988156876314682882,  0.0036598468008976714455,  -0.0005941848157053875492,
            8.3241262045594430811e-5,  -1.0249204675306968193e-5, 1.1249854274241847045e-6,
            -1.1141006655023050219e-7, 1.0240256544575988623e-8,  -8.4527587929531101924e-10};
        return horner(y, c);
    } else {
        constexpr std::array<T, 8> c = {
            T(0.63212054988),    T(-0.264241116774),    T(0.0803016833604),  T(-0.0189881851449),
            T(0.00365841752829), T(-0.000594043651234), T(8.55193936048e-5), T(-1.0474349317e-5)};
        return horner(y, c);
    }
}

/// The curves in T, cache lines apart. Pigments: absorbance at each nm, and the natural logarithm of the ratio of the next nm's
/// to it.
template <class T>
struct BatchCurves {
    using Pigment = std::array<T, row_stride + 2 * curve_margin>;
    using Row = std::array<T, row_stride>;

    alignas(64) std::array<Pigment, 3> absorbance{};
    alignas(64) std::array<Pigment, 3> log_ratio{};
    alignas(64) Row ageing{};
    alignas(64) Row fixed{};
    alignas(64) Row macula{};
    /// 0 beyond the last wavelength, so that nothing is seen there
    alignas(64) Row nm{};
};

template <class T>
BatchCurves<T> make_batch_curves() {
    BatchCurves<T> curves;
    for (std::size_t cone = 0; cone < 3; ++cone) {
        for (std::size_t i = 0; i < curves.absorbance[cone].size(); ++i) {
            const double position = static_cast<double>(i) - static_cast<double>(curve_margin);
            const double here = log_absorbance_at(cone, position);
            const double next = log_absorbance_at(cone, position + 1.0);
            curves.absorbance[cone][i] = static_cast<T>(std::pow(10.0, here));
            // Beyond the end of S there is nothing to go on with.
            curves.log_ratio[cone][i] =
                std::isfinite(next) ? static_cast<T>((next - here) * std::numbers::ln10) : T(0);
        }
    }
    const OcularMedia& media = ocular_media();
    for (std::size_t i = 0; i < media.macula.size(); ++i) {
        curves.ageing[i] = static_cast<T>(media.ageing[i]);
        curves.fixed[i] = static_cast<T>(media.fixed[i]);
        curves.macula[i] = static_cast<T>(media.macula[i]);
        curves.nm[i] = static_cast<T>(cone_first_nm + static_cast<int>(i));
    }
    return curves;
}

/// Made once, on first use; thread-safe.
template <class T>
const BatchCurves<T>& batch_curves() {
    static const BatchCurves<T> curves = make_batch_curves<T>();
    return curves;
}

/// A shift as whole steps along the table and what is left of one, to the nearer of the two neighbours.
struct SplitShift {
    /// Steps from a wavelength to the tabulated value that serves it.
    std::ptrdiff_t node;
    /// Steps to the ratio that leads on from it (or back to it).
    std::ptrdiff_t slope;
    /// -0.5 to 0.5 of a step
    double rest;
};

SAMELIGHT_API SplitShift split_shift(double shift_nm);

/// How many wavelengths, of `count` from 390 nm, the shifted S curve reaches: the same comparison as log_absorbance_at makes.
SAMELIGHT_API std::size_t s_reach(double shift_nm, std::size_t count);

/// Three rows before they are made 1 at their peak, and the peaks.
template <class T>
struct RawRows {
    alignas(64) std::array<T, 3 * row_stride> values;
    std::array<T, 3> peak;

    [[nodiscard]] T* row(std::size_t cone) { return values.data() + cone * row_stride; }
    [[nodiscard]] const T* row(std::size_t cone) const { return values.data() + cone * row_stride; }
};

/// nm times what the media let through, for `count` wavelengths.
template <class V, class T>
void media_row(const Eye& eye, std::size_t count, T* out) {
    using Lanes = math::Lanes<V>;
    const BatchCurves<T>& curves = batch_curves<T>();
    const auto factor = [](double density) {
        return math::constant<V>(-density * std::numbers::ln10);
    };
    const V ageing = factor(eye.ageing);
    const V fixed = factor(eye.fixed);
    const V macula = factor(eye.macula);
    const std::size_t dense = std::min(count, media_count);
    for (std::size_t i = 0; i < dense; i += Lanes::width) {
        V exponent = ageing * Lanes::load(curves.ageing.data() + i);
        exponent = math::multiply_add(fixed, Lanes::load(curves.fixed.data() + i), exponent);
        exponent = math::multiply_add(macula, Lanes::load(curves.macula.data() + i), exponent);
        Lanes::store(out + i, math::exp(exponent) * Lanes::load(curves.nm.data() + i));
    }
    std::copy(curves.nm.begin() + static_cast<std::ptrdiff_t>(dense),
              curves.nm.begin() + static_cast<std::ptrdiff_t>(count), out + dense);
}

/// The largest of the numbers in a batch.
template <class V>
math::scalar_of_t<V> largest_lane(const V& v) {
    std::array<math::scalar_of_t<V>, math::Lanes<V>::width> lanes;
    math::Lanes<V>::store(lanes.data(), v);
    return *std::max_element(lanes.begin(), lanes.end());
}

/// A pigment's peak density times ln 10, halved until it is 2 or less, the range of absorbed_share.
struct PigmentDepth {
    double depth;
    int halvings = 0;
};

SAMELIGHT_API PigmentDepth pigment_depth(double density);

/// One raw row of `count` wavelengths, a multiple of the batch's width; returns its peak. Dense: where the depth was halved,
/// (1 - e^(-2z)) / 2z = s (1 - z s / 2) with s = (1 - e^(-z)) / z leads back up.
template <class V, bool Dense, class T>
T pigment_row(std::size_t cone, double shift_nm, const PigmentDepth& pigment, const T* media,
              std::size_t count, T* out) {
    using Lanes = math::Lanes<V>;
    const BatchCurves<T>& curves = batch_curves<T>();
    const SplitShift shift = split_shift(shift_nm);
    const auto origin = static_cast<std::ptrdiff_t>(curve_margin);
    const T* absorbance = curves.absorbance[cone].data() + origin + shift.node;
    const T* log_ratio = curves.log_ratio[cone].data() + origin + shift.slope;
    const V rest = math::constant<V>(shift.rest);
    const V depth = math::constant<V>(pigment.depth);
    const V one = math::constant<V>(1.0);
    V peak = math::constant<V>(0.0);
    for (std::size_t i = 0; i < count; i += Lanes::width) {
        const V a = Lanes::load(absorbance + i) * small_exp(rest * Lanes::load(log_ratio + i));
        V share = absorbed_share(math::multiply_add(a, depth, -one));
        if constexpr (Dense) {
            V half = math::constant<V>(0.5) * a * depth;
            for (int k = 0; k < pigment.halvings; ++k) {
                share = share * (one - half * share);
                half = half + half;
            }
        }
        const V value = a * share * Lanes::load(media + i);
        peak = math::max(peak, value);
        Lanes::store(out + i, value);
    }
    return largest_lane(peak);
}

/// The raw rows of an eye for the first `count` wavelengths from 390 nm; count: peak_count to row_stride, a multiple of the
/// batch's width. Divided by their peaks they are cone_row()'s within 1e-12 of the peak in double and 2e-6 in float.
template <class V, class T = math::scalar_of_t<V>>
void raw_rows(const Eye& eye, std::size_t count, RawRows<T>& out) {
    alignas(64) std::array<T, row_stride> media;
    media_row<V>(eye, count, media.data());
    for (std::size_t cone = 0; cone < 3; ++cone) {
        T* row = out.row(cone);
        const std::size_t reach = cone == 2 ? s_reach(eye.shift_nm[2], count) : count;
        constexpr std::size_t width = math::Lanes<V>::width;
        const std::size_t filled = (reach + width - 1) / width * width;
        const PigmentDepth pigment = pigment_depth(eye.pigment[cone]);
        const double shift = eye.shift_nm[cone];
        out.peak[cone] =
            pigment.halvings == 0
                ? pigment_row<V, false>(cone, shift, pigment, media.data(), filled, row)
                : pigment_row<V, true>(cone, shift, pigment, media.data(), filled, row);
        std::fill(row + reach, row + count, T(0));
    }
}

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/observer/impl/fundamentals_batch.ipp"
#endif
