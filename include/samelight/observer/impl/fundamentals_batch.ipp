#pragma once
// The bodies of observer/fundamentals_batch.hpp.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <type_traits>
#include <utility>

#include "samelight/numeric/math.hpp"
#include "samelight/numeric/value_batch.hpp"
#include "samelight/observer/cone_fundamentals.hpp"
#include "samelight/observer/fundamentals_batch.hpp"
#include "samelight/observer/individual.hpp"
#include "samelight/observer/ocular_media.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

SAMELIGHT_INLINE SplitShift split_shift(double shift_nm) {
    const double whole = std::floor(-shift_nm);
    const double rest = -shift_nm - whole;
    const auto slope = static_cast<std::ptrdiff_t>(whole);
    return rest <= 0.5 ? SplitShift{slope, slope, rest} : SplitShift{slope + 1, slope, rest - 1.0};
}

SAMELIGHT_INLINE std::size_t s_reach(double shift_nm, std::size_t count) {
    constexpr double last = s_cone_last_nm - cone_first_nm;
    std::size_t reach = std::min(count, static_cast<std::size_t>(last + largest_shift_nm + 2.0));
    while (reach > 0 && s_ended(reach - 1, shift_nm)) {
        --reach;
    }
    return reach;
}

SAMELIGHT_INLINE PigmentDepth pigment_depth(double density) {
    PigmentDepth result{std::max(density * std::numbers::ln10, 1e-13)};
    while (result.depth > 2.0) {
        result.depth *= 0.5;
        ++result.halvings;
    }
    return result;
}

}  // namespace samelight::detail
