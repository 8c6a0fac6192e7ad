#pragma once
// The formulas of CIECAM16 and CAM16, forward and back, written once: V is a number or a batch of numbers.
//
// Symbols and steps are those of CIE 248:2022. Two rearrangements: the constant 0.1 of the compressed responses is left out where
// it cancels, and 0.305 added where it doesn't; sine and cosine of the hue come from a and b, without the angle.
#include <array>
#include <limits>

#include "samelight/colour/appearance/ciecam16_viewing.hpp"
#include "samelight/colour/appearance/hue.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

template <class V>
using CamParametersFor = CamParameters<math::scalar_of_t<V>>;

template <class V>
V cam_not_a_number() {
    return V(std::numeric_limits<math::scalar_of_t<V>>::quiet_NaN());
}

template <class V, class S>
std::array<V, 3> cam_times(const std::array<std::array<S, 3>, 3>& m, const V& a, const V& b,
                           const V& c) {
    const auto row = [&](const std::array<S, 3>& r) -> V {
        return math::multiply_add(V(r[0]), a, math::multiply_add(V(r[1]), b, V(V(r[2]) * c)));
    };
    return {row(m[0]), row(m[1]), row(m[2])};
}

/// Step 3: an adapted response compressed.
template <CamVersion version, class V>
V cam_compress(const V& response, const CamParametersFor<V>& k) {
    const V zero = math::constant<V>(0.0);
    const V magnitude = version == CamVersion::cam16 ? math::abs(response) : response;
    const V p = V(k.gain) * math::pow(magnitude, math::constant<V>(0.42));
    const V curved = math::constant<V>(400.0) * p / (p + math::constant<V>(27.13));
    if constexpr (version == CamVersion::cam16) {
        return math::select(response < zero, V(-curved), curved);
    } else {
        const V low = response * V(k.lower_slope);
        const V high = math::multiply_add(V(response - math::constant<V>(ciecam16_upper)),
                                          V(k.upper_slope), V(k.upper_start));
        return math::select(
            response < math::constant<V>(ciecam16_lower), low,
            math::select(response > math::constant<V>(ciecam16_upper), high, curved));
    }
}

/// The inverse of cam_compress. For CAM16, whose compressed responses stay below 400: NaN beyond.
template <CamVersion version, class V>
V cam_expand(const V& response, const CamParametersFor<V>& k) {
    const V zero = math::constant<V>(0.0);
    const V magnitude = version == CamVersion::cam16 ? math::abs(response) : response;
    const V room = math::constant<V>(400.0) - magnitude;
    const V p = math::constant<V>(27.13) * magnitude / (room * V(k.gain));
    const V curved = math::pow(p, math::constant<V>(1.0 / 0.42));
    if constexpr (version == CamVersion::cam16) {
        const V possible = math::select(room > zero, curved, cam_not_a_number<V>());
        return math::select(response < zero, V(-possible), possible);
    } else {
        const V low = response / V(k.lower_slope);
        const V high =
            math::constant<V>(ciecam16_upper) + (response - V(k.upper_start)) / V(k.upper_slope);
        return math::select(low < math::constant<V>(ciecam16_lower), low,
                            math::select(response > V(k.upper_start), high, curved));
    }
}

/// What all attributes are made of: the opponent responses, the direction of the hue, A over Aw, and t^0.9.
template <class V>
struct CamSignals {
    V a, b;
    V cos_hue, sin_hue;
    /// A / Aw; NaN below 0
    V achromatic;
    /// t^0.9; NaN where the denominator of t isn't above 0
    V t_power;
};

/// Steps 1 to 7 as far as they are common. X, Y, Z in the unit of the viewing conditions.
template <CamVersion version, class V>
CamSignals<V> cam_signals(const std::array<V, 3>& xyz, const CamParametersFor<V>& k) {
    const auto c = [](double value) { return math::constant<V>(value); };
    const auto rgb = cam_times<V>(k.rgb_from_xyz, xyz[0], xyz[1], xyz[2]);
    const V R = cam_compress<version>(rgb[0], k);
    const V G = cam_compress<version>(rgb[1], k);
    const V B = cam_compress<version>(rgb[2], k);
    const V a = R + (B - c(12.0) * G) * c(1.0 / 11.0);
    const V b = (R + G - c(2.0) * B) * c(1.0 / 9.0);
    const V radius = math::sqrt(V(a * a + b * b));
    const auto grey = radius == c(0.0);
    const V per_radius = c(1.0) / math::select(grey, c(1.0), radius);
    const V cos_hue = math::select(grey, c(1.0), V(a * per_radius));
    const V sin_hue = b * per_radius;
    // cos(h + 2), by the cosine and sine of 2 radians.
    const V eccentricity = c(0.25) * (c(-0.41614683654714238700) * cos_hue -
                                      c(0.90929742682568169540) * sin_hue + c(3.8));
    const V sum = c(2.0) * R + G + c(0.05) * B;
    const V denominator = R + G + c(1.05) * B + c(0.305);
    const V t = V(k.eccentricity_gain) * eccentricity * radius /
                math::select(denominator > c(0.0), denominator, cam_not_a_number<V>());
    return {a,
            b,
            cos_hue,
            sin_hue,
            math::select(sum >= c(0.0), V(sum / V(k.white_sum)), cam_not_a_number<V>()),
            math::pow(t, c(0.9))};
}

