#pragma once
// ICtCp of high dynamic range, and the colour difference built on it.
#include <array>
#include <cmath>
#include <concepts>
#include <string>

#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/colour/signals/transfer_hlg.hpp"
#include "samelight/colour/signals/transfer_pq.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The two kinds of ICtCp. They are different spaces: other transfer function, other matrix.
struct PqIctcp {
    static constexpr const char* name = "Ictcp (PQ)";
};
/// Of hybrid log-gamma signals.
struct HlgIctcp {
    static constexpr const char* name = "Ictcp (HLG)";
};

namespace detail {

constexpr Matrix3 per_4096(const Matrix3& m) {
    return product(diagonal({1.0 / 4096.0, 1.0 / 4096.0, 1.0 / 4096.0}), m);
}

/// ITU-R BT.2100-2, Table 7, whole numbers over 4096; their inverses are computed.
inline constexpr Matrix3 lms_from_bt2020 =
    per_4096({{{1688, 2146, 262}, {683, 2951, 462}, {99, 309, 3688}}});
inline constexpr Matrix3 bt2020_from_lms = inverse(lms_from_bt2020);

template <class Kind>
constexpr Matrix3 ictcp_from_signals() {
    return std::same_as<Kind, PqIctcp>
               ? per_4096({{{2048, 2048, 0}, {6610, -13613, 7003}, {17933, -17390, -543}}})
               : per_4096({{{2048, 2048, 0}, {3625, -7465, 3840}, {9500, -9212, -288}}});
}

template <class Kind, class V>
V ictcp_signal(const V& light) {
    if constexpr (std::same_as<Kind, PqIctcp>) {
        return pq_signal(light);
    } else {
        return hlg_oetf(light);
    }
}
template <class Kind, class V>
V ictcp_light(const V& signal) {
    if constexpr (std::same_as<Kind, PqIctcp>) {
        return pq_luminance(signal);
    } else {
        return hlg_oetf_inverse(signal);
    }
}

/// Linear BT.2020 R, G, B to I, CT, CP.
template <class Kind, class V>
std::array<V, 3> ictcp_from_bt2020(const std::array<V, 3>& rgb) {
    const auto lms = times(lms_from_bt2020, rgb[0], rgb[1], rgb[2]);
    constexpr Matrix3 matrix = ictcp_from_signals<Kind>();
    return times(matrix, ictcp_signal<Kind>(lms[0]), ictcp_signal<Kind>(lms[1]),
                 ictcp_signal<Kind>(lms[2]));
}
template <class Kind, class V>
std::array<V, 3> bt2020_from_ictcp(const std::array<V, 3>& ictcp) {
    constexpr Matrix3 matrix = inverse(ictcp_from_signals<Kind>());
    const auto signals = times(matrix, ictcp[0], ictcp[1], ictcp[2]);
    return times(bt2020_from_lms, ictcp_light<Kind>(signals[0]), ictcp_light<Kind>(signals[1]),
                 ictcp_light<Kind>(signals[2]));
}

/// ITU-R BT.2124-0: 720 sqrt(dI^2 + dT^2 + dP^2), T = CT / 2.
template <class V>
V delta_e_itp(const std::array<V, 3>& a, const std::array<V, 3>& b) {
    const V i = a[0] - b[0];
    const V t = (a[1] - b[1]) * math::constant<V>(0.5);
    const V p = a[2] - b[2];
    return math::constant<V>(720.0) * math::sqrt(i * i + t * t + p * p);
}

inline std::string three_values(const std::array<double, 3>& v) {
    return to_text(v[0]) + ", " + to_text(v[1]) + ", " + to_text(v[2]);
}
inline bool all_finite(const std::array<double, 3>& v) {
    return std::isfinite(v[0]) && std::isfinite(v[1]) && std::isfinite(v[2]);
}

}  // namespace detail

/// The difference of two ICtCp colours of one kind: three signed numbers without unit.
template <class Kind>
struct IctcpOffset {
    double dI;
    double dCt;
    double dCp;

    friend bool operator==(const IctcpOffset&, const IctcpOffset&) = default;
};

