#pragma once
// Colour differences of many pairs at once. Sources: as the functions of the same names in difference.hpp.
#include <array>
#include <span>

#include "samelight/colour/differences/difference.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/value_batch.hpp"

namespace samelight::inline SAMELIGHT_FORM {
namespace detail::inline SAMELIGHT_KERNELS {

/// Runs a difference formula over two times three columns.
template <class V, class T, class F>
void for_each_pair(const char* where, const Columns3<const T>& p, const Columns3<const T>& q,
                   std::span<T> result, F formula) {
    const std::array<std::span<const T>, 6> in{p.first, p.second, p.third,
                                               q.first, q.second, q.third};
    math::for_each_batch<V, T, 6, 1>(where, in, {result}, [=](const std::array<V, 6>& v) {
        return std::array<V, 1>{formula(LabOf<V>{v[0], v[1], v[2]}, LabOf<V>{v[3], v[4], v[5]})};
    });
}

}  // namespace detail::inline SAMELIGHT_KERNELS

inline namespace SAMELIGHT_KERNELS {

/// Delta E*ab of many pairs: columns L*, a*, b* of each side to one column.
///
/// T is float or double; columns of one length, the result may be an input's memory. Both sides relative to one white, which is
/// not seen here. Range: |L*|, |a*|, |b*| up to 1e6. NaN in gives NaN out. Error against delta_e_ab() for CIELAB coordinates up to
/// 120: double 1e-13, float 1e-4.
/// Throws Error (shape) for columns of different lengths; nothing is written then.
template <class T, class V = math::Batch<T>>
void delta_e_ab(std::type_identity_t<Columns3<const T>> p,
                std::type_identity_t<Columns3<const T>> q, std::span<T> result) {
    detail::for_each_pair<V, T>("delta_e_ab", p, q, result, [](const auto& a, const auto& b) {
        return detail::cie76<V>(a, b);
    });
}

/// CMC(l:c) of many pairs; otherwise as delta_e_ab for columns, and as delta_e_cmc for its range, and errors of the weights.
/// Error against delta_e_cmc() for CIELAB coordinates up to 120: double 5e-13, float 2e-4, where the standard's hue is
/// further than 0.01 degrees from 164 and 345 degrees, at which the formula jumps.
template <class T, class V = math::Batch<T>>
void delta_e_cmc(std::type_identity_t<Columns3<const T>> standard,
                 std::type_identity_t<Columns3<const T>> sample, std::span<T> result,
                 const CmcWeights& weights = {}) {
    detail::require_weights("delta_e_cmc", weights);
    const V l = math::constant<V>(weights.l);
    const V c = math::constant<V>(weights.c);
    detail::for_each_pair<V, T>(
        "delta_e_cmc", standard, sample, result,
        [=](const auto& a, const auto& b) { return detail::cmc<V>(a, b, l, c); });
}

/// CIE94 of many pairs; otherwise as delta_e_ab for columns, and as delta_e_94 for errors of the weights. Error against
/// delta_e_94() for CIELAB coordinates up to 120: double 2e-13, float 1e-4.
template <class T, class V = math::Batch<T>>
void delta_e_94(std::type_identity_t<Columns3<const T>> standard,
                std::type_identity_t<Columns3<const T>> sample, std::span<T> result,
                const Cie94Weights& weights = Cie94Weights::graphic_arts()) {
    detail::require_weights("delta_e_94", weights);
    const detail::Cie94Constants<V> w(weights.kL, weights.kC, weights.kH, weights.K1, weights.K2);
    detail::for_each_pair<V, T>(
        "delta_e_94", standard, sample, result,
        [=](const auto& a, const auto& b) { return detail::cie94<V>(a, b, w); });
}

/// CIEDE2000 of many pairs; otherwise as delta_e_ab for columns, and as delta_e_2000 for errors of the weights. Error against
/// delta_e_2000() for CIELAB coordinates up to 120: double 1e-12, float 3e-4, where the two hues are not within 0.01 degrees of being
/// 180 degrees apart, at which the formula jumps; exactly 180 degrees is seen as such to 1e-9 degrees in double, 1e-4 in float.
template <class T, class V = math::Batch<T>>
void delta_e_2000(std::type_identity_t<Columns3<const T>> p,
                  std::type_identity_t<Columns3<const T>> q, std::span<T> result,
                  const Ciede2000Weights& weights = {}) {
    detail::require_weights("delta_e_2000", weights);
    const V kL = math::constant<V>(weights.kL);
    const V kC = math::constant<V>(weights.kC);
    const V kH = math::constant<V>(weights.kH);
    detail::for_each_pair<V, T>("delta_e_2000", p, q, result, [=](const auto& a, const auto& b) {
        return detail::ciede2000<V>(a, b, kL, kC, kH);
    });
}

}  // namespace SAMELIGHT_KERNELS
}  // namespace samelight
