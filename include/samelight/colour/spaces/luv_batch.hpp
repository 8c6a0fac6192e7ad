#pragma once
// CIELUV of many colours at once.
#include <array>

#include "samelight/colour/spaces/luv.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {
inline namespace SAMELIGHT_KERNELS {

/// CIELUV of many lights: columns X, Y, Z to columns L*, u*, v*, relative to one white in the lights' unit.
///
/// T is float or double; columns of one length, an output may be its input's memory. Range, and source, as luv(). NaN in gives
/// NaN out; u* and v* are NaN where luv() throws for a light. Error against luv() for L* up to 100 and u', v' of real lights: double
/// 1e-12, float 2e-4.
/// Throws Error (shape) for columns of different lengths and as luv() for the white; nothing is written then.
template <class T, class O>
void luv_from_xyz(std::type_identity_t<Columns3<const T>> xyz, const Tristimulus<O>& white,
                  Columns3<T> luv) {
    using V = math::Batch<T>;
    const detail::LuvWhite w = detail::luv_white(white.values());
    math::for_each_batch<V, T, 3, 3>(
        "luv_from_xyz", xyz.spans(), luv.spans(),
        [&](const std::array<V, 3>& values) { return detail::luv_from_xyz(values, w); });
}

/// The inverse: columns L*, u*, v* to columns X, Y, Z in the white's unit. Otherwise as luv_from_xyz; X and Z are NaN where
/// tristimulus(Luv) throws. Error against it, relative to the largest of X, Y, Z of real lights: double 1e-12, float 5e-6.
template <class T, class O>
void xyz_from_luv(std::type_identity_t<Columns3<const T>> luv, const Tristimulus<O>& white,
                  Columns3<T> xyz) {
    using V = math::Batch<T>;
    const detail::LuvWhite w = detail::luv_white(white.values());
    math::for_each_batch<V, T, 3, 3>(
        "xyz_from_luv", luv.spans(), xyz.spans(),
        [&](const std::array<V, 3>& values) { return detail::xyz_from_luv(values, w); });
}

}  // namespace SAMELIGHT_KERNELS
}  // namespace samelight
