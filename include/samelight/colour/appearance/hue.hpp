#pragma once
// The angle of a point in a plane of two opponent responses, as degrees from 0 to 360.
#include "samelight/numeric/form.hpp"
#include "samelight/numeric/math.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Hue angle of (a, b), degrees, 0 <= h < 360; 0 for the origin, whatever the signs of its zeros. V a number or a batch.
template <class V>
V hue_degrees(const V& a, const V& b) {
    const V zero(math::constant<V>(0.0));
    const V turn(math::constant<V>(360.0));
    const V angle = math::select(a == zero && b == zero, zero,
                                 V(math::atan2(b, a) * math::degrees_per_radian<V>()));
    const V wrapped = math::select(angle < zero, V(angle + turn), angle);
    // The sum of 360 and a negative angle of almost nothing rounds to 360.
    return math::select(wrapped >= turn, zero, wrapped);
}

}  // namespace samelight::detail
