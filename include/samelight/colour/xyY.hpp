#pragma once
// What instruments say, three numbers of no observer: X, Y, Z or x, y, Y. For values that know their observer see Tristimulus and Chromaticity.
#include <array>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// X, Y, Z from x, y, Y. Throws Error (domain) unless y is above 0 and all three are finite. Source: CIE 15:2018, 7.3.
SAMELIGHT_API std::array<double, 3> xyz_from_xyY(double x, double y, double Y);

/// x, y, Y from X, Y, Z; the inverse of xyz_from_xyY. No check: NaN where the sum is 0. Source: the definition of x and y (CIE 15:2018).
SAMELIGHT_API std::array<double, 3> xyY_from_xyz(const std::array<double, 3>& xyz);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/colour/impl/xyY.ipp"
#endif
