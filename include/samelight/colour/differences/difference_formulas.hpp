#pragma once
// The formulas of the colour differences, written once: V is a number or a batch of numbers.
#include <type_traits>

#include "samelight/colour/appearance/hue.hpp"
#include "samelight/colour/spaces/lab.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

template <class V>
V squared(const V& x) {
    return x * x;
}

/// Delta E*ab. CIE 15:2018, 8.2.1.
template <class V>
V cie76(const LabOf<V>& p, const LabOf<V>& q) {
    return math::sqrt(V(squared(V(q.L - p.L)) + squared(V(q.a - p.a)) + squared(V(q.b - p.b))));
}

/// The parts of a difference: chroma of the standard, step in chroma, and the square of the step in hue.
template <class V>
struct ChromaHueStep {
    V chroma_standard;
    V chroma;
    V hue_squared;
};

template <class V>
ChromaHueStep<V> chroma_hue_step(const LabOf<V>& standard, const LabOf<V>& sample) {
    const V c1 = math::sqrt(V(squared(standard.a) + squared(standard.b)));
    const V c2 = math::sqrt(V(squared(sample.a) + squared(sample.b)));
    const V in_plane = squared(V(sample.a - standard.a)) + squared(V(sample.b - standard.b));
    const V step = c2 - c1;
    // Rounding may leave less than nothing.
    return {c1, step, math::max(math::constant<V>(0.0), V(in_plane - squared(step)))};
}

/// CMC(l:c). ISO 105-J03:2009.
template <class V>
V cmc(const LabOf<V>& standard, const LabOf<V>& sample, const V& l, const V& c) {
    const auto k = [](double value) { return math::constant<V>(value); };
    const auto step = chroma_hue_step(standard, sample);
    const V c1 = step.chroma_standard;
    const V h1 = hue_degrees(standard.a, standard.b);
    const auto bluish = h1 >= k(164.0) && h1 <= k(345.0);
    const V angle = V(h1 + math::select(bluish, k(168.0), k(35.0))) * math::radians_per_degree<V>();
    const V wave = math::abs(V(math::select(bluish, k(0.2), k(0.4)) * math::cos(angle)));
    const V T = math::select(bluish, k(0.56), k(0.36)) + wave;
    const V c4 = squared(squared(c1));
    const V F = math::sqrt(V(c4 / (c4 + k(1900.0))));
    const V L1 = standard.L;
    const V SL =
        math::select(L1 < k(16.0), k(0.511), V(k(0.040975) * L1 / (k(1.0) + k(0.01765) * L1)));
    const V SC = k(0.0638) * c1 / (k(1.0) + k(0.0131) * c1) + k(0.638);
    const V SH = SC * (F * T + k(1.0) - F);
    return math::sqrt(V(squared(V((sample.L - L1) / (l * SL))) +
                        squared(V(step.chroma / (c * SC))) + step.hue_squared / squared(SH)));
}

/// CIE94's factors as Vs: what the steps are divided by, and the growth with chroma.
template <class V>
struct Cie94Constants {
    V kL, kC, kH, K1, K2;

    Cie94Constants(double lightness, double chroma, double hue, double growth_1, double growth_2)
        : kL(math::constant<V>(lightness)),
          kC(math::constant<V>(chroma)),
          kH(math::constant<V>(hue)),
          K1(math::constant<V>(growth_1)),
          K2(math::constant<V>(growth_2)) {}
};

/// CIE94. CIE 116-1995.
template <class V>
V cie94(const LabOf<V>& standard, const LabOf<V>& sample, const Cie94Constants<V>& w) {
    const V one = math::constant<V>(1.0);
    const auto step = chroma_hue_step(standard, sample);
    const V SC = one + w.K1 * step.chroma_standard;
    const V SH = one + w.K2 * step.chroma_standard;
    return math::sqrt(V(squared(V((sample.L - standard.L) / w.kL)) +
                        squared(V(step.chroma / (w.kC * SC))) +
                        step.hue_squared / squared(V(w.kH * SH))));
}

/// Everything on the way to CIEDE2000, with the symbols of Sharma, Wu & Dalal 2005: primed values, means and weights.
template <class V>
struct Ciede2000Terms {
    /// a', eq. 5
    V a1, a2;
    /// C', eq. 6
    V C1, C2;
    /// h', degrees, eq. 7
    V h1, h2;
    /// Mean hue, degrees, eq. 14.
    V h_mean;
    /// Eq. 4.
    V G;
    /// Delta L', C', H', eqs. 8, 9, 11
    V dL, dC, dH;
    /// Eq. 15.
    V T;
    /// Eqs. 18-21.
    V SL, SC, SH, RT;
};

/// sqrt(C^7 / (C^7 + 25^7)). Above 10^4 it is 1 in every digit, so C stops there and its power cannot overflow.
template <class V>
V ciede2000_chroma_share(const V& chroma) {
    const V c = math::min(math::constant<V>(1e4), chroma);
    const V c2 = c * c;
    const V c7 = c2 * c2 * c2 * c;
    return math::sqrt(V(c7 / (c7 + math::constant<V>(6103515625.0))));
}

/// How far from 180 degrees two hues may lie and still count as 180 degrees apart: rounding's part in it, and no more.
template <class V>
V opposite_hues_tolerance() {
    return math::constant<V>(std::is_same_v<math::scalar_of_t<V>, double> ? 1e-9 : 1e-4);
}

/// Mean and difference of two hues in degrees, 0 <= h < 360. Sharma, Wu & Dalal 2005, eqs. 10 and 14.
template <class V>
struct HuePair {
    V mean;
    V difference;
};

