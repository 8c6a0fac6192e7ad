#pragma once
// The bodies of colour/signals/transfer_sdr.hpp.

#include <cmath>
#include <string>

#include "samelight/colour/luminance.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/colour/signals/transfer_sdr.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// White above black, black not below 0.
inline void require_display_range(const char* where, const Luminance& white,
                                  const Luminance& black) {
    if (!(black.cd_m2() >= 0.0) || !(white > black)) {
        throw Error(ErrorKind::domain, where,
                    "white " + to_text(white.cd_m2()) + " cd/m2, black " + to_text(black.cd_m2()) +
                        " cd/m2",
                    "a white above black and a black of 0 or more");
    }
}

}  // namespace samelight::detail

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE PlainGamma::PlainGamma(double exponent, Luminance white, Luminance black)
    : exponent_(exponent), white_(white), black_(black) {
    if (!(exponent >= 0.1 && exponent <= 10.0)) {
        throw Error(ErrorKind::domain, "PlainGamma", "exponent " + to_text(exponent),
                    "an exponent from 0.1 to 10");
    }
    detail::require_display_range("PlainGamma", white, black);
}

SAMELIGHT_INLINE Luminance PlainGamma::luminance(Signal s) const {
    return Luminance(detail::gamma_luminance(s.value(), exponent_, white_.cd_m2(), black_.cd_m2()));
}

SAMELIGHT_INLINE Signal PlainGamma::signal(Luminance l) const {
    return Signal(detail::gamma_signal(l.cd_m2(), exponent_, white_.cd_m2(), black_.cd_m2()));
}

SAMELIGHT_INLINE LinearLight Srgb::light(Signal s) {
    return LinearLight(detail::srgb_light(s.value()));
}

SAMELIGHT_INLINE Signal Srgb::signal(LinearLight l) {
    return Signal(detail::srgb_signal(l.value()));
}

SAMELIGHT_INLINE Bt1886::Bt1886(Luminance white, Luminance black) : white_(white), black_(black) {
    detail::require_display_range("Bt1886", white, black);
    const double white_root = std::pow(white.cd_m2(), 1.0 / 2.4);
    const double black_root = std::pow(black.cd_m2(), 1.0 / 2.4);
    gain_ = std::pow(white_root - black_root, 2.4);
    lift_ = black_root / (white_root - black_root);
}

SAMELIGHT_INLINE Luminance Bt1886::luminance(Signal s) const {
    return Luminance(detail::bt1886_luminance(s.value(), gain_, lift_));
}

SAMELIGHT_INLINE Signal Bt1886::signal(Luminance l) const {
    if (l.cd_m2() < 0.0) {
        throw Error(ErrorKind::domain, "Bt1886::signal", to_text(l.cd_m2()) + " cd/m2",
                    "a luminance of 0 or more");
    }
    return Signal(detail::bt1886_signal(l.cd_m2(), gain_, lift_));
}

}  // namespace samelight
