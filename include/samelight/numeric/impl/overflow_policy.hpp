#pragma once
// How Boost's functions are called that a quantile needs.
#include <boost/math/policies/policy.hpp>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// A result too large is infinite. By the default it throws; and Boost asks its inverse error function for one in long double before main() begins, which
/// is too large where long double has no more than double's range, as under valgrind: a program would end before it began.
using InfiniteOverflow = boost::math::policies::policy<
    boost::math::policies::overflow_error<boost::math::policies::ignore_error>>;

}  // namespace samelight::detail
