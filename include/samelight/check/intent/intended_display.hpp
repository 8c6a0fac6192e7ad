#pragma once
// What a display is meant to show: primaries, the white that was chosen, and the curve. The target "white replaced".
#include <array>

#include "samelight/check/intent/signal_curve.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/standard.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// A display as it is meant to be: the light of any signals. All lights are CIE 1931 X, Y, Z in cd/m2.
class SAMELIGHT_API IntendedDisplay {
  public:
    /// Primaries and white of the encoding, and the curve.
    IntendedDisplay(RgbEncoding encoding, SignalCurve curve);

    /// The encoding and the curve, as given.
    [[nodiscard]] const RgbEncoding& encoding() const noexcept { return encoding_; }
    [[nodiscard]] const SignalCurve& curve() const noexcept { return curve_; }

    /// X, Y, Z of the full white, cd/m2: the reference white of colour differences.
    [[nodiscard]] std::array<double, 3> white() const;
    /// X, Y, Z of three signals (E', 0 black and 1 white), cd/m2. Throws Error (domain) outside -0.1 to 1.1.
    [[nodiscard]] std::array<double, 3> xyz(const std::array<double, 3>& signal) const;
    /// The signals of a light, X, Y, Z in cd/m2, cut to what the display can show. Error and meaning as SignalCurve::signals().
    [[nodiscard]] SignalCurve::Signals signals(const std::array<double, 3>& xyz) const;

    /// The same primaries and curve about another white: primaries keep x, y. Throws as RgbEncoding. Source: SMPTE RP 177:1993.
    [[nodiscard]] IntendedDisplay with_white(const Chromaticity<Cie1931_2deg>& white) const;

  private:
    RgbEncoding encoding_;
    SignalCurve curve_;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/check/intent/impl/intended_display.ipp"
#endif
