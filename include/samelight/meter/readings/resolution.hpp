#pragma once
// The digits that readings were written down with: rounding is noise that repeats don't show.
#include <array>
#include <cmath>
#include <cstddef>
#include <span>

#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The step between two values that an instrument can write down. All 0 where its readings are no decimals of up to six places: they are then
/// as good as exact.
struct SAMELIGHT_API Resolution {
    /// Step of X, Y and Z, cd/m2, where these were written down.
    double xyz = 0.0;
    /// Step of x and y, where these were.
    double xy = 0.0;
    /// Step of Y beside x and y, cd/m2.
    double luminance = 0.0;

    /// Whether the digits are known.
    [[nodiscard]] bool known() const noexcept { return xyz > 0.0 || xy > 0.0; }

    /// Covariance of x, y and relative Y that rounding gives one reading of x, y, Y: 3 x 3, row after row. A value that may be anything within
    /// its step has the variance step^2 / 12. Repeats that agree are all rounded alike, so their mean has it, too.
    /// Source: JCGM 100:2008, F.2.2.1.
    [[nodiscard]] CovarianceMatrix<3> covariance(const std::array<double, 3>& xyY) const;

    /// Step of x, y or relative Y (k = 0, 1, 2) at x, y, Y.
    [[nodiscard]] double step(const std::array<double, 3>& xyY, std::size_t k) const {
        return std::sqrt(12.0 * covariance(xyY).at(4 * k));
    }
};

/// The resolution of both instruments.
struct Resolutions {
    Resolution reference, meter;
};

/// The resolution of readings, from the digits they have: X, Y, Z with one number of places, or x, y with one and Y with another. Digits
/// that all happen to be 0 count as not written. Range: X, Y, Z finite. Own rule.
SAMELIGHT_API Resolution resolution_of(std::span<const std::array<double, 3>> xyz);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/readings/impl/resolution.ipp"
#endif
