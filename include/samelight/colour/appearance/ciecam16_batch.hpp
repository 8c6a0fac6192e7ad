#pragma once
// CIECAM16, CAM16 and CAM16-UCS of many colours at once.
#include <array>
#include <cstddef>
#include <span>

#include "samelight/colour/appearance/ciecam16.hpp"
#include "samelight/colour/differences/difference_formulas.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/value_batch.hpp"

namespace samelight::inline SAMELIGHT_FORM {
inline namespace SAMELIGHT_KERNELS {

/// Seven columns of one length, a colour to a row: the attributes that AppearanceModel::appearance gives. They lend, and own nothing.
template <class T>
struct AppearanceColumns {
    std::span<T> J, C, h, s, Q, M, H;
};

}  // namespace SAMELIGHT_KERNELS

namespace detail::inline SAMELIGHT_KERNELS {

template <class V, class T, std::size_t Out, class F>
void for_each_colour(const char* where, const Columns3<const T>& in,
                     const std::array<std::span<T>, Out>& out, F formula) {
    math::for_each_batch<V, T, 3, Out>(where, in.spans(), out, formula);
}

}  // namespace detail::inline SAMELIGHT_KERNELS

inline namespace SAMELIGHT_KERNELS {

/// J, C, h of many lights: columns X, Y, Z in the unit of the model's white to columns J, C and h (degrees, 0 to below 360).
///
/// T is float or double; columns of one length, an output may be its input's memory. Range, and source, as
/// AppearanceModel::appearance; where that throws for a light, attributes come out as NaN, or infinite where the numbers go beyond
/// what T holds. NaN in gives NaN out.
/// Error against it for colours of a wide gamut between black and the white: J double 1e-12, float 2e-4; C 5e-12 and 1e-3; h, where
/// C is above 2, 5e-11 and 0.02 degrees.
/// Throws Error (shape) for columns of different lengths; nothing is written then.
template <class T, class O, CamVersion version, class V = math::Batch<T>>
void jch_from_xyz(std::type_identity_t<Columns3<const T>> xyz,
                  const AppearanceModel<O, version>& model, Columns3<T> jch) {
    const auto k = model.parameters().template as<T>();
    detail::for_each_colour<V, T>("jch_from_xyz", xyz, jch.spans(), [&](const std::array<V, 3>& v) {
        return detail::cam_jch<version, V>(v, k);
    });
}

/// The inverse: columns J, C, h (degrees, |h| up to 1e5, float 1e4) to columns X, Y, Z. Otherwise as jch_from_xyz; NaN where
/// tristimulus() throws for the attributes. Error: through jch_from_xyz and back such colours move by 2e-14 of the white, float 1e-5.
template <class T, class O, CamVersion version, class V = math::Batch<T>>
void xyz_from_jch(std::type_identity_t<Columns3<const T>> jch,
                  const AppearanceModel<O, version>& model, Columns3<T> xyz) {
    const auto k = model.parameters().template as<T>();
    detail::for_each_colour<V, T>("xyz_from_jch", jch, xyz.spans(), [&](const std::array<V, 3>& v) {
        return detail::cam_from_jch<version, V>(v, k);
    });
}

/// All seven attributes of many lights; otherwise as jch_from_xyz. Error of Q as of J, of M as of C, of H as of h; of s, where C is
/// above 2, double 1e-11, float 3e-3.
template <class T, class O, CamVersion version, class V = math::Batch<T>>
void appearance_from_xyz(std::type_identity_t<Columns3<const T>> xyz,
                         const AppearanceModel<O, version>& model,
                         const AppearanceColumns<T>& out) {
    const auto k = model.parameters().template as<T>();
    const std::array<std::span<T>, 7> columns{out.J, out.C, out.h, out.s, out.Q, out.M, out.H};
    detail::for_each_colour<V, T>("appearance_from_xyz", xyz, columns,
                                  [&](const std::array<V, 3>& v) {
                                      const auto a = detail::cam_attributes<version, V>(v, k);
                                      return std::array<V, 7>{a.J, a.C, a.h, a.s, a.Q, a.M, a.H};
                                  });
}

/// J', a', b' of CAM16-UCS of many lights; otherwise as jch_from_xyz, source as AppearanceModel::ucs. Error against it for such
/// colours: double 5e-12, float 1e-3.
template <class T, class O, CamVersion version, class V = math::Batch<T>>
void ucs_from_xyz(std::type_identity_t<Columns3<const T>> xyz,
                  const AppearanceModel<O, version>& model, Columns3<T> ucs) {
    const auto k = model.parameters().template as<T>();
    detail::for_each_colour<V, T>("ucs_from_xyz", xyz, ucs.spans(), [&](const std::array<V, 3>& v) {
        return detail::cam_ucs<version, V>(v, k);
    });
}

/// The inverse: columns J', a', b' to columns X, Y, Z. Otherwise as xyz_from_jch.
template <class T, class O, CamVersion version, class V = math::Batch<T>>
void xyz_from_ucs(std::type_identity_t<Columns3<const T>> ucs,
                  const AppearanceModel<O, version>& model, Columns3<T> xyz) {
    const auto k = model.parameters().template as<T>();
    detail::for_each_colour<V, T>("xyz_from_ucs", ucs, xyz.spans(), [&](const std::array<V, 3>& v) {
        return detail::cam_from_ucs<version, V>(v, k);
    });
}

}  // namespace SAMELIGHT_KERNELS
}  // namespace samelight
