#pragma once
// The bodies of check/intent/intended_display.hpp.

#include <utility>

#include "samelight/check/intent/intended_display.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE IntendedDisplay::IntendedDisplay(RgbEncoding encoding, SignalCurve curve)
    : encoding_(std::move(encoding)), curve_(std::move(curve)) {}

SAMELIGHT_INLINE std::array<double, 3> IntendedDisplay::white() const {
    return xyz({1.0, 1.0, 1.0});
}

SAMELIGHT_INLINE std::array<double, 3> IntendedDisplay::xyz(
    const std::array<double, 3>& signal) const {
    return encoding_.tristimulus(curve_.light(signal)).values();
}

SAMELIGHT_INLINE SignalCurve::Signals IntendedDisplay::signals(
    const std::array<double, 3>& xyz) const {
    return curve_.signals(encoding_.linear_rgb({OfObserver<Cie1931_2deg>{}, xyz}));
}

SAMELIGHT_INLINE IntendedDisplay
IntendedDisplay::with_white(const Chromaticity<Cie1931_2deg>& white) const {
    const RgbPrimaries& p = encoding_.primaries();
    using Xy = Chromaticity<Cie1931_2deg>;
    return {RgbEncoding(encoding_.title(), {Xy(p.red[0], p.red[1]), Xy(p.green[0], p.green[1]),
                                            Xy(p.blue[0], p.blue[1]), white}),
            curve_};
}

}  // namespace samelight
