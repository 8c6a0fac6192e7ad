#pragma once
// ICtCp and its colour difference for many colours at once.
#include <array>
#include <span>

#include "samelight/colour/spaces/ictcp.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/value_batch.hpp"

namespace samelight::inline SAMELIGHT_FORM {
inline namespace SAMELIGHT_KERNELS {

/// ICtCp of many lights: columns of linear BT.2020 R, G, B (cd/m2 for PqIctcp, scene light for HlgIctcp) to columns I, CT, CP.
/// Kind comes first: ictcp_from_bt2020<PqIctcp>(rgb, ictcp).
///
/// T is float or double; columns of one length, an output may be its input's memory. Range, and source, as ictcp(). NaN in gives
/// NaN out, and so does light outside the range. Error against ictcp(): double 1e-14, float 2e-6.
/// Throws Error (shape) for columns of different lengths; nothing is written then.
template <class Kind, class T>
void ictcp_from_bt2020(std::type_identity_t<Columns3<const T>> rgb, Columns3<T> ictcp) {
    using V = math::Batch<T>;
    math::for_each_batch<V, T, 3, 3>(
        "ictcp_from_bt2020", rgb.spans(), ictcp.spans(),
        [](const std::array<V, 3>& values) { return detail::ictcp_from_bt2020<Kind>(values); });
}

/// The inverse: columns I, CT, CP to columns of linear BT.2020 R, G, B. Otherwise as ictcp_from_bt2020. Error against
/// linear_bt2020(), relative to the largest of R, G, B + 1 cd/m2 (PQ) or 0.01 (HLG): double 5e-14, float 2e-5.
template <class Kind, class T>
void bt2020_from_ictcp(std::type_identity_t<Columns3<const T>> ictcp, Columns3<T> rgb) {
    using V = math::Batch<T>;
    math::for_each_batch<V, T, 3, 3>(
        "bt2020_from_ictcp", ictcp.spans(), rgb.spans(),
        [](const std::array<V, 3>& values) { return detail::bt2020_from_ictcp<Kind>(values); });
}

/// delta_e_itp of many pairs of ICtCp (PQ) colours: two times three columns to one. As ictcp_from_bt2020; source as delta_e_itp().
/// Error for colours within the nominal range: double 1e-12; float 1e-4 where the difference is below 500, 2e-4 above.
template <class T>
void delta_e_itp(std::type_identity_t<Columns3<const T>> a,
                 std::type_identity_t<Columns3<const T>> b, std::span<T> difference) {
    using V = math::Batch<T>;
    const std::array<std::span<const T>, 6> in = {a.first, a.second, a.third,
                                                  b.first, b.second, b.third};
    math::for_each_batch<V, T, 6, 1>(
        "delta_e_itp", in, std::array<std::span<T>, 1>{difference}, [](const std::array<V, 6>& v) {
            return std::array<V, 1>{detail::delta_e_itp<V>({v[0], v[1], v[2]}, {v[3], v[4], v[5]})};
        });
}

}  // namespace SAMELIGHT_KERNELS
}  // namespace samelight
