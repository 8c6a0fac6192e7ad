#pragma once
// Transfer functions of standard dynamic range: a plain power, sRGB, BT.1886.
#include "samelight/colour/luminance.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

template <class V>
V odd_power(const V& x, const V& exponent) {
    return with_sign(x, math::pow(math::abs(x), exponent));
}

/// black + (white - black) V^exponent, odd about black.
template <class V>
V gamma_luminance(const V& signal, const V& exponent, const V& white, const V& black) {
    return black + (white - black) * odd_power(signal, exponent);
}
template <class V>
V gamma_signal(const V& luminance, const V& exponent, const V& white, const V& black) {
    return odd_power((luminance - black) / (white - black), math::constant<V>(1.0) / exponent);
}

/// IEC 61966-2-1:1999.
template <class V>
V srgb_light(const V& signal) {
    const auto c = [](double value) { return math::constant<V>(value); };
    const V a = math::abs(signal);
    const V high = math::pow((a + c(0.055)) / c(1.055), c(2.4));
    return with_sign(signal, math::select(a <= c(0.04045), a / c(12.92), high));
}
/// Its inverse, with the constants printed there for this direction.
template <class V>
V srgb_signal(const V& light) {
    const auto c = [](double value) { return math::constant<V>(value); };
    const V a = math::abs(light);
    const V high = c(1.055) * math::pow(a, c(1.0 / 2.4)) - c(0.055);
    return with_sign(light, math::select(a <= c(0.0031308), c(12.92) * a, high));
}

/// ITU-R BT.1886, Annex 1: a max(V + b, 0)^2.4.
template <class V>
V bt1886_luminance(const V& signal, const V& gain, const V& lift) {
    const V lifted = math::max(math::constant<V>(0.0), signal + lift);
    return gain * math::pow(lifted, math::constant<V>(2.4));
}
/// Its inverse; NaN below 0, where no signal leads.
template <class V>
V bt1886_signal(const V& luminance, const V& gain, const V& lift) {
    const V zero = math::constant<V>(0.0);
    const V signal =
        math::pow(math::max(zero, luminance / gain), math::constant<V>(1.0 / 2.4)) - lift;
    return math::select(luminance < zero, not_a_number<V>(), signal);
}

}  // namespace detail

/// A display with a plain power between signal and light, and a black: L = Lblack + (Lwhite - Lblack) V^exponent.
///
/// Below black it is odd, L - Lblack changing sign with V (own choice; a power has no standard), so every signal comes back.
/// Error: 4e-15 of white either way; round trip of a signal 1e-14, near black as far as luminance resolves it.
/// Source: common practice.
class SAMELIGHT_API PlainGamma {
  public:
    /// @param exponent 0.1 to 10
    /// @param white,black luminance, cd/m2; black 0 or more, white above it
    /// Throws Error (domain) outside these ranges.
    explicit PlainGamma(double exponent, Luminance white = Luminance(1.0),
                        Luminance black = Luminance(0.0));
    [[nodiscard]] double exponent() const noexcept { return exponent_; }
    [[nodiscard]] Luminance white() const noexcept { return white_; }
    [[nodiscard]] Luminance black() const noexcept { return black_; }

    /// The luminance of a signal, cd/m2, and the signal of a luminance.
    [[nodiscard]] Luminance luminance(Signal s) const;
    [[nodiscard]] Signal signal(Luminance l) const;

  private:
    double exponent_;
    Luminance white_;
    Luminance black_;
};

/// The sRGB encoding, between signal and relative light. Odd below 0, as its first amendment has it for sYCC (from memory; the
/// standard itself covers 0 to 1). Beyond 1 the same formulas.
///
/// Error: 2e-15 of max(1, value). The standard's two branches do not quite meet: at its join the signal steps down by 3e-8 as light
/// rises, and light up by 2.4e-9 as the signal does. Round trips keep to these there (signals of 0.040449 to 0.040451), elsewhere
/// to 1e-14.
/// Source: IEC 61966-2-1:1999.
struct SAMELIGHT_API Srgb {
    /// The relative light of a signal, and the signal of such a light.
    [[nodiscard]] static LinearLight light(Signal s);
    [[nodiscard]] static Signal signal(LinearLight l);
};

/// The reference display of standard dynamic range: L = a max(V + b, 0)^2.4, with a and b from its white and black, cd/m2.
///
/// V is any finite signal: super-white continues the curve, sub-black sinks to no light at V = -b and stays there. Back, a
/// luminance of 0 gives -b, the largest signal that is dark.
/// Error: 4e-15 of white; round trip of a signal at or above -b 1e-14, of a luminance 1e-14 of white.
/// Source: ITU-R BT.1886, Annex 1.
class SAMELIGHT_API Bt1886 {
  public:
    /// Throws Error (domain) unless black is 0 or more and white above it.
    Bt1886(Luminance white, Luminance black);
    [[nodiscard]] Luminance white() const noexcept { return white_; }
    [[nodiscard]] Luminance black() const noexcept { return black_; }
    /// a, cd/m2: what a contrast control sets.
    [[nodiscard]] double gain_cd_m2() const noexcept { return gain_; }
    /// b, a signal: what a brightness control sets.
    [[nodiscard]] double lift() const noexcept { return lift_; }

    /// The luminance of a signal, cd/m2.
    [[nodiscard]] Luminance luminance(Signal s) const;
    /// The signal of a luminance in cd/m2. Throws Error (domain) for one below 0.
    [[nodiscard]] Signal signal(Luminance l) const;

  private:
    Luminance white_;
    Luminance black_;
    double gain_ = 0.0;
    double lift_ = 0.0;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/signals/impl/transfer_sdr.ipp"
#endif