/// A colour in ICtCp: intensity, nominally 0 to 1, and two signed colour-difference signals, nominally -0.5 to 0.5; without
/// unit. Any finite values. Throws Error (domain) for others.
template <class Kind>
class Ictcp {
  public:
    /// From its three coordinates.
    Ictcp(double I, double Ct, double Cp) : values_{I, Ct, Cp} {
        if (!detail::all_finite(values_)) {
            throw Error(ErrorKind::domain, Kind::name, detail::three_values(values_),
                        "finite numbers");
        }
    }
    /// Its three coordinates.
    [[nodiscard]] double I() const noexcept { return values_[0]; }
    [[nodiscard]] double Ct() const noexcept { return values_[1]; }
    [[nodiscard]] double Cp() const noexcept { return values_[2]; }
    [[nodiscard]] const std::array<double, 3>& values() const noexcept { return values_; }

    friend IctcpOffset<Kind> operator-(const Ictcp& a, const Ictcp& b) {
        return {a.I() - b.I(), a.Ct() - b.Ct(), a.Cp() - b.Cp()};
    }
    friend bool operator==(const Ictcp&, const Ictcp&) = default;

  private:
    std::array<double, 3> values_;
};

/// ICtCp of linear BT.2020 light: display light in cd/m2 for PQ, scene light (nominally 0 to 1) for HLG.
///
/// All colours that displays show have L, M, S above 0. Where noise or a colour far outside BT.2020 takes one below, the odd
/// transfer functions of Pq and HlgScene carry it through and back.
/// Range: PQ, L, M and S of -26,557 to 26,557 cd/m2; HLG, any light to 1e4.
/// Error: 1e-13. Round trips: PQ 1e-12 of the largest of R, G, B where L, M, S are 1e-6 cd/m2 or more apart from 0, or 0; HLG 1e-13.
/// Throws Error (domain) outside the range.
/// Source: ITU-R BT.2100-2, Table 7.
template <class Kind>
Ictcp<Kind> ictcp(const LinearRgb<Bt2020>& light) {
    const auto v = detail::ictcp_from_bt2020<Kind>(light.values());
    if (!detail::all_finite(v)) {
        throw Error(ErrorKind::domain, Kind::name,
                    "linear BT.2020 light " + detail::three_values(light.values()),
                    "light within the range of the transfer function");
    }
    return {v[0], v[1], v[2]};
}

/// Linear BT.2020 light of ICtCp: the inverse of ictcp, in its units and to its bounds. Range: coordinates whose three signals
/// lie within -1.1 to 1.1 (PQ) or -16 to 16 (HLG), else Error (domain).
template <class Kind>
LinearRgb<Bt2020> linear_bt2020(const Ictcp<Kind>& c) {
    const auto v = detail::bt2020_from_ictcp<Kind>(c.values());
    if (!detail::all_finite(v)) {
        throw Error(ErrorKind::domain, Kind::name, detail::three_values(c.values()),
                    "coordinates within the range of the transfer function");
    }
    return {v[0], v[1], v[2]};
}

/// The colour difference of two lights shown on a display, without unit; 1 is meant to be the smallest that is seen under the most
/// critical adaptation. Not negative, symmetric, 0 for equal colours. Error: 1e-10.
/// Source: ITU-R BT.2124-0.
SAMELIGHT_API double delta_e_itp(const Ictcp<PqIctcp>& a, const Ictcp<PqIctcp>& b);
inline double delta_e_itp(const LinearRgb<Bt2020>& a_cd_m2, const LinearRgb<Bt2020>& b_cd_m2) {
    return delta_e_itp(ictcp<PqIctcp>(a_cd_m2), ictcp<PqIctcp>(b_cd_m2));
}
/// The same of X, Y, Z in cd/m2 (luminance_of_radiance says what factor that takes), as BT.2124 starts from them.
inline double delta_e_itp(const Tristimulus<Cie1931_2deg>& a_cd_m2,
                          const Tristimulus<Cie1931_2deg>& b_cd_m2) {
    return delta_e_itp(linear_rgb<Bt2020>(a_cd_m2), linear_rgb<Bt2020>(b_cd_m2));
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/spaces/impl/ictcp.ipp"
#endif