template <class V>
V cam_lightness(const CamSignals<V>& s, const CamParametersFor<V>& k) {
    return math::constant<V>(100.0) * math::pow(s.achromatic, V(k.c_z));
}

/// C from the root of J / 100.
template <class V>
V cam_chroma(const CamSignals<V>& s, const V& root, const CamParametersFor<V>& k) {
    return s.t_power * root * V(k.chroma_gain);
}

template <class V>
V cam_root(const V& J) {
    return math::sqrt(V(J * math::constant<V>(0.01)));
}

/// Hue composition H, 0 <= H < 400: 0 red, 100 yellow, 200 green, 300 blue; h in degrees, 0 <= h < 360. Step 5 and its table.
template <class V>
V cam_hue_composition(const V& hue) {
    const auto c = [](double value) { return math::constant<V>(value); };
    const V h = math::select(hue < c(20.14), V(hue + c(360.0)), hue);
    const auto from_yellow = h >= c(90.0);
    const auto from_green = h >= c(164.25);
    const auto from_blue = h >= c(237.53);
    const auto pick = [&](double red, double yellow, double green, double blue) -> V {
        return math::select(
            from_blue, c(blue),
            math::select(from_green, c(green), math::select(from_yellow, c(yellow), c(red))));
    };
    // Distances from the unique hues on either side, each over that hue's eccentricity.
    const V after =
        (h - pick(20.14, 90.0, 164.25, 237.53)) * pick(1.0 / 0.8, 1.0 / 0.7, 1.0, 1.0 / 1.2);
    const V before =
        (pick(90.0, 164.25, 237.53, 380.14) - h) * pick(1.0 / 0.7, 1.0, 1.0 / 1.2, 1.0 / 0.8);
    return pick(0.0, 100.0, 200.0, 300.0) + c(100.0) * after / (after + before);
}

/// Hue angle, degrees, 0 <= h < 360, of a hue composition from 0 to 400: the inverse of cam_hue_composition.
SAMELIGHT_API double cam_hue_angle(double composition);

/// The seven attributes. Steps 4 to 9.
template <class V>
struct CamAttributes {
    V J, C, h, s, Q, M, H;
};

template <CamVersion version, class V>
CamAttributes<V> cam_attributes(const std::array<V, 3>& xyz, const CamParametersFor<V>& k) {
    const auto c = [](double value) { return math::constant<V>(value); };
    const auto s = cam_signals<version, V>(xyz, k);
    const V J = cam_lightness(s, k);
    const V root = cam_root(J);
    const V C = cam_chroma(s, root, k);
    const V h = hue_degrees(s.a, s.b);
    // M / Q, with the root of J, which stands in both, left out: black has a saturation too.
    const V saturation =
        c(50.0) * math::sqrt(V(V(k.c) * s.t_power * V(k.chroma_gain) / (V(k.Aw) + c(4.0))));
    const V Q = c(4.0) / V(k.c) * root * (V(k.Aw) + c(4.0)) * V(k.FL_quarter);
    return {J, C, h, saturation, Q, V(C * V(k.FL_quarter)), cam_hue_composition(h)};
}

/// J, C, h alone.
template <CamVersion version, class V>
std::array<V, 3> cam_jch(const std::array<V, 3>& xyz, const CamParametersFor<V>& k) {
    const auto s = cam_signals<version, V>(xyz, k);
    const V J = cam_lightness(s, k);
    return {J, cam_chroma(s, cam_root(J), k), hue_degrees(s.a, s.b)};
}

