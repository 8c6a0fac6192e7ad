#pragma once
// Hybrid log-gamma of high dynamic range: ITU-R BT.2100 (HLG), from scene to signal to display.
#include <array>
#include <cmath>

#include "samelight/colour/luminance.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// ITU-R BT.2100-2, Table 5.
namespace hlg {
inline constexpr double a = 0.17883277;
inline constexpr double b = 1.0 - 4.0 * a;
/// 0.5 - a ln(4a), which the table also prints as 0.55991073; not constexpr because std::log isn't.
inline double c() { return 0.5 - a * std::log(4.0 * a); }
/// Weights of R, G, B in the luminance of the OOTF, as printed there.
inline constexpr std::array<double, 3> y = {0.2627, 0.6780, 0.0593};
}  // namespace hlg

/// Scene light to signal; odd.
template <class V>
V hlg_oetf(const V& light) {
    const auto k = [](double value) { return math::constant<V>(value); };
    const V e = math::abs(light);
    const V low = math::sqrt(k(3.0) * e);
    // The logarithm is used above 1/12 only; below, its argument is held where it is defined.
    const V argument = k(12.0) * math::max(k(1.0 / 12.0), e) - k(hlg::b);
    const V high = k(hlg::a) * math::log(argument) + k(hlg::c());
    return with_sign(light, math::select(e <= k(1.0 / 12.0), low, high));
}
/// Its inverse.
template <class V>
V hlg_oetf_inverse(const V& signal) {
    const auto k = [](double value) { return math::constant<V>(value); };
    const V s = math::abs(signal);
    const V low = s * s * k(1.0 / 3.0);
    const V high = (math::exp((s - k(hlg::c())) * k(1.0 / hlg::a)) + k(hlg::b)) * k(1.0 / 12.0);
    return with_sign(signal, math::select(s <= k(0.5), low, high));
}

/// What a display of HLG is, in the numbers that its formulas take.
struct HlgNumbers {
    double peak_cd_m2;
    double gamma;
    double beta;
};

template <class V>
V hlg_weighted(const std::array<V, 3>& rgb) {
    return math::constant<V>(hlg::y[0]) * rgb[0] + math::constant<V>(hlg::y[1]) * rgb[1] +
           math::constant<V>(hlg::y[2]) * rgb[2];
}
/// max(|x|, tiny): keeps a power of 0 with an exponent below 0 finite; what it multiplies is 0 then.
template <class V>
V hlg_not_0(const V& x) {
    return math::max(math::constant<V>(1e-30), math::abs(x));
}
/// OOTF: scene to display light, cd/m2; odd. BT.2100-2, Table 5: F = alpha Y^(gamma - 1) E with alpha the peak.
template <class V>
std::array<V, 3> hlg_ootf(const std::array<V, 3>& scene, const HlgNumbers& d) {
    const V gain = math::constant<V>(d.peak_cd_m2) *
                   math::pow(hlg_not_0(hlg_weighted(scene)), math::constant<V>(d.gamma - 1.0));
    return {gain * scene[0], gain * scene[1], gain * scene[2]};
}
/// Its inverse.
template <class V>
std::array<V, 3> hlg_ootf_inverse(const std::array<V, 3>& display, const HlgNumbers& d) {
    const V per_peak = math::constant<V>(1.0 / d.peak_cd_m2);
    const std::array<V, 3> f = {display[0] * per_peak, display[1] * per_peak,
                                display[2] * per_peak};
    const V gain =
        math::pow(hlg_not_0(hlg_weighted(f)), math::constant<V>((1.0 - d.gamma) / d.gamma));
    return {gain * f[0], gain * f[1], gain * f[2]};
}

/// Signal, raised above black, to scene light: OETF^-1[max(0, (1 - beta) E' + beta)].
template <class V>
V hlg_lifted_light(const V& signal, const HlgNumbers& d) {
    const V lifted = math::constant<V>(1.0 - d.beta) * signal + math::constant<V>(d.beta);
    return hlg_oetf_inverse(math::max(math::constant<V>(0.0), lifted));
}
/// Back; NaN below 0, where no signal leads.
template <class V>
V hlg_lifted_signal(const V& light, const HlgNumbers& d) {
    const V zero = math::constant<V>(0.0);
    const V signal =
        (hlg_oetf(light) - math::constant<V>(d.beta)) / math::constant<V>(1.0 - d.beta);
    return math::select(light < zero, not_a_number<V>(), signal);
}

template <class V>
std::array<V, 3> hlg_eotf(const std::array<V, 3>& signal, const HlgNumbers& d) {
    return hlg_ootf<V>({hlg_lifted_light(signal[0], d), hlg_lifted_light(signal[1], d),
                        hlg_lifted_light(signal[2], d)},
                       d);
}
template <class V>
std::array<V, 3> hlg_eotf_inverse(const std::array<V, 3>& display, const HlgNumbers& d) {
    const std::array<V, 3> scene = hlg_ootf_inverse(display, d);
    return {hlg_lifted_signal(scene[0], d), hlg_lifted_signal(scene[1], d),
            hlg_lifted_signal(scene[2], d)};
}
/// Grey: three equal signals.
template <class V>
V hlg_luminance(const V& signal, const HlgNumbers& d) {
    return math::constant<V>(d.peak_cd_m2) *
           math::pow(hlg_lifted_light(signal, d), math::constant<V>(d.gamma));
}
template <class V>
V hlg_signal(const V& luminance, const HlgNumbers& d) {
    const V light = math::pow(math::abs(luminance) * math::constant<V>(1.0 / d.peak_cd_m2),
                              math::constant<V>(1.0 / d.gamma));
    return hlg_lifted_signal(with_sign(luminance, light), d);
}

}  // namespace detail

