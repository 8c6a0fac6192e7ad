#pragma once
// The bodies of colour/appearance/ciecam16_viewing.hpp.

#include <array>
#include <cmath>
#include <cstddef>
#include <string>

#include "samelight/colour/appearance/adaptation.hpp"
#include "samelight/colour/appearance/ciecam16_viewing.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Surround::Surround(double F, double c, double Nc) : Surround(F, c, Nc, Checked{}) {
    if (!(F >= 0.0 && F <= 1.0) || !(c > 0.0) || !(Nc > 0.0) || !std::isfinite(c) ||
        !std::isfinite(Nc)) {
        throw Error(ErrorKind::domain, "Surround",
                    "F " + to_text(F) + ", c " + to_text(c) + ", Nc " + to_text(Nc),
                    "F from 0 to 1, c and Nc above 0");
    }
}

}  // namespace samelight

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE double compressed(double response, double gain) {
    const double p = gain * std::pow(response, 0.42);
    return 400.0 * p / (p + 27.13);
}

SAMELIGHT_INLINE double compression_slope(double response, double gain) {
    const double p = gain * std::pow(response, 0.42);
    return 400.0 * 0.42 * 27.13 * p / (response * (p + 27.13) * (p + 27.13));
}

SAMELIGHT_INLINE double compressed_white(double response, const CamParameters<double>& p,
                                         CamVersion version) {
    if (version == CamVersion::ciecam16 && response < ciecam16_lower) {
        return p.lower_slope * response;
    }
    if (version == CamVersion::ciecam16 && response > ciecam16_upper) {
        return p.upper_start + p.upper_slope * (response - ciecam16_upper);
    }
    return compressed(response, p.gain);
}

}  // namespace samelight::detail
