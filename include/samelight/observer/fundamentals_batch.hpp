#pragma once
// One eye's fundamentals, fast: the construction of cone_fundamentals.hpp with all wavelengths of a batch side by side.
//
// A row needs, at each wavelength, the absorbance A of the shifted pigment, the share 1 - 10^(-D A) that it absorbs, and what
// lens and macula let through. As written that is seven exponentials. Here it is one:
// - the curves of the three pigments are tabulated; between whole nm log A is linear, so A is the nearest tabulated value times
//   e^x with |x| <= 0.053, a short polynomial;
// - (1 - e^(-x)) / x is smooth, a polynomial too, and exact to the last places however little is absorbed; where x is small, which is half
//   of the wavelengths, a short one;
// - lens and macula share an exponential, and none is needed from 660 nm up, where both are clear.
// Several batches are gone through side by side (several_batch.hpp): a polynomial in one batch waits for each of its steps.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <tuple>
#include <type_traits>
#include <utility>

#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/ocular_media.hpp"
#include "samelight/observer/several_batch.hpp"

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
[[gnu::always_inline]] inline V horner(const V& x, const std::array<T, N>& c,
                                       std::index_sequence<I...>) {
    V sum(c[N - 1]);
    ((sum = math::multiply_add(sum, x, V(c[N - 2 - I]))), ...);
    return sum;
}

/// c[0] + c[1] x + c[2] x^2 + ..., by Horner's rule, written out: compilers unroll the loop at -O3 only. That these templates
/// are called inline is for g++, which at -O2 then puts them into the loops.
template <class V, class T, std::size_t N>
[[gnu::always_inline]] inline V horner(const V& x, const std::array<T, N>& c) {
    return horner(x, c, std::make_index_sequence<N - 1>{});
}

/// The coefficients of e^x for |x| <= 0.053. Double: Taylor's series; float: by data/fit_polynomials.py. Error: below 3e-13 relative in
/// double, 2e-7 in float.
template <class T>
constexpr auto small_exp_coefficients() {
    if constexpr (std::is_same_v<T, double>) {
        return std::array<double, 7>{1.0,        1.0,         1.0 / 2.0,  1.0 / 6.0,
                                     1.0 / 24.0, 1.0 / 120.0, 1.0 / 720.0};
    } else {
        return std::array<double, 4>{1.0, 1.0, 0.500117004, 0.166643277};
    }
}

/// (1 - e^(-z)) / z for 0 <= z <= 2. By data/fit_polynomials.py. Error: below 1e-13 relative in double, 2e-7 in float.
template <class V>
[[gnu::always_inline]] inline V absorbed_share(const V& z) {
    using T = math::scalar_of_t<V>;
    if constexpr (std::is_same_v<T, double>) {
        constexpr std::array<double, 12> c = {
            0.99999999999995171,    -0.49999999999346101,   0.16666666651820661,
            -0.041666665332768749,  0.0083333270860241615,  -0.0013888714815394048,
            0.00019838168682413058, -2.4764856774115615e-5, 2.7263260124652282e-6,
            -2.5970366062841588e-7, 1.9413806355076352e-8,  -8.3409251630411206e-10};
        return horner(z, c);
    } else {
        // About the middle, a Chebyshev interpolation: rounding without fused products would use the bound up otherwise.
        constexpr std::array<T, 8> c = {
            T(0.63212054988),    T(-0.264241116774),    T(0.0803016833604),  T(-0.0189881851449),
            T(0.00365841752829), T(-0.000594043651234), T(8.55193936048e-5), T(-1.0474349317e-5)};
        return horner(V(z - V(T(1))), c);
    }
}

/// The same for 0 <= z <= 0.1, with half of the operations. Errors as above.
template <class V>
[[gnu::always_inline]] inline V small_absorbed_share(const V& z) {
    using T = math::scalar_of_t<V>;
    if constexpr (std::is_same_v<T, double>) {
        constexpr std::array<double, 6> c = {0.99999999999990496,   -0.49999999993193039,
                                             0.16666665875004802,   -0.041666329282405101,
                                             0.0083268187379414698, -0.0013306489964387026};
        return horner(z, c);
    } else {
        constexpr std::array<T, 4> c = {T(1), T(-0.499997973), T(0.166565076), T(-0.0400342681)};
        return horner(z, c);
    }
}