/// Which formula gives the system gamma of a display.
enum class HlgGamma {
    /// Usual from 400 to 2,000 cd/m2, extended outside, as BT.2100-2 advises.
    by_peak,
    /// 1.2 + 0.42 log10(peak / 1000)
    usual_range,
    /// 1.2 * 1.111^log2(peak / 1000)
    extended_range
};

/// System gamma of a display of nominal peak `peak`, without unit; 1.2 at 1,000 cd/m2 by either formula.
///
/// The two do not meet where by_peak goes over from one to the other: 1.033 against 1.044 at 400 cd/m2, 1.326 against 1.333 at
/// 2,000. No allowance for the light of the room, which BT.2390 knows.
/// Range: a peak above 0 for which the gamma is above 0 (usual_range: from 1.4 cd/m2), else Error (domain).
/// Source: ITU-R BT.2100-2, Table 5 with its notes on other peaks (the extended form with 1.111 from memory; also BT.2390).
SAMELIGHT_API double hlg_system_gamma(Luminance peak, HlgGamma formula = HlgGamma::by_peak);

/// Hybrid log-gamma without a display: scene light (0 to 1) to signal and back.
///
/// Odd below 0 (own choice; BT.2100-2 covers 0 to 1 and asks not to clip excursions). Beyond 1 the same formulas.
/// Error: 2e-15 of max(1, value) for signals to 1.1. The constants are taken exactly (b = 1 - 4a, c = 0.5 - a ln(4a)), so that
/// light 1 has the signal 1 - 4.9e-9. Round trip 1e-14 relative.
/// Range: signals of -16 to 16, else light may overflow (Error, domain).
/// Source: ITU-R BT.2100-2, Table 5.
struct SAMELIGHT_API HlgScene {
    /// The signal of scene light, and the light of a signal.
    [[nodiscard]] static Signal signal(LinearLight l);
    [[nodiscard]] static LinearLight light(Signal s);
};

/// A display of hybrid log-gamma: its peak, its black and its system gamma.
///
/// Scene light is linear BT.2020 RGB, nominally 0 to 1; display light the same in cd/m2. The black lift beta raises the signal,
/// max(0, (1 - beta) E' + beta) with beta = sqrt(3 (black / peak)^(1 / gamma)), so that signal 0 shows the black; signals down to
/// -beta / (1 - beta) are darker still and all below them show no light.
/// Error: 1e-13 of the peak. Round trip of signals not clamped 1e-13, of scene light by ootf 1e-13 relative, except where the
/// weighted sum of R, G, B is 0 though they are not.
/// Source: ITU-R BT.2100-2, Table 5.
class SAMELIGHT_API HlgDisplay {
  public:
    /// @param peak  nominal peak, cd/m2, 1 to 100,000
    /// @param black luminance of signal 0, cd/m2, 0 or more and below a tenth of the peak
    /// Throws Error (domain) outside these ranges and as hlg_system_gamma.
    explicit HlgDisplay(Luminance peak, Luminance black = Luminance(0.0),
                        HlgGamma formula = HlgGamma::by_peak);

    /// Nominal peak, cd/m2.
    [[nodiscard]] Luminance peak() const { return Luminance(numbers_.peak_cd_m2); }
    /// System gamma, without unit.
    [[nodiscard]] double gamma() const noexcept { return numbers_.gamma; }
    /// Black lift, a signal.
    [[nodiscard]] double beta() const noexcept { return numbers_.beta; }
    /// The three numbers together, for the batch functions.
    [[nodiscard]] const detail::HlgNumbers& numbers() const noexcept { return numbers_; }

    /// OOTF: display light, cd/m2, of scene light. Odd.
    [[nodiscard]] LinearRgb<Bt2020> ootf(const LinearRgb<Bt2020>& scene) const;
    /// Scene light of display light, cd/m2.
    [[nodiscard]] LinearRgb<Bt2020> ootf_inverse(const LinearRgb<Bt2020>& display) const;

    /// EOTF: display light, cd/m2, of R', G', B'.
    [[nodiscard]] LinearRgb<Bt2020> light(const std::array<Signal, 3>& s) const;
    /// R', G', B' of display light, cd/m2, 0 or more each, else Error (domain).
    [[nodiscard]] std::array<Signal, 3> signals(const LinearRgb<Bt2020>& display) const;

    /// EOTF of grey: luminance of three equal signals.
    [[nodiscard]] Luminance luminance(Signal grey) const;
    /// The signal of a grey of luminance `l`, 0 or more, else Error (domain).
    [[nodiscard]] Signal signal(Luminance l) const;

  private:
    static LinearRgb<Bt2020> rgb(const std::array<double, 3>& v) { return {v[0], v[1], v[2]}; }
    static void require_not_below_0(const char* where, double cd_m2);

    detail::HlgNumbers numbers_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/signals/impl/transfer_hlg.ipp"
#endif
