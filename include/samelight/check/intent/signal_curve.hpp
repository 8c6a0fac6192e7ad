#pragma once
// How the signals of a picture are meant to become light on a display: the curve, its white and its black.
#include <array>
#include <cstddef>
#include <optional>

#include "samelight/colour/luminance.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// Which curve leads from signal to light.
enum class CurveKind {
    /// ITU-R BT.1886, from the display's white and black.
    bt1886,
    /// A plain power above the black.
    power,
    /// IEC 61966-2-1.
    srgb,
    /// SMPTE ST 2084, as far as the display reaches.
    pq,
    /// Hybrid log-gamma of ITU-R BT.2100, with the system gamma of the display's peak.
    hlg
};

/// "bt1886", "power", "srgb", "pq" or "hlg".
inline const char* code_of(CurveKind kind) {
    constexpr std::array<const char*, 5> codes = {"bt1886", "power", "srgb", "pq", "hlg"};
    return codes.at(static_cast<std::size_t>(kind));
}

/// What is asked of a curve.
struct CurveOptions {
    CurveKind kind = CurveKind::bt1886;
    /// Luminance of the full white, cd/m2; with PQ and HLG the display's peak.
    double white_cd_m2 = 100.0;
    /// Luminance of signal 0, cd/m2: 0 or more, below a tenth of the white.
    double black_cd_m2 = 0.0;
    /// Of CurveKind::power, 0.1 to 10.
    double exponent = 2.4;
    /// Of CurveKind::pq: the peak of the programme, cd/m2, from which ITU-R BT.2390's curve rolls off to the display's. Absent: no roll-off, cut
    /// at the display's peak.
    std::optional<double> programme_peak_cd_m2 = {};
};

/// Light from signals, each channel in cd/m2: equal channels of L are a grey of luminance L.
///
/// BT.1886, power and sRGB reach from black to white; PQ is absolute, lifted to the black and cut or rolled off at the peak (BT.2390-8, 5.4.1, from
/// memory: Hermite knee from signal 1.5 m - 0.5 of the programme's range, m the display's peak in it, and the black lift b (1 - E)^4); HLG
/// has the channels act on each other by its system gamma, the weights those of BT.2100.
/// Range: signals of -0.1 to 1.1; below 0 and above 1 as the curve itself goes on there, but that PQ stays at the black and at the peak.
/// Error: that of the curve's own (Bt1886, PlainGamma, Srgb, Pq, HlgDisplay); back from light with PQ 1e-12 of a signal.
class SAMELIGHT_API SignalCurve {
  public:
    /// Throws Error (domain) for numbers outside the ranges of CurveOptions; with PQ for a peak above 10,000 cd/m2 or a black whose lift would turn
    /// the curve (above a quarter of the programme's range in signal, about 5 cd/m2); as HlgDisplay.
    explicit SignalCurve(const CurveOptions& options);

    /// As asked for.
    [[nodiscard]] const CurveOptions& options() const noexcept { return options_; }

    /// Light of the three signals, cd/m2. Throws Error (domain) outside -0.1 to 1.1.
    [[nodiscard]] std::array<double, 3> light(const std::array<double, 3>& signal) const;
    /// Luminance of a grey signal, cd/m2. Throws as light().
    [[nodiscard]] double grey(double signal) const;
    /// Signals of three lights, cd/m2: within 0 and 1, where the curve is so; lights beyond its ends give the end. `cut` says which.
    struct Signals {
        std::array<double, 3> signal;
        /// A light lay outside what the curve makes, by over 1e-6 of the white.
        bool cut;
    };
    /// The inverse of light(). Throws Error (domain) for lights that aren't finite.
    [[nodiscard]] Signals signals(const std::array<double, 3>& light_cd_m2) const;

    /// With PQ and a roll-off: the signal at which it begins to leave the standard's curve. Else absent.
    [[nodiscard]] std::optional<double> knee() const;

  private:
    void take_pq_range();
    [[nodiscard]] double pq(double signal) const;
    [[nodiscard]] double pq_signal(double luminance) const;
    [[nodiscard]] std::array<double, 3> own_signals(const std::array<double, 3>& light) const;

    CurveOptions options_;
    /// PQ: the programme's range, and the display's black and peak in it.
    double range_ = 1.0, least_ = 0.0, most_ = 1.0;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/intent/impl/signal_curve.ipp"
#endif
