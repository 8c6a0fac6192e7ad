#pragma once
// The bodies of colour/signals/transfer_hlg.hpp.

#include <array>
#include <cmath>
#include <numbers>
#include <string>

#include "samelight/colour/luminance.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/colour/signals/signal.hpp"
#include "samelight/colour/signals/transfer_hlg.hpp"
#include "samelight/colour/signals/transfer_sdr.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/math.hpp"
#include "samelight/numeric/text.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE double hlg_system_gamma(Luminance peak, HlgGamma formula) {
    const double relative = peak.cd_m2() / 1000.0;
    const bool usual =
        formula == HlgGamma::usual_range ||
        (formula == HlgGamma::by_peak && peak.cd_m2() >= 400.0 && peak.cd_m2() <= 2000.0);
    const double gamma = relative <= 0.0 ? 0.0
                         : usual         ? 1.2 + 0.42 * std::log10(relative)
                                         : 1.2 * std::pow(1.111, std::log2(relative));
    if (!(gamma > 0.0)) {
        throw Error(ErrorKind::domain, "hlg_system_gamma",
                    "peak " + to_text(peak.cd_m2()) + " cd/m2",
                    "a peak above 0 that gives a gamma above 0");
    }
    return gamma;
}

SAMELIGHT_INLINE Signal HlgScene::signal(LinearLight l) {
    return Signal(detail::hlg_oetf(l.value()));
}

SAMELIGHT_INLINE LinearLight HlgScene::light(Signal s) {
    return LinearLight(detail::hlg_oetf_inverse(s.value()));
}

SAMELIGHT_INLINE HlgDisplay::HlgDisplay(Luminance peak, Luminance black, HlgGamma formula)
    : numbers_{peak.cd_m2(), 0.0, 0.0} {
    if (!(peak.cd_m2() >= 1.0 && peak.cd_m2() <= 1e5) || !(black.cd_m2() >= 0.0) ||
        !(black < 0.1 * peak)) {
        throw Error(
            ErrorKind::domain, "HlgDisplay",
            "peak " + to_text(peak.cd_m2()) + " cd/m2, black " + to_text(black.cd_m2()) + " cd/m2",
            "a peak from 1 to 100000 cd/m2 and a black from 0 to below a tenth of it");
    }
    numbers_.gamma = hlg_system_gamma(peak, formula);
    numbers_.beta = std::sqrt(3.0 * std::pow(black.cd_m2() / peak.cd_m2(), 1.0 / numbers_.gamma));
}

SAMELIGHT_INLINE LinearRgb<Bt2020> HlgDisplay::ootf(const LinearRgb<Bt2020>& scene) const {
    return rgb(detail::hlg_ootf(scene.values(), numbers_));
}

SAMELIGHT_INLINE LinearRgb<Bt2020> HlgDisplay::ootf_inverse(
    const LinearRgb<Bt2020>& display) const {
    return rgb(detail::hlg_ootf_inverse(display.values(), numbers_));
}

SAMELIGHT_INLINE LinearRgb<Bt2020> HlgDisplay::light(const std::array<Signal, 3>& s) const {
    return rgb(detail::hlg_eotf<double>({s[0].value(), s[1].value(), s[2].value()}, numbers_));
}

SAMELIGHT_INLINE std::array<Signal, 3> HlgDisplay::signals(const LinearRgb<Bt2020>& display) const {
    for (const double value : display.values()) {
        require_not_below_0("HlgDisplay::signals", value);
    }
    const auto s = detail::hlg_eotf_inverse(display.values(), numbers_);
    return {Signal(s[0]), Signal(s[1]), Signal(s[2])};
}

SAMELIGHT_INLINE Luminance HlgDisplay::luminance(Signal grey) const {
    return Luminance(detail::hlg_luminance(grey.value(), numbers_));
}

SAMELIGHT_INLINE Signal HlgDisplay::signal(Luminance l) const {
    require_not_below_0("HlgDisplay::signal", l.cd_m2());
    return Signal(detail::hlg_signal(l.cd_m2(), numbers_));
}

SAMELIGHT_INLINE void HlgDisplay::require_not_below_0(const char* where, double cd_m2) {
    if (cd_m2 < 0.0) {
        throw Error(ErrorKind::domain, where, to_text(cd_m2) + " cd/m2", "light of 0 or more");
    }
}

}  // namespace samelight