template <class V, class Condition>
HuePair<V> hue_pair(const V& h1, const V& h2, const Condition& either_is_grey) {
    const auto k = [](double value) { return math::constant<V>(value); };
    const V step = h2 - h1;
    const V sum = h1 + h2;
    const auto within_half_turn = math::abs(step) <= k(180.0) + opposite_hues_tolerance<V>();
    const V turned = step - math::select(step > k(0.0), k(360.0), k(-360.0));
    const V far_mean = V(sum + math::select(sum < k(360.0), k(360.0), k(-360.0))) * k(0.5);
    const V mean = math::select(within_half_turn, V(sum * k(0.5)), far_mean);
    return {math::select(either_is_grey, sum, mean),
            math::select(either_is_grey, k(0.0), math::select(within_half_turn, step, turned))};
}

/// T of eq. 15: 1 - 0.17 cos(h - 30) + 0.24 cos 2h + 0.32 cos(3h + 6) - 0.20 cos(4h - 63), from sine and cosine of h alone.
template <class V>
V ciede2000_hue_weight(const V& sine, const V& cosine) {
    const auto k = [](double value) { return math::constant<V>(value); };
    const V cos2 = k(2.0) * cosine * cosine - k(1.0);
    const V sin2 = k(2.0) * sine * cosine;
    const V cos3 = cosine * cos2 - sine * sin2;
    const V sin3 = sine * cos2 + cosine * sin2;
    const V cos4 = k(2.0) * cos2 * cos2 - k(1.0);
    const V sin4 = k(2.0) * sin2 * cos2;
    constexpr double cos30 = 0.86602540378443864676, sin30 = 0.5;
    constexpr double cos6 = 0.99452189536827333692, sin6 = 0.10452846326765347140;
    constexpr double cos63 = 0.45399049973954679156, sin63 = 0.89100652418836786236;
    return k(1.0) - (k(0.17 * cos30) * cosine + k(0.17 * sin30) * sine) + k(0.24) * cos2 +
           (k(0.32 * cos6) * cos3 - k(0.32 * sin6) * sin3) -
           (k(0.20 * cos63) * cos4 + k(0.20 * sin63) * sin4);
}

/// All terms. ISO/CIE 11664-6:2014; Sharma, Wu & Dalal 2005, eqs. 2-21.
template <class V>
Ciede2000Terms<V> ciede2000_terms(const LabOf<V>& p, const LabOf<V>& q) {
    const auto k = [](double value) { return math::constant<V>(value); };
    const V to_radians = math::radians_per_degree<V>();
    Ciede2000Terms<V> t;
    const V c_ab_mean =
        V(math::sqrt(V(squared(p.a) + squared(p.b))) + math::sqrt(V(squared(q.a) + squared(q.b)))) *
        k(0.5);
    t.G = k(0.5) * (k(1.0) - ciede2000_chroma_share(c_ab_mean));
    t.a1 = (k(1.0) + t.G) * p.a;
    t.a2 = (k(1.0) + t.G) * q.a;
    t.C1 = math::sqrt(V(squared(t.a1) + squared(p.b)));
    t.C2 = math::sqrt(V(squared(t.a2) + squared(q.b)));
    t.h1 = hue_degrees(t.a1, p.b);
    t.h2 = hue_degrees(t.a2, q.b);
    const auto hues = hue_pair(t.h1, t.h2, t.C1 == k(0.0) || t.C2 == k(0.0));
    t.h_mean = hues.mean;
    t.dL = q.L - p.L;
    t.dC = t.C2 - t.C1;
    t.dH =
        k(2.0) * math::sqrt(V(t.C1 * t.C2)) * math::sin(V(hues.difference * (k(0.5) * to_radians)));
    const V c_mean = V(t.C1 + t.C2) * k(0.5);
    const auto mean_hue = math::sin_cos(V(t.h_mean * to_radians));
    t.T = ciede2000_hue_weight(mean_hue.sin, mean_hue.cos);
    const V l50 = squared(V(V(p.L + q.L) * k(0.5) - k(50.0)));
    t.SL = k(1.0) + k(0.015) * l50 / math::sqrt(V(k(20.0) + l50));
    t.SC = k(1.0) + k(0.045) * c_mean;
    t.SH = k(1.0) + k(0.015) * c_mean * t.T;
    const V off_blue = V(t.h_mean - k(275.0)) * k(1.0 / 25.0);
    // Past this limit R_T adds less than rounding does, and its sine would run into subnormal numbers, which are slow.
    const V limit = k(std::is_same_v<math::scalar_of_t<V>, double> ? 40.0 : 20.0);
    const V d_theta = k(30.0) * math::exp(V(-math::min(limit, squared(off_blue))));
    t.RT =
        -(math::sin(V(d_theta * (k(2.0) * to_radians))) * k(2.0) * ciede2000_chroma_share(c_mean));
    return t;
}

/// CIEDE2000. Sharma, Wu & Dalal 2005, eq. 22. What is under the root is never negative, since |RT| < 2 sin 60 degrees < 2.
template <class V>
V ciede2000(const LabOf<V>& p, const LabOf<V>& q, const V& kL, const V& kC, const V& kH) {
    const auto t = ciede2000_terms(p, q);
    const V lightness = t.dL / (kL * t.SL);
    const V chroma = t.dC / (kC * t.SC);
    const V hue = t.dH / (kH * t.SH);
    return math::sqrt(V(lightness * lightness + chroma * chroma + hue * hue + t.RT * chroma * hue));
}

}  // namespace samelight::detail