/// A pigment absorbs a tenth or less from some wavelength of its table up: where, for depths up to 1/8, 2/8, ... 2.
using SmallFrom = std::array<std::ptrdiff_t, 16>;

/// The curves in T, cache lines apart. Pigments: absorbance at each nm, and the natural logarithm of the ratio of the next nm's
/// to it.
template <class T>
struct BatchCurves {
    using Pigment = std::array<T, row_stride + 2 * curve_margin>;
    using Row = std::array<T, row_stride>;

    alignas(64) std::array<Pigment, 3> absorbance{};
    /// places in `absorbance`
    std::array<SmallFrom, 3> small_from{};
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
    for (std::size_t cone = 0; cone < 3; ++cone) {
        const auto& absorbance = curves.absorbance[cone];
        for (std::size_t eighths = 0; eighths < curves.small_from[cone].size(); ++eighths) {
            // Between two places of the table absorbance is at most e^0.053 times that of the nearer one.
            const double most = 0.1 / 1.06 / (0.125 * static_cast<double>(eighths + 1));
            std::size_t at = absorbance.size();
            while (at > 0 && static_cast<double>(absorbance[at - 1]) <= most) {
                --at;
            }
            curves.small_from[cone][eighths] = static_cast<std::ptrdiff_t>(at);
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

/// How many wavelengths, of `count` from 390 nm, the shifted S curve reaches.
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
    // 10^-d as a power of 2
    const auto factor = [](double density) {
        return math::constant<V>(-density * (std::numbers::ln10 / std::numbers::ln2));
    };
    const V ageing = factor(eye.ageing);
    const V fixed = factor(eye.fixed);
    const V macula = factor(eye.macula);
    const std::size_t dense = std::min(count, media_count);
    for (std::size_t i = 0; i < dense; i += Lanes::width) {
        V exponent = ageing * Lanes::load(curves.ageing.data() + i);
        exponent = math::multiply_add(fixed, Lanes::load(curves.fixed.data() + i), exponent);
        exponent = math::multiply_add(macula, Lanes::load(curves.macula.data() + i), exponent);
        Lanes::store(out + i, math::short_exp2(exponent) * Lanes::load(curves.nm.data() + i));
    }
    std::copy(curves.nm.begin() + static_cast<std::ptrdiff_t>(dense),
              curves.nm.begin() + static_cast<std::ptrdiff_t>(count), out + dense);
}

/// A pigment's peak density times ln 10, halved until it is 2 or less, the range of absorbed_share. At least 1e-13: a row is made 1 at its peak,
/// so that less makes no difference.
struct PigmentDepth {
    double depth;
    int halvings = 0;
};

SAMELIGHT_API PigmentDepth pigment_depth(double density);

/// How much a pigment absorbs, z, along its row: the tabulated curve times e^(rest log_ratio) times its depth; the depth and the powers of
/// `rest` are in the coefficients of e^x.
template <class V>
struct PigmentCurve {
    using T = math::scalar_of_t<V>;
    using Coefficients = decltype(small_exp_coefficients<T>());

    const T* absorbance;
    const T* log_ratio;
    std::array<T, std::tuple_size_v<Coefficients>> coefficients;

    PigmentCurve(std::size_t cone, const SplitShift& shift, double depth) {
        const BatchCurves<T>& curves = batch_curves<T>();
        const auto origin = static_cast<std::ptrdiff_t>(curve_margin);
        absorbance = curves.absorbance[cone].data() + origin + shift.node;
        log_ratio = curves.log_ratio[cone].data() + origin + shift.slope;
        constexpr Coefficients exp = small_exp_coefficients<T>();
        for (std::size_t k = 0; k < exp.size(); ++k) {
            coefficients[k] = static_cast<T>(depth * exp[k]);
            depth *= shift.rest;
        }
    }
    [[nodiscard, gnu::always_inline]] V at(std::size_t i) const {
        return math::Lanes<V>::load(absorbance + i) *
               horner(math::Lanes<V>::load(log_ratio + i), coefficients);
    }
};

/// One raw row from `first` to `last`, a whole number of batches; raises `peak` to the largest value. Small: z is 0.1 or less.
/// Dense: where the depth was halved, (1 - e^(-2z)) / 2z = s (1 - z s / 2) with s = (1 - e^(-z)) / z leads back up.
template <class V, bool Small, class T>
inline void pigment_part(const PigmentCurve<V>& pigment, int halvings, std::size_t first,
                         std::size_t last, const T* media, T* out, V& peak) {
    using Lanes = math::Lanes<V>;
    const PigmentCurve<V> curve = pigment;  // which what is written can't lie in
    V largest = peak;
    for (std::size_t i = first; i < last; i += Lanes::width) {
        const V z = curve.at(i);
        V share = Small ? small_absorbed_share(z) : absorbed_share(z);
        if (halvings > 0) {
            const V one(T(1));
            V half = V(T(0.5)) * z;
            for (int k = 0; k < halvings; ++k) {
                share = share * (one - half * share);
                half = half + half;
            }
        }
        const V value = z * share * Lanes::load(media + i);
        largest = math::max(largest, value);
        Lanes::store(out + i, value);
    }
    peak = largest;
}

/// One raw row of `count` wavelengths, a whole number of V; returns its peak.
template <class V, class T>
T pigment_row(std::size_t cone, double shift_nm, const PigmentDepth& pigment, const T* media,
              std::size_t count, T* out) {
    constexpr std::size_t width = math::Lanes<V>::width;
    const SplitShift shift = split_shift(shift_nm);
    const PigmentCurve<V> curve(cone, shift, pigment.depth);
    const auto eighth = static_cast<std::size_t>(std::ceil(8.0 * pigment.depth)) - 1;
    const std::ptrdiff_t from = batch_curves<T>().small_from[cone][eighth] -
                                static_cast<std::ptrdiff_t>(curve_margin) - shift.node;
    const std::size_t dense =
        std::min(count, (static_cast<std::size_t>(std::max(from, std::ptrdiff_t{0})) + width - 1) /
                            width * width);
    V peak(T(0));
    if (pigment.halvings == 0) {
        pigment_part<V, false>(curve, 0, 0, dense, media, out, peak);
        pigment_part<V, true>(curve, 0, dense, count, media, out, peak);
    } else {
        pigment_part<V, false>(curve, pigment.halvings, 0, count, media, out, peak);
    }
    return math::Lanes<V>::largest(peak);
}

/// As many batches side by side as keep the multiply-add units busy.
template <class V>
using SideBySide = math::Several<V, 2>;

/// The raw rows of an eye for the first `count` wavelengths from 390 nm; count: peak_count to row_stride, a multiple of the
/// batch's width. Divided by their peaks they are cone_row()'s within 1e-12 of the peak in double and 2e-6 in float. What lies beyond
/// `count` is anything.
template <class V, class T = math::scalar_of_t<V>>
void raw_rows(const Eye& eye, std::size_t count, RawRows<T>& out) {
    using Wide = SideBySide<V>;
    constexpr std::size_t width = math::Lanes<Wide>::width;
    static_assert(row_stride % width == 0);
    const std::size_t whole = (count + width - 1) / width * width;
    alignas(64) std::array<T, row_stride> media;
    media_row<V>(eye, whole, media.data());
    for (std::size_t cone = 0; cone < 3; ++cone) {
        T* row = out.row(cone);
        const std::size_t reach = cone == 2 ? s_reach(eye.shift_nm[2], count) : whole;
        const std::size_t filled = (reach + width - 1) / width * width;
        out.peak[cone] = pigment_row<Wide>(
            cone, eye.shift_nm[cone], pigment_depth(eye.pigment[cone]), media.data(), filled, row);
        std::fill(row + reach, row + whole, T(0));
    }
}

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/observer/impl/fundamentals_batch.ipp"
#endif
