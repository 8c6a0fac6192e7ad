#pragma once
// The bodies of colour/signals/rgb.hpp.

#include <array>
#include <cmath>
#include <concepts>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/colour/signals/matrix3.hpp"
#include "samelight/colour/signals/rgb.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/identity.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

SAMELIGHT_INLINE Tristimulus<Cie1931_2deg> RgbEncoding::tristimulus(
    const std::array<double, 3>& rgb) const {
    return {OfObserver<Cie1931_2deg>{}, detail::times(xyz_from_rgb_, rgb)};
}

SAMELIGHT_INLINE std::array<double, 3> RgbEncoding::linear_rgb(
    const Tristimulus<Cie1931_2deg>& t) const {
    return detail::times(rgb_from_xyz_, t.values());
}

SAMELIGHT_INLINE RgbEncoding::RgbEncoding(std::string title, const RgbPrimaries& primaries)
    : title_(std::move(title)), primaries_(primaries) {
    validate();
    xyz_from_rgb_ = detail::rp177(primaries_);
    rgb_from_xyz_ = detail::inverse(xyz_from_rgb_);
}

SAMELIGHT_INLINE void RgbEncoding::validate() const {
    const std::string where = "RgbEncoding " + title_;
    // Twice the triangle's area in x, y; below 1e-9 the inverse would hold nothing but rounding.
    if (!(std::abs(detail::determinant(detail::primary_columns(primaries_))) > 1e-9)) {
        throw Error(ErrorKind::singular, where, "primaries on one line",
                    "primaries that span the plane");
    }
    if (primaries_.white[1] == 0.0) {
        throw Error(ErrorKind::domain, where, "a white with y = 0", "a white with y above 0");
    }
    for (const double weight : detail::primary_weights(primaries_)) {
        if (!(weight > 0.0)) {
            throw Error(ErrorKind::domain, where,
                        "a white of " + to_text(primaries_.white[0]) + ", " +
                            to_text(primaries_.white[1]) + " outside the primaries' triangle",
                        "a white inside it");
        }
    }
}

}  // namespace samelight
