#pragma once
// The transfer functions for many values at once.
//
// Each takes a column of T, float or double, and writes one of the same length, which may be its input's memory. Range, source
// and what happens below black are those of the scalar function of the same name. NaN in gives NaN out; NaN comes out too where
// the scalar function throws. All throw Error (shape) for columns of different lengths; nothing is written then.
//
// Error against the scalar functions, for signals of -0.1 to 1.1 and light within the display's range, relative to white (sRGB,
// HLG scene light: to 1) for light and absolute for signals:
//
//                              double          float
//   PlainGamma, sRGB, BT.1886  2e-15           6e-7
//   PQ to luminance            1e-14 relative  5e-6 relative + 1e-8 cd/m2
//   PQ to signal               1e-15           4e-7
//   HLG scene, display         1e-14           3e-6
//
// PlainGamma's signals near a black above 0 are good to what light they stand for, to the same bounds of white.
#include <array>
#include <span>

#include "samelight/colour/signals/transfer.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/value_batch.hpp"

namespace samelight::inline SAMELIGHT_FORM {
namespace detail::inline SAMELIGHT_KERNELS {

template <class T, class F>
void one_column(const char* where, std::span<const T> in, std::span<T> out, const F& formula) {
    using V = math::Batch<T>;
    math::for_each_batch<V, T, 1, 1>(
        where, std::array<std::span<const T>, 1>{in}, std::array<std::span<T>, 1>{out},
        [&](const std::array<V, 1>& values) { return std::array<V, 1>{formula(values[0])}; });
}

template <class T>
using InColumn = std::type_identity_t<std::span<const T>>;
template <class T>
using InColumns3 = std::type_identity_t<Columns3<const T>>;

}  // namespace detail::inline SAMELIGHT_KERNELS

inline namespace SAMELIGHT_KERNELS {

/// Signals to cd/m2.
template <class T>
void luminance_from_signal(const PlainGamma& curve, detail::InColumn<T> signals,
                           std::span<T> cd_m2) {
    using V = math::Batch<T>;
    const V exponent = math::constant<V>(curve.exponent());
    const V white = math::constant<V>(curve.white().cd_m2());
    const V black = math::constant<V>(curve.black().cd_m2());
    detail::one_column<T>("luminance_from_signal", signals, cd_m2, [&](const V& s) {
        return detail::gamma_luminance(s, exponent, white, black);
    });
}
/// cd/m2 to signals.
template <class T>
void signal_from_luminance(const PlainGamma& curve, detail::InColumn<T> cd_m2,
                           std::span<T> signals) {
    using V = math::Batch<T>;
    const V exponent = math::constant<V>(curve.exponent());
    const V white = math::constant<V>(curve.white().cd_m2());
    const V black = math::constant<V>(curve.black().cd_m2());
    detail::one_column<T>("signal_from_luminance", cd_m2, signals, [&](const V& l) {
        return detail::gamma_signal(l, exponent, white, black);
    });
}

/// Signals to cd/m2.
template <class T>
void luminance_from_signal(const Bt1886& display, detail::InColumn<T> signals, std::span<T> cd_m2) {
    using V = math::Batch<T>;
    const V gain = math::constant<V>(display.gain_cd_m2());
    const V lift = math::constant<V>(display.lift());
    detail::one_column<T>("luminance_from_signal", signals, cd_m2,
                          [&](const V& s) { return detail::bt1886_luminance(s, gain, lift); });
}
/// cd/m2 to signals.
template <class T>
void signal_from_luminance(const Bt1886& display, detail::InColumn<T> cd_m2, std::span<T> signals) {
    using V = math::Batch<T>;
    const V gain = math::constant<V>(display.gain_cd_m2());
    const V lift = math::constant<V>(display.lift());
    detail::one_column<T>("signal_from_luminance", cd_m2, signals,
                          [&](const V& l) { return detail::bt1886_signal(l, gain, lift); });
}

/// Signals to relative light.
template <class T>
void light_from_signal(Srgb, detail::InColumn<T> signals, std::span<T> out) {
    using V = math::Batch<T>;
    detail::one_column<T>("light_from_signal", signals, out,
                          [](const V& s) { return detail::srgb_light(s); });
}
/// Relative light to signals.
template <class T>
void signal_from_light(Srgb, detail::InColumn<T> light, std::span<T> signals) {
    using V = math::Batch<T>;
    detail::one_column<T>("signal_from_light", light, signals,
                          [](const V& l) { return detail::srgb_signal(l); });
}

/// Signals to cd/m2.
template <class T>
void luminance_from_signal(Pq, detail::InColumn<T> signals, std::span<T> cd_m2) {
    using V = math::Batch<T>;
    detail::one_column<T>("luminance_from_signal", signals, cd_m2,
                          [](const V& s) { return detail::pq_luminance(s); });
}
/// cd/m2 to signals.
template <class T>
void signal_from_luminance(Pq, detail::InColumn<T> cd_m2, std::span<T> signals) {
    using V = math::Batch<T>;
    detail::one_column<T>("signal_from_luminance", cd_m2, signals,
                          [](const V& l) { return detail::pq_signal(l); });
}

/// Signals to scene light.
template <class T>
void light_from_signal(HlgScene, detail::InColumn<T> signals, std::span<T> out) {
    using V = math::Batch<T>;
    detail::one_column<T>("light_from_signal", signals, out,
                          [](const V& s) { return detail::hlg_oetf_inverse(s); });
}
/// Scene light to signals.
template <class T>
void signal_from_light(HlgScene, detail::InColumn<T> light, std::span<T> signals) {
    using V = math::Batch<T>;
    detail::one_column<T>("signal_from_light", light, signals,
                          [](const V& l) { return detail::hlg_oetf(l); });
}

/// Signals of grey to cd/m2.
template <class T>
void luminance_from_signal(const HlgDisplay& display, detail::InColumn<T> signals,
                           std::span<T> cd_m2) {
    using V = math::Batch<T>;
    detail::one_column<T>("luminance_from_signal", signals, cd_m2,
                          [&](const V& s) { return detail::hlg_luminance(s, display.numbers()); });
}
/// cd/m2 to signals of grey.
template <class T>
void signal_from_luminance(const HlgDisplay& display, detail::InColumn<T> cd_m2,
                           std::span<T> signals) {
    using V = math::Batch<T>;
    detail::one_column<T>("signal_from_luminance", cd_m2, signals,
                          [&](const V& l) { return detail::hlg_signal(l, display.numbers()); });
}
/// Columns R', G', B' to columns of linear BT.2020 R, G, B in cd/m2.
template <class T>
void light_from_signal(const HlgDisplay& display, detail::InColumns3<T> signals,
                       Columns3<T> cd_m2) {
    using V = math::Batch<T>;
    math::for_each_batch<V, T, 3, 3>(
        "light_from_signal", signals.spans(), cd_m2.spans(),
        [&](const std::array<V, 3>& s) { return detail::hlg_eotf(s, display.numbers()); });
}
/// Columns of linear BT.2020 R, G, B in cd/m2 to columns R', G', B'.
template <class T>
void signal_from_light(const HlgDisplay& display, detail::InColumns3<T> cd_m2,
                       Columns3<T> signals) {
    using V = math::Batch<T>;
    math::for_each_batch<V, T, 3, 3>(
        "signal_from_light", cd_m2.spans(), signals.spans(),
        [&](const std::array<V, 3>& l) { return detail::hlg_eotf_inverse(l, display.numbers()); });
}

}  // namespace SAMELIGHT_KERNELS
}  // namespace samelight
