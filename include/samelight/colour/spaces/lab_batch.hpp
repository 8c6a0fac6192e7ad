#pragma once
// CIELAB of many colours at once.
#include <array>

#include "samelight/colour/spaces/lab.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {
inline namespace SAMELIGHT_KERNELS {

/// CIELAB of many lights: columns X, Y, Z to columns L*, a*, b*, relative to one white in the lights' unit.
///
/// T is float or double; columns of one length, an output may be its input's memory. Range, and source, as lab(): any finite
/// numbers, up to 1e300 (float: 1e36) times the white. NaN in gives NaN out. Error against lab() for ratios to the white from
/// -0.01 to 1: double 5e-13, float 2e-4.
/// Throws Error (shape) for columns of different lengths and Error (domain) for a white whose X, Y or Z is not above 0; nothing is
/// written then.
template <class T, class O, class V = math::Batch<T>>
void lab_from_xyz(std::type_identity_t<Columns3<const T>> xyz, const Tristimulus<O>& white,
                  Columns3<T> lab) {
    detail::require_lab_white("lab_from_xyz", white);
    const V per_x = math::constant<V>(1.0 / white.X());
    const V per_y = math::constant<V>(1.0 / white.Y());
    const V per_z = math::constant<V>(1.0 / white.Z());
    math::for_each_batch<V, T, 3, 3>(
        "lab_from_xyz", xyz.spans(), lab.spans(), [=](const std::array<V, 3>& values) {
            const auto result = detail::lab_from_ratios(V(values[0] * per_x), V(values[1] * per_y),
                                                        V(values[2] * per_z));
            return std::array<V, 3>{result.L, result.a, result.b};
        });
}

/// The inverse: columns L*, a*, b* to columns X, Y, Z in the white's unit. Otherwise as lab_from_xyz. Error against
/// tristimulus(Lab), relative to the white, between black and white: double 2e-15, float 1e-6.
template <class T, class O, class V = math::Batch<T>>
void xyz_from_lab(std::type_identity_t<Columns3<const T>> lab, const Tristimulus<O>& white,
                  Columns3<T> xyz) {
    detail::require_lab_white("xyz_from_lab", white);
    const V white_x = math::constant<V>(white.X());
    const V white_y = math::constant<V>(white.Y());
    const V white_z = math::constant<V>(white.Z());
    math::for_each_batch<V, T, 3, 3>(
        "xyz_from_lab", lab.spans(), xyz.spans(), [=](const std::array<V, 3>& values) {
            const auto ratios = detail::ratios_from_lab(values[0], values[1], values[2]);
            return std::array<V, 3>{V(ratios[0] * white_x), V(ratios[1] * white_y),
                                    V(ratios[2] * white_z)};
        });
}

}  // namespace SAMELIGHT_KERNELS
}  // namespace samelight