/// J', a', b' of CAM16-UCS. Li et al. 2017, Color Res. Appl. 42:703.
template <CamVersion version, class V>
std::array<V, 3> cam_ucs(const std::array<V, 3>& xyz, const CamParametersFor<V>& k) {
    const auto c = [](double value) { return math::constant<V>(value); };
    const auto s = cam_signals<version, V>(xyz, k);
    const V J = cam_lightness(s, k);
    const V M = cam_chroma(s, cam_root(J), k) * V(k.FL_quarter);
    const V radius = math::log(V(c(1.0) + c(0.0228) * M)) * c(1.0 / 0.0228);
    return {V(c(1.7) * J / (c(1.0) + c(0.007) * J)), V(radius * s.cos_hue), V(radius * s.sin_hue)};
}

/// X, Y, Z from J, t^0.9 (0 or more), cosine and sine of the hue. NaN where no colour has these attributes.
template <CamVersion version, class V>
std::array<V, 3> cam_inverse(const V& J, const V& t_power, const V& cos_hue, const V& sin_hue,
                             const CamParametersFor<V>& k) {
    const auto c = [](double value) { return math::constant<V>(value); };
    const V t = math::pow(t_power, c(1.0 / 0.9));
    const V eccentricity = c(0.25) * (c(-0.41614683654714238700) * cos_hue -
                                      c(0.90929742682568169540) * sin_hue + c(3.8));
    const V sum = V(k.white_sum) * math::pow(V(J * c(0.01)), V(k.per_c_z));
    // t = gain e r / (R + G + 1.05 B + 0.305), the denominator being sum + 0.305 - r (671 cos h + 6588 sin h) / 1403.
    const V per_radius = V(k.eccentricity_gain) * eccentricity +
                         t * (c(671.0 / 1403.0) * cos_hue + c(6588.0 / 1403.0) * sin_hue);
    const V radius =
        t * (sum + c(0.305)) / math::select(per_radius > c(0.0), per_radius, cam_not_a_number<V>());
    const V a = radius * cos_hue;
    const V b = radius * sin_hue;
    const V R = (c(460.0) * sum + c(451.0) * a + c(288.0) * b) * c(1.0 / 1403.0);
    const V G = (c(460.0) * sum - c(891.0) * a - c(261.0) * b) * c(1.0 / 1403.0);
    const V B = (c(460.0) * sum - c(220.0) * a - c(6300.0) * b) * c(1.0 / 1403.0);
    return cam_times<V>(k.xyz_from_rgb, cam_expand<version>(R, k), cam_expand<version>(G, k),
                        cam_expand<version>(B, k));
}

/// t^0.9 from J and C. No chroma is no chroma, at black too; a chroma at black is NaN.
template <class V>
V cam_t_power(const V& J, const V& C, const CamParametersFor<V>& k) {
    const V zero = math::constant<V>(0.0);
    const V root = cam_root(J);
    const V divided =
        C / (math::select(root > zero, root, cam_not_a_number<V>()) * V(k.chroma_gain));
    return math::select(C == zero, zero, divided);
}

/// X, Y, Z from J, C, h.
template <CamVersion version, class V>
std::array<V, 3> cam_from_jch(const std::array<V, 3>& jch, const CamParametersFor<V>& k) {
    const auto hue = math::sin_cos(V(jch[2] * math::radians_per_degree<V>()));
    return cam_inverse<version, V>(jch[0], cam_t_power(jch[0], jch[1], k), hue.cos, hue.sin, k);
}

/// X, Y, Z from J', a', b'.
template <CamVersion version, class V>
std::array<V, 3> cam_from_ucs(const std::array<V, 3>& ucs, const CamParametersFor<V>& k) {
    const auto c = [](double value) { return math::constant<V>(value); };
    const V room = c(1.7) - c(0.007) * ucs[0];
    const V J = ucs[0] / math::select(room > c(0.0), room, cam_not_a_number<V>());
    const V radius = math::sqrt(V(ucs[1] * ucs[1] + ucs[2] * ucs[2]));
    const auto grey = radius == c(0.0);
    const V per_radius = c(1.0) / math::select(grey, c(1.0), radius);
    const V M = (math::exp(V(c(0.0228) * radius)) - c(1.0)) * c(1.0 / 0.0228);
    return cam_inverse<version, V>(J, cam_t_power(J, V(M / V(k.FL_quarter)), k),
                                   math::select(grey, c(1.0), V(ucs[1] * per_radius)),
                                   V(ucs[2] * per_radius), k);
}

}  // namespace samelight::detail

#if !SAMELIGHT_COMPILED
#include "samelight/colour/appearance/impl/ciecam16_formulas.ipp"
#endif
