#pragma once
// The least value of a function of one number, without derivatives.

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// Where a function with one minimum between `low` and `high` is least: golden sections until what is left is no wider than `width`
/// (above the rounding of `low` and `high`), which no kink stops. Error: half of `width`, or what rounding of `f` hides. Throws what `f` throws.
template <class F>
double golden_minimum(double low, double high, double width, F&& f) {
    constexpr double ratio = 0.618033988749894848;
    double left = high - ratio * (high - low);
    double right = low + ratio * (high - low);
    double at_left = f(left);
    double at_right = f(right);
    while (high - low > width) {
        if (at_left <= at_right) {
            high = right;
            right = left;
            at_right = at_left;
            left = high - ratio * (high - low);
            at_left = f(left);
        } else {
            low = left;
            left = right;
            at_left = at_right;
            right = low + ratio * (high - low);
            at_right = f(right);
        }
    }
    return 0.5 * (low + high);
}

}  // namespace samelight::detail
